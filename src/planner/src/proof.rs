//! The one way from a set-up to [`baywright_survey`] and back: how surely its mark plan puts the targets in place, what the tape
//! should read, and what the readings say of the marks as they were laid.
//!
//! Lengths are mm; marks and what they are off by are in the vehicle frame (x ahead, y to the left); angles are radians, positive
//! towards the car's left. Uncertainties are of 95 %, two-sided, by the normal distribution.
//!
//! It speaks of the marks, laid from these wheels as they stand, and of stands as far as something was read of them; of the sensor
//! it says nothing.

mod again;
mod aim;
mod course;
mod drawn;
mod figures;
mod helps;
mod judged;
mod measured;
mod possible;
mod stand;
mod sure;
mod tapes;
mod twice;
mod typed;
mod used;

use baywright_geometry::DVec2;
use baywright_survey::budget::{Budget, Instruments};
use baywright_survey::laid::{Chances, Fit, Laid, Read, Shown, Wrong, laid, next_check};
use baywright_survey::next_tape::{Candidate, Known, Next, Stop, Wish};

use crate::model::{Arrangement, Id, MarkTaped};
use crate::scene::Scene;

pub(crate) use aim::{AimKnown, aim_known};
pub use baywright_survey::budget::{Cost, Origin};
pub use baywright_survey::decide::Said;
pub use baywright_survey::monte_carlo::{BLOCK, Drawn, Enough, Gathered};
pub use course::{AfterReading, MOST_AFTER, after_each};
pub use drawn::{Checked, ToDraw};
pub(crate) use figures::direction_by;
pub(crate) use figures::standard;
pub use figures::{Figure, FigureOf, MadeOf};
pub use helps::{Buys, Help, Helps};
pub use measured::{Measured, measured};
pub use possible::{Bound, NotPossible, StandField};
pub use stand::{BAR_MM, CHORD_AT_MM, StandFigure, StandOf, StandPart, StandProof, stands};
pub(crate) use sure::Sure;
use tapes::Tapes;
pub use tapes::{laid_with, reads_at, warmth_of};
pub use twice::{ENOUGH, Hand};
pub use used::{Used, by_the_shop, used};

/// 95 of 100, either way.
pub(crate) const K: f64 = baywright_survey::chances::K95;

/// Marks that a target is set by, as they are known.
#[derive(Clone, Debug, PartialEq)]
pub struct Proof {
    /// What is asked of each target, in the aiming's order: its direction first.
    pub figures: Vec<Figure>,
    /// What the tape should read, in the scene's order, and what it did.
    pub rows: Vec<Row>,
    /// Whether what was read fits.
    pub doubt: Doubt,
    /// What to tape next.
    pub next: NextTape,
    /// Where each mark is, in the plan's order.
    pub marks: Vec<MarkKnown>,
    /// How many readings are of marks that the plan does not have, or that no tape can be held between.
    pub strange: usize,
    /// What the first figure's uncertainty is made of before anything is taped, the dearest first.
    pub costs: Vec<Cost>,
    /// What two layings show of the hand, if the marks were laid twice.
    pub hand: Option<Hand>,
}

/// A distance between two marks.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// From this mark.
    pub from: Id,
    /// To this one.
    pub to: Id,
    /// What the tape should read, mm, as the plan has it.
    pub should_mm: f64,
    /// How far off it may read in 95 of 100 cases if all is as assumed, mm; of a mark that is laid again, how far apart both lie at most.
    pub allowance_mm: f64,
    /// What it read, mm.
    pub read_mm: Option<f64>,
    /// Its test against all others, of what was read: beyond 3.29 it does not fit.
    pub test: Option<f64>,
}

impl Row {
    /// Whether it is of a mark to itself, laid a second time; else a distance.
    pub fn is_again(&self) -> bool {
        self.from == self.to
    }
}

