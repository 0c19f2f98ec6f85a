//! Against a general-purpose ray tracer: `data/paths.json` by `data/paths.py`.

use baywright_geometry::{DVec2, DVec3, Face, Polygon, Prism, Span};
use baywright_radar::paths::{Mirror, Room, Way};
use serde_json::Value;

const TABLE: &str = include_str!("../data/paths.json");

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(|number| number.as_f64().unwrap()).collect()
}

fn place(value: &Value) -> DVec3 {
    DVec3::from_slice(&numbers(value))
}

fn mirror(of: &Value) -> Mirror {
    let figure = |name: &str| of[name].as_f64().unwrap();
    let (heading, pitch) = (figure("heading"), figure("pitch"));
    let face = Face::new(place(&of["centre"]), heading, pitch, figure("width"), figure("height")).unwrap();
    Mirror { face, on_both_sides: of["both"].as_bool().unwrap() }
}

fn solid(of: &Value) -> Prism {
    let plan = of["plan"].as_array().unwrap().iter().map(|p| DVec2::from_slice(&numbers(p)));
    let outline = Polygon::simple(plan.collect()).unwrap();
    Prism::new(outline.into(), Span::new(of["low"].as_f64().unwrap(), of["high"].as_f64().unwrap()).unwrap())
}

/// How near a way comes to the edge of a face that it touches, mm.
fn margin(way: &Way, mirrors: &[Mirror]) -> f64 {
    let of = way.bounces.iter().map(|bounce| {
        let face = &mirrors[bounce.mirror].face;
        let own = bounce.at - face.centre();
        let (u, v) = (own.dot(face.left()).abs(), own.dot(face.up()).abs());
        (0.5 * face.width() - u).min(0.5 * face.height() - v)
    });
    of.fold(f64::INFINITY, f64::min)
}

/// The shortest leg, mm.
fn shortest(way: &Way, from: DVec3, to: DVec3) -> f64 {
    let mut stops = vec![from];
    stops.extend(way.bounces.iter().map(|bounce| bounce.at));
    stops.push(to);
    stops.windows(2).map(|pair| pair[0].distance(pair[1])).fold(f64::INFINITY, f64::min)
}

#[test]
fn the_ways_are_those_of_a_ray_tracer() {
    let table: Vec<Value> = serde_json::from_str(TABLE).unwrap();
    let in_space = |scene: &Value| scene["in_space"].as_bool().unwrap();
    assert!(table.iter().filter(|scene| !in_space(scene)).count() >= 30);
    assert!(table.iter().filter(|scene| in_space(scene)).count() >= 10);
    let mut found_of = [0; 3];
    for (nth, scene) in table.iter().enumerate() {
        let mirrors: Vec<Mirror> = scene["faces"].as_array().unwrap().iter().map(mirror).collect();
        let solids: Vec<Prism> = scene["boxes"].as_array().unwrap().iter().map(solid).collect();
        let solids: Vec<&Prism> = solids.iter().collect();
        let (sensor, target) = (place(&scene["sensor"]), place(&scene["target"]));
        // With the boxes as things that hide, and with their faces alone, which hide too.
        for blockers in [solids.as_slice(), &[]] {
            let room = Room { mirrors: &mirrors, blockers, longest_mm: f64::INFINITY };
            let mut ways: Vec<Way> = room.direct(sensor, target).into_iter().collect();
            ways.extend(room.singles(sensor, target));
            ways.extend(room.doubles(sensor, target));
            for traced in scene["paths"].as_array().unwrap() {
                let over: Vec<usize> = numbers(&traced["over"]).iter().map(|at| *at as usize).collect();
                let is_same = |way: &&Way| way.bounces.iter().map(|bounce| bounce.mirror).eq(over.clone());
                let Some(way) = ways.iter().find(is_same) else {
                    panic!("scene {nth}: no way over {over:?} as {traced}");
                };
                found_of[over.len()] += 1;
                let off = way.length_mm - traced["length"].as_f64().unwrap();
                assert!(off.abs() < 0.05, "scene {nth} over {over:?}: {off} mm longer");
                let first = way.bounces.first().map_or(way.length_mm, |bounce| bounce.at.distance(sensor));
                let last = way.bounces.last().map_or(way.length_mm, |bounce| bounce.at.distance(target));
                for (found, leg, name) in
                    [(way.departs, first, "departs"), (way.comes_from, last, "comes_from")]
                {
                    // 0.003°; over a short leg, the tenth of a millimetre to which 32 bits have its end.
                    let off = found.distance(place(&traced[name]));
                    assert!(
                        off < 5e-5 || off * leg < 0.1,
                        "scene {nth} over {over:?}: {name} {off} after {leg} mm"
                    );
                }
                for (bounce, at) in way.bounces.iter().zip(traced["at"].as_array().unwrap()) {
                    // A touch at a flat angle is where a figure of 32 bits has it.
                    let off = bounce.at.distance(place(at)) * bounce.incidence.cos();
                    assert!(off < 0.1, "scene {nth} over {over:?}: touched {off} mm aside");
                }
            }
            let traced = scene["paths"].as_array().unwrap().len();
            let beyond = ways.iter().filter(|way| {
                let over: Vec<u64> = way.bounces.iter().map(|bounce| bounce.mirror as u64).collect();
                !scene["paths"]
                    .as_array()
                    .unwrap()
                    .iter()
                    .any(|path| path["over"] == Value::from(over.clone()))
            });
            // The tracer finds faces by shooting rays, so that it may miss what is touched at the very edge, and it drops ways with
            // a leg of up to 10 mm (its MIN_SEGMENT_LENGTH): those, and nothing else.
            for way in beyond {
                let margin = margin(way, &mirrors);
                assert!(
                    margin < 3.0 || shortest(way, sensor, target) <= 10.0,
                    "scene {nth}, {traced} traced: beyond them, {margin} mm in, {way:?}"
                );
            }
        }
    }
    assert!(found_of[0] > 60 && found_of[1] > 250 && found_of[2] > 600, "{found_of:?}");
}
