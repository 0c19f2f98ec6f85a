//! `baywright sheet`: sheets to print, of a layout or of all in a folder.

mod made;

use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::mpsc;

use baywright_files::{MOST_LAYOUTS, ShopInUse, layouts_of_folder, make_folder, shop_in_use};
use rayon::prelude::*;

use crate::command_line::commands::SheetAsked;
use crate::command_line::input::is_stream;
use crate::command_line::outcome::{Outcome, said};
use crate::command_line::page::Page;
use crate::command_line::report::not_read;
use crate::command_line::trouble::{Errors, Trouble};
pub(crate) use made::read_from;
use made::{Made, as_files, made, written};

/// Makes the sheets.
pub(crate) fn sheets(
    asked: &SheetAsked,
    own_shop: Option<&Path>,
    out: &mut Page<'_>,
    errors: &mut Errors<'_>,
) -> Outcome {
    let used = match shop_in_use(asked.shop.as_deref(), own_shop) {
        Ok(used) => used,
        Err(faults) => return not_read(faults, errors),
    };
    match asked.layouts.as_slice() {
        [one] if !is_folder(one) => single(one, asked, &used, out, errors),
        _ => several(asked, &used, out, errors),
    }
}

fn is_folder(named: &Path) -> bool {
    !is_stream(named) && layouts_of_folder(named).is_some()
}

/// The sheets of one layout, in the file that was asked for, or on standard output.
fn single(
    layout: &Path,
    asked: &SheetAsked,
    used: &ShopInUse,
    out: &mut Page<'_>,
    errors: &mut Errors<'_>,
) -> Outcome {
    if is_stream(&asked.output) {
        return to_output(layout, asked, used, out, errors);
    }
    let ending = asked.output.extension().map(|own| own.to_string_lossy().to_lowercase()).unwrap_or_default();
    if !["pdf", "svg", "png"].contains(&ending.as_str()) {
        errors.tell(Trouble::NoSheet(asked.output.display().to_string()));
        return Outcome::NotRead;
    }
    let done = made(layout, asked, used).and_then(|made| {
        let files = written(&made, &asked.output, &ending, asked)?;
        Ok((made, files))
    });
    match done {
        Ok((made, files)) => {
            errors.tell_passed_over(&made.passed_over);
            told(&files, asked, out, errors)
        }
        Err((outcome, troubles)) => {
            troubles.into_iter().for_each(|own| errors.tell(own));
            outcome
        }
    }
}

/// The sheets of one layout as one file on standard output.
fn to_output(
    layout: &Path,
    asked: &SheetAsked,
    used: &ShopInUse,
    out: &mut Page<'_>,
    errors: &mut Errors<'_>,
) -> Outcome {
    let done = made(layout, asked, used).and_then(|made| Ok((as_files(&made, &asked.format, asked)?, made)));
    match done {
        Ok((files, made)) => {
            errors.tell_passed_over(&made.passed_over);
            let [file] = files.as_slice() else {
                errors.tell(Trouble::SeveralToOutput(files.len()));
                return Outcome::NotRead;
            };
            match out.file(file) {
                Some(result) => said(result, errors),
                None => {
                    errors.tell(Trouble::ToTerminal);
                    Outcome::NotRead
                }
            }
        }
        Err((outcome, troubles)) => {
            troubles.into_iter().for_each(|own| errors.tell(own));
            outcome
        }
    }
}

/// The names of what was written.
fn told(files: &[PathBuf], asked: &SheetAsked, out: &mut dyn Write, errors: &mut Errors<'_>) -> Outcome {
    if asked.quiet {
        return Outcome::Ready;
    }
    said(files.iter().try_for_each(|file| writeln!(out, "{}", file.display())), errors)
}

/// The sheets of several layouts, on all processors, each in a file of its own in the folder that was asked for.
fn several(asked: &SheetAsked, used: &ShopInUse, out: &mut dyn Write, errors: &mut Errors<'_>) -> Outcome {
    let layouts = match listed(&asked.layouts) {
        Ok(layouts) => layouts,
        Err(trouble) => {
            errors.tell(*trouble);
            return Outcome::NotRead;
        }
    };
    if let Err(fault) = make_folder(&asked.output) {
        errors.tell(Trouble::File(fault));
        return Outcome::NotWritten;
    }
    let texts = asked.locale.language.sheet_command();
    let one = |layout: &PathBuf| -> Result<(Made, Vec<PathBuf>), (Outcome, Vec<Trouble>)> {
        let made = made(layout, asked, used)?;
        let stem = layout.file_stem().unwrap_or(layout.as_os_str());
        let name = asked.output.join(stem).with_extension(&asked.format);
        let files = written(&made, &name, &asked.format, asked)?;
        Ok((made, files))
    };
    let (sender, receiver) = mpsc::channel();
    let (mut worst, mut failed, mut done) = (Outcome::Ready, Vec::new(), Vec::new());
    std::thread::scope(|scope| {
        scope.spawn(|| {
            layouts.par_iter().enumerate().for_each_with(sender, |sender, (at, layout)| {
                // Whoever hears it is there until all are done.
                let _ = sender.send((at, one(layout)));
            });
        });
        // Told as they come, so that a long folder shows that it goes on.
        for (count, (at, result)) in receiver.iter().enumerate() {
            let name = layouts.get(at).map(|own| own.display().to_string()).unwrap_or_default();
            if !asked.quiet {
                errors.so_far(&texts.so_far(count + 1, layouts.len(), &name));
            }
            match result {
                Ok((made, files)) => {
                    errors.tell_passed_over(&made.passed_over);
                    done.push((at, files));
                }
                Err((outcome, troubles)) => {
                    worst = worst.max(outcome);
                    failed.push((at, name));
                    troubles.into_iter().for_each(|own| errors.tell(own));
                }
            }
        }
    });
    done.sort();
    failed.sort();
    let files: Vec<PathBuf> = done.into_iter().flat_map(|(_, files)| files).collect();
    worst = worst.max(told(&files, asked, out, errors));
    if !failed.is_empty() {
        let names = failed.into_iter().map(|(_, name)| name).collect();
        errors.tell(Trouble::Failed(names, layouts.len()));
    }
    worst
}

/// Every layout that is named, and those in every folder that is.
fn listed(named: &[PathBuf]) -> Result<Vec<PathBuf>, Box<Trouble>> {
    let mut all = Vec::new();
    for own in named {
        if all.len() > MOST_LAYOUTS {
            break;
        }
        match layouts_of_folder(own).filter(|_| !is_stream(own)) {
            None => all.push(own.clone()),
            Some(Err(fault)) => return Err(Box::new(Trouble::File(fault))),
            Some(Ok(found)) if found.is_empty() => {
                return Err(Box::new(Trouble::NoLayouts(own.display().to_string())));
            }
            Some(Ok(found)) => all.extend(found),
        }
    }
    if all.len() > MOST_LAYOUTS {
        return Err(Box::new(Trouble::TooManyLayouts(MOST_LAYOUTS)));
    }
    Ok(all)
}
