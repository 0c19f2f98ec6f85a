//! `baywright record`: whether the record of a visit is as it was written, what stands in it, and its file of proof.

use std::io::Write;
use std::path::Path;

use baywright_drawing::Lettering;
use baywright_drawing::sheet::{About, ProofOf, proof_file};
use baywright_files::{
    Kept, load_record, lost_attachments, record_chain, record_json, shop_in_use, shown_attachments,
    write_output,
};
use baywright_planner::model::record::HeadSaid;
use baywright_planner::record::{Part, lacks, steps};
use baywright_planner::words::{Language, Locale};

use crate::command_line::commands::{AskedOfRecord, ProofAsked, RecordAsked};
use crate::command_line::json::{RecordTold, told_record, told_record_check};
use crate::command_line::outcome::{Outcome, said};
use crate::command_line::page::Page;
use crate::command_line::report::not_read;
use crate::command_line::trouble::{Errors, Trouble};
use crate::command_line::visit_set_ups::{parts, set_ups};
use crate::command_line::written::written;
use crate::session::printed::Format;

/// Answers for one record.
pub(crate) fn record(
    asked: &RecordAsked,
    own_shop: Option<&Path>,
    out: &mut Page<'_>,
    errors: &mut Errors<'_>,
) -> Outcome {
    match &asked.what {
        AskedOfRecord::Check { head } => check(asked, head.as_deref(), out, errors),
        AskedOfRecord::Show { output } => show(asked, output.as_deref(), own_shop, out, errors),
        AskedOfRecord::Sheet(proof) => sheet(asked, proof, own_shop, out, errors),
    }
}

fn check(asked: &RecordAsked, head: Option<&str>, out: &mut Page<'_>, errors: &mut Errors<'_>) -> Outcome {
    let chain = match record_chain(&asked.file) {
        Ok(chain) => chain,
        Err(fault) => return not_read(vec![fault], errors),
    };
    let on_paper = head.map(|head| chain.said_by(head));
    // What does not even read as a record any more has a broken chain, which is told.
    let kept = load_record(&asked.file).ok();
    let lost = kept.map(|own| lost_attachments(&asked.file, own.record())).unwrap_or_default();
    // One that is not there was left behind, as by who sends the file alone; one that was put in its place is an edit.
    let is_swapped = lost.iter().any(|own| own.is_changed);
    let is_as_written =
        chain.broken.is_none() && !is_swapped && on_paper.is_none_or(|own| own == HeadSaid::Same);
    let outcome = if is_as_written { Outcome::Ready } else { Outcome::NotReady };
    if asked.as_data {
        let told = RecordTold {
            file: asked.file.display().to_string(),
            job: &chain.job,
            entries: chain.entries,
            head: &chain.head,
            broken: chain.broken,
            on_paper,
            lost,
        };
        return outcome.max(said(told_record_check(&told, out), errors));
    }
    if asked.quiet && outcome == Outcome::Ready {
        return outcome;
    }
    let texts = asked.language.record();
    let mut print = || {
        out.lines(&texts.chain(&chain.job, chain.entries, &chain.head, chain.broken))?;
        // In a broken chain a hash that is the same is no all-clear.
        let is_told = |own: &HeadSaid| chain.broken.is_none() || *own != HeadSaid::Same;
        if let Some(own) = on_paper.filter(is_told) {
            out.lines(&texts.head_said(own, chain.entries))?;
        }
        for own in &lost {
            out.lines(&texts.attachment_lost(&own.file, own.is_changed))?;
        }
        out.lines(texts.shows_an_edit)
    };
    let printed = print();
    outcome.max(said(printed, errors))
}

fn show(
    asked: &RecordAsked,
    output: Option<&Path>,
    own_shop: Option<&Path>,
    out: &mut Page<'_>,
    errors: &mut Errors<'_>,
) -> Outcome {
    let read = shop_in_use(None, own_shop).and_then(|used| Ok((load_record(&asked.file)?, used)));
    let (kept, used) = match read {
        Ok(read) => read,
        Err(faults) => return not_read(faults, errors),
    };
    let set_ups = set_ups(&kept, &asked.file, &used, asked.today);
    let parts = parts(&set_ups);
    let outcome = if kept.broken().is_none() { Outcome::Ready } else { Outcome::NotReady };
    if let Some(file) = output {
        let ends = file.extension().unwrap_or_default().to_string_lossy().to_lowercase();
        if ends != "json" {
            errors.tell(Trouble::NoTable(file.display().to_string()));
            return Outcome::NotRead;
        }
        return match data(&kept, &parts, asked.language).and_then(|all| {
            write_output(file, &all, &[&asked.file]).map_err(|fault| Box::new(Trouble::File(fault)))
        }) {
            Ok(()) if asked.quiet => outcome,
            Ok(()) => outcome.max(said(writeln!(out, "{}", file.display()), errors)),
            Err(trouble) => {
                errors.tell(*trouble);
                Outcome::NotWritten
            }
        };
    }
    if asked.as_data {
        return match data(&kept, &parts, asked.language) {
            Ok(all) => outcome.max(said(out.write_all(&all), errors)),
            Err(trouble) => {
                errors.tell(*trouble);
                Outcome::NotWritten
            }
        };
    }
    let printed = printed(&kept, &parts, asked.language, out);
    outcome.max(said(printed, errors))
}

