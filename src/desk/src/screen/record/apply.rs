//! Carries out what the page of the record asks for.

use std::path::{Path, PathBuf};

use baywright_files::{Kept, free_record_path, load_record, records_in};
use baywright_planner::edit::Edit;
use baywright_planner::model::record::{Entry, MakersDocument, RoutineResult, StepId, StepKind, What};
use baywright_planner::model::{Id, MarkTaped, VisitLine};
use baywright_planner::record::{BeginWith, Beside, Holds, begin, proven};
use baywright_planner::words::record_page::PageBox;
use egui::Context;
use jiff::civil::Date;

use super::boxes::BoxOf;
use super::parts::taped;
use super::{Led, Listed, OfRecord, RecordPage, Side, reads};
use crate::screen::page::Page;
use crate::screen::{Desk, waking};
use crate::session::clock;
use crate::session::job::Wake;
use crate::session::visit_record::{NotWritten, RecordInHand, Shut};

/// So many records of a bay are listed.
const MOST_LISTED: usize = 60;

impl Desk {
    pub(in crate::screen) fn apply_to_record(&mut self, ctx: &Context, asked: OfRecord) {
        let mut page = std::mem::take(&mut self.record);
        let wake = waking(ctx);
        match asked {
            OfRecord::Lay => self.lay_record(&mut page),
            OfRecord::Begin => self.begin_record(&mut page, &wake),
            OfRecord::TakeUp(path) => self.take_up_record(&mut page, &path),
            OfRecord::PutAway => self.put_away(&mut page),
            OfRecord::Enter(all) => {
                for what in all {
                    self.enter(&mut page, what, &wake);
                }
            }
            OfRecord::Done => {
                // Once it is told beside a box that its figure is out of range, the next Enter goes on.
                if !std::mem::take(&mut page.was_refused) && !std::mem::take(&mut page.was_told) {
                    self.step_done(&mut page, &wake);
                }
            }
            OfRecord::Go(step) => self.go(&mut page, step),
            OfRecord::Back => match Self::beside_step(&page, false) {
                Some(step) => self.go(&mut page, step),
                None => page.turn(Side::Step),
            },
            OfRecord::Forward => self.forward(&mut page),
            OfRecord::Side(side) => page.turn(side),
            OfRecord::Lead(at) => {
                let at = if std::mem::take(&mut page.was_refused) { page.at_box.unwrap_or(at) } else { at };
                page.led = Some(Led::Box(at));
            }
            OfRecord::NextTape => {
                let here = page.at_box.map(Led::Box).filter(|_| std::mem::take(&mut page.was_refused));
                page.led = here.or(Some(Led::Tape));
            }
            OfRecord::By(by) => {
                page.by = by;
                page.turn(Side::Step);
            }
            OfRecord::AskAttach(kind) => {
                let beside = page.in_hand.as_ref().map(|own| own.path().to_owned());
                self.files.ask_paper(&wake, beside.as_deref(), kind);
            }
            OfRecord::Attach(all) => {
                if self.can_enter(&page) {
                    page.to_attach.extend(all);
                }
            }
            OfRecord::SaveAgain => {
                if let Some(own) = &mut page.in_hand {
                    own.try_again(&wake);
                }
            }
            OfRecord::ReadAgain => {
                if let Some(path) = page.in_hand.take().map(|own| own.path().to_owned()) {
                    self.take_up_record(&mut page, &path);
                }
            }
            OfRecord::CopyHead => {
                if let Some(own) = &page.in_hand {
                    ctx.copy_text(own.head().to_owned());
                    self.say(self.view.locale.language.record_page().head_copied);
                }
            }
            OfRecord::Because(car, lines, list) => page.because = Some((car, lines, *list)),
        }
        self.record = page;
    }

    fn lay_record(&mut self, page: &mut RecordPage) {
        if self.document.draft().is_some() {
            self.say_wrong(self.view.locale.language.record_page().finish_car);
            return;
        }
        page.listed = self.listed();
        page.led = Some(Led::First);
        if page.in_hand.is_none() {
            page.turn(Side::Records);
        }
        self.lay(Some(Page::Record));
    }

