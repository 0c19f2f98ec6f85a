//! What is assumed of a car of a given class when its profile does not say.
//!
//! Every figure here is our own invention: ordinary proportions, drawn so that the class is known at a glance. None is
//! any maker's. What is taken from here is named in [`Vehicle::assumed`], and shows.
//!
//! Outlines are tables of points in stretched coordinates. Along the car `u` runs 0 at the rearmost point, 1 at the rear
//! axle, 2 at the front axle, 3 at the foremost point, straight in between. In height `v` runs from 0 at the sill (the
//! ground clearance) to 1 at the roof. Across, `w` is a share of half the width. So every car gets exactly its own
//! length, width, height, wheelbase and overhangs.

use baywright_geometry::{DVec2, angle};

use crate::model::{Mirrors, Vehicle, VehicleClass};

/// The figures that a class stretches its shape to, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figures {
    /// Width of the body without mirrors.
    pub width: f64,
    /// Overall height.
    pub height: f64,
    /// Front axle to rear axle.
    pub wheelbase: f64,
    /// Front axle to foremost point.
    pub overhang_front: f64,
    /// Rear axle to rearmost point.
    pub overhang_rear: f64,
    /// Under the body between the axles.
    pub ground_clearance: f64,
}

/// The panes of a car, for drawing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Glass {
    /// Side windows from the side: x ahead of the front axle, y up from the ground.
    pub side: Vec<Vec<DVec2>>,
    /// Windscreen and rear window from above, vehicle frame.
    pub top: Vec<Vec<DVec2>>,
}

type Points = &'static [(f64, f64)];

/// The shape of one class in stretched coordinates.
struct Template {
    /// From the side, anticlockwise as seen with the nose to the right, starting at the sill's rear end: (u, v).
    side: Points,
    /// The left half from above, from the tail's middle line to the nose's: (u, w).
    top: Points,
    /// Side windows: (u, v).
    panes: &'static [Points],
    /// The left half of the windscreen, from its middle top to its middle bottom: (u, w).
    windscreen: Points,
    /// The left half of the rear window.
    rear_window: Points,
    /// The mirrors' place: (u, v).
    mirror: (f64, f64),
}

impl VehicleClass {
    /// Every class, in the order in which a list shows them.
    pub const ALL: [Self; 8] = [
        Self::SmallHatchback,
        Self::Saloon,
        Self::Estate,
        Self::TallCar,
        Self::Van,
        Self::Pickup,
        Self::PeopleCarrier,
        Self::Other,
    ];

    /// Tyre diameter and width, mm.
    pub const fn tyre(self) -> (f64, f64) {
        match self {
            Self::SmallHatchback => (620.0, 195.0),
            Self::Saloon | Self::Estate | Self::Other => (660.0, 215.0),
            Self::TallCar => (720.0, 225.0),
            Self::Van => (690.0, 215.0),
            Self::Pickup => (780.0, 255.0),
            Self::PeopleCarrier => (670.0, 215.0),
        }
    }

    /// Track, front and rear alike, mm: the tyres' outer sides stand 25 mm inside the body.
    pub fn track(self, width: f64, tyre_width: f64) -> f64 {
        width - tyre_width - 50.0
    }

    /// Ground clearance, mm.
    pub const fn ground_clearance(self) -> f64 {
        match self {
            Self::SmallHatchback | Self::Saloon | Self::Estate | Self::Other => 140.0,
            Self::PeopleCarrier => 150.0,
            Self::Van => 170.0,
            Self::TallCar => 190.0,
            Self::Pickup => 220.0,
        }
    }

    /// The turning circle between kerbs, its diameter, mm, of a car with that wheelbase: its outer front wheel turns in by so much
    /// at full lock, rather less than most do (common practice, no source).
    pub fn turning_circle(self, wheelbase: f64) -> f64 {
        let lock_deg = match self {
            Self::Van | Self::SmallHatchback => 31.0,
            Self::Pickup => 30.0,
            Self::Saloon | Self::Estate | Self::TallCar | Self::PeopleCarrier | Self::Other => 29.0,
        };
        let circle = 2.0 * wheelbase / angle::sin_cos(angle::radians(lock_deg)).0;
        // Data sheets have it to a tenth of a metre.
        (circle / 100.0).ceil() * 100.0
    }

