//! The shipped files, also held in the binary, so that the demo works from any folder.

/// A file in the binary.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Embedded {
    /// Its name without `.ron`.
    pub name: &'static str,
    /// Its text.
    pub text: &'static str,
}

impl Embedded {
    /// The file's name in sentences.
    pub fn label(&self) -> String {
        format!("{}.ron", self.name)
    }

    /// Its name as a person reads it: "Crowded bay".
    pub fn title(&self) -> String {
        let plain = self.name.replace('-', " ");
        let mut letters = plain.chars();
        letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
    }
}

macro_rules! embedded {
    ($folder:literal: $($name:literal),* $(,)?) => {
        &[$(Embedded {
            name: $name,
            text: include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/../../", $folder, "/", $name, ".ron")),
        }),*]
    };
}

/// The shipped vehicle profiles.
pub const PROFILES: &[Embedded] = embedded!("vehicle-profiles":
    "design-vehicle-p",
    "example-estate",
    "example-hatchback-small",
    "example-people-carrier",
    "example-pickup",
    "example-saloon",
    "example-van",
);

/// The shipped bay layouts.
pub const LAYOUTS: &[Embedded] = embedded!("bay-layouts":
    "clear-bay",
    "crowded-bay",
    "drain-bay",
    "hall",
    "lift-bay",
    "short-bay",
);
