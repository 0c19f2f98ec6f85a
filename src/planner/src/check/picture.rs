//! Light in a camera's picture: windows, open doors and gaps, walls of glass or mesh, lamps, cars with theirs.
//!
//! Rule: where a camera looks at an upright board, nothing that lets daylight in, no lamp, nothing of glass, which mirrors them, and
//! no parked car, whose lamps may be on, is in its picture, beside the board or behind it, nor may be, as far as the places of
//! walls, lamp and car are known: how much it matters depends on the day and on who switches what off, so that it needs care.
//! What the board or a thing hides of it is not taken off. A lamp in a zone that keeps out light is told there.
//! Limit: the camera's field of view in the profile; an even light over the board (common practice, no source).

mod view;

use baywright_geometry::clearance::{Clearance, clearance};
use baywright_geometry::{DVec2, Prism, angle, overlaps};

use super::claim::{Bars, Claim, Volume, anywhere, shines};
use super::finding::{Basis, Code, Facts, Finding, Severity, Subject};
use super::light::{Pane, panes};
use super::{Check, Context, Remedy, SPEAKS_FROM_MM, finding, middle_of_both, thing_subject};
use crate::model::{Arrangement, Exclusion, ThingKind};
use crate::scene::{PlacedThing, Scene};
pub use view::Picture;
use view::{Unsure, is_in_picture, wide_plan};

/// So much farther than the room a picture is looked at, mm.
const BEYOND_ROOM_MM: f64 = 1_000.0;

pub(super) const CHECK: Check =
    Check { codes: &[Code::LightInPicture], things, whole, claims, remedy, ..Check::NONE };

/// How surely light is in the picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lit {
    /// It is.
    Is,
    /// As far as the places of walls and car are known, it may be.
    ByPlace,
    /// As far as it is known what it is made of, it may be.
    ByMaterial,
}

fn remedy(finding: &Finding) -> Remedy {
    if finding.culprit().is_some() { Remedy::ThingOut } else { Remedy::None }
}

/// Whether a camera looks at something upright.
fn is_asked(arrangement: &Arrangement, scene: &Scene) -> bool {
    arrangement.sensor.kind.is_camera() && scene.targets.iter().any(|target| !target.lies)
}

/// A camera's picture keeps lamps out.
fn claims(arrangement: &Arrangement, scene: &Scene, claims: &mut Vec<Claim>) {
    claims.extend(volume(arrangement, scene).map(|own| Claim::new(Subject::Sensor, own, Bars::Lamps)));
}

/// What a camera that looks at something upright has in its picture, as far as the room reaches, bay frame; `None` of any other
/// sensor.
pub(super) fn volume(arrangement: &Arrangement, scene: &Scene) -> Option<Volume> {
    if !is_asked(arrangement, scene) {
        return None;
    }
    let (sensor, pose) = (&arrangement.sensor, &scene.bay_from_sensor);
    let eye = scene.sensor().truncate();
    let corners = scene.room.walls().outer().iter();
    let far = corners.map(|corner| corner.distance(eye)).fold(0.0, f64::max) + BEYOND_ROOM_MM;
    Picture::of(sensor, pose, far).map(Volume::Picture).or_else(|| {
        wide_plan(sensor, pose, far).zip(anywhere()).map(|(plan, span)| Volume::Prism(Prism::new(plan, span)))
    })
}

/// Lamps, and what carries them.
fn things(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let pictures = context.claims().iter().filter(|claim| claim.bars == Bars::Lamps);
    for picture in pictures {
        for seen in context.things_near(picture.around).filter(|seen| shines(seen.thing)) {
            let own = &seen.placed.prism;
            let region = picture.volume.at(&own.span);
            let is_told = seen.thing.kind == ThingKind::Lamp && is_told(context, seen.placed);
            if is_told || region.is_none_or(|region| !overlaps(&region, &own.outline)) {
                continue;
            }
            let subjects = vec![thing_subject(&seen.thing.id), Subject::Sensor];
            let height = (own.span.bottom() + own.span.top()) * 0.5;
            let place = middle_of_both(&seen.placed.bounds, &picture.around).extend(height);
            let facts = Facts::LightInPicture(Lit::Is);
            findings.push(finding(facts, Severity::Care, subjects, place, Basis::CommonPractice));
        }
    }
}