    /// The door mirrors.
    pub fn mirrors(self, of: &Figures) -> Mirrors {
        let reach = match self {
            Self::Van | Self::Pickup => 220.0,
            Self::TallCar | Self::PeopleCarrier => 140.0,
            _ => 120.0,
        };
        let (u, v) = self.template().mirror;
        let at = of.side((u, v));
        Mirrors { width_mm: of.width + 2.0 * reach, ahead_mm: at.x, height_mm: at.y }
    }

    /// The outline from above, vehicle frame, anticlockwise.
    pub fn outline_top(self, of: &Figures) -> Vec<DVec2> {
        let left: Vec<DVec2> = self.template().top.iter().map(|&p| of.top(p)).collect();
        // Tail to nose along the car's right, then back along its left.
        let right = left.iter().map(|p| DVec2::new(p.x, -p.y));
        right.chain(left.iter().rev().copied()).collect()
    }

    /// The outline from the side: x ahead of the front axle, y up from the ground.
    pub fn outline_side(self, of: &Figures) -> Vec<DVec2> {
        self.template().side.iter().map(|&p| of.side(p)).collect()
    }

    fn template(self) -> &'static Template {
        match self {
            Self::SmallHatchback => &SMALL_HATCHBACK,
            Self::Saloon | Self::Other => &SALOON,
            Self::Estate => &ESTATE,
            Self::TallCar => &TALL_CAR,
            Self::Van => &VAN,
            Self::Pickup => &PICKUP,
            Self::PeopleCarrier => &PEOPLE_CARRIER,
        }
    }
}

impl Figures {
    /// A stretched u as an x of the vehicle frame.
    fn x(&self, u: f64) -> f64 {
        if u <= 1.0 {
            -self.wheelbase - self.overhang_rear * (1.0 - u)
        } else if u <= 2.0 {
            self.wheelbase * (u - 2.0)
        } else {
            self.overhang_front * (u - 2.0)
        }
    }

    fn side(&self, (u, v): (f64, f64)) -> DVec2 {
        // Written so that v = 1 gives the height itself and v = 0 the clearance itself.
        DVec2::new(self.x(u), self.ground_clearance * (1.0 - v) + self.height * v)
    }

    fn top(&self, (u, w): (f64, f64)) -> DVec2 {
        DVec2::new(self.x(u), 0.5 * self.width * w)
    }
}

impl Glass {
    /// The panes of a car, from its class. A pane that would stick out of the car's own outline is left out.
    pub fn of(vehicle: &Vehicle) -> Self {
        let template = vehicle.class.template();
        let of = Figures {
            width: vehicle.width_mm,
            height: vehicle.height_mm,
            wheelbase: vehicle.wheelbase_mm,
            overhang_front: vehicle.overhang_front_mm,
            overhang_rear: vehicle.overhang_rear_mm,
            ground_clearance: vehicle.ground_clearance_mm,
        };
        let side = template
            .panes
            .iter()
            .map(|pane| pane.iter().map(|&p| of.side(p)).collect::<Vec<_>>())
            .filter(|pane| pane.iter().all(|&p| inside(&vehicle.outline_side, p)))
            .collect();
        let top = [template.windscreen, template.rear_window]
            .into_iter()
            .filter(|half| !half.is_empty())
            .map(|half| {
                let left = half.iter().map(|&p| of.top(p));
                let right = half.iter().rev().map(|&(u, w)| of.top((u, -w)));
                left.chain(right).collect::<Vec<_>>()
            })
            .filter(|pane| pane.iter().all(|&p| inside(&vehicle.outline_top, p)))
            .collect();
        Self { side, top }
    }
}

/// Whether a point lies in a ring, by counting crossings: only for leaving out panes, so the edge may go either way.
fn inside(ring: &[DVec2], p: DVec2) -> bool {
    let next = ring.iter().cycle().skip(1);
    ring.iter().zip(next).fold(false, |inside, (a, b)| {
        let crosses = (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x);
        inside != crosses
    })
}

