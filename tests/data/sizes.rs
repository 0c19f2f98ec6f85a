//! The shipped cars beside published sizes.

use baywright_files::{EMBEDDED_PROFILES, parse_profile};
use baywright_planner::model::{Provenance, Vehicle, VehicleClass};

fn cars() -> Vec<Vehicle> {
    EMBEDDED_PROFILES.iter().map(|e| parse_profile(&e.label(), e.name, e.text).unwrap().vehicle).collect()
}

/// Smallest and largest of 93 car models: Lock, R. H. (1993), "1993 New Car Data", Journal of Statistics Education
/// 1(1); the data as distributed in R's MASS and Python's pydataset as Cars93 (inches, here × 25.4).
const LENGTH_MM: (f64, f64) = (141.0 * 25.4, 219.0 * 25.4);
const WHEELBASE_MM: (f64, f64) = (90.0 * 25.4, 119.0 * 25.4);
const WIDTH_MM: (f64, f64) = (60.0 * 25.4, 78.0 * 25.4);

/// The examples lie within the range of real cars. The pickup, a class that the data set leaves out, was drawn to fit
/// all the same; the design vehicle is larger than nearly every car by intent, and is checked below.
#[test]
fn the_examples_are_as_large_as_real_cars() {
    let within = |value: f64, (low, high): (f64, f64)| (low..=high).contains(&value);
    let examples: Vec<Vehicle> = cars().into_iter().filter(|c| c.provenance == Provenance::Example).collect();
    assert!(examples.len() >= 5);
    for car in &examples {
        assert!(within(car.length_mm, LENGTH_MM), "{}: length {}", car.id, car.length_mm);
        assert!(within(car.wheelbase_mm, WHEELBASE_MM), "{}: wheelbase {}", car.id, car.wheelbase_mm);
        assert!(within(car.width_mm, WIDTH_MM), "{}: width {}", car.id, car.width_mm);
    }
    // They are not all one size: they lie on both sides of the data set's median length of 183 in.
    let median = 183.0 * 25.4;
    assert!(examples.iter().any(|c| c.length_mm < median) && examples.iter().any(|c| c.length_mm > median));
    // The order of classes is the everyday one.
    let length = |class: VehicleClass| examples.iter().find(|c| c.class == class).unwrap().length_mm;
    assert!(length(VehicleClass::SmallHatchback) < length(VehicleClass::Saloon));
    assert!(length(VehicleClass::Saloon) < length(VehicleClass::Van));
}

/// AASHTO, A Policy on Geometric Design of Highways and Streets, passenger car "P": 19 ft long, 7 ft wide, 4.25 ft high,
/// wheelbase 11 ft, overhangs 3 ft and 5 ft (1 ft = 304.8 mm exactly).
#[test]
fn the_design_vehicle_is_as_published() {
    let all = cars();
    let car = all.iter().find(|c| c.id.as_str() == "design-vehicle-p").unwrap();
    for (found, feet) in [
        (car.length_mm, 19.0),
        (car.width_mm, 7.0),
        (car.height_mm, 4.25),
        (car.wheelbase_mm, 11.0),
        (car.overhang_front_mm, 3.0),
        (car.overhang_rear_mm, 5.0),
    ] {
        assert!((found - feet * 304.8_f64).abs() < 1e-9, "{found} mm is not {feet} ft");
    }
    assert!(matches!(&car.provenance, Provenance::Published { source } if source.contains("AASHTO")));
    // What is not published is said to be assumed.
    assert_eq!(car.assumed.len(), 8, "{:?}", car.assumed);
    assert!(all.iter().all(|other| other.length_mm <= car.length_mm && other.width_mm <= car.width_mm));
}
