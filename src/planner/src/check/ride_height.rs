//! How the body hangs over its wheels, as the four arches were taped.
//!
//! Rule: each arch is as high over its wheel as the profile has it, both arches of an axle are as high as each other (but for what
//! the profile has them apart), and the body leans no more than the aiming lets the car lean, by itself and with the floor under it
//! where a target is set by the plumb line. Where the maker says how far an arch may be off, one that is further off stops the
//! aiming, and one that nobody taped needs care; where only the height itself is given, what is further off than [`OFF_MM`] needs
//! care, and so do the two arches of an axle, whatever the profile says, and front against rear where the aiming limits no pitch.
//! What the tapes are uncertain by counts against each of these but the maker's own limit, 95 of 100. A body that hangs
//! elsewhere than the profile has it carries its sensor along: where a target's height counts from a sensor that nobody measured on
//! this car that needs care too. What an arch explains is said of that arch alone.
//! Limit: the profile's, else common practice; of the lean the aiming's; of the sensor's height the placement's tolerance, or the
//! aiming's, as much of it as the shop leaves to one cause.

use baywright_geometry::DVec2;
use baywright_survey::input::Figure;

use super::finding::{Basis, Code, Facts, Finding, OnCar, Quantity, Severity, Step, Subject};
use super::{Check, Context, finding};
use crate::as_measured::{arches_off_mm, hangs, higher_at_mm, sides_apart};
use crate::ground;
use crate::model::{ShopFigure, TargetHeight, VerticalReference, Wheel};

/// So far an arch may be off where its maker names no limit, and one of an axle from the other: 15 mm, more than load, fuel and worn
/// springs make of a sound car as a rule (common practice, no source).
const OFF_MM: f64 = 15.0;
/// A hair over a limit: what was entered as the limit itself is within it.
const HAIR_MM: f64 = 1e-6;
/// The same of an angle.
const HAIR_RAD: f64 = 1e-6 * std::f64::consts::PI / 180.0;
/// 95 of 100, either way.
const K: f64 = baywright_survey::chances::K95;

/// A figure with what it may be off by, in 95 of 100 cases, either way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Off {
    /// The figure: mm, or radians.
    pub value: f64,
    /// What it may be off by.
    pub u95: f64,
}

impl Off {
    const fn of(figure: Figure) -> Self {
        Self { value: figure.value, u95: K * figure.u }
    }

    /// The most that it may be, either way.
    fn most(self) -> f64 {
        self.value.abs() + self.u95
    }
}

/// What of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RideFact {
    /// An arch that the maker limits was not taped.
    NotTaped(Wheel),
    /// An arch is so much too high, mm; negative: too low.
    Arch(Wheel, f64),
    /// The two arches of an axle are not equally high.
    SidesApart {
        /// Of the front axle; else of the rear one.
        is_front: bool,
        /// How much higher the left one is, mm; negative: the right one.
        apart: Off,
        /// How far that leans the body there, radians, left side up.
        leans_rad: f64,
    },
    /// The body is so much nose down more than it is meant to, radians; negative: nose up.
    NoseDown(Off),
    /// Its left side is up so much, radians; negative: its right side.
    LeftUp(Off),
    /// With the floor under it the body is tilted by more than either of them, radians, nose down or left side up.
    WithFloor {
        /// Whether it is its pitch; else its roll.
        is_pitch: bool,
        /// Both together.
        in_all: Off,
        /// What of it is the floor's.
        floor_rad: f64,
    },
    /// The sensor hangs so much higher than the profile has it, mm, negative lower, and nobody measured it.
    SensorMoved(Off),
}

