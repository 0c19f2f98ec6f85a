//! What would make a target surer before anything is laid: better instruments, more care, and what each of them buys.

use baywright_geometry::marks::Construction;

use super::Standing;
use crate::model::{Arrangement, Shop};
use crate::proof::{Cost, FigureOf};
use crate::scene::Scene;

/// What would help.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Help {
    /// A tape of class I instead of II: ± (0.1 + 0.1 L) mm instead of ± (0.3 + 0.2 L) mm, L in metres (references: Directive
    /// 2014/32/EU, annex X).
    ClassOneTape,
    /// A line laser that drifts half as much.
    SteadierLaser,
    /// Wheel points found twice as well.
    WheelsFound,
    /// Cambers known twice as well: from an alignment sheet.
    CamberKnown,
    /// All laid twice, and the middle taken: what each step adds by itself goes down by √2.
    LaidTwice,
}

impl Help {
    /// All of them.
    pub const ALL: [Self; 5] =
        [Self::ClassOneTape, Self::SteadierLaser, Self::WheelsFound, Self::CamberKnown, Self::LaidTwice];

    /// The shop as it would be then; `None` where it is as good already.
    fn in_shop(self, shop: &Shop) -> Option<Shop> {
        let mut better = *shop;
        match self {
            Self::ClassOneTape => {
                better.tape_per_metre_mm = shop.tape_per_metre_mm.min(CLASS_ONE_PER_METRE_MM);
                // What the class allows by itself is part of a reading; the rest is the eye's.
                let eye = shop.tape_read_mm.powi(2) - CLASS_TWO_MM.powi(2);
                if eye > 0.0 {
                    better.tape_read_mm = libm::hypot(eye.sqrt(), CLASS_ONE_MM);
                }
            }
            Self::SteadierLaser => better.laser_per_metre_mm *= 0.5,
            Self::WheelsFound => better.wheel_found_mm *= 0.5,
            Self::CamberKnown => better.camber_known_rad *= 0.5,
            Self::LaidTwice => {
                for own in [
                    &mut better.tape_read_mm,
                    &mut better.laser_per_metre_mm,
                    &mut better.line_found_mm,
                    &mut better.plumb_found_mm,
                    &mut better.wheel_found_mm,
                    &mut better.square_laid_rad,
                    &mut better.angle_laid_rad,
                ] {
                    *own *= std::f64::consts::FRAC_1_SQRT_2;
                }
            }
        }
        (better != *shop).then_some(better)
    }
}

const CLASS_ONE_MM: f64 = 0.1;
const CLASS_TWO_MM: f64 = 0.3;
const CLASS_ONE_PER_METRE_MM: f64 = 0.1;

/// What one of them buys.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Buys {
    /// Which.
    pub help: Help,
    /// The first figure's uncertainty then, 95 %, in its unit.
    pub u95: f64,
}

/// What would help a plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Helps {
    /// What of the target it is about: its first figure.
    pub of: FigureOf,
    /// Its uncertainty as it is laid now, before anything is taped, 95 %, in its unit.
    pub u95: f64,
    /// The dearest step now.
    pub dearest: Option<Cost>,
    /// What each buys, the best first.
    pub buys: Vec<Buys>,
    /// Whether all lines that are prolonged start at wheels: no plan makes their base longer.
    pub base_at_wheels: bool,
}

impl Helps {
    /// Of a set-up's plan; `None` where there is none, or no figure that follows it.
    pub fn of(arrangement: &Arrangement, scene: &Scene) -> Option<Self> {
        let mut untaped = Arrangement { marks_taped: Vec::new(), ..arrangement.clone() };
        let now = Standing::of(&untaped, scene)?;
        let figure = now.figures.first()?;
        let (of, u95) = (figure.of, figure.u95);
        let dearest = now.budget.costs(&figure.sought).and_then(|costs| costs.into_iter().next());
        let mut buys: Vec<Buys> = Vec::new();
        for help in Help::ALL {
            let Some(shop) = help.in_shop(&arrangement.shop) else { continue };
            untaped.shop = shop;
            let then = Standing::of(&untaped, scene).and_then(|own| own.figures.into_iter().next());
            buys.extend(then.map(|own| Buys { help, u95: own.u95 }));
        }
        buys.sort_by(|a, b| a.u95.total_cmp(&b.u95));
        Some(Self { of, u95, dearest, buys, base_at_wheels: base_at_wheels(arrangement) })
    }
}

