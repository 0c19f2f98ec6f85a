//! What another mark plan would buy before anything is laid: spots further outboard, lines that start further away, other constructions
//! of the same marks.
//!
//! Three things are asked of a plan before it is told:
//! - It is the same plan to the car. Each mark lies where it lay, and follows each figure of the car as it did: a mark that is laid from
//!   the front spots alone by figures off a drawing would follow a car whose axle is set back, and nothing of the budget would show it.
//!   Of spots that are set further outboard the marks under targets are asked that, as they are seen from the sensor: a line that runs
//!   askew is met abreast of a target a little sooner or later the further out it runs, and the budget of the distance knows it.
//! - No figure of a target is less sure by it.
//! - The room allows it: asked of the whole set-up it finds nothing that it did not find before, and nothing is in the way of the marks
//!   and runs that are new.
//!
//! The maker's procedure decides how marks are laid; this says only what another way would be worth.

mod candidates;

use baywright_geometry::DVec2;
use baywright_geometry::marks::{Construction, Givens, lay};

use crate::assessment::{Code, Severity, Subject};
use crate::judge::judge;
use crate::model::{Aiming, Arrangement, Id, MarkStep};
use crate::proof::{Cost, K, Sure, standard};
use crate::scene::Scene;
use candidates::{Step, further_base, other_ways};

/// What is otherwise.
#[derive(Clone, Debug, PartialEq)]
pub enum Otherwise {
    /// All spots beside the tyres lie further out.
    FurtherOut {
        /// The spots.
        marks: Vec<Id>,
        /// From the tyre's outer side now, mm; then.
        from_mm: f64,
        /// Then.
        to_mm: f64,
    },
    /// The same constructions from marks that lie further apart.
    LongerBase,
    /// Other constructions.
    OtherWay,
}

/// What another plan buys.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanBuys {
    /// What is otherwise in it.
    pub otherwise: Otherwise,
    /// The set-up with that plan, nothing taped.
    pub then: Box<Arrangement>,
    /// Everything in its place then.
    pub scene: Box<Scene>,
    /// The steps that are new or otherwise, by position in that plan.
    pub changed: Vec<usize>,
    /// The first figure's uncertainty then, 95 %, in its unit: never less than the plan has once it is taken.
    pub u95: f64,
    /// The dearest step then.
    pub dearest: Option<Cost>,
}

impl PlanBuys {
    /// The plan.
    pub fn plan(&self) -> &[MarkStep] {
        &self.then.aiming.mark_plan
    }

    /// The aiming by it, to be taken: the plan, and the marks that its targets stand over.
    pub fn take(&self, aiming: &mut Aiming) {
        let Aiming { mark_plan, placements, .. } = &self.then.aiming;
        aiming.mark_plan.clone_from(mark_plan);
        for (own, then) in aiming.placements.iter_mut().zip(placements) {
            own.mark.clone_from(&then.mark);
        }
    }
}

/// What gains less than this share is not worth another plan.
const WORTH: f64 = 0.05;
/// Nor is another step worth it for less.
const STEP_WORTH: f64 = 0.01;
/// So many steps are changed at most: both sides of a car, and what lies between them.
const MOST_CHANGES: usize = 4;
/// Marks lie in the same place within this, mm: figures of a plan are told to a tenth.
const SAME_PLACE_MM: f64 = 0.1;
/// Marks follow the car alike where a difference of 1 mm, or 1 mm in a metre, moves them by the same within this, mm.
const ALIKE_MM: f64 = 2e-3;
/// Spots go no further outboard than this, mm: who lays one walks round the car (common practice, no source).
const MOST_OUT_MM: f64 = 2_000.0;
const OUT_STEP_MM: f64 = 100.0;

/// What other plans would buy, the best first; `wanted` is asked before each.
pub fn plan_helps(arrangement: &Arrangement, wanted: &dyn Fn() -> bool) -> Vec<PlanBuys> {
    let untaped = Arrangement { marks_taped: Vec::new(), laid_before: Vec::new(), ..arrangement.clone() };
    let Some(asked) = Asked::of(&untaped, wanted) else { return Vec::new() };
    let mut found: Vec<PlanBuys> = Vec::new();
    found.extend(asked.further_out());
    found.extend(asked.changed(Otherwise::LongerBase, further_base));
    found.extend(asked.changed(Otherwise::OtherWay, other_ways));
    found.sort_by(|a, b| a.u95.total_cmp(&b.u95));
    // Two ways to one plan are told once, the plainer one.
    let mut told: Vec<PlanBuys> = Vec::new();
    for own in found {
        if told.iter().all(|other| other.plan() != own.plan()) {
            told.push(own);
        }
    }
    told
}

