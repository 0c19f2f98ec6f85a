//! What can be chosen by a digit, on each side of the page.

use baywright_planner::model::Id;
use baywright_planner::model::record::{
    AttachmentKind, ParkedAt, RoutineResult, StepId, StepKind, ValueOf, Way as Out, What,
};
use baywright_planner::record::{
    Holds, Lack, StepState, VisitStep, Way, accept, lacks_to_sign, open_findings, place_of,
};
use baywright_planner::words::record_page::Reasons;
use baywright_planner::words::{Language, Locale, Words};

use super::{OfRecord, RecordPage, Side};
use crate::screen::Desk;
use crate::screen::command::Command;
use crate::screen::page::{Page, SavePage};
use crate::session::visit_record::Shut;

/// Something that can be chosen.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Choice {
    pub text: String,
    pub does: Vec<Command>,
    /// Whether it is what the record holds.
    pub holds: bool,
}

impl Choice {
    fn of(text: impl Into<String>, asked: OfRecord) -> Self {
        Self { text: text.into(), does: vec![Command::Record(asked)], holds: false }
    }

    fn then(text: impl Into<String>, first: OfRecord, then: OfRecord) -> Self {
        let does = vec![Command::Record(first), Command::Record(then)];
        Self { text: text.into(), does, holds: false }
    }

    fn held(self, holds: bool) -> Self {
        Self { holds, ..self }
    }

    /// Whether something is entered by it: then it is chosen first, and entered by Enter. What only leads somewhere leads there at once.
    pub fn is_answer(&self) -> bool {
        self.does.iter().any(|own| matches!(own, Command::Record(OfRecord::Enter(_))))
    }
}

fn enter(what: What) -> OfRecord {
    OfRecord::Enter(vec![what])
}

impl Desk {
    /// What can be chosen on what is seen; the first goes by 1.
    pub(super) fn record_options(&self, page: &RecordPage) -> Vec<Choice> {
        let texts = self.view.locale.language.record_page();
        let side = |text: &str, side: Side| Choice::of(text, OfRecord::Side(side));
        match &page.side {
            Side::Records if self.document.path().is_none() => {
                let path = self.suggested().display().to_string();
                let save = Page::Save(SavePage { path, faults: Vec::new(), focus: true });
                vec![Choice {
                    text: texts.save_bay.to_owned(),
                    does: vec![Command::Page(Some(save))],
                    holds: false,
                }]
            }
            Side::Records => {
                let listed = page.listed.iter().map(|own| {
                    let at = self.view.locale.language.record().clock(self.view.locale, own.begun.at);
                    let text = texts.listed_record(&own.begun.job, &own.begun.car, &at, own.is_closed);
                    Choice::of(text, OfRecord::TakeUp(own.path.clone()))
                });
                std::iter::once(side(texts.begin_new, Side::Begin)).chain(listed).collect()
            }
            Side::Begin | Side::WholeVisit | Side::Entries => Vec::new(),
            Side::Step => page.step().map(|step| self.choices_of(page, step)).unwrap_or_default(),
            Side::More => self.more_options(page),
            Side::WhyNot => self.reasons(page, Reasons::NotApplicable),
            Side::LeftOut => self.reasons(page, Reasons::LeftOut),
            Side::Although(_) => self.reasons(page, Reasons::Signed),
            Side::Accept(..) => self.reasons(page, Reasons::Accepted),
            Side::Withdraw(_) => self.reasons(page, Reasons::Withdrawn),
            Side::Strike(_) => self.reasons(page, Reasons::Struck),
            Side::Reopen => self.reasons(page, Reasons::Reopened),
            Side::Findings => self
                .found(page)
                .into_iter()
                .map(|own| side(&own.sentence, Side::Accept(own.aiming, own.nth)))
                .collect(),
            Side::Papers => AttachmentKind::ALL
                .into_iter()
                .map(|kind| {
                    let text = self.view.locale.language.record().attachment_kind(kind);
                    Choice::of(baywright_planner::words::sentence_start(text), OfRecord::AskAttach(kind))
                })
                .collect(),
            Side::Who => {
                let mut known: Vec<String> = Vec::new();
                let of = page.in_hand.iter().map(|own| own.record());
                let here = of.flat_map(|own| own.entries.iter().map(|own| &own.by).chain([&own.begun.by]));
                let listed = page.listed.iter().flat_map(|own| own.people.iter());
                for own in here.chain(listed) {
                    if !known.contains(own) {
                        known.push(own.clone());
                    }
                }
                known.into_iter().take(8).map(|own| Choice::of(own.clone(), OfRecord::By(own))).collect()
            }
            Side::Close => {
                let mut all = Vec::new();
                if self.can_enter(page) {
                    all.push(Choice::of(texts.close_now, enter(What::Closed)));
                }
                all.push(Choice::of(self.view.locale.language.proof_file().title, OfRecord::Print));
                all.push(Choice::of(texts.copy_head, OfRecord::CopyHead));
                all.push(Choice::of(texts.another, OfRecord::PutAway));
                all
            }
        }
    }

