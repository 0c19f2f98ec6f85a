//! Version 2 of the profile's file, and the step from it: what was assumed of a sensor or an aiming was one text, made of a
//! name and English words. The mark by which a layout remembers a profile is still made of this form, so that it stays.

use baywright_planner::model::fault::{Allowed, Fault, FileFault, Found, Quote};
use serde::{Deserialize, Serialize};

use super::{
    AimingPartFile as A, AssumedFile, BodyFile, BodyPointFile, ClassFile, FirstProfileFile, ProfileFile,
    SensorFile, SensorPartFile as S, SourceFile,
};
use crate::aiming::AimingFile;
use crate::spot;
use crate::text::Text;

/// A whole profile file of version 2.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SecondProfileFile {
    pub version: u32,
    pub name: String,
    pub class: ClassFile,
    pub source: SourceFile,
    pub body: BodyFile,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub body_points: Vec<BodyPointFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub sensors: Vec<SensorFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub aimings: Vec<AimingFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub assumed: Vec<String>,
}

/// What version 2 called what can be assumed of a sensor.
const OF_SENSOR: [(S, &str); 7] = [
    (S::Ahead, "place ahead of the front axle"),
    (S::Aside, "place off the centreline"),
    (S::Height, "height"),
    (S::Boresight, "boresight"),
    (S::View, "field of view"),
    (S::Kind, "what it is made of"),
    (S::Adjusted, "how it is set"),
];

/// What version 2 called what can be assumed of an aiming. None of it stands for a sensor too, so that a text says whether
/// it means a sensor or an aiming of that name.
const OF_AIMING: [(A, &str); 12] = [
    (A::StandOff, "stand-off"),
    (A::Target, "target"),
    (A::TargetHeight, "target height"),
    (A::PlaceTolerance, "how near the target must be"),
    (A::Azimuth, "tolerance left and right"),
    (A::Elevation, "tolerance up and down"),
    (A::ClearAside, "keep-clear width"),
    (A::ClearAlong, "keep-clear length and height"),
    (A::Floor, "floor"),
    (A::WorkingRoom, "working room"),
    (A::MarkPlan, "mark plan"),
    (A::Axis, "reference axis"),
];

/// What stood between the name and what of it.
const BETWEEN: &str = ": ";

/// What a text of version 2 means. A name may hold what stands between, a part does not: the last one counts.
fn meant(text: &str) -> Option<AssumedFile> {
    let (name, part) = text.rsplit_once(BETWEEN)?;
    let name = name.to_owned();
    if let Some((part, _)) = OF_SENSOR.iter().find(|(_, own)| *own == part) {
        return Some(AssumedFile::Sensor { name, part: *part });
    }
    let (part, _) = OF_AIMING.iter().find(|(_, own)| *own == part)?;
    Some(AssumedFile::Aiming { name, part: *part })
}

/// How version 2 said it, or would have. What was one figure then is said once where both are assumed, and not where `all` says
/// so already.
fn said(figure: &AssumedFile, all: &[AssumedFile]) -> Option<String> {
    fn of<P: PartialEq>(table: &[(P, &'static str)], part: &P) -> &'static str {
        table.iter().find(|(own, _)| own == part).map_or("", |(_, text)| text)
    }
    let also = |name: &String, part: A| all.contains(&AssumedFile::Aiming { name: name.clone(), part });
    Some(match figure {
        AssumedFile::Sensor { name, part } => format!("{name}{BETWEEN}{}", of(&OF_SENSOR, part)),
        AssumedFile::Aiming { name, part: A::ClearAlong } if !also(name, A::ClearHeight) => {
            format!("{name}{BETWEEN}ClearAlong")
        }
        AssumedFile::Aiming { name, part: A::ClearHeight } if also(name, A::ClearAlong) => return None,
        AssumedFile::Aiming { name, part: A::ClearHeight } => format!("{name}{BETWEEN}ClearHeight"),
        AssumedFile::Aiming { name, part } => format!("{name}{BETWEEN}{}", of(&OF_AIMING, part)),
        AssumedFile::Zone { aiming, name, part } => format!("{aiming}{BETWEEN}{name}{BETWEEN}{part:?}"),
    })
}

impl From<FirstProfileFile> for SecondProfileFile {
    fn from(first: FirstProfileFile) -> Self {
        let FirstProfileFile { name, class, source, body, body_points, sensors, aimings, .. } = first;
        let (body, assumed) = (body.into(), Vec::new());
        Self { version: 2, name, class, source, body, body_points, sensors, aimings, assumed }
    }
}

impl SecondProfileFile {
    /// The step to version 3. `text` is the file, for saying where.
    ///
    /// # Errors
    /// A text under `assumed` that means nothing.
    pub fn third(self, text: &Text) -> Result<ProfileFile, FileFault> {
        let Self { name, class, source, body, body_points, sensors, aimings, assumed, .. } = self;
        let mut brought_up = Vec::with_capacity(assumed.len());
        for (i, own) in assumed.iter().enumerate() {
            brought_up.push(meant(own).ok_or_else(|| means_nothing(text, i, own))?);
        }
        let assumed = brought_up;
        Ok(ProfileFile { version: 3, name, class, source, body, body_points, sensors, aimings, assumed })
    }
}

fn means_nothing(text: &Text, i: usize, own: &str) -> FileFault {
    let field = format!("assumed[{i}]");
    let place = spot::find(&text.text, &field);
    let found = Found::Word(Quote::of(own));
    FileFault::inside(&text.file, place, Fault { field, found, allowed: Allowed::NameAndPart })
}

/// The way back, for the mark of what a profile says.
impl From<ProfileFile> for SecondProfileFile {
    fn from(third: ProfileFile) -> Self {
        let ProfileFile { version, name, class, source, body, body_points, sensors, aimings, assumed } =
            third;
        let assumed = assumed.iter().filter_map(|own| said(own, &assumed)).collect();
        Self { version, name, class, source, body, body_points, sensors, aimings, assumed }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_text_of_the_second_version_means_one_thing_and_back() {
        let sensors = OF_SENSOR.map(|(part, _)| AssumedFile::Sensor { name: "a: height: b".into(), part });
        let aimings = OF_AIMING.map(|(part, _)| AssumedFile::Aiming { name: "target".into(), part });
        for figure in sensors.into_iter().chain(aimings) {
            // What it called length and height is said where both are assumed.
            let both = [AssumedFile::Aiming { name: "target".into(), part: A::ClearHeight }];
            assert_eq!(said(&figure, &both).and_then(|text| meant(&text)), Some(figure));
        }
        for nothing in ["", "height", "radar: ", "radar: colour", "radar:height"] {
            assert_eq!(meant(nothing), None, "{nothing}");
        }
    }
}
