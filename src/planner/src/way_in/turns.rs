//! How tight the car turns.

use crate::model::Arrangement;

/// How tight the car turns.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turns {
    /// The turning circle between kerbs, its diameter, mm.
    pub circle_mm: f64,
    /// Nobody entered it: it is what such a car is taken to have.
    pub is_assumed: bool,
}

impl Turns {
    /// As measured on this car, or as its class has it.
    pub fn of(arrangement: &Arrangement) -> Self {
        let vehicle = &arrangement.vehicle;
        match arrangement.on_this_car.turning_circle_mm {
            Some(circle_mm) => Self { circle_mm, is_assumed: false },
            None => Self { circle_mm: vehicle.class.turning_circle(vehicle.wheelbase_mm), is_assumed: true },
        }
    }
}
