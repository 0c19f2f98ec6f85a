//! Pictures of the screen in `screenshots`, compared with what is shown now.
//!
//! After a change that is meant to show, write them anew and look at them:
//!
//! ```text
//! BAYWRIGHT_WRITE_PICTURES=1 cargo test --test desk pictures
//! ```

use std::path::{Path, PathBuf};

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfBay, OfCar, OfView};
use baywright_desk::screen::page::{NewBay, Page};
use baywright_desk::screen::view::Letters;
use baywright_desk::session::room_draft::{RoomDraft, TypedIn, WallTyped};
use baywright_drawing::Theme;
use baywright_planner::Subject;
use egui::Vec2;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use image::RgbaImage;

use crate::support::{demo, desk, screen, type_into, usual};

/// So many px of a picture may differ by more than a shade: none in practice, a few where another processor rounds.
const MOST_PX: usize = 40;
/// A shade: this much of 255 in any channel.
const SHADE: u8 = 6;

fn compare(file: &str, screen: &mut Harness<'_, Desk>) -> Result<(), String> {
    // Whether the caret of a box is lit just now hangs on how many frames went by: here it always is.
    screen.ctx.all_styles_mut(|style| style.visuals.text_cursor.blink = false);
    screen.step();
    let is = screen.render()?;
    let path: PathBuf = Path::new(env!("CARGO_MANIFEST_DIR")).join("screenshots").join(file);
    if std::env::var_os("BAYWRIGHT_WRITE_PICTURES").is_some_and(|wish| wish == "1") {
        return is.save(&path).map_err(|error| error.to_string());
    }
    let was = image::open(&path).map_err(|error| format!("{file}: {error}"))?.to_rgba8();
    let differ = differing(&was, &is).ok_or_else(|| format!("{file}: another size"))?;
    if differ > MOST_PX {
        let other = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(file);
        is.save(&other).map_err(|error| error.to_string())?;
        return Err(format!("{file}: {differ} px differ; it is now {}", other.display()));
    }
    Ok(())
}

fn differing(was: &RgbaImage, is: &RgbaImage) -> Option<usize> {
    let alike =
        |a: &image::Rgba<u8>, b: &image::Rgba<u8>| a.0.iter().zip(b.0).all(|(a, b)| a.abs_diff(b) <= SHADE);
    (was.dimensions() == is.dimensions())
        .then(|| was.pixels().zip(is.pixels()).filter(|(a, b)| !alike(a, b)).count())
}

#[test]
fn pictures_are_what_is_shown() {
    let mut wrong = Vec::new();
    let mut check = |file: &str, screen: &mut Harness<'_, Desk>| wrong.extend(compare(file, screen).err());

    let mut light = usual(demo());
    check("desk-crowded-bay.png", &mut light);
    light.state_mut().view_mut().theme = Theme::Dark;
    light.run();
    check("desk-crowded-bay-dark.png", &mut light);

    let mut applied = usual(demo());
    applied.get_by_label("Move it: Tool cabinet is inside the keep-clear zone “metal-free area”").click();
    applied.run();
    check("desk-one-finding-applied.png", &mut applied);

    let mut clear = usual(desk(Path::new("clear-bay"), None));
    check("desk-clear-bay.png", &mut clear);

    let mut lift = usual(desk(Path::new("lift-bay"), None));
    check("desk-lift-bay.png", &mut lift);

    let mut hall = usual(desk(Path::new("hall"), None));
    let ctx = hall.ctx.clone();
    let reaching = "Estate, rear left corner radar, in the service bay";
    hall.state_mut().ask(&ctx, Command::Bay(OfBay::Show(reaching.into())));
    hall.run();
    check("desk-hall.png", &mut hall);

    let mut large = screen(demo(), Vec2::new(1920.0, 1080.0), 1.0);
    large.state_mut().view_mut().letters = Letters::LARGE;
    large.run();
    check("desk-large-letters.png", &mut large);

    let mut in_hand = screen(demo(), Vec2::new(1280.0, 720.0), 1.0);
    let ctx = in_hand.ctx.clone();
    in_hand.state_mut().ask(&ctx, Command::View(OfView::Select(Some(Subject::Thing("tool cabinet".into())))));
    in_hand.run();
    check("desk-in-hand.png", &mut in_hand);

    let mut car = usual(demo());
    let ctx = car.ctx.clone();
    car.state_mut().ask(&ctx, Command::Car(OfCar::Begin(Begin::New)));
    car.run();
    for (label, typed) in [("Length", "4300"), ("Wheelbase", "2640"), ("Radar left of centreline", "-120")] {
        type_into(&mut car, label, typed);
    }
    check("desk-your-car.png", &mut car);

    let mut bay = usual(demo());
    let mut room = RoomDraft::new("My bay", TypedIn::Millimetres);
    room.taped = true;
    let walls =
        [("9000", "90"), ("4000", "90"), ("3000", "-90"), ("3000", "90"), ("5960", "90"), ("7000", "90")];
    room.walls = walls
        .map(|(length, turn)| WallTyped { length: length.into(), turn: turn.into(), name: String::new() })
        .to_vec();
    bay.state_mut().lay(Some(Page::NewBay(NewBay::of(room))));
    bay.run();
    check("desk-new-bay.png", &mut bay);

    let mut shop = usual(demo());
    let ctx = shop.ctx.clone();
    shop.state_mut().ask(&ctx, Command::Page(Some(Page::Shop)));
    shop.run();
    check("desk-shop-settings.png", &mut shop);

    let mut paper = crate::on_paper::on_paper(demo());
    crate::on_paper::type_path(&mut paper, Path::new("crowded-bay.pdf"));
    crate::on_paper::settle(&mut paper);
    check("desk-on-paper.png", &mut paper);

    let (folder, mut record) =
        crate::record::shown("picture", baywright_planner::model::record::StepKind::CheckDistances);
    check("desk-record.png", &mut record);
    drop(record);
    crate::support::clear(folder);

    let mut drawing = usual(demo());
    crate::room_drawing::show(&mut drawing, "blocks-r2010.dxf");
    crate::room_drawing::becomes(&mut drawing, "F", "things");
    drawing.get_by_label("The room of this bay").click();
    crate::room_drawing::settle(&mut drawing);
    // Where it lies on this machine is nobody's business.
    crate::room_drawing::type_path(&mut drawing, "hall.dxf");
    check("desk-room-drawing.png", &mut drawing);

    let mut both = usual(demo());
    let ctx = both.ctx.clone();
    for command in [
        Command::Bay(OfBay::Duplicate),
        Command::Bay(OfBay::KeepPromise),
        Command::Page(Some(Page::Compare(Default::default()))),
    ] {
        both.state_mut().ask(&ctx, command);
        both.run();
    }
    check("desk-before-and-after.png", &mut both);

    let mut planned = usual(demo());
    crate::building::planned(&mut planned);
    planned.get_by_label(crate::building::SIGN).click();
    planned.run();
    check("desk-as-planned.png", &mut planned);

    let mut echoes = crate::echoes::opened("crowded-bay");
    let first = crate::echoes::of_core(&echoes);
    let first = first.iter().flat_map(|own| &own.echoes).find(|own| own.heard.matters()).unwrap();
    crate::echoes::shown(&mut echoes, first);
    check("desk-echoes.png", &mut echoes);

    assert!(wrong.is_empty(), "look, and write anew with BAYWRIGHT_WRITE_PICTURES=1\n{}", wrong.join("\n"));
}
