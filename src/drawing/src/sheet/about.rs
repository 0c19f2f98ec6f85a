//! What a sheet says of itself that no set-up knows.

/// Plain texts for a title block, as they are to stand there; what is empty is left out. The core reads no clock: whoever asks for
/// a sheet says which day it is.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct About {
    /// The day that the sheet is of, as it is written where the shop is.
    pub day: String,
    /// The file that it is made from.
    pub file: String,
    /// The shop's name.
    pub shop: String,
    /// Which revision of the sheet it is.
    pub revision: String,
    /// The record of the visit that is open meanwhile: its job and the hash that stands for it.
    pub record: String,
}