/// Whether there are prolonged lines, and each runs from one wheel's mark through another's.
fn base_at_wheels(arrangement: &Arrangement) -> bool {
    let plan = &arrangement.aiming.mark_plan;
    let at_wheel = |mark: usize| {
        let how = plan.get(mark).map(|step| step.construction);
        matches!(how, Some(Construction::WheelPoint { .. } | Construction::Outboard { .. }))
    };
    let mut prolonged = plan.iter().filter_map(|step| match step.construction {
        Construction::Prolong { from, through, .. } => Some(at_wheel(from) && at_wheel(through)),
        _ => None,
    });
    prolonged.next().is_some_and(|first| first && prolonged.all(|own| own))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::testing::clear;
    use crate::model::AimError;
    use crate::proof::Origin;

    fn helps(arrangement: &Arrangement) -> Helps {
        Helps::of(arrangement, &Scene::of(arrangement)).unwrap()
    }

    fn u_with(helps: &Helps, help: Help) -> Option<f64> {
        helps.buys.iter().find(|own| own.help == help).map(|own| own.u95)
    }

    fn reflector() -> Arrangement {
        let mut arrangement = clear();
        arrangement.aiming.placements[0].target.error = AimError::PLACE;
        arrangement
    }

    #[test]
    fn nothing_that_helps_makes_it_less_sure() {
        let found = helps(&reflector());
        assert_eq!((found.of, found.buys.len()), (FigureOf::Direction, Help::ALL.len()));
        assert!(found.buys.iter().all(|own| own.u95 <= found.u95 + 1e-15), "{found:?}");
        assert!(found.buys.windows(2).all(|own| own[0].u95 <= own[1].u95));
        assert!(found.dearest.is_some() && found.base_at_wheels);
    }

    /// Where one thing alone is off, half of it is half of all, and what does not bear on it buys nothing.
    #[test]
    fn half_of_all_there_is_is_half() {
        let mut arrangement = reflector();
        // Of the marks alone: the floor's levels are no better known by any of it.
        arrangement.bay.survey = None;
        let shop = &mut arrangement.shop;
        for own in [
            &mut shop.tape_read_mm,
            &mut shop.tape_per_metre_mm,
            &mut shop.tape_within_k,
            &mut shop.laser_per_metre_mm,
            &mut shop.line_found_mm,
            &mut shop.camber_known_rad,
            &mut shop.plumb_found_mm,
        ] {
            *own = 0.0;
        }
        let found = helps(&arrangement);
        let near = |found: f64, expected: f64| (found - expected).abs() < 1e-6 * expected;
        assert!(near(u_with(&found, Help::WheelsFound).unwrap(), 0.5 * found.u95));
        assert!(near(u_with(&found, Help::LaidTwice).unwrap(), found.u95 / 2.0_f64.sqrt()));
        // What the shop has already is not offered.
        assert_eq!(u_with(&found, Help::SteadierLaser), None);
        assert_eq!(u_with(&found, Help::ClassOneTape), None);
        assert!(matches!(found.dearest.unwrap().origin, Origin::WheelAside(_)));
    }

    /// Only what is taped bears on the distance: a class I tape lowers it by what both allowances say.
    #[test]
    fn a_better_tape_counts_by_its_class() {
        let shop = Shop::default();
        let better = Help::ClassOneTape.in_shop(&shop).unwrap();
        assert_eq!(better.tape_per_metre_mm, 0.1);
        assert!((better.tape_read_mm - (0.49_f64 - 0.09 + 0.01).sqrt()).abs() < 1e-12);
        // Who has a better one keeps it.
        let own = Shop { tape_per_metre_mm: 0.05, tape_read_mm: 0.2, ..shop };
        assert_eq!(Help::ClassOneTape.in_shop(&own), None);
    }

    #[test]
    fn what_was_taped_does_not_change_what_would_have_helped() {
        let mut arrangement = reflector();
        let before = helps(&arrangement);
        let reading = Scene::of(&arrangement).readings[0].clone();
        let read_mm = reading.distance_mm;
        arrangement.marks_taped = vec![crate::model::MarkTaped::new(reading.from, reading.to, read_mm)];
        assert_eq!(helps(&arrangement), before);
    }
}
