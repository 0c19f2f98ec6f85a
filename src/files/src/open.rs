//! Opening layouts with the profiles that they name.

use std::io::Read;
use std::path::{Path, PathBuf};

use crate::embedded;
use crate::kind::or_other_kind;
use crate::layout;
use crate::library::Library;
use crate::open_profile::{Profile, stem};
use crate::places::layouts_in;
use crate::text::Text;
use crate::version;
use baywright_planner::at_once;
use baywright_planner::model::fault::{
    Allowed, Choice, Fault, FileFault, FileKind, FileTrouble, Found, Quote, Wrong,
};
use baywright_planner::model::validate;
use baywright_planner::model::{Arrangement, Id, JudgedBy, Layout, SavedArrangement};

/// A layout with all its arrangements made.
#[derive(Clone, Debug, PartialEq)]
pub struct Loaded {
    /// The file, for sentences.
    pub file: String,
    /// Where it is on disk; `None` for a built-in one.
    pub path: Option<PathBuf>,
    /// The layout.
    pub layout: Layout,
    /// The arrangements in the file's order, by name.
    pub arrangements: Vec<(Id, Arrangement)>,
    /// The profiles that they use, each once, in the order of first use.
    pub profiles: Vec<Profile>,
    /// The folders that could not be looked into before these were found, each once: see [`Library::passed_over`].
    pub passed_over: Vec<FileFault>,
}

/// The arrangements of a layout, made with the profiles found.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Resolved {
    /// The arrangements in the layout's order, by name.
    pub arrangements: Vec<(Id, Arrangement)>,
    /// The profiles that they use, each once, in the order of first use.
    pub profiles: Vec<Profile>,
    /// The folders that could not be looked into before these were found, each once: see [`Library::passed_over`].
    pub passed_over: Vec<FileFault>,
}

/// Opens a layout with everything that it needs, all of it sound. `name` is a path, or the name of a built-in layout (`crowded-bay`,
/// with or without `.ron`, or `bay-layouts/crowded-bay.ron`); a file that exists goes first. `by` is the day
/// and the shop's settings by which it is to be judged.
///
/// # Errors
/// Everything found wrong, in the layout or in a profile that it names.
pub fn open(name: &Path, by: impl Into<JudgedBy>) -> Result<Loaded, Vec<FileFault>> {
    let (loaded, faults) = open_in_part(name, by)?;
    if faults.is_empty() { Ok(loaded) } else { Err(faults) }
}

/// The same where one arrangement is enough: the layout is whole, but only those of its arrangements are made that go with
/// their cars. With it, why the others do not.
///
/// # Errors
/// Everything found wrong in the layout itself, or with all of its arrangements.
pub fn open_in_part(
    name: &Path,
    by: impl Into<JudgedBy>,
) -> Result<(Loaded, Vec<FileFault>), Vec<FileFault>> {
    let (text, id, path) = match embedded_layout(name) {
        Some(built_in) if !name.exists() => {
            (Text::new(built_in.label(), built_in.text), built_in.name.into(), None)
        }
        _ => (
            Text::read(name, FileKind::Layout).map_err(|fault| vec![naming_built_in(name, fault)])?,
            stem(name)?,
            Some(name),
        ),
    };
    let library = path.map_or_else(Library::built_in, Library::beside);
    made(text, id, path, &library, by.into())
}

/// The same of a layout that comes through a pipe, as if its file lay in the folder that is worked in; `file` names it in
/// sentences.
///
/// # Errors
/// Everything found wrong, in the layout or in a profile that it names; at most [`LARGEST_FILE`](crate::LARGEST_FILE) bytes are
/// read.
pub fn open_from(file: &str, from: &mut dyn Read, by: impl Into<JudgedBy>) -> Result<Loaded, Vec<FileFault>> {
    let text = Text::read_from(file, from, FileKind::Layout).map_err(|fault| vec![fault])?;
    let library = Library::beside(Path::new("layout.ron"));
    let (loaded, faults) = made(text, "layout".into(), None, &library, by.into())?;
    if faults.is_empty() { Ok(loaded) } else { Err(faults) }
}

fn made(
    text: Text,
    id: Id,
    path: Option<&Path>,
    library: &Library,
    by: JudgedBy,
) -> Result<(Loaded, Vec<FileFault>), Vec<FileFault>> {
    let layout = layout_in(&text, id)?;
    let (resolved, faults) = resolve_in(&text, &layout, library, &by);
    if resolved.arrangements.is_empty() && !faults.is_empty() {
        return Err(faults);
    }
    let loaded = Loaded {
        file: text.file,
        path: path.map(Path::to_owned),
        layout,
        arrangements: resolved.arrangements,
        profiles: resolved.profiles,
        passed_over: resolved.passed_over,
    };
    Ok((loaded, faults))
}

fn embedded_layout(name: &Path) -> Option<&'static embedded::Embedded> {
    let name = name.to_str()?;
    let name = name.strip_prefix("bay-layouts/").unwrap_or(name);
    let name = name.strip_suffix(".ron").unwrap_or(name);
    embedded::LAYOUTS.iter().find(|e| e.name == name)
}

/// A file that is not there: say which built-in ones are, and which of its folder or of them may have been meant.
fn naming_built_in(name: &Path, mut fault: FileFault) -> FileFault {
    if !name.exists() {
        let there: Vec<Id> = embedded::LAYOUTS.iter().map(|e| e.name.into()).collect();
        let stem = name.file_stem().and_then(|stem| stem.to_str()).unwrap_or_default();
        if let Wrong::Whole(FileTrouble::NotRead { built_in, .. }) = &mut *fault.wrong {
            let mut choice = Choice::near(stem, &there);
            // Whoever names a folder means a file in it.
            choice.meant = neighbour(name, stem).or(choice.meant);
            *built_in = Some(Box::new(choice));
        }
    }
    fault
}