struct Asked<'a> {
    /// Nothing taped.
    now: &'a Arrangement,
    givens: Givens,
    places: Vec<DVec2>,
    /// The sensor from above, vehicle frame.
    sensor: DVec2,
    sure: Sure,
    /// What is found now.
    found: Vec<(Code, Vec<Subject>)>,
    wanted: &'a dyn Fn() -> bool,
}

/// A plan that is tried.
#[derive(Clone)]
struct Tried {
    plan: Vec<MarkStep>,
    /// The steps that are new or otherwise.
    changed: Vec<usize>,
    /// Where each mark of the plan that is now stands in this one.
    stands: Vec<usize>,
}

impl<'a> Asked<'a> {
    fn of(now: &'a Arrangement, wanted: &'a dyn Fn() -> bool) -> Option<Self> {
        let scene = Scene::of(now);
        let sure = Sure::of(now, &scene)?;
        let givens = scene.givens(now)?;
        let places = laid(&now.aiming.mark_plan, &givens)?;
        let found = judge(now).findings.into_iter().map(|own| (own.code(), own.subjects)).collect();
        let sensor = scene.bay_from_vehicle.inverse() * scene.sensor().truncate();
        Some(Self { now, givens, places, sensor, sure, found, wanted })
    }

    fn with(&self, plan: Vec<MarkStep>) -> Arrangement {
        let mut then = self.now.clone();
        then.aiming.mark_plan = plan;
        then
    }

    /// What a plan buys, if it is worth it and the room allows it; `extra`: what its first figure is less sure by than its budget says,
    /// standard.
    fn buys(&self, otherwise: Otherwise, tried: &Tried) -> Option<PlanBuys> {
        let then = self.with(tried.plan.clone());
        let scene = Scene::of(&then);
        let sure = Sure::of(&then, &scene).filter(|own| own.is_no_worse_than(&self.sure))?;
        let extra = match &otherwise {
            Otherwise::FurtherOut { to_mm, .. } => self.out_of_square(&sure, *to_mm),
            Otherwise::LongerBase | Otherwise::OtherWay => 0.0,
        };
        let u95 = libm::hypot(sure.u95(), K * extra);
        let is_worth = u95 <= self.sure.u95() * (1.0 - WORTH);
        if !(is_worth && self.room_allows(&then, &tried.changed)) {
            return None;
        }
        let then = self.numbered(then);
        let scene = Scene::of(&then);
        let (dearest, changed) = (sure.dearest, tried.changed.clone());
        Some(PlanBuys { otherwise, then: Box::new(then), scene: Box::new(scene), changed, u95, dearest })
    }

    /// Where marks are numbered as they are laid, they are so in the new plan too: a drawing numbers them in that order.
    fn numbered(&self, mut then: Arrangement) -> Arrangement {
        let number = |at: usize| Id::from((at + 1).to_string());
        let is_numbered = self.now.aiming.mark_plan.iter().enumerate().all(|(at, own)| own.id == number(at));
        if !is_numbered {
            return then;
        }
        let names: Vec<Id> = then.aiming.mark_plan.iter().map(|own| own.id.clone()).collect();
        for (at, own) in then.aiming.mark_plan.iter_mut().enumerate() {
            own.id = number(at);
        }
        for mark in then.aiming.placements.iter_mut().filter_map(|own| own.mark.as_mut()) {
            if let Some(at) = names.iter().position(|own| own == mark) {
                *mark = number(at);
            }
        }
        then
    }

    /// A spot that is laid square to the car from its tyre lies the more lengthwise the further out it is; beside the tyre that is no more
    /// than a line's width, and the budget has it so.
    fn out_of_square(&self, sure: &Sure, out_mm: f64) -> f64 {
        let each = standard(self.now.shop.square_laid_rad) * out_mm;
        sure.by_spot.iter().fold(0.0, |sum, per| libm::hypot(sum, per * each))
    }