pub(super) const CHECK: Check = Check { codes: &[Code::RideHeight], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let arrangement = context.arrangement;
    if arrangement.vehicle.ride_heights.is_none() && arrangement.on_this_car.arches_mm == [None; 4] {
        return;
    }
    let before = findings.len();
    let low = against_profile(context, findings);
    let hangs = hangs(arrangement);
    if let Some(hangs) = hangs.filter(|_| low.is_empty()) {
        leans(context, (Off::of(hangs.pitch_rad), Off::of(hangs.roll_rad)), findings);
    }
    let leans_aside =
        findings.iter().skip(before).any(|own| matches!(own.facts, Facts::RideHeight(RideFact::LeftUp(_))));
    if !leans_aside {
        sides(context, &low, findings);
    }
    if low.is_empty() {
        sensor(context, findings);
    }
}

fn told(context: &Context<'_>, facts: RideFact, severity: Severity, basis: Basis) -> Finding {
    let arrangement = context.arrangement;
    let at = match facts {
        RideFact::NotTaped(wheel) | RideFact::Arch(wheel, _) => arrangement.wheel_point(wheel),
        RideFact::SidesApart { is_front, .. } => {
            let [left, right] = axle(is_front).map(|wheel| arrangement.wheel_point(wheel));
            (left + right) * 0.5
        }
        _ => DVec2::ZERO,
    };
    let at = (context.scene.bay_from_vehicle * at).extend(0.0);
    let told = finding(Facts::RideHeight(facts), severity, vec![Subject::Car], at, basis);
    match facts {
        RideFact::NotTaped(wheel) => told.cured_by(Step::MeasureOnCar(OnCar::Arch(wheel))),
        RideFact::SensorMoved(_) => told.cured_by(Step::MeasureOnCar(OnCar::Sensor)),
        _ => told,
    }
}

const fn axle(is_front: bool) -> [Wheel; 2] {
    if is_front { [Wheel::FrontLeft, Wheel::FrontRight] } else { [Wheel::RearLeft, Wheel::RearRight] }
}

/// Each arch against the profile; those that are off.
fn against_profile(context: &Context<'_>, findings: &mut Vec<Finding>) -> Vec<Wheel> {
    let arrangement = context.arrangement;
    let own = arrangement.vehicle.ride_height_off_mm;
    let (limit, severity, basis) = match own {
        Some(own) => (own, Severity::Stops, Basis::Procedure(arrangement.vehicle.provenance.clone())),
        None => (OFF_MM, Severity::Care, Basis::CommonPractice),
    };
    let off = arches_off_mm(arrangement);
    let mut low = Vec::new();
    for (wheel, off) in Wheel::ALL.into_iter().zip(off) {
        if let Some(off) = off.filter(|off| off.abs() > limit + HAIR_MM) {
            low.push(wheel);
            findings.push(
                told(context, RideFact::Arch(wheel, off), severity, basis.clone())
                    .against(Quantity::Length(off.abs()), Quantity::Length(limit)),
            );
        }
    }
    // One that is missing is enough to say: its row leads to the others.
    let missing = Wheel::ALL.into_iter().zip(off).find(|(_, off)| off.is_none());
    // Where the profile says nothing an arch is held against the other one of its axle: alone it says nothing.
    if arrangement.vehicle.ride_heights.is_none() {
        let arches = &arrangement.on_this_car.arches_mm;
        let is_taped =
            |wheel: Wheel| Wheel::ALL.into_iter().zip(arches).any(|(own, mm)| own == wheel && mm.is_some());
        let axles = [axle(true), axle(false)].into_iter();
        let half = axles.flatten().find(|wheel| {
            let both = axle(matches!(wheel, Wheel::FrontLeft | Wheel::FrontRight));
            !is_taped(*wheel) && both.into_iter().any(is_taped)
        });
        let open = |wheel| told(context, RideFact::NotTaped(wheel), Severity::Care, Basis::CommonPractice);
        findings.extend(half.map(open));
    }
    if let (Some(_), Some((wheel, _))) = (own, missing) {
        let open = told(context, RideFact::NotTaped(wheel), Severity::Care, basis);
        findings.push(Finding { limit: Some(Quantity::Length(limit)), ..open });
    }
    low
}