/// Rounded at both ends: the outline from above of an ordinary car.
const CAR_TOP: Points = &[
    (0.0, 0.56),
    (0.08, 0.78),
    (0.24, 0.9),
    (0.55, 0.97),
    (1.0, 1.0),
    (1.9, 1.0),
    (2.3, 0.97),
    (2.62, 0.89),
    (2.85, 0.74),
    (2.96, 0.52),
    (3.0, 0.26),
];

/// Boxier: vans and pickups.
const BOX_TOP: Points = &[
    (0.0, 0.88),
    (0.04, 0.96),
    (0.14, 1.0),
    (2.1, 1.0),
    (2.5, 0.95),
    (2.78, 0.85),
    (2.93, 0.68),
    (3.0, 0.4),
];

const SMALL_HATCHBACK: Template = Template {
    side: &[
        (0.2, 0.0),
        (2.78, 0.0),
        (2.95, 0.07),
        (3.0, 0.22),
        (2.97, 0.38),
        (2.86, 0.47),
        (2.5, 0.55),
        (2.03, 0.62),
        (1.86, 0.75),
        (1.66, 0.91),
        (1.52, 0.975),
        (1.3, 1.0),
        (1.0, 0.985),
        (0.6, 0.94),
        (0.3, 0.88),
        (0.13, 0.68),
        (0.04, 0.56),
        (0.0, 0.4),
        (0.02, 0.16),
    ],
    top: CAR_TOP,
    panes: &[
        &[(1.88, 0.645), (1.64, 0.85), (1.5, 0.915), (1.36, 0.93), (1.36, 0.62)],
        &[(1.31, 0.62), (1.31, 0.93), (1.0, 0.91), (0.72, 0.85), (0.78, 0.64)],
    ],
    windscreen: &[(1.64, 0.0), (1.66, 0.62), (1.97, 0.8), (2.0, 0.0)],
    rear_window: &[(0.14, 0.0), (0.18, 0.62), (0.42, 0.58), (0.4, 0.0)],
    mirror: (1.83, 0.64),
};

const SALOON: Template = Template {
    side: &[
        (0.25, 0.0),
        (2.78, 0.0),
        (2.95, 0.07),
        (3.0, 0.21),
        (2.98, 0.37),
        (2.88, 0.47),
        (2.4, 0.56),
        (1.98, 0.62),
        (1.8, 0.76),
        (1.6, 0.92),
        (1.47, 0.98),
        (1.28, 1.0),
        (1.08, 0.985),
        (0.9, 0.92),
        (0.66, 0.75),
        (0.52, 0.675),
        (0.2, 0.645),
        (0.04, 0.61),
        (0.0, 0.45),
        (0.03, 0.16),
    ],
    top: CAR_TOP,
    panes: &[
        &[(1.82, 0.65), (1.58, 0.86), (1.45, 0.92), (1.33, 0.93), (1.33, 0.63)],
        &[(1.29, 0.63), (1.29, 0.93), (1.1, 0.915), (0.93, 0.85), (0.8, 0.68), (0.86, 0.64)],
    ],
    windscreen: &[(1.58, 0.0), (1.6, 0.62), (1.92, 0.8), (1.95, 0.0)],
    rear_window: &[(0.6, 0.0), (0.64, 0.72), (0.9, 0.6), (0.92, 0.0)],
    mirror: (1.77, 0.65),
};

const ESTATE: Template = Template {
    side: &[
        (0.22, 0.0),
        (2.78, 0.0),
        (2.95, 0.07),
        (3.0, 0.21),
        (2.98, 0.37),
        (2.88, 0.47),
        (2.4, 0.56),
        (1.98, 0.62),
        (1.8, 0.76),
        (1.6, 0.92),
        (1.47, 0.98),
        (1.25, 1.0),
        (0.9, 0.99),
        (0.5, 0.955),
        (0.26, 0.9),
        (0.11, 0.68),
        (0.03, 0.56),
        (0.0, 0.4),
        (0.02, 0.16),
    ],
    top: CAR_TOP,
    panes: &[
        &[(1.82, 0.65), (1.58, 0.86), (1.45, 0.92), (1.35, 0.93), (1.35, 0.63)],
        &[(1.31, 0.63), (1.31, 0.93), (1.02, 0.92), (0.93, 0.64)],
        &[(0.88, 0.64), (0.96, 0.92), (0.55, 0.885), (0.32, 0.83), (0.3, 0.67)],
    ],
    windscreen: &[(1.58, 0.0), (1.6, 0.62), (1.92, 0.8), (1.95, 0.0)],
    rear_window: &[(0.1, 0.0), (0.14, 0.66), (0.34, 0.62), (0.33, 0.0)],
    mirror: (1.77, 0.65),
};

