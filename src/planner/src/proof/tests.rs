mod together;

use baywright_geometry::{DVec2, angle};
use baywright_survey::decide::Said;

use super::{Doubt, FigureOf, NextTape, Off, Proof, warmth_of};
use crate::check::testing::clear;
use crate::model::{
    AimError, Arrangement, Instrument, InstrumentFigure, InstrumentKind, MarkTaped, Taken, TargetKind,
};
use crate::scene::Scene;

fn proof(arrangement: &Arrangement) -> Proof {
    Proof::of(arrangement, &Scene::of(arrangement)).unwrap()
}

fn reflector() -> Arrangement {
    let mut arrangement = clear();
    arrangement.aiming.placements[0].target.kind = TargetKind::CornerReflector;
    arrangement.aiming.placements[0].target.error = AimError::PLACE;
    arrangement
}

/// All that a tape can be held between, read to the millimetre, off by these.
fn taped(arrangement: &Arrangement, off: impl Fn(&str, &str) -> f64) -> Arrangement {
    let mut arrangement = arrangement.clone();
    let readings = Scene::of(&arrangement).readings;
    arrangement.marks_taped = readings
        .into_iter()
        .map(|own| {
            let read_mm = (own.distance_mm + off(own.from.as_str(), own.to.as_str())).round();
            MarkTaped::new(own.from, own.to, read_mm)
        })
        .collect();
    arrangement
}

/// Before anything is taped the first tapes are across the car, and the figures are what the budget says.
#[test]
fn before_taping_it_is_told_what_to_tape_first() {
    let proof = proof(&reflector());
    assert_eq!(proof.doubt, Doubt::Unread);
    let direction = &proof.figures[0];
    assert_eq!((direction.of, direction.off), (FigureOf::Direction, 0.0));
    // Nothing that was laid can be trusted before it is taped.
    assert_eq!(direction.unseen, f64::INFINITY);
    assert!(direction.is_unchecked() && matches!(direction.said, Said::CannotSay { .. }));
    assert!(matches!(proof.next, NextTape::Tape { .. }));
    assert!(direction.u95 > 0.0 && direction.u95 < angle::radians(0.3));
    assert!(proof.rows.iter().all(|row| row.allowance_mm > 0.5 && row.allowance_mm < 30.0));
    assert_eq!(proof.figures.len(), 3);
    assert!(!proof.costs.is_empty());
    assert!((proof.costs.iter().map(|cost| cost.share).sum::<f64>() - 1.0).abs() < 1e-9);
}

#[test]
fn readings_as_meant_are_inside_with_some_to_spare() {
    let before = proof(&reflector());
    let after = proof(&taped(&reflector(), |_, _| 0.0));
    assert_eq!((&after.doubt, after.read(), after.strange), (&Doubt::Fits, after.rows.len(), 0));
    assert!(after.figures[0].u95 < before.figures[0].u95);
    assert!(matches!(after.figures[0].said, Said::Inside { .. }), "{:?}", after.figures[0]);
    assert!(after.rows.iter().all(|row| row.test.is_none_or(|test| test.abs() < 2.0)));
}

/// One of them misread by 12 mm is named with what it likely is, and is to be taped again; it does not move the marks.
#[test]
fn a_reading_that_is_misread_is_named() {
    let arrangement = taped(&reflector(), |from, to| if (from, to) == ("3", "6") { 12.0 } else { 0.0 });
    let proof = proof(&arrangement);
    let Doubt::One(Off::Reading { from, to, reads_long_mm, likely_mm }) = &proof.doubt else {
        panic!("{:?}", proof.doubt)
    };
    assert_eq!((from.as_str(), to.as_str()), ("3", "6"));
    assert!((reads_long_mm - 12.0).abs() < 3.0);
    let row = proof.rows.iter().find(|row| row.from.as_str() == "3" && row.to.as_str() == "6").unwrap();
    assert!((likely_mm - row.should_mm).abs() < 3.0);
    assert!(row.test.unwrap() > 3.29);
    assert_eq!(proof.next, NextTape::Again { from: "3".into(), to: "6".into() });
    assert!(proof.marks.iter().all(|mark| mark.by.length() < 2.0));
}

