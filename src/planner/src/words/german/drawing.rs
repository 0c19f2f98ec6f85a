//! Texts of the drawings: titles, labels, what a dimension says. Short, because they stand on paper beside what they
//! name; names are used as typed.

use super::marks::wheel_name;
use super::{About, Lies, sentence_start};
use crate::assessment::{Severity, TooLarge};
use crate::model::{
    Arrangement, Datum, End, Exclusion, Figures, FloorFeatureKind, Opening, OpeningKind, Placement,
    ReferenceAxis, SensorPoint, TargetKind,
};
use crate::words::letter;

impl About<'_> {
    /// The title of the top view.
    pub const fn top_view(&self) -> &'static str {
        "Draufsicht"
    }

    /// What the top view's title adds.
    pub const fn top_view_lies(&self, lies: Lies) -> &'static str {
        match lies {
            Lies::TurnedToCar => "Blatt nach dem Fahrzeug gedreht",
            Lies::AsTheRoom => "Blatt, wie der Raum liegt",
            Lies::AlongSightLine => "Blatt nach der Sichtlinie gedreht",
        }
    }

    /// The title of the side view.
    pub const fn side_view(&self) -> &'static str {
        "Seitenansicht"
    }

    /// What the side view's title adds.
    pub const fn side_view_along(&self, along_sight_line: bool, from_left: bool) -> &'static str {
        match (along_sight_line, from_left) {
            (true, false) => "längs der Sichtlinie, von rechts gesehen",
            (true, true) => "längs der Sichtlinie, von links gesehen",
            (false, false) => "von rechts, längs der Mittellinie des Fahrzeugs",
            (false, true) => "von links, längs der Mittellinie des Fahrzeugs",
        }
    }

    /// Bay, arrangement, car and aiming in one line.
    pub fn title_line(&self) -> String {
        let Arrangement { bay, vehicle, aiming, id, loading, .. } = self.arrangement;
        let planned = if loading.own_building { " · Gebäude wie geplant" } else { "" };
        format!("{}, {id}{planned} · {} · {}", bay.name, vehicle.name, aiming.name)
    }

    /// Beside the car's left side.
    pub const fn cars_left(&self) -> &'static str {
        "links vom Fahrzeug"
    }

    /// That the building is not the bay's.
    pub const fn own_building(&self) -> &'static str {
        "Gebäude wie geplant"
    }

    /// That figures are not a real car's.
    pub const fn on_example_figures(&self) -> &'static str {
        "mit Beispielwerten"
    }

    /// What a group of invented figures is of.
    pub fn example(&self, figures: Figures) -> String {
        let own = self.arrangement;
        match figures {
            Figures::Body => format!("Karosserie des Fahrzeugs: {}", own.vehicle.name),
            Figures::Sensor => format!("Sensor: {}", own.sensor.id),
            Figures::Aiming => format!("Einstellung: {}", own.aiming.name),
            Figures::Bay if own.loading.own_building => "Das Gebäude wie geplant".to_owned(),
            Figures::Bay => format!("Messplatz: {}", own.bay.name),
            Figures::Levels => "Höhen des Bodens".to_owned(),
        }
    }

    /// The scale of a drawing on paper.
    fn scale_on_paper(&self, one_to: f64) -> String {
        format!("Maßstab 1 : {one_to:.0} bei 96 px je Zoll.")
    }

    /// What a keep-clear zone keeps clear, and how high; heights are left out where only the plan is asked for.
    pub fn keep_clear(&self, excludes: Exclusion, from_to: Option<(f64, f64)>) -> String {
        let of = match excludes {
            Exclusion::Anything => "freihalten".to_owned(),
            // How strong is told where there is room for it, and in the list.
            Exclusion::Reflecting(_) if from_to.is_none() => "frei von starken Echos".to_owned(),
            excludes => format!("frei von {}", self.keeps_clear_of(excludes)),
        };
        match from_to {
            None => of,
            Some((bottom, top)) if bottom <= 0.0 => format!("{of}, bis {}", self.length(top)),
            Some((bottom, top)) => format!("{of}, {} bis {}", self.bare(bottom), self.length(top)),
        }
    }

    /// The same in a line of the list, which is short: "kein Metall, bis 1 500 mm".
    pub fn keep_clear_note(&self, excludes: Exclusion, (bottom, top): (f64, f64)) -> String {
        let no = match excludes {
            Exclusion::Anything => "nichts",
            Exclusion::Metal => "kein Metall",
            Exclusion::Reflecting(_) => "kein starkes Echo",
            Exclusion::People => "niemand",
            Exclusion::Light => "kein Licht",
        };
        if bottom <= 0.0 {
            format!("{no}, bis {}", self.length(top))
        } else {
            format!("{no}, {} bis {}", self.bare(bottom), self.length(top))
        }
    }

    /// A length or a width of a zone that is one of several.
    pub fn zone_size(&self, size: f64, name: &str) -> String {
        format!("{name} {}", self.length(size))
    }

    /// A stand-off: the figure and both its ends.
    pub fn stand_off(&self, placement: &Placement) -> String {
        format!("{} {}", self.bare(placement.stand_off.distance_mm), self.stand_off_ends(placement))
    }

    /// The same of one that could be taken for another: with the target's name before it.
    pub fn stand_off_of(&self, placement: &Placement) -> String {
        let name = self.target_named(placement.target.kind, placement.id.as_str());
        format!("{name}: {}", self.stand_off(placement))
    }

    /// Both ends of a stand-off.
    pub fn stand_off_ends(&self, placement: &Placement) -> String {
        let from = match &placement.stand_off.from {
            Datum::FrontAxle => "Vorderachse".to_owned(),
            Datum::RearAxle => "Hinterachse".to_owned(),
            Datum::Wheel(wheel) => format!("Rad {}", wheel_name(*wheel)),
            Datum::Sensor => "Sensor".to_owned(),
            Datum::FrontBumper => "Stoßfänger vorn".to_owned(),
            Datum::RearBumper => "Stoßfänger hinten".to_owned(),
            Datum::BodyPoint(id) => id.to_string(),
            Datum::FrontSpots => "vordere Punkte".to_owned(),
        };
        format!("{from} bis {}", self.target_end(placement))
    }

    /// The end of a stand-off at the target.
    const fn target_end(&self, placement: &Placement) -> &'static str {
        match (placement.target.kind, placement.stand_off.to) {
            (_, End::ReflectorCentre) => "Mitte Reflektor",
            (TargetKind::CornerReflector, End::Face) => "Öffnung Reflektor",
            (TargetKind::Plate, End::Face) => "Fläche Platte",
            (TargetKind::Board, End::Face) => "Fläche Tafel",
            (TargetKind::Mat, End::Face) => "Mitte Matte",
            (TargetKind::ActiveDevice, End::Face) => "Fläche Gerät",
        }
    }

    /// The target's kind, as a label.
    pub const fn target_label(&self, kind: TargetKind) -> &'static str {
        match kind {
            TargetKind::CornerReflector => "Reflektor",
            TargetKind::Plate => "Platte",
            TargetKind::Board => "Tafel",
            TargetKind::Mat => "Matte",
            TargetKind::ActiveDevice => "Gerät",
        }
    }

    /// A target among several: its kind, unless its name says it.
    pub fn target_named(&self, kind: TargetKind, name: &str) -> String {
        let label = self.target_label(kind);
        if name.contains(label) { name.to_owned() } else { format!("{label} {name}") }
    }

    /// Where the target belongs when it stands elsewhere.
    pub const fn belongs_here(&self) -> &'static str {
        "gehört hierher"
    }

    /// The height of a point of the sensor and of a target, where it is one.
    pub fn one_height(&self, height: f64, kind: TargetKind, point: SensorPoint) -> String {
        format!("{} und {}", self.sensor_height(height, point), self.target_label(kind))
    }

    /// The height of a point of the sensor.
    pub fn sensor_height(&self, height: f64, point: SensorPoint) -> String {
        let point = match point {
            SensorPoint::Centre => "Sensor",
            SensorPoint::LowerEdge => "Unterkante Sensor",
            SensorPoint::UpperEdge => "Oberkante Sensor",
            SensorPoint::Line => "Linie am Sensor",
        };
        format!("{} {point}", self.bare(height))
    }

    /// The height of a point of the sensor, in few words.
    pub fn sensor_height_alone(&self, height: f64, point: SensorPoint) -> String {
        let point = match point {
            SensorPoint::Centre => "Sensor",
            SensorPoint::LowerEdge => "Unterkante",
            SensorPoint::UpperEdge => "Oberkante",
            SensorPoint::Line => "Linie",
        };
        format!("{} {point}", self.bare(height))
    }

    /// The height of the middle of the target's face, and by which edge or line of the sensor that is.
    pub fn target_height(&self, height: f64, kind: TargetKind, above: Option<(SensorPoint, f64)>) -> String {
        format!("{} {}{}", self.bare(height), self.target_label(kind), self.by_which_edge(above))
    }

    /// The same of one of several targets that are equally high.
    pub fn target_height_of(
        &self,
        height: f64,
        placement: &Placement,
        above: Option<(SensorPoint, f64)>,
    ) -> String {
        let name = self.target_named(placement.target.kind, placement.id.as_str());
        format!("{} {name}{}", self.bare(height), self.by_which_edge(above))
    }

    /// ", 60 über der Unterkante"; nothing of the sensor's centre, which its own height tells.
    fn by_which_edge(&self, above: Option<(SensorPoint, f64)>) -> String {
        let of = match above {
            None | Some((SensorPoint::Centre, _)) => return String::new(),
            Some((SensorPoint::LowerEdge, _)) => "Unterkante",
            Some((SensorPoint::UpperEdge, _)) => "Oberkante",
            Some((SensorPoint::Line, _)) => "Linie",
        };
        let above = above.map_or(0.0, |(_, above)| above);
        let by = self.bare(above.abs());
        if by == self.bare(0.0) {
            return format!(", auf Höhe der {of}");
        }
        format!(", {by} {} der {of}", if above < 0.0 { "unter" } else { "über" })
    }

    /// The height of the runways that carry the car.
    pub fn runway_height(&self, height: f64) -> String {
        format!("{} Fahrschienen", self.bare(height))
    }

    /// How far something is in where it may not be.
    pub fn so_far_in(&self, depth: f64) -> String {
        format!("{} tief", self.bare(depth))
    }

    /// How much more room the set-up needs than there is.
    pub fn room_too_small(&self, by: TooLarge) -> String {
        match by {
            TooLarge::Long { .. } => format!("{} zu kurz", self.bare(by.missing_mm())),
            TooLarge::Wide { .. } => format!("{} zu schmal", self.bare(by.missing_mm())),
        }
    }

    /// An opening in a wall.
    pub fn opening(&self, opening: &Opening) -> String {
        let state = match (opening.kind, opening.shut) {
            (OpeningKind::Window | OpeningKind::Gap, _) => "",
            (_, true) => ", geschlossen",
            (_, false) => ", offen",
        };
        let exit = if opening.is_exit { ", Ausgang" } else { "" };
        format!("{}{state}{exit}", opening.id)
    }

    /// Ground beyond an open door.
    pub fn free_beyond(&self, length: f64) -> String {
        format!("{} frei", self.length(length))
    }

    /// A thing overhead.
    pub fn overhead(&self, name: &str, bottom: f64) -> String {
        format!("{name}, auf {}", self.length(bottom))
    }

    /// How high the underside of something hangs that is drawn from above, where its name has no room.
    pub fn at_height(&self, bottom: f64) -> String {
        format!("auf {}", self.length(bottom))
    }

    /// A keep-clear zone by its name, and what it keeps clear.
    pub fn zone_named(&self, name: &str, excludes: Exclusion) -> String {
        format!("{name}: {}", self.keep_clear(excludes, None))
    }

    /// An area that local rules want free.
    pub fn keep_free(&self, name: &str) -> String {
        format!("{name}: freihalten")
    }

    /// What a spot of the floor is, where its name does not say it.
    pub fn floor_feature(&self, name: &str, kind: FloorFeatureKind) -> String {
        let what = match kind {
            FloorFeatureKind::Drain => "Rinne",
            FloorFeatureKind::Pit => "Grube",
            FloorFeatureKind::Joint => "Fuge",
        };
        if name.contains(what) { name.to_owned() } else { format!("{name} ({what})") }
    }

    /// The straight line ahead.
    pub const fn axis(&self, axis: ReferenceAxis) -> &'static str {
        match axis {
            ReferenceAxis::GeometricCentreline => "Mittellinie",
            ReferenceAxis::ThrustLine => "geometrische Fahrachse",
        }
    }

    /// One line of the key below a drawing: what a flag's number stands for.
    pub fn key_line(&self, finding: &crate::assessment::Finding) -> String {
        match self.measure(finding) {
            Some(measure) => format!("{}: {measure}", self.title(finding)),
            None => self.title(finding),
        }
    }

    /// The findings that the key has no room for.
    pub fn key_more(&self, count: usize) -> String {
        if count == 1 { "und 1 weiterer Punkt".to_owned() } else { format!("und {count} weitere Punkte") }
    }

    /// A picture's title: its first view, and of what.
    pub fn picture_title(&self, side_first: bool) -> String {
        let view = if side_first { self.side_view() } else { self.top_view() };
        format!("{view}: {}", self.title_line())
    }

    /// What a picture shows, for who cannot see it, and at which scale if it has one.
    pub fn picture_description(&self, assessment: &crate::Assessment, one_to: Option<f64>) -> String {
        let mut text = format!("{}. {}", self.verdict(assessment.verdict), self.summary(assessment));
        let told = assessment.findings.iter().filter(|f| f.severity != Severity::Note);
        for (i, finding) in told.enumerate() {
            text += &format!(" {}: {}.", letter(i + 1), self.key_line(finding));
        }
        if let Some(one_to) = one_to {
            text += &format!(" {}", self.scale_on_paper(one_to));
        }
        sentence_start(&text)
    }
}