const TALL_CAR: Template = Template {
    side: &[
        (0.2, 0.0),
        (2.74, 0.0),
        (2.93, 0.08),
        (3.0, 0.22),
        (2.98, 0.42),
        (2.88, 0.52),
        (2.45, 0.58),
        (2.0, 0.62),
        (1.84, 0.77),
        (1.68, 0.92),
        (1.56, 0.975),
        (1.3, 1.0),
        (0.9, 0.99),
        (0.5, 0.965),
        (0.22, 0.92),
        (0.1, 0.7),
        (0.03, 0.58),
        (0.0, 0.42),
        (0.03, 0.14),
    ],
    top: CAR_TOP,
    panes: &[
        &[(1.86, 0.65), (1.66, 0.87), (1.54, 0.92), (1.38, 0.935), (1.38, 0.64)],
        &[(1.33, 0.64), (1.33, 0.935), (1.0, 0.925), (0.92, 0.65)],
        &[(0.86, 0.66), (0.94, 0.92), (0.52, 0.9), (0.3, 0.86), (0.3, 0.69)],
    ],
    windscreen: &[(1.66, 0.0), (1.68, 0.64), (1.95, 0.8), (1.98, 0.0)],
    rear_window: &[(0.09, 0.0), (0.12, 0.66), (0.27, 0.62), (0.26, 0.0)],
    mirror: (1.81, 0.66),
};

const VAN: Template = Template {
    side: &[
        (0.06, 0.0),
        (2.76, 0.0),
        (2.95, 0.05),
        (3.0, 0.14),
        (2.98, 0.28),
        (2.88, 0.37),
        (2.4, 0.45),
        (2.2, 0.5),
        (2.02, 0.68),
        (1.86, 0.86),
        (1.76, 0.94),
        (1.6, 0.985),
        (1.35, 1.0),
        (0.3, 0.995),
        (0.06, 0.97),
        (0.0, 0.86),
        (0.0, 0.12),
    ],
    top: BOX_TOP,
    panes: &[&[(2.1, 0.5), (1.98, 0.66), (1.83, 0.82), (1.62, 0.84), (1.62, 0.49)]],
    windscreen: &[(1.8, 0.0), (1.83, 0.78), (2.14, 0.88), (2.18, 0.0)],
    rear_window: &[],
    mirror: (2.03, 0.52),
};

const PICKUP: Template = Template {
    side: &[
        (0.1, 0.06),
        (0.3, 0.0),
        (2.7, 0.0),
        (2.93, 0.1),
        (3.0, 0.24),
        (3.0, 0.44),
        (2.9, 0.55),
        (2.4, 0.6),
        (1.92, 0.63),
        (1.78, 0.78),
        (1.64, 0.93),
        (1.54, 0.98),
        (1.38, 1.0),
        (1.18, 0.985),
        (1.1, 0.93),
        (1.04, 0.6),
        (0.06, 0.59),
        (0.0, 0.54),
        (0.0, 0.16),
    ],
    top: BOX_TOP,
    panes: &[
        &[(1.82, 0.66), (1.63, 0.87), (1.53, 0.93), (1.43, 0.935), (1.43, 0.65)],
        &[(1.39, 0.65), (1.39, 0.935), (1.2, 0.92), (1.13, 0.65)],
    ],
    windscreen: &[(1.62, 0.0), (1.64, 0.7), (1.87, 0.84), (1.9, 0.0)],
    rear_window: &[(1.06, 0.0), (1.06, 0.72), (1.11, 0.72), (1.11, 0.0)],
    mirror: (1.79, 0.66),
};

