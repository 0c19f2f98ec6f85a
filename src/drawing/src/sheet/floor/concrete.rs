//! What who pours or levels the floor is told: what it must be, how it was surveyed, and what is in it.

use baywright_planner::Code;
use baywright_planner::Severity;
use baywright_planner::model::{FloorSurvey, LevelPoint, Thing};
use baywright_planner::words::Units;

use super::Floor;
use crate::sheet::flow::{Flow, Lead};
use crate::sheet::table::Cell;

impl Floor<'_> {
    pub(super) fn concrete(&self, flow: &mut Flow<'_>) {
        let texts = self.words.locale().language.floor_sheets();
        self.asked(flow);
        if self.words.locale().units == Units::FeetInches {
            flow.read(texts.in_millimetres, None);
        }
        let assessment = self.of.now.assessment;
        let found = assessment.findings.iter().filter(|own| own.code() == Code::FloorLevels);
        let found: Vec<String> =
            found.filter(|own| own.severity != Severity::Note).map(|own| self.words.line(own)).collect();
        if !found.is_empty() {
            flow.heading(texts.found_of_floor, 8.0);
            found.iter().for_each(|own| flow.read(own, Some(Lead::Text("\u{2013}".to_owned()))));
        }
        self.ground(flow);
        self.levels(flow);
        self.in_floor(flow);
        self.runways(flow);
        self.things(flow, texts.fixed, |_: &Thing| true);
    }

    /// The procedure's limits, and where they hold.
    fn asked(&self, flow: &mut Flow<'_>) {
        let texts = self.words.locale().language.floor_sheets();
        let scene = &self.shell.assessment.scene;
        flow.heading(texts.asked_floor, 12.0);
        let Some(asked) = self.shell.arrangement.aiming.floor else {
            flow.work(texts.not_asked, None);
            return;
        };
        // A sixteenth of an inch is too coarse for it, and rounded up it would allow more.
        let limit = match self.words.locale().units {
            Units::FeetInches => self.words.locale().tenths(asked.level_mm),
            Units::Millimetres | Units::Metres => self.words.length(asked.level_mm),
        };
        flow.work(&texts.floor_limit(&limit), None);
        let wheels = scene.treads.iter().flat_map(|own| own.outer().to_vec());
        let solids = scene.targets.iter().flat_map(|own| &own.solids);
        let targets = solids.flat_map(|own| own.outline.as_polygon().outer().to_vec());
        if let Some(reach) = self.reach(wheels.chain(targets)) {
            let [first, second] = self.walls();
            let (low, high) = (reach.low, reach.high);
            let ends = |from: f64, to: f64| [self.words.bare(from), self.words.length(to)];
            let [a, b] = [ends(low.x, high.x), ends(low.y, high.y)];
            let [a, b] = [&a, &b].map(|[from, to]| [from.as_str(), to.as_str()]);
            flow.read(&texts.floor_area([&first, &second], a, b), None);
            let over = reach.size().length();
            if asked.level_mm > 0.0 {
                let one_in = self.words.number((over / asked.level_mm).ceil(), 0);
                flow.read(&texts.floor_fall(&self.words.length(over), &one_in), None);
            }
        }
        let region = self.words.locale().region;
        let [pitch, roll] = [asked.pitch_rad, asked.roll_rad].map(|own| own.map(|rad| region.degrees(rad)));
        if pitch.is_some() || roll.is_some() {
            flow.read(&texts.tilt(pitch.as_deref(), roll.as_deref()), None);
        }
    }

    fn levels(&self, flow: &mut Flow<'_>) {
        let texts = self.words.locale().language.floor_sheets();
        flow.heading(texts.level_marks, 40.0);
        let surveyed = self.shell.arrangement.bay.survey.as_ref().filter(|own| !own.points.is_empty());
        let Some(survey) = surveyed else {
            flow.work(texts.not_surveyed, None);
            return;
        };
        self.surveyed(flow, survey);
        let row = |(own, number): (&LevelPoint, usize)| {
            let [a, b] = self.at(own.at);
            vec![Cell::Strong(number.to_string()), a, b, Cell::Text(self.level(own.level_mm, false))]
        };
        let [a, b] = self.wall_columns();
        let columns = [(texts.number.to_owned(), 0.5), a, b, (texts.level.to_owned(), 0.9)];
        self.table(flow, &columns, survey.points.iter().zip(1..).map(row).collect());
    }

    /// Where levels come from, how old they are, the highest and the lowest of them.
    fn surveyed(&self, flow: &mut Flow<'_>, survey: &FloorSurvey) {
        let texts = self.words.locale().language.floor_sheets();
        let day = survey.taken.map(|day| self.words.locale().region.day(day));
        flow.read(&texts.levels_from(&self.words.provenance(&survey.provenance), day.as_deref()), None);
        if day.is_none() {
            flow.read(texts.undated, None);
        }
        let all = || survey.points.iter().zip(1_usize..);
        let by = |a: &(&LevelPoint, usize), b: &(&LevelPoint, usize)| a.0.level_mm.total_cmp(&b.0.level_mm);
        if let (Some((high, at_high)), Some((low, at_low))) = (all().max_by(by), all().min_by(by)) {
            let [high, low] = [high, low].map(|own| self.level(own.level_mm, false));
            flow.read(&texts.levels(survey.points.len(), (at_high, &high), (at_low, &low)), None);
        }
        flow.gap(0.8);
    }

    fn in_floor(&self, flow: &mut Flow<'_>) {
        let language = self.words.locale().language;
        let (texts, rooms) = (language.floor_sheets(), language.rooms());
        let [a, b] = self.wall_columns();
        let columns =
            [(texts.name.to_owned(), 1.9), (texts.what.to_owned(), 0.9), a, b, (texts.proud.to_owned(), 0.9)];
        let rows = self.shell.arrangement.bay.floor_features.iter().map(|own| {
            let [a, b] = self.reach_cells(own.outline.outer().iter().copied());
            vec![
                Cell::Strong(own.id.to_string()),
                Cell::Text(rooms.feature_of(own.kind).to_owned()),
                a,
                b,
                Cell::Text(self.words.length(own.proud_mm)),
            ]
        });
        self.listed(flow, texts.in_floor, &columns, rows.collect());
    }

    fn runways(&self, flow: &mut Flow<'_>) {
        let texts = self.words.locale().language.floor_sheets();
        let [a, b] = self.wall_columns();
        let columns =
            [(texts.name.to_owned(), 1.9), a, b, (texts.top.to_owned(), 0.9), (texts.survey.to_owned(), 0.8)];
        let rows = self.shell.arrangement.bay.runways.iter().map(|own| {
            let [a, b] = self.reach_cells(own.outline.outer().iter().copied());
            let is_surveyed = own.survey.as_ref().is_some_and(|survey| !survey.points.is_empty());
            let surveyed = if is_surveyed { texts.is_surveyed } else { texts.is_not_surveyed };
            let [top, surveyed] = [self.words.length(own.top_mm), surveyed.to_owned()].map(Cell::Text);
            vec![Cell::Strong(own.id.to_string()), a, b, top, surveyed]
        });
        self.listed(flow, texts.runways, &columns, rows.collect());
    }
}
