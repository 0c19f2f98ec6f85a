//! Texts of the forms in which a car, its aimings and a bay are entered.

use super::{Lengths, Units};
use crate::entry::starter::StartKind;
use crate::geometry::marks::{Construction, Wheel, WhichSide};
use crate::model::fault::Fault;
use crate::model::{
    Adjusted, Datum, End, Exclusion, HeightsFrom, MeasuredAlong, Provenance, ReferenceAxis, SensorPoint,
    TargetHeight, TargetKind, Vehicle, VehicleClass, VerticalReference, ZoneFrame,
};

texts! {
    forms: Forms, "Every fixed text of the forms.";
    // A car.
    new_car, "Begins a car.";
    change_car, "Changes the car that is shown.";
    copy_car, "Begins a car from the one that is shown.";
    change_it, "Changes a car.";
    copy_it, "Begins a car from it.";
    your_car, "Over the form.";
    keep_car, "Saves the car.";
    drop_car, "Leaves without saving.";
    keep_why, "What it does.";
    short_form, "Which form.";
    go_to, "A menu of the long form's sections.";
    go_to_hint, "What it does.";
    seek, "A field over the long form.";
    seek_hint, "What it does.";
    whole_form, "Which form.";
    short_about, "Over the short form.";
    assumed, "Beside a figure that was not entered.";
    assumed_why, "What a press on it does.";
    to_put_right, "Over what is wrong.";
    waits, "Beside the verdict, while the drawing cannot follow.";
    not_shown_yet, "While the drawing cannot follow.";
    class, "A choice.";
    name_of_car, "A field.";
    file_name, "A field.";
    my_car, "The file of a new car.";
    new_car_name, "What a new car is called until it gets its name.";
    file_name_hint, "What it is.";
    ask_right, "After something unlikely.";

    // The car's body.
    body, "A part of the form.";
    length, "A figure.";
    width, "A figure.";
    width_hint, "What it is.";
    height, "A figure.";
    wheelbase, "A figure.";
    overhang_front, "A figure.";
    overhang_front_hint, "What it is.";
    overhang_rear, "A figure.";
    overhang_rear_hint, "What it is.";
    ground_clearance, "A figure.";
    wheels, "A part of the form.";
    track_front, "A figure.";
    track_rear, "A figure.";
    track_hint, "What it is.";
    tyre_diameter, "A figure.";
    tyre_width, "A figure.";
    tyre_width_rear, "A figure.";
    tyre_width_rear_hint, "What it is.";
    mirrors, "A part of the form.";
    mirror_width, "A figure.";
    mirror_ahead, "A figure.";
    mirror_ahead_hint, "What it is.";
    mirror_height, "A figure.";
    ride_heights, "A part of the form.";
    ride_heights_given, "A tick.";
    outlines, "A part of the form.";
    outline_top, "A list of points.";
    outline_side, "A list of points.";
    outline_top_hint, "How it is typed.";
    outline_side_hint, "How it is typed.";
    body_points, "A part of the form.";
    add_body_point, "Adds one.";
    a_point, "What a new point is called.";

    // Sensors.
    sensors, "A part of the form.";
    add_sensor, "Adds one.";
    sensor_kind, "A choice.";
    name, "A field.";
    ahead, "A figure.";
    ahead_hint, "What it is.";
    aside, "A figure.";
    aside_hint, "What it is.";
    above_ground, "A figure.";
    looks_left, "An angle.";
    looks_left_hint, "What it is.";
    looks_up, "An angle.";
    sees_across, "An angle.";
    sees_down, "An angle.";
    frequency, "A figure.";
    bandwidth, "A figure.";
    beam_across, "An angle.";
    beam_down, "An angle.";
    pixels_across, "A number.";
    pixels_down, "A number.";
    adjusted, "A choice.";
    remove, "Takes it away.";
    up, "Earlier in the list.";
    down, "Later in the list.";
    copy, "Another like it.";

    // Aimings.
    aimings, "A part of the form.";
    add_aiming, "Adds one.";
    title, "A field.";
    of_sensor, "A choice.";
    show_it, "Shows it in the drawing.";
    axis, "A choice.";
    azimuth, "A tolerance.";
    elevation, "A tolerance.";
    floor_level, "A figure.";
    floor_level_hint, "What it is.";
    floor_pitch, "A figure.";
    floor_pitch_hint, "What it is.";
    floor_roll, "A figure.";
    floor_roll_hint, "What it is.";
    working_room, "A figure.";
    thrust_limit, "A figure.";
    set_back_limit, "A figure.";
    alignment_hint, "What it is.";
    stands_with, "A choice.";
    stands_as_usual, "A choice.";
    stands_with_these, "A choice.";
    working_room_hint, "What it is.";
    have_ready, "Lines of text.";
    conditions, "Lines of text.";
    one_a_line, "How they are typed.";
    targets, "A part of the form.";
    add_target, "Adds one.";
    target_kind, "A choice.";
    face_width, "A figure.";
    face_height, "A figure.";
    face_depth, "A figure.";
    centre_behind, "A figure.";
    stand_off, "A figure.";
    stand_off_from, "A choice.";
    stand_off_to, "A choice.";
    stand_off_along, "A choice.";
    bearing, "An angle.";
    bearing_hint, "What it is.";
    stands_left, "A figure.";
    stands_left_hint, "What it is.";
    target_height_kind, "A choice.";
    target_height, "A figure.";
    vertical, "A choice.";
    heights_from, "A choice.";
    heights_from_hint, "What it is.";
    stand_lowest, "A figure.";
    stand_highest, "A figure.";
    stand_reach_hint, "What it is.";
    turned, "An angle.";
    mark_under, "A choice.";
    no_mark, "A choice.";
    within_along, "A tolerance.";
    within_across, "A tolerance.";
    within_height, "A tolerance.";
    within_yaw, "A tolerance.";
    within_pitch, "A tolerance.";
    empty_is_nothing, "How it is left open.";
    has_stand, "A tick.";
    stand_base, "A figure.";
    stand_mast, "A figure.";
    stand_behind, "A figure.";
    stand_top, "A figure.";
    aims_by_place, "A share.";
    aims_by_squareness, "A share.";
    share_hint, "What it is.";
    zones, "A part of the form.";
    add_zone, "Adds one.";
    names_no_zone, "A tick, where no zone is entered: the procedure was looked at and has none.";
    names_no_zone_why, "What follows from that tick.";
    a_zone, "What a new zone is called.";
    zone_frame, "A choice.";
    excludes, "A choice.";
    sends_back, "A figure.";
    sends_back_hint, "What it means.";
    bottom, "A figure.";
    top, "A figure.";
    middle_x, "A figure.";
    middle_y, "A figure.";
    zone_from_x, "A figure.";
    zone_to_x, "A figure.";
    zone_from_y, "A figure.";
    zone_to_y, "A figure.";
    zone_hint, "What it is.";
    draw_it, "Draws it with the pointer.";
    sides_meet, "Why a side is not taken.";
    no_diameter, "Why a diameter is not taken.";
    draw_why, "What it does.";
    drawing_now, "While it is drawn.";
    drawing_now_short, "The same where there is little room.";
    corners, "A list of points.";
    diameter, "A figure.";
    clear_aside, "A figure.";
    clear_aside_hint, "What it is.";
    clear_top, "A figure.";
    clear_reach, "A figure.";
    clear_reach_hint, "What it is.";
    above_sensor_hint, "What it is.";
    edge_hint, "What it is.";
    spots_outboard, "A figure.";
    spots_outboard_hint, "What it is.";
    radar_height, "A figure.";
    radar_aside, "A figure.";

    // Mark plan.
    mark_plan, "A part of the form.";
    add_mark, "Adds one.";
    pick, "Takes a mark from the drawing.";
    pick_why, "What it does.";
    picking_now, "While one is picked.";
    picking_now_short, "The same where there is little room.";
    from_mark, "A choice.";
    through_mark, "A choice.";
    to_mark, "A choice.";
    first_mark, "A choice.";
    second_mark, "A choice.";
    of_mark, "A choice.";
    at_mark, "A choice.";
    wheel, "A choice.";
    point, "A choice.";
    by, "A figure.";
    until, "A choice.";
    by_length, "A choice.";
    abreast_of, "A choice.";
    outboard_by, "A figure.";
    along, "A figure.";
    to_left, "A figure.";
    at_angle, "An angle.";
    away, "A figure.";
    from_first, "A figure.";
    from_second, "A figure.";
    on_side, "A choice.";
    left, "A side.";
    right, "A side.";
    needs_earlier, "Why a mark cannot be added.";
    used_later, "Why a mark cannot move.";
    used_by_others, "Why a mark cannot be removed.";

    // Where figures come from.
    source, "A part of the form.";
    source_example, "A choice.";
    source_not_given, "Where figures come from.";
    source_maker, "A choice.";
    source_measured, "A choice.";
    source_published, "A choice.";
    document, "A field.";
    dated, "A field.";
    dated_hint, "How it is typed.";
    measured_by, "A field.";
    printed_where, "A field.";
    not_a_day, "Said of what is no day.";
    not_a_number, "Said of what is no number.";
    no_text, "Said of an empty name.";
}

