//! Saving: whole or not at all, readable, and never something that could not be read again.

use std::path::{Path, PathBuf};

use baywright_planner::model::fault::{FileFault, FileKind, FileTrouble};
use baywright_planner::model::{Layout, Provenance, ShopDocument, TriggerList, Vehicle, validate};
use ron::ser::PrettyConfig;
use serde::Serialize;

use crate::gate::own_folder;
use crate::library::Library;
use crate::open::parse_layout;
use crate::open_profile::{parse_draft, parse_profile};
use crate::parse::options;
use crate::shop::{self, SHOP_FILE, parse_shop};
use crate::text::Text;
use crate::triggers::{self, TRIGGERS_FILE, parse_triggers};
use crate::whole::{behind_links, not_written, write_whole};
use crate::{layout, profile, spot, version};

/// What saving did.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Saved {
    /// Where the old file was kept, if it had comments by hand, which a saved file cannot hold.
    pub backup: Option<PathBuf>,
    /// Where the old file was kept, if it was of another version of the format: `NAME.ron.v1.bak`. It has its comments.
    pub other_version: Option<PathBuf>,
}

const LAYOUT_HEAD: &str = "// A bay layout of Baywright: millimetres, degrees anticlockwise.\n";
const PROFILE_HEAD: &str = "// A vehicle profile of Baywright: millimetres, degrees anticlockwise.\n";
const TRIGGERS_HEAD: &str = "// Which work asks for which sensors to be aimed again, for Baywright.\n";
const SHOP_HEAD: &str = "// A shop's own settings for Baywright: millimetres, degrees, days. What is left out is the default: common practice,\n\
     // no source.\n";
const EXAMPLE_HEAD: &str =
    "// Invented example figures. Never use them on a car: the vehicle maker's procedure decides.\n";

const EXAMPLE_LIST_HEAD: &str =
    "// An example, common practice without a source: the vehicle maker's procedure decides.\n";

/// The text of a layout's file.
///
/// # Errors
/// The layout breaks an invariant, so that its file could not be read again.
pub fn layout_text(layout: &Layout) -> Result<String, Vec<FileFault>> {
    let name = format!("{}.ron", layout.bay.id);
    let faults = validate::layout(layout);
    if !faults.is_empty() {
        return Err(Text::new(name, "").located(faults));
    }
    let text = written(&layout::file_of(layout), &layout.bay.provenance, (LAYOUT_HEAD, EXAMPLE_HEAD), &name)?;
    parse_layout(&name, layout.bay.id.as_str(), &text)?;
    Ok(text)
}

/// The text of a profile's file. Figures that were assumed from the class are left out.
///
/// # Errors
/// The profile breaks an invariant, so that its file could not be read again.
pub fn profile_text(vehicle: &Vehicle) -> Result<String, Vec<FileFault>> {
    let name = format!("{}.ron", vehicle.id);
    let faults = validate::vehicle(vehicle);
    if !faults.is_empty() {
        return Err(Text::new(name, "").located(faults));
    }
    let text = written(&profile::file_of(vehicle), &vehicle.provenance, (PROFILE_HEAD, EXAMPLE_HEAD), &name)?;
    parse_profile(&name, vehicle.id.as_str(), &text)?;
    Ok(text)
}

/// The same of a car that is still being entered, for the recovery journal: its figures need not fit yet.
///
/// # Errors
/// It could not be read again.
pub fn draft_text(vehicle: &Vehicle) -> Result<String, Vec<FileFault>> {
    let name = format!("{}.ron", vehicle.id);
    let text = written(&profile::file_of(vehicle), &vehicle.provenance, (PROFILE_HEAD, EXAMPLE_HEAD), &name)?;
    parse_draft(&name, vehicle.id.as_str(), &text)?;
    Ok(text)
}

/// The text of the file of a list of what asks for aimings.
///
/// # Errors
/// The list breaks an invariant, so that its file could not be read again.
pub fn triggers_text(list: &TriggerList) -> Result<String, Vec<FileFault>> {
    let faults = validate::trigger_list(list);
    if !faults.is_empty() {
        return Err(Text::new(TRIGGERS_FILE, "").located(faults));
    }
    let text = written(
        &triggers::file_of(list),
        &list.provenance,
        (TRIGGERS_HEAD, EXAMPLE_LIST_HEAD),
        TRIGGERS_FILE,
    )?;
    parse_triggers(TRIGGERS_FILE, &text)?;
    Ok(text)
}

