//! Where wheels and body of this very car are on the floor: as measured, else as its profile has them.

use baywright_geometry::{DVec2, PlanPose, angle};
use baywright_survey::alignment::camber_shift_mm;

use super::{Arrangement, Wheel, WheelsAt};

impl Arrangement {
    /// How high a hub is, mm: half of the tyre's diameter.
    pub fn hub_height_mm(&self) -> f64 {
        self.vehicle.tyre_diameter_mm / 2.0
    }

    /// How far a hub that is plumbed lies from its tyre's middle, vehicle frame, mm: outboard by R·sin γ where the sheet says that
    /// the wheel's top leans out; nothing where its camber is not known.
    pub fn plumbed_from_middle(&self, wheel: Wheel) -> DVec2 {
        let camber = self.on_this_car.sheet.camber_rad(wheel).unwrap_or(0.0);
        let outboard = camber_shift_mm(self.hub_height_mm(), camber);
        DVec2::new(0.0, if wheel.is_left() { outboard } else { -outboard })
    }

    /// The wheel points as measured on this car: under the middles of its tyres, brought there by the sheet's camber where it was
    /// the hubs that were plumbed. Of a hub whose camber is not known it is the plumbed point.
    pub fn measured_wheels(&self) -> Option<[DVec2; 4]> {
        let mut wheels = self.on_this_car.wheels?;
        if self.on_this_car.wheels_at == WheelsAt::Hub {
            for (at, wheel) in wheels.iter_mut().zip(Wheel::ALL) {
                *at -= self.plumbed_from_middle(wheel);
            }
        }
        Some(wheels)
    }

    /// A wheel's point, under the middle of its tyre: as measured on this car, else as its profile has it; vehicle frame. A mark
    /// plan's wheel marks are meant there; plumbed from the hub they come to lie beside it by [`Self::plumbed_from_middle`], which
    /// is counted there and nowhere else.
    pub fn wheel_point(&self, wheel: Wheel) -> DVec2 {
        let own = Wheel::ALL.iter().position(|own| *own == wheel);
        let measured = self.measured_wheels();
        let measured = measured.as_ref().zip(own).and_then(|(wheels, own)| wheels.get(own));
        measured.copied().unwrap_or_else(|| self.vehicle.wheel_point(wheel))
    }

    /// A point of the body on the floor, by its position in the profile: as plumbed on this car, else as the profile has it;
    /// vehicle frame.
    pub fn body_point(&self, nth: usize) -> Option<DVec2> {
        let own = self.vehicle.body_points.get(nth)?;
        let measured = self.on_this_car.body_points.iter().find(|(id, _)| *id == own.id);
        Some(measured.map_or_else(|| own.at.truncate(), |(_, at)| *at))
    }

    /// The set-back as the sheet says, mm: how far the right front wheel stands further back than the left one; negative: the left
    /// one does. Of an angle with the front wheels as they are.
    pub fn told_set_back_mm(&self) -> Option<f64> {
        let [left, right] = [Wheel::FrontLeft, Wheel::FrontRight].map(|wheel| self.wheel_point(wheel));
        self.on_this_car.sheet.set_back_mm(left.distance(right)).or(self.on_this_car.set_back_mm)
    }

    /// From the middle of the rear wheel points to that of the front ones: vehicle from centreline, and how far apart they
    /// are.
    pub fn centreline(&self) -> (PlanPose, f64) {
        let Some([front_left, front_right, rear_left, rear_right]) = self.measured_wheels() else {
            return (PlanPose::IDENTITY, self.vehicle.wheelbase_mm);
        };
        let (front, rear) = ((front_left + front_right) * 0.5, (rear_left + rear_right) * 0.5);
        (PlanPose::new(front, angle::heading(front - rear)), front.distance(rear))
    }
}

#[cfg(test)]
mod tests {
    use super::super::sheet::{AlignmentSheet, Inward, Told, Typed};
    use super::*;
    use crate::check::testing::clear;

    /// Hubs that were plumbed are brought under the tyres once; tyres' middles stay where they were measured. Either way the mark
    /// that is plumbed from the hub lies R·sin γ outboard of the wheel's point: 325 mm and 2° are 11.342 mm.
    #[test]
    fn a_camber_counts_once() {
        let mut all = clear();
        all.vehicle.tyre_diameter_mm = 650.0;
        all.on_this_car.sheet.camber = [Told::of(Typed::of(2.0), Inward::Out); 4];
        let hubs = Wheel::ALL.map(|wheel| all.vehicle.wheel_point(wheel));
        let off =
            |all: &Arrangement, wheel: Wheel| all.wheel_point(wheel).y - all.vehicle.wheel_point(wheel).y;
        all.on_this_car.wheels = Some(hubs);
        assert_eq!(off(&all, Wheel::FrontLeft), 0.0);
        all.on_this_car.wheels_at = WheelsAt::Hub;
        assert!((off(&all, Wheel::FrontLeft) + 11.342).abs() < 5e-4);
        assert!((off(&all, Wheel::RearRight) - 11.342).abs() < 5e-4);
        let mark = all.wheel_point(Wheel::FrontLeft) + all.plumbed_from_middle(Wheel::FrontLeft);
        assert!(mark.distance(hubs[0]) < 1e-9);
        *all.on_this_car.sheet = AlignmentSheet::default();
        assert_eq!(off(&all, Wheel::FrontLeft), 0.0, "of no camber that is known");
    }
}
