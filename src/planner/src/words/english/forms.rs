//! English of the same: see `words/forms.rs`.

use super::Language;
use super::faults::{against_car, allowed, found};
use super::rooms::two_lengths;
use crate::entry::starter::StartKind;
use crate::geometry::marks::{Construction, Wheel};
use crate::model::fault::{Fault, Found};
use crate::model::{
    Adjusted, Datum, End, Exclusion, HeightsFrom, MeasuredAlong, ReferenceAxis, SensorPoint, TargetHeight,
    TargetKind, Vehicle, VehicleClass, VerticalReference, ZoneFrame,
};
use crate::words::forms::Forms;
use crate::words::{Lengths, Units};

/// The fixed texts.
pub const TEXTS: Forms = Forms {
    language: Language::English,
    // A car.
    new_car: "Enter a new car …",
    change_car: "Change this car …",
    copy_car: "Enter a car like this one …",
    change_it: "Change it",
    copy_it: "Enter one like it",
    your_car: "Your car",
    keep_car: "Keep this car",
    drop_car: "Drop it",
    keep_why: "Saves it among your cars and stands it in this bay",
    short_form: "Short form",
    go_to: "Go to",
    go_to_hint: "Unfolds a section and brings it into sight",
    seek: "Search",
    seek_hint: "Type part of a name, such as floor: only such rows are shown",
    whole_form: "Everything",
    short_about: "The figures of the maker's sheet, in its order. What is left open is assumed from the class, and marked.",
    assumed: "assumed",
    assumed_why: "Assumed, not entered. Press if it is right as it stands.",
    to_put_right: "To be put right before it can be kept:",
    waits: "The figures of the car do not fit yet. This is the answer for the car as it was before.",
    not_shown_yet: "The drawing shows the car as it was before this.",
    class: "Body class",
    name_of_car: "Name of the car",
    file_name: "Short name, for its file",
    my_car: "my-car",
    new_car_name: "New car",
    file_name_hint: "Letters, digits and dashes; a layout calls the car by this name",
    ask_right: "Is it right?",

    // The car's body.
    body: "Body",
    length: "Length",
    width: "Width",
    width_hint: "Of the body, without mirrors",
    height: "Height",
    wheelbase: "Wheelbase",
    overhang_front: "Front overhang",
    overhang_front_hint: "From the front axle to the foremost point",
    overhang_rear: "Rear overhang",
    overhang_rear_hint: "From the rear axle to the rearmost point",
    ground_clearance: "Ground clearance",
    wheels: "Wheels",
    track_front: "Front track",
    track_rear: "Rear track",
    track_hint: "Between the middles of the two tyres",
    tyre_diameter: "Tyre diameter",
    tyre_width: "Tyre width",
    tyre_width_rear: "Rear tyre width",
    tyre_width_rear_hint: "Empty: as the front tyres",
    mirrors: "Door mirrors",
    mirror_width: "Width over mirrors",
    mirror_ahead: "Mirrors ahead of axle",
    mirror_ahead_hint: "Ahead of the front axle; negative behind it",
    mirror_height: "Mirrors above ground",
    ride_heights: "Ride heights",
    ride_heights_given: "Given: wheel arch edge above the wheel's middle",
    outlines: "Outlines",
    outline_top: "From above",
    outline_side: "From the side",
    outline_top_hint: "One point a line: ahead of the front axle, to the left, in mm. Empty: assumed from the class",
    outline_side_hint: "One point a line: ahead of the front axle, above the ground, in mm. Empty: assumed from the class",
    body_points: "Named points",
    add_body_point: "Add a point",
    a_point: "badge",

    // Sensors.
    sensors: "Sensors",
    add_sensor: "Add a sensor",
    sensor_kind: "What it is",
    name: "Name",
    ahead: "Ahead of front axle",
    ahead_hint: "Along the car; negative behind the front axle",
    aside: "Left of centreline",
    aside_hint: "Negative: on the right",
    above_ground: "Above ground",
    looks_left: "Looks to the left by",
    looks_left_hint: "From straight ahead; negative to the right",
    looks_up: "Looks up by",
    sees_across: "Sees, left to right",
    sees_down: "Sees, top to bottom",
    frequency: "Frequency, GHz",
    bandwidth: "Bandwidth, GHz",
    beam_across: "Beam, left to right",
    beam_down: "Beam, top to bottom",
    pixels_across: "Pixels across",
    pixels_down: "Pixels down",
    adjusted: "Aim is set by",
    remove: "Remove",
    up: "Earlier",
    down: "Later",
    copy: "Copy",

    // Aimings.
    aimings: "Aimings",
    add_aiming: "Add an aiming",
    title: "Title",
    of_sensor: "Of the sensor",
    show_it: "Show it",
    axis: "Straight ahead is",
    azimuth: "Tolerance, left and right",
    elevation: "Tolerance, up and down",
    floor_level: "Floor level within",
    floor_level_hint: "Largest difference of level over wheels and target; empty if nothing is asked",
    floor_pitch: "Nose up or down within",
    floor_pitch_hint: "How far the plane of the wheels may be nose up or nose down; empty if nothing is asked",
    floor_roll: "Side up within",
    floor_roll_hint: "How far one side of the plane of the wheels may be up; empty if nothing is asked",
    working_room: "Working room",
    working_room_hint: "All round the car, to walk and work; left empty, the shop's own",
    thrust_limit: "Thrust angle within",
    set_back_limit: "Set-back within",
    alignment_hint: "Beyond it the car is not aimed; empty if the procedure says nothing",
    stands_with: "Stands",
    stands_as_usual: "as usual: mats together, others in turn",
    stands_with_these: "at the same time as",
    have_ready: "To have ready",
    conditions: "To meet first",
    one_a_line: "One a line",
    targets: "Targets, in order",
    add_target: "Add a target",
    target_kind: "Target",
    face_width: "Face width",
    face_height: "Face height",
    face_depth: "Face to back",
    centre_behind: "Centre behind the face",
    stand_off: "Stand-off",
    stand_off_from: "Measured from",
    stand_off_to: "Measured to",
    stand_off_along: "Measured along",
    bearing: "Direction, to the left",
    bearing_hint: "From straight ahead; negative to the right",
    stands_left: "Stands to the left by",
    stands_left_hint: "Of the line from where it is measured; negative to the right",
    target_height_kind: "Height of its middle, from",
    target_height: "Height",
    vertical: "Upright is",
    heights_from: "Heights from",
    heights_from_hint: "They are one unless the car stands on runways",
    stand_lowest: "Reaches down to",
    stand_highest: "Reaches up to",
    stand_reach_hint: "The middle of the face above the floor; empty if not known",
    turned: "Turned to the left by",
    mark_under: "Stands over mark",
    no_mark: "no mark",
    within_along: "Within, along",
    within_across: "Within, across",
    within_height: "Within, height",
    within_yaw: "Within, turned",
    within_pitch: "Within, tipped",
    empty_is_nothing: "Empty: the procedure says nothing",
    has_stand: "On a stand",
    stand_base: "Feet high",
    stand_mast: "Mast, side",
    stand_behind: "Mast behind the face",
    stand_top: "Mast, top",
    aims_by_place: "Out of place, it turns the aim by",
    aims_by_squareness: "Out of square, it turns the aim by",
    share_hint: "How much of the target's own error becomes an error of the aim: 1 all of it, 0 nothing",
    zones: "Keep-clear zones",
    add_zone: "Add a zone",
    names_no_zone: "The procedure names none",
    names_no_zone_why: "Tick it only after a look at the procedure. Nothing is judged for any zone then; adding one takes the tick away.",
    a_zone: "keep-clear zone",
    zone_frame: "Goes with",
    excludes: "Keep clear of",
    sends_back: "Radar echo above, dBsm",
    sends_back_hint: "Decibels over one square metre: 0 is the echo of 1 m², 10 of 10 m², 20 of 100 m², -10 of 0.1 m²",
    bottom: "From, height",
    top: "Up to",
    middle_x: "Middle, along",
    middle_y: "Middle, to the left",
    zone_from_x: "From, along",
    zone_to_x: "To, along",
    zone_from_y: "From, to the left",
    zone_to_y: "To, to the left",
    zone_hint: "In the frame that it goes with: along its direction, and to its left; negative to the right",
    draw_it: "Draw it",
    sides_meet: "The two sides would meet.",
    no_diameter: "A circle is wider than nothing.",
    draw_why: "Then press in the top view and pull to the opposite corner",
    drawing_now: "Press in the top view and pull to the opposite corner. Esc: not now.",
    drawing_now_short: "Pull from corner to corner.",
    corners: "Corners",
    diameter: "Diameter",
    clear_aside: "Kept clear each side",
    clear_aside_hint: "Of metal, left and right of the centreline, from the bumper to behind the target",
    clear_top: "Kept clear up to",
    clear_reach: "Kept clear ahead",
    clear_reach_hint: "From the foremost point of the bumper to the far end of the area",
    above_sensor_hint: "On the pole, from there up to the middle of the target; below it negative",
    edge_hint: "On the sensor itself, straight up or down: as the sheet says, or measured with a rule",
    spots_outboard: "Spots outboard of the tyre",
    spots_outboard_hint: "From the tyre's outer side to each spot on the floor, square to the car",
    radar_height: "Radar above ground",
    radar_aside: "Radar left of centreline",

    // Mark plan.
    mark_plan: "Floor marks, in order",
    add_mark: "Add a mark",
    pick: "Pick",
    pick_why: "Then press on a mark in the top view",
    picking_now: "Press on a mark in the top view. Esc: not now.",
    picking_now_short: "Press on a mark.",
    from_mark: "From mark",
    through_mark: "Through mark",
    to_mark: "To mark",
    first_mark: "First mark",
    second_mark: "Second mark",
    of_mark: "Square from mark",
    at_mark: "At mark",
    wheel: "Wheel",
    point: "Body point",
    by: "By",
    until: "How far",
    by_length: "by a length",
    abreast_of: "abreast of the target",
    outboard_by: "Outboard by",
    along: "Along",
    to_left: "To the left",
    at_angle: "At an angle, to the left",
    away: "Away",
    from_first: "From the first",
    from_second: "From the second",
    on_side: "On the side",
    left: "left",
    right: "right",
    needs_earlier: "It needs marks that come before it.",
    used_later: "It would come after a mark that needs it.",
    used_by_others: "Other marks, a target or a stand-off go by it; change them first.",

    // Where figures come from.
    source: "Where these figures come from",
    source_example: "an example",
    source_not_given: "not given yet",
    source_maker: "maker's service information",
    source_measured: "measured",
    source_published: "printed elsewhere",
    document: "Document",
    dated: "Dated",
    dated_hint: "Year-month-day, such as 2026-11-02; empty if it has none",
    measured_by: "Measured by",
    printed_where: "Printed where",
    not_a_day: "That is no day; type year-month-day, such as 2026-11-02.",
    not_a_number: "That is no number.",
    no_text: "It needs a name.",
};

