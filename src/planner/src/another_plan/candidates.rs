//! Other ways to lay one mark where it lies.

use baywright_geometry::marks::{Construction, Reach, WhichSide};
use baywright_geometry::{DVec2, angle};

use crate::model::MarkStep;

/// The mark that is laid otherwise, in its plan.
pub(super) struct Step<'a> {
    pub plan: &'a [MarkStep],
    /// Where each mark lies.
    pub places: &'a [DVec2],
    pub at: usize,
}

/// One way: marks that are laid first, right before it, and then its own construction.
pub(super) struct Way {
    pub first: Vec<Construction>,
    pub then: Construction,
}

impl Way {
    const fn of(then: Construction) -> Self {
        Self { first: Vec::new(), then }
    }
}

/// Marks lie on one line within this, mm.
const ON_LINE_MM: f64 = 1e-3;
/// Two tapes cross no flatter than this: 30°, as tapes are held (common practice, no source).
const LEAST_SINE: f64 = 0.5;
/// How far beyond the second mark of a line one more is laid on it, mm.
const BEYOND_MM: [f64; 8] = [500.0, 1_000.0, 1_500.0, 2_000.0, 2_500.0, 3_000.0, 4_000.0, 5_000.0];

impl Step<'_> {
    fn own(&self) -> DVec2 {
        self.place(self.at)
    }

    fn place(&self, mark: usize) -> DVec2 {
        self.places.get(mark).copied().unwrap_or_default()
    }

    fn how(&self) -> Option<Construction> {
        self.plan.get(self.at).map(|own| own.construction)
    }

    /// Two earlier marks, in either order.
    fn pairs(&self) -> impl Iterator<Item = (usize, usize)> {
        let at = self.at;
        (0..at).flat_map(move |one| (0..at).filter(move |other| *other != one).map(move |other| (one, other)))
    }

    /// The mark prolonged from a line through two places, by their positions; `None` if it does not lie on it, beyond the second.
    fn prolonged(
        &self,
        (from, at_from): (usize, DVec2),
        (through, at_through): (usize, DVec2),
    ) -> Option<Construction> {
        let way = (at_through - at_from).try_normalize()?;
        let beyond = self.own() - at_through;
        let (length, aside) = (beyond.dot(way), way.perp_dot(beyond));
        (length > 0.0 && aside.abs() <= ON_LINE_MM).then_some(Construction::Prolong {
            from,
            through,
            reach: Reach::Length(tenths(length)),
        })
    }

    /// By two tapes from two places.
    fn taped(
        &self,
        (first, at_first): (usize, DVec2),
        (second, at_second): (usize, DVec2),
    ) -> Option<Construction> {
        let [p, q] = [at_first, at_second].map(|at| self.own() - at);
        let sine = p.try_normalize()?.perp_dot(q.try_normalize()?);
        let side = (at_second - at_first).perp_dot(p);
        (sine.abs() >= LEAST_SINE).then_some(Construction::TwoDistances {
            first,
            from_first: tenths(p.length()),
            second,
            from_second: tenths(q.length()),
            side: if side > 0.0 { WhichSide::Left } else { WhichSide::Right },
        })
    }
}

fn tenths(mm: f64) -> f64 {
    (mm * 10.0).round() / 10.0
}

