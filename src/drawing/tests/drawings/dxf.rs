//! DXF, read back by a reader that shares no code with its writer: the `dxf` library.

use ::dxf::Drawing;
use ::dxf::entities::EntityType;
use ::dxf::enums::Units;
use baywright_drawing::to_dxf;
use baywright_planner::geometry::{DVec2, Outline, PlanPose};
use baywright_planner::model::{
    Arrangement, DimensionEnd, FloorSurvey, KeptDimension, LevelPoint, LevelsTaken,
};
use baywright_planner::model::{PermanentMark, Provenance, Shape, ThingKind};
use baywright_planner::words::{Language, Locale};
use baywright_planner::{Scene, assess};

use super::bay;

/// What the file may be off by, mm: it is written to a millionth.
const OFF_MM: f64 = 0.01;

fn text(arrangement: &Arrangement) -> Vec<u8> {
    to_dxf(arrangement, &assess(arrangement), Locale::default())
}

fn read(mut text: &[u8]) -> Drawing {
    Drawing::load(&mut text).unwrap()
}

/// The corners of every closed outline of a layer, in the file's order.
fn rings(drawing: &Drawing, layer: &str) -> Vec<Vec<DVec2>> {
    let own = drawing.entities().filter(|own| own.common.layer == layer);
    let rings = own.filter_map(|own| match &own.specific {
        EntityType::LwPolyline(line) => {
            assert!(line.is_closed(), "{layer}");
            Some(line.vertices.iter().map(|own| DVec2::new(own.x, own.y)).collect())
        }
        _ => None,
    });
    rings.collect()
}

fn points(drawing: &Drawing, layer: &str) -> Vec<[f64; 3]> {
    let own = drawing.entities().filter(|own| own.common.layer == layer);
    let points = own.filter_map(|own| match &own.specific {
        EntityType::ModelPoint(point) => Some([point.location.x, point.location.y, point.location.z]),
        _ => None,
    });
    points.collect()
}

fn texts(drawing: &Drawing, layer: &str) -> Vec<String> {
    let own = drawing.entities().filter(|own| own.common.layer == layer);
    let texts = own.filter_map(|own| match &own.specific {
        EntityType::Text(text) => Some(text.value.clone()),
        _ => None,
    });
    texts.collect()
}

fn same(found: &[DVec2], meant: &[DVec2]) {
    assert_eq!(found.len(), meant.len(), "{found:?} for {meant:?}");
    for (found, meant) in found.iter().zip(meant) {
        assert!(found.distance(*meant) < OFF_MM, "{found} for {meant}");
    }
}

/// A bay at an angle and far from its origin, with a round thing, levels, a mark that stays and a dimension.
fn everything() -> Arrangement {
    let mut arrangement = bay::crowded();
    let turn = PlanPose::new(DVec2::new(-7_321.437, 1_987.604), 0.371);
    arrangement.bay.room = arrangement.bay.room.placed(&turn);
    arrangement.parked = turn * arrangement.parked;
    for thing in &mut arrangement.bay.things {
        thing.place.at = turn * thing.place.at;
    }
    let at = |x, y| turn * DVec2::new(x, y);
    let drum = Shape::Round { diameter_mm: 585.25 };
    let place = at(1_500.0, 1_200.0);
    let mut drum = bay::thing("drum", ThingKind::Drum, drum, (place.x, place.y), (0.0, 900.0));
    drum.id = "drum × \u{2265} 2".into();
    arrangement.bay.things.push(drum);
    let level = |x, y, level_mm| LevelPoint { at: at(x, y), level_mm };
    let points = vec![level(500.0, 500.0, 0.0), level(4_000.0, 500.0, 1.5), level(500.0, 3_000.0, -2.25)];
    let (points, provenance) = (points.into(), Provenance::Example);
    arrangement.bay.marks.push(PermanentMark::new("A".into(), at(900.0, 900.0)));
    arrangement.bay.survey =
        Some(FloorSurvey { points, taken: None, how: LevelsTaken::default(), provenance });
    let end = |x, y| DimensionEnd { on: None, at: at(x, y) };
    arrangement.bay.dimensions =
        vec![KeptDimension { id: "one".into(), ends: [end(0.0, 0.0), end(3_000.0, 4_000.0)] }];
    arrangement
}

