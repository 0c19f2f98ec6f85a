//! Any bytes as a drawing of another program: what is in it, and a bay of its layers that can be saved, or a sentence; never a panic.

use std::time::{Duration, Instant};

use baywright_files::{DxfChoice, DxfDrawing, DxfNames, DxfUnit, layout_text, parse_dxf};
use baywright_planner::entry::first_layout;
use baywright_planner::geometry::DVec2;
use baywright_planner::words::Language;

/// Asks of these bytes all that is promised; whether they are a drawing.
pub fn ask(bytes: &[u8]) -> bool {
    let begun = Instant::now();
    let read = parse_dxf("fuzz.dxf", bytes);
    match &read {
        Ok(drawing) => every_layer_as_a_room(drawing),
        Err(fault) => assert!(Language::English.file_fault(fault).ends_with('.')),
    }
    // In a build that is hardly optimised, with others on the machine.
    assert!(begun.elapsed() < Duration::from_secs(60), "{} bytes took {:?}", bytes.len(), begun.elapsed());
    read.is_ok()
}

/// Each of the first layers as the room, all others as walls or things.
fn every_layer_as_a_room(drawing: &DxfDrawing) {
    const MOST: usize = 6;
    let names = DxfNames {
        room_wall: &|number| format!("wall {number}"),
        inner_wall: &|number| format!("inner wall {number}"),
        thing: &|number| format!("thing {number}"),
    };
    let car = baywright_files::Library::built_in().find(&"example-saloon".into()).ok().flatten();
    assert!(car.is_some());
    let Some(car) = car else { return };
    for (at, room) in drawing.layers.iter().enumerate().take(MOST) {
        let others: Vec<String> = drawing.layers.iter().map(|own| own.name.clone()).take(MOST).collect();
        let choice = DxfChoice {
            room: room.name.clone(),
            outline: (at % 2 == 1).then_some(1),
            walls: others.iter().step_by(2).cloned().collect(),
            things: others.into_iter().skip(1).step_by(2).collect(),
            mm_per_unit: DxfUnit::ALL[at % DxfUnit::ALL.len()].mm(),
            gap_mm: 10.0 * at as f64,
            wall_mm: 100.0,
            ceiling_mm: 3_000.0,
            low_at: (at % 3 == 2).then_some(DVec2::ZERO),
        };
        match drawing.bay(&choice, &names, "bay".into(), "Bay".to_owned()) {
            Ok(made) => {
                let aiming = car.vehicle.aimings[0].id.clone();
                let layout = first_layout(made.bay, "As drawn".into(), &car.vehicle, None, aiming);
                // What cannot be saved says why.
                for fault in layout_text(&layout).err().unwrap_or_default() {
                    assert!(Language::English.file_fault(&fault).ends_with('.'));
                }
            }
            Err(fault) => assert!(Language::English.file_fault(&fault).ends_with('.')),
        }
    }
}