/// Whether a lamp stands in a zone that keeps out light.
fn is_told(context: &Context<'_>, lamp: &PlacedThing) -> bool {
    let mut zones = context.scene.zones.iter().filter(|zone| zone.excludes == Exclusion::Light);
    zones.any(|zone| {
        matches!(clearance(&zone.prism, &lamp.prism), Clearance::Intrudes(own) if own.depth >= SPEAKS_FROM_MM)
    })
}

/// Daylight.
fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    if !is_asked(context.arrangement, context.scene) {
        return;
    }
    let unsure = unsure(context);
    let mut told: Vec<(Lit, Pane)> = Vec::new();
    for pane in panes(&context.arrangement.bay) {
        let Some(lit) = lit(context, &pane, unsure) else { continue };
        match told.iter_mut().find(|(_, own)| own.subject == pane.subject) {
            Some(own) if own.0 == Lit::ByPlace && lit == Lit::Is => *own = (lit, pane),
            Some(_) => {}
            None => told.push((lit, pane)),
        }
    }
    findings.extend(told.into_iter().map(|(lit, pane)| {
        let [from, _, to, _] = pane.corners();
        let subjects = vec![pane.subject, Subject::Sensor];
        let facts = Facts::LightInPicture(lit);
        finding(facts, Severity::Care, subjects, (from + to) * 0.5, Basis::CommonPractice)
    }));
}

/// How far a wall may be from where it is drawn, seen from the camera: the car turns about its axle, which for the camera is a
/// turn and a step aside.
fn unsure(context: &Context<'_>) -> Unsure {
    let arrangement = context.arrangement;
    let (car_mm, rad) = arrangement.shop.parked_within(arrangement.parked_known);
    let lever: DVec2 = context.scene.sensor().truncate() - arrangement.parked.origin();
    let walls_mm = arrangement.shop.within(arrangement.bay.walls_known);
    Unsure { mm: walls_mm + car_mm + lever.length() * angle::sin_cos(rad).0, rad }
}

/// Whether light comes through a pane into the picture; none does if the camera is on the other side of its wall.
fn lit(context: &Context<'_>, pane: &Pane, unsure: Unsure) -> Option<Lit> {
    let sensor = &context.arrangement.sensor;
    let inward = (pane.line.to - pane.line.from).perp();
    if (context.scene.sensor().truncate() - pane.line.from).dot(inward) <= 0.0 {
        return None;
    }
    let sensor_from_bay = context.scene.bay_from_sensor.inverse();
    let corners = pane.corners().map(|corner| sensor_from_bay * corner);
    let by_place = match is_in_picture(sensor, corners, Unsure::NOT) {
        true => Lit::Is,
        false => is_in_picture(sensor, corners, unsure).then_some(Lit::ByPlace)?,
    };
    Some(if pane.is_sure { by_place } else { Lit::ByMaterial })
}

#[cfg(test)]
mod tests {
    use crate::Lit;
    use crate::check::testing::*;

    /// A camera 1200 mm up, 800 mm ahead of the axle, with a picture of 60° by 40°, and a window in the far wall.
    fn camera() -> Arrangement {
        let mut arrangement = clear();
        arrangement.aiming.zones.clear();
        arrangement.aiming.placements[0].target.kind = TargetKind::Board;
        arrangement.sensor.kind = SensorKind::ForwardCamera(Camera { pixels_across: 1280, pixels_down: 960 });
        arrangement.sensor.at.z = 1_200.0;
        arrangement.sensor.view.azimuth_half_rad = angle::radians(30.0);
        arrangement.sensor.view.elevation_half_rad = angle::radians(20.0);
        arrangement.bay.openings = vec![Opening {
            id: "window".into(),
            kind: OpeningKind::Window,
            wall: 1,
            from_mm: 2_500.0,
            width_mm: 1_000.0,
            span: span(1_000.0, 2_000.0),
            material: Material::Glass,
            shut: true,
            free_beyond_mm: 0.0,
            is_exit: false,
        }];
        arrangement
    }

