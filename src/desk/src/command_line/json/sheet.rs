//! All that a mark sheet tells, as data.

use std::path::Path;

use baywright_drawing::{Datum, flagged};
use baywright_planner::entry::readings_rest_on;
use baywright_planner::geometry::{DVec2, DVec3, PlanPose, angle};
use baywright_planner::ground::height_to_set;
use baywright_planner::hand::kept_ends;
use baywright_planner::model::{Arrangement, Id, Shop};
use baywright_planner::words::{Locale, Words, letter};
use baywright_planner::{Assessment, assess_fully};

use super::shape::Promised;
use super::sheet_shape::{
    Distance, FrameAt, Frames, Kept, LaidMark, Lettered, LevelAt, Levels, Place, Point, SetOverFloor,
    SetTarget, SetUp, Sheets, SheetsFormat,
};
use super::{VERSION, found, millionths, shop, step, target};

/// The document of these set-ups of a file.
///
/// # Errors
/// What the writer says.
pub(crate) fn told_sheets(
    file: String,
    bay: &str,
    by: (&Shop, Option<&Path>),
    arrangements: &[&Arrangement],
    locale: Locale,
) -> serde_json::Result<Vec<u8>> {
    let document = Sheets {
        format: SheetsFormat::Marks,
        version: VERSION,
        file,
        bay: bay.to_owned(),
        shop: shop(by),
        set_ups: arrangements.iter().map(|own| set_up(own, &assess_fully(own), locale)).collect(),
    };
    let mut written = serde_json::to_vec_pretty(&document)?;
    written.push(b'\n');
    Ok(written)
}

fn set_up(arrangement: &Arrangement, assessment: &Assessment, locale: Locale) -> SetUp {
    let words = Words::new(arrangement, locale);
    let scene = &assessment.scene;
    let lies = Lies { assessment, datum: Datum::of(&arrangement.bay) };
    let number = |id: &Id| scene.marks.iter().position(|own| own.id == *id).map(|at| at + 1);
    let rests = readings_rest_on(arrangement, &scene.readings);
    let survey = arrangement.bay.survey.as_ref();
    let letters: Vec<(usize, usize)> = flagged(assessment).map(|own| (own.index, own.number)).collect();
    SetUp {
        set_up: arrangement.id.to_string(),
        vehicle: arrangement.vehicle.id.to_string(),
        aiming: arrangement.aiming.id.to_string(),
        verdict: assessment.verdict.into(),
        on_example_figures: assessment.on_example_figures,
        frames: lies.frames(arrangement),
        marks: (scene.marks.iter().enumerate())
            .map(|(at, own)| LaidMark {
                number: at + 1,
                name: own.id.to_string(),
                at: own.at.ok().map(|p| lies.place(p, own.lies_mm)),
                lies_mm: millionths(own.lies_mm),
                instruction: words.instruction(at, scene),
            })
            .collect(),
        distances: (scene.readings.iter().zip(&rests))
            .map(|(own, rests)| Distance {
                marks: [number(&own.from), number(&own.to)],
                names: [own.from.to_string(), own.to.to_string()],
                distance_mm: millionths(own.distance_mm),
                rests_on_assumed: rests.iter().map(|own| words.assumed_figure(own)).collect(),
            })
            .collect(),
        targets: (scene.targets.iter().zip(&arrangement.aiming.placements))
            .map(|(own, placement)| SetTarget {
                told: target::told(own, placement),
                meant_at: lies.place(own.meant.place.origin(), 0.0),
                meant_height_mm: millionths(own.meant.height_mm),
                set_over_floor: height_to_set(arrangement, scene, &own.id).map(|set| SetOverFloor {
                    height_mm: millionths(set.height.value),
                    within_mm: millionths(set.height.u95),
                    more_than_level_mm: millionths(set.more_mm),
                    by_profile: set.by_profile,
                }),
                lies_on_floor: own.lies,
                from_sensor_mm: millionths(own.centre().distance(scene.bay_from_sensor * DVec3::ZERO)),
            })
            .collect(),
        permanent_points: (arrangement.bay.marks.iter())
            .map(|own| Point {
                name: own.id.to_string(),
                at: lies.place(own.at, 0.0),
                laid_within_mm: own.laid_within_mm.map(millionths),
                line_to: own.line_to.as_ref().map(ToString::to_string),
            })
            .collect(),
        dimensions: (arrangement.bay.dimensions.iter())
            .map(|own| {
                let [from, to] = kept_ends(arrangement, scene, own).map(|end| end.at);
                let [from_bay_mm, to_bay_mm] = [from, to].map(flat);
                let (name, distance_mm) = (own.id.to_string(), millionths(from.distance(to)));
                Kept { name, from_bay_mm, to_bay_mm, distance_mm }
            })
            .collect(),
        levels: survey.map(|own| Levels {
            taken: own.taken.map(|day| day.to_string()),
            points: (own.points.iter())
                .map(|own| LevelAt { bay_mm: flat(own.at), level_mm: millionths(own.level_mm) })
                .collect(),
        }),
        findings: (assessment.findings.iter().enumerate())
            .map(|(at, own)| Lettered {
                letter: letters.iter().find(|(index, _)| *index == at).map(|(_, number)| letter(*number)),
                found: found(own, &words),
            })
            .collect(),
        moves: assessment
            .promise
            .as_ref()
            .map(|own| Promised { steps: own.steps.iter().map(step).collect(), verdict: own.verdict.into() }),
        assumed: arrangement.vehicle.assumed.iter().map(|own| words.assumed_figure(own)).collect(),
    }
}

/// Where places lie in each frame.
struct Lies<'a> {
    assessment: &'a Assessment,
    datum: Datum,
}

impl Lies<'_> {
    fn frames(&self, arrangement: &Arrangement) -> Frames {
        let scene = &self.assessment.scene;
        let frame = |pose: &PlanPose| FrameAt {
            at_mm: flat(pose.origin()),
            heading_deg: millionths(angle::degrees(pose.heading())),
        };
        let wall =
            |at: usize| arrangement.bay.walls.get(at).map_or_else(String::new, |own| own.id.to_string());
        Frames {
            vehicle: frame(&scene.bay_from_vehicle),
            axis: frame(&scene.bay_from_axis),
            sensor_at_mm: deep(scene.bay_from_sensor * DVec3::ZERO),
            walls: self.datum.walls.map(wall),
        }
    }

    fn place(&self, p: DVec2, height_mm: f64) -> Place {
        let scene = &self.assessment.scene;
        Place {
            bay_mm: flat(p),
            vehicle_mm: flat(scene.bay_from_vehicle.inverse() * p),
            axis_mm: flat(scene.bay_from_axis.inverse() * p),
            sensor_mm: deep(scene.bay_from_sensor.inverse() * p.extend(height_mm)),
            off_walls_mm: self.datum.off_walls(p).map(millionths),
        }
    }
}

fn flat(p: DVec2) -> [f64; 2] {
    p.to_array().map(millionths)
}

fn deep(p: DVec3) -> [f64; 3] {
    p.to_array().map(millionths)
}
