//! What was measured on this car and hardly any car has: a slip of the pen or of a unit, another car's sheet, or a part that is bent.
//!
//! Rule: no wheel's toe or camber is more than alignment sheets of sound cars show, and the two cambers of an axle are not far
//! apart; where wheels were measured, one rear wheel stands no further back than the other, no track is another than the profile's, and
//! their centreline is not turned from the profile's; an arch is about as high as its tyre reaches; a point of the body was plumbed
//! about where the profile has it; the sheet is of this visit. Whether such a figure harms an aiming is not told here: that it is
//! what it says is to be looked at before a space is called ready by it. One that is already off by the rule of another check
//! (thrust angle, set-back, a wheel or sensor far from the profile's place) is told there.
//! Limits: common practice, no source, each by itself below.

use baywright_geometry::angle;
use jiff::Unit;

use super::finding::{Basis, Code, Facts, Finding, OnCar, Quantity, Severity, Step, Subject};
use super::{Check, Context, finding};
use crate::as_measured::feet;
use crate::model::{Arrangement, Id, Wheel};

const DEGREE: f64 = std::f64::consts::PI / 180.0;
/// A wheel's toe: sheets allow a fifth of that (from memory); 2 mm typed as 2° is one of these. One degree.
const TOE_RAD: f64 = DEGREE;
/// A wheel's camber: passenger cars stand between 2.5° in and 1° out (from memory). Three degrees.
const CAMBER_RAD: f64 = 3.0 * DEGREE;
/// Between the cambers of an axle: sheets allow half of that (from memory). One and a half degrees.
const CAMBERS_APART_RAD: f64 = 1.5 * DEGREE;
/// How far one rear wheel may stand further back than the other, mm: as the set-back of the front axle.
const REAR_BACK_MM: f64 = 20.0;
/// How far a track may be from the profile's, mm: other rims, and spacers on both sides.
const TRACK_MM: f64 = 60.0;
/// How far the centreline by measured wheels may be turned from the profile's: as the thrust angle of a car that stands straight
/// enough for any aiming, half a degree.
const TURNED_RAD: f64 = 0.5 * DEGREE;
/// So much lower than its tyre reaches an arch may be over the wheel's middle, and so much higher, mm: springs that were lowered, and
/// a car for rough ground.
const UNDER_TYRE_MM: f64 = 80.0;
const OVER_TYRE_MM: f64 = 250.0;
/// How far a point of the body may be from where the profile has it, mm: as a sensor's place.
const BODY_POINT_MM: f64 = 60.0;
/// How old a sheet may be, days: who aligns a car for an aiming does it at that visit, or shortly before.
const SHEET_DAYS: i64 = 30;

/// Which figure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unlikely {
    /// A wheel's toe.
    Toe(Wheel),
    /// A wheel's camber.
    Camber(Wheel),
    /// The cambers of an axle, the front one or the rear one, are far apart.
    CambersApart {
        /// Of the front axle; else of the rear one.
        is_front: bool,
    },
    /// One rear wheel stands further back than the other: this one.
    RearBack(Wheel),
    /// A track is another than the profile's.
    Track {
        /// In front; else behind.
        is_front: bool,
    },
    /// The centreline by the wheels is turned from the profile's.
    Turned,
    /// An arch is far higher, or lower, than its tyre reaches.
    Arch(Wheel),
    /// A point of the body lies far from where the profile has it.
    BodyPoint(Id),
    /// The sheet's day is still to come.
    SheetAhead,
    /// The sheet is not of this visit.
    SheetOld,
}