pub fn corners_hint(units: Units) -> String {
    format!("One corner a line: along, to the left, {}, or with its own unit", two_lengths(units))
}

pub fn not_points(units: Units) -> String {
    format!("One point a line, two lengths each, {}.", two_lengths(units))
}

pub fn about_car(
    class: VehicleClass,
    sensors: &[&str],
    aimings: &[&str],
    source: &str,
    file: &str,
) -> String {
    let listed = |what: &str, all: &[&str]| match all {
        [] => String::new(),
        all => format!("\n{what}: {}", all.join("; ")),
    };
    let (sensors, aimings) = (listed("Sensors", sensors), listed("Aimings", aimings));
    format!("{}{sensors}{aimings}\n{source} {file}", crate::words::sentence_start(class_of(class)))
}

pub fn a_aiming(sensor: &str) -> String {
    format!("{sensor} aiming")
}

pub fn abreast_of_target(target: &str) -> String {
    format!("{} “{target}”", TEXTS.abreast_of)
}

pub const fn class_of(class: VehicleClass) -> &'static str {
    match class {
        VehicleClass::SmallHatchback => "small hatchback",
        VehicleClass::Saloon => "saloon",
        VehicleClass::Estate => "estate",
        VehicleClass::TallCar => "tall car",
        VehicleClass::Van => "van",
        VehicleClass::Pickup => "pickup",
        VehicleClass::PeopleCarrier => "people carrier",
        VehicleClass::Other => "other",
    }
}