    /// Whether something may be entered.
    pub(super) fn can_enter(&self, page: &RecordPage) -> bool {
        page.in_hand.as_ref().is_some_and(|own| own.shut().is_none() && !Holds::of(own.record()).is_closed())
    }

    fn more_options(&self, page: &RecordPage) -> Vec<Choice> {
        let texts = self.view.locale.language.record_page();
        let side = |text: &str, side: Side| Choice::of(text, OfRecord::Side(side));
        let is_closed = page.in_hand.as_ref().is_some_and(|own| Holds::of(own.record()).is_closed());
        let mut all = vec![
            side(texts.left_out, Side::LeftOut),
            side(texts.not_applicable, Side::WhyNot),
            match &page.at {
                Some(step) => {
                    let taken = What::TakenBack { step: step.clone(), why: String::new() };
                    Choice::then(texts.take_back, enter(taken), OfRecord::Side(Side::Step))
                }
                None => side(texts.steps, Side::Step),
            },
            side(texts.findings, Side::Findings),
            side(texts.papers, Side::Papers),
            side(texts.whole_visit, Side::WholeVisit),
            side(texts.entries, Side::Entries),
            side(texts.somebody_else, Side::Who),
        ];
        all.push(if is_closed { side(texts.reopen, Side::Reopen) } else { side(texts.close, Side::Close) });
        all
    }

    /// What is chosen at a step.
    fn choices_of(&self, page: &RecordPage, step: &VisitStep) -> Vec<Choice> {
        let texts = self.view.locale.language.record_page();
        let Some(in_hand) = &page.in_hand else { return Vec::new() };
        match in_hand.shut() {
            Some(Shut::Changed(entry)) => {
                return vec![Choice::of(texts.goes_on, enter(What::WentOn { entry }))];
            }
            Some(Shut::ChangedOnDisk | Shut::Elsewhere) => {
                return vec![Choice::of(texts.read_again, OfRecord::ReadAgain)];
            }
            None => {}
        }
        let holds = Holds::of(in_hand.record());
        if holds.is_closed() {
            return vec![
                Choice::of(texts.reopen, OfRecord::Side(Side::Reopen)),
                Choice::of(texts.copy_head, OfRecord::CopyHead),
            ];
        }
        match (step.id.kind, &step.id.aiming) {
            (StepKind::Result, Some(aiming)) => self.results(page, aiming),
            (StepKind::Drive, _) => {
                let why = texts.procedure_does_not_ask.to_owned();
                let not = What::NotApplicable { step: step.id.clone(), why };
                let driven = self.view.locale.language.record().value(&ValueOf::Driven);
                vec![
                    Choice::then(texts.not_asked, enter(not), OfRecord::Forward)
                        .held(matches!(step.state, StepState::NotApplicable(_))),
                    Choice::of(driven, OfRecord::Lead(0)),
                ]
            }
            (StepKind::Alignment, _) => {
                let text = if page.is_rest_seen { texts.less_of_sheet } else { texts.rest_of_sheet };
                vec![Choice::of(text, OfRecord::Rest)]
            }
            (StepKind::Park, Some(aiming)) => self.stands_there(page, aiming).into_iter().collect(),
            (StepKind::Sign, _) => {
                let lacking = self.lacking(page).len();
                let sign = |role: &str| {
                    let text = texts.sign_as(role, &page.by);
                    if lacking > 0 {
                        return Choice::of(text, OfRecord::Side(Side::Although(role.to_owned())));
                    }
                    let is_signed =
                        holds.signed().iter().any(|(own, entry)| *own == role && entry.by == page.by);
                    let signed = What::Signed { role: role.to_owned(), lacking: 0, why: String::new() };
                    Choice::of(text, enter(signed)).held(is_signed)
                };
                [texts.technician, texts.owner, texts.estimator].into_iter().map(sign).collect()
            }
            _ => Vec::new(),
        }
    }

