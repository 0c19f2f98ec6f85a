//! `baywright check`: the answer as text, or as data.

use std::io::{self, Write};
use std::path::Path;

use baywright_files::{FileFault, Loaded, ShopInUse, shop_in_use};
use baywright_planner::difference::{Difference, of_own_building};
use baywright_planner::model::{Arrangement, Id, InstrumentList, JudgedBy, Layout, validate};
use baywright_planner::proof::measured;
use baywright_planner::words::{Words, letter};
use baywright_planner::{Assessment, Finding, Severity, Verdict, assess_fully};
use jiff::civil::Date;

use crate::command_line::commands::Check;
use crate::command_line::outcome::{Outcome, said};
use crate::command_line::page::{Page, Paper, Tone};
use crate::command_line::trouble::{Errors, Trouble};
use crate::command_line::visit::others_of_visit;
use crate::command_line::{input, json};

/// Answers for every arrangement asked about, in every file; the worst answer counts.
pub(crate) fn check(
    asked: &Check,
    own_shop: Option<&Path>,
    out: &mut Page<'_>,
    errors: &mut Errors<'_>,
) -> Outcome {
    if asked.quiet {
        let mut nowhere = io::sink();
        return check_all(asked, own_shop, &mut Page::new(&mut nowhere, Paper::ENDLESS), errors);
    }
    check_all(asked, own_shop, out, errors)
}

fn check_all(asked: &Check, own_shop: Option<&Path>, out: &mut Page<'_>, errors: &mut Errors<'_>) -> Outcome {
    let used = match shop_in_use(asked.shop.as_deref(), own_shop) {
        Ok(used) => used,
        Err(faults) => return not_read(faults, errors),
    };
    let several = asked.layouts.len() > 1;
    let (mut worst, mut data) = (Outcome::Ready, Vec::new());
    for (position, layout) in asked.layouts.iter().enumerate() {
        if several && !asked.json {
            worst = worst.max(said(head(layout, position, out), errors));
        }
        worst = worst.max(one_file(layout, asked, &used, &mut data, out, errors));
    }
    if asked.json && !data.is_empty() {
        worst = worst.max(said(json::write(&data, several, out), errors));
    }
    worst
}

/// Which of several files is answered for.
fn head(layout: &Path, position: usize, out: &mut Page<'_>) -> io::Result<()> {
    if position > 0 {
        writeln!(out)?;
    }
    writeln!(out, "{}:\n", layout.display())
}

/// Answers for one file: as text at once, as data when all files are read.
fn one_file(
    layout: &Path,
    asked: &Check,
    used: &ShopInUse,
    data: &mut Vec<json::Answer>,
    out: &mut Page<'_>,
    errors: &mut Errors<'_>,
) -> Outcome {
    let language = asked.locale.language;
    let loaded = match input::open(layout, judged_by(used, asked.today), language) {
        Ok(loaded) => loaded,
        Err(faults) => return not_read(faults, errors),
    };
    errors.tell_passed_over(&loaded.passed_over);
    let chosen = match chosen(&loaded, asked.arrangement.as_deref(), errors) {
        Ok(chosen) => chosen,
        Err(outcome) => return outcome,
    };
    let answers: Vec<(&Arrangement, Assessment)> =
        chosen.iter().map(|arrangement| (*arrangement, assess_fully(arrangement))).collect();
    let written = if asked.json {
        let file = if input::is_stream(layout) { layout.display().to_string() } else { loaded.file.clone() };
        let shop = (&used.shop, used.path.as_deref());
        data.push(json::answer(file, &loaded.layout, shop, &answers, asked.locale));
        Ok(())
    } else {
        text(&loaded, &answers, asked, out)
    };
    let others = answers.iter().flat_map(|(asked, _)| others_of_visit(&loaded.layout, asked));
    let all =
        answers.iter().map(|(_, assessment)| assessment.verdict).chain(others.map(|(_, verdict)| verdict));
    let verdicts = all.map(|verdict| outcome(verdict, asked.strict));
    verdicts.chain([said(written, errors)]).max().unwrap_or(Outcome::Ready)
}

const fn outcome(verdict: Verdict, strict: bool) -> Outcome {
    match verdict {
        Verdict::Ready => Outcome::Ready,
        Verdict::ReadyWithCare if !strict => Outcome::Ready,
        Verdict::ReadyWithCare | Verdict::NotReady => Outcome::NotReady,
    }
}

/// What a command judges by: the day, and the settings in use.
pub(crate) fn judged_by(used: &ShopInUse, today: Option<Date>) -> JudgedBy {
    JudgedBy {
        today,
        shop: used.shop,
        shop_unread: false,
        instruments: InstrumentList::clone(&used.instruments),
    }
}

/// Tells each fault.
pub(crate) fn not_read(faults: Vec<FileFault>, errors: &mut Errors<'_>) -> Outcome {
    faults.into_iter().for_each(|fault| errors.tell(Trouble::File(fault)));
    Outcome::NotRead
}