pub const fn kind(kind: StartKind) -> &'static str {
    match kind {
        StartKind::ForwardRadar => "forward radar",
        StartKind::CornerRadar => "corner radar",
        StartKind::ForwardCamera => "forward camera",
        StartKind::SurroundCamera => "surround camera",
        StartKind::Lidar => "lidar",
    }
}

pub const fn set_by(adjusted: Adjusted) -> &'static str {
    match adjusted {
        Adjusted::Screw => "screws",
        Adjusted::Shim => "shims",
        Adjusted::Software => "the car's software",
        Adjusted::NotAtAll => "nothing: only checked",
    }
}

pub const fn axis_of(axis: ReferenceAxis) -> &'static str {
    match axis {
        ReferenceAxis::GeometricCentreline => "geometric centreline",
        ReferenceAxis::ThrustLine => "thrust line",
    }
}

pub const fn target(kind: TargetKind) -> &'static str {
    match kind {
        TargetKind::CornerReflector => "corner reflector",
        TargetKind::Plate => "plate",
        TargetKind::Board => "printed board",
        TargetKind::Mat => "mat on the floor",
        TargetKind::ActiveDevice => "active device",
    }
}

pub fn datum(datum: &Datum) -> String {
    match datum {
        Datum::FrontAxle => "front axle".to_owned(),
        Datum::RearAxle => "rear axle".to_owned(),
        Datum::Wheel(wheel) => format!("{} wheel", wheel_of(*wheel)),
        Datum::Sensor => "sensor".to_owned(),
        Datum::FrontBumper => "front bumper".to_owned(),
        Datum::RearBumper => "rear bumper".to_owned(),
        Datum::BodyPoint(id) => id.to_string(),
        Datum::FrontSpots => "line through front spots".to_owned(),
    }
}

