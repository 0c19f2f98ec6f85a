//! What names planes, limits and reaches that older files say nothing of: read, written, refused, left out.

#![allow(clippy::unwrap_used, reason = "a test that cannot set itself up has failed")]

use baywright_files::{
    EMBEDDED_LAYOUTS, EMBEDDED_PROFILES, layout_text, parse_layout, parse_profile, profile_text,
};
use baywright_planner::model::{HeightsFrom, Wheel};
use baywright_planner::words::Language;

fn saloon() -> &'static str {
    EMBEDDED_PROFILES.iter().find(|own| own.name == "example-saloon").unwrap().text
}

fn lift_bay() -> &'static str {
    EMBEDDED_LAYOUTS.iter().find(|own| own.name == "lift-bay").unwrap().text
}

/// A profile whose camera aiming says all of it.
fn said() -> String {
    let text = saloon()
        .replacen("floor: (level_mm: 5)", "floor: (level_mm: 5, pitch_deg: 0.2, roll_deg: 0.1)", 1)
        .replacen(
            "height: Absolute(height_mm: 1300),",
            "height: Absolute(height_mm: 1300), heights_from: Wheels,",
            1,
        )
        .replacen("top_mm: 1800,", "top_mm: 1800, lowest_mm: 900, highest_mm: 1700,", 1);
    text.replacen("bottom_mm: 300, top_mm: 2200,", "bottom_mm: 300, top_mm: 2200, heights_from: Wheels,", 1)
}

#[test]
fn what_a_profile_says_of_planes_is_kept() {
    let car = parse_profile("now", "example-saloon", &said()).unwrap();
    let aiming = &car.vehicle.aimings[1];
    let floor = aiming.floor.unwrap();
    assert!((floor.pitch_rad.unwrap() - 0.2f64.to_radians()).abs() < 1e-12);
    assert!((floor.roll_rad.unwrap() - 0.1f64.to_radians()).abs() < 1e-12);
    assert_eq!(aiming.placements[0].heights_from, HeightsFrom::Wheels);
    assert_eq!(aiming.zones[0].heights_from, HeightsFrom::Wheels);
    assert_eq!(aiming.zones[1].heights_from, HeightsFrom::Floor, "what is left out means the floor");
    let stand = aiming.placements[0].target.stand.as_ref().unwrap();
    assert_eq!((stand.lowest_mm, stand.highest_mm), (Some(900.0), Some(1_700.0)));
    let written = profile_text(&car.vehicle).unwrap();
    let again = parse_profile("again", "example-saloon", &written).unwrap();
    assert_eq!((again.vehicle, &again.fingerprint), (car.vehicle, &car.fingerprint));
    // Where nothing is said nothing is written, so that the mark of a profile without it is what it was.
    let plain = parse_profile("plain", "example-saloon", saloon()).unwrap();
    assert_ne!(plain.fingerprint, car.fingerprint);
    let written = profile_text(&plain.vehicle).unwrap();
    for word in ["heights_from", "pitch_deg: 0.2", "roll_deg", "lowest_mm", "highest_mm"] {
        assert!(!written.contains(word), "{word}");
    }
}

#[test]
fn what_makes_no_sense_is_refused() {
    for (from, to, part) in [
        ("pitch_deg: 0.2", "pitch_deg: 0", "aimings[1].floor.pitch_deg: found 0"),
        ("roll_deg: 0.1", "roll_deg: 91", "aimings[1].floor.roll_deg: found 91"),
        ("heights_from: Wheels", "heights_from: Ceiling", "heights_from"),
        ("lowest_mm: 900", "lowest_mm: 1800", "stand.highest_mm"),
        ("highest_mm: 1700", "highest_mm: 10", "stand.highest_mm"),
    ] {
        let faults = parse_profile("f.ron", "f", &said().replacen(from, to, 1)).unwrap_err();
        let said = Language::English.file_fault(&faults[0]);
        assert!(said.contains(part), "{said}");
    }
}

#[test]
fn a_runway_keeps_its_levels() {
    let survey =
        "survey: (taken: \"2026-09-14\", source: Example, points: [(at_mm: (700, 3200), level_mm: 0.4)])";
    let text = lift_bay().replacen("top_mm: 200)", &format!("top_mm: 200, {survey})"), 1);
    let layout = parse_layout("now", "lift-bay", &text).unwrap();
    assert_eq!(layout.bay.runways[0].survey.as_ref().unwrap().points[0].level_mm, 0.4);
    assert_eq!(layout.bay.runways[1].survey, None);
    assert_eq!(parse_layout("again", "lift-bay", &layout_text(&layout).unwrap()).unwrap(), layout);
    let wrong = text.replacen("level_mm: 0.4", "level_mm: 9000", 1);
    let said = Language::English.file_fault(&parse_layout("f.ron", "f", &wrong).unwrap_err()[0]);
    assert!(said.contains("runways[0].survey.points[0].level_mm: found 9000 mm"), "{said}");
}

#[test]
fn a_car_keeps_its_own_feet_and_tyres() {
    let text = saloon().replacen("tyre_width_mm: 225,", "tyre_width_mm: 225, tyre_width_rear_mm: 245,", 1);
    let car = parse_profile("now", "example-saloon", &text).unwrap().vehicle;
    assert_eq!(car.tyre_width_rear_mm, Some(245.0));
    assert_eq!((car.tyre_width(Wheel::FrontRight), car.tyre_width(Wheel::RearLeft)), (225.0, 245.0));
    let again = parse_profile("again", "example-saloon", &profile_text(&car).unwrap()).unwrap().vehicle;
    assert_eq!(again, car);
    let plain = parse_profile("plain", "example-saloon", saloon()).unwrap().vehicle;
    assert_eq!(plain.tyre_width(Wheel::RearLeft), 225.0, "as the front ones");
    assert!(!profile_text(&plain).unwrap().contains("tyre_width_rear_mm"));
    let wide = text.replacen("tyre_width_rear_mm: 245", "tyre_width_rear_mm: 20", 1);
    let said = Language::English.file_fault(&parse_profile("f.ron", "f", &wide).unwrap_err()[0]);
    assert!(said.contains("body.tyre_width_rear_mm: found 20 mm"), "{said}");

    let track = (plain.track_front_mm * 0.5, plain.track_rear_mm * 0.5, -plain.wheelbase_mm);
    let feet = format!(
        "on_this_car: (wheels_mm: (front_left: (3, {}), front_right: (0, -{}), rear_left: ({}, {}), rear_right: ({}, -{})))",
        track.0,
        track.0,
        track.2,
        track.1 + 4.0,
        track.2,
        track.1
    );
    let text = lift_bay().replacen("on_runways: [", &format!("{feet}, on_runways: ["), 1);
    let layout = parse_layout("now", "lift-bay", &text).unwrap();
    let wheels = layout.arrangements[0].on_this_car.wheels.unwrap();
    assert_eq!((wheels[0].x, wheels[2].y), (3.0, track.1 + 4.0));
    assert_eq!(parse_layout("again", "lift-bay", &layout_text(&layout).unwrap()).unwrap(), layout);
    let resolved = layout.resolve(&layout.arrangements[0], &plain, "", None).unwrap();
    assert!(baywright_planner::model::validate::arrangement(&resolved).is_empty());
    let mut far = resolved;
    far.on_this_car.wheels.as_mut().unwrap()[3].y += 101.0;
    let faults = baywright_planner::model::validate::arrangement(&far);
    assert_eq!(faults.len(), 1, "{faults:?}");
    assert_eq!(faults[0].field, "on_this_car.wheels_mm.rear_right[1]");
}
