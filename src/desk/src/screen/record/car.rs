//! What is measured on the car itself, at the steps of the record: it is the set-up's own, read and written as the car's form does, and the
//! record holds what was entered of it.

use baywright_planner::as_measured::still_within_mm;
use baywright_planner::edit::Edit;
use baywright_planner::model::record::{CAR_CHECKS, StepKind, StoodRead, What};
use baywright_planner::model::{OnThisCar, Wheel};
use baywright_planner::record::{Holds, VisitStep};

use super::boxes::{Asking, BoxOf};
use super::{OfRecord, RecordPage};
use crate::screen::Desk;
use crate::screen::command::{Command, OfBay};
use crate::screen::forms::car_rows::CarRow;

impl Desk {
    /// The car as it is measured at this step: the set-up's, where that is at hand, else what the record holds.
    pub(super) fn record_car(&self, page: &RecordPage, step: &VisitStep) -> OnThisCar {
        let saved = self.document.saved_arrangement().filter(|_| !page.parts.all().is_empty());
        let mut car = saved.map(|own| own.on_this_car.clone()).unwrap_or_default();
        let Some(in_hand) = &page.in_hand else { return car };
        let holds = Holds::of(in_hand.record());
        if let Some(held) = holds.alignment()
            && car.sheet_to_type() == baywright_planner::model::AlignmentSheet::default()
        {
            car.take_sheet(held.what.clone());
        }
        if let Some(held) = holds.ride_heights() {
            for (own, held) in car.arches_mm.iter_mut().zip(held.what) {
                *own = own.or(*held);
            }
        }
        // Where the car is parked elsewhere than in the set-up its distances are the record's alone.
        if !self.stands_as_drawn(page, step) {
            car.stood.clear();
        }
        let Some(parked_for) = &step.parked_for else { return car };
        for held in holds.stood(parked_for) {
            if held.what.nth == car.stood.len() + 1 {
                car.stood.push(held.what.stood.clone());
            }
        }
        let is_end = step.id.kind == StepKind::Result;
        if let Some(aiming) = step.id.aiming.as_ref().filter(|_| is_end) {
            // What was taped at the end of another aiming says nothing of this one.
            let own = holds.stood(aiming);
            let others = page.parts.steps().iter().filter(|own| own.parked_for.as_ref() == Some(parked_for));
            let others = others.filter_map(|own| own.id.aiming.as_ref()).filter(|own| *own != aiming);
            let is_others = others
                .into_iter()
                .any(|own| holds.stood(own).iter().any(|own| own.what.stood.end_mm.is_some()));
            for (at, stood) in car.stood.iter_mut().enumerate() {
                let held =
                    own.iter().find(|own| own.what.nth == at + 1).and_then(|own| own.what.stood.end_mm);
                stood.end_mm = held.or(stood.end_mm.filter(|_| !is_others));
            }
        }
        car
    }

    /// Whether the car stands at this step where the set-up has it.
    pub(super) fn stands_as_drawn(&self, page: &RecordPage, step: &VisitStep) -> bool {
        let own = step.id.aiming.as_ref().and_then(|own| page.parts.part(own));
        let saved = self.document.saved_arrangement();
        own.zip(saved).is_some_and(|(own, saved)| own.arrangement.parked == saved.parked)
    }

    /// The rows of a step, each with whether Enter passes it over.
    pub(super) fn car_rows(
        &self,
        page: &RecordPage,
        step: &VisitStep,
        car: &OnThisCar,
    ) -> Vec<(CarRow, bool)> {
        // What may be asked after a row stands there before it is, so that nothing moves when it is; Enter passes it over until then.
        let then = |(row, aside): (CarRow, bool)| {
            let asks = row.may_ask().map(|own| (own, aside || row.asks(car).is_none()));
            std::iter::once((row, aside)).chain(asks).collect::<Vec<_>>()
        };
        match step.id.kind {
            StepKind::RideHeights => Wheel::ALL.map(|own| (CarRow::Arch(own), false)).to_vec(),
            StepKind::Alignment => {
                let rest = page.is_rest_seen.then_some(CarRow::OF_REST).into_iter().flatten();
                let all = CarRow::OF_SHEET.into_iter().chain(rest).map(|own| (own, false));
                all.flat_map(then).collect()
            }
            StepKind::Park => {
                let count = CAR_CHECKS.max(car.stood.len());
                let starts = (0..count).map(|at| (CarRow::Start(at), false));
                let named = (0..car.stood.len()).flat_map(|at| [CarRow::From(at), CarRow::To(at)]);
                starts.chain(named.map(|own| (own, true))).collect()
            }
            StepKind::Result => (0..car.stood.len()).map(|at| (CarRow::End(at), false)).collect(),
            _ => Vec::new(),
        }
    }