/// The layout of the nearest name in the same folder, by its path.
fn neighbour(name: &Path, stem: &str) -> Option<Id> {
    let parent = name.parent().unwrap_or(Path::new(""));
    let folder = if parent.as_os_str().is_empty() { Path::new(".") } else { parent };
    let there = layouts_in(folder);
    let stems = there.iter().filter_map(|path| path.file_stem()?.to_str());
    let nearest = validate::nearest(stem, stems)?;
    Some(parent.join(format!("{nearest}.ron")).display().to_string().as_str().into())
}

/// Loads a layout alone, without the profiles that it names.
///
/// # Errors
/// Everything found wrong with it.
pub fn load_layout(path: &Path) -> Result<Layout, Vec<FileFault>> {
    let text = Text::read(path, FileKind::Layout).map_err(|fault| vec![fault])?;
    layout_in(&text, stem(path)?)
}

/// A layout from a text in hand; `file` names it in sentences, `id` is its name.
///
/// # Errors
/// Everything found wrong with it.
pub fn parse_layout(file: &str, id: &str, text: &str) -> Result<Layout, Vec<FileFault>> {
    let text =
        Text::of_bytes(file, text.as_bytes().to_vec(), FileKind::Layout).map_err(|fault| vec![fault])?;
    layout_in(&text, id.into())
}

fn layout_in(text: &Text, id: Id) -> Result<Layout, Vec<FileFault>> {
    let file = or_other_kind(text, FileKind::Layout, version::read(text, layout::VERSIONS));
    let file = file.map_err(|fault| vec![fault])?;
    layout::layout_of(&file, id).map_err(|faults| text.located(faults))
}

/// Makes the arrangements of a layout anew, as after a change. Faults name no line.
///
/// # Errors
/// Everything found wrong: profiles, aimings, placements that are not there.
pub fn resolve(
    file: &str,
    layout: &Layout,
    library: &Library,
    by: impl Into<JudgedBy>,
) -> Result<Resolved, Vec<FileFault>> {
    let (resolved, faults) = resolve_in(&Text::new(file, ""), layout, library, &by.into());
    if faults.is_empty() { Ok(resolved) } else { Err(faults) }
}

/// Those arrangements that go with their cars, and why the others do not.
fn resolve_in(text: &Text, layout: &Layout, library: &Library, by: &JudgedBy) -> (Resolved, Vec<FileFault>) {
    let mut resolved = Resolved::default();
    let mut in_profiles: Vec<FileFault> = Vec::new();
    let mut in_layout: Vec<Fault> = Vec::new();
    let mut looked_up: Vec<(Id, Option<usize>)> = Vec::new();
    for (i, saved) in layout.arrangements.iter().enumerate() {
        let known = looked_up.iter().find(|(id, _)| *id == saved.vehicle).map(|(_, at)| *at);
        let at = known.unwrap_or_else(|| {
            let at = match library.find(&saved.vehicle) {
                Ok(Some(profile)) => {
                    for passed in library.passed_over(&saved.vehicle) {
                        if !resolved.passed_over.contains(&passed) {
                            resolved.passed_over.push(passed);
                        }
                    }
                    resolved.profiles.push(profile);
                    Some(resolved.profiles.len() - 1)
                }
                Ok(None) => {
                    in_layout.push(Fault {
                        field: format!("arrangements[{i}].vehicle"),
                        found: Found::NoProfile(Quote::of(saved.vehicle.as_str())),
                        allowed: Allowed::one_of(saved.vehicle.as_str(), &library.names()),
                    });
                    // It may lie where nobody could look.
                    for unread in library.unread() {
                        if !in_profiles.contains(&unread) {
                            in_profiles.push(unread);
                        }
                    }
                    None
                }
                Err(faults) => {
                    in_profiles.extend(faults);
                    None
                }
            };
            looked_up.push((saved.vehicle.clone(), at));
            at
        });
        let Some(profile) = at.and_then(|at| resolved.profiles.get(at)) else { continue };
        let wrong = match layout.resolve(saved, &profile.vehicle, &profile.fingerprint, by) {
            Ok(arrangement) => {
                let wrong = validate::arrangement(&arrangement);
                if wrong.is_empty() {
                    resolved.arrangements.push((saved.id.clone(), arrangement));
                }
                wrong
            }
            Err(fault) => vec![fault.into()],
        };
        in_layout.extend(wrong.into_iter().map(|mut fault| {
            fault.field = format!("arrangements[{i}].{}", fault.field);
            fault
        }));
    }
    stand_together(layout, &mut resolved.arrangements);
    let mut faults = text.located(in_layout);
    faults.extend(in_profiles);
    (resolved, faults)
}

/// Puts what is done at the same time beside each: they were made alone.
fn stand_together(layout: &Layout, all: &mut [(Id, Arrangement)]) {
    let together = layout.named_at_once();
    if together.is_empty() {
        return;
    }
    let alone: Vec<(Id, Arrangement)> = all.to_vec();
    let made =
        |other: &SavedArrangement| alone.iter().find(|(id, _)| *id == other.id).map(|(_, own)| own.clone());
    for (id, own) in all.iter_mut().filter(|(id, _)| together.contains(id)) {
        if let Some(saved) = layout.arrangements.iter().find(|saved| saved.id == *id) {
            *own = at_once::beside(layout, saved, own.clone(), made);
        }
    }
}