/// The text of the file of a shop's settings.
///
/// # Errors
/// They break an invariant, so that their file could not be read again.
pub fn shop_text(document: &ShopDocument) -> Result<String, Vec<FileFault>> {
    let faults = validate::shop_document(document);
    if !faults.is_empty() {
        return Err(Text::new(SHOP_FILE, "").located(faults));
    }
    let text = pretty(&shop::file_of(document), SHOP_HEAD, SHOP_FILE)?;
    parse_shop(SHOP_FILE, &text)?;
    Ok(text)
}

fn written(
    file: &impl Serialize,
    source: &Provenance,
    (head, example_head): (&str, &str),
    name: &str,
) -> Result<String, Vec<FileFault>> {
    let example = if *source == Provenance::Example { example_head } else { "" };
    pretty(file, &format!("{head}{example}"), name)
}

fn pretty(file: &impl Serialize, head: &str, name: &str) -> Result<String, Vec<FileFault>> {
    // Beyond this depth a record stands on one line: a mark, a point, a level.
    let pretty = PrettyConfig::new().new_line("\n").indentor("    ").depth_limit(4).struct_names(false);
    let body = options()
        .to_string_pretty(file, pretty)
        .map_err(|_| vec![FileFault::whole(name, FileTrouble::NotInText)])?;
    Ok(format!("{head}{body}\n"))
}

/// Saves a layout: the file is replaced whole or left as it was, a symbolic link keeps pointing to it, its mode stays.
///
/// # Errors
/// The layout breaks an invariant, or the file cannot be written.
pub fn save_layout(path: &Path, layout: &Layout) -> Result<Saved, Vec<FileFault>> {
    save(path, &layout_text(layout)?, version::LAYOUT).map_err(|fault| vec![fault])
}

/// Saves a profile, as [`save_layout`].
///
/// # Errors
/// The profile breaks an invariant, or the file cannot be written.
pub fn save_profile(path: &Path, vehicle: &Vehicle) -> Result<Saved, Vec<FileFault>> {
    save(path, &profile_text(vehicle)?, version::PROFILE).map_err(|fault| vec![fault])
}

/// The same for a profile that may be the first of its folder: the folder is made.
///
/// # Errors
/// As [`save_profile`], or the folder cannot be made.
pub fn save_new_profile(path: &Path, vehicle: &Vehicle) -> Result<Saved, Vec<FileFault>> {
    save_in_new_folder(path, &profile_text(vehicle)?, version::PROFILE)
}

/// Saves a list of what asks for aimings, as [`save_layout`]. It may be the first file of its folder: the folder is made.
///
/// # Errors
/// The list breaks an invariant, or the file cannot be written.
pub fn save_triggers(path: &Path, list: &TriggerList) -> Result<Saved, Vec<FileFault>> {
    save_in_new_folder(path, &triggers_text(list)?, version::TRIGGERS)
}

/// Saves a shop's settings, as [`save_layout`]. They may be the first file of their folder: the folder is made.
///
/// # Errors
/// They break an invariant, or the file cannot be written.
pub fn save_shop(path: &Path, document: &ShopDocument) -> Result<Saved, Vec<FileFault>> {
    save_in_new_folder(path, &shop_text(document)?, version::SHOP)
}

fn save_in_new_folder(path: &Path, text: &str, present: u32) -> Result<Saved, Vec<FileFault>> {
    if let Some(folder) = path.parent() {
        std::fs::create_dir_all(folder).map_err(|error| vec![not_written(folder, &error)])?;
    }
    save(path, text, present).map_err(|fault| vec![fault])
}

fn save(path: &Path, text: &str, present: u32) -> Result<Saved, FileFault> {
    let real = behind_links(path);
    let mut saved = Saved::default();
    // A file that cannot be read as text holds nothing that could be kept so.
    if let Ok(old) = Text::read(&real, FileKind::Any) {
        saved.other_version = keep_other_version(&real, &old, present)?;
        if saved.other_version.is_none() {
            saved.backup = keep_comments(&real, &old)?;
        }
    }
    write_whole(path, text.as_bytes())?;
    Ok(saved)
}