    #[test]
    fn a_window_behind_the_board() {
        let mut arrangement = camera();
        let found = check(&arrangement, Code::LightInPicture, Severity::Care, None);
        assert_eq!(found.subjects, [Subject::Opening("window".into()), Subject::Sensor]);
        // 7200 mm away the picture is 7200 · tan 20° = 2620.6 mm high above the lens: it ends at 3820.6.
        arrangement.bay.ceiling_mm = 6_000.0;
        arrangement.bay.openings[0].span = span(3_821.0, 5_000.0);
        none(&arrangement, Code::LightInPicture);
        arrangement.bay.openings[0].span = span(3_820.0, 5_000.0);
        check(&arrangement, Code::LightInPicture, Severity::Care, None);
        arrangement.sensor.kind = radar().kind;
        none(&arrangement, Code::LightInPicture);
    }

    /// The left wall, 3000 mm aside, comes into the picture 3000 / tan 30° = 5196.2 mm ahead of the lens: at x = 9996.2.
    #[test]
    fn a_door_beside_the_board() {
        let mut arrangement = camera();
        let door = &mut arrangement.bay.openings[0];
        // The wall runs from x = 12 000 back.
        (door.wall, door.from_mm, door.width_mm) = (2, 2_004.0, 1_000.0);
        (door.kind, door.material) = (OpeningKind::RollerDoor, Material::Steel);
        none(&arrangement, Code::LightInPicture);
        arrangement.bay.openings[0].shut = false;
        none(&arrangement, Code::LightInPicture);
        arrangement.bay.openings[0].from_mm = 2_003.0;
        check(&arrangement, Code::LightInPicture, Severity::Care, None);
        arrangement.bay.openings[0].shut = true;
        none(&arrangement, Code::LightInPicture);
    }

    /// A wide picture goes by angles: 95° to the left it still sees what is a little behind it, not what is far behind.
    #[test]
    fn a_wide_picture() {
        let mut arrangement = camera();
        arrangement.sensor.view.azimuth_half_rad = angle::radians(95.0);
        arrangement.sensor.view.elevation_half_rad = angle::radians(70.0);
        let door = &mut arrangement.bay.openings[0];
        (door.wall, door.from_mm) = (2, 7_300.0);
        check(&arrangement, Code::LightInPicture, Severity::Care, None);
        arrangement.bay.openings[0].from_mm = 7_700.0;
        none(&arrangement, Code::LightInPicture);
    }

    /// A wall of glass or mesh lets in as much as a window does; a shut door of which nobody knows what it is made of may.
    #[test]
    fn what_lets_light_in() {
        let mut arrangement = camera();
        arrangement.bay.openings.clear();
        none(&arrangement, Code::LightInPicture);
        for material in [Material::Glass, Material::Mesh] {
            arrangement.bay.walls[1].material = material;
            let found = check(&arrangement, Code::LightInPicture, Severity::Care, None);
            assert_eq!(found.subjects, [Subject::Wall("far wall".into()), Subject::Sensor]);
            assert_eq!(found.facts, Facts::LightInPicture(Lit::Is));
        }
        let mut door = camera();
        door.bay.openings[0].kind = OpeningKind::RollerDoor;
        for (material, lit) in [
            (Material::Mesh, Some(Lit::Is)),
            (Material::Unknown, Some(Lit::ByMaterial)),
            (Material::Plastic, Some(Lit::ByMaterial)),
            (Material::Steel, None),
        ] {
            door.bay.openings[0].material = material;
            let facts = assess(&door).findings.into_iter().find(|f| f.code() == Code::LightInPicture);
            assert_eq!(facts.map(|f| f.facts), lit.map(Facts::LightInPicture), "{material:?}");
        }
        // Nothing closes a gap, whatever is said.
        door.bay.openings[0].kind = OpeningKind::Gap;
        check(&door, Code::LightInPicture, Severity::Care, None);
    }

