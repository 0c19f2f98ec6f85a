//! Feasible areas against shapely on GEOS: 24 random bays, 72 headings each (`areas.txt`, made by `areas.py`, which names the
//! library's versions).

use baywright_planner::geometry::{Circle, DVec2, Outline, Polygon, angle};
use baywright_planner::place::Search;

use crate::support::*;

/// Both sides work in `f64` on sums of lengths up to 3e4 mm: rounding of areas of up to 1e8 mm².
const AREA_MM2: f64 = 1.0;
/// A round thing is taken larger by up to this here, and the script's polygon lies in the circle by up to 0.01 mm, mm.
const ROUND_MM: f64 = 0.42;

pub struct Case {
    pub arrangement: Arrangement,
    is_round: bool,
    areas: Vec<f64>,
}

fn points(figures: &[f64]) -> Vec<DVec2> {
    figures.chunks_exact(2).map(|own| DVec2::new(own[0], own[1])).collect()
}

fn polygon(figures: &[f64]) -> Polygon {
    Polygon::simple(points(figures)).unwrap()
}

/// A thing whose outline is given about its place.
fn standing(name: usize, outline: Outline, heights: Span) -> Thing {
    let (shape, at) = match outline {
        Outline::Circle(circle) => (Shape::Round { diameter_mm: 2.0 * circle.radius() }, circle.centre()),
        Outline::Polygon(polygon) => (Shape::Outline(polygon.outer().to_vec()), DVec2::ZERO),
    };
    Thing {
        footprint: Footprint::new(shape).unwrap(),
        span: heights,
        ..cabinet(&format!("thing {name}"), (at.x, at.y), 1.0, 1.0)
    }
}

pub fn cases() -> Vec<Case> {
    let table = include_str!("areas.txt");
    assert!(table.starts_with("# shapely"));
    let mut cases: Vec<Case> = Vec::new();
    for line in table.lines().skip(1) {
        let (what, rest) = line.split_once(' ').unwrap_or((line, ""));
        let figures: Vec<f64> = rest.split_whitespace().map(|own| own.parse().unwrap()).collect();
        if what == "bay" {
            let mut arrangement = clear();
            arrangement.bay.survey = None;
            arrangement.bay.ceiling_mm = 5_000.0;
            arrangement.vehicle.body = Vec::new().into();
            arrangement.aiming.zones.clear();
            arrangement.aiming.placements.clear();
            arrangement.aiming.mark_plan.clear();
            arrangement.stands.clear();
            cases.push(Case { arrangement, is_round: false, areas: Vec::new() });
            continue;
        }
        let case = cases.last_mut().unwrap();
        let own = &mut case.arrangement;
        let heights = || span(figures[0], figures[1]);
        match what {
            "room" => {
                own.bay.room = polygon(&figures);
                let walls = (0..own.bay.room.outer().len())
                    .map(|nth| Wall { id: format!("{nth}").as_str().into(), material: Material::Brick });
                own.bay.walls = walls.collect();
            }
            "car" => {
                let mut solids = own.vehicle.solids().to_vec();
                solids.push(Prism::new(polygon(&figures[2..]).into(), heights()));
                own.vehicle.body = solids.into();
            }
            "zone" => own.aiming.zones.push(KeepClear {
                id: format!("zone {}", own.aiming.zones.len()).as_str().into(),
                frame: ZoneFrame::Vehicle,
                outline: polygon(&figures[2..]).into(),
                span: heights(),
                heights_from: HeightsFrom::Floor,
                excludes: Exclusion::Anything,
            }),
            "ring" => {
                own.bay.things.push(standing(own.bay.things.len(), polygon(&figures[2..]).into(), heights()))
            }
            "round" => {
                case.is_round = true;
                let disc = Circle::new(DVec2::new(figures[2], figures[3]), figures[4]).unwrap();
                own.bay.things.push(standing(own.bay.things.len(), disc.into(), heights()));
            }
            _ => case.areas = figures,
        }
    }
    cases
}

#[test]
fn areas_agree_with_an_independent_library() {
    let (mut told, mut worst) = (0, 0.0_f64);
    let cases = cases();
    assert!(cases.len() >= 20);
    for (nth, case) in cases.iter().enumerate() {
        let search = Search::new(&case.arrangement);
        assert!(search.everywhere().is_empty(), "bay {nth}: {:?}", search.everywhere());
        assert_eq!(case.areas.len(), 72);
        for (step, expected) in case.areas.iter().enumerate() {
            let places = search.places(angle::radians(5.0 * step as f64));
            let got = places.fits.area();
            let round: f64 = places
                .fits
                .rings()
                .flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)))
                .map(|(a, b)| a.distance(*b))
                .sum();
            // What is left out round a round thing is along the edge; a shape that closes may be lost with it.
            let slack = if case.is_round { AREA_MM2 + ROUND_MM * round + 200.0 } else { AREA_MM2 };
            assert!((got - expected).abs() <= slack, "bay {nth} at {}°: {got}, not {expected}", 5 * step);
            told += usize::from(*expected > 0.0);
            worst = worst.max((got - expected).abs() / slack);
        }
    }
    assert!(told >= 500, "only {told} areas are of something; {worst}");
}