/// What of the readings does not fit.
#[derive(Clone, Debug, PartialEq)]
pub enum Doubt {
    /// Nothing was read.
    Unread,
    /// All fits.
    Fits,
    /// This does not, and nothing else explains it as well.
    One(Off),
    /// Any of these would explain it; the likeliest first.
    CannotTell(Vec<Off>),
    /// More than one thing is wrong; the likeliest.
    MoreThanOne(Off),
}

/// What may be wrong.
#[derive(Clone, Debug, PartialEq)]
pub enum Off {
    /// A reading is so much too long, mm; negative: too short.
    Reading {
        /// From this mark.
        from: Id,
        /// To this one.
        to: Id,
        /// By how much.
        reads_long_mm: f64,
        /// What it likely is, mm.
        likely_mm: f64,
    },
    /// A mark lies beside its place.
    Mark {
        /// Which.
        mark: Id,
        /// So far, mm.
        by: DVec2,
    },
    /// A mark that was laid a second time lies elsewhere than the first time: either may be wrong.
    Apart {
        /// Which.
        mark: Id,
        /// How far apart both lie, mm.
        apart_mm: f64,
        /// How far apart two good layings lie at most, mm.
        within_mm: f64,
    },
}

/// What to tape next.
#[derive(Clone, Debug, PartialEq)]
pub enum NextTape {
    /// This: it settles most.
    Tape {
        /// From this mark.
        from: Id,
        /// To this one.
        to: Id,
    },
    /// This once more: it does not fit, or may be what does not; from a mark to itself, that mark is laid once more.
    Again {
        /// From this mark.
        from: Id,
        /// To this one.
        to: Id,
    },
    /// No distance shows it: lay this mark a second time by itself, and tape how far it lies from the first.
    LayAgain(Id),
    /// All is inside what is allowed: enough.
    Enough,
    /// No tape makes it surer.
    NothingHelps,
}

/// Where a mark is.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkKnown {
    /// Which.
    pub id: Id,
    /// Where, vehicle frame.
    pub at: DVec2,
    /// How far from where it is meant, mm.
    pub by: DVec2,
    /// How surely, the larger half axis of 95 %, mm.
    pub u95_mm: f64,
}

/// A reading that can be held against the plan.
struct Held<'a> {
    taped: &'a MarkTaped,
    row: usize,
    read: Read,
}

/// What stands of a set-up's marks by its budget and by what was read.
struct Standing<'a> {
    budget: Budget,
    prior: Known,
    /// Each distance of the scene as it can be taped.
    candidates: Vec<Option<Candidate>>,
    held: Vec<Held<'a>>,
    /// Marks that were laid a second time by themselves.
    again: Vec<again::LaidAgain>,
    instruments: Instruments,
    found: Laid,
    figures: Vec<Figure>,
    hand: Option<Hand>,
}