/// The arrangements asked about: the named one, or all.
pub(crate) fn chosen<'a>(
    loaded: &'a Loaded,
    name: Option<&str>,
    errors: &mut Errors<'_>,
) -> Result<Vec<&'a Arrangement>, Outcome> {
    let all = || loaded.arrangements.iter();
    let chosen: Vec<&Arrangement> =
        all().filter(|(id, _)| name.is_none_or(|name| id.as_str() == name)).map(|(_, a)| a).collect();
    if !chosen.is_empty() {
        return Ok(chosen);
    }
    let file = loaded.file.clone();
    errors.tell(match name {
        Some(name) => {
            let there: Vec<String> = all().map(|(id, _): &(Id, _)| id.to_string()).collect();
            let meant = validate::nearest(name, there.iter().map(String::as_str)).map(ToOwned::to_owned);
            Trouble::NoSuchArrangement { file, name: name.to_owned(), there, meant }
        }
        None => Trouble::NothingToAnswer(file),
    });
    Err(Outcome::NotRead)
}

fn text(
    loaded: &Loaded,
    answers: &[(&Arrangement, Assessment)],
    asked: &Check,
    out: &mut Page<'_>,
) -> io::Result<()> {
    for (position, (arrangement, assessment)) in answers.iter().enumerate() {
        if position > 0 {
            writeln!(out)?;
        }
        let words = Words::new(arrangement, asked.locale);
        answer(&loaded.layout, assessment, &words, out)?;
        if asked.marks {
            marks(arrangement, assessment, &words, out)?;
        }
    }
    Ok(())
}

/// What of the arrangement's own building is not as the bay has it: all of it, since it has to be built.
fn building(differences: &[Difference], words: &Words<'_>, out: &mut Page<'_>) -> io::Result<()> {
    writeln!(out)?;
    out.entry("  ", words.own_building_differs(differences.len()))?;
    for difference in differences {
        out.entry("   -  ", &words.difference(difference))?;
    }
    Ok(())
}

/// The head of a list, after an empty line.
fn head_of(tone: Tone, text: &str, out: &mut Page<'_>) -> io::Result<()> {
    writeln!(out)?;
    out.toned("  ", text, tone, &format!("{text}:"))
}

/// How the marks are laid, and what the tape must read between them.
fn marks(
    arrangement: &Arrangement,
    assessment: &Assessment,
    words: &Words<'_>,
    out: &mut Page<'_>,
) -> io::Result<()> {
    let texts = words.locale().language.screen();
    head_of(Tone::Plain, texts.marks, out)?;
    for index in 0..arrangement.aiming.mark_plan.len() {
        out.entry("   -  ", &words.instruction(index, &assessment.scene))?;
    }
    head_of(Tone::Plain, texts.tape_must_read, out)?;
    for reading in &assessment.scene.readings {
        out.entry("   -  ", &words.reading(reading))?;
    }
    Ok(())
}

/// One arrangement's answer: what is asked, the verdict, what is in the way, what to know, what is to be built.
pub(crate) fn answer(
    layout: &Layout,
    assessment: &Assessment,
    words: &Words<'_>,
    out: &mut Page<'_>,
) -> io::Result<()> {
    out.entry("", &words.asked(&layout.bay.name))?;
    let verdict = assessment.verdict;
    out.toned("", words.verdict(verdict), verdict.into(), &words.answer(assessment))?;
    others(layout, words, out)?;
    let mut number = 0;
    for severity in [Severity::Stops, Severity::Care] {
        let group: Vec<&Finding> = assessment.findings.iter().filter(|f| f.severity == severity).collect();
        if group.is_empty() {
            continue;
        }
        head_of(severity.into(), words.heading(severity), out)?;
        for finding in group {
            number += 1;
            out.entry(&format!("  {:>2}. ", letter(number)), &words.line(finding))?;
            if let Some(cure) = words.cure(finding) {
                out.entry("      \u{2192} ", &cure)?;
            }
        }
    }
    let notes: Vec<&Finding> = assessment.findings.iter().filter(|f| f.severity == Severity::Note).collect();
    if !notes.is_empty() {
        head_of(Tone::Plain, words.heading(Severity::Note), out)?;
        for note in notes {
            out.entry("   -  ", &words.line(note))?;
        }
    }
    as_measured(assessment, words, out)?;
    if let Some(differences) = of_own_building(layout, &words.arrangement().id) {
        building(&differences, words, out)?;
    }
    writeln!(out)?;
    out.entry("  ", words.caution())
}

/// What was measured comes to, each figure with its uncertainty, its decision and by which rule, however it is decided.
fn as_measured(assessment: &Assessment, words: &Words<'_>, out: &mut Page<'_>) -> io::Result<()> {
    let all = measured(words.arrangement(), &assessment.scene);
    if all.is_empty() {
        return Ok(());
    }
    let texts = words.locale().language.proof();
    head_of(Tone::Plain, texts.as_measured, out)?;
    for own in &all {
        out.entry("   -  ", &words.measured(own))?;
    }
    out.entry("      ", texts.rule)?;
    out.entry("      ", texts.says_nothing_of_sensor)
}

/// What the room is to the other aimings that the car is in for: beside the verdict, so that one that is ready hides none
/// that is not.
fn others(layout: &Layout, words: &Words<'_>, out: &mut Page<'_>) -> io::Result<()> {
    let others = others_of_visit(layout, words.arrangement());
    if others.is_empty() {
        return Ok(());
    }
    let visits = words.locale().language.visits();
    head_of(Tone::Plain, &visits.others(others.len()), out)?;
    for (aiming, verdict) in &others {
        out.entry("   -  ", &visits.other(aiming, words.verdict(*verdict)))?;
    }
    Ok(())
}
