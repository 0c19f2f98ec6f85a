//! Marks that stay on the floor: where each is, and what was measured whenever it was checked.

use baywright_planner::geometry::DVec2;
use baywright_planner::history::{checks, drift};
use baywright_planner::model::{Bay, CheckFrom, CheckRead, Id, MOST_CHECKS, MarkCheck, PermanentMark};
use baywright_planner::words::instruments::BadCheck;
use baywright_planner::words::{Locale, Units};
use egui::{Label, Ui};

use super::BaySheet;
use crate::screen::forms::as_shown::AsShown;
use crate::screen::forms::car::car_form::{Line, Of, part};
use crate::screen::forms::typed::of_table;
use crate::screen::widgets;

impl BaySheet<'_> {
    pub(super) fn marks_that_stay(&mut self, ui: &mut Ui) {
        let texts = self.sheet.desk.view().locale.language.instruments();
        part(ui, texts.marks_that_stay, "marks that stay", false, |ui| {
            if self.bay.marks.is_empty() {
                ui.label(widgets::soft(ui, texts.no_marks_that_stay));
            }
            let mut gone = None;
            for at in 0..self.bay.marks.len() {
                let Some(mut own) = self.bay.marks.get(at).cloned() else { continue };
                if self.mark_that_stays(ui, at, &mut own) {
                    gone = Some(at);
                }
                if let Some(place) = self.bay.marks.get_mut(at) {
                    *place = own;
                }
            }
            if let Some(at) = gone {
                self.bay.marks.remove(at);
            }
            if widgets::lesser(ui, texts.add_mark).clicked() {
                let is_taken = |name: &str| self.bay.marks.iter().any(|own| own.id.as_str() == name);
                let id = Id::free(texts.new_mark(), " ", is_taken);
                let at = self.sheet.desk.middle_in_sight().round();
                self.bay.marks.push(PermanentMark::new(id, at));
                self.sheet.did();
            }
        });
    }

    /// One mark; whether it is to go.
    fn mark_that_stays(&mut self, ui: &mut Ui, at: usize, own: &mut PermanentMark) -> bool {
        let texts = self.sheet.desk.view().locale.language.instruments();
        let locale = self.sheet.desk.view().locale;
        ui.add_space(4.0);
        if let Some(name) = self.sheet.id(ui, texts.name, &format!("mark name {at}"), &own.id) {
            own.id = name;
        }
        let paths = [format!("mark x {at}"), format!("mark y {at}")];
        let line = |label, path| Line { label, path, ..Line::default() };
        let x = self.sheet.number(ui, line(texts.mark_x, &paths[0]), Of::Length, own.at.x);
        let y = self.sheet.number(ui, line(texts.mark_y, &paths[1]), Of::Length, own.at.y);
        own.at = DVec2::new(x.unwrap_or(own.at.x), y.unwrap_or(own.at.y));
        self.laid_and_line(ui, at, own);
        let before = own.checks.clone();
        let numbers: Vec<usize> = (0..before.len()).collect();
        let text = |nth: &usize| before.get(*nth).map_or_else(String::new, |check| text_of(check, locale));
        let shown: String = numbers.iter().map(|nth| format!("{}\n", text(nth))).collect();
        let path = format!("mark checks {at}");
        let line = Line { label: texts.checks, hint: texts.checks_hint, path: &path, ..Line::default() };
        let bay = &self.bay;
        let typed = self.sheet.lines(ui, line, &shown, |typed| {
            let mut untouched = AsShown::new(&numbers, text);
            checks_of(typed, bay, &own.id, locale.units, |line| before.get(untouched.take(line)?).cloned())
                .map_err(|(number, what)| texts.bad_check(number, what))
        });
        if let Some(checks) = typed {
            own.checks = checks;
        }
        self.what_checks_say(ui, own);
        widgets::lesser(ui, texts.remove_mark)
            .accessible_name(self.sheet.desk.texts().of(texts.remove_mark, own.id.as_str()))
            .clicked()
            && {
                self.sheet.did();
                true
            }
    }

    /// How well it is to be laid, and to which other mark a line goes from it.
    fn laid_and_line(&mut self, ui: &mut Ui, at: usize, own: &mut PermanentMark) {
        let texts = self.sheet.desk.view().locale.language.permanent();
        let path = format!("mark within {at}");
        let line =
            Line { label: texts.laid_within, hint: texts.laid_within_hint, path: &path, ..Line::default() };
        if let Some(within) = self.sheet.number_or_none(ui, line, Of::Length, own.laid_within_mm) {
            own.laid_within_mm = within;
        }
        let others = self.bay.marks.iter().filter(|other| other.id != own.id).map(|own| Some(own.id.clone()));
        let mut all: Vec<Option<Id>> = std::iter::once(None).chain(others).collect();
        if !all.contains(&own.line_to) {
            // One that is not there any more is named until another one is chosen.
            all.push(own.line_to.clone());
        }
        let name = |to: &Option<Id>| to.as_ref().map_or(texts.no_line, Id::as_str).to_owned();
        let path = format!("mark line {at}");
        if let Some(to) = self.sheet.pick(ui, texts.line_to, &path, &own.line_to, &all, name) {
            own.line_to = to;
        }
    }

    /// Where the checks that say nowhere stand, and how far the mark drifted by the others.
    fn what_checks_say(&self, ui: &mut Ui, own: &PermanentMark) {
        let (desk, words) = (self.sheet.desk, self.sheet.desk.words());
        let soft = |ui: &mut Ui, said: String| {
            ui.add(Label::new(widgets::soft(ui, said)).wrap());
        };
        for (check, at) in checks(&self.bay, own) {
            if at.is_none() {
                soft(ui, words.check_says_nothing(check.on));
            }
        }
        let (shop, instruments) = (desk.shop().shop(), desk.shop().instruments());
        if let Some(drift) = drift(&self.bay, own, &shop, instruments) {
            soft(ui, words.drift_note(&drift));
        }
    }
}

