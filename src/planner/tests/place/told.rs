//! What is said of a place is what the checks find there, in bays where each rule of the regions has something to say.

use baywright_planner::geometry::{DVec2, PlanPose, angle};
use baywright_planner::place::{BAND_MM, Fit, Search, stood};

use crate::support::*;

/// Asks at places spread evenly over a bay, and at those a little beside every edge of the regions; how many fit, do not, and are
/// undecided.
pub fn asked(arrangement: &Arrangement, degrees: &[f64], steps: usize) -> [usize; 3] {
    let search = Search::new(arrangement);
    let mut told = [0; 3];
    for &degrees in degrees {
        let places = search.places(angle::radians(degrees));
        let bounds = arrangement.bay.room.bounds();
        let size = bounds.size() / steps as f64;
        // Never on a round figure, where walls and things are.
        let spread = (0..steps * steps).map(|i| {
            let (x, y) = ((i % steps) as f64 + 0.513, (i / steps) as f64 + 0.487);
            bounds.low + DVec2::new(x, y) * size
        });
        let edges = places.fits.rings().chain(places.undecided.rings()).flat_map(|ring| {
            let next = ring.iter().cycle().skip(1);
            ring.iter().zip(next).flat_map(|(&a, &b)| {
                let out = (b - a).normalize_or_zero().perp() * -1.5 * BAND_MM;
                [(a + b) * 0.5 + out, (a + b) * 0.5 - out, a + (b - a) * 0.9 + out, a + (b - a) * 0.1 - out]
            })
        });
        for place in spread.chain(edges.collect::<Vec<_>>()) {
            let fit = places.at(place);
            told[fit as usize] += 1;
            let at = stood(arrangement, PlanPose::new(place, angle::radians(degrees)));
            let stops: Vec<_> =
                judge(&at).findings.into_iter().filter(|own| own.severity == Severity::Stops).collect();
            match fit {
                Fit::Fits => assert!(stops.is_empty(), "{place} at {degrees}° fits, but {stops:#?}"),
                Fit::Not if stops.is_empty() => {
                    let apart = places.fits.to_edge(place).min(places.undecided.to_edge(place));
                    assert!(
                        apart <= BAND_MM,
                        "{place} at {degrees}° does not fit, but nothing stops there; {apart}"
                    );
                }
                Fit::Not | Fit::Undecided => {}
            }
        }
    }
    told
}

use crate::{Severity, judge};

const HEADINGS: [f64; 6] = [0.0, 180.0, 90.0, 3.0, -20.0, 201.5];

#[test]
fn among_things() {
    let mut low = cabinet("low box", (5_600.0, 1_800.0), 300.0, 300.0);
    low.span = span(0.0, 320.0);
    let mut high = cabinet("hanging", (7_000.0, 4_400.0), 700.0, 300.0);
    high.span = span(690.0, 2_900.0);
    let mut arrangement = with(vec![
        column("column", (9_500.0, 900.0), 300.0),
        cabinet("bench", (2_000.0, 5_600.0), 1_800.0, 500.0),
        low,
        high,
    ]);
    arrangement.bay.room = rectangle((0.0, 0.0), (13_000.0, 6_500.0));
    let told = asked(&arrangement, &HEADINGS, 25);
    assert!(told[0] > 20 && told[1] > 500, "{told:?}");
    // Without zones the sight is what decides, and its undecided parts are small.
    arrangement.aiming.zones.clear();
    let told = asked(&arrangement, &HEADINGS, 25);
    assert!(told[0] > 20, "{told:?}");
    let search = Search::new(&arrangement);
    for degrees in HEADINGS {
        let share = search.places(angle::radians(degrees)).undecided.area() / arrangement.bay.room.area();
        assert!(share < 0.02, "{degrees}°: {share}");
    }
}

#[test]
fn over_the_floor_and_by_its_doors() {
    let mut arrangement = clear();
    arrangement.bay.room = rectangle((0.0, 0.0), (14_000.0, 7_000.0));
    arrangement.bay.openings = vec![open_door(3, 2_000.0, 3_200.0, 1_500.0)];
    let feature = |id: &str, kind, low, high, proud_mm| FloorFeature {
        id: id.into(),
        kind,
        outline: rectangle(low, high),
        material: Material::Steel,
        proud_mm,
    };
    arrangement.bay.floor_features = vec![
        feature("drain", FloorFeatureKind::Drain, (3_000.0, 3_000.0), (5_000.0, 3_100.0), 0.0),
        feature("pit", FloorFeatureKind::Pit, (9_000.0, 5_000.0), (9_600.0, 6_000.0), 0.0),
        feature("lip", FloorFeatureKind::Joint, (11_500.0, 0.0), (11_600.0, 3_000.0), 30.0),
        feature("kerb", FloorFeatureKind::Joint, (600.0, 5_000.0), (1_200.0, 5_300.0), 120.0),
    ];
    let told = asked(&arrangement, &HEADINGS, 25);
    assert!(told[0] > 20 && told[1] > 500, "{told:?}");
    arrangement.aiming.zones.clear();
    asked(&arrangement, &HEADINGS, 25);
}

#[test]
fn on_runways() {
    let arrangement = raised();
    let told = asked(&arrangement, &[0.0, 0.3, 180.0, 2.0], 25);
    assert!(told[1] > 500, "{told:?}");
    // Idle, they are in the way.
    let mut idle = raised();
    idle.on_runways.clear();
    asked(&idle, &HEADINGS, 25);
}

#[test]
fn on_a_floor_that_falls() {
    let mut arrangement = clear();
    arrangement.bay.room = rectangle((0.0, 0.0), (13_000.0, 6_500.0));
    let survey = arrangement.bay.survey.as_mut().unwrap();
    // Level up to the middle of the bay, then falling.
    let fall = |at: DVec2| (at.x - 7_000.0).max(0.0) * 0.0025 + (at.y - 4_000.0).max(0.0) * 0.002;
    survey.points.change(|points| points.iter_mut().for_each(|own| own.level_mm = -fall(own.at)));
    let told = asked(&arrangement, &[0.0, 180.0, 7.0], 25);
    assert!(told[0] > 20 && told[1] > 500, "{told:?}");
    let search = Search::new(&arrangement);
    for degrees in [0.0, 180.0, 7.0] {
        let places = search.places(angle::radians(degrees));
        let share = places.undecided.area() / arrangement.bay.room.area();
        assert!(share < 0.02, "{degrees}°: {share}");
    }
}