/// How the body leans against the profile, by itself and with the floor.
fn leans(context: &Context<'_>, (pitch, roll): (Off, Off), findings: &mut Vec<Finding>) {
    let arrangement = context.arrangement;
    let asked = arrangement.aiming.floor;
    let of_procedure = || Basis::Procedure(arrangement.aiming.provenance.clone());
    let usual = libm::atan(OFF_MM / arrangement.centreline().1);
    // Left against right has its own rule where the aiming has none.
    let ways = [
        (RideFact::NoseDown(pitch), pitch, asked.and_then(|own| own.pitch_rad), Some(usual)),
        (RideFact::LeftUp(roll), roll, asked.and_then(|own| own.roll_rad), None),
    ];
    let is_plumb = arrangement.aiming.placements.iter().any(|own| own.vertical == VerticalReference::Gravity);
    for (nth, (facts, own, asked, usual)) in ways.into_iter().enumerate() {
        let Some(limit) = asked.or(usual) else { continue };
        let basis = if asked.is_some() { of_procedure() } else { Basis::CommonPractice };
        let care = |facts, by: Off, basis| {
            told(context, facts, Severity::Care, basis)
                .against(Quantity::Angle(by.value.abs()), Quantity::Angle(limit))
        };
        if own.most() > limit + HAIR_RAD {
            findings.push(care(facts, own, basis));
            continue;
        }
        let floor = ground::tilt(arrangement, context.scene).filter(|_| is_plumb && asked.is_some());
        let Some(floor) = floor.and_then(|both| both.get(nth).copied()).map(Off::of) else { continue };
        let in_all = Off { value: own.value + floor.value, u95: libm::hypot(own.u95, floor.u95) };
        // What the floor does alone is another check's; what is unsure of it, too.
        if floor.value.abs() <= limit && in_all.value.abs() > limit + HAIR_RAD {
            let facts = RideFact::WithFloor { is_pitch: nth == 0, in_all, floor_rad: floor.value };
            findings.push(care(facts, in_all, basis));
        }
    }
}

/// Left against right over one axle; of both the worse. What one arch that is off explains is said of that.
fn sides(context: &Context<'_>, low: &[Wheel], findings: &mut Vec<Finding>) {
    let each =
        [true, false].into_iter().filter(|is_front| !axle(*is_front).iter().any(|own| low.contains(own)));
    let apart = each.filter_map(|is_front| {
        let apart = Off::of(sides_apart(context.arrangement, is_front)?);
        Some((is_front, apart))
    });
    let worst = apart.max_by(|a, b| a.1.most().total_cmp(&b.1.most()));
    let Some((is_front, apart)) = worst.filter(|(_, apart)| apart.most() > OFF_MM + HAIR_MM) else { return };
    let [left, right] = axle(is_front).map(|wheel| context.arrangement.wheel_point(wheel));
    let leans_rad = libm::atan2(apart.value, left.distance(right));
    let found = told(
        context,
        RideFact::SidesApart { is_front, apart, leans_rad },
        Severity::Care,
        Basis::CommonPractice,
    );
    findings.push(found.against(Quantity::Length(apart.value.abs()), Quantity::Length(OFF_MM)));
}

/// Where the body carries a sensor from which a target's height counts.
fn sensor(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let arrangement = context.arrangement;
    if arrangement.on_this_car.sensor_at.is_some() {
        return;
    }
    let Some(moved) = higher_at_mm(arrangement, arrangement.sensor.at.truncate()).map(Off::of) else {
        return;
    };
    let share = arrangement.shop.tolerance_share;
    let sensor = context.scene.sensor().truncate();
    let each = arrangement.aiming.placements.iter().zip(&context.scene.targets);
    let limits = each.filter_map(|(placement, target)| {
        if !matches!(placement.height, TargetHeight::FromSensor { .. }) {
            return None;
        }
        let away = sensor.distance(target.meant.place.origin());
        let by_place = placement.target.error.by_place;
        let seen =
            (by_place > 0.0).then(|| away * libm::tan(arrangement.aiming.tolerance.elevation_rad) / by_place);
        placement.tolerance.height_mm.into_iter().chain(seen).reduce(f64::min)
    });
    let Some(limit) = limits.reduce(f64::min).map(|limit| share * limit) else { return };
    if moved.value.abs() > limit + HAIR_MM {
        let basis = Basis::Shop(ShopFigure::ToleranceShare);
        let found = told(context, RideFact::SensorMoved(moved), Severity::Care, basis);
        findings.push(found.against(Quantity::Length(moved.value.abs()), Quantity::Length(limit)));
    }
}