pub fn to_type(field: &str) -> String {
    format!("Still to be typed: {field}.")
}

pub fn waits_for(field: &str) -> String {
    format!("Still to be typed: {field}. This is the answer for the car as it was before.")
}

pub const fn end(end: End) -> &'static str {
    match end {
        End::Face => "target face",
        End::ReflectorCentre => "reflector centre",
    }
}

pub const fn measured(along: MeasuredAlong) -> &'static str {
    match along {
        MeasuredAlong::Floor => "the floor",
        MeasuredAlong::Level => "a level line",
    }
}

pub const fn height_from(height: TargetHeight) -> &'static str {
    match height {
        TargetHeight::Absolute(_) => "ground",
        TargetHeight::FromSensor { point: SensorPoint::Centre, .. } => "sensor's centre",
        TargetHeight::FromSensor { point: SensorPoint::LowerEdge, .. } => "sensor's lower edge",
        TargetHeight::FromSensor { point: SensorPoint::UpperEdge, .. } => "sensor's upper edge",
        TargetHeight::FromSensor { point: SensorPoint::Line, .. } => "line on the sensor",
        TargetHeight::OnFloor => "none: lies on the floor",
    }
}

pub const fn above_point(point: SensorPoint) -> &'static str {
    match point {
        SensorPoint::Centre => "Above the sensor's centre",
        SensorPoint::LowerEdge => "Above sensor's lower edge",
        SensorPoint::UpperEdge => "Above sensor's upper edge",
        SensorPoint::Line => "Above line on sensor",
    }
}

pub const fn point_from_centre(point: SensorPoint) -> &'static str {
    match point {
        SensorPoint::Centre => "Centre",
        SensorPoint::LowerEdge => "Lower edge below the centre",
        SensorPoint::UpperEdge => "Upper edge above the centre",
        SensorPoint::Line => "Line above the centre",
    }
}