    /// What lacks when somebody signs now.
    pub(super) fn lacking(&self, page: &RecordPage) -> Vec<Lack> {
        let Some(in_hand) = &page.in_hand else { return Vec::new() };
        lacks_to_sign(in_hand.record(), page.parts.steps(), &page.parts.parts())
    }

    /// That the car stands at another place of the visit now, until it was said.
    fn stands_there(&self, page: &RecordPage, aiming: &Id) -> Option<Choice> {
        let texts = self.view.locale.language.record_page();
        if Holds::of(page.in_hand.as_ref()?.record()).parked(aiming).is_some() {
            return None;
        }
        let (place, answer) = page.parts.answer().and_then(|own| place_of(own, aiming))?;
        let set_up = if let Way::AsSetUp(id) = &answer.way { Some(id.clone()) } else { None };
        let aimings = answer.parts.iter().map(|own| own.aiming.clone()).collect();
        let parked = page.parts.part(aiming)?.arrangement.parked;
        let what = What::Parked(ParkedAt { aimings, place, parked, set_up });
        Some(Choice::then(texts.stands_now(place), enter(what), OfRecord::Lead(0)))
    }

    fn results(&self, page: &RecordPage, aiming: &Id) -> Vec<Choice> {
        let texts = self.view.locale.language.record_page();
        let said = |text: &str, result: RoutineResult| {
            let passed = matches!(result, RoutineResult::Passed);
            let said = enter(What::Routine { aiming: aiming.clone(), result, note: String::new() });
            // What is taped to the car at the end comes next; after a failure which way it was out.
            if passed { Choice::then(text, said, OfRecord::Onward) } else { Choice::of(text, said) }
        };
        let result = page.in_hand.as_ref().and_then(|own| Holds::of(own.record()).routine(aiming));
        let result = result.map(|(own, ..)| own);
        let failed = matches!(result, Some(RoutineResult::Failed { .. }));
        let mut all = vec![
            said(texts.passed, RoutineResult::Passed).held(result == Some(&RoutineResult::Passed)),
            said(texts.failed, RoutineResult::Failed { out: Vec::new() }).held(failed),
        ];
        // Behind those two, so that no digit changes what it means.
        if failed {
            let ways = [
                (texts.left, Out::Left),
                (texts.right, Out::Right),
                (texts.up, Out::Up),
                (texts.down, Out::Down),
            ];
            let out = self.routine_ways(page);
            all.extend(ways.into_iter().map(|(text, way)| {
                let is_out = out.iter().any(|own| own.way == way);
                said(text, RoutineResult::Failed { out: self.out_that_way(page, way) }).held(is_out)
            }));
        }
        all
    }

    /// Reasons, and one's own words.
    fn reasons(&self, page: &RecordPage, of: Reasons) -> Vec<Choice> {
        let texts = self.view.locale.language.record_page();
        let mut all: Vec<Choice> = texts
            .reasons(of)
            .iter()
            .filter_map(|why| {
                let does = self.because(page, why)?;
                Some(Choice { text: (*why).to_owned(), does, holds: false })
            })
            .collect();
        all.push(Choice::of(texts.own_words, OfRecord::Lead(0)));
        all
    }

