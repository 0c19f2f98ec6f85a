//! How much something sends back where it stands: what a zone asks that keeps out what reflects more than a level.

use baywright_geometry::{DVec3, Face, Prism, Wavelength, wavelength};
use baywright_radar::echo::{Shape, seen};
use baywright_radar::level::Band;

use super::around::{Around, Stuff};
use super::stuff;
use crate::assessment::Subject;
use crate::model::{Arrangement, Material, Metal};
use crate::scene::Scene;

/// Whether something reflects more than a level, dBsm: as it stands, seen from the sensor, at the distance at which it stands. `Some(false)`
/// only if it does not however it is turned there; `None` where that is open, or the sensor is no radar. Smooth ideal shapes.
pub(crate) fn reflects_more(
    arrangement: &Arrangement,
    scene: &Scene,
    (prism, material, metal): (&Prism, Material, Metal),
    level_dbsm: f64,
) -> Option<bool> {
    let wave = wavelength(arrangement.sensor.kind.radar()?.frequency_hz).ok()?;
    let mut around = Around::default();
    let stuff = Stuff { material, metal };
    around.solid(Subject::Floor, stuff, prism.clone());
    let faces: Vec<&Face> = around.mirrors.iter().map(|own| &own.face).collect();
    let shapes = faces.iter().map(|own| Shape::Face((*own).clone()));
    let shapes = shapes.chain(around.others.iter().map(|(_, own)| own.clone()));
    let sensor = scene.sensor();
    let stands: Vec<Band> = shapes.filter_map(|own| comes_back(&own, stuff, sensor, wave)).collect();
    let turned = faces.iter().filter_map(|own| comes_back(&looking(own, sensor)?, stuff, sensor, wave));
    // What comes from several faces adds up as waves do: at the most by their amplitudes, turned or not.
    let all = stands.iter().map(|own| libm::pow(10.0, own.high() / 20.0)).sum::<f64>();
    let strongest = turned.map(|own| libm::pow(10.0, own.high() / 20.0)).fold(0.0, f64::max);
    let at_most = 20.0 * libm::log10(all + strongest);
    let at_least = stands.iter().map(Band::low).fold(f64::NEG_INFINITY, f64::max);
    if at_least > level_dbsm {
        Some(true)
    } else if at_most <= level_dbsm {
        Some(false)
    } else {
        None
    }
}

/// The echo area of a shape of some stuff, dBsm.
fn comes_back(shape: &Shape, of: Stuff, sensor: DVec3, wave: Wavelength) -> Option<Band> {
    let found = seen(shape, sensor, wave)?;
    let made_of = found.incidences.iter().map(|own| stuff::reflected(of, *own, wave));
    found.sigma_dbsm.plus(&stuff::Reflected::all(made_of)?.db)
}

/// The same face where it stands, turned to look at the sensor.
fn looking(face: &Face, sensor: DVec3) -> Option<Shape> {
    let towards = sensor - face.centre();
    let heading = libm::atan2(towards.y, towards.x);
    Face::new(face.centre(), heading, 0.0, face.width(), face.height()).ok().map(Shape::Face)
}
