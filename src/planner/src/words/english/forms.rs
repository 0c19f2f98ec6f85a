//! Texts of the forms in which a car, its aimings and a bay are entered.

use super::Language;
use crate::geometry::marks::{Construction, Hand, Wheel};
use crate::model::starter::StartKind;
use crate::model::validate::{self, Fault};
use crate::model::{
    Adjusted, Datum, End, Exclusion, MeasuredAlong, Provenance, ReferenceAxis, TargetHeight, TargetKind,
    Vehicle, VehicleClass, VerticalReference, ZoneFrame,
};

texts! {
    Forms, "Every fixed text of the forms.";
    // A car.
    new_car, "Begins a car.": "Enter a new car …";
    change_car, "Changes the car that is shown.": "Change this car …";
    copy_car, "Begins a car from the one that is shown.": "Enter a car like this one …";
    change_it, "Changes a car.": "Change it";
    copy_it, "Begins a car from it.": "Enter one like it";
    your_car, "Over the form.": "Your car";
    keep_car, "Saves the car.": "Keep this car";
    drop_car, "Leaves without saving.": "Drop it";
    keep_why, "What it does.": "Saves it among your cars and stands it in this bay";
    short_form, "Which form.": "Short form";
    whole_form, "Which form.": "Everything";
    short_about, "Over the short form.":
        "Nine figures from the car's papers and the maker's procedure. What is left open is assumed from the class, and marked.";
    assumed, "Beside a figure that was not entered.": "assumed";
    assumed_why, "What a press on it does.": "Assumed, not entered. Press if it is right as it stands.";
    to_put_right, "Over what is wrong.": "To be put right before it can be kept:";
    waits, "Beside the verdict, while the drawing cannot follow.":
        "The figures of the car do not fit yet. This is the answer for the car as it was before.";
    not_shown_yet, "While the drawing cannot follow.": "The drawing shows the car as it was before this.";
    class, "A choice.": "Body class";
    name_of_car, "A field.": "Name of the car";
    file_name, "A field.": "Short name, for its file";
    file_name_hint, "What it is.": "Letters, digits and dashes; a layout calls the car by this name";
    ask_right, "After something unlikely.": "Is it right?";

    // The car's body.
    body, "A part of the form.": "Body";
    length, "A figure.": "Length";
    width, "A figure.": "Width";
    width_hint, "What it is.": "Of the body, without mirrors";
    height, "A figure.": "Height";
    wheelbase, "A figure.": "Wheelbase";
    overhang_front, "A figure.": "Front overhang";
    overhang_front_hint, "What it is.": "From the front axle to the foremost point";
    overhang_rear, "A figure.": "Rear overhang";
    overhang_rear_hint, "What it is.": "From the rear axle to the rearmost point";
    ground_clearance, "A figure.": "Ground clearance";
    wheels, "A part of the form.": "Wheels";
    track_front, "A figure.": "Front track";
    track_rear, "A figure.": "Rear track";
    track_hint, "What it is.": "Between the middles of the two tyres";
    tyre_diameter, "A figure.": "Tyre diameter";
    tyre_width, "A figure.": "Tyre width";
    mirrors, "A part of the form.": "Door mirrors";
    mirror_width, "A figure.": "Width over mirrors";
    mirror_ahead, "A figure.": "Mirrors ahead of axle";
    mirror_ahead_hint, "What it is.": "Ahead of the front axle; negative behind it";
    mirror_height, "A figure.": "Mirrors above ground";
    ride_heights, "A part of the form.": "Ride heights";
    ride_heights_given, "A tick.": "Given: wheel arch edge above the wheel's middle";
    outlines, "A part of the form.": "Outlines";
    outline_top, "A list of points.": "From above";
    outline_side, "A list of points.": "From the side";
    outline_top_hint, "How it is typed.":
        "One point a line: ahead of the front axle, to the left, in mm. Empty: assumed from the class";
    outline_side_hint, "How it is typed.":
        "One point a line: ahead of the front axle, above the ground, in mm. Empty: assumed from the class";
    body_points, "A part of the form.": "Named points";
    add_body_point, "Adds one.": "Add a point";
    a_point, "What a new point is called.": "badge";

    // Sensors.
    sensors, "A part of the form.": "Sensors";
    add_sensor, "Adds one.": "Add a sensor";
    sensor_kind, "A choice.": "What it is";
    name, "A field.": "Name";
    ahead, "A figure.": "Ahead of front axle";
    ahead_hint, "What it is.": "Along the car; negative behind the front axle";
    aside, "A figure.": "Left of centreline";
    aside_hint, "What it is.": "Negative: on the right";
    above_ground, "A figure.": "Above ground";
    looks_left, "An angle.": "Looks to the left by";
    looks_left_hint, "What it is.": "From straight ahead; negative to the right";
    looks_up, "An angle.": "Looks up by";
    sees_across, "An angle.": "Sees, left to right";
    sees_down, "An angle.": "Sees, top to bottom";
    frequency, "A figure.": "Frequency, GHz";
    bandwidth, "A figure.": "Bandwidth, GHz";
    beam_across, "An angle.": "Beam, left to right";
    beam_down, "An angle.": "Beam, top to bottom";
    pixels_across, "A number.": "Pixels across";
    pixels_down, "A number.": "Pixels down";
    adjusted, "A choice.": "Aim is set by";
    remove, "Takes it away.": "Remove";
    up, "Earlier in the list.": "Earlier";
    down, "Later in the list.": "Later";
    copy, "Another like it.": "Copy";

    // Aimings.
    aimings, "A part of the form.": "Aimings";
    add_aiming, "Adds one.": "Add an aiming";
    title, "A field.": "Title";
    of_sensor, "A choice.": "Of the sensor";
    show_it, "Shows it in the drawing.": "Show it";
    axis, "A choice.": "Straight ahead is";
    azimuth, "A tolerance.": "Tolerance, left and right";
    elevation, "A tolerance.": "Tolerance, up and down";
    floor_level, "A figure.": "Floor level within";
    floor_level_hint, "What it is.": "Largest difference of level over wheels and target; empty if nothing is asked";
    working_room, "A figure.": "Working room";
    working_room_hint, "What it is.": "All round the car, to walk and work";
    have_ready, "Lines of text.": "To have ready";
    conditions, "Lines of text.": "To meet first";
    one_a_line, "How they are typed.": "One a line";
    targets, "A part of the form.": "Targets, in order";
    add_target, "Adds one.": "Add a target";
    target_kind, "A choice.": "Target";
    face_width, "A figure.": "Face width";
    face_height, "A figure.": "Face height";
    face_depth, "A figure.": "Face to back";
    centre_behind, "A figure.": "Centre behind the face";
    stand_off, "A figure.": "Stand-off";
    stand_off_from, "A choice.": "Measured from";
    stand_off_to, "A choice.": "Measured to";
    stand_off_along, "A choice.": "Measured along";
    bearing, "An angle.": "Direction, to the left";
    bearing_hint, "What it is.": "From straight ahead; negative to the right";
    stands_left, "A figure.": "Stands to the left by";
    stands_left_hint, "What it is.": "Of the line from where it is measured; negative to the right";
    target_height_kind, "A choice.": "Height of its middle";
    target_height, "A figure.": "Height";
    vertical, "A choice.": "Upright is";
    turned, "An angle.": "Turned to the left by";
    mark_under, "A choice.": "Stands over mark";
    no_mark, "A choice.": "no mark";
    within_along, "A tolerance.": "Within, along";
    within_across, "A tolerance.": "Within, across";
    within_height, "A tolerance.": "Within, height";
    within_yaw, "A tolerance.": "Within, turned";
    within_pitch, "A tolerance.": "Within, tipped";
    empty_is_nothing, "How it is left open.": "Empty: the procedure says nothing";
    has_stand, "A tick.": "On a stand";
    stand_base, "A figure.": "Feet high";
    stand_mast, "A figure.": "Mast, side";
    stand_behind, "A figure.": "Mast behind the face";
    stand_top, "A figure.": "Mast, top";
    aims_by_place, "A share.": "Aims by its place";
    aims_by_squareness, "A share.": "Aims by its squareness";
    share_hint, "What it is.": "The share of its error that becomes an error of the aim; 0 to 1";
    zones, "A part of the form.": "Keep-clear zones";
    add_zone, "Adds one.": "Add a zone";
    a_zone, "What a new zone is called.": "keep-clear zone";
    zone_frame, "A choice.": "Goes with";
    excludes, "A choice.": "Keep clear of";
    sends_back, "A figure.": "More than, dBsm";
    bottom, "A figure.": "From above floor";
    top, "A figure.": "Up to";
    zone_from_x, "A figure.": "From, along";
    zone_to_x, "A figure.": "To, along";
    zone_from_y, "A figure.": "From, to the left";
    zone_to_y, "A figure.": "To, to the left";
    zone_hint, "What it is.": "In the frame that it goes with: along its direction, and to its left; negative to the right";
    draw_it, "Draws it with the pointer.": "Draw it";
    draw_why, "What it does.": "Then press in the top view and pull to the opposite corner";
    drawing_now, "While it is drawn.": "Press in the top view and pull to the opposite corner. Esc: not now.";
    corners, "A list of points.": "Corners";
    corners_hint, "How it is typed.": "One corner a line: along, to the left, in mm";
    diameter, "A figure.": "Diameter";
    clear_aside, "A figure.": "Kept clear each side";
    clear_aside_hint, "What it is.": "Of metal, left and right of the centreline, from the bumper to behind the target";
    radar_height, "A figure.": "Radar above ground";
    radar_aside, "A figure.": "Radar left of centreline";

    // Mark plan.
    mark_plan, "A part of the form.": "Floor marks, in order";
    add_mark, "Adds one.": "Add a mark";
    pick, "Takes a mark from the drawing.": "Pick";
    pick_why, "What it does.": "Then press on a mark in the top view";
    picking_now, "While one is picked.": "Press on a mark in the top view. Esc: not now.";
    from_mark, "A choice.": "From mark";
    through_mark, "A choice.": "Through mark";
    to_mark, "A choice.": "To mark";
    first_mark, "A choice.": "First mark";
    second_mark, "A choice.": "Second mark";
    of_mark, "A choice.": "Square from mark";
    at_mark, "A choice.": "At mark";
    wheel, "A choice.": "Wheel";
    point, "A choice.": "Body point";
    by, "A figure.": "By";
    until, "A choice.": "How far";
    by_length, "A choice.": "by a length";
    abreast_of, "A choice.": "abreast of the target";
    outboard_by, "A figure.": "Outboard by";
    along, "A figure.": "Along";
    to_left, "A figure.": "To the left";
    at_angle, "An angle.": "At an angle, to the left";
    away, "A figure.": "Away";
    from_first, "A figure.": "From the first";
    from_second, "A figure.": "From the second";
    on_side, "A choice.": "On the side";
    left, "A side.": "left";
    right, "A side.": "right";
    needs_earlier, "Why a mark cannot be added.": "It needs marks that come before it.";
    used_later, "Why a mark cannot move.": "It would come after a mark that needs it.";
    used_by_others, "Why a mark cannot be removed.": "Other marks are found from it; change them first.";

    // Where figures come from.
    source, "A part of the form.": "Where these figures come from";
    source_example, "A choice.": "an example";
    source_maker, "A choice.": "maker's service information";
    source_measured, "A choice.": "measured";
    source_published, "A choice.": "printed elsewhere";
    document, "A field.": "Document";
    dated, "A field.": "Dated";
    dated_hint, "How it is typed.": "Year-month-day, such as 2026-11-02; empty if it has none";
    measured_by, "A field.": "Measured by";
    printed_where, "A field.": "Printed where";
    not_a_day, "Said of what is no day.": "That is no day; type year-month-day, such as 2026-11-02.";
    not_a_number, "Said of what is no number.": "That is no number.";
    no_text, "Said of an empty name.": "It needs a name.";
    not_points, "Said of what is no list of points.": "One point a line, two numbers each, such as 850, -1500.";
}

