//! Visibility polygons against shapely on GEOS: 40 random rooms with things (`rooms.json`, made by `rooms.py`, which names
//! its versions, takes the shadow of every edge away instead of sweeping, and checks itself against rays).

use baywright_geometry::polygon::signed_area;
use baywright_geometry::{DVec2, Outline, Polygon, Visibility, visibility};
use serde::Deserialize;

/// Corners of the shadows lie up to 4e4 mm out, so that their sides turn by 1e-16 about corners up to 1e4 mm away; the table
/// prints four decimals of areas up to 1e8 mm², whose own last place is 1.5e-8.
const AREA_MM2: f64 = 1e-3;

#[derive(Deserialize)]
struct Table {
    library: String,
    cases: Vec<Case>,
}

#[derive(Deserialize)]
struct Case {
    room: Vec<Vec<[f64; 2]>>,
    things: Vec<Vec<Vec<[f64; 2]>>>,
    eye: [f64; 2],
    area: f64,
}

fn polygon(rings: &[Vec<[f64; 2]>]) -> Polygon {
    let mut rings = rings.iter().map(|ring| ring.iter().map(|&p| DVec2::from(p)).collect());
    Polygon::new(rings.next().unwrap(), rings.collect()).unwrap()
}

#[test]
fn areas_seen_in_rooms() {
    let table: Table = serde_json::from_str(include_str!("rooms.json")).unwrap();
    assert!(table.library.starts_with("shapely"));
    assert!(table.cases.len() >= 20);
    let mut partly = 0;
    for (i, case) in table.cases.iter().enumerate() {
        let room = polygon(&case.room);
        let things: Vec<Outline> = case.things.iter().map(|thing| polygon(thing).into()).collect();
        let things: Vec<&Outline> = things.iter().collect();
        let Visibility::Sees(ring) = visibility(DVec2::from(case.eye), &room, &things) else {
            panic!("room {i} has an answer");
        };
        let area = signed_area(&ring);
        assert!((area - case.area).abs() <= AREA_MM2, "room {i}: {area} not {}", case.area);
        partly += usize::from(case.area < 0.9 * room.area());
    }
    assert!(partly >= 20, "in most rooms something is hidden");
}