    /// The folder beside the layout's file.
    fn records_folder(&self) -> Option<PathBuf> {
        self.document.path().and_then(Path::parent).map(Path::to_owned)
    }

    /// The records of this layout, the newest first.
    fn listed(&self) -> Vec<Listed> {
        let Some(folder) = self.records_folder() else { return Vec::new() };
        let name =
            self.document.path().and_then(Path::file_name).map(|own| own.to_string_lossy().into_owned());
        let paths = records_in(&folder).unwrap_or_default();
        let mut all: Vec<Listed> = paths
            .into_iter()
            .filter_map(|path| {
                let kept: Kept = load_record(&path).ok()?;
                let record = kept.record();
                (record.begun.layout == name).then(|| Listed {
                    path,
                    begun: record.begun.clone(),
                    is_closed: Holds::of(record).is_closed(),
                    people: record.entries.iter().map(|own| own.by.clone()).collect(),
                })
            })
            .collect();
        all.sort_by_key(|own| std::cmp::Reverse(own.begun.at));
        all.truncate(MOST_LISTED);
        all
    }

    /// Where windows say which files they hold; none without a window of its own.
    fn holds_folder(&self) -> Option<PathBuf> {
        self.data_folder().filter(|_| self.keeper.is_on()).map(|own| own.join("in-use"))
    }

    fn begin_record(&mut self, page: &mut RecordPage, wake: &Wake) {
        let texts = self.view.locale.language.record_page();
        let Some(folder) = self.records_folder() else {
            self.say_wrong(texts.no_place);
            return;
        };
        let boxes = self.boxes(page);
        let typed = |of: PageBox| {
            let own = boxes.iter().find(|own| own.of == BoxOf::Page(of));
            own.map(|own| page.text_of(own).trim().to_owned()).unwrap_or_default()
        };
        for (at, of) in [PageBox::Job, PageBox::Car, PageBox::By].into_iter().enumerate() {
            if typed(of).is_empty() {
                page.told = vec![(BoxOf::Page(of), texts.is_empty(of))];
                page.led = Some(Led::Box(at));
                return;
            }
        }
        let plate = Some(typed(PageBox::Plate)).filter(|own| !own.is_empty());
        let layout =
            self.document.path().and_then(Path::file_name).map(|own| own.to_string_lossy().into_owned());
        let with = BeginWith {
            job: typed(PageBox::Job),
            car: typed(PageBox::Car),
            plate,
            by: typed(PageBox::By),
            at: page.clock.unwrap_or_else(clock::now),
            layout,
        };
        let tape = typed(PageBox::Tape);
        let shown = &self.answer.judged;
        let mut visit: Vec<_> = self.document.layout().others_of_visit(shown);
        visit.push((**shown).clone());
        let order = self.document.saved_arrangement().map(|own| own.visit.clone()).unwrap_or_default();
        visit.sort_by_key(|own| order.iter().position(|id| *id == own.aiming.id));
        let because = page.because.as_ref().filter(|(car, ..)| *car == shown.vehicle.id);
        let none: &[VisitLine] = &[];
        let (lines, list) = because.map_or((none, None), |(_, lines, list)| (lines.as_slice(), Some(list)));
        match begin(&with, &visit, lines, list) {
            Ok(record) => {
                let path = free_record_path(&folder, &with.job);
                page.by.clone_from(&with.by);
                page.tape = tape;
                let holds = self.holds_folder();
                page.in_hand = Some(RecordInHand::begin(path, record, holds.as_deref(), wake));
                self.start_at(page);
            }
            Err(faults) => {
                if let Some(fault) = faults.first() {
                    let said = self.texts().unsound(fault, self.lengths());
                    self.say_wrong(said);
                }
            }
        }
    }