impl Language {
    /// The texts of the forms.
    pub const fn forms(self) -> &'static Forms {
        match self {
            Self::English => &ENGLISH,
        }
    }
}

impl Forms {
    /// A body class.
    pub const fn class_of(&self, class: VehicleClass) -> &'static str {
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

    /// A kind of sensor.
    pub const fn kind(&self, kind: StartKind) -> &'static str {
        match kind {
            StartKind::ForwardRadar => "forward radar",
            StartKind::CornerRadar => "corner radar",
            StartKind::ForwardCamera => "forward camera",
            StartKind::SurroundCamera => "surround camera",
            StartKind::Lidar => "lidar",
        }
    }

    /// How an aim is set.
    pub const fn set_by(&self, adjusted: Adjusted) -> &'static str {
        match adjusted {
            Adjusted::Screw => "screws",
            Adjusted::Shim => "shims",
            Adjusted::Software => "the car's software",
            Adjusted::NotAtAll => "nothing: only checked",
        }
    }

    /// What straight ahead means.
    pub const fn axis_of(&self, axis: ReferenceAxis) -> &'static str {
        match axis {
            ReferenceAxis::GeometricCentreline => "geometric centreline",
            ReferenceAxis::ThrustLine => "thrust line",
        }
    }

    /// A kind of target.
    pub const fn target(&self, kind: TargetKind) -> &'static str {
        match kind {
            TargetKind::CornerReflector => "corner reflector",
            TargetKind::Plate => "plate",
            TargetKind::Board => "printed board",
            TargetKind::Mat => "mat on the floor",
            TargetKind::ActiveDevice => "active device",
        }
    }

    /// Where a stand-off starts.
    pub fn datum(&self, datum: &Datum) -> String {
        match datum {
            Datum::FrontAxle => "front axle".to_owned(),
            Datum::RearAxle => "rear axle".to_owned(),
            Datum::Wheel(wheel) => format!("{} wheel", self.wheel_of(*wheel)),
            Datum::Sensor => "sensor".to_owned(),
            Datum::FrontBumper => "front bumper".to_owned(),
            Datum::RearBumper => "rear bumper".to_owned(),
            Datum::BodyPoint(id) => id.to_string(),
        }
    }

    /// Where a stand-off ends.
    pub const fn end(&self, end: End) -> &'static str {
        match end {
            End::Face => "target face",
            End::ReflectorCentre => "reflector centre",
        }
    }

    /// How it is measured.
    pub const fn measured(&self, along: MeasuredAlong) -> &'static str {
        match along {
            MeasuredAlong::Floor => "the floor",
            MeasuredAlong::Level => "a level line",
        }
    }

    /// What a target's height counts from.
    pub const fn height_from(&self, height: TargetHeight) -> &'static str {
        match height {
            TargetHeight::Absolute(_) => "above the ground",
            TargetHeight::FromSensor(_) => "above the sensor",
            TargetHeight::OnFloor => "lies on the floor",
        }
    }

    /// What upright is judged by.
    pub const fn upright(&self, vertical: VerticalReference) -> &'static str {
        match vertical {
            VerticalReference::Gravity => "by the plumb line",
            VerticalReference::WheelsPlane => "square to the wheels' plane",
        }
    }

    /// What a zone goes with.
    pub fn frame(&self, frame: &ZoneFrame) -> String {
        match frame {
            ZoneFrame::Vehicle => "the car".to_owned(),
            ZoneFrame::Sensor => "the sensor".to_owned(),
            ZoneFrame::Target(id) => format!("target “{id}”"),
        }
    }

    /// What a zone keeps out, without its level.
    pub const fn excluded(&self, excludes: Exclusion) -> &'static str {
        match excludes {
            Exclusion::Anything => "anything",
            Exclusion::Metal => "metal",
            Exclusion::Reflecting(_) => "strong echoes",
            Exclusion::People => "people",
            Exclusion::Light => "lamps and other light",
        }
    }

    /// A wheel.
    pub const fn wheel_of(&self, wheel: Wheel) -> &'static str {
        super::marks::wheel_name(wheel)
    }

    /// A side.
    pub const fn side(&self, hand: Hand) -> &'static str {
        match hand {
            Hand::Left => self.left,
            Hand::Right => self.right,
        }
    }

    /// A way of finding a mark.
    pub const fn way(&self, construction: &Construction) -> &'static str {
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

    /// Where figures come from.
    pub const fn source_of(&self, source: &Provenance) -> &'static str {
        match source {
            Provenance::Example => self.source_example,
            Provenance::Maker { .. } => self.source_maker,
            Provenance::Measured { .. } => self.source_measured,
            Provenance::Published { .. } => self.source_published,
        }
    }

    /// What a field is called on the form, from its path in a file and the car that it belongs to.
    pub fn field_name(&self, path: &str, car: &Vehicle) -> String {
        let index =
            |list: &str| -> Option<usize> { path.strip_prefix(list)?.split(']').next()?.parse().ok() };
        let rest = path.split_once("].").map_or("", |(_, rest)| rest);
        if let Some(sensor) = index("sensors[").and_then(|i| car.sensors.get(i)) {
            return format!("{}, {}", sensor.id, self.last_name(rest));
        }
        if let Some(aiming) = index("aimings[").and_then(|i| car.aimings.get(i)) {
            return format!("{}, {}", aiming.name, self.last_name(rest));
        }
        if let Some(point) = index("body_points[").and_then(|i| car.body_points.get(i)) {
            return format!("{}, {}", point.id, self.last_name(rest));
        }
        self.last_name(path)
    }

    fn last_name(&self, path: &str) -> String {
        let known = match path {
            "body.length_mm" => self.length,
            "body.width_mm" => self.width,
            "body.height_mm" => self.height,
            "body.wheelbase_mm" => self.wheelbase,
            "body.overhang_front_mm" => self.overhang_front,
            "body.overhang_rear_mm" => self.overhang_rear,
            "body.track_front_mm" => self.track_front,
            "body.track_rear_mm" => self.track_rear,
            "body.outline_top_mm" => self.outline_top,
            "body.outline_side_mm" => self.outline_side,
            "at_mm[0]" => self.ahead,
            "at_mm[1]" => self.aside,
            "at_mm[2]" => self.above_ground,
            "name" => self.name,
            "tolerance.azimuth_deg" => self.azimuth,
            "tolerance.elevation_deg" => self.elevation,
            _ => "",
        };
        if !known.is_empty() {
            return known.to_owned();
        }
        // "placements[0].stand_off.distance_mm" is read as "stand off distance".
        let words = path.split(['.', '[', ']', '_']).filter(|part| {
            !part.is_empty()
                && !matches!(*part, "mm" | "deg" | "ghz" | "body")
                && part.parse::<usize>().is_err()
        });
        words.collect::<Vec<_>>().join(" ")
    }

    /// What is wrong with a field.
    pub fn wrong(&self, fault: &Fault) -> String {
        if fault.found == validate::EMPTY {
            return format!("nothing is entered; allowed is {}.", fault.allowed);
        }
        format!("{} is not possible; allowed is {}.", fault.found, fault.allowed)
    }

    /// What is unlikely in a field.
    pub fn unlikely(&self, fault: &Fault) -> String {
        format!("{}; usual is {}. {}", fault.found, fault.allowed, self.ask_right)
    }

    /// Another car of that name.
    pub fn car_name_taken(&self, name: &str) -> String {
        format!("There is a car “{name}” already; give this one another short name.")
    }

    /// Someone else changed the car's file while it was changed here.
    pub fn car_changed_meanwhile(&self, path: &str) -> String {
        format!(
            "Not kept: someone else changed {path} meanwhile. Give this car another short name, and both stay."
        )
    }

    /// An arrangement needs what a changed car no longer has.
    pub fn needed_elsewhere(&self, arrangement: &str, what: &str) -> String {
        format!(
            "Not kept: the arrangement “{arrangement}” needs “{what}” of this car. Give it that name again, or give the \
             car another short name, and both stay."
        )
    }

    /// Said when a car was kept.
    pub fn car_kept(&self, name: &str, path: &str) -> String {
        format!("{name} is kept: {path}")
    }

    /// How many figures are still assumed, and how many of them are in sight.
    pub fn still_assumed(&self, count: usize, in_sight: usize) -> String {
        match count {
            _ if in_sight < count && in_sight > 0 => {
                format!("{in_sight} of these are assumed, {count} in all.")
            }
            0 => "Everything is entered.".to_owned(),
            1 => "1 figure is assumed.".to_owned(),
            _ => format!("{count} figures are assumed."),
        }
    }
}