    /// 7200 mm away the picture ends 7200 · tan 30° = 4156.9 mm aside. A window that begins 2 mm farther may be in it by what is
    /// known of the wall, and one that begins 60 mm farther if the car stands half a degree askew: 63 mm there.
    #[test]
    fn a_window_just_outside_the_picture() {
        let mut arrangement = camera();
        arrangement.bay.room = rectangle((0.0, -3_000.0), (12_000.0, 9_000.0));
        let edge = 3_000.0 + 7_200.0 * libm::tan(angle::radians(30.0));
        let beyond = |arrangement: &mut Arrangement, mm: f64| {
            // The far wall runs from y = -3000 up.
            arrangement.bay.openings[0].from_mm = 3_000.0 + edge + mm;
        };
        let lit =
            |arrangement: &Arrangement| check(arrangement, Code::LightInPicture, Severity::Care, None).facts;
        beyond(&mut arrangement, -2.0);
        assert_eq!(lit(&arrangement), Facts::LightInPicture(Lit::Is));
        beyond(&mut arrangement, 2.0);
        none(&arrangement, Code::LightInPicture);
        arrangement.bay.walls_known = Known::Within(3.0);
        assert_eq!(lit(&arrangement), Facts::LightInPicture(Lit::ByPlace));
        arrangement.bay.walls_known = Known::Within(0.0);
        beyond(&mut arrangement, 60.0);
        none(&arrangement, Code::LightInPicture);
        arrangement.parked_known = ParkedKnown::Within { mm: 0.0, rad: angle::radians(0.5) };
        assert_eq!(lit(&arrangement), Facts::LightInPicture(Lit::ByPlace));
    }

    fn lamp(at: (f64, f64)) -> Arrangement {
        let mut arrangement = camera();
        arrangement.bay.openings.clear();
        let mut lamp = cabinet("lamp", at, 100.0, 100.0);
        (lamp.kind, lamp.material, lamp.span) = (ThingKind::Lamp, Material::Plastic, span(1_000.0, 2_000.0));
        arrangement.bay.things = vec![lamp];
        arrangement
    }

    /// Beside the board, 4000 mm ahead of the lens at (4800, 3000), the picture reaches 4000 · tan 30° = 2309.4 mm aside.
    #[test]
    fn a_lamp_in_the_picture() {
        let found = check(&lamp((8_800.0, 5_000.0)), Code::LightInPicture, Severity::Care, None);
        assert_eq!(found.subjects, [Subject::Thing("lamp".into()), Subject::Sensor]);
        check(&lamp((11_000.0, 3_000.0)), Code::LightInPicture, Severity::Care, None);
        // Behind the lens, and aside of the picture by more than its place is unsure by.
        for at in [(2_000.0, 5_000.0), (7_000.0, 5_000.0)] {
            none(&lamp(at), Code::LightInPicture);
        }
        let mut radar = lamp((8_800.0, 5_000.0));
        radar.sensor.kind = clear().sensor.kind;
        none(&radar, Code::LightInPicture);
        let mut cabinet = lamp((8_800.0, 5_000.0));
        cabinet.bay.things[0].kind = ThingKind::Cabinet;
        none(&cabinet, Code::LightInPicture);
    }