    /// Whether nothing is found that was not, and nothing is in the way of what is new.
    fn room_allows(&self, then: &Arrangement, changed: &[usize]) -> bool {
        let is_new = |id: &Id| {
            changed.iter().any(|at| then.aiming.mark_plan.get(*at).is_some_and(|own| own.id == *id))
        };
        let is_of_new = |subject: &Subject| match subject {
            Subject::Mark(id) => is_new(id),
            Subject::Run(from, to) => is_new(from) || is_new(to),
            _ => false,
        };
        judge(then).findings.iter().filter(|own| own.severity != Severity::Note).all(|own| {
            let was =
                self.found.iter().any(|(code, subjects)| *code == own.code() && *subjects == own.subjects);
            was && !(is_in_the_way(own.code()) && own.subjects.iter().any(is_of_new))
        })
    }

    /// Whether the marks that are asked of lie where they lay and follow the car as they did: in all, or as far as it is seen from the
    /// sensor, `seen_from` there, vehicle frame.
    fn is_same_to_the_car(
        &self,
        tried: &Tried,
        asked: impl Fn(usize) -> bool,
        seen_from: Option<DVec2>,
    ) -> bool {
        let apart = |at: usize, by: DVec2| {
            let line =
                seen_from.zip(self.places.get(at)).and_then(|(eye, place)| (*place - eye).try_normalize());
            line.map_or(by.length(), |line| line.perp_dot(by).abs())
        };
        let same = |givens: &Givens, (was, then): (&[DVec2], &[DVec2]), within: f64| {
            let (Some(now), Some(other)) =
                (laid(&self.now.aiming.mark_plan, givens), laid(&tried.plan, givens))
            else {
                return false;
            };
            tried.stands.iter().enumerate().filter(|(at, _)| asked(*at)).all(|(at, stands)| {
                let moved = |now: &[DVec2], was: &[DVec2], at: usize| {
                    Some(*now.get(at)? - was.get(at).copied().unwrap_or_default())
                };
                let by = moved(&now, was, at).zip(moved(&other, then, *stands));
                by.is_some_and(|(one, other)| apart(at, one - other) <= within)
            })
        };
        let Some(then) = laid(&tried.plan, &self.givens) else { return false };
        same(&self.givens, (&[], &[]), SAME_PLACE_MM)
            && (0..self.givens.figures()).all(|figure| {
                // A millimetre, or as much as a millimetre in a metre.
                let by = if figure == TURN { 1e-3 } else { 1.0 };
                same(&self.givens.differing(figure, by), (&self.places, &then), ALIKE_MM)
            })
    }

    /// The spots beside the tyres as far out as it pays and the room lets them lie.
    fn further_out(&self) -> Option<PlanBuys> {
        let plan = &self.now.aiming.mark_plan;
        let spots = plan.iter().enumerate().filter_map(|(at, own)| match own.construction {
            Construction::Outboard { distance, .. } => Some((at, distance)),
            _ => None,
        });
        let spots: Vec<(usize, f64)> = spots.collect();
        let from_mm = spots.first()?.1;
        // Equal spots give the centreline: those that are not stay as they are.
        if spots.iter().any(|(_, out)| *out != from_mm) {
            return None;
        }
        let under_target = |at: usize| {
            self.now
                .aiming
                .placements
                .iter()
                .any(|own| plan.get(at).map(|step| &step.id) == own.mark.as_ref())
        };
        let marks: Vec<Id> = spots.iter().filter_map(|(at, _)| Some(plan.get(*at)?.id.clone())).collect();
        let mut best: Option<PlanBuys> = None;
        let mut to_mm = (from_mm / OUT_STEP_MM).floor() * OUT_STEP_MM + OUT_STEP_MM;
        while to_mm <= MOST_OUT_MM && (self.wanted)() {
            let mut tried = Tried {
                plan: plan.clone(),
                changed: (0..plan.len()).collect(),
                stands: (0..plan.len()).collect(),
            };
            for (at, _) in &spots {
                if let Some(Construction::Outboard { distance, .. }) =
                    tried.plan.get_mut(*at).map(|own| &mut own.construction)
                {
                    *distance = to_mm;
                }
            }
            let otherwise = Otherwise::FurtherOut { marks: marks.clone(), from_mm, to_mm };
            if self.is_same_to_the_car(&tried, under_target, Some(self.sensor))
                && let Some(own) = self.buys(otherwise, &tried)
                // Further out for next to nothing is only further to walk.
                && best.as_ref().is_none_or(|best| own.u95 < best.u95 * (1.0 - STEP_WORTH))
            {
                best = Some(own);
            }
            to_mm += OUT_STEP_MM;
        }
        best
    }