/// Mark 5 alone 14 mm to the left of where they are meant: all that was taped to it says so.
#[test]
fn a_mark_that_was_mislaid_is_named_with_how_it_lies() {
    let reflector = reflector();
    let scene = Scene::of(&reflector);
    let places: Vec<DVec2> =
        scene.marks.iter().map(|mark| scene.bay_from_vehicle.inverse() * mark.at.unwrap()).collect();
    let mut arrangement = taped(&reflector, |_, _| 0.0);
    for own in &mut arrangement.marks_taped {
        let at = |id: &crate::model::Id| {
            let nth = scene.marks.iter().position(|mark| mark.id == *id).unwrap();
            places[nth] + if id.as_str() == "5" { DVec2::new(0.0, 14.0) } else { DVec2::ZERO }
        };
        own.read_mm = at(&own.from).distance(at(&own.to)).round();
    }
    let proof = proof(&arrangement);
    let names_it = |own: &Off| matches!(own, Off::Mark { mark, by } if mark.as_str() == "5" && (by.y - 14.0).abs() < 4.0);
    match &proof.doubt {
        Doubt::One(own) => assert!(names_it(own), "{own:?}"),
        Doubt::CannotTell(all) => assert!(all.iter().any(names_it), "{all:?}"),
        other => panic!("{other:?}"),
    }
    let mark = proof.marks.iter().find(|mark| mark.id.as_str() == "5").unwrap();
    assert!((mark.by.y - 14.0).abs() < 4.0, "{mark:?}");
    // Nothing was built from it: the target's mark lies where it is meant.
    assert!(proof.figures[0].off.abs() < angle::radians(0.05));
}

/// A plate aims by its squareness: what counts is how far 5 is ahead of 6. Where no join gives that, it is said to be open.
#[test]
fn a_plate_follows_its_join() {
    let plate = clear();
    let sound = proof(&taped(&plate, |_, _| 0.0));
    assert_eq!(sound.figures[0].of, FigureOf::Direction);
    assert!(!sound.figures[0].squareness_open);
    let mut board = plate.clone();
    board.aiming.placements[0].target.error = AimError { by_place: 1.0, by_squareness: 1.0 };
    board.aiming.mark_plan.pop();
    board.aiming.placements[0].mark = Some("5".into());
    assert!(proof(&board).figures[0].squareness_open);
}

/// What is not of this plan is counted and left out.
#[test]
fn readings_of_other_marks_are_told() {
    let mut arrangement = reflector();
    arrangement.marks_taped = vec![MarkTaped::new("1".into(), "nowhere".into(), 1_000.0)];
    let proof = proof(&arrangement);
    assert_eq!((proof.strange, proof.read()), (1, 0));
    assert_eq!(proof.doubt, Doubt::Unread);
    arrangement.aiming.mark_plan.clear();
    arrangement.aiming.placements[0].mark = None;
    assert!(Proof::of(&arrangement, &Scene::of(&arrangement)).is_none_or(|own| own.figures.is_empty()));
}

/// Following the next tape, one ends with "enough" or with nothing that helps, and never goes in a ring.
#[test]
fn the_next_tape_leads_to_an_end() {
    let mut arrangement = reflector();
    let scene = Scene::of(&arrangement);
    for step in 0..=scene.readings.len() + scene.marks.len() {
        let proof = proof(&arrangement);
        match proof.next {
            NextTape::Tape { from, to } => {
                let own = scene.readings.iter().find(|own| own.from == from && own.to == to).unwrap();
                let read_mm = own.distance_mm.round();
                assert!(arrangement.marks_taped.iter().all(|own| !own.is_between(&from, &to)));
                arrangement.marks_taped.push(MarkTaped::new(from, to, read_mm));
            }
            NextTape::LayAgain(mark) => {
                assert!(arrangement.marks_taped.iter().all(|own| !own.is_between(&mark, &mark)));
                assert!(proof.rows.iter().any(|row| row.is_again() && row.from == mark));
                arrangement.marks_taped.push(MarkTaped::new(mark.clone(), mark, 1.0));
            }
            NextTape::Again { .. } => panic!("all fits"),
            NextTape::Enough => {
                assert!(proof.figures.iter().all(|own| matches!(own.said, Said::Inside { .. })));
                return;
            }
            NextTape::NothingHelps => {
                assert!(proof.figures.iter().any(|own| !matches!(own.said, Said::Inside { .. })));
                return;
            }
        }
        assert!(step < scene.readings.len());
    }
}