impl<'a> Standing<'a> {
    fn of(arrangement: &'a Arrangement, scene: &Scene) -> Option<Self> {
        let plan: Vec<_> = arrangement.aiming.mark_plan.iter().map(|step| step.construction).collect();
        let givens = scene.givens(arrangement)?;
        let tapes = Tapes::of(arrangement);
        let cambers = figures::cambers(arrangement);
        let assumed = figures::instruments(arrangement, tapes.laid());
        let hand = twice::of(arrangement, scene, (&plan, &givens), (&assumed, &tapes));
        let factor = hand.and_then(|own| own.counts).unwrap_or(1.0);
        let instruments = twice::by_hand(&assumed, factor);
        let budget =
            Budget::of_cambered(&plan, &givens, &instruments, &cambers).ok()?.checked_with(tapes.checks())?;
        let prior = Known::as_laid(&budget);
        let position = |id: &Id| scene.marks.iter().position(|mark| mark.id == *id);
        let candidates: Vec<Option<Candidate>> = scene
            .readings
            .iter()
            .map(|own| {
                let taped = arrangement.marks_taped.iter().find(|taped| taped.is_between(&own.from, &own.to));
                let (read_with, tape) =
                    taped.map_or_else(|| tapes.next(), |taped| tapes.reading(&taped.taken));
                let u_mm = factor * read_with.of(own.distance_mm);
                Some(Candidate { from: position(&own.from)?, to: position(&own.to)?, u_mm, tape })
            })
            .collect();
        // A tape that is held from a runway to the floor reads the slope; the plan's distances are level.
        let rise = |own: &Candidate| {
            let lies = |at: usize| scene.marks.get(at).map_or(0.0, |mark| mark.lies_mm);
            lies(own.to) - lies(own.from)
        };
        let level = |own: &Candidate, mm: f64| (mm * mm - rise(own).powi(2)).max(0.0).sqrt();
        let held: Vec<Held<'_>> = arrangement
            .marks_taped
            .iter()
            .filter_map(|taped| {
                let row = scene.readings.iter().position(|own| taped.is_between(&own.from, &own.to))?;
                let of = candidates.get(row).copied().flatten()?;
                Some(Held { taped, row, read: Read { of, read_mm: level(&of, tapes.corrected_mm(taped)) } })
            })
            .collect();
        let read: Vec<Read> = held.iter().map(|own| own.read).collect();
        let found = laid(&budget, &read, &Chances::default())?;
        let taped: Vec<Candidate> = read.iter().map(|own| own.of).collect();
        let all: Vec<Candidate> = candidates.iter().copied().flatten().collect();
        let gives = stand::gives(arrangement, scene);
        let again = again::of(arrangement, scene, &budget, &instruments);
        let untaped = candidates.iter().enumerate().filter(|(row, _)| held.iter().all(|own| own.row != *row));
        let untaped: Vec<Candidate> = untaped.filter_map(|(_, own)| *own).collect();
        let seen = again::counting(&again, &untaped);
        let is_in_doubt = matches!(found.fit, Fit::MoreThanOne(_));
        let is_apart = again::doubt(&again).is_some();
        let known = figures::Read {
            found: &found,
            shown: Shown { taped: &taped, again: &seen },
            all: &all,
            is_in_doubt,
            is_apart,
        };
        let figures = figures::of(arrangement, scene, &budget, known, &gives);
        Some(Self { budget, prior, candidates, held, again, instruments, found, figures, hand })
    }

    fn doubt(&self, scene: &Scene) -> Doubt {
        let by_tape = judged::doubt(&self.found.fit, &held_ids(&self.held), scene);
        // What the tape finds comes first: a mark that is shifted is laid again.
        match (by_tape, again::doubt(&self.again)) {
            (Doubt::Unread | Doubt::Fits, Some(apart)) => Doubt::One(apart),
            (Doubt::Unread, None) if !self.again.is_empty() => Doubt::Fits,
            (by_tape, _) => by_tape,
        }
    }
}

/// What is asked of each target and whether what was read fits, without what to tape next: what each judgement of a frame needs.
/// `None` as [`Proof::of`], and where nothing was read that can be held against the plan.
pub fn said(arrangement: &Arrangement, scene: &Scene) -> Option<(Vec<Figure>, Doubt)> {
    let standing =
        Standing::of(arrangement, scene).filter(|own| !own.held.is_empty() || !own.again.is_empty())?;
    let doubt = standing.doubt(scene);
    Some((standing.figures, doubt))
}