#[cfg(test)]
mod tests {
    use super::{OnCar, RideFact};
    use crate::check::testing::*;

    fn hanging(arches: [f64; 4], allowed: Option<f64>) -> Arrangement {
        let mut arrangement = taped(arches);
        arrangement.vehicle.ride_heights = Some([380.0, 380.0, 375.0, 375.0]);
        arrangement.vehicle.ride_height_off_mm = allowed;
        arrangement
    }

    /// Of a profile without heights; the tape reads as it reads.
    fn taped(arches: [f64; 4]) -> Arrangement {
        let mut arrangement = clear();
        arrangement.on_this_car.arches_mm = arches.map(Some);
        arrangement.shop.tape_read_mm = 0.0;
        arrangement
    }

    #[test]
    fn a_low_arch_stops_where_the_maker_limits_it() {
        none(&clear(), Code::RideHeight);
        let level = [380.0, 380.0, 375.0, 375.0];
        none(&hanging(level, Some(10.0)), Code::RideHeight);
        none(&hanging([373.0, 387.0, 375.0, 375.0], Some(10.0)), Code::RideHeight);
        let low = hanging([369.0, 380.0, 375.0, 375.0], Some(10.0));
        let found = check(&low, Code::RideHeight, Severity::Stops, Some(11.0));
        assert_eq!(found.facts, Facts::RideHeight(RideFact::Arch(Wheel::FrontLeft, -11.0)));
        none(&hanging([365.0, 380.0, 375.0, 375.0], None), Code::RideHeight);
        check(&hanging([364.0, 380.0, 375.0, 375.0], None), Code::RideHeight, Severity::Care, Some(16.0));
    }

    #[test]
    fn an_arch_that_nobody_taped_is_told_where_it_is_limited() {
        let mut arrangement = hanging([380.0, 380.0, 375.0, 375.0], Some(10.0));
        arrangement.on_this_car.arches_mm[3] = None;
        let found = check(&arrangement, Code::RideHeight, Severity::Care, None);
        assert_eq!(found.facts, Facts::RideHeight(RideFact::NotTaped(Wheel::RearRight)));
        let leads_to = Some(Step::MeasureOnCar(OnCar::Arch(Wheel::RearRight)));
        assert_eq!(found.cure.map(|cure| cure.step), leads_to);
        arrangement.vehicle.ride_height_off_mm = None;
        none(&arrangement, Code::RideHeight);
    }