/// A check as a line: its day, from what and what was read, twice, by whom, with what.
fn text_of(check: &MarkCheck, locale: Locale) -> String {
    let [one, other] = check.read.each_ref().map(|read| {
        let (CheckFrom::Wall(from) | CheckFrom::Mark(from)) = &read.from;
        format!("{from}; {}", locale.length_to_type(read.read_mm))
    });
    let mut text = format!("{}; {one}; {other}", check.on);
    let (who, with) = (check.who.as_ref(), check.with.as_ref());
    if who.is_some() || with.is_some() {
        text.push_str("; ");
        text.push_str(who.map_or("", Id::as_str));
    }
    if let Some(with) = with {
        text.push_str("; ");
        text.push_str(with.as_str());
    }
    text
}

/// Checks, one a line.
///
/// # Errors
/// The number of the first line that is none, from 1, and what of it is wrong.
fn checks_of<'a>(
    text: &'a str,
    bay: &Bay,
    mark: &Id,
    units: Units,
    mut untouched: impl FnMut(&str) -> Option<MarkCheck>,
) -> Result<Vec<MarkCheck>, (usize, BadCheck<'a>)> {
    let lines = text.lines().enumerate().filter(|(_, line)| !line.trim().is_empty());
    let read = |(number, line): (usize, &'a str)| match untouched(line.trim_end()) {
        Some(own) => Ok(own),
        None => check_of(line, bay, mark, units).map_err(|what| (number + 1, what)),
    };
    let checks: Vec<MarkCheck> = lines.map(read).collect::<Result<_, _>>()?;
    match checks.len() > MOST_CHECKS {
        true => Err((MOST_CHECKS + 1, BadCheck::TooMany)),
        false => Ok(checks),
    }
}

fn check_of<'a>(line: &'a str, bay: &Bay, mark: &Id, units: Units) -> Result<MarkCheck, BadCheck<'a>> {
    let columns: Vec<&str> = line.split(';').map(str::trim).collect();
    let [day, from, read, other, read_too, ref rest @ ..] = *columns.as_slice() else {
        return Err(BadCheck::Columns(columns.len()));
    };
    if rest.len() > 2 {
        return Err(BadCheck::Columns(columns.len()));
    }
    let source = |name: &'a str| {
        let id = Id::from(name);
        let wall = bay.walls.iter().any(|own| own.id == id);
        let other = id != *mark && bay.marks.iter().any(|own| own.id == id);
        match (wall, other) {
            (true, _) => Ok(CheckFrom::Wall(id)),
            (false, true) => Ok(CheckFrom::Mark(id)),
            (false, false) => Err(BadCheck::NoSource(name)),
        }
    };
    let length =
        |text: &'a str| of_table(text, units).filter(|own| *own > 0.0).ok_or(BadCheck::NoLength(text));
    let name = |nth: usize| rest.get(nth).filter(|own| !own.is_empty()).map(|own| Id::from(*own));
    let on = day.parse().map_err(|_| BadCheck::NoDay(day))?;
    let read = [
        CheckRead { from: source(from)?, read_mm: length(read)? },
        CheckRead { from: source(other)?, read_mm: length(read_too)? },
    ];
    if read[0].from == read[1].from {
        return Err(BadCheck::OneSource);
    }
    Ok(MarkCheck { on, who: name(0), with: name(1), read })
}

#[cfg(test)]
mod tests {
    use baywright_planner::words::Language;

    use super::*;

    /// What is shown reads back as it is; each slip is told with its line.
    #[test]
    fn checks_are_read_as_they_are_shown() {
        let loaded = baywright_files::open(std::path::Path::new("crowded-bay"), None);
        let mut bay = loaded.unwrap().layout.bay;
        bay.marks =
            vec![PermanentMark::new("A".into(), DVec2::ZERO), PermanentMark::new("B".into(), DVec2::X)];
        let (one, other) = (bay.walls[0].id.to_string(), bay.walls[1].id.to_string());
        let locale = Locale::of(Language::English, Units::Millimetres);
        let read = |text: &str| {
            let found = checks_of(text, &bay, &"A".into(), locale.units, |_| None);
            found.map_err(|(number, what)| (number, Language::English.instruments().bad_check(number, what)))
        };
        let text = format!(
            "2026-03-17; {one}; 1500 mm; {other}; 800 mm; Ann; tape 1\n\n2026-09-01; {one}; 1501; B; 2"
        );
        let all = read(&text).unwrap();
        assert_eq!((all.len(), all[1].read[1].read_mm, all[1].who.as_ref()), (2, 2.0, None));
        let shown: Vec<String> = all.iter().map(|own| text_of(own, locale)).collect();
        assert_eq!(read(&shown.join("\n")).unwrap(), all);
        for (line, said) in [
            ("2026-03-17; 5", "2 columns"),
            ("yesterday; a; 1; b; 2", "yesterday"),
            ("2026-03-17; nowhere; 1; nowhere; 2", "nowhere"),
            ("2026-03-17; A; 10; B; 20", "“A”"),
            (&format!("2026-03-17; {one}; long; {other}; 2"), "long"),
            (&format!("2026-03-17; {one}; 10; {one}; 20"), "twice"),
        ] {
            let (number, why) = read(line).unwrap_err();
            assert!(number == 1 && why.contains(said), "{line}: {why}");
        }
    }
}