impl Proof {
    /// Of a set-up as it stands in its scene; `None` where there is no plan, or a mark of it is not found.
    pub fn of(arrangement: &Arrangement, scene: &Scene) -> Option<Self> {
        let standing = Standing::of(arrangement, scene)?;
        let doubt = standing.doubt(scene);
        let Standing { budget, prior, candidates, held, again, instruments, found, figures, hand } =
            &standing;
        let hand = *hand;
        let rows = scene.readings.iter().zip(candidates).enumerate().map(|(row, (own, candidate))| {
            let nth = held.iter().position(|held| held.row == row);
            let expected = candidate.and_then(|own| prior.expects(&own));
            Row {
                from: own.from.clone(),
                to: own.to.clone(),
                should_mm: own.distance_mm,
                allowance_mm: expected.map_or(f64::NAN, |own| own.allowance_mm()),
                read_mm: nth.and_then(|nth| held.get(nth)).map(|own| own.taped.read_mm),
                test: nth.and_then(|nth| found.tests.get(nth)).copied(),
            }
        });
        let laid_again = again::rows(scene, (budget, instruments), (again, figures));
        let rows: Vec<Row> = rows.chain(laid_again).collect();
        let next = Ahead { scene, candidates, held, again, found, budget }.next(figures);
        let costs = figures.first().and_then(|own| budget.costs(&own.sought)).unwrap_or_default();
        let marks = scene.marks.iter().enumerate().filter_map(|(at, mark)| {
            let own = *found.known.places().get(at)?;
            let by = own - *budget.places().get(at)?;
            let cell = |a, b| found.known.covariance().at(2 * at + a, 2 * at + b);
            let ellipse = baywright_survey::network::Ellipse::of(cell(0, 0), cell(0, 1), cell(1, 1));
            // Two figures together stay within this with 95 %: the root of χ² with two degrees of freedom, √5.991.
            Some(MarkKnown { id: mark.id.clone(), at: own, by, u95_mm: ellipse.long_mm * 2.447_746_83 })
        });
        let marks = marks.collect();
        let strange = arrangement.marks_taped.len() - held.len() - again.len();
        Some(Self { rows, doubt, next, marks, strange, costs, hand, figures: standing.figures })
    }

    /// How many distances were read.
    pub fn read(&self) -> usize {
        self.rows.iter().filter(|row| row.read_mm.is_some()).count()
    }

    /// The worst of what is said of all that is asked: outside before what cannot be said before inside.
    pub fn worst(&self) -> Option<&Figure> {
        let rank = |own: &&Figure| match own.said {
            Said::Outside { .. } => 0,
            Said::NoFigure => 1,
            Said::CannotSay { .. } => 2,
            Said::Inside { .. } => 3,
        };
        self.figures.iter().min_by_key(rank)
    }
}

/// What was taped of a plan, to be weighed otherwise.
pub(crate) struct Taped {
    /// The plan's budget.
    pub budget: Budget,
    /// Each distance of the scene as it can be taped.
    pub candidates: Vec<Option<Candidate>>,
    /// What was read, but for what may itself be misread.
    pub read: Vec<Read>,
    prior: Known,
}

impl Taped {
    /// What a distance should read, mm.
    pub fn expected_mm(&self, candidate: &Candidate) -> Option<f64> {
        self.prior.expects(candidate).map(|own| own.read_mm)
    }
}

/// What was taped of a set-up's marks; `None` as [`Proof::of`].
pub(crate) fn taped(arrangement: &Arrangement, scene: &Scene) -> Option<Taped> {
    let Standing { budget, prior, candidates, held, found, .. } = Standing::of(arrangement, scene)?;
    let doubted: &[Wrong] = match &found.fit {
        Fit::One(own) | Fit::MoreThanOne(own) => std::slice::from_ref(own),
        Fit::CannotTell(all) => all,
        Fit::Unread | Fit::Fits => &[],
    };
    let is_doubted =
        |at: usize| doubted.iter().any(|own| matches!(own, Wrong::Reading { nth, .. } if *nth == at));
    let read = held.iter().enumerate().filter(|(at, _)| !is_doubted(*at)).map(|(_, own)| own.read).collect();
    Some(Taped { budget, candidates, read, prior })
}

fn held_ids<'a>(held: &'a [Held<'a>]) -> Vec<(&'a Id, &'a Id, f64)> {
    held.iter().map(|own| (&own.taped.from, &own.taped.to, own.taped.read_mm)).collect()
}

/// What there is to tape still, and what is known so far.
struct Ahead<'a> {
    scene: &'a Scene,
    candidates: &'a [Option<Candidate>],
    held: &'a [Held<'a>],
    again: &'a [again::LaidAgain],
    found: &'a Laid,
    budget: &'a Budget,
}

