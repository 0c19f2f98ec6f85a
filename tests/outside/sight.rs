//! Shares of targets against shapely on GEOS: 60 random views in space (`sight.json`, made by `sight.py`, which names its
//! versions, unites the projected faces of every thing without hulls or pieces, and checks itself against rays).

use baywright_geometry::{Circle, DVec2, DVec3, Face, Outline, Polygon, Prism, Share, Span, target_share};
use serde::Deserialize;

/// Straight things: the script unites on a grid of 1e-7 mm, along up to some 1e4 mm of shadows' edges on a face of 3e4 mm²
/// and more.
const SHARE: f64 = 1e-7;

/// Round things: the script's polygons of 4096 corners cross the circle by up to 1.2e-4 mm, seen up to ten times
/// larger, over up to a few metres of a face of 1e5 mm² and more.
const ROUND_SHARE: f64 = 1e-5;

#[derive(Deserialize)]
struct Table {
    library: String,
    cases: Vec<Case>,
}

#[derive(Deserialize)]
struct Case {
    sensor: [f64; 3],
    centre: [f64; 3],
    heading: f64,
    pitch: f64,
    width: f64,
    height: f64,
    things: Vec<Thing>,
    share: f64,
    /// With every round thing thicker by the sagitta that a stand-in polygon is allowed.
    thick: Option<f64>,
    alone: Vec<f64>,
}

#[derive(Deserialize)]
struct Thing {
    circle: Option<[f64; 3]>,
    #[serde(default)]
    rings: Vec<Vec<[f64; 2]>>,
    bottom: f64,
    top: f64,
}

impl Thing {
    fn prism(&self) -> Prism {
        let outline: Outline = match self.circle {
            Some([x, y, r]) => Circle::new(DVec2::new(x, y), r).unwrap().into(),
            None => {
                let mut rings = self.rings.iter().map(|ring| ring.iter().map(|&p| DVec2::from(p)).collect());
                Polygon::new(rings.next().unwrap(), rings.collect()).unwrap().into()
            }
        };
        Prism::new(outline, Span::new(self.bottom, self.top).unwrap())
    }
}

#[test]
fn shares_of_targets_past_things() {
    let table: Table = serde_json::from_str(include_str!("sight.json")).unwrap();
    assert!(table.library.starts_with("shapely"));
    assert!(table.cases.len() >= 50);
    for (i, case) in table.cases.iter().enumerate() {
        let face =
            Face::new(DVec3::from(case.centre), case.heading, case.pitch, case.width, case.height).unwrap();
        let things: Vec<Prism> = case.things.iter().map(Thing::prism).collect();
        let Share::Seen(seen) =
            target_share(DVec3::from(case.sensor), &face, &things.iter().collect::<Vec<_>>())
        else {
            panic!("case {i} has an answer");
        };
        let (low, high) = match case.thick {
            Some(thick) => (thick - ROUND_SHARE, case.share + ROUND_SHARE),
            None => (case.share - SHARE, case.share + SHARE),
        };
        assert!((low..=high).contains(&seen.share), "case {i}: {} not {}", seen.share, case.share);
        for (thing, &alone) in case.alone.iter().enumerate() {
            let found =
                seen.hidden_by.iter().find(|hider| hider.thing == thing).map_or(0.0, |hider| hider.share);
            // A round thing alone may hide as much more as all of them may together.
            let slack = case.thick.map_or(SHARE, |thick| case.share - thick + 1e-3);
            assert!((found - alone).abs() <= slack, "case {i}, thing {thing}: {found} not {alone}");
        }
    }
}

/// The table is worth little if nothing in it is hard: count what it holds.
#[test]
fn the_views_are_of_every_kind() {
    let table: Table = serde_json::from_str(include_str!("sight.json")).unwrap();
    let count = |which: &dyn Fn(&Case) -> bool| table.cases.iter().filter(|case| which(case)).count();
    assert!(count(&|case| case.pitch < -1.5) >= 5, "mats");
    assert!(count(&|case| case.thick.is_some()) >= 10, "round things");
    assert!(count(&|case| case.thick.is_none()) >= 10, "straight things only");
    assert!(count(&|case| case.things.iter().any(|thing| thing.bottom > 0.0)) >= 10, "overhead");
    assert!(count(&|case| case.things.iter().any(|thing| thing.rings.len() > 1)) >= 5, "frames");
    assert!(count(&|case| (0.05..0.95).contains(&case.share)) >= 25, "partly seen");
}
