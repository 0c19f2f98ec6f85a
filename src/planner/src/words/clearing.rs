//! What must move so that a car can stand, in words.

use super::Words;
use crate::assessment::Verdict;
use crate::clearing::{Cleared, Move, Surety, Way, Where};

texts! {
    clearing: ClearingTexts, "Every fixed text about what must move.";
    ask, "Has it looked for.";
    ask_why, "What that does.";
    ask_here, "Has it looked for, so that the car can stand where it is.";
    ask_here_why, "What that does.";
    title, "Over a way to make room.";
    title_here, "Over one for where the car stands.";
    looking, "The sets are looked at.";
    then_park, "Before how the car is parked then.";
    stays_here, "The car stays where it stands.";
    do_it, "Does all of it.";
    do_here, "Does all of it, without the car.";
    proven, "No set that takes less leaves the car a place.";
    proven_here, "No set that takes less makes the place ready.";
    proven_here_well, "The same with as much to spare as parking takes.";
    best_found, "One that takes less may.";
    cheapest, "Of sets that take as many hands none costs less.";
    maybe_cheaper, "One may.";
    no_hands_proven, "What hands move makes no room: proven.";
    no_hands_found, "What hands move was not found to make room.";
    builder_proven, "No set that costs less makes room.";
    builder_care, "Who decides whether it may go.";
    partial, "Not all was looked at.";
    nothing_goes, "Nothing in the bay can be moved.";
    never, "It fits nowhere even with all gone that can go.";
    not_found, "No way was found.";
    remains, "Before what stops the aiming whatever goes.";
    rule, "What is counted, and what is not asked.";
    then_ready, "Nothing needs care then.";
    then_care, "Something needs care then.";
    money_rule, "What costs are, and what counts as nothing.";
    look_again, "Looks anew.";
    must_move, "Over all of it, in a text.";
    to_stand_here, "Over what must move for where the car stands.";
    to_stand_anywhere, "Over what must move so that it can stand anywhere.";
    nothing_moves, "In a text: nothing has to move.";
}

impl ClearingTexts {
    sentences! { clearing:
        /// How many of how many headings were looked at.
        looked_at(done: usize, all: usize) -> String;
        /// How many of how many things were looked at.
        looked_at_here(done: usize, all: usize) -> String;
        /// For how many lines of a list it was answered.
        lines_done(done: usize, all: usize) -> String;
    }

    /// How sure it is that a way is the least, and what is counted.
    pub fn surety(&self, found: &Cleared) -> Vec<&'static str> {
        let Some(way) = &found.way else { return Vec::new() };
        let is_proven = found.surety == Surety::Proven;
        let mut told = match (found.not_by_hands, is_proven, found.at) {
            (Some(_), true, _) => vec![self.builder_proven],
            (_, false, _) => vec![self.best_found],
            (None, true, Where::Anywhere) => vec![self.proven],
            (None, true, Where::Here(_)) if way.offer.meets => vec![self.proven_here_well],
            (None, true, Where::Here(_)) => vec![self.proven_here],
        };
        told.extend(found.least_money.map(|own| match own {
            Surety::Proven => self.cheapest,
            Surety::BestFound => self.maybe_cheaper,
        }));
        let has_costs = found.least_money.is_some() || found.not_by_hands.is_some();
        told.extend(has_costs.then_some(self.money_rule));
        told.push(self.rule);
        told
    }

    /// Why a builder is asked, and who decides; nothing of a way that hands make.
    pub fn by_builder(&self, found: &Cleared) -> Vec<&'static str> {
        let of = |own| match own {
            Surety::Proven => vec![self.no_hands_proven, self.builder_care],
            Surety::BestFound => vec![self.no_hands_found, self.builder_care],
        };
        found.not_by_hands.map(of).unwrap_or_default()
    }

    /// What is known where no way was found; what stops it whatever goes is told after it.
    pub fn no_way(&self, found: &Cleared) -> &'static str {
        match (found.is_partial, found.movable, found.surety) {
            (true, ..) => self.not_found,
            (false, ..) if !found.remains.is_empty() => self.remains,
            (false, 0, _) => self.nothing_goes,
            (false, _, Surety::Proven) => self.never,
            (false, _, Surety::BestFound) => self.not_found,
        }
    }

    /// What the space is then.
    pub const fn then(&self, verdict: Verdict) -> &'static str {
        match verdict {
            Verdict::Ready => self.then_ready,
            Verdict::ReadyWithCare | Verdict::NotReady => self.then_care,
        }
    }
}

impl Words<'_> {
    /// All that is told of what must move, a sentence or a few at a time.
    pub fn cleared(&self, found: &Cleared) -> Vec<String> {
        let texts = self.locale.language.clearing();
        let mut told: Vec<String> = Vec::new();
        match &found.way {
            Some(way) => {
                told.extend(way.moves.iter().map(|own| self.goes(own)));
                if way.moves.is_empty() {
                    told.push(texts.nothing_moves.to_owned());
                }
                told.extend(texts.by_builder(found).into_iter().map(str::to_owned));
                let takes = [self.way_takes(way), self.way_costs(way)];
                told.extend(takes.into_iter().filter(|own| !own.is_empty()));
                match found.at {
                    Where::Anywhere => {
                        told.push(format!("{} {}", texts.then_park, self.spot(&way.offer)));
                    }
                    Where::Here(_) => told.push(texts.stays_here.to_owned()),
                }
                told.push(self.spot_slack(&way.offer.spot.slack));
                told.push(self.spot_margin(&way.offer, &found.margin));
                told.push(texts.then(way.verdict).to_owned());
                told.extend(texts.surety(found).into_iter().map(str::to_owned));
            }
            None => {
                told.push(texts.no_way(found).to_owned());
                told.extend(found.remains.iter().map(|own| self.line(own)));
            }
        }
        told.extend(found.is_partial.then(|| texts.partial.to_owned()));
        told
    }
}

impl Words<'_> {
    sentences! { about:
        /// One thing that goes, as a sentence.
        goes(own: &Move) -> String;
        /// What all of it takes.
        way_takes(way: &Way) -> String;
        /// What all of it costs, by what the owner said; nothing where nothing was said.
        way_costs(way: &Way) -> String;
    }
}
