//! Where figures come from.

use jiff::civil::Date;

/// Where a group of figures comes from. Until the maker's own figures stand there, the verdict says so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Provenance {
    /// Made up, to show how the program works: never to be used on a car.
    Example,
    /// Somebody entered them and did not say where they are from yet.
    NotGiven,
    /// The vehicle maker's service information.
    Maker {
        /// The document's title or number, as typed.
        document: String,
        /// The date on it, if given.
        date: Option<Date>,
    },
    /// Measured on this car or in this room.
    Measured {
        /// Who measured.
        by: String,
        /// When, if given.
        date: Option<Date>,
    },
    /// A published figure that is not the maker's, such as a design vehicle.
    Published {
        /// Where it is printed.
        source: String,
    },
}