impl Forms {
    /// A side.
    pub const fn side(&self, hand: WhichSide) -> &'static str {
        match hand {
            WhichSide::Left => self.left,
            WhichSide::Right => self.right,
        }
    }

    /// Where figures come from.
    pub const fn source_of(&self, source: &Provenance) -> &'static str {
        match source {
            Provenance::Example => self.source_example,
            Provenance::NotGiven => self.source_not_given,
            Provenance::Maker { .. } => self.source_maker,
            Provenance::Measured { .. } => self.source_measured,
            Provenance::Published { .. } => self.source_published,
        }
    }

    sentences! { forms:
        /// How a list of corners is typed, and in which unit a bare number is.
        corners_hint(units: Units) -> String;
        /// Said of what is no list of points.
        not_points(units: Units) -> String;
        /// A car in the list of all: its class, what it has, where its figures come from and in which file.
        about_car(class: VehicleClass, sensors: &[&str], aimings: &[&str], source: &str, file: &str) -> String;
        /// What a sensor's new aiming is called.
        a_aiming(sensor: &str) -> String;
        /// Until abreast of a target.
        abreast_of_target(target: &str) -> String;
        /// A body class.
        class_of(class: VehicleClass) -> &'static str;
        /// A kind of sensor.
        kind(kind: StartKind) -> &'static str;
        /// How an aim is set.
        set_by(adjusted: Adjusted) -> &'static str;
        /// What straight ahead means.
        axis_of(axis: ReferenceAxis) -> &'static str;
        /// A kind of target.
        target(kind: TargetKind) -> &'static str;
        /// Where a stand-off starts.
        datum(datum: &Datum) -> String;
        /// What is to be typed still: nothing is wrong so far.
        to_type(field: &str) -> String;
        /// The same beside the verdict, while the drawing cannot follow.
        waits_for(field: &str) -> String;
        /// Where a stand-off ends.
        end(end: End) -> &'static str;
        /// How it is measured.
        measured(along: MeasuredAlong) -> &'static str;
        /// What a target's height counts from.
        height_from(height: TargetHeight) -> &'static str;
        /// How far the middle of a target is above a point of the sensor.
        above_point(point: SensorPoint) -> &'static str;
        /// How far a point of the sensor is from its centre.
        point_from_centre(point: SensorPoint) -> &'static str;
        /// How far a point of the sensor is above the ground.
        point_above_ground(point: SensorPoint) -> &'static str;
        /// From which plane heights are given.
        plane(from: HeightsFrom) -> &'static str;
        /// What upright is judged by.
        upright(vertical: VerticalReference) -> &'static str;
        /// What a zone goes with.
        frame(frame: &ZoneFrame) -> String;
        /// What a zone keeps out, without its level.
        excluded(excludes: Exclusion) -> &'static str;
        /// A wheel.
        wheel_of(wheel: Wheel) -> &'static str;
        /// A way of finding a mark.
        way(construction: &Construction) -> &'static str;
        /// What a field is called on the form, from its path in a file and the car that it belongs to.
        field_name(path: &str, car: &Vehicle) -> String;
        /// What is wrong with a field.
        wrong(fault: &Fault, lengths: Lengths) -> String;
        /// What is unlikely in a field.
        unlikely(fault: &Fault, lengths: Lengths) -> String;
        /// Another car of that name.
        car_name_taken(name: &str) -> String;
        /// Someone else changed the car's file while it was changed here.
        car_changed_meanwhile(path: &str) -> String;
        /// A car is not kept yet: what was typed in one of its fields was not taken.
        not_kept_yet(typed: &str) -> String;
        /// The file of a car is not there any more, seen when one comes back to the window.
        car_gone_meanwhile(car: &str) -> String;
        /// Someone else changed the file of a car, seen when one comes back to the window.
        car_changed_since(car: &str) -> String;
        /// An arrangement does not go with a changed car.
        goes_not_with(arrangement: &str, fault: &Fault, lengths: Lengths) -> String;
        /// Said when a car was kept.
        car_kept(name: &str, path: &str) -> String;
        /// How many figures are still assumed, and how many of them are in sight.
        still_assumed(count: usize, in_sight: usize) -> String;
        /// Under the short form's zone, or where it has none: how many others there are, and where they are entered.
        zones_elsewhere(others: usize, has_own: bool) -> String;
    }
}

/// The sensor, aiming or body point that a path of a profile leads into, by its name, and the rest of the path.
pub(super) fn owner_of<'a>(path: &'a str, car: &'a Vehicle) -> (Option<&'a str>, &'a str) {
    let index = |list: &str| -> Option<usize> { path.strip_prefix(list)?.split(']').next()?.parse().ok() };
    let sensor = || index("sensors[").and_then(|i| car.sensors.get(i)).map(|own| own.id.as_str());
    let aiming = || index("aimings[").and_then(|i| car.aimings.get(i)).map(|own| own.name.as_str());
    let point = || index("body_points[").and_then(|i| car.body_points.get(i)).map(|own| own.id.as_str());
    match sensor().or_else(aiming).or_else(point) {
        Some(owner) => (Some(owner), path.split_once("].").map_or("", |(_, rest)| rest)),
        None => (None, path),
    }
}
