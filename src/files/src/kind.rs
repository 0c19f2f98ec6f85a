//! What a file holds, by its name and the fields that it begins with.

use std::path::Path;

use baywright_planner::model::fault::{FileFault, FileKind, FileTrouble};

use crate::spot;
use crate::text::Text;

/// Endings of pictures of any kind; which of them can be shown, the reader of pictures says.
const PICTURES: [&str; 8] = ["png", "jpg", "jpeg", "gif", "bmp", "tif", "tiff", "webp"];

/// Endings of drawings of other programs; which of them can be read, their reader says.
const DRAWINGS: [&str; 2] = ["dxf", "dwg"];

/// What a file most likely is; `Any` if it is none of ours, or cannot be read. Whoever then reads it says what is wrong with
/// it.
pub fn kind_of(path: &Path) -> FileKind {
    let ending = path.extension().map(|ending| ending.to_string_lossy().to_lowercase()).unwrap_or_default();
    if PICTURES.contains(&ending.as_str()) {
        return FileKind::Picture;
    }
    if DRAWINGS.contains(&ending.as_str()) {
        return FileKind::Drawing;
    }
    Text::read(path, FileKind::Any).map_or(FileKind::Any, |text| kind_in(&text))
}

/// What a text most likely is.
fn kind_in(text: &Text) -> FileKind {
    let has = |field: &str| spot::value(&text.text, field).is_some();
    if has("begun") && has("entries") {
        FileKind::Record
    } else if has("room") || has("arrangements") {
        FileKind::Layout
    } else if has("wheelbase_mm") || has("aimings") {
        FileKind::Profile
    } else if has("triggers") {
        FileKind::TriggerList
    } else if has("by_eye_mm") || has("taped_mm") {
        FileKind::Shop
    } else {
        FileKind::Any
    }
}

/// What was read of a text as a file of a kind. Where it cannot be, and the text is a file of another kind of ours, that is what is wrong
/// with it, and not each of its fields.
///
/// # Errors
/// What is wrong.
pub fn or_other_kind<T>(text: &Text, wanted: FileKind, read: Result<T, FileFault>) -> Result<T, FileFault> {
    read.map_err(|fault| match kind_in(text) {
        FileKind::Any => fault,
        found if found == wanted => fault,
        found => FileFault::whole(&text.file, FileTrouble::OtherKind { wanted, found }),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::embedded::{LAYOUTS, PROFILES};

    #[test]
    fn a_file_is_known_by_what_is_in_it() {
        let folder = std::env::temp_dir().join(format!("baywright-kind-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        let path = folder.join("it.ron");
        let of = |text: &str| {
            std::fs::write(&path, text).unwrap();
            kind_of(&path)
        };
        for layout in LAYOUTS {
            assert_eq!(of(layout.text), FileKind::Layout, "{}", layout.name);
        }
        for car in PROFILES {
            assert_eq!(of(car.text), FileKind::Profile, "{}", car.name);
        }
        assert_eq!(of(include_str!("example-triggers.ron")), FileKind::TriggerList);
        let shop = crate::shop_text(&baywright_planner::model::ShopDocument::default()).unwrap();
        assert_eq!(of(&shop), FileKind::Shop);
        for other in ["", "(version: 1)", "Dear customer, (room: 3", "\u{0}\u{1}"] {
            assert_eq!(of(other), FileKind::Any, "{other:?}");
        }
        assert_eq!(kind_of(&folder), FileKind::Any);
        assert_eq!(kind_of(&folder.join("not-there.ron")), FileKind::Any);
        assert_eq!(kind_of(Path::new("Hall.PNG")), FileKind::Picture);
        assert_eq!(kind_of(Path::new("Hall.DXF")), FileKind::Drawing);
        std::fs::remove_dir_all(folder).unwrap();
    }
}