    fn take_up_record(&mut self, page: &mut RecordPage, path: &Path) {
        let holds = self.holds_folder();
        match RecordInHand::take_up(path, holds.as_deref()) {
            Ok(own) => {
                let record = own.record();
                let last = record.entries.last().map_or(&record.begun.by, |own| &own.by);
                page.by.clone_from(last);
                let used = Holds::of(record).instruments();
                page.tape = used.last().map_or_else(String::new, |(own, _)| own.name.clone());
                let (set_up, car) = (record.begun.arrangement.clone(), record.begun.vehicle.clone());
                let lines: Vec<Id> = record.begun.lines.iter().map(|own| own.aiming.clone()).collect();
                page.in_hand = Some(own);
                self.show_record_set_up(&set_up, &car, lines);
                self.start_at(page);
            }
            Err(faults) => {
                for sentence in self.sentences(&faults).into_iter().rev() {
                    self.say_wrong(sentence);
                }
            }
        }
    }

    /// Shows the set-up of a record, with its visit, if the bay has it still with that car.
    fn show_record_set_up(&mut self, set_up: &Id, car: &Id, lines: Vec<Id>) {
        let own = self.document.layout().arrangements.iter().find(|own| own.id == *set_up);
        let Some(own) = own.filter(|own| own.vehicle == *car) else { return };
        let is_planned = lines.len() < 2 || lines.iter().all(|id| own.visit.contains(id));
        if self.document.shown() != set_up && self.document.show(set_up).is_err() {
            return;
        }
        if !is_planned {
            self.edit(&Edit::Visit(lines));
        }
        self.answer.refresh(&self.document);
    }

    /// At the first step that is not settled.
    fn start_at(&mut self, page: &mut RecordPage) {
        let wake: Wake = std::sync::Arc::new(|| {});
        page.parts = super::parts::Parts::default();
        // What went wrong beside the frame is told there.
        let _ = self.follow_parts(page, &wake);
        let steps = page.parts.steps();
        let first = steps.iter().find(|own| !own.state.is_settled()).or_else(|| steps.first());
        if let Some(id) = first.map(|own| own.id.clone()) {
            self.go(page, id);
        }
    }

    fn put_away(&mut self, page: &mut RecordPage) {
        if let Some(own) = &mut page.in_hand
            && !own.finish()
            && own.shut() != Some(Shut::ChangedOnDisk)
        {
            let said = own.trouble().cloned();
            if let Some(why) = said {
                self.say_not_written(&why);
            }
            return;
        }
        let by = page.by.clone();
        *page = RecordPage { by, clock: page.clock, because: page.because.take(), ..RecordPage::default() };
        page.listed = self.listed();
        page.turn(Side::Records);
    }

    /// Whether the program may end: all of the record is on the disk. If it is not, that is told once; who ends the program again after
    /// that means it.
    pub(in crate::screen) fn may_end_record(&mut self) -> bool {
        let Some(own) = &mut self.record.in_hand else { return true };
        if own.finish() || std::mem::replace(&mut self.record.was_asked_to_end, true) {
            return true;
        }
        let why = own.trouble().cloned();
        if let Some(why) = why {
            self.say_not_written(&why);
        }
        self.lay(Some(Page::Record));
        false
    }

    /// Before the program ends: all of it is on the disk, or it was told that it is not.
    pub(in crate::screen) fn end_record(&mut self) {
        if let Some(own) = &mut self.record.in_hand {
            own.finish();
        }
    }

    pub(super) fn say_not_written(&mut self, why: &NotWritten) {
        let texts = self.view.locale.language.record_page();
        let said = match why {
            NotWritten::ChangedOnDisk => texts.changed_on_disk.to_owned(),
            NotWritten::Faults(faults) => texts.not_saved(&self.first_sentence(faults)),
            NotWritten::Fault(words) => texts.not_saved(&self.texts().failed_beside(words)),
        };
        self.say_wrong(said);
    }