pub const fn point_above_ground(point: SensorPoint) -> &'static str {
    match point {
        SensorPoint::Centre => TEXTS.above_ground,
        SensorPoint::LowerEdge => "Lower edge above ground",
        SensorPoint::UpperEdge => "Upper edge above ground",
        SensorPoint::Line => "Line above ground",
    }
}

pub const fn plane(from: HeightsFrom) -> &'static str {
    match from {
        HeightsFrom::Floor => "the floor",
        HeightsFrom::Wheels => "the plane of the wheels",
    }
}

pub const fn upright(vertical: VerticalReference) -> &'static str {
    match vertical {
        VerticalReference::Gravity => "by the plumb line",
        VerticalReference::WheelsPlane => "square to the wheels' plane",
    }
}

pub fn frame(frame: &ZoneFrame) -> String {
    match frame {
        ZoneFrame::Vehicle => "the car".to_owned(),
        ZoneFrame::Sensor => "the sensor".to_owned(),
        ZoneFrame::Target(id) => format!("target “{id}”"),
    }
}

pub const fn excluded(excludes: Exclusion) -> &'static str {
    match excludes {
        Exclusion::Anything => "anything",
        Exclusion::Metal => "metal",
        Exclusion::Reflecting(_) => "strong echoes",
        Exclusion::People => "people",
        Exclusion::Light => "lamps and other light",
    }
}

pub const fn wheel_of(wheel: Wheel) -> &'static str {
    super::marks::wheel_name(wheel)
}

pub const fn way(construction: &Construction) -> &'static str {
    match construction {
        Construction::WheelPoint { .. } => "under the middle of a tyre",
        Construction::Outboard { .. } => "outboard of a tyre",
        Construction::BodyPoint { .. } => "body point plumbed down",
        Construction::Prolong { .. } => "line prolonged",
        Construction::Middle { .. } => "half way between two",
        Construction::Foot { .. } => "square across to a line",
        Construction::AlongAside { .. } => "along and aside",
        Construction::AtAngle { .. } => "at an angle",
        Construction::Crossing { .. } => "crossing of two lines",
        Construction::TwoDistances { .. } => "two distances",
    }
}

pub fn field_name(path: &str, car: &Vehicle) -> String {
    let (owner, rest) = crate::words::forms::owner_of(path, car);
    owner.map_or_else(|| last_name(rest), |owner| format!("{owner}, {}", last_name(rest)))
}

fn last_name(path: &str) -> String {
    let known = match path {
        "body.length_mm" => TEXTS.length,
        "body.width_mm" => TEXTS.width,
        "body.height_mm" => TEXTS.height,
        "body.wheelbase_mm" => TEXTS.wheelbase,
        "body.overhang_front_mm" => TEXTS.overhang_front,
        "body.overhang_rear_mm" => TEXTS.overhang_rear,
        "body.track_front_mm" => TEXTS.track_front,
        "body.track_rear_mm" => TEXTS.track_rear,
        "body.outline_top_mm" => TEXTS.outline_top,
        "body.outline_side_mm" => TEXTS.outline_side,
        "at_mm[0]" => TEXTS.ahead,
        "at_mm[1]" => TEXTS.aside,
        "at_mm[2]" => TEXTS.above_ground,
        "edges.lower_below_mm" => point_from_centre(SensorPoint::LowerEdge),
        "edges.upper_above_mm" => point_from_centre(SensorPoint::UpperEdge),
        "edges.line_above_mm" => point_from_centre(SensorPoint::Line),
        "screws.up_down.pitch_mm" => super::screws::TEXTS.pitch_up_down,
        "screws.up_down.arm_mm" => super::screws::TEXTS.arm_up_down,
        "screws.left_right.pitch_mm" => super::screws::TEXTS.pitch_left_right,
        "screws.left_right.arm_mm" => super::screws::TEXTS.arm_left_right,
        "name" => TEXTS.name,
        "tolerance.azimuth_deg" => TEXTS.azimuth,
        "tolerance.elevation_deg" => TEXTS.elevation,
        stand_off if stand_off.ends_with("stand_off.from") => TEXTS.stand_off_from,
        stand_off if stand_off.ends_with("stand_off.distance_mm") => TEXTS.stand_off,
        "floor.level_mm" => TEXTS.floor_level,
        "working_room_mm" => TEXTS.working_room,
        "body.tyre_diameter_mm" => TEXTS.tyre_diameter,
        "body.tyre_width_mm" => TEXTS.tyre_width,
        "body.ground_clearance_mm" => TEXTS.ground_clearance,
        top if top.starts_with("zones[") && top.ends_with("top_mm") => TEXTS.clear_top,
        _ => "",
    };
    if !known.is_empty() {
        return known.to_owned();
    }
    // "placements[0].stand_off.distance_mm" is read as "stand off distance".
    let words = path.split(['.', '[', ']', '_']).filter(|part| {
        !part.is_empty() && !matches!(*part, "mm" | "deg" | "ghz" | "body") && part.parse::<usize>().is_err()
    });
    words.collect::<Vec<_>>().join(" ")
}

