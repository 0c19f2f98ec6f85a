//! Budgets of mark plans, against an independent uncertainty library (uncertainties, by automatic differentiation), and by drawing.

use baywright_geometry::DVec2;
use baywright_geometry::marks::{Construction, Givens, Reach, Wheel, WhichSide};
use baywright_survey::budget::{Budget, BudgetFault, Instruments, Sought, Tape};
use baywright_survey::monte_carlo::{Enough, Gathered, Sampler};
use serde_json::Value;

use crate::{near, number, numbers, table};

fn point(of: &Value) -> DVec2 {
    let at = numbers(of);
    DVec2::new(at[0], at[1])
}

fn step(of: &Value) -> Construction {
    let mark = |name: &str| of[name].as_u64().unwrap() as usize;
    let pair = |name: &str| (of[name][0].as_u64().unwrap() as usize, of[name][1].as_u64().unwrap() as usize);
    let figure = |name: &str| number(&of[name]);
    let wheel = || {
        let all = ["FrontLeft", "FrontRight", "RearLeft", "RearRight"];
        Wheel::ALL[all.iter().position(|name| of["wheel"] == **name).unwrap()]
    };
    match of["is"].as_str().unwrap() {
        "WheelPoint" => Construction::WheelPoint { wheel: wheel() },
        "Outboard" => Construction::Outboard { wheel: wheel(), distance: figure("distance") },
        "BodyPoint" => Construction::BodyPoint { point: 0 },
        "Prolong" => Construction::Prolong {
            from: mark("from"),
            through: mark("through"),
            reach: Reach::Length(figure("length")),
        },
        "Middle" => Construction::Middle { first: mark("first"), second: mark("second") },
        "Foot" => Construction::Foot { of: mark("of"), from: mark("from"), to: mark("to") },
        "AlongAside" => Construction::AlongAside {
            from: mark("from"),
            to: mark("to"),
            along: figure("along"),
            aside: figure("aside"),
        },
        "AtAngle" => Construction::AtAngle {
            at: mark("at"),
            towards: mark("towards"),
            angle: figure("angle"),
            distance: figure("distance"),
        },
        "Crossing" => Construction::Crossing { first: pair("first"), second: pair("second") },
        "TwoDistances" => Construction::TwoDistances {
            first: mark("first"),
            from_first: figure("from_first"),
            second: mark("second"),
            from_second: figure("from_second"),
            side: if of["side"] == "Left" { WhichSide::Left } else { WhichSide::Right },
        },
        other => panic!("{other}"),
    }
}

fn shop(of: &Value) -> Instruments {
    let figure = |name: &str| number(&of[name]);
    Instruments {
        tape: Tape {
            read_mm: figure("read_mm"),
            per_metre_mm: figure("per_metre_mm"),
            scale: figure("scale"),
            within_k: figure("within_k"),
            per_k: figure("per_k"),
        },
        laser_mm_per_m: figure("laser_mm_per_m"),
        line_mm: figure("line_mm"),
        plumb_mm: figure("plumb_mm"),
        wheel_aside_mm: figure("wheel_aside_mm"),
        wheel_along_mm: figure("wheel_along_mm"),
        camber_rad: figure("camber_rad"),
        hub_height_mm: figure("hub_height_mm"),
        square_rad: figure("square_rad"),
        angle_rad: figure("angle_rad"),
    }
}

/// A plan of the table, its car and the shop.
pub fn case(of: &Value) -> (Vec<Construction>, Givens, Instruments) {
    let wheels: Vec<DVec2> = of["wheels"].as_array().unwrap().iter().map(point).collect();
    let givens =
        Givens::new(wheels.try_into().unwrap(), DVec2::X, [205.0; 4], vec![point(&of["body"])], vec![]);
    (of["plan"].as_array().unwrap().iter().map(step).collect(), givens.unwrap(), shop(&of["shop"]))
}

#[test]
fn plans_as_an_independent_library_has_them() {
    let all = table(include_str!("plans.json"));
    assert!(all.len() >= 20);
    for (nth, of) in all.iter().enumerate() {
        let what = format!("case {nth}");
        let (plan, givens, shop) = case(of);
        let budget = Budget::of(&plan, &givens, &shop).unwrap();
        for (place, at) in budget.places().iter().zip(of["places"].as_array().unwrap()) {
            assert!(place.distance(point(at)) < 1e-4, "{what}");
        }
        let expected: Vec<Vec<f64>> = of["covariance"].as_array().unwrap().iter().map(numbers).collect();
        for (row, cells) in expected.iter().enumerate() {
            for (column, cell) in cells.iter().enumerate() {
                let scale = (expected[row][row] * expected[column][column]).sqrt();
                near(budget.covariance().at(row, column), *cell, 1e-5 * scale, &what);
            }
        }
        let from = point(&of["sensor"]);
        for (sought, name) in [
            (Sought::Bearing { mark: 6, from }, "bearing"),
            (Sought::Squareness { right: 5, left: 4 }, "squareness"),
            (Sought::Distance { mark: 6, from }, "distance"),
        ] {
            let found = budget.outcome(&sought).unwrap();
            let [value, u] = numbers(&of[name])[..] else { panic!() };
            near(found.value, value, 1e-7 * value.abs().max(1.0), name);
            near(found.u, u, 1e-5 * u, name);
            let costs = budget.costs(&sought).unwrap();
            near(costs.iter().map(|cost| cost.share).sum(), 1.0, 1e-9, "shares");
            assert!(costs.is_sorted_by(|a, b| a.share >= b.share));
        }
    }
}