    /// Enters something; what is refused is told beside the box it was typed in.
    fn enter(&mut self, page: &mut RecordPage, what: What, wake: &Wake) {
        if !self.can_enter(page) && !matches!(what, What::WentOn { .. } | What::Reopened { .. }) {
            let texts = self.view.locale.language.record_page();
            self.say_wrong(texts.is_closed);
            return;
        }
        let texts = self.view.locale.language.record();
        let is_closing = matches!(what, What::Closed);
        let beside = page.at_box.and_then(|at| self.boxes(page).into_iter().nth(at)).map(|own| own.of);
        let entry = Entry { by: page.by.clone(), at: page.clock.unwrap_or_else(clock::now), what };
        let Some(in_hand) = &mut page.in_hand else { return };
        let entered = if let What::Value(own) = &entry.what { Some(own.clone()) } else { None };
        match in_hand.enter(entry, wake) {
            Ok(told) => {
                if let Some(of) = &beside {
                    page.typed.retain(|(own, _)| own != of);
                    page.told.retain(|(own, _)| own != of);
                }
                if let Some(own) = entered.filter(|_| told.out_of_range) {
                    let said = texts.out_of_range(self.view.locale, &own);
                    page.told.push((BoxOf::Value(own.of, own.allowed), said));
                    page.was_told = true;
                }
                if is_closing {
                    page.turn(Side::Close);
                }
            }
            Err(why) => {
                let said = texts.refused(&in_hand.record().begun, &why);
                match beside {
                    Some(of) => {
                        page.told.retain(|(own, _)| *own != of);
                        page.told.push((of, said));
                        page.was_refused = true;
                    }
                    None => self.say_wrong(said),
                }
            }
        }
    }

    /// The step is done: what belongs to it is entered before. One of which nothing was entered that it is for stays open.
    fn step_done(&mut self, page: &mut RecordPage, wake: &Wake) {
        let Some(step) = page.step().cloned() else { return };
        if !self.can_enter(page) {
            self.forward(page);
            return;
        }
        let before = self.before_done(page, step.id.kind, step.id.aiming.as_ref());
        let Some(in_hand) = &page.in_hand else { return };
        let is_done = matches!(
            Holds::of(in_hand.record()).step(&step.id).map(|own| &own.what),
            Some(What::StepDone { .. } | What::NotApplicable { .. })
        );
        match before {
            Ok(before) => {
                for what in before {
                    self.enter(page, what, wake);
                }
                if page.was_refused {
                    return;
                }
                if !is_done {
                    self.enter(page, What::StepDone { step: step.id }, wake);
                }
            }
            Err(Stays::Open) => {}
            Err(Stays::Told(of, said)) => {
                page.told = vec![(of, said)];
                return;
            }
        }
        self.forward(page);
    }

    /// What belongs to a step and is entered as it is done.
    fn before_done(
        &self,
        page: &RecordPage,
        kind: StepKind,
        aiming: Option<&Id>,
    ) -> Result<Vec<What>, Stays> {
        let Some(in_hand) = &page.in_hand else { return Err(Stays::Open) };
        let holds = Holds::of(in_hand.record());
        match (kind, aiming) {
            (StepKind::Floor, _) => {
                let survey = page.parts.all().first().and_then(|own| own.arrangement.bay.survey.as_ref());
                let surveyed = survey.and_then(|own| own.taken).ok_or(Stays::Open)?;
                let is_there = holds.floor().is_some_and(|(own, ..)| own == surveyed);
                let confirmed = What::FloorConfirmed { surveyed, instrument: None };
                Ok(if is_there { Vec::new() } else { vec![confirmed] })
            }
            (StepKind::Procedure, Some(aiming)) => self.document_typed(page, aiming),
            (StepKind::CheckDistances, Some(aiming)) => {
                let part = page.parts.part(aiming).ok_or(Stays::Open)?;
                // What was read before the record began, too: who does the step stands for it.
                let held = taped(in_hand.record(), aiming);
                let own = part.arrangement.marks_taped.iter();
                let readings = own.filter(|own| {
                    let same = |held: &&MarkTaped| held.is_between(&own.from, &own.to);
                    held.iter().find(same).is_none_or(|held| (held.read_mm - own.read_mm).abs() > 1e-6)
                });
                let list = self.shop.instruments();
                let readings: Vec<What> =
                    readings.map(|own| reads::reading(aiming, &page.as_taken(own), list)).collect();
                let all = proven(&part.arrangement, &part.assessment.scene);
                if all.is_empty() {
                    return Err(Stays::Open);
                }
                let known = holds.decided(aiming);
                let is_new = |own: &What| {
                    let What::Decided(own) = own else { return true };
                    !readings.is_empty()
                        || !known.iter().any(|held| *held.held.what == *own && !held.is_older)
                };
                let decided: Vec<What> = all.into_iter().filter(is_new).collect();
                Ok(readings.iter().cloned().chain(decided).collect())
            }
            (StepKind::Result, Some(aiming)) if holds.routine(aiming).is_none() => Err(Stays::Open),
            (StepKind::Result, Some(aiming))
                if matches!(holds.routine(aiming), Some((RoutineResult::Failed { .. }, ..))) =>
            {
                // That it failed is no end of it: it stays as it is.
                Err(Stays::Open)
            }
            (StepKind::Sign, _) if holds.signed().is_empty() => Err(Stays::Open),
            _ => Ok(Vec::new()),
        }
    }

