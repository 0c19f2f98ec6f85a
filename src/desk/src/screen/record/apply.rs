//! Carries out what the page of the record asks for.

use std::path::{Path, PathBuf};

use baywright_files::free_record_path;
use baywright_planner::model::record::{Entry, MakersDocument, RoutineResult, StepId, StepKind, What};
use baywright_planner::model::{Id, MarkTaped, VisitLine};
use baywright_planner::record::{BeginWith, Holds, StepState, VisitStep, begin, proven, taped};
use baywright_planner::words::record_page::PageBox;
use egui::Context;
use jiff::civil::Date;

use super::boxes::{Asking, BoxOf};
use super::seen::is_routine_unsaid;
use super::{Led, OfRecord, RecordPage, Side, reads};
use crate::screen::forms::car_rows::CarRow;
use crate::screen::page::Page;
use crate::screen::{Desk, waking};
use crate::session::clock;
use crate::session::job::Wake;
use crate::session::visit_record::{NotWritten, RecordInHand, Shut};

impl Desk {
    pub(in crate::screen) fn apply_to_record(&mut self, ctx: &Context, asked: OfRecord) {
        let mut page = std::mem::take(&mut self.record);
        let wake = waking(ctx);
        let is_turned_back = matches!(asked, OfRecord::Undo | OfRecord::Redo);
        let is_another =
            matches!(asked, OfRecord::Begin | OfRecord::TakeUp(_) | OfRecord::ReadAgain | OfRecord::PutAway);
        let before = page.so_many();
        match asked {
            OfRecord::Lay => self.lay_record(&mut page, &wake),
            OfRecord::Begin => self.begin_record(&mut page, &wake),
            OfRecord::TakeUp(path) => self.take_up_record(&mut page, &path),
            OfRecord::PutAway => self.put_away(&mut page, &wake),
            OfRecord::Enter(all) => {
                for what in all {
                    self.enter(&mut page, what, &wake);
                }
            }
            OfRecord::Undo => {
                if let Some(own) = page.deeds.pop() {
                    let strikes = self.enter_strikes(&mut page, &own, &wake);
                    page.undone.push((own, strikes));
                }
            }
            OfRecord::Redo => {
                if let Some((own, strikes)) = page.undone.pop() {
                    self.enter_strikes(&mut page, &strikes, &wake);
                    page.deeds.push(own);
                }
            }
            OfRecord::Onward => {
                let is_empty = |own: &Asking| !own.is_aside && !own.is_pick() && own.shown.trim().is_empty();
                let first = self.boxes(&page).iter().position(is_empty);
                match first {
                    _ if std::mem::take(&mut page.was_refused) => {}
                    Some(at) => page.led = Some(Led::Box(at)),
                    None => self.step_done(&mut page, &wake),
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
            OfRecord::LeadOn(at) => {
                if std::mem::take(&mut page.was_refused) {
                    page.led = Some(Led::Box(page.at_box.unwrap_or(at)));
                } else {
                    self.lead_on(&mut page, at, &wake);
                }
            }
            OfRecord::Tape(listed) => {
                page.is_other_tape = listed.is_none();
                page.tape = listed.map(|own| own.to_string()).unwrap_or_default();
            }
            OfRecord::TapeName(name) => {
                page.tape = name;
                page.typed.retain(|(of, _)| *of != BoxOf::Page(PageBox::Tape));
            }
            OfRecord::Warm(celsius) => {
                page.warm_c = celsius;
                page.typed.retain(|(of, _)| *of != BoxOf::Warm);
            }
            OfRecord::Rest => {
                page.is_rest_seen = !page.is_rest_seen;
                page.led = Some(Led::First);
            }
            OfRecord::NextTape => {
                let here = page.at_box.map(Led::Box).filter(|_| std::mem::take(&mut page.was_refused));
                page.led = here.or(Some(Led::Tape));
                page.tapes.clear();
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
            OfRecord::Print => {
                self.on_paper.choose_proof();
                self.lay(Some(Page::OnPaper));
            }
            OfRecord::CopyHead => {
                if let Some(own) = &page.in_hand {
                    ctx.copy_text(own.head().to_owned());
                    self.say(self.view.locale.language.record_page().head_copied);
                }
            }
            OfRecord::Because(car, lines, list) => page.because = Some((car, lines, *list)),
        }
        if !is_turned_back && !is_another {
            page.note_deed(before);
        }
        self.record = page;
    }

    /// Strikes out what was entered by one deed, the last of it first; which entries do.
    fn enter_strikes(&mut self, page: &mut RecordPage, entries: &[usize], wake: &Wake) -> Vec<usize> {
        let before = page.so_many();
        for entry in entries.iter().rev() {
            self.enter(page, What::Struck { entry: *entry, why: String::new() }, wake);
        }
        (before..page.so_many()).collect()
    }

    fn lay_record(&mut self, page: &mut RecordPage, wake: &Wake) {
        if self.document.draft().is_some() {
            self.say_wrong(self.view.locale.language.record_page().finish_car);
            return;
        }
        self.list_records(page, wake);
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
                let holds = self.holds_folder();
                page.in_hand = Some(RecordInHand::begin(path, record, holds.as_deref(), wake));
                page.forget_deeds();
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
                let readings = record.entries.iter().rev();
                let mut readings = readings.filter_map(|own| match &own.what {
                    What::Reading(own) => Some(own),
                    _ => None,
                });
                let last = readings.next();
                let with = last.and_then(|own| own.instrument.as_ref());
                page.tape = with.map_or_else(String::new, |own| own.name.clone());
                page.is_other_tape = with.is_some_and(|own| own.is_unlisted);
                page.warm_c = last.and_then(|own| own.temperature_c);
                let (set_up, car) = (record.begun.arrangement.clone(), record.begun.vehicle.clone());
                page.in_hand = Some(own);
                page.forget_deeds();
                self.show_record_set_up(&set_up, &car);
                self.start_at(page);
            }
            Err(faults) => {
                for sentence in self.sentences(&faults).into_iter().rev() {
                    self.say_wrong(sentence);
                }
            }
        }
    }

    /// Shows the set-up of a record, if the bay has it still with that car.
    fn show_record_set_up(&mut self, set_up: &Id, car: &Id) {
        let own = self.document.layout().arrangements.iter().find(|own| own.id == *set_up);
        if own.is_none_or(|own| own.vehicle != *car) {
            return;
        }
        if self.document.shown() != set_up && self.document.show(set_up).is_err() {
            return;
        }
        self.answer.refresh(&self.document);
    }

    /// At the first step of which nothing was said that holds; what was gone past is told at the end.
    fn start_at(&mut self, page: &mut RecordPage) {
        let wake: Wake = std::sync::Arc::new(|| {});
        page.parts = super::parts::Parts::default();
        // What went wrong beside the frame is told there.
        let _ = self.follow_parts(page, &wake);
        let steps = page.parts.steps();
        let open = |own: &&VisitStep| matches!(own.state, StepState::Open | StepState::TakenBack);
        let left = steps.iter().find(open).or_else(|| steps.iter().find(|own| !own.state.is_settled()));
        let first = left.or_else(|| steps.first());
        if let Some(id) = first.map(|own| own.id.clone()) {
            self.go(page, id);
        }
    }

    fn put_away(&mut self, page: &mut RecordPage, wake: &Wake) {
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
        self.list_records(page, wake);
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
        let beside = page.boxed.as_ref().filter(|_| page.at_box.is_some()).map(|own| own.of.clone());
        let entry = Entry { by: page.by.clone(), at: page.clock.unwrap_or_else(clock::now), what };
        let Some(in_hand) = &mut page.in_hand else { return };
        let said_of = match &entry.what {
            What::Value(own) => {
                Some((BoxOf::Value(own.of.clone(), own.allowed), texts.out_of_range(self.view.locale, own)))
            }
            What::Stood(own) => {
                Some((BoxOf::Car(CarRow::End(own.nth.saturating_sub(1))), texts.moved(self.view.locale, own)))
            }
            _ => None,
        };
        match in_hand.enter(entry, wake) {
            Ok(told) => {
                if let Some(of) = &beside {
                    page.typed.retain(|(own, _)| own != of);
                    page.told.retain(|(own, _)| own != of);
                }
                if let Some(said) = said_of.filter(|_| told.out_of_range) {
                    page.told.push(said);
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

    /// On from a box to the next one that Enter does not pass over; after the last the step is done. What was entered by the box may ask for
    /// more: which way a figure goes.
    fn lead_on(&mut self, page: &mut RecordPage, at: usize, wake: &Wake) {
        let boxes = self.boxes(page);
        let is_aside = boxes.get(at).is_some_and(|own| own.is_aside);
        let mut after = boxes.iter().enumerate().skip(at + 1);
        match after.find(|(_, own)| is_aside || !own.is_aside) {
            Some((next, _)) => page.led = Some(Led::Box(next)),
            // Once it is told beside a box that its figure is out of range, the next Enter goes on.
            None if std::mem::take(&mut page.was_told) => {}
            // After what is taped comes what the routine said.
            None if is_routine_unsaid(page) || page.picked.is_some() => page.led = Some(Led::Next),
            None => self.step_done(page, wake),
        }
    }

    /// The step is done, if it has what it must have; else somebody goes on from it, and that is noted. What belongs to it is entered before.
    fn step_done(&mut self, page: &mut RecordPage, wake: &Wake) {
        let Some(step) = page.step().cloned() else { return };
        if !self.can_enter(page) {
            self.forward(page);
            return;
        }
        match self.before_done(page, &step) {
            Ok(before) => {
                for what in before {
                    self.enter(page, what, wake);
                }
                if page.was_refused {
                    return;
                }
            }
            Err((of, said)) => {
                page.told = vec![(of, said)];
                return;
            }
        }
        // What was entered just now counts.
        if let Err(words) = self.follow_parts(page, wake) {
            self.say_wrong(self.texts().failed_beside(&words));
        }
        let open = page.parts.step(&step.id).map_or(0, |own| own.open.len());
        let Some(in_hand) = &page.in_hand else { return };
        let said = Holds::of(in_hand.record()).step(&step.id).map(|own| &own.what);
        let is_said = match said {
            Some(What::StepDone { .. }) => open == 0,
            Some(What::GonePast { open: then, .. }) => *then == open,
            // That stays until it is taken back.
            Some(What::NotApplicable { .. } | What::LeftOut { .. }) => true,
            _ => false,
        };
        // That a routine failed is no end of it: it stays as it is.
        let routine = step.id.aiming.as_ref().and_then(|own| Holds::of(in_hand.record()).routine(own));
        let is_failed =
            step.id.kind == StepKind::Result && matches!(routine, Some((RoutineResult::Failed { .. }, ..)));
        if !is_said && !is_failed {
            let step = step.id;
            let what = if open > 0 { What::GonePast { step, open } } else { What::StepDone { step } };
            self.enter(page, what, wake);
        }
        self.forward(page);
    }

    /// What belongs to a step and is entered as it is done; or what is wrong in a box.
    fn before_done(&self, page: &RecordPage, step: &VisitStep) -> Result<Vec<What>, (BoxOf, String)> {
        let Some(in_hand) = &page.in_hand else { return Ok(Vec::new()) };
        let holds = Holds::of(in_hand.record());
        match (step.id.kind, &step.id.aiming) {
            (StepKind::Floor, _) => {
                let survey = page.parts.all().first().and_then(|own| own.arrangement.bay.survey.as_ref());
                let Some((survey, surveyed)) = survey.and_then(|own| Some((own, own.taken?))) else {
                    return Ok(Vec::new());
                };
                let with = survey.how.with.as_ref();
                let instrument =
                    with.map(|name| reads::instrument(&Id::from(name.as_str()), self.shop.instruments()));
                let is_there = holds
                    .floor()
                    .is_some_and(|(day, with, _)| day == surveyed && with == instrument.as_ref());
                let confirmed = What::FloorConfirmed { surveyed, instrument };
                Ok(if is_there { Vec::new() } else { vec![confirmed] })
            }
            (StepKind::Procedure, Some(aiming)) => self.document_typed(page, aiming),
            (StepKind::CheckDistances, Some(aiming)) => Ok(self.tapes_not_held(page, aiming)),
            _ => Ok(self.car_not_held(page, step)),
        }
    }

    /// What was read before the record began, too: who does the step stands for it; and what all of it proves.
    fn tapes_not_held(&self, page: &RecordPage, aiming: &Id) -> Vec<What> {
        let Some((in_hand, part)) = page.in_hand.as_ref().zip(page.parts.part(aiming)) else {
            return Vec::new();
        };
        let held = taped(in_hand.record(), aiming);
        let own = part.arrangement.marks_taped.iter();
        let readings = own.filter(|own| {
            let same = |held: &&MarkTaped| held.is_between(&own.from, &own.to);
            held.iter().find(same).is_none_or(|held| {
                let is_named = held.taken.with.is_some() || page.tape.is_empty();
                (held.read_mm - own.read_mm).abs() > 1e-6 || !is_named
            })
        });
        let list = self.shop.instruments();
        let readings: Vec<What> =
            readings.map(|own| reads::reading(aiming, &page.as_taken(own), list)).collect();
        let known = Holds::of(in_hand.record()).decided(aiming);
        let is_new = |own: &What| {
            let What::Decided(own) = own else { return true };
            !readings.is_empty() || !known.iter().any(|held| *held.held.what == *own && !held.is_older)
        };
        let decided = proven(&part.arrangement, &part.assessment.scene).into_iter().filter(is_new);
        let decided: Vec<What> = decided.collect();
        readings.into_iter().chain(decided).collect()
    }

    fn document_typed(&self, page: &RecordPage, aiming: &Id) -> Result<Vec<What>, (BoxOf, String)> {
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
            Some(dated.parse::<Date>().map_err(|_| (BoxOf::Page(PageBox::Dated), wrong()))?)
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

    /// To a step. What is drawn beside it is the set-up of its aiming, and nothing of the bay is changed by looking at it.
    fn go(&self, page: &mut RecordPage, id: StepId) {
        page.turn(Side::Step);
        page.follows_tape = id.kind == StepKind::CheckDistances;
        page.at = Some(id);
    }
}