pub(super) const CHECK: Check = Check { codes: &[Code::CarUnlikely], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let at = context.scene.bay_from_vehicle.origin().extend(0.0);
    let mut told = |own: Unlikely, measured: Quantity, limit: Quantity| {
        let cure = match &own {
            Unlikely::Toe(_)
            | Unlikely::Camber(_)
            | Unlikely::CambersApart { .. }
            | Unlikely::SheetAhead
            | Unlikely::SheetOld => Some(Step::EnterAlignment),
            Unlikely::Arch(wheel) => Some(Step::MeasureOnCar(OnCar::Arch(*wheel))),
            Unlikely::RearBack(_) | Unlikely::Track { .. } | Unlikely::Turned | Unlikely::BodyPoint(_) => {
                None
            }
        };
        let basis = Basis::CommonPractice;
        let found = finding(Facts::CarUnlikely(own), Severity::Care, vec![Subject::Car], at, basis);
        let found = found.against(measured, limit);
        findings.push(match cure {
            Some(step) => found.cured_by(step),
            None => found,
        });
    };
    sheet(context.arrangement, &mut told);
    wheels(context.arrangement, &mut told);
    body(context.arrangement, &mut told);
}

type Tell<'a> = dyn FnMut(Unlikely, Quantity, Quantity) + 'a;

/// The largest of some figures, if it is over its limit.
fn worst<T>(all: impl IntoIterator<Item = (T, f64)>, limit: f64) -> Option<(T, f64)> {
    let over = all
        .into_iter()
        .map(|(own, value)| (own, value.abs()))
        .filter(|(_, value)| *value > limit * (1.0 + 1e-9));
    over.max_by(|a, b| a.1.total_cmp(&b.1))
}

fn sheet(all: &Arrangement, told: &mut Tell<'_>) {
    let car = &all.on_this_car;
    let old = car.told_rear_toe();
    let toe = |wheel: Wheel| match wheel {
        Wheel::RearLeft => old.left_rad,
        Wheel::RearRight => old.right_rad,
        Wheel::FrontLeft | Wheel::FrontRight => car.sheet.toe_rad(wheel),
    };
    let each = |of: &dyn Fn(Wheel) -> Option<f64>| {
        Wheel::ALL.into_iter().filter_map(|wheel| Some((wheel, of(wheel)?))).collect::<Vec<_>>()
    };
    if let Some((wheel, toe)) = worst(each(&toe), TOE_RAD) {
        told(Unlikely::Toe(wheel), Quantity::Angle(toe), Quantity::Angle(TOE_RAD));
    }
    let camber = |wheel: Wheel| car.sheet.camber_rad(wheel);
    if let Some((wheel, camber)) = worst(each(&camber), CAMBER_RAD) {
        told(Unlikely::Camber(wheel), Quantity::Angle(camber), Quantity::Angle(CAMBER_RAD));
    } else {
        let axles = [(true, Wheel::FrontLeft, Wheel::FrontRight), (false, Wheel::RearLeft, Wheel::RearRight)];
        let apart = axles
            .into_iter()
            .filter_map(|(is_front, left, right)| Some((is_front, camber(left)? - camber(right)?)));
        if let Some((is_front, apart)) = worst(apart, CAMBERS_APART_RAD) {
            let (measured, limit) = (Quantity::Angle(apart), Quantity::Angle(CAMBERS_APART_RAD));
            told(Unlikely::CambersApart { is_front }, measured, limit);
        }
    }
    if let Some((taken, today)) = car.sheet.taken.zip(all.today) {
        let days = today.since((Unit::Day, taken)).map_or(0, |span| i64::from(span.get_days()));
        if days < 0 {
            told(Unlikely::SheetAhead, Quantity::Days(-days), Quantity::Days(0));
        } else if days > SHEET_DAYS {
            told(Unlikely::SheetOld, Quantity::Days(days), Quantity::Days(SHEET_DAYS));
        }
    }
}

fn wheels(all: &Arrangement, told: &mut Tell<'_>) {
    let Some(([_, _, rear_left, rear_right], feet)) = all.measured_wheels().zip(feet(all)) else { return };
    let back = (rear_right - rear_left).dot(angle::direction(feet.centreline_rad));
    let wheel = if back > 0.0 { Wheel::RearLeft } else { Wheel::RearRight };
    // Square to a line that is turned nothing stands.
    if let Some(((), turned)) = worst([((), feet.centreline_rad)], TURNED_RAD) {
        told(Unlikely::Turned, Quantity::Angle(turned), Quantity::Angle(TURNED_RAD));
    } else if let Some((wheel, back)) = worst([(wheel, back)], REAR_BACK_MM) {
        told(Unlikely::RearBack(wheel), Quantity::Length(back), Quantity::Length(REAR_BACK_MM));
    }
    let tracks = [
        (true, feet.front_track_mm - all.vehicle.track_front_mm),
        (false, feet.rear_track_mm - all.vehicle.track_rear_mm),
    ];
    if let Some((is_front, off)) = worst(tracks, TRACK_MM) {
        told(Unlikely::Track { is_front }, Quantity::Length(off), Quantity::Length(TRACK_MM));
    }
}