/// The same construction, with a line that starts further away.
pub(super) fn further_base(step: &Step<'_>) -> Vec<Way> {
    let Some(how) = step.how() else { return Vec::new() };
    let base = |a: usize, b: usize| step.place(a).distance(step.place(b));
    let longer = |from: usize, to: usize| {
        let on_line = move |other: &usize| {
            let way = (step.place(to) - step.place(from)).normalize_or_zero();
            *other != to && way.perp_dot(step.place(*other) - step.place(to)).abs() <= ON_LINE_MM
        };
        (0..step.at).filter(on_line).filter(move |other| base(*other, to) > base(from, to))
    };
    match how {
        Construction::Prolong { from, through, reach } => longer(from, through)
            .map(|from| Way::of(Construction::Prolong { from, through, reach }))
            .collect(),
        Construction::Foot { of, from, to } => {
            longer(from, to).map(|from| Way::of(Construction::Foot { of, from, to })).collect()
        }
        // What is measured from stays; what it is aimed at lies further away, on the same side.
        Construction::AlongAside { from, to, along, aside } => {
            let further = longer(to, from).filter(|other| is_ahead(step, from, to, *other));
            further.map(|to| Way::of(Construction::AlongAside { from, to, along, aside })).collect()
        }
        Construction::AtAngle { at, towards, angle, distance } => {
            let further = longer(towards, at).filter(|other| is_ahead(step, at, towards, *other));
            further.map(|towards| Way::of(Construction::AtAngle { at, towards, angle, distance })).collect()
        }
        Construction::WheelPoint { .. }
        | Construction::Outboard { .. }
        | Construction::BodyPoint { .. }
        | Construction::Middle { .. }
        | Construction::Crossing { .. }
        | Construction::TwoDistances { .. } => Vec::new(),
    }
}

fn is_ahead(step: &Step<'_>, from: usize, to: usize, other: usize) -> bool {
    (step.place(to) - step.place(from)).dot(step.place(other) - step.place(from)) > 0.0
}

/// Every other construction that lays the mark where it lies, from the marks before it. What the car or the procedure gives stays.
pub(super) fn other_ways(step: &Step<'_>) -> Vec<Way> {
    let (own, at) = (step.own(), step.at);
    let given = |how: Construction| {
        matches!(
            how,
            Construction::WheelPoint { .. } | Construction::Outboard { .. } | Construction::BodyPoint { .. }
        )
    };
    let Some(how) = step.how().filter(|how| !given(*how)) else { return Vec::new() };
    let mut ways: Vec<Way> = Vec::new();
    for (one, other) in step.pairs() {
        let (from, to) = (step.place(one), step.place(other));
        let Some(way) = (to - from).try_normalize() else { continue };
        let off = own - from;
        ways.extend(step.prolonged((one, from), (other, to)).map(Way::of));
        ways.push(Way::of(Construction::AlongAside {
            from: one,
            to: other,
            along: tenths(off.dot(way)),
            aside: tenths(way.perp_dot(off)),
        }));
        ways.push(Way::of(Construction::AtAngle {
            at: one,
            towards: other,
            angle: angle::wrapped(libm::atan2(way.perp_dot(off), way.dot(off))),
            distance: tenths(off.length()),
        }));
        if one < other {
            ways.extend(step.taped((one, from), (other, to)).map(Way::of));
            if own.distance((from + to) * 0.5) <= ON_LINE_MM {
                ways.push(Way::of(Construction::Middle { first: one, second: other }));
            }
        }
        // One more mark far out on a line that there is, and two tapes.
        for by in BEYOND_MM {
            let helper = Construction::Prolong { from: one, through: other, reach: Reach::Length(by) };
            for mark in [(one, from), (other, to)] {
                let two = step.taped(mark, (at, to + way * by));
                ways.extend(two.map(|then| Way { first: vec![helper], then }));
            }
        }
    }
    ways.extend(between_middles(step));
    ways.retain(|way| way.then != how);
    ways
}

/// The line through the middles of two pairs, prolonged.
fn between_middles(step: &Step<'_>) -> Vec<Way> {
    let middles: Vec<(Construction, DVec2)> = step
        .pairs()
        .filter(|(one, other)| one < other)
        .map(|(first, second)| {
            (Construction::Middle { first, second }, (step.place(first) + step.place(second)) * 0.5)
        })
        .collect();
    let mut ways = Vec::new();
    for (first, from) in &middles {
        for (second, through) in &middles {
            let line = step.prolonged((step.at, *from), (step.at + 1, *through));
            ways.extend(line.map(|then| Way { first: vec![*first, *second], then }));
        }
    }
    ways
}
