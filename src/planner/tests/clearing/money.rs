//! What things cost that go, by what the owner said: among as many hands the cheaper go, and where hands do nothing a builder, told apart.
//! Worked out by hand, with the set-up of `by_hand`: 9200 by 3000 about the car.

use baywright_planner::clearing::{Asked, Cleared, Money, Surety, Where, cleared, may_help};
use baywright_planner::geometry::{DVec2, PlanPose};
use baywright_planner::model::CostOf;

use crate::by_hand::{confirm, room};
use crate::support::*;
use crate::{Step, judge};

fn asked(own: &Arrangement, at: Where, costs: &[(&str, f64)]) -> Cleared {
    let costs: Vec<CostOf> = costs.iter().map(|&(name, costs)| CostOf { name: name.into(), costs }).collect();
    let asked = Asked { at, headings: &[(0.0, true)], costs: &costs };
    let found = cleared(own, &asked, &|| false, &mut |_| {});
    confirm(own, &found);
    found
}

fn gone(found: &Cleared) -> Vec<(String, bool)> {
    let moves = found.way.iter().flat_map(|own| &own.moves);
    let all = moves.filter_map(|own| match &own.step {
        Step::MoveThing { thing, .. } | Step::TakeAway { thing } => {
            Some((thing.to_string(), own.needs_builder))
        }
        _ => None,
    });
    all.collect()
}

/// On either side one: with the car against the other wall one of them may stay. Both take one person.
fn either_side() -> Arrangement {
    let left = cabinet("left", (7_000.0, 3_600.0), 600.0, 600.0);
    let right = cabinet("right", (7_000.0, 500.0), 600.0, 600.0);
    room(9_400.0, 4_100.0, vec![right, left])
}

#[test]
fn of_as_many_hands_the_cheaper_goes() {
    let own = either_side();
    for (left, right, goes) in [(500.0, 50.0, "right"), (50.0, 500.25, "left")] {
        let found = asked(&own, Where::Anywhere, &[("left", left), ("right", right)]);
        assert_eq!(gone(&found), [(goes.to_owned(), false)]);
        let way = found.way.unwrap();
        assert_eq!((way.hands, way.money), (1, Some(Money { sum: 50.0, unsaid: 0 })));
        assert_eq!((found.surety, found.least_money), (Surety::Proven, Some(Surety::Proven)));
    }
    // What was not said counts as nothing, and is counted.
    let found = asked(&own, Where::Anywhere, &[("left", 0.01)]);
    assert_eq!(gone(&found), [("right".to_owned(), false)]);
    assert_eq!((found.way.unwrap().money, found.least_money), (None, Some(Surety::Proven)));
    // Hands count first, whatever it costs.
    let mut own = own;
    own.bay.things[0].effort = Effort::TwoPeople;
    let found = asked(&own, Where::Anywhere, &[("left", 9_000.0), ("right", 1.0)]);
    assert_eq!(gone(&found), [("left".to_owned(), false)]);
    // Without any cost nothing is said of money.
    let found = asked(&own, Where::Anywhere, &[]);
    assert_eq!((found.least_money, found.way.unwrap().money), (None, None));
}

/// Columns on either side, of which one has to go: no hands move them.
#[test]
fn where_hands_do_nothing_the_cheaper_column_goes_by_a_builder() {
    let mut own = either_side();
    for thing in &mut own.bay.things {
        (thing.kind, thing.effort) = (ThingKind::Column, Effort::Fixed);
    }
    own.bay.things.push(cabinet("aside", (1_000.0, 250.0), 400.0, 400.0));
    let found = asked(&own, Where::Anywhere, &[]);
    assert_eq!((found.way, found.surety, found.not_by_hands), (None, Surety::Proven, None));
    let found = asked(&own, Where::Anywhere, &[("left", 900.0), ("right", 300.0)]);
    assert_eq!(gone(&found), [("right".to_owned(), true)]);
    assert_eq!((found.surety, found.not_by_hands), (Surety::Proven, Some(Surety::Proven)));
    assert_eq!((found.least_money, found.movable), (None, 1));
    let way = found.way.unwrap();
    assert_eq!((way.hands, way.money), (0, Some(Money { sum: 300.0, unsaid: 0 })));
    assert_eq!(way.by_builder().map(ToString::to_string).collect::<Vec<_>>(), ["right"]);
    // One without a cost stays, be the other ever so dear.
    let found = asked(&own, Where::Anywhere, &[("left", 1e9)]);
    assert_eq!(gone(&found), [("left".to_owned(), true)]);
}

/// What hands can do is done by hands, however cheap a builder is.
#[test]
fn no_builder_where_hands_do() {
    let mut own = either_side();
    (own.bay.things[0].kind, own.bay.things[0].effort) = (ThingKind::Column, Effort::Fixed);
    let found = asked(&own, Where::Anywhere, &[("left", 800.0), ("right", 1.0)]);
    assert_eq!(gone(&found), [("left".to_owned(), false)]);
    assert_eq!((found.not_by_hands, found.least_money), (None, Some(Surety::Proven)));
}

/// At one place a column and a cabinet stand in the way: both go, one by a builder, one by hand.
#[test]
fn a_builder_and_hands_together() {
    let stays = column("column", (6_500.0, 2_300.0), 300.0);
    let mut own = room(9_700.0, 4_700.0, vec![cabinet("cabinet", (7_000.0, 800.0), 600.0, 600.0), stays]);
    own.parked = PlanPose::new(DVec2::new(3_650.0, 2_350.0), 0.0);
    own.parked_known = ParkedKnown::Planned;
    let here = Where::Here(own.parked);
    assert!(asked(&own, here, &[("cabinet", 20.0)]).way.is_none());
    let costs = [("column", 4_000.0), ("cabinet", 20.5)];
    let found = asked(&own, here, &costs);
    let mut all = gone(&found);
    all.sort();
    assert_eq!(all, [("cabinet".to_owned(), false), ("column".to_owned(), true)]);
    assert!(found.remains.is_empty());
    assert_eq!((found.surety, found.not_by_hands), (Surety::Proven, Some(Surety::Proven)));
    let way = found.way.unwrap();
    assert_eq!((way.hands, way.money), (1, Some(Money { sum: 4_020.5, unsaid: 0 })));
    let mut alone = own.clone();
    alone.bay.things.remove(0);
    let costs = [CostOf { name: "column".into(), costs: 4_000.0 }];
    let findings = judge(&alone).findings;
    assert!(may_help(&alone, &findings, &costs) && !may_help(&alone, &findings, &[]));
}