pub fn wrong(fault: &Fault, lengths: Lengths) -> String {
    let allowed = allowed(&fault.allowed, lengths);
    match &fault.found {
        Found::EmptyText => format!("nothing is entered; allowed is {allowed}."),
        _ => format!("{} is not possible; allowed is {allowed}.", found(fault, lengths)),
    }
}

pub fn unlikely(fault: &Fault, lengths: Lengths) -> String {
    let (found, usual) = (found(fault, lengths), allowed(&fault.allowed, lengths));
    format!("{found}; usual is {usual}. {}", TEXTS.ask_right)
}

pub fn car_name_taken(name: &str) -> String {
    format!("There is a car “{name}” already; give this one another short name.")
}

pub fn car_changed_meanwhile(path: &str) -> String {
    format!(
        "Not kept: someone else changed {path} meanwhile. Give this car another short name, and both stay."
    )
}

pub fn not_kept_yet(typed: &str) -> String {
    format!(
        "Not kept yet: “{typed}” was not taken in its field. Put it right there, or press Escape in it to have back what was there."
    )
}

pub fn car_gone_meanwhile(car: &str) -> String {
    format!(
        "The file of the car “{car}” is not there any more: it was removed, moved or renamed. What is here still has its figures; \
         “Change this car …” and then “Keep this car” write it again."
    )
}

pub fn car_changed_since(car: &str) -> String {
    format!(
        "Someone else changed the file of the car “{car}”: what is here is for its figures as they were read. Open the bay again to \
         have the new ones."
    )
}

pub fn goes_not_with(arrangement: &str, fault: &Fault, lengths: Lengths) -> String {
    match &fault.found {
        Found::Word(what) => format!(
            "Not kept: the set-up “{arrangement}” needs “{}” of this car. Give it that name again, or give the \
             car another short name, and both stay.",
            what.text()
        ),
        _ => format!(
            "Not kept: the set-up “{arrangement}” does not go with it, {}. Correct one of the two first, or give \
             the car another short name, and both stay.",
            against_car(fault, lengths)
        ),
    }
}

pub fn car_kept(name: &str, path: &str) -> String {
    format!("{name} is kept: {path}")
}

pub fn still_assumed(count: usize, in_sight: usize) -> String {
    match count {
        _ if in_sight < count && in_sight > 0 => {
            format!("Assumed: {in_sight} here, {} elsewhere.", count - in_sight)
        }
        0 => "Everything is entered.".to_owned(),
        1 => "1 figure is assumed.".to_owned(),
        _ => format!("{count} figures are assumed."),
    }
}

pub fn zones_elsewhere(others: usize, has_own: bool) -> String {
    let place = format!("under {}, {}", TEXTS.whole_form, TEXTS.zones);
    match (others, has_own) {
        (0, true) => format!("This one area is judged. If the sheet names more, add them {place}."),
        (0, false) => {
            format!("No area to keep clear is entered, so none is judged: add what the sheet names {place}.")
        }
        (1, true) => format!("1 more area is entered {place}."),
        (1, false) => format!("1 area to keep clear is entered {place}."),
        (n, true) => format!("{n} more areas are entered {place}."),
        (n, false) => format!("{n} areas to keep clear are entered {place}."),
    }
}