    /// A row as a box of the page.
    pub(super) fn car_box(&self, (row, is_aside): (CarRow, bool), car: &OnThisCar) -> Asking {
        let own = self.car_row(row, car);
        let hint = match (row, row.stood().and_then(|at| car.stood.get(at))) {
            (CarRow::Start(_) | CarRow::End(_), Some(stood)) => {
                self.view.locale.language.record().distance_to_car(stood)
            }
            (CarRow::Start(at), None) => {
                let texts = self.view.locale.language.this_car();
                let usual = baywright_planner::model::Stood {
                    from: texts.usual_floor(at + 1).into(),
                    to: texts.usual_car(at + 1).into(),
                    start_mm: 0.0,
                    end_mm: None,
                };
                self.view.locale.language.record().distance_to_car(&usual)
            }
            _ => own.hint,
        };
        Asking {
            of: BoxOf::Car(row),
            label: own.label,
            hint,
            unit: "",
            shown: own.text,
            // Which way nobody said goes by nought.
            first_digit: usize::from(!matches!(row, CarRow::Way(_))),
            options: own.options,
            chosen: Some(own.chosen),
            is_aside,
        }
    }

    /// What is entered where a row makes this of the car: in the record, and in the set-up whose car it is.
    pub(super) fn car_taken(
        &self,
        page: &RecordPage,
        step: &VisitStep,
        row: CarRow,
        car: OnThisCar,
    ) -> Vec<Command> {
        let mut out = Vec::new();
        let what = match row.stood() {
            Some(at) => self.stood_read(page, step, &car, at),
            None if row.is_of_sheet() => Some(What::Alignment(Box::new(car.sheet_to_type()))),
            None => Some(What::RideHeights { heights_mm: car.arches_mm }),
        };
        out.extend(what.map(|own| Command::Record(OfRecord::Enter(vec![own]))));
        let saved = self.document.saved_arrangement().filter(|_| !page.parts.all().is_empty());
        if let Some(saved) = saved {
            // One answer is of one car.
            let mut now = saved.on_this_car.clone();
            if row.is_of_sheet() {
                now.take_sheet(car.sheet_to_type());
            } else if row.stood().is_none() {
                now.arches_mm = car.arches_mm;
            } else if self.stands_as_drawn(page, step) {
                now.stood = car.stood;
            }
            if now != saved.on_this_car {
                out.push(Command::Bay(OfBay::Edit(Edit::OnThisCar(now))));
            }
        }
        out
    }

    /// A distance to the car as it is entered at a step.
    fn stood_read(&self, page: &RecordPage, step: &VisitStep, car: &OnThisCar, at: usize) -> Option<What> {
        let aiming = step.id.aiming.clone()?;
        let mut stood = car.stood.get(at)?.clone();
        if step.id.kind == StepKind::Park {
            stood.end_mm = None;
        }
        // As files hold it.
        let held = |mm: f64| (mm * 1e6).round() / 1e6;
        let within_mm = page.parts.part(&aiming).map(|own| held(still_within_mm(&own.arrangement)));
        Some(What::Stood(StoodRead { aiming, nth: at + 1, stood, within_mm }))
    }

    /// What the set-up knows of the car and the record does not hold yet: who does the step stands for it.
    pub(super) fn car_not_held(&self, page: &RecordPage, step: &VisitStep) -> Vec<What> {
        let Some(in_hand) = &page.in_hand else { return Vec::new() };
        let holds = Holds::of(in_hand.record());
        let car = self.record_car(page, step);
        match step.id.kind {
            StepKind::Alignment => {
                let sheet = car.sheet_to_type();
                let is_nothing = sheet == baywright_planner::model::AlignmentSheet::default();
                let is_held = holds.alignment().is_some_and(|own| *own.what == sheet);
                if is_nothing || is_held { Vec::new() } else { vec![What::Alignment(Box::new(sheet))] }
            }
            StepKind::RideHeights => {
                let heights_mm = car.arches_mm;
                let is_held = holds.ride_heights().map_or([None; 4], |own| *own.what) == heights_mm;
                if is_held { Vec::new() } else { vec![What::RideHeights { heights_mm }] }
            }
            StepKind::Park | StepKind::Result => {
                let Some(aiming) = &step.id.aiming else { return Vec::new() };
                let all = (0..car.stood.len()).filter_map(|at| self.stood_read(page, step, &car, at));
                let held = holds.stood(aiming);
                let is_new = |own: &What| {
                    let What::Stood(own) = own else { return false };
                    let is_read = step.id.kind == StepKind::Park || own.stood.end_mm.is_some();
                    // At the end of the routine that the car was parked for one entry tells of both.
                    let is_held = held.iter().any(|held| {
                        let end =
                            step.id.kind == StepKind::Park || held.what.stood.end_mm == own.stood.end_mm;
                        held.what.nth == own.nth && held.what.stood.start_mm == own.stood.start_mm && end
                    });
                    is_read && !is_held
                };
                all.filter(is_new).collect()
            }
            _ => Vec::new(),
        }
    }
}
