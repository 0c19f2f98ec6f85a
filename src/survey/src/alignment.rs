//! What an alignment sheet and four wheel points say of a car: where it pushes itself, how square its axles stand, how it leans.
//!
//! A sheet has its own unit and often no sign: which way is asked for, never assumed. Angles are radians, positive anticlockwise
//! from above, nose down, top of the wheel outwards, toe in.

pub mod body;

use baywright_geometry::{DVec2, angle, thrust_heading};

/// A toe as a sheet has it, without its sign.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SheetFigure {
    /// Decimal degrees.
    Degrees(f64),
    /// Degrees and minutes.
    DegreesMinutes(f64, f64),
    /// Millimetres that the wheel's front edge stands further in or out than its rear edge, at a rim of so many mm.
    AtRim {
        /// The difference, mm.
        mm: f64,
        /// The diameter at which it was measured, mm.
        rim_mm: f64,
    },
    /// The same in inches.
    AtRimInches {
        /// The difference, inches.
        inches: f64,
        /// The diameter at which it was measured, inches.
        rim_inches: f64,
    },
}

/// Which way a wheel points.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Its front edge towards the car's middle.
    In,
    /// Away from it.
    Out,
}

/// How far a figure is turned, radians, without a sign: a camber, a thrust angle or a set-back as a sheet has it, too. `None` if a
/// figure is no number or negative, minutes are 60 or more, a rim is no wider than the difference.
///
/// ```
/// use baywright_survey::alignment::{SheetFigure, turned};
/// assert!((turned(SheetFigure::DegreesMinutes(0.0, 45.0)).unwrap().to_degrees() - 0.75).abs() < 1e-12);
/// assert_eq!(turned(SheetFigure::Degrees(-0.1)), None);
/// ```
pub fn turned(figure: SheetFigure) -> Option<f64> {
    let at_rim =
        |off: f64, rim: f64| (off >= 0.0 && rim > off && rim.is_finite()).then(|| libm::asin(off / rim));
    let is = |figure: f64| figure >= 0.0 && figure.is_finite();
    match figure {
        SheetFigure::Degrees(degrees) => is(degrees).then(|| angle::radians(degrees)),
        SheetFigure::DegreesMinutes(degrees, minutes) => {
            (is(degrees) && (0.0..60.0).contains(&minutes)).then(|| angle::radians(degrees + minutes / 60.0))
        }
        SheetFigure::AtRim { mm, rim_mm } => at_rim(mm, rim_mm),
        SheetFigure::AtRimInches { inches, rim_inches } => at_rim(inches, rim_inches),
    }
}

/// A wheel's toe, radians, positive in. `None` as [`turned`].
///
/// 2 mm at 406.4 mm (16 inches) is 0.282°:
///
/// ```
/// use baywright_survey::alignment::{SheetFigure, Way, toe};
/// let toe = toe(SheetFigure::AtRim { mm: 2.0, rim_mm: 406.4 }, Way::Out).unwrap();
/// assert!((toe.to_degrees() + 0.282).abs() < 5e-4);
/// ```
pub fn toe(figure: SheetFigure, way: Way) -> Option<f64> {
    let turned = turned(figure)?;
    Some(if way == Way::In { turned } else { -turned })
}

/// The thrust line's heading from the rear wheels' toes, with the standard uncertainty of each, radians: (heading, u).
pub fn thrust(rear_left: f64, rear_right: f64, u_each: f64) -> (f64, f64) {
    (thrust_heading(rear_left, rear_right), u_each * std::f64::consts::FRAC_1_SQRT_2)
}

/// How far a hub that is plumbed to the floor lies outboard of its tyre's middle, mm: R·sin γ, camber positive with the top
/// outwards.
pub fn camber_shift_mm(hub_height_mm: f64, camber_rad: f64) -> f64 {
    hub_height_mm * libm::sin(camber_rad)
}

/// How far the middle between two plumbed hubs lies left of the middle between their tyres, mm.
///
/// Cambers of 2° left and 1° right at 310 mm:
///
/// ```
/// use baywright_survey::alignment::middle_shift_mm;
/// assert!((middle_shift_mm(310.0, 2_f64.to_radians(), 1_f64.to_radians()) - 2.70).abs() < 0.005);
/// ```
pub fn middle_shift_mm(hub_height_mm: f64, left_rad: f64, right_rad: f64) -> f64 {
    0.5 * (camber_shift_mm(hub_height_mm, left_rad) - camber_shift_mm(hub_height_mm, right_rad))
}

/// The rake: by how much the front is lower than the rear over the wheelbase, radians, nose down. `None` without a wheelbase.
///
/// ```
/// use baywright_survey::alignment::rake;
/// assert!((rake(10.0, 2550.0).unwrap().to_degrees() - 0.225).abs() < 5e-4);
/// ```
pub fn rake(front_lower_mm: f64, wheelbase_mm: f64) -> Option<f64> {
    (wheelbase_mm > 0.0 && front_lower_mm.is_finite()).then(|| libm::atan(front_lower_mm / wheelbase_mm))
}

/// A car as its four wheel points stand on the floor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Footing {
    /// Track in front, mm.
    pub front_track_mm: f64,
    /// Track behind, mm.
    pub rear_track_mm: f64,
    /// Wheelbase on the left, mm.
    pub left_wheelbase_mm: f64,
    /// Wheelbase on the right, mm.
    pub right_wheelbase_mm: f64,
    /// The line through the middles of both axles: where it starts, behind.
    pub rear_middle: DVec2,
    /// Its heading, radians in the points' own frame.
    pub centreline_rad: f64,
    /// By how much the front axle stands turned from square to that line, radians, anticlockwise: the left wheel is back.
    pub front_set_back_rad: f64,
    /// The same of the rear axle.
    pub rear_set_back_rad: f64,
}

