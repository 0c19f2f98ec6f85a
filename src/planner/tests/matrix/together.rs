//! What several changes unlock together, within a sum.

use baywright_planner::matrix::{
    Change, DoorStays, Line, OfChanges, Place, Purse, SetUnlocks, Stands, Together, Unlocked, changes_of,
    doors_that_stay, together, unlocked_by_all,
};
use baywright_planner::model::{CostOf, OwnerFigures};
use baywright_planner::place::Margin;
use proptest::prelude::*;

use crate::made::{line, now, two};
use crate::support::*;

/// All sets of so many, each by the positions of its members, the empty one first.
fn subsets(count: usize) -> Vec<Vec<usize>> {
    let all = 0..1_usize << count;
    all.map(|bits| (0..count).filter(|nth| bits >> nth & 1 == 1).collect()).collect()
}

fn owner(priced: &[(Change, f64)], to_spend: f64) -> OwnerFigures {
    let mut own = OwnerFigures { to_spend: Some(to_spend), ..OwnerFigures::default() };
    for (change, costs) in priced {
        match change {
            Change::Without(name) => own.without.push(CostOf { name: name.clone(), costs: *costs }),
            Change::Further(name) => own.further.push(CostOf { name: name.clone(), costs: *costs }),
            Change::WalledUp(name) => own.walled_up.push(CostOf { name: name.clone(), costs: *costs }),
            Change::OpenOnto(name) => own.open_onto.push(CostOf { name: name.clone(), costs: *costs }),
        }
    }
    own
}

/// A hall that is 1.5 m too short for the aiming, whichever way the car looks: neither end wall a metre further out is enough, nor a
/// metre of ground beyond the door in one of them; two of these are. What is found is the best of all subsets that the sum buys, looked at
/// one by one.
#[test]
fn two_walls_unlock_together_what_neither_does() {
    let margin = Margin::default();
    let [mut ahead, mut back] = two();
    for own in [&mut ahead, &mut back] {
        own.bay.room = rectangle((0.0, 0.0), (7_750.0, 3_400.0));
        own.bay.survey = None;
        own.bay.things.clear();
        own.bay.openings = vec![Opening { shut: true, ..open_door(1, 50.0, 3_300.0, 0.0) }];
        own.parked = crate::geometry::PlanPose::new(DVec2::new(2_000.0, 1_700.0), 0.0);
    }
    let lines: [Line; 2] = [line(ahead.clone()), line(back)];
    let known: Vec<Option<Stands>> = now(&lines, &Place::Room, &margin);
    let of =
        OfChanges { lines: &lines, now: &known, place: &Place::Room, further_mm: 1_000.0, margin: &margin };
    let look = |changes: &[Change]| -> SetUnlocks { unlocked_by_all(&of, changes, &|| false) };
    let stay = doors_that_stay(&of);
    assert_eq!(stay, [("roller door".into(), DoorStays::WayIn)]);
    let all = changes_of(&ahead.bay, &stay);
    assert_eq!(all.len(), 5, "four walls and the door onto its ground");
    let alone: Vec<Unlocked> = all
        .iter()
        .map(|change| {
            let (lines, is_partial) = look(std::slice::from_ref(change));
            Unlocked { change: change.clone(), lines, eases: Vec::new(), is_partial }
        })
        .collect();
    // What each subset unlocks, looked at by itself.
    let sets = subsets(all.len());
    let by_itself: Vec<Vec<usize>> = sets
        .iter()
        .map(|set| {
            let changes: Vec<Change> = set.iter().map(|nth| all[*nth].clone()).collect();
            look(&changes).0
        })
        .collect();
    let mut together_only = 0;
    for to_spend in [0.0, 90.0, 130.0, 200.0, 1_000.0] {
        let prices = [70.0, 90.0, 60.0, 110.0, 20.0];
        let priced: Vec<(Change, f64)> = all.iter().cloned().zip(prices).collect();
        let Some(purse) = Purse::of(&alone, &owner(&priced, to_spend)) else {
            assert!(prices.iter().all(|own| *own > to_spend));
            continue;
        };
        let found = together(&purse, &alone, |_| 1.0, &mut |sets| {
            sets.iter().map(|set| look(&purse.changes(set))).collect()
        });
        let cost = |set: &[usize]| set.iter().map(|nth| prices[*nth]).sum::<f64>();
        let bought = || sets.iter().zip(&by_itself).filter(|own| cost(own.0) <= to_spend);
        let most = bought().map(|own| own.1.len()).max().unwrap();
        assert_eq!(found.lines.len(), most, "for {to_spend}: {found:?}");
        // Of the sets that unlock as many none is cheaper.
        let least = bought().filter(|own| own.1.len() == most).map(|own| cost(own.0));
        let least = least.fold(f64::INFINITY, f64::min);
        assert!(most == 0 || (found.costs - least).abs() < 1e-9, "for {to_spend}: {found:?}, {least}");
        assert!(!found.is_partial && found.costs <= to_spend);
        let by_one = alone.iter().map(|own| own.lines.len()).max().unwrap();
        together_only += usize::from(most > by_one);
    }
    assert!(together_only > 0, "no sum buys what no single change does: {by_itself:?}");
}

