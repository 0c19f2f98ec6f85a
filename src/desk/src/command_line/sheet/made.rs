//! The pages of a layout's sheets, and the files that they become.

use std::path::{Path, PathBuf};

use baywright_drawing::sheet::{About, Answered, Of, Sheet, sheet};
use baywright_drawing::{Lettering, Page, ViewState};
use baywright_files::{FileFault, Loaded, ShopInUse};
use baywright_planner::assess_fully;
use baywright_planner::model::{Arrangement, Id, validate};

use crate::command_line::commands::SheetAsked;
use crate::command_line::input::open;
use crate::command_line::outcome::Outcome;
use crate::command_line::report::judged_by;
use crate::command_line::trouble::Trouble;
use crate::command_line::written::{as_files as pages_as_files, written as write_pages};
use crate::session::printed::Format;

/// How it ended, and what went wrong.
pub(super) type Failed = (Outcome, Vec<Trouble>);

/// The pages of one layout.
pub(super) struct Made {
    pub(super) pages: Vec<Page>,
    /// What was read, which no sheet may replace: the layout, the picture under its plan, the shop's own document and picture.
    made_from: Vec<PathBuf>,
    pub(super) passed_over: Vec<FileFault>,
}

/// The sheets that were asked for of a layout: set-up by set-up, kind by kind; what is filled in by hand once.
pub(super) fn made(layout: &Path, asked: &SheetAsked, used: &ShopInUse) -> Result<Made, Failed> {
    let language = asked.locale.language;
    let loaded = open(layout, judged_by(used, asked.today), language)
        .map_err(|faults| (Outcome::NotRead, faults.into_iter().map(Trouble::File).collect()))?;
    let all = loaded.arrangements.as_slice();
    let file = loaded.file.as_str();
    let chosen: Vec<&Arrangement> = match &asked.arrangement {
        Some(name) => vec![named(all, name, file)?],
        None => all.iter().map(|(_, own)| own).collect(),
    };
    if chosen.is_empty() {
        return Err((Outcome::NotRead, vec![Trouble::NothingToAnswer(loaded.file)]));
    }
    let before = asked.before.as_deref().map(|name| named(all, name, file)).transpose()?;
    let before = before.map(|own| (own, assess_fully(own)));
    let name = loaded.path.as_deref().and_then(Path::file_name).map(|own| own.to_string_lossy().into_owned());
    let about = About {
        day: asked.today.map(|day| asked.locale.region.day(day)).unwrap_or_default(),
        file: name.unwrap_or_else(|| loaded.file.clone()),
        shop: used.face.name.clone().unwrap_or_default(),
        revision: asked.revision.clone(),
        record: String::new(),
    };
    let lettering = Lettering { locale: asked.locale, ..Lettering::default() };
    let state = ViewState::default();
    let mut pages = Vec::new();
    for (at, arrangement) in chosen.into_iter().enumerate() {
        let assessment = assess_fully(arrangement);
        let now = Answered { arrangement, assessment: &assessment, name: arrangement.id.as_str() };
        let before = before
            .as_ref()
            .filter(|(own, _)| own.id != arrangement.id)
            .map(|(own, said)| Answered { arrangement: own, assessment: said, name: own.id.as_str() });
        let of = Of { now, before, state: &state, face: &used.face };
        let kinds = asked.kinds.iter().filter(|kind| at == 0 || **kind != Sheet::Blank);
        pages.extend(kinds.flat_map(|kind| sheet(*kind, &of, asked.paper, &about, &lettering)));
    }
    let made_from = read_from(&loaded, used);
    Ok(Made { pages, made_from, passed_over: loaded.passed_over })
}

/// The files that sheets are made from, and those that belong to them.
pub(crate) fn read_from(loaded: &Loaded, used: &ShopInUse) -> Vec<PathBuf> {
    let beside = |file: &Option<PathBuf>, name: Option<&String>| {
        let folder = file.as_deref().and_then(Path::parent)?;
        Some(folder.join(name?))
    };
    let under = beside(&loaded.path, loaded.layout.underlay.as_ref().map(|own| &own.picture));
    let face = beside(&used.path, used.face.picture.as_ref());
    [loaded.path.clone(), under, used.path.clone(), face].into_iter().flatten().collect()
}

/// The set-up of a name.
fn named<'a>(all: &'a [(Id, Arrangement)], name: &str, file: &str) -> Result<&'a Arrangement, Failed> {
    let found = all.iter().find(|(id, _)| id.as_str() == name).map(|(_, own)| own);
    found.ok_or_else(|| {
        let there: Vec<String> = all.iter().map(|(id, _)| id.to_string()).collect();
        let meant = validate::nearest(name, there.iter().map(String::as_str)).map(ToOwned::to_owned);
        let (file, name) = (file.to_owned(), name.to_owned());
        (Outcome::NotRead, vec![Trouble::NoSuchArrangement { file, name, there, meant }])
    })
}

/// Writes them, and gives the names of what was written: of several pictures each has its number.
pub(super) fn written(
    made: &Made,
    to: &Path,
    ending: &str,
    asked: &SheetAsked,
) -> Result<Vec<PathBuf>, Failed> {
    let made_from: Vec<&Path> = made.made_from.iter().map(PathBuf::as_path).collect();
    let told = (format(ending, asked), asked.locale.language);
    write_pages(&made.pages, to, told, &made_from).map_err(|why| not_written(*why))
}

/// The files that they are, one after another.
pub(super) fn as_files(made: &Made, ending: &str, asked: &SheetAsked) -> Result<Vec<Vec<u8>>, Failed> {
    pages_as_files(&made.pages, format(ending, asked), asked.locale.language).map_err(|why| not_written(*why))
}

fn format(ending: &str, asked: &SheetAsked) -> Format {
    Format::of_ending(ending, asked.dpi).unwrap_or(Format::Pdf)
}

fn not_written(trouble: Trouble) -> Failed {
    (Outcome::NotWritten, vec![trouble])
}