    fn document_typed(&self, page: &RecordPage, aiming: &Id) -> Result<Vec<What>, Stays> {
        let boxes = self.boxes(page);
        let typed = |of: PageBox| {
            let own = boxes.iter().find(|own| own.of == BoxOf::Page(of));
            own.map(|own| page.text_of(own).trim().to_owned()).unwrap_or_default()
        };
        let dated = typed(PageBox::Dated);
        let date = if dated.is_empty() {
            None
        } else {
            let wrong = || self.view.locale.language.record_page().no_date(&dated);
            Some(dated.parse::<Date>().map_err(|_| Stays::Told(BoxOf::Page(PageBox::Dated), wrong()))?)
        };
        let document = typed(PageBox::Document);
        if document.is_empty() {
            return Ok(Vec::new());
        }
        let own = MakersDocument { aiming: aiming.clone(), document, edition: typed(PageBox::Edition), date };
        let holds = page.in_hand.as_ref().map(|own| Holds::of(own.record()).documents(aiming));
        let is_there = holds.is_some_and(|all| all.iter().any(|held| *held.what == own));
        Ok(if is_there { Vec::new() } else { vec![What::Document(own)] })
    }

    /// On to the next step; after the last one comes what is still missing.
    fn forward(&mut self, page: &mut RecordPage) {
        match Self::beside_step(page, true) {
            Some(step) => self.go(page, step),
            None => page.turn(Side::Close),
        }
    }

    /// To a step; what is drawn beside it is the set-up of its aiming, with what was taped for that.
    fn go(&mut self, page: &mut RecordPage, id: StepId) {
        page.turn(Side::Step);
        page.follows_tape = id.kind == StepKind::CheckDistances;
        let shown = page.parts.step(&id).map(|own| own.beside != Beside::Nothing);
        let aiming = id.aiming.clone().filter(|_| shown == Some(true));
        page.at = Some(id);
        let (Some(aiming), Some(in_hand)) = (aiming, &page.in_hand) else { return };
        if aiming != self.answer.judged.aiming.id {
            let car = self.answer.arrangement.vehicle.id.clone();
            self.choose_car(&car, Some(&aiming));
            let back = taped(in_hand.record(), &aiming).into_iter();
            let back: Vec<Edit> = back
                .map(|own| Edit::Tape {
                    from: own.from,
                    to: own.to,
                    read_mm: Some(own.read_mm),
                    taken: own.taken,
                })
                .collect();
            if !back.is_empty() {
                self.edit(&Edit::All(back));
            }
            self.answer.refresh(&self.document);
        }
    }
}

/// Why a step is not done.
enum Stays {
    /// What it is for was not entered.
    Open,
    /// Something is wrong in a box.
    Told(BoxOf, String),
}
