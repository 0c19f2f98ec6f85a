//! Versions of the formats, and the way up from each to the present one.
//!
//! Each format has a table (`VERSIONS`, in its own file) with one reader for each version. The reader of the present version
//! reads its file struct; the reader of an older version `n` reads the struct of that version, which is the present one where
//! later versions only added what may be left out, and hands it through one upgrade function for each step `n → n + 1`. A new
//! version keeps the old struct where it is another, adds the step from it, and gets its own row. Files are always written in
//! the present version.

use baywright_planner::model::fault::{Allowed, Fault, FileFault, Found, Quote};

use crate::spot;
use crate::text::Text;

/// The present version of vehicle profiles.
pub const PROFILE: u32 = 8;

/// The present version of bay layouts.
pub const LAYOUT: u32 = 12;

/// The present version of a shop's settings.
pub const SHOP: u32 = 4;

/// The present version of lists of what asks for aimings.
pub const TRIGGERS: u32 = 1;

/// The present version of records of visits.
pub const RECORD: u32 = 1;

/// The present version of proofs that a set-up fits nowhere.
pub const NEVER: u32 = 1;

/// The present version of what the window remembers.
pub const WINDOW: u32 = 1;

/// How one version is read as the present file struct.
pub struct Reader<T> {
    /// The version.
    pub version: u32,
    /// Reads a file of that version and brings it up to the present one.
    pub read: fn(&Text) -> Result<T, FileFault>,
}

/// Reads a text with the reader of its version.
///
/// # Errors
/// A version that is missing, newer than the last of the table, or not in it; else what its reader finds.
pub fn read<T>(text: &Text, readers: &[Reader<T>]) -> Result<T, FileFault> {
    let refused = |found: Found| {
        let newest = readers.last().map_or(0, |r| r.version);
        let oldest = readers.first().map_or(0, |r| r.version);
        let newer_can = matches!(found, Found::NewerVersion(_));
        let allowed = Allowed::Versions { oldest, newest, newer_can };
        let place = spot::find(&text.text, "version");
        FileFault::inside(&text.file, place, Fault { field: "version".to_owned(), found, allowed })
    };
    let newest = readers.last().ok_or_else(|| refused(Found::NoVersion))?;
    let Some(written) = spot::value(&text.text, "version") else {
        // Either the version is missing or the text is no record at all: the reader says which, and where.
        return (newest.read)(text).and_then(|_| Err(refused(Found::NoVersion)));
    };
    match written.parse::<u64>() {
        Ok(version) => match readers.iter().find(|r| u64::from(r.version) == version) {
            Some(reader) => (reader.read)(text),
            None if version > u64::from(newest.version) => Err(refused(Found::NewerVersion(version))),
            None => Err(refused(Found::Version(version))),
        },
        Err(_) => Err(refused(Found::VersionNamed(Quote::of(written)))),
    }
}

/// The version that a text says it has, if it says one.
pub fn stated(text: &Text) -> Option<u64> {
    spot::value(&text.text, "version")?.parse().ok()
}

#[cfg(test)]
mod tests {
    use baywright_planner::words::Language;
    use serde::Deserialize;

    use super::*;

    /// Version 1 of a made-up format gave one width in centimetres.
    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct First {
        #[serde(rename = "version")]
        _version: u32,
        width_cm: f64,
    }

    /// Version 2 gives it in millimetres.
    #[derive(Debug, Deserialize, PartialEq)]
    #[serde(deny_unknown_fields)]
    struct Second {
        version: u32,
        width_mm: f64,
    }

    fn first_to_second(first: First) -> Second {
        Second { version: 2, width_mm: first.width_cm * 10.0 }
    }

    const READERS: &[Reader<Second>] = &[
        Reader { version: 1, read: |text| text.parse::<First>().map(first_to_second) },
        Reader { version: 2, read: Text::parse },
    ];

    fn check(text: &str) -> Result<Second, String> {
        read(&Text::new("f.ron", text), READERS).map_err(|fault| Language::English.file_fault(&fault))
    }

    #[test]
    fn an_old_file_is_brought_up_and_a_new_one_is_read() {
        let expected = Ok(Second { version: 2, width_mm: 120.0 });
        assert_eq!(check("(version: 1, width_cm: 12)"), expected);
        assert_eq!(check("(version: 2, width_mm: 120)"), expected);
        assert!(check("(version: 2, width_cm: 12)").unwrap_err().contains("width_cm"));
    }

    #[test]
    fn other_versions_are_refused_with_a_sentence() {
        assert_eq!(
            check("(\n  version: 3, width_mm: 1)").unwrap_err(),
            "f.ron, line 2, column 12, version: found version 3, made by a newer program; allowed is 1 to 2; a newer \
             program can read the file."
        );
        assert!(
            check("(version: 0, width_mm: 1)").unwrap_err().contains("found version 0; allowed is 1 to 2")
        );
        assert!(check("(version: \"1\", width_mm: 1)").unwrap_err().contains("the version"));
        assert!(check("(width_mm: 1)").unwrap_err().contains("no version"));
    }
}
