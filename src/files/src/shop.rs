//! The file form of a shop's settings, version 1.

use std::path::{Path, PathBuf};

use baywright_planner::model::fault::{FileFault, FileKind};
use baywright_planner::model::{Shop, ShopFigure, validate};
use serde::{Deserialize, Serialize};

use crate::figure::Figure;
use crate::text::Text;
use crate::version::{self, Reader};

/// The name of the shop's own document in a folder.
pub const SHOP_FILE: &str = "shop.ron";

/// Every version of shop documents that can be read, the present one last.
const VERSIONS: &[Reader<ShopFile>] = &[Reader { version: version::SHOP, read: Text::parse }];

/// The fields, each with the setting that it is: from it the record and the ways between it and the model are made.
macro_rules! fields {
    ($($field:ident: $figure:ident,)+) => {
        /// A whole document. What is left out is the default.
        #[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
        #[serde(deny_unknown_fields)]
        pub struct ShopFile {
            pub version: u32,
            $(#[serde(default, skip_serializing_if = "Option::is_none")] pub $field: Option<Figure>,)+
        }

        impl ShopFile {
            fn model(&self) -> Shop {
                let said = [$((ShopFigure::$figure, self.$field)),+];
                let said = said.into_iter().filter_map(|(figure, own)| Some((figure, own?.0)));
                said.fold(Shop::default(), |shop, (figure, value)| shop.with(figure, value))
            }
        }

        /// The file that describes a shop's settings: every one of them, so that it says the same to every later program.
        pub fn file_of(shop: &Shop) -> ShopFile {
            ShopFile {
                version: version::SHOP,
                $($field: Some(shop.get(ShopFigure::$figure).into()),)+
            }
        }

        #[cfg(test)]
        const FIELDS: &[(&str, ShopFigure)] = &[$((stringify!($field), ShopFigure::$figure)),+];
    };
}

fields! {
    by_eye_mm: ByEye,
    taped_mm: Taped,
    car_planned_mm: CarPlanned,
    car_planned_deg: CarPlannedTurn,
    car_taped_mm: CarTaped,
    car_taped_deg: CarTapedTurn,
    survey_age_days: SurveyAge,
    level_reach_mm: LevelReach,
    working_room_mm: WorkingRoom,
    step_over_mm: StepOver,
    duck_under_mm: DuckUnder,
    over_car_mm: OverCar,
    over_mark_mm: OverMark,
    mark_agrees_mm: MarkAgrees,
    mark_laid_mm: MarkLaid,
    target_off_mm: TargetOff,
    tolerance_share: ToleranceShare,
    into_wall_mm: IntoWall,
    door_roll_mm: DoorRoll,
}

/// The settings in use, and which file they came from.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ShopInUse {
    /// The settings.
    pub shop: Shop,
    /// Their file; `None` if there is none, so that the defaults hold.
    pub path: Option<PathBuf>,
}

/// The settings of a shop: of the file that is named; else of the shop's own document at `own`, if there is one; else the
/// defaults.
///
/// # Errors
/// A file is named, or there, and cannot be read: the defaults never stand in for it unseen.
pub fn shop_in_use(named: Option<&Path>, own: Option<&Path>) -> Result<ShopInUse, Vec<FileFault>> {
    // Also a link that leads nowhere is somebody's.
    let there = own.filter(|path| std::fs::symlink_metadata(path).is_ok());
    match named.or(there) {
        Some(path) => Ok(ShopInUse { shop: load_shop(path)?, path: Some(path.to_owned()) }),
        None => Ok(ShopInUse::default()),
    }
}

/// Loads a shop's settings.
///
/// # Errors
/// Everything found wrong with them.
pub fn load_shop(path: &Path) -> Result<Shop, Vec<FileFault>> {
    shop_in(&Text::read(path, FileKind::Shop).map_err(|fault| vec![fault])?)
}

/// A shop's settings from a text in hand; `file` names it in sentences.
///
/// # Errors
/// Everything found wrong with them.
pub fn parse_shop(file: &str, text: &str) -> Result<Shop, Vec<FileFault>> {
    shop_in(&Text::of_bytes(file, text.as_bytes().to_vec(), FileKind::Shop).map_err(|fault| vec![fault])?)
}

fn shop_in(text: &Text) -> Result<Shop, Vec<FileFault>> {
    let file = version::read(text, VERSIONS).map_err(|fault| vec![fault])?;
    let shop = file.model();
    let faults = validate::shop(&shop);
    if faults.is_empty() { Ok(shop) } else { Err(text.located(faults)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A setting that no file could hold would be lost.
    #[test]
    fn every_setting_has_its_field() {
        let fields: Vec<(String, ShopFigure)> = FIELDS.iter().map(|own| (own.0.to_owned(), own.1)).collect();
        let expected: Vec<(String, ShopFigure)> =
            ShopFigure::ALL.iter().map(|own| (own.name(), *own)).collect();
        assert_eq!(fields, expected);
    }
}