#[test]
fn everything_is_where_it_is_in_the_bay_in_millimetres() {
    let arrangement = everything();
    let scene = Scene::of(&arrangement);
    let drawing = read(&text(&arrangement));
    assert_eq!(drawing.header.default_drawing_units, Units::Millimeters);
    same(&rings(&drawing, "Walls")[0], arrangement.bay.room.outer());
    let polygons = |outlines: Vec<&Outline>| -> Vec<Vec<DVec2>> {
        let rings = outlines.into_iter().filter_map(|own| match own {
            Outline::Polygon(polygon) => Some(polygon.outer().to_vec()),
            Outline::Circle(_) => None,
        });
        rings.collect()
    };
    let things = polygons(scene.things.iter().map(|own| &own.prism.outline).collect());
    let mut found: Vec<Vec<DVec2>> = ["Movable things", "Fixed things", "Overhead"]
        .iter()
        .flat_map(|name| rings(&drawing, name))
        .collect();
    assert!(things.len() > 1 && found.len() == things.len(), "{} of {}", found.len(), things.len());
    for meant in things {
        let at = found.iter().position(|own| own[0].distance(meant[0]) < OFF_MM).expect("it is there");
        same(&found.remove(at), &meant);
    }
    let circles = drawing.entities().filter_map(|own| match &own.specific {
        EntityType::Circle(circle) => Some((circle.center.x, circle.center.y, circle.radius)),
        _ => None,
    });
    let drum = scene.things.last().unwrap().prism.outline.bounds().centre();
    let circles: Vec<_> = circles.collect();
    assert!(circles.iter().any(|(x, y, radius)| {
        DVec2::new(*x, *y).distance(drum) < OFF_MM && (radius - 292.625).abs() < OFF_MM
    }));
    let zones = polygons(scene.zones.iter().map(|own| &own.prism.outline).collect());
    for (found, meant) in rings(&drawing, "Keep-clear zones").iter().zip(&zones) {
        same(found, meant);
    }
    assert!(!zones.is_empty());
    let car: Vec<DVec2> =
        arrangement.vehicle.outline_top.iter().map(|&p| scene.bay_from_vehicle * p).collect();
    same(&rings(&drawing, "Car")[0], &car);
    let flat = |all: Vec<[f64; 3]>| all.into_iter().map(|[x, y, _]| DVec2::new(x, y)).collect::<Vec<_>>();
    let marks: Vec<DVec2> = scene.marks.iter().map(|own| own.at.unwrap()).collect();
    same(&flat(points(&drawing, "Floor marks")), &marks);
    let named: Vec<String> = scene.marks.iter().map(|own| own.id.to_string()).collect();
    assert_eq!(texts(&drawing, "Floor marks"), named);
    same(&flat(points(&drawing, "Permanent marks")), &[arrangement.bay.marks[0].at]);
    same(&flat(points(&drawing, "Target")), &[scene.targets[0].centre().truncate()]);
    let levels = points(&drawing, "Floor levels");
    let heights: Vec<f64> = levels.iter().map(|own| own[2]).collect();
    assert_eq!(heights, [0.0, 1.5, -2.25]);
    let survey: Vec<DVec2> =
        arrangement.bay.survey.as_ref().unwrap().points.iter().map(|own| own.at).collect();
    same(&flat(levels), &survey);
    // Five metres, as they were laid.
    assert_eq!(texts(&drawing, "Dimensions"), ["5 000"]);
}

#[test]
fn every_layer_is_there_and_nothing_lies_on_another() {
    let drawing = read(&text(&everything()));
    let mut named: Vec<String> = drawing.layers().map(|own| own.name.clone()).collect();
    named.sort();
    for own in drawing.entities() {
        assert!(named.contains(&own.common.layer), "{}", own.common.layer);
    }
    let before = named.len();
    named.dedup();
    // All that are told, and "0", which every file has.
    assert_eq!((named.len(), before), (24, 24), "{named:?}");
    for name in named {
        assert!(!name.contains(['<', '>', '/', '\\', '"', ':', ';', '?', '*', '|', ',', '=', '`']), "{name}");
    }
}

/// Names in any letters are read as they were typed: those of the code page as a byte each, others as their code.
#[test]
fn names_in_any_letters_are_read() {
    let text = text(&everything());
    assert!(text.windows(16).any(|own| own == b"drum \xd7 \\U+2265 2"), "as its code");
    // The verdict is told of what is not ready, and that figures are an example's.
    let drawing = read(&text);
    let title = texts(&drawing, "Title").join(" ");
    assert!(title.to_lowercase().contains("space not ready") && title.contains("example figures"), "{title}");
}

#[test]
fn it_is_the_same_every_time_and_in_any_language() {
    let arrangement = everything();
    assert_eq!(text(&arrangement), text(&arrangement));
    let locale = Locale { language: Language::Bracketed, ..Locale::default() };
    let other = to_dxf(&arrangement, &assess(&arrangement), locale);
    assert_eq!(read(&other).entities().count(), read(&text(&arrangement)).entities().count());
}
