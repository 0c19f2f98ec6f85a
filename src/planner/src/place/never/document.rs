//! A proof with what it is of: what is kept in a file.

use super::Stays;
use crate::model::Arrangement;
use crate::never::Proof;

/// A proof, and the names of what it is of.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    /// The bay's name.
    pub bay: String,
    /// The set-up's.
    pub set_up: String,
    /// The car's.
    pub car: String,
    /// The aiming's.
    pub aiming: String,
    /// What counted as standing.
    pub stays: Stays,
    /// The proof.
    pub proof: Proof,
}

impl Document {
    /// A proof of an arrangement.
    pub fn of(arrangement: &Arrangement, stays: Stays, proof: Proof) -> Self {
        Self {
            bay: arrangement.bay.name.clone(),
            set_up: arrangement.id.to_string(),
            car: arrangement.vehicle.id.to_string(),
            aiming: arrangement.aiming.id.to_string(),
            stays,
            proof,
        }
    }
}