    /// What is done for this reason, on the side that asks for one.
    pub(super) fn because(&self, page: &RecordPage, why: &str) -> Option<Vec<Command>> {
        let why = why.trim().to_owned();
        let (what, then) = match &page.side {
            Side::WhyNot => (What::NotApplicable { step: page.at.clone()?, why }, OfRecord::Forward),
            Side::LeftOut => (What::LeftOut { step: page.at.clone()?, why }, OfRecord::Forward),
            Side::Although(role) => {
                let lacking = self.lacking(page).len();
                let role = role.clone();
                (What::Signed { role, lacking, why }, OfRecord::Side(Side::Step))
            }
            Side::Accept(aiming, nth) => {
                let part = page.parts.part(aiming)?;
                let finding = part.assessment.findings.get(*nth)?;
                // In both languages: who reads it later may speak the other one.
                let said = [Language::English, Language::German].map(|language| {
                    let locale = Locale::of(language, self.view.locale.units);
                    let words = Words::new(&part.arrangement, locale);
                    match words.measure(finding) {
                        Some(measure) => language.screen().with(&words.title(finding), &measure),
                        None => words.title(finding),
                    }
                });
                (accept(&part.arrangement, finding, said, &why), OfRecord::Side(Side::Findings))
            }
            Side::Withdraw(sha256) => {
                (What::Withdrawn { sha256: sha256.clone(), why }, OfRecord::Side(Side::Papers))
            }
            Side::Strike(nth) => {
                let mut does = self.strike(page, &[*nth], &why);
                does.push(Command::Record(OfRecord::Side(Side::Entries)));
                return Some(does);
            }
            Side::Reopen => (What::Reopened { why }, OfRecord::Side(Side::Step)),
            _ => return None,
        };
        Some(vec![Command::Record(enter(what)), Command::Record(then)])
    }

    /// What was found of the visit's aimings, those that nobody accepted first.
    pub(super) fn found(&self, page: &RecordPage) -> Vec<Found> {
        let Some(in_hand) = &page.in_hand else { return Vec::new() };
        let (texts, locale) = (self.view.locale.language.record_page(), self.view.locale);
        let parts = page.parts.parts();
        let open = open_findings(in_hand.record(), &parts);
        let mut all: Vec<Found> = open
            .into_iter()
            .filter_map(|own| {
                let part = page.parts.part(&own.aiming)?;
                let words = Words::new(&part.arrangement, locale);
                let accepted = own.accepted.and_then(|entry| {
                    let What::Accepted(said) = &entry.what else { return None };
                    let at = locale.language.record().clock(locale, entry.at);
                    Some(texts.accepted_by(&entry.by, &at, &said.why))
                });
                let title = baywright_planner::words::sentence_start(&words.title(own.finding));
                let sentence = match words.measure(own.finding) {
                    Some(measure) => self.texts().with(&title, &measure),
                    None => title,
                };
                Some(Found {
                    severity: own.finding.severity,
                    aiming: own.aiming,
                    nth: own.nth,
                    sentence,
                    accepted,
                })
            })
            .collect();
        all.sort_by_key(|own| own.accepted.is_some());
        all
    }

    /// The step before or after the one that is seen.
    pub(super) fn beside_step(page: &RecordPage, is_next: bool) -> Option<StepId> {
        let steps = page.parts.steps();
        let at = steps.iter().position(|own| Some(&own.id) == page.at.as_ref())?;
        let to = if is_next { at + 1 } else { at.checked_sub(1)? };
        steps.get(to).map(|own| own.id.clone())
    }
}

/// Something that was found, as it is listed.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Found {
    pub severity: baywright_planner::Severity,
    pub aiming: Id,
    pub nth: usize,
    pub sentence: String,
    pub accepted: Option<String>,
}