const PEOPLE_CARRIER: Template = Template {
    side: &[
        (0.16, 0.0),
        (2.78, 0.0),
        (2.95, 0.07),
        (3.0, 0.2),
        (2.97, 0.35),
        (2.84, 0.45),
        (2.45, 0.54),
        (2.16, 0.6),
        (1.96, 0.75),
        (1.76, 0.9),
        (1.6, 0.965),
        (1.3, 1.0),
        (0.9, 0.995),
        (0.5, 0.975),
        (0.18, 0.93),
        (0.07, 0.68),
        (0.02, 0.55),
        (0.0, 0.38),
        (0.02, 0.15),
    ],
    top: CAR_TOP,
    panes: &[
        &[(2.0, 0.62), (1.76, 0.83), (1.6, 0.9), (1.48, 0.92), (1.48, 0.6)],
        &[(1.43, 0.6), (1.43, 0.925), (0.98, 0.93), (0.98, 0.61)],
        &[(0.93, 0.61), (0.93, 0.93), (0.5, 0.91), (0.24, 0.87), (0.22, 0.64)],
    ],
    windscreen: &[(1.74, 0.0), (1.76, 0.66), (2.08, 0.82), (2.12, 0.0)],
    rear_window: &[(0.06, 0.0), (0.09, 0.68), (0.22, 0.66), (0.21, 0.0)],
    mirror: (1.9, 0.62),
};

#[cfg(test)]
mod tests {
    use super::*;
    use baywright_geometry::{Bounds, Polygon};

    fn figures(class: VehicleClass) -> Figures {
        Figures {
            width: 1800.0,
            height: 1500.0,
            wheelbase: 2700.0,
            overhang_front: 900.0,
            overhang_rear: 1000.0,
            ground_clearance: class.ground_clearance(),
        }
    }

    fn bounds(points: &[DVec2]) -> Bounds {
        Bounds::around(points.iter().copied()).unwrap()
    }

    #[test]
    fn outlines_have_exactly_the_cars_size() {
        for class in VehicleClass::ALL {
            let of = figures(class);
            let side = class.outline_side(&of);
            let top = class.outline_top(&of);
            assert!((12..=24).contains(&side.len()), "{class:?} has {} points from the side", side.len());
            assert!((12..=24).contains(&top.len()), "{class:?} has {} points from above", top.len());
            let (side_box, top_box) = (bounds(&side), bounds(&top));
            assert_eq!(side_box.low, DVec2::new(-3700.0, of.ground_clearance), "{class:?}");
            assert_eq!(side_box.high, DVec2::new(900.0, 1500.0), "{class:?}");
            assert_eq!(top_box.low, DVec2::new(-3700.0, -900.0), "{class:?}");
            assert_eq!(top_box.high, DVec2::new(900.0, 900.0), "{class:?}");
            let ring = Polygon::simple(side.clone()).unwrap();
            assert_eq!(ring.outer(), side, "{class:?} is given anticlockwise");
            assert!(Polygon::simple(top).unwrap().is_convex(), "{class:?} from above");
        }
    }

    #[test]
    fn panes_lie_within_the_car() {
        for class in VehicleClass::ALL {
            let (of, template) = (figures(class), class.template());
            let side = class.outline_side(&of);
            for pane in template.panes {
                let pane: Vec<DVec2> = pane.iter().map(|&p| of.side(p)).collect();
                assert!(pane.iter().all(|&p| inside(&side, p)), "{class:?}: {pane:?}");
                assert!(Polygon::simple(pane).is_ok(), "{class:?}");
            }
            let top = class.outline_top(&of);
            for half in [template.windscreen, template.rear_window] {
                assert!(half.iter().all(|&p| inside(&top, of.top(p))), "{class:?}: {half:?}");
            }
        }
    }

    #[test]
    fn mirrors_stick_out_on_both_sides_and_below_the_roof() {
        for class in VehicleClass::ALL {
            let mirrors = class.mirrors(&figures(class));
            assert!(mirrors.width_mm > 1800.0 && mirrors.height_mm < 1500.0 && mirrors.height_mm > 600.0);
            assert!(mirrors.ahead_mm < 900.0 && mirrors.ahead_mm > -2700.0);
        }
    }
}