/// All marks ahead turned about the middle of the front spots, as a wrong line would lay them: more than one thing is wrong, the
/// readings and the budget pull at each other, and what comes out between them is never called inside.
#[test]
fn where_more_than_one_thing_is_wrong_nothing_is_inside() {
    let plate = reflector();
    let scene = Scene::of(&plate);
    let places: Vec<DVec2> =
        scene.marks.iter().map(|mark| scene.bay_from_vehicle.inverse() * mark.at.unwrap()).collect();
    let about = (places[2] + places[3]) * 0.5;
    let mut seen = 0;
    for hundredths in [2, 5, 8, 11, 12, 15, 20, 40] {
        let turn = DVec2::from_angle(angle::radians(f64::from(hundredths) * 0.01));
        let mut arrangement = taped(&plate, |_, _| 0.0);
        for own in &mut arrangement.marks_taped {
            let at = |id: &crate::model::Id| {
                let nth = scene.marks.iter().position(|mark| mark.id == *id).unwrap();
                let at = places[nth];
                if nth >= 4 { about + turn.rotate(at - about) } else { at }
            };
            own.read_mm = at(&own.from).distance(at(&own.to)).round();
        }
        let proof = proof(&arrangement);
        let is_inside = matches!(proof.figures[0].said, Said::Inside { .. });
        if matches!(proof.doubt, Doubt::MoreThanOne(_)) {
            seen += 1;
            assert!(!is_inside && proof.figures[0].is_guess, "{hundredths}: {:?}", proof.figures[0]);
        } else {
            assert!(!proof.figures[0].is_guess);
        }
        // Seen from the sensor, ahead of the front spots, it is off by more than it is turned.
        assert!(hundredths < 11 || !is_inside, "{hundredths}: {:?}", proof.figures[0]);
    }
    assert!(seen > 0);
}

/// A plan that starts under the wheels, plumbed from the hubs: cambers of 2° left and 1° right, R 310 mm, put the middle of what is
/// built from them 2.70 mm to the left (references: R·sin γ), and the target with it; what the tape should read follows, so that
/// readings as they then are fit and show nothing but that. Whether the wheels were measured under the tyres or at the hubs, it
/// counts once.
#[test]
fn camber_shifts_what_is_plumbed_from_hubs_once() {
    use crate::geometry::marks::{Construction, Reach};
    use crate::model::sheet::{Inward, Told, Typed};
    use crate::model::{Wheel, WheelsAt};

    let mut own = reflector();
    own.vehicle.tyre_diameter_mm = 620.0;
    own.vehicle.track_rear_mm = own.vehicle.track_front_mm;
    let wheels = [Wheel::RearLeft, Wheel::RearRight, Wheel::FrontLeft, Wheel::FrontRight];
    for (step, wheel) in own.aiming.mark_plan.iter_mut().zip(wheels) {
        step.construction = Construction::WheelPoint { wheel };
    }
    own.aiming.mark_plan[4].construction =
        Construction::Prolong { from: 0, through: 2, reach: Reach::AbreastOf(0) };
    own.aiming.mark_plan[5].construction =
        Construction::Prolong { from: 1, through: 3, reach: Reach::AbreastOf(0) };
    let unknown = proof(&own);
    let aside = |of: &Proof| of.marks.last().unwrap().by.y;
    assert_eq!(aside(&unknown), 0.0);
    let lean = |degrees: f64| Told::of(Typed::of(degrees), Inward::Out);
    own.on_this_car.sheet.camber = [lean(2.0), lean(1.0), lean(2.0), lean(1.0)];
    let known = proof(&own);
    assert!((aside(&known) - 2.70).abs() < 0.005, "{}", aside(&known));
    assert!(known.figures[0].off > 0.0 && known.figures[0].u95 < unknown.figures[0].u95);
    // 5 and 6 come to lie further apart by both shifts: R (sin 2° + sin 1°) = 16.23 mm.
    let should = |of: &Proof| {
        of.rows.iter().find(|row| row.from.as_str() == "5" && row.to.as_str() == "6").unwrap().should_mm
    };
    let wider = 310.0 * (2.0_f64.to_radians().sin() + 1.0_f64.to_radians().sin());
    assert!((should(&known) - should(&unknown) - wider).abs() < 1e-6);
    let fits = proof(&taped(&own, |_, _| 0.0));
    assert_eq!(fits.doubt, Doubt::Fits);
    assert!((aside(&fits) - 2.70).abs() < 0.3, "{}", aside(&fits));
    // Measured under the tyres, where the profile has them: the same.
    let nominal = Wheel::ALL.map(|wheel| own.vehicle.wheel_point(wheel));
    own.on_this_car.wheels = Some(nominal);
    assert!((aside(&proof(&own)) - 2.70).abs() < 0.005);
    // Measured at the hubs, which lie outboard of there: still the same, for the tyres are where they were.
    own.on_this_car.wheels_at = WheelsAt::Hub;
    let hubs: Vec<DVec2> =
        nominal.into_iter().zip(Wheel::ALL).map(|(at, wheel)| at + own.plumbed_from_middle(wheel)).collect();
    own.on_this_car.wheels = hubs.try_into().ok();
    assert!((aside(&proof(&own)) - 2.70).abs() < 0.005);
    assert!((own.wheel_point(Wheel::FrontLeft) - nominal[0]).length() < 1e-9);
}