/// How a car stands by its wheel points front left, front right, rear left, rear right. `None` if two of them lie on each other or
/// a figure is no number.
pub fn footing(wheels: &[DVec2; 4]) -> Option<Footing> {
    let [front_left, front_right, rear_left, rear_right] = *wheels;
    let (front, rear) = ((front_left + front_right) * 0.5, (rear_left + rear_right) * 0.5);
    let ahead = (front - rear).try_normalize()?;
    let across = |left: DVec2, right: DVec2| {
        let axle = (left - right).try_normalize()?;
        // In the centreline's own directions the axle points to its left.
        Some(libm::atan2(-axle.dot(ahead), axle.dot(ahead.perp())))
    };
    let found = Footing {
        front_track_mm: front_left.distance(front_right),
        rear_track_mm: rear_left.distance(rear_right),
        left_wheelbase_mm: front_left.distance(rear_left),
        right_wheelbase_mm: front_right.distance(rear_right),
        rear_middle: rear,
        centreline_rad: angle::heading(ahead),
        front_set_back_rad: across(front_left, front_right)?,
        rear_set_back_rad: across(rear_left, rear_right)?,
    };
    found.centreline_rad.is_finite().then_some(found)
}

/// The standard uncertainty of a centreline's heading from four wheel points of which each is found so well sideways, radians, and
/// how far aside it may be at a distance ahead of the front axle, mm: u·√(((1+D/L)² + (D/L)²)/2).
///
/// ```
/// use baywright_survey::alignment::centreline_unsure;
/// let (turned, aside) = centreline_unsure(1.0, 2550.0, 3600.0).unwrap();
/// assert!((aside - 1.976).abs() < 5e-4);
/// assert!((turned.to_degrees() - 1.0 / 2550.0_f64 * 180.0 / std::f64::consts::PI).abs() < 1e-12);
/// ```
pub fn centreline_unsure(u_mm: f64, wheelbase_mm: f64, ahead_mm: f64) -> Option<(f64, f64)> {
    let far = ahead_mm / wheelbase_mm;
    let aside = u_mm * (0.5 * ((1.0 + far).powi(2) + far * far)).sqrt();
    // Two axle middles, each u/√2, over the wheelbase.
    (wheelbase_mm > 0.0 && aside.is_finite()).then_some((u_mm / wheelbase_mm, aside))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// references.md §8: FL(2.70, 0.79) FR(2.70, -0.78) RL(0, 0.775) RR(0.005, -0.77) m has a yaw of 0.0531008°.
    #[test]
    fn a_crooked_car() {
        let wheels = [(2700., 790.), (2700., -780.), (0., 775.), (5., -770.)].map(DVec2::from);
        let found = footing(&wheels).unwrap();
        assert!((found.centreline_rad.to_degrees() - 0.0531008).abs() < 1e-7);
        assert!(
            (found.front_set_back_rad.to_degrees() + 0.0531008).abs() < 1e-7,
            "square to x, so turned back"
        );
        // The right rear wheel stands 5 mm ahead over 1545 mm.
        let rear = libm::atan(5.0 / 1545.0) - found.centreline_rad;
        assert!((found.rear_set_back_rad - rear).abs() < 1e-9);
        assert_eq!(found.left_wheelbase_mm, libm::hypot(2700.0, 15.0));
        assert_eq!(footing(&[DVec2::ZERO; 4]), None);
        assert_eq!(footing(&[DVec2::NAN; 4]), None);
    }

    #[test]
    fn one_toe_in_every_unit() {
        let all = [
            SheetFigure::Degrees(0.25),
            SheetFigure::DegreesMinutes(0.0, 15.0),
            SheetFigure::AtRim { mm: 400.0 * libm::sin(0.25_f64.to_radians()), rim_mm: 400.0 },
            SheetFigure::AtRimInches { inches: 16.0 * libm::sin(0.25_f64.to_radians()), rim_inches: 16.0 },
        ];
        for figure in all {
            assert!((toe(figure, Way::In).unwrap().to_degrees() - 0.25).abs() < 1e-12, "{figure:?}");
            assert_eq!(toe(figure, Way::Out), toe(figure, Way::In).map(|toe| -toe));
        }
        for figure in [
            SheetFigure::Degrees(-0.1),
            SheetFigure::Degrees(f64::NAN),
            SheetFigure::DegreesMinutes(0.0, 60.0),
            SheetFigure::AtRim { mm: 2.0, rim_mm: 2.0 },
            SheetFigure::AtRimInches { inches: 2.0, rim_inches: f64::NAN },
        ] {
            assert_eq!(toe(figure, Way::In), None, "{figure:?}");
        }
        assert_eq!(
            (rake(10.0, 0.0), rake(f64::NAN, 2000.0), centreline_unsure(1.0, 0.0, 1.0)),
            (None, None, None)
        );
    }

    #[test]
    fn a_thrust_line_is_surer_than_a_toe() {
        let (heading, u) = thrust(0.2_f64.to_radians(), 0.04_f64.to_radians(), 0.01);
        assert!((heading.to_degrees() + 0.08).abs() < 1e-12 && (u - 0.01 / 2.0_f64.sqrt()).abs() < 1e-15);
    }
}
