//! The file form of a shop's document, version 4, and where the shop's own lies. Version 2 added what the shop says of itself to
//! a customer, version 3 what marks are laid and taped with, version 4 the shop's own instruments; all may be left out, so that all are read as the same record.

use std::path::{Path, PathBuf};

use baywright_planner::model::fault::{FileFault, FileKind};
use baywright_planner::model::{
    InstrumentList, Shop, ShopDocument, ShopFace, ShopFigure, WorkStep, validate,
};
use serde::{Deserialize, Serialize};

use crate::figure::Figure;
use crate::instrument::InstrumentFile;
use crate::text::Text;
use crate::version::{self, Reader};

/// The name of the shop's own document in a folder.
pub const SHOP_FILE: &str = "shop.ron";

/// Every version of shop documents that can be read, the present one last.
const VERSIONS: &[Reader<ShopFile>] = &[
    Reader { version: 1, read: |text| text.parse::<ShopFile>().map(|first| fourth(third(second(first)))) },
    Reader { version: 2, read: |text| text.parse().map(|second| fourth(third(second))) },
    Reader { version: 3, read: |text| text.parse().map(fourth) },
    Reader { version: version::SHOP, read: Text::parse },
];

/// The step from version 1, which says nothing of the shop itself.
fn second(first: ShopFile) -> ShopFile {
    ShopFile { version: 2, ..first }
}

/// The step from version 2, which says nothing of what marks are taped with.
fn third(second: ShopFile) -> ShopFile {
    ShopFile { version: 3, ..second }
}

/// The step from version 3, which says nothing of the shop's own instruments.
fn fourth(third: ShopFile) -> ShopFile {
    ShopFile { version: 4, ..third }
}

/// The fields, each with the setting that it is: from it the record and the ways between it and the model are made.
macro_rules! fields {
    ($($field:ident: $figure:ident,)+) => {
        /// A whole document. What is left out is the default.
        #[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
        #[serde(deny_unknown_fields)]
        pub struct ShopFile {
            pub version: u32,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            pub name: Option<String>,
            #[serde(default, skip_serializing_if = "Option::is_none")]
            pub picture: Option<String>,
            #[serde(default, skip_serializing_if = "MinutesFile::is_empty")]
            pub minutes: MinutesFile,
            $(#[serde(default, skip_serializing_if = "Option::is_none")] pub $field: Option<Figure>,)+
            #[serde(default, skip_serializing_if = "Vec::is_empty")]
            pub instruments: Vec<InstrumentFile>,
        }

        impl ShopFile {
            fn shop(&self) -> Shop {
                let said = [$((ShopFigure::$figure, self.$field)),+];
                let said = said.into_iter().filter_map(|(figure, own)| Some((figure, own?.0)));
                said.fold(Shop::default(), |shop, (figure, value)| shop.with(figure, value))
            }
        }

        /// The file that describes a shop: every setting, so that it says the same to every later program, and what the shop
        /// says of itself.
        pub fn file_of(document: &ShopDocument) -> ShopFile {
            ShopFile {
                version: version::SHOP,
                name: document.face.name.clone(),
                picture: document.face.picture.clone(),
                minutes: MinutesFile::of(&document.face),
                $($field: Some(document.shop.get(ShopFigure::$figure).into()),)+
                instruments: document.instruments.iter().map(InstrumentFile::of).collect(),
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
    level_read_mm: LevelRead,
    working_room_mm: WorkingRoom,
    stand_room_mm: StandRoom,
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
    tape_read_mm: TapeRead,
    tape_per_metre_mm: TapePerMetre,
    tape_within_k: TapeWithin,
    laser_per_metre_mm: LaserPerMetre,
    line_found_mm: LineFound,
    plumb_found_mm: PlumbFound,
    wheel_found_mm: WheelFound,
    pole_read_deg: PoleRead,
    on_face_laid_deg: OnFaceLaid,
    camber_known_deg: CamberKnown,
    square_laid_deg: SquareLaid,
    angle_laid_deg: AngleLaid,
    floor_usual_mm: FloorUsual,
    thrust_usual_deg: ThrustUsual,
    car_creeps_mm: CarCreeps,
    bubble_set_deg: BubbleSet,
    bracket_usual_deg: BracketUsual,
    fault_times: FaultTimes,
}

/// How long each step of an aiming takes, minutes.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MinutesFile {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    clear_min: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    park_min: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    lay_min: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    stand_min: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    aim_min: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    put_back_min: Option<Figure>,
}

impl MinutesFile {
    fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    const fn field(&mut self, step: WorkStep) -> &mut Option<Figure> {
        match step {
            WorkStep::Clear => &mut self.clear_min,
            WorkStep::Park => &mut self.park_min,
            WorkStep::Lay => &mut self.lay_min,
            WorkStep::Stand => &mut self.stand_min,
            WorkStep::Aim => &mut self.aim_min,
            WorkStep::PutBack => &mut self.put_back_min,
        }
    }

    fn of(face: &ShopFace) -> Self {
        let mut file = Self::default();
        for step in WorkStep::ALL {
            *file.field(step) = face.minutes(step).map(Figure::from);
        }
        file
    }
}

impl ShopFile {
    fn model(&self) -> ShopDocument {
        let face = ShopFace { name: self.name.clone(), picture: self.picture.clone(), ..ShopFace::default() };
        let mut minutes = self.minutes.clone();
        let face = WorkStep::ALL.into_iter().fold(face, |face, step| {
            let own = minutes.field(step).map(|own| own.0);
            face.with_minutes(step, own)
        });
        let instruments = self.instruments.iter().map(InstrumentFile::model).collect();
        ShopDocument { shop: self.shop(), face, instruments }
    }
}

/// The settings in use, and which file they came from.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ShopInUse {
    /// The settings.
    pub shop: Shop,
    /// What the shop says of itself.
    pub face: ShopFace,
    /// What it measures with.
    pub instruments: InstrumentList,
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
        Some(path) => {
            let ShopDocument { shop, face, instruments } = load_shop(path)?;
            Ok(ShopInUse { shop, face, instruments, path: Some(path.to_owned()) })
        }
        None => Ok(ShopInUse::default()),
    }
}

/// Loads a shop's settings.
///
/// # Errors
/// Everything found wrong with them.
pub fn load_shop(path: &Path) -> Result<ShopDocument, Vec<FileFault>> {
    shop_in(&Text::read(path, FileKind::Shop).map_err(|fault| vec![fault])?)
}

/// A shop's settings from a text in hand; `file` names it in sentences.
///
/// # Errors
/// Everything found wrong with them.
pub fn parse_shop(file: &str, text: &str) -> Result<ShopDocument, Vec<FileFault>> {
    shop_in(&Text::of_bytes(file, text.as_bytes().to_vec(), FileKind::Shop).map_err(|fault| vec![fault])?)
}

fn shop_in(text: &Text) -> Result<ShopDocument, Vec<FileFault>> {
    let file = version::read(text, VERSIONS).map_err(|fault| vec![fault])?;
    let document = file.model();
    let faults = validate::shop_document(&document);
    if faults.is_empty() { Ok(document) } else { Err(text.located(faults)) }
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