/// A made-up question: of each line sets of changes of which any unlocks it.
#[derive(Clone, Debug)]
struct Made {
    prices: Vec<f64>,
    to_spend: f64,
    weights: Vec<f64>,
    keys: Vec<Vec<Vec<usize>>>,
}

impl Made {
    fn unlocks(&self, set: &[usize]) -> Vec<usize> {
        let is_open = |keys: &Vec<Vec<usize>>| keys.iter().any(|own| own.iter().all(|nth| set.contains(nth)));
        (0..self.keys.len()).filter(|nth| is_open(&self.keys[*nth])).collect()
    }

    fn worth(&self, set: &[usize]) -> f64 {
        self.unlocks(set).iter().map(|nth| self.weights[*nth]).sum()
    }

    fn cost(&self, set: &[usize]) -> f64 {
        set.iter().map(|nth| self.prices[*nth]).sum()
    }

    fn changes(&self) -> Vec<Change> {
        (0..self.prices.len()).map(|nth| Change::Without(format!("thing {nth}").as_str().into())).collect()
    }

    fn ask(&self, is_stopped: bool) -> Option<Together> {
        let all = self.changes();
        let alone: Vec<Unlocked> = all
            .iter()
            .enumerate()
            .map(|(nth, own)| Unlocked {
                change: own.clone(),
                lines: self.unlocks(&[nth]),
                eases: Vec::new(),
                is_partial: false,
            })
            .collect();
        let priced: Vec<(Change, f64)> = all.iter().cloned().zip(self.prices.iter().copied()).collect();
        let purse = Purse::of(&alone, &owner(&priced, self.to_spend))?;
        let own = |own: &Change| all.iter().position(|other| own == other).unwrap();
        Some(together(&purse, &alone, |nth| self.weights[nth], &mut |sets| {
            let set = |set: &Vec<usize>| purse.changes(set).iter().map(own).collect::<Vec<usize>>();
            sets.iter().map(|own| (self.unlocks(&set(own)), is_stopped)).collect()
        }))
    }
}

fn made() -> impl Strategy<Value = Made> {
    (2_usize..=6, 1_usize..=5).prop_flat_map(|(changes, lines)| {
        let key = prop::collection::vec(0..changes, 1..=3);
        let keys = prop::collection::vec(prop::collection::vec(key, 1..=3), lines);
        let prices = prop::collection::vec((0_u32..=9).prop_map(f64::from), changes);
        let weights = prop::collection::vec((0_u32..=4).prop_map(f64::from), lines);
        let all = (prices, (0_u32..=30).prop_map(f64::from), weights, keys);
        all.prop_map(|(prices, to_spend, weights, keys)| Made { prices, to_spend, weights, keys })
    })
}

proptest! {
    /// What is told costs no more than the sum and unlocks what it says; no single change and no pair within the sum is worth more; no one
    /// more added to it, where it was grown, either; and where no line asks for more than two changes and two are all that can be bought,
    /// it is the best of all subsets.
    #[test]
    fn it_is_the_best_of_what_was_looked_at(own in made()) {
        let Some(found) = own.ask(false) else {
            prop_assert!(own.prices.iter().all(|price| *price > own.to_spend));
            return Ok(());
        };
        let all = own.changes();
        let set: Vec<usize> =
            found.changes.iter().map(|change| all.iter().position(|other| other == change).unwrap()).collect();
        prop_assert_eq!(own.cost(&set), found.costs);
        prop_assert!(found.costs <= own.to_spend && !found.is_partial);
        prop_assert_eq!(&own.unlocks(&set), &found.lines);
        prop_assert_eq!(found.changes.is_empty(), found.lines.is_empty());
        let sets = subsets(own.prices.len());
        let bought = || sets.iter().filter(|set| own.cost(set) <= own.to_spend);
        for few in bought().filter(|set| set.len() <= 2) {
            let is_worth = own.worth(few) <= own.worth(&set);
            prop_assert!(is_worth, "{few:?} of {own:?} is worth more than {found:?}");
            let is_as_good = own.worth(few) == own.worth(&set) && !own.unlocks(few).is_empty();
            prop_assert!(!is_as_good || own.cost(few) >= found.costs, "{few:?} of {own:?} is cheaper than {found:?}");
        }
        if bought().all(|set| set.len() <= 2) {
            let most = bought().map(|set| own.worth(set)).fold(0.0, f64::max);
            prop_assert_eq!(own.worth(&set), most);
        }
    }

    /// What was stopped says so, and tells only what was looked at.
    #[test]
    fn what_was_stopped_is_told_as_partial(own in made()) {
        if let Some(found) = own.ask(true) {
            prop_assert_eq!(found.is_partial, found.looked_at > 0);
            prop_assert!(found.costs <= own.to_spend);
        }
    }
}

/// Where pairs are worth no more than the single ones, one more at a time still finds three that unlock together on the best pair.
#[test]
fn the_best_pair_grows() {
    let own = Made {
        prices: vec![1.0, 1.0, 1.0, 1.0],
        to_spend: 3.0,
        weights: vec![1.0, 1.0, 5.0],
        keys: vec![vec![vec![0]], vec![vec![1, 2]], vec![vec![0, 1, 2]]],
    };
    let found = own.ask(false).unwrap();
    assert_eq!((found.lines, found.costs), (vec![0, 1, 2], 3.0));
    // Six pairs, then two that hold the best of them.
    assert_eq!(found.looked_at, 8);
}