    /// 80 mm over a track of 1 540 mm lean the body atan(80 / 1540) = 2.974°, whatever its profile knows of heights.
    #[test]
    fn a_body_that_hangs_to_one_side_is_never_ready() {
        let found = check(&taped([300.0, 380.0, 375.0, 375.0]), Code::RideHeight, Severity::Care, Some(80.0));
        let Facts::RideHeight(RideFact::SidesApart { is_front, apart, leans_rad }) = found.facts else {
            panic!("{:?}", found.facts)
        };
        assert!(is_front && apart.value == -80.0);
        assert!((angle::degrees(leans_rad) + 2.974).abs() < 5e-4);
        assert_eq!(assess(&taped([300.0, 380.0, 375.0, 375.0])).verdict, Verdict::ReadyWithCare);
        none(&taped([380.0, 395.0, 375.0, 375.0]), Code::RideHeight);
        check(&taped([380.0, 380.0, 375.0, 391.0]), Code::RideHeight, Severity::Care, Some(16.0));
        // Two arches of an axle are enough; of both axles the worse is told.
        let mut half = taped([380.0, 400.0, 375.0, 375.0]);
        (half.on_this_car.arches_mm[2], half.on_this_car.arches_mm[3]) = (None, None);
        check(&half, Code::RideHeight, Severity::Care, Some(20.0));
        check(&taped([380.0, 400.0, 375.0, 405.0]), Code::RideHeight, Severity::Care, Some(30.0));
        // One of an axle says nothing, and that is told.
        half.on_this_car.arches_mm[0] = None;
        let open = check(&half, Code::RideHeight, Severity::Care, None);
        assert_eq!(open.facts, Facts::RideHeight(RideFact::NotTaped(Wheel::FrontLeft)));
        // What the profile has them apart is meant; and each may be within its maker's limit while the body leans.
        let mut meant = taped([360.0, 380.0, 375.0, 375.0]);
        meant.vehicle.ride_heights = Some([360.0, 380.0, 375.0, 375.0]);
        none(&meant, Code::RideHeight);
        let within = hanging([350.0, 410.0, 375.0, 375.0], Some(40.0));
        let sides = |found: &Finding| matches!(found.facts, Facts::RideHeight(RideFact::SidesApart { .. }));
        assert!(assess(&within).findings.iter().any(sides));
    }

    /// 1.96 · √2 · 0.7 / √3 = 1.120 mm: of 14 mm it is sure that they are within 15, of 14.5 mm not.
    #[test]
    fn what_the_tapes_are_unsure_of_counts() {
        let unsure = |apart: f64| {
            let mut arrangement = taped([380.0 - apart, 380.0, 375.0, 375.0]);
            arrangement.shop.tape_read_mm = 0.7;
            arrangement
        };
        none(&unsure(13.8), Code::RideHeight);
        let found = check(&unsure(14.5), Code::RideHeight, Severity::Care, Some(14.5));
        let Facts::RideHeight(RideFact::SidesApart { apart, .. }) = found.facts else { panic!("{found:?}") };
        assert!((apart.u95 - 1.120).abs() < 5e-4);
    }

    /// 10 mm low in front over 2 600 mm is 0.220° nose down (closed form; over 2 550 mm 0.225°).
    #[test]
    fn a_body_that_leans_more_than_the_car_may_needs_care() {
        let mut arrangement = hanging([370.0, 370.0, 375.0, 375.0], Some(20.0));
        none(&arrangement, Code::RideHeight);
        let limit = |pitch: f64, roll: f64| {
            Some(FloorRequirement {
                level_mm: 1_000.0,
                pitch_rad: Some(angle::radians(pitch)),
                roll_rad: Some(angle::radians(roll)),
            })
        };
        arrangement.aiming.floor = limit(0.23, 0.1);
        none(&arrangement, Code::RideHeight);
        arrangement.aiming.floor = limit(0.2, 0.1);
        let found = check(&arrangement, Code::RideHeight, Severity::Care, None);
        assert!((number(found.measured.unwrap()) - libm::atan(10.0 / 2_600.0)).abs() < 1e-9, "{found:?}");
        arrangement.on_this_car.arches_mm = [372.0, 380.0, 367.0, 375.0].map(Some);
        let found = check(&arrangement, Code::RideHeight, Severity::Care, None);
        assert!(
            matches!(found.facts, Facts::RideHeight(RideFact::LeftUp(own)) if own.value < 0.0),
            "{found:?}"
        );
    }

    /// 14 mm low in front and 14 mm high behind are each within 15, and 28 mm over 2 600 mm, whatever the aiming says of the floor.
    #[test]
    fn a_rake_that_no_arch_shows_needs_care() {
        let raked = hanging([366.0, 366.0, 389.0, 389.0], None);
        let found = check(&raked, Code::RideHeight, Severity::Care, Some(libm::atan(28.0 / 2_600.0)));
        assert!(matches!(found.facts, Facts::RideHeight(RideFact::NoseDown(own)) if own.value > 0.0));
        none(&hanging([373.0, 373.0, 382.0, 382.0], None), Code::RideHeight);
    }