impl Ahead<'_> {
    /// Again what may be misread; else what makes the first figure that is not inside surest; else what would show a mark that lies
    /// beside its place.
    fn next(&self, figures: &[Figure]) -> NextTape {
        let doubted: &[Wrong] = match &self.found.fit {
            Fit::One(own) | Fit::MoreThanOne(own) => std::slice::from_ref(own),
            Fit::CannotTell(all) => all,
            Fit::Unread | Fit::Fits => &[],
        };
        let again = doubted.iter().find_map(|own| match own {
            Wrong::Reading { nth, .. } => self.held.get(*nth),
            Wrong::Mark { .. } => None,
        });
        if let Some(own) = again {
            return NextTape::Again { from: own.taped.from.clone(), to: own.taped.to.clone() };
        }
        if let Some(Off::Apart { mark, .. }) = again::doubt(self.again) {
            return NextTape::Again { from: mark.clone(), to: mark };
        }
        let open = |own: &&Figure| !matches!(own.said, Said::Inside { .. });
        let Some(figure) = figures.iter().find(open) else {
            return if figures.is_empty() { NextTape::NothingHelps } else { NextTape::Enough };
        };
        let left = self.candidates.iter().enumerate();
        let left = left.filter(|(row, _)| self.held.iter().all(|own| own.row != *row));
        let left: Vec<(usize, Candidate)> = left.filter_map(|(row, own)| Some((row, (*own)?))).collect();
        let tapes: Vec<Candidate> = left.iter().map(|(_, own)| *own).collect();
        let chosen = self.surer(figure, &tapes).or_else(|| self.check(figure, &tapes));
        let row = chosen.and_then(|at| left.get(at)).and_then(|(row, _)| self.scene.readings.get(*row));
        if let Some(own) = row {
            return NextTape::Tape { from: own.from.clone(), to: own.to.clone() };
        }
        // What is laid a second time is taped as well, or a figure that was taken wrongly twice shows nowhere.
        let unseen =
            figure.unseen_mark.as_ref().and_then(|id| self.scene.marks.iter().position(|own| own.id == *id));
        let beside =
            tapes.iter().position(|own| unseen.is_some_and(|mark| own.from == mark || own.to == mark));
        let row = beside.and_then(|at| left.get(at)).and_then(|(row, _)| self.scene.readings.get(*row));
        if let Some(own) = row {
            return NextTape::Tape { from: own.from.clone(), to: own.to.clone() };
        }
        let is_read = |id: &Id| self.again.iter().any(|own| own.id == *id);
        let unseen = figure.unseen_mark.as_ref().filter(|id| figure.is_unchecked() && !is_read(id));
        unseen.map_or(NextTape::NothingHelps, |id| NextTape::LayAgain(id.clone()))
    }

    /// What lowers its uncertainty most, as long as that is too large.
    fn surer(&self, figure: &Figure, tapes: &[Candidate]) -> Option<usize> {
        let all = ((figure.allowed - figure.off.abs()) / K).max(0.0);
        // What is not the marks' stays, whatever is taped.
        let at_u = (all * all - figure.others_u * figure.others_u).max(0.0).sqrt() * figure.scale();
        let stop = Stop { at_u, ..Stop::default() };
        match self.found.known.next(tapes, &Wish::Target(figure.sought), &stop) {
            Next::Tape { candidate, .. } => Some(candidate),
            Next::Enough | Next::NothingHelps => None,
        }
    }

    /// What leaves least unseen.
    fn check(&self, figure: &Figure, tapes: &[Candidate]) -> Option<usize> {
        let taped: Vec<Candidate> = self.held.iter().map(|own| own.read.of).collect();
        let most = 10.0 * figure.allowed * figure.scale();
        let again = again::counting(self.again, tapes);
        let shown = Shown { taped: &taped, again: &again };
        next_check(self.budget, shown, tapes, &figure.sought, most, &Chances::default())
    }
}

#[cfg(test)]
mod tests;