/// The same, all of it read with one instrument, at a temperature or none.
fn read_with(arrangement: &Arrangement, own: Instrument, temperature_c: Option<f64>) -> Arrangement {
    let mut read = arrangement.clone();
    for taped in &mut read.marks_taped {
        taped.taken = Taken { with: Some(own.name.clone()), temperature_c, ..Taken::default() };
    }
    read.instruments = [own].into();
    read
}

fn tape(name: &str) -> Instrument {
    Instrument::new(name.into(), InstrumentKind::SteelTape)
}

fn u95(arrangement: &Arrangement) -> f64 {
    let proof = proof(arrangement);
    assert_eq!(proof.doubt, Doubt::Fits);
    proof.figures[0].u95
}

/// One that says nothing of itself counts as the shop's tape, and one that is not in the list too; a better one makes it surer, a
/// worse one less sure.
#[test]
fn an_instrument_counts_with_its_figures() {
    let plain = taped(&reflector(), |_, _| 0.0);
    let own = u95(&plain);
    assert_eq!(u95(&read_with(&plain, tape("tape"), None)), own);
    let mut unlisted = read_with(&plain, tape("tape"), None);
    unlisted.instruments = [tape("another")].into();
    assert_eq!(u95(&unlisted), own);
    let of = |reading: f64, per_metre: f64| {
        let figures = [(InstrumentFigure::Reading, reading), (InstrumentFigure::PerMetre, per_metre)];
        figures.into_iter().fold(tape("tape"), |own, (figure, value)| own.with(figure, Some(value)))
    };
    assert!(u95(&read_with(&plain, of(0.3, 0.05), None)) < own);
    assert!(u95(&read_with(&plain, of(2.0, 0.5), None)) > own);
    // A meter is no tape that marks are laid with: the laying counts with the shop's figures.
    let meter = Instrument { kind: InstrumentKind::DistanceMeter, ..of(0.3, 0.05) };
    let by_meter = u95(&read_with(&plain, meter, None));
    assert!(by_meter < own && by_meter > u95(&read_with(&plain, of(0.3, 0.05), None)), "{by_meter} {own}");
}

/// 5 m, 15 K, 11.5 ppm is 0.86 mm. What a warm tape reads of marks that lie as meant fits, and moves none of them.
#[test]
fn a_known_temperature_is_worked_in() {
    let plain = reflector();
    let at = |celsius: f64| Taken { temperature_c: Some(celsius), ..Taken::default() };
    let own = MarkTaped { taken: at(35.0), ..MarkTaped::new("1".into(), "2".into(), 5_000.0) };
    assert!((warmth_of(&plain, &own).unwrap() - 0.8625).abs() < 1e-9);
    assert_eq!(warmth_of(&plain, &MarkTaped::new("1".into(), "2".into(), 5_000.0)), None);
    let mut warm = plain.clone();
    warm.marks_taped = Scene::of(&plain)
        .readings
        .into_iter()
        .map(|own| {
            let read_mm = own.distance_mm / (1.0 + 35.0 * 11.5e-6);
            MarkTaped { taken: at(55.0), ..MarkTaped::new(own.from, own.to, read_mm) }
        })
        .collect();
    let proof = proof(&warm);
    assert_eq!(proof.doubt, Doubt::Fits);
    assert!(proof.marks.iter().all(|mark| mark.by.length() < 1e-6), "{:?}", proof.marks);
}