    /// The floor falls 2 mm a metre to the front, 0.115°; with a body 0.110° nose down that is 0.225°, more than 0.2°.
    #[test]
    fn a_rake_adds_to_what_the_floor_falls() {
        let asked = |lower_mm: f64| {
            let mut arrangement = hanging([380.0 - lower_mm, 380.0 - lower_mm, 375.0, 375.0], Some(20.0));
            let limit = Some(angle::radians(0.2));
            arrangement.aiming.floor =
                Some(FloorRequirement { level_mm: 1_000.0, pitch_rad: limit, roll_rad: limit });
            arrangement.aiming.placements[0].tolerance.height_mm = Some(100.0);
            let points = &mut arrangement.bay.survey.as_mut().unwrap().points;
            points.change(|points| points.iter_mut().for_each(|point| point.level_mm = -0.002 * point.at.x));
            arrangement
        };
        none(&asked(0.0), Code::RideHeight);
        none(&asked(-5.0), Code::RideHeight);
        let found = check(&asked(5.0), Code::RideHeight, Severity::Care, None);
        let both = libm::atan(5.0 / 2_600.0) + libm::atan(0.002);
        assert!((number(found.measured.unwrap()) - both).abs() < 1e-6, "{found:?}");
        let mut by_wheels = asked(5.0);
        by_wheels.aiming.placements[0].vertical = VerticalReference::WheelsPlane;
        none(&by_wheels, Code::RideHeight);
    }

    /// All four arches 8 mm low: the radar hangs 8 mm lower than its profile has it, and its target's height counts from there.
    #[test]
    fn a_sensor_that_hangs_elsewhere_is_to_be_measured() {
        let lower = |by: f64| {
            let mut arrangement = hanging([380.0 - by, 380.0 - by, 375.0 - by, 375.0 - by], Some(20.0));
            arrangement.shop.tolerance_share = 0.5;
            arrangement.aiming.placements[0].tolerance.height_mm = Some(10.0);
            arrangement
        };
        none(&lower(5.0), Code::RideHeight);
        let found = check(&lower(8.0), Code::RideHeight, Severity::Care, Some(8.0));
        assert_eq!(found.cure.map(|cure| cure.step), Some(Step::MeasureOnCar(OnCar::Sensor)));
        let mut measured = lower(8.0);
        measured.on_this_car.sensor_at = Some(measured.sensor.at);
        none(&measured, Code::RideHeight);
        // 4 mm low in front alone: 800 mm ahead of the axle that is 4 · 3 400 / 2 600 = 5.231 mm.
        let mut raked = lower(0.0);
        raked.on_this_car.arches_mm = [376.0, 376.0, 375.0, 375.0].map(Some);
        check(&raked, Code::RideHeight, Severity::Care, Some(4.0 * 3_400.0 / 2_600.0));
        // A plate that aims by its squareness alone, with no limit of height, does not care.
        raked.aiming.placements[0].tolerance.height_mm = None;
        none(&raked, Code::RideHeight);
    }

    /// Of a profile without ride heights: the left arches alone say nothing of how it hangs.
    #[test]
    fn one_arch_of_an_axle_says_nothing() {
        let mut own = clear();
        own.vehicle.ride_heights = None;
        own.vehicle.ride_height_off_mm = None;
        own.on_this_car.arches_mm = [Some(380.0), None, Some(380.0), Some(380.0)];
        let found = check(&own, Code::RideHeight, Severity::Care, None);
        assert_eq!(found.facts, Facts::RideHeight(RideFact::NotTaped(Wheel::FrontRight)));
        own.on_this_car.arches_mm[1] = Some(380.0);
        none(&own, Code::RideHeight);
        // A whole axle may be left out.
        own.on_this_car.arches_mm = [None, None, Some(380.0), Some(380.0)];
        none(&own, Code::RideHeight);
    }
}
