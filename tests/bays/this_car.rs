//! How this car hangs and what its sheet says: arches as they are taped, toes and cambers. Made up, and looked at by plain arithmetic.

use baywright_planner::model::sheet::{Inward, Told, Typed};
use baywright_planner::model::{Arrangement, Wheel};

use crate::dice::Dice;
use crate::oracle::Conflict;

/// What common practice lets the two arches of an axle differ by, and one arch be off, mm.
const ARCHES_MM: f64 = 15.0;
/// A wheel's toe and camber, and the cambers of an axle from each other, degrees.
const TOE_DEG: f64 = 1.0;
const CAMBER_DEG: f64 = 3.0;
const CAMBERS_DEG: f64 = 1.5;
/// Rounding.
const SURE: f64 = 1e-6;

/// Arches of some cars, most of them level; cambers of some sheets, most of them as cars have them.
pub fn measured(dice: &mut Dice, a: &mut Arrangement) {
    if dice.often(0.3) {
        if dice.often(0.4) {
            a.vehicle.ride_heights = Some([380.0, 380.0, 390.0, 390.0]);
        }
        let most = dice.one(&[0.2, 0.2, 3.0, 20.0]);
        let lower = dice.one(&[0.0, 0.0, -2.0, -9.0]);
        let arches = a.vehicle.ride_heights.unwrap_or([380.0, 380.0, 390.0, 390.0]);
        a.on_this_car.arches_mm = arches.map(|mm| Some(mm + lower + dice.within(-most, most)));
        if dice.often(0.2) {
            a.on_this_car.arches_mm[dice.count(0, 3)] = None;
        }
    }
    if dice.often(0.2) {
        let most = dice.one(&[0.5, 0.5, 2.0, 4.0]);
        let way = |deg: f64| if deg < 0.0 { Inward::In } else { Inward::Out };
        a.on_this_car.sheet.camber = [(); 4].map(|()| {
            let deg = dice.within(-most, most);
            Told::of(Typed::of(deg.abs()), way(deg))
        });
    }
    if dice.often(0.1) {
        let deg = dice.one(&[0.1, 0.9, 1.1]);
        a.on_this_car.sheet.toe[dice.count(0, 1)] = Told::of(Typed::of(deg), Inward::In);
    }
}

/// What of it no *ready* is to hold.
pub fn as_drawn(a: &Arrangement, found: &mut Vec<Conflict>) {
    let mut add = |kind: &'static str, of: &str, by_mm: f64| {
        found.push(Conflict { kind, by: "car".into(), of: of.to_owned(), by_mm });
    };
    let car = &a.on_this_car;
    let meant = a.vehicle.ride_heights;
    let off = |nth: usize| Some(car.arches_mm[nth]? - meant.map_or(0.0, |all| all[nth]));
    for (left, right, axle) in [(0, 1, "front"), (2, 3, "rear")] {
        if let (Some(left), Some(right)) = (off(left), off(right))
            && (left - right).abs() > ARCHES_MM + SURE
        {
            add("hangs aside", axle, (left - right).abs());
        }
        let signed = |nth: usize| {
            let told = car.sheet.camber[nth];
            let way = if told.way? == Inward::Out { 1.0 } else { -1.0 };
            Some(told.reads?.value * way)
        };
        if let (Some(left), Some(right)) = (signed(left), signed(right)) {
            if (left - right).abs() > CAMBERS_DEG + SURE {
                add("cambers apart", axle, (left - right).abs());
            }
            if left.abs().max(right.abs()) > CAMBER_DEG + SURE {
                add("unlikely camber", axle, left.abs().max(right.abs()));
            }
        }
    }
    let of_profile = if a.vehicle.ride_height_off_mm.is_none() { meant } else { None };
    if of_profile.is_some() {
        for nth in 0..4 {
            if let Some(off) = off(nth)
                && off.abs() > ARCHES_MM + SURE
            {
                add("arch off", "arch", off.abs());
            }
        }
    }
    for (nth, wheel) in Wheel::ALL.into_iter().enumerate() {
        // Degrees, as all sheets here are typed in.
        if let (Some(reads), Some(_)) = (car.sheet.toe[nth].reads, car.sheet.toe[nth].way)
            && reads.value > TOE_DEG + SURE
        {
            add("unlikely toe", &format!("{wheel:?}"), reads.value);
        }
    }
}