/// Laid twice by a hand that repeats itself, by one that does not, and taped too little to tell.
#[test]
fn the_hand_that_laid_them_twice_counts() {
    let once = taped(&reflector(), |_, _| 0.0);
    assert_eq!(proof(&once).hand, None);
    let twice = |off: &dyn Fn(usize) -> f64, of: usize| {
        let mut own = once.clone();
        own.laid_before = own.marks_taped.iter().take(of).cloned().collect();
        for (nth, taped) in own.laid_before.iter_mut().enumerate() {
            taped.read_mm += off(nth);
        }
        own
    };
    let sure = twice(&|_| 0.0, 99);
    let hand = proof(&sure).hand.unwrap();
    assert_eq!((hand.differ_mm, hand.flattered, hand.counts), (0.0, false, Some(super::twice::LEAST)));
    assert!(hand.distances >= super::ENOUGH && hand.assumed_mm > 0.5 && hand.assumed_mm < 5.0, "{hand:?}");
    assert!(u95(&sure) < u95(&once));
    let rough = twice(&|nth| if nth % 2 == 0 { 9.0 } else { -9.0 }, 99);
    let hand = proof(&rough).hand.unwrap();
    assert!(hand.flattered && hand.counts.unwrap() > 1.5 && (hand.differ_mm - 9.0).abs() < 1e-9, "{hand:?}");
    assert!(proof(&rough).figures[0].u95 > u95(&once));
    let few = twice(&|_| 0.5, super::ENOUGH - 1);
    let hand = proof(&few).hand.unwrap();
    assert_eq!((hand.distances, hand.flattered, hand.counts), (super::ENOUGH - 1, false, None));
    assert_eq!(u95(&few), u95(&once));
}

/// Two body points and a line prolonged through both: that one of them was plumbed beside its place no distance shows. Laid again it
/// is settled; a second laying that lies elsewhere is a doubt, and nothing is inside.
#[test]
fn a_mark_that_no_distance_shows_is_laid_a_second_time() {
    use crate::model::{BodyPoint, MarkStep};
    use baywright_geometry::marks::{Construction, Reach};
    let mut arrangement = reflector();
    let point = |id: &str, x: f64| BodyPoint { id: id.into(), at: (x, 0.0, 600.0).into() };
    arrangement.vehicle.body_points = vec![point("tail", -3_600.0), point("nose", 800.0)];
    let scene = Scene::of(&arrangement);
    let target = scene.bay_from_vehicle.inverse() * scene.targets[0].meant.place.origin();
    let nose = DVec2::new(800.0, 0.0);
    let reach = Reach::Length(target.x - nose.x);
    let step = |id: &str, construction| MarkStep { id: id.into(), construction };
    arrangement.aiming.mark_plan = vec![
        step("A", Construction::BodyPoint { point: 0 }),
        step("B", Construction::BodyPoint { point: 1 }),
        step("C", Construction::Prolong { from: 0, through: 1, reach }),
    ];
    arrangement.aiming.placements[0].mark = Some("C".into());
    let all = taped(&arrangement, |_, _| 0.0);
    let before = proof(&all);
    assert!(before.figures.iter().any(|own| own.no_tape_shows && own.is_unchecked()), "{:?}", before.figures);
    let mut laid = all.clone();
    let mut again = Vec::new();
    while let NextTape::LayAgain(mark) = proof(&laid).next {
        laid.marks_taped.push(MarkTaped::new(mark.clone(), mark.clone(), 1.0));
        again.push(mark);
        assert!(again.len() <= 4);
    }
    let after = proof(&laid);
    assert!(!again.is_empty());
    assert_eq!((&after.next, after.strange, &after.doubt), (&NextTape::Enough, 0, &Doubt::Fits));
    // Laid twice and not taped proves nothing: a figure that was taken wrongly is taken so twice.
    let untaped = |own: &MarkTaped| own.is_again();
    let only = Arrangement {
        marks_taped: laid.marks_taped.iter().filter(|own| untaped(own)).cloned().collect(),
        ..laid.clone()
    };
    let only = proof(&only);
    assert!(only.figures.iter().all(|own| !matches!(own.said, Said::Inside { .. })));
    assert!(matches!(only.next, NextTape::Tape { .. }), "{:?}", only.next);
    // One of the pairs lies apart.
    let last = laid.marks_taped.len() - 1;
    laid.marks_taped[last].read_mm = 14.0;
    let apart = proof(&laid);
    let Doubt::One(Off::Apart { mark, .. }) = &apart.doubt else { panic!("{:?}", apart.doubt) };
    assert!(again.contains(mark) && apart.figures.iter().all(|own| !own.is_guess));
    assert_eq!(apart.next, NextTape::Again { from: mark.clone(), to: mark.clone() });
    assert!(apart.figures.iter().all(|own| !matches!(own.said, Said::Inside { .. })));
    // Nor is it forgotten of a step that goes wrong by nothing, as the shop has it.
    let mut perfect = laid.clone();
    perfect.shop.plumb_found_mm = 0.0;
    perfect.marks_taped[last] = MarkTaped::new("A".into(), "A".into(), 14.0);
    let apart = proof(&perfect);
    assert!(
        matches!(&apart.doubt, Doubt::One(Off::Apart { mark, .. }) if mark.as_str() == "A"),
        "{:?}",
        apart.doubt
    );
    assert_eq!(apart.strange, 0);
}