/// The whole record as one JSON document, with what it lacks.
fn data(kept: &Kept, parts: &[Part<'_>], language: Language) -> Result<Vec<u8>, Box<Trouble>> {
    let all = record_json(kept).map_err(|fault| Box::new(Trouble::File(fault)))?;
    let record = kept.record();
    let missing = lacks(record, &steps(record, parts), parts);
    let missing = missing.iter().map(|own| language.record().lack(&record.begun, own)).collect();
    told_record(all, missing, !parts.is_empty()).map_err(|why| Box::new(Trouble::NotPrinted(why.to_string())))
}

/// The record as plain text: how it begins, each entry in its order, what is missing.
fn printed(kept: &Kept, parts: &[Part<'_>], language: Language, out: &mut Page<'_>) -> std::io::Result<()> {
    let locale = Locale::of(language, baywright_planner::words::Units::Millimetres);
    let texts = language.record();
    let record = kept.record();
    let begun = &record.begun;
    if kept.broken().is_some() {
        out.lines(&texts.chain(&begun.job, record.entries.len(), kept.head(), kept.broken()))?;
        out.lines("")?;
    }
    out.lines(&format!("{} {}", texts.job, begun.job))?;
    let mut field = |name: &str, value: &str| out.entry(&format!("{name}: "), value);
    field(texts.car, &begun.car)?;
    if let Some(plate) = &begun.plate {
        field(texts.plate, plate)?;
    }
    field(texts.begun, &format!("{}, {}", begun.by, texts.clock(locale, begun.at)))?;
    field(texts.bay, begun.bay.as_str())?;
    field(texts.set_up, begun.arrangement.as_str())?;
    field(texts.profile, begun.vehicle.as_str())?;
    field(texts.head, kept.head())?;
    out.lines("")?;
    out.lines(texts.aimings)?;
    for line in &begun.lines {
        let because: Vec<&str> = line.because.iter().map(|own| own.work.as_str()).collect();
        let of = if because.is_empty() {
            line.title.clone()
        } else {
            format!("{} ({})", line.title, because.join(", "))
        };
        out.entry("- ", &of)?;
    }
    out.lines("")?;
    out.lines(texts.entries)?;
    for (nth, own) in record.entries.iter().enumerate() {
        let lead = format!("{:>3}  {}  {}: ", nth + 1, texts.clock(locale, own.at), own.by);
        out.entry(&lead, &texts.entry(locale, begun, own))?;
    }
    out.lines("")?;
    out.lines(texts.missing)?;
    if parts.is_empty() {
        out.lines(texts.without_set_ups)?;
    }
    let all = lacks(record, &steps(record, parts), parts);
    if all.is_empty() {
        out.lines(texts.nothing_missing)?;
    }
    for own in &all {
        out.entry("- ", &texts.lack(begun, own))?;
    }
    out.lines("")?;
    out.lines(texts.says_nothing_of_sensor)?;
    out.lines(texts.shows_an_edit)
}

fn sheet(
    asked: &RecordAsked,
    proof: &ProofAsked,
    own_shop: Option<&Path>,
    out: &mut Page<'_>,
    errors: &mut Errors<'_>,
) -> Outcome {
    let ending = proof.output.extension().unwrap_or_default().to_string_lossy().into_owned();
    let Some(format) = Format::of_ending(&ending, proof.dpi) else {
        errors.tell(Trouble::NoSheet(proof.output.display().to_string()));
        return Outcome::NotRead;
    };
    let read =
        shop_in_use(proof.shop.as_deref(), own_shop).and_then(|used| Ok((load_record(&asked.file)?, used)));
    let (kept, used) = match read {
        Ok(read) => read,
        Err(faults) => return not_read(faults, errors),
    };
    let about = About {
        day: proof.today.map(|day| proof.locale.region.day(day)).unwrap_or_default(),
        shop: used.face.name.clone().unwrap_or_default(),
        ..About::default()
    };
    let set_ups = set_ups(&kept, &asked.file, &used, proof.today);
    let parts = parts(&set_ups);
    let shown = shown_attachments(&asked.file, kept.record());
    let of = ProofOf {
        record: kept.record(),
        head: kept.head(),
        broken: kept.broken(),
        parts: &parts,
        shown: &shown,
    };
    let lettering = Lettering { locale: proof.locale, ..Lettering::default() };
    let pages = proof_file(&of, proof.paper, &about, &lettering);
    let made_from: Vec<&Path> =
        [Some(asked.file.as_path()), used.path.as_deref()].into_iter().flatten().collect();
    let all = match written(&pages, &proof.output, (format, proof.locale.language), &made_from) {
        Ok(all) => all,
        Err(trouble) => {
            errors.tell(*trouble);
            return Outcome::NotWritten;
        }
    };
    let outcome = if kept.broken().is_none() { Outcome::Ready } else { Outcome::NotReady };
    if asked.quiet {
        return outcome;
    }
    outcome.max(said(all.iter().try_for_each(|file| writeln!(out, "{}", file.display())), errors))
}