    /// A mirror or a pane that stands on the floor shows the lamps of the room.
    #[test]
    fn glass_in_the_picture() {
        let mut pane = lamp((8_800.0, 5_000.0));
        (pane.bay.things[0].kind, pane.bay.things[0].material) = (ThingKind::Other, Material::Glass);
        let found = check(&pane, Code::LightInPicture, Severity::Care, None);
        let line = words::Words::new(&pane, words::Locale::default()).line(&found);
        assert!(line.contains("mirrored in it"), "{line}");
        pane.bay.things[0].kind = ThingKind::Lamp;
        let found = check(&pane, Code::LightInPicture, Severity::Care, None);
        let line = words::Words::new(&pane, words::Locale::default()).line(&found);
        assert!(line.contains("Switch it off"), "{line}");
        pane.bay.things[0].kind = ThingKind::Other;
        pane.bay.things[0].material = Material::Wood;
        none(&pane, Code::LightInPicture);
    }

    /// Also one of another bay of the hall: its lamps may be on, and it drives away.
    #[test]
    fn a_parked_car_in_the_picture() {
        let mut arrangement = lamp((8_800.0, 5_000.0));
        arrangement.bay.things[0].kind = ThingKind::ParkedCar;
        let found = check(&arrangement, Code::LightInPicture, Severity::Care, None);
        let words = words::Words::new(&arrangement, words::Locale::default());
        let line = words.line(&found);
        assert!(
            line.starts_with("Lamp is in the picture of the forward camera. Its lamps are to be off"),
            "{line}"
        );
        assert_eq!(found.cure.map(|cure| cure.step), Some(Step::TakeAway { thing: "lamp".into() }));
    }

    /// The near corner of the lamp is so far from the picture's edge, a line at 30°, measured square to it.
    #[test]
    fn a_lamp_just_outside_the_picture() {
        let beside = |gap: f64| {
            let across = 3_950.0 * libm::tan(angle::radians(30.0));
            // The corner that is farthest ahead and nearest to the middle comes nearest to the edge.
            let corner = 4_050.0 * libm::tan(angle::radians(30.0)) + gap / libm::cos(angle::radians(30.0));
            assert!(corner > across);
            lamp((8_800.0, 3_000.0 + corner + 50.0))
        };
        none(&beside(15.0), Code::LightInPicture);
        let mut by_eye = beside(15.0);
        none(&by_eye, Code::PlaceUnsure);
        by_eye.bay.things[0].place.known = Known::Within(20.0);
        let found = check(&by_eye, Code::PlaceUnsure, Severity::Care, Some(15.0));
        assert_eq!(found.subjects, [Subject::Thing("lamp".into()), Subject::Sensor]);
        let mut planned = beside(15.0);
        planned.parked_known = ParkedKnown::Within { mm: 20.0, rad: 0.0 };
        check(&planned, Code::CarPlace, Severity::Care, Some(15.0));
        check(&beside(-15.0), Code::LightInPicture, Severity::Care, None);
    }

    /// What a zone without light says of a lamp is not said of the picture too.
    #[test]
    fn a_lamp_is_told_once() {
        let mut arrangement = lamp((8_800.0, 4_000.0));
        arrangement.aiming.zones = clear().aiming.zones;
        arrangement.aiming.zones[0].excludes = Exclusion::Light;
        check(&arrangement, Code::ZoneObject, Severity::Stops, None);
        none(&arrangement, Code::LightInPicture);
    }

    /// 100° to either side: a lamp a little behind the lens is in the picture, one far behind it is not.
    #[test]
    fn a_lamp_in_a_wide_picture() {
        let wide = |at| {
            let mut arrangement = lamp(at);
            arrangement.sensor.view.azimuth_half_rad = angle::radians(100.0);
            arrangement.sensor.view.elevation_half_rad = angle::radians(70.0);
            arrangement
        };
        check(&wide((4_600.0, 5_500.0)), Code::LightInPicture, Severity::Care, None);
        none(&wide((3_500.0, 5_500.0)), Code::LightInPicture);
    }
}
