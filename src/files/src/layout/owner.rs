//! What the owner of a bay says of it, in its file and from there.

use baywright_planner::model::{ComesIn, CostOf, OwnerFigures};
use serde::{Deserialize, Serialize};

use crate::figure::Figure;

/// The owner's figures; each may be left out.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct OwnerFile {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub square_metre: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub to_spend: Option<Figure>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub store_mm: Option<Figure>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub comes_in: Vec<ComesInFile>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub without: Vec<CostFile>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub further: Vec<CostFile>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub walled_up: Vec<CostFile>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub open_onto: Vec<CostFile>,
}

/// How often an aiming comes in.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ComesInFile {
    pub car: String,
    pub aiming: String,
    pub a_month: Figure,
}

/// What a change costs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CostFile {
    pub name: String,
    pub costs: Figure,
}

/// As it stands in a file; `None` where nothing is said.
pub fn file_of(own: &OwnerFigures) -> Option<OwnerFile> {
    let cost = |own: &CostOf| CostFile { name: own.name.to_string(), costs: own.costs.into() };
    (*own != OwnerFigures::default()).then(|| OwnerFile {
        square_metre: own.square_metre.map(Figure),
        to_spend: own.to_spend.map(Figure),
        store_mm: own.store_mm.map(Figure),
        comes_in: own
            .comes_in
            .iter()
            .map(|own| ComesInFile {
                car: own.car.to_string(),
                aiming: own.aiming.to_string(),
                a_month: own.a_month.into(),
            })
            .collect(),
        without: own.without.iter().map(cost).collect(),
        further: own.further.iter().map(cost).collect(),
        walled_up: own.walled_up.iter().map(cost).collect(),
        open_onto: own.open_onto.iter().map(cost).collect(),
    })
}

/// From there.
pub fn owner_of(file: &OwnerFile) -> OwnerFigures {
    let cost = |own: &CostFile| CostOf { name: own.name.as_str().into(), costs: own.costs.0 };
    OwnerFigures {
        square_metre: file.square_metre.map(|own| own.0),
        to_spend: file.to_spend.map(|own| own.0),
        store_mm: file.store_mm.map(|own| own.0),
        comes_in: file
            .comes_in
            .iter()
            .map(|own| ComesIn {
                car: own.car.as_str().into(),
                aiming: own.aiming.as_str().into(),
                a_month: own.a_month.0,
            })
            .collect(),
        without: file.without.iter().map(cost).collect(),
        further: file.further.iter().map(cost).collect(),
        walled_up: file.walled_up.iter().map(cost).collect(),
        open_onto: file.open_onto.iter().map(cost).collect(),
    }
}