/// Writes a copy of a layout beside everything else, under a name that no other copy has: for when the program itself met
/// a fault. `folder` is where; without one, it is in the program's own data folder.
///
/// # Errors
/// The layout breaks an invariant, there is no such folder, or it cannot be written.
pub fn save_aside(folder: Option<&Path>, layout: &Layout) -> Result<PathBuf, Vec<FileFault>> {
    let text = layout_text(layout)?;
    let name = layout.bay.id.as_str();
    let own = || Library::data_folder().map(|folder| folder.join("kept-after-a-fault"));
    let folder = folder
        .map(Path::to_owned)
        .or_else(own)
        .ok_or_else(|| vec![FileFault::whole(name, FileTrouble::NoHome)])?;
    own_folder(&folder).map_err(|error| vec![not_written(&folder, &error)])?;
    // A name is a file's stem and nothing else.
    let stem: String =
        name.chars().map(|c| if c.is_alphanumeric() || c == '-' || c == '_' { c } else { '-' }).collect();
    for n in 1..=MOST_ASIDE {
        let path = folder.join(format!("{stem}-{n}.ron"));
        if !path.try_exists().unwrap_or(true) {
            write_whole(&path, text.as_bytes()).map_err(|fault| vec![fault])?;
            return Ok(path);
        }
    }
    Err(vec![FileFault::whole(folder.display().to_string(), FileTrouble::FullOfCopies)])
}

/// So many copies of one file are kept at most.
const MOST_ASIDE: usize = 1_000;

/// Copies a file of another version than is written now to `NAME.ron.v1.bak`.
fn keep_other_version(path: &Path, old: &Text, present: u32) -> Result<Option<PathBuf>, FileFault> {
    match version::stated(old) {
        Some(version) if version != u64::from(present) => kept(path, &format!(".v{version}")),
        _ => Ok(None),
    }
}

/// Copies a file that has comments by hand to `NAME.ron.bak`.
fn keep_comments(path: &Path, old: &Text) -> Result<Option<PathBuf>, FileFault> {
    let mut body = old.text.as_str();
    for head in [LAYOUT_HEAD, PROFILE_HEAD, TRIGGERS_HEAD, SHOP_HEAD, EXAMPLE_HEAD, EXAMPLE_LIST_HEAD] {
        body = body.strip_prefix(head).unwrap_or(body);
    }
    if spot::has_comment(body) { kept(path, "") } else { Ok(None) }
}

/// Copies a file to its own name with an ending and `.bak`, whole or not at all. A copy that is there already stays; where it is
/// not the same, as after comments were written by hand once more, this one gets a number: `NAME.ron.2.bak`.
fn kept(path: &Path, ending: &str) -> Result<Option<PathBuf>, FileFault> {
    let bytes = std::fs::read(path).map_err(|error| not_written(path, &error))?;
    for n in 1..=MOST_ASIDE {
        let mut name = path.as_os_str().to_owned();
        name.push(ending);
        if n > 1 {
            name.push(format!(".{n}"));
        }
        name.push(".bak");
        let copy = PathBuf::from(name);
        // Also a link that leads nowhere is somebody's.
        if std::fs::symlink_metadata(&copy).is_ok() {
            if holds(&copy, &bytes) {
                return Ok(None);
            }
            continue;
        }
        write_whole(&copy, &bytes)?;
        let failed = |error: std::io::Error| not_written(&copy, &error);
        let mode = std::fs::metadata(path).map_err(failed)?.permissions();
        std::fs::set_permissions(&copy, mode).map_err(failed)?;
        return Ok(Some(copy));
    }
    Err(FileFault::whole(path.display().to_string(), FileTrouble::FullOfCopies))
}

/// Whether a plain file holds just these bytes.
fn holds(copy: &Path, bytes: &[u8]) -> bool {
    let is_as_long =
        std::fs::metadata(copy).is_ok_and(|own| own.is_file() && own.len() == bytes.len() as u64);
    is_as_long && std::fs::read(copy).is_ok_and(|own| own == bytes)
}