fn body(all: &Arrangement, told: &mut Tell<'_>) {
    // Against the profile's own height it is told by how far it is off.
    if all.vehicle.ride_heights.is_none() {
        let tyre = all.hub_height_mm();
        let arches = Wheel::ALL.into_iter().zip(all.on_this_car.arches_mm);
        let off = arches.filter_map(|(wheel, arch)| {
            let over = arch? - tyre;
            let limit = if over < 0.0 { UNDER_TYRE_MM } else { OVER_TYRE_MM };
            (over.abs() > limit).then_some((wheel, over.abs(), limit))
        });
        if let Some((wheel, off, limit)) = off.max_by(|a, b| a.1.total_cmp(&b.1)) {
            told(Unlikely::Arch(wheel), Quantity::Length(off), Quantity::Length(limit));
        }
    }
    let points = all.on_this_car.body_points.iter().filter_map(|(id, at)| {
        let own = all.vehicle.body_points.iter().find(|own| own.id == *id)?;
        Some((id, own.at.truncate().distance(*at)))
    });
    if let Some((id, off)) = worst(points, BODY_POINT_MM) {
        told(Unlikely::BodyPoint(id.clone()), Quantity::Length(off), Quantity::Length(BODY_POINT_MM));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::testing::*;
    use crate::model::sheet::{Inward, Typed};

    fn only(arrangement: &Arrangement, own: Unlikely, measured: f64) {
        let found = check(arrangement, Code::CarUnlikely, Severity::Care, Some(measured));
        assert_eq!(found.facts, Facts::CarUnlikely(own));
        assert_ne!(assess(arrangement).verdict, Verdict::Ready);
    }

    /// Toes that cancel in the thrust angle, and those in front, that no other rule asks about; 2 mm typed as 2°.
    #[test]
    fn a_toe_that_no_car_has_is_asked_about() {
        none(&clear(), Code::CarUnlikely);
        for (nth, wheel) in Wheel::ALL.into_iter().enumerate() {
            let mut arrangement = clear();
            let axle = nth / 2 * 2;
            arrangement.on_this_car.sheet.toe[axle] = Told::of(Typed::of(0.9), Inward::In);
            arrangement.on_this_car.sheet.toe[axle + 1] = Told::of(Typed::of(0.9), Inward::In);
            none(&arrangement, Code::CarUnlikely);
            arrangement.on_this_car.sheet.toe[nth] = Told::of(Typed::of(1.5), Inward::In);
            only(&arrangement, Unlikely::Toe(wheel), angle::radians(1.5));
        }
        let mut older = clear();
        older.on_this_car.rear_toe = RearToe::of(angle::radians(5.0), angle::radians(5.0));
        check(&older, Code::CarUnlikely, Severity::Care, Some(angle::radians(5.0)));
    }

    #[test]
    fn cambers_that_no_car_has_are_asked_about() {
        let cambers = |all: [(f64, Inward); 4]| {
            let mut arrangement = clear();
            arrangement.on_this_car.sheet.camber = all.map(|(deg, way)| Told::of(Typed::of(deg), way));
            arrangement
        };
        use Inward::{In, Out};
        none(&cambers([(2.0, Out), (1.0, Out), (1.5, In), (1.5, In)]), Code::CarUnlikely);
        // One of them out by 3°, the other one in: each is what some car has, both together none.
        let apart = cambers([(3.0, Out), (3.0, In), (1.5, In), (1.5, In)]);
        only(&apart, Unlikely::CambersApart { is_front: true }, angle::radians(6.0));
        let rear = cambers([(1.0, In), (1.0, In), (0.5, Out), (1.5, In)]);
        only(&rear, Unlikely::CambersApart { is_front: false }, angle::radians(2.0));
        only(
            &cambers([(1.0, In), (1.0, In), (4.0, In), (4.1, In)]),
            Unlikely::Camber(Wheel::RearRight),
            angle::radians(4.1),
        );
    }

    /// The test's day is 1 November 2026.
    #[test]
    fn a_sheet_is_of_this_visit() {
        let of = |year: i16, month: i8, day: i8| {
            let mut arrangement = clear();
            arrangement.on_this_car.sheet.taken = Some(jiff::civil::date(year, month, day));
            arrangement
        };
        none(&of(2026, 11, 1), Code::CarUnlikely);
        none(&of(2026, 10, 2), Code::CarUnlikely);
        only(&of(2026, 10, 1), Unlikely::SheetOld, 31.0);
        only(&of(2025, 11, 1), Unlikely::SheetOld, 365.0);
        only(&of(2026, 11, 3), Unlikely::SheetAhead, 2.0);
        let mut unknown = of(2026, 11, 3);
        unknown.today = None;
        none(&unknown, Code::CarUnlikely);
    }

    /// The test car's tracks are 1 540 mm, its wheelbase 2 600 mm.
    #[test]
    fn wheels_that_no_car_has_are_asked_about() {
        let wheels = |by: [(f64, f64); 4]| {
            let mut arrangement = clear();
            let at = Wheel::ALL.map(|wheel| arrangement.vehicle.wheel_point(wheel));
            let mut by = by.into_iter().map(DVec2::from);
            arrangement.on_this_car.wheels = Some(at.map(|at| at + by.next().unwrap()));
            arrangement
        };
        none(&wheels([(0.0, 5.0), (0.0, -5.0), (10.0, 5.0), (-9.0, -5.0)]), Code::CarUnlikely);
        only(&wheels([(0., 0.), (0., 0.), (-30., 0.), (0., 0.)]), Unlikely::RearBack(Wheel::RearLeft), 30.0);
        only(&wheels([(0., 0.), (0., 0.), (25., 0.), (0., 0.)]), Unlikely::RearBack(Wheel::RearRight), 25.0);
        only(&wheels([(0., 40.), (0., -40.), (0., 0.), (0., 0.)]), Unlikely::Track { is_front: true }, 80.0);
        only(&wheels([(0., 0.), (0., 0.), (0., -35.), (0., 35.)]), Unlikely::Track { is_front: false }, 70.0);
        // Both axles aside by 20 mm, either way: 40 over 2 600 are 0.881°.
        let aside = wheels([(0., 20.), (0., 20.), (0., -20.), (0., -20.)]);
        only(&aside, Unlikely::Turned, libm::atan(40.0 / 2_600.0));
    }

    /// The test car's tyres reach 315 mm over their middles.
    #[test]
    fn arches_and_body_points_that_no_car_has_are_asked_about() {
        let arches = |mm: f64| {
            let mut arrangement = clear();
            arrangement.on_this_car.arches_mm = [Some(mm); 4];
            arrangement
        };
        for mm in [250.0, 380.0, 550.0] {
            none(&arches(mm), Code::CarUnlikely);
        }
        check(&arches(200.0), Code::CarUnlikely, Severity::Care, Some(115.0));
        check(&arches(1_000.0), Code::CarUnlikely, Severity::Care, Some(685.0));
        let badge = |aside: f64| {
            let mut arrangement = clear();
            let at = DVec3::new(840.0, 0.0, 600.0);
            arrangement.vehicle.body_points = vec![BodyPoint { id: "badge".into(), at }];
            arrangement.on_this_car.body_points = vec![("badge".into(), DVec2::new(840.0, aside))];
            arrangement
        };
        none(&badge(60.0), Code::CarUnlikely);
        only(&badge(200.0), Unlikely::BodyPoint("badge".into()), 200.0);
    }
}
