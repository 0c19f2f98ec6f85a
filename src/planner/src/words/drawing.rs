//! What stands on a drawing: titles, labels, what a dimension says. Short, because it stands on paper beside what it
//! names.

use super::Words;
use crate::assessment::{Assessment, Finding, TooLarge};
use crate::model::{
    Exclusion, Figures, FloorFeatureKind, Opening, Placement, ReferenceAxis, SensorPoint, TargetKind,
};

/// Which way the top view lies on the paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lies {
    /// The car's nose to the right.
    TurnedToCar,
    /// As the room lies.
    AsTheRoom,
    /// The sight line to the right.
    AlongSightLine,
}

impl Words<'_> {
    /// The scale on paper at 96 px to the inch.
    pub fn scale(&self, one_to: f64) -> String {
        format!("1 : {}", self.number(one_to, 0))
    }

    /// A bare length on a dimension line.
    pub fn dimension(&self, length: f64) -> String {
        self.bare(length)
    }

    sentences! { about:
        /// A length on the line of a dimension that is kept; whether an end of it has lost what it lay on.
        kept_dimension(length: f64, is_loose: bool) -> String;
        /// The title of the top view.
        top_view() -> &'static str;
        /// What the top view's title adds.
        top_view_lies(lies: Lies) -> &'static str;
        /// The title of the side view.
        side_view() -> &'static str;
        /// What the side view's title adds: along what, and from which side it is seen.
        side_view_along(along_sight_line: bool, from_left: bool) -> &'static str;
        /// Bay, arrangement, car and aiming in one line.
        title_line() -> String;
        /// Beside the car's left side.
        cars_left() -> &'static str;
        /// That the building is not the bay's.
        own_building() -> &'static str;
        /// That figures are not a real car's.
        on_example_figures() -> &'static str;
        /// What a group of invented figures is of.
        example(figures: Figures) -> String;
        /// What a keep-clear zone keeps clear, and how high; heights are left out where only the plan is asked for.
        keep_clear(excludes: Exclusion, from_to: Option<(f64, f64)>) -> String;
        /// The same in a line of the list, which is short: "no metal, up to 1 500 mm".
        keep_clear_note(excludes: Exclusion, from_to: (f64, f64)) -> String;
        /// A length or a width of a zone that is one of several.
        zone_size(size: f64, name: &str) -> String;
        /// A stand-off: the figure and both its ends.
        stand_off(placement: &Placement) -> String;
        /// The same of one that could be taken for another: with the target's name before it.
        stand_off_of(placement: &Placement) -> String;
        /// Both ends of a stand-off.
        stand_off_ends(placement: &Placement) -> String;
        /// The target's kind, as a label.
        target_label(kind: TargetKind) -> &'static str;
        /// A target among several: its kind, unless its name says it.
        target_named(kind: TargetKind, name: &str) -> String;
        /// Where the target belongs when it stands elsewhere.
        belongs_here() -> &'static str;
        /// The height of a point of the sensor and of a target, where it is one.
        one_height(height: f64, kind: TargetKind, point: SensorPoint) -> String;
        /// The height of a point of the sensor.
        sensor_height(height: f64, point: SensorPoint) -> String;
        /// The same where there is little room.
        sensor_height_alone(height: f64, point: SensorPoint) -> String;
        /// The height of the middle of the target's face, and how far above which point of the sensor that is (negative:
        /// below), mm, where it is to be said.
        target_height(height: f64, kind: TargetKind, above: Option<(SensorPoint, f64)>) -> String;
        /// The same of one of several targets that are equally high.
        target_height_of(height: f64, placement: &Placement, above: Option<(SensorPoint, f64)>) -> String;
        /// The height of the runways that carry the car.
        runway_height(height: f64) -> String;
        /// How far something is in where it may not be.
        so_far_in(depth: f64) -> String;
        /// How much more room the set-up needs than there is, beside the stretch that is missing.
        room_too_small(by: TooLarge) -> String;
        /// An opening in a wall.
        opening(opening: &Opening) -> String;
        /// Ground beyond an open door.
        free_beyond(length: f64) -> String;
        /// How high the underside of something hangs that is drawn from above, where its name has no room.
        at_height(bottom: f64) -> String;
        /// A keep-clear zone by its name, and what it keeps clear.
        zone_named(name: &str, excludes: Exclusion) -> String;
        /// A thing overhead.
        overhead(name: &str, bottom: f64) -> String;
        /// An area that local rules want free.
        keep_free(name: &str) -> String;
        /// What a spot of the floor is, where its name does not say it.
        floor_feature(name: &str, kind: FloorFeatureKind) -> String;
        /// The straight line ahead.
        axis(axis: ReferenceAxis) -> &'static str;
        /// One line of the key below a drawing: what a flag's number stands for.
        key_line(finding: &Finding) -> String;
        /// The findings that the key has no room for.
        key_more(count: usize) -> String;
        /// A picture's title: its first view, and of what.
        picture_title(side_first: bool) -> String;
        /// What a picture shows, for who cannot see it, and at which scale if it has one.
        picture_description(assessment: &Assessment, one_to: Option<f64>) -> String;
    }
}