/// Drawn, without the linear law: within 2 % of it, for plans that are nearly linear.
#[test]
fn drawn_plans_agree_with_the_linear_law() {
    for of in table(include_str!("plans.json")).iter().take(6) {
        let (plan, givens, shop) = case(of);
        let budget = Budget::of(&plan, &givens, &shop).unwrap();
        let sampler = Sampler::of(budget.inputs(), &[]).unwrap();
        let sought = Sought::Bearing { mark: 6, from: point(&of["sensor"]) };
        let mut gathered = Gathered::new(Enough::default());
        (0..5).for_each(|nth| gathered.take(sampler.block(3, nth, &mut budget.drawn(&sought))));
        let (drawn, linear) = (gathered.finish().unwrap(), budget.outcome(&sought).unwrap());
        near(drawn.u, linear.u, 0.02 * linear.u, "u");
        near(drawn.high - drawn.low, 2.0 * linear.within(0.05), 0.04 * linear.within(0.05), "U");
        near(drawn.mean, linear.value, 0.02 * linear.u, "mean");
        assert_eq!(drawn.lost, 0);
    }
}

/// What is common stays common: the tape's scale moves left and right alike, so it turns nothing, but lengthens the stand-off.
#[test]
fn a_scale_cancels_left_against_right() {
    let wheels = [(0., 780.), (0., -780.), (-2550., 780.), (-2550., -780.)].map(DVec2::from);
    let givens = Givens::new(wheels, DVec2::X, [205.0; 4], vec![], vec![DVec2::new(5000.0, 0.0)]).unwrap();
    let mut plan: Vec<Construction> = Wheel::ALL.map(|wheel| Construction::WheelPoint { wheel }).to_vec();
    let ahead = |from, through| Construction::Prolong { from, through, reach: Reach::AbreastOf(0) };
    plan.extend([ahead(2, 0), ahead(3, 1), Construction::Middle { first: 4, second: 5 }]);
    let warm = Instruments {
        tape: Tape { within_k: 15.0 * 3.0_f64.sqrt(), ..Instruments::PERFECT.tape },
        ..Instruments::PERFECT
    };
    let budget = Budget::of(&plan, &givens, &warm).unwrap();
    let u = |sought| budget.outcome(&sought).unwrap().u;
    near(u(Sought::Distance { mark: 6, from: DVec2::ZERO }), 0.8625, 1e-4, "5 m, 15 K, 11.5 ppm");
    near(u(Sought::Squareness { right: 5, left: 4 }), 0.0, 1e-12, "squareness");
    near(u(Sought::Bearing { mark: 6, from: DVec2::ZERO }), 0.0, 1e-12, "bearing");
    near(budget.with_scale().at(14, 14).sqrt(), 15.0 * 11.5e-6, 1e-9, "scale");
    near(budget.with_scale().at(12, 14) / budget.with_scale().at(14, 14), 5000.0, 1e-6, "place by scale");
}

#[test]
fn what_has_no_budget_says_why() {
    let wheels = [(0., 780.), (0., -780.), (-2550., 780.), (-2550., -780.)].map(DVec2::from);
    let givens = Givens::new(wheels, DVec2::X, [205.0; 4], vec![], vec![]).unwrap();
    let wheel = Construction::WheelPoint { wheel: Wheel::FrontLeft };
    let lost = Construction::Middle { first: 0, second: 9 };
    let of = |plan: &[Construction], shop: &Instruments| Budget::of(plan, &givens, shop).err();
    assert!(matches!(of(&[wheel, lost], &Instruments::PERFECT), Some(BudgetFault::NoMark { mark: 1, .. })));
    let bad = Instruments { line_mm: f64::NAN, ..Instruments::PERFECT };
    assert_eq!(of(&[wheel], &bad), Some(BudgetFault::NoFigure));
    assert_eq!(of(&vec![wheel; 101], &Instruments::PERFECT), Some(BudgetFault::TooMany));
    let right = Construction::WheelPoint { wheel: Wheel::FrontRight };
    let barely = Construction::TwoDistances {
        first: 0,
        from_first: 780.01,
        second: 1,
        from_second: 780.01,
        side: WhichSide::Left,
    };
    let rough = Instruments { wheel_aside_mm: 5.0, ..Instruments::PERFECT };
    assert_eq!(of(&[wheel, right, barely], &rough), Some(BudgetFault::TooUnsure));
    let budget = Budget::of(&[wheel], &givens, &rough).unwrap();
    assert_eq!(budget.outcome(&Sought::Aside { mark: 3 }), None);
    assert_eq!(budget.outcome(&Sought::Bearing { mark: 0, from: DVec2::new(0.0, 780.0) }), None);
}