    /// One step after another done otherwise, each time the one that gains most.
    fn changed(&self, otherwise: Otherwise, ways: fn(&Step<'_>) -> Vec<candidates::Way>) -> Option<PlanBuys> {
        let plan = &self.now.aiming.mark_plan;
        let mut tried = Tried { plan: plan.clone(), changed: Vec::new(), stands: (0..plan.len()).collect() };
        let mut u95 = self.sure.u95();
        let mut found = None;
        for _ in 0..MOST_CHANGES {
            let mut all: Vec<(f64, Tried)> = Vec::new();
            for at in (0..tried.plan.len()).filter(|at| !tried.changed.contains(at)) {
                if !(self.wanted)() {
                    return found;
                }
                all.extend(self.each_way(&tried, at, ways));
            }
            all.retain(|(own, _)| *own < u95 * (1.0 - STEP_WORTH));
            all.sort_by(|a, b| a.0.total_cmp(&b.0));
            // The first of them that the room allows; only a plan that is worth it is told, so that one side alone may be tried first.
            let allowed = all.into_iter().take(MOST_ASKED).find(|(_, own)| {
                (self.wanted)() && self.room_allows(&self.with(own.plan.clone()), &own.changed)
            });
            let Some((own, next)) = allowed else { break };
            (u95, tried) = (own, next);
            found = self.buys(otherwise.clone(), &tried).or(found);
        }
        found
    }

    /// The plans in which one step is done otherwise, with how sure each is.
    fn each_way(
        &self,
        tried: &Tried,
        at: usize,
        ways: fn(&Step<'_>) -> Vec<candidates::Way>,
    ) -> Vec<(f64, Tried)> {
        let Some(places) = laid(&tried.plan, &self.givens) else { return Vec::new() };
        let step = Step { plan: &tried.plan, places: &places, at };
        let made = ways(&step).into_iter().map(|way| tried.with(at, &way));
        let same = made.filter(|own| self.is_same_to_the_car(own, |_| true, None));
        same.filter_map(|own| {
            let then = self.with(own.plan.clone());
            let sure = Sure::of(&then, &Scene::of(&then)).filter(|sure| sure.is_no_worse_than(&self.sure))?;
            Some((sure.u95(), own))
        })
        .collect()
    }
}

/// So many of those that gain most are asked of the room.
const MOST_ASKED: usize = 8;
/// The figure of [`Givens::differing`] that is a turn.
const TURN: usize = 12;

impl Tried {
    /// The plan with one step done otherwise, marks that it needs laid before it.
    fn with(&self, at: usize, way: &candidates::Way) -> Self {
        let more = way.first.len();
        let moved = |mark: usize| if mark >= at { mark + more } else { mark };
        let mut plan: Vec<MarkStep> = self.plan.iter().take(at).cloned().collect();
        for construction in &way.first {
            let id = free_mark(self.plan.iter().chain(&plan));
            plan.push(MarkStep { id, construction: *construction });
        }
        for (nth, step) in self.plan.iter().enumerate().skip(at) {
            let construction =
                if nth == at { way.then } else { step.construction.with_uses(|_, mark| moved(mark)) };
            plan.push(MarkStep { id: step.id.clone(), construction });
        }
        let mut changed: Vec<usize> = self.changed.iter().map(|own| moved(*own)).collect();
        changed.extend(at..=at + more);
        changed.sort_unstable();
        Self { plan, changed, stands: self.stands.iter().map(|own| moved(*own)).collect() }
    }
}

/// The first number that no mark has.
fn free_mark<'a>(plan: impl Iterator<Item = &'a MarkStep> + Clone) -> Id {
    let number = (1..=9_999_u32).map(|own| Id::from(own.to_string()));
    let mut free = number.filter(|own| plan.clone().all(|step| step.id != *own));
    free.next().unwrap_or_else(|| Id::from("+"))
}

/// Where a plan lays its marks; none where one of them is not found.
fn laid(plan: &[MarkStep], givens: &Givens) -> Option<Vec<DVec2>> {
    let steps: Vec<Construction> = plan.iter().map(|own| own.construction).collect();
    lay(&steps, givens).into_iter().collect::<Result<_, _>>().ok()
}

/// What keeps a mark from being laid, or a tape or a line from running.
const fn is_in_the_way(code: Code) -> bool {
    matches!(code, Code::MarkFault | Code::MarkPlace | Code::RunBlocked | Code::MarkInAir)
}

#[cfg(test)]
mod tests;
