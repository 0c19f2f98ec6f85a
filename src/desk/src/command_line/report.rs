//! `baywright check`: the answer as text, or as data.

use std::io::{self, Write};

use baywright_files::Loaded;
use baywright_planner::model::{Arrangement, Id, validate};
use baywright_planner::words::{Language, Words, letter};
use baywright_planner::{Assessment, Finding, Severity, Verdict, assess};

use crate::command_line::commands::Check;
use crate::command_line::json;
use crate::command_line::outcome::{Outcome, said};

/// Answers for every arrangement asked about; the worst answer counts.
pub(crate) fn check(asked: &Check, out: &mut dyn Write, errors: &mut dyn Write) -> Outcome {
    let loaded = match baywright_files::open(&asked.layout, asked.today) {
        Ok(loaded) => loaded,
        Err(faults) => return not_read(&faults, errors),
    };
    let chosen = match chosen(&loaded, asked.arrangement.as_deref(), errors) {
        Ok(chosen) => chosen,
        Err(outcome) => return outcome,
    };
    let answers: Vec<(&Arrangement, Assessment)> =
        chosen.iter().map(|arrangement| (*arrangement, assess(arrangement))).collect();
    let written = if asked.json {
        json::write(&loaded, &answers, asked.units, out)
    } else {
        text(&loaded, &answers, asked, out)
    };
    let verdicts = answers.iter().map(|(_, assessment)| outcome(assessment.verdict, asked.strict));
    verdicts.chain([said(written, errors)]).max().unwrap_or(Outcome::Ready)
}

const fn outcome(verdict: Verdict, strict: bool) -> Outcome {
    match verdict {
        Verdict::Ready => Outcome::Ready,
        Verdict::ReadyWithCare if !strict => Outcome::Ready,
        Verdict::ReadyWithCare | Verdict::NotReady => Outcome::NotReady,
    }
}

/// Says each fault, one sentence a line.
pub(crate) fn not_read(faults: &[baywright_files::FileFault], errors: &mut dyn Write) -> Outcome {
    for fault in faults {
        // If not even that can be written, the exit status still says it.
        let _ = writeln!(errors, "{}", Language::English.file_fault(fault));
    }
    Outcome::NotRead
}

/// The arrangements asked about: the named one, or all.
pub(crate) fn chosen<'a>(
    loaded: &'a Loaded,
    name: Option<&str>,
    errors: &mut dyn Write,
) -> Result<Vec<&'a Arrangement>, Outcome> {
    let all = || loaded.arrangements.iter();
    let chosen: Vec<&Arrangement> =
        all().filter(|(id, _)| name.is_none_or(|name| id.as_str() == name)).map(|(_, a)| a).collect();
    if !chosen.is_empty() {
        return Ok(chosen);
    }
    let names: Vec<String> = all().map(|(id, _): &(Id, _)| format!("{:?}", id.as_str())).collect();
    let there =
        if names.is_empty() { "it has none".to_owned() } else { format!("it has {}", names.join(", ")) };
    let _ = match name {
        Some(name) => {
            let ids: Vec<&str> = all().map(|(id, _)| id.as_str()).collect();
            let meant = validate::nearest(name, ids)
                .map_or_else(String::new, |near| format!(" Did you mean {near:?}?"));
            writeln!(errors, "{}: found no arrangement {name:?}; {there}.{meant}", loaded.file)
        }
        None => writeln!(errors, "{}: found no arrangement to answer for; {there}.", loaded.file),
    };
    Err(Outcome::NotRead)
}

fn text(
    loaded: &Loaded,
    answers: &[(&Arrangement, Assessment)],
    asked: &Check,
    out: &mut dyn Write,
) -> io::Result<()> {
    for (position, (arrangement, assessment)) in answers.iter().enumerate() {
        if position > 0 {
            writeln!(out)?;
        }
        let words = Words::new(arrangement, asked.units, Language::English);
        answer(&loaded.layout.bay.name, arrangement, assessment, &words, out)?;
        if asked.marks {
            marks(arrangement, assessment, &words, out)?;
        }
    }
    Ok(())
}

/// How the marks are laid, and what the tape must read between them.
fn marks(
    arrangement: &Arrangement,
    assessment: &Assessment,
    words: &Words<'_>,
    out: &mut dyn Write,
) -> io::Result<()> {
    writeln!(out, "\n  Marks:")?;
    for index in 0..arrangement.aiming.mark_plan.len() {
        writeln!(out, "   -  {}", words.instruction(index, assessment.scene.tape(index, arrangement)))?;
    }
    writeln!(out, "\n  The tape must read:")?;
    for reading in &assessment.scene.readings {
        writeln!(
            out,
            "   -  mark {} to mark {}: {}",
            reading.from,
            reading.to,
            words.length(reading.distance)
        )?;
    }
    Ok(())
}

/// One arrangement's answer: what is asked, the verdict, what is in the way, what to know.
pub(crate) fn answer(
    bay: &str,
    arrangement: &Arrangement,
    assessment: &Assessment,
    words: &Words<'_>,
    out: &mut dyn Write,
) -> io::Result<()> {
    writeln!(
        out,
        "{bay}, \u{201c}{}\u{201d}: {}, {}",
        arrangement.id, arrangement.vehicle.name, arrangement.aiming.name
    )?;
    let examples = if assessment.on_example_figures { " (on example figures)" } else { "" };
    writeln!(out, "{}{examples}. {}", words.verdict(assessment.verdict), words.summary(assessment))?;
    let mut number = 0;
    for severity in [Severity::Stops, Severity::Care] {
        let group: Vec<&Finding> = assessment.findings.iter().filter(|f| f.severity == severity).collect();
        if group.is_empty() {
            continue;
        }
        writeln!(out, "\n  {}:", words.heading(severity))?;
        for finding in group {
            number += 1;
            writeln!(out, "  {:>2}. {}", letter(number), words.line(finding))?;
            if let Some(cure) = words.cure(finding) {
                writeln!(out, "      \u{2192} {cure}")?;
            }
        }
    }
    let notes: Vec<&Finding> = assessment.findings.iter().filter(|f| f.severity == Severity::Note).collect();
    if !notes.is_empty() {
        writeln!(out, "\n  {}:", words.heading(Severity::Note))?;
        for note in notes {
            writeln!(out, "   -  {}", words.line(note))?;
        }
    }
    writeln!(out, "\n  {}", words.caution())
}
