//! German of the same: see `words/this_car.rs`.

use super::marks::wheel_name;
use super::{About, Language, listed};
use crate::as_measured::{body_at_target, feet, hangs, still_within_mm};
use crate::assessment::{Assessment, Facts, Finding, LinesApart, Off, RideFact, Severity};
use crate::model::sheet::{Inward, SheetLacks, SheetPart, SheetUnit, Side};
use crate::model::{ReferenceAxis, Wheel};
use crate::scene::Scene;
use crate::words::this_car::ThisCarTexts;

/// The fixed texts.
pub const TEXTS: ThisCarTexts = ThisCarTexts {
    language: Language::German,
    sheet: "Protokoll der Achsvermessung",
    sheet_why: "Jeden Wert wie im Protokoll eintippen, ohne Vorzeichen, und sagen, wohin er geht.",
    date: "Tag des Protokolls",
    date_hint: "Etwa 2026-11-02. Leer: nicht bekannt",
    no_day: "Den Tag als 2026-11-02 eintippen.",
    by: "Gemessen von",
    by_hint: "Wer oder welche Werkstatt gemessen hat. Leer: nicht bekannt",
    toe_in: "Spur in",
    angles_in: "Winkel in",
    set_back_in: "Radversatz in",
    rim: "Bei Durchmesser",
    rim_hint: "Durchmesser von Felge oder Platte, für den das Protokoll die Spur angibt: 406,4 mm oder 16 Zoll",
    no_rim: "Einen Durchmesser eintippen, etwa 406,4 mm oder 16 Zoll.",
    toe_hint: "Einzelspur wie im Protokoll, ohne Vorzeichen. Leer: nicht bekannt",
    camber_hint: "Eines Rades, wie im Protokoll, ohne Vorzeichen. Leer: nicht bekannt",
    thrust: "Fahrachswinkel, gedruckt",
    thrust_hint: "Falls das Protokoll einen nennt: verglichen mit dem aus der Spur hinten. Leer: nicht gedruckt",
    not_said: "nicht gesagt",
    say_way: "Zählt erst, wenn gesagt ist, wohin.",
    no_sign: "Ohne Vorzeichen: darunter wählen, wohin.",
    no_minutes: "Grad und Minuten eintippen: 0 15 oder 15'.",
    more_of_sheet: "Rest des Protokolls",
    no_rim_yet: "Zählt erst, wenn der Durchmesser eingetippt ist.",
    wheels_at: "Auf den Boden gebracht von",
    at_tyre: "der Reifenmitte",
    at_hub: "der Nabe, gelotet",
    arches: "Höhenstand",
    arches_hint: "Von der Radmitte hinauf zur Kante des Radlaufs. Leer: nicht gemessen",
    no_nominal: "Das Profil nennt keinen Höhenstand zum Vergleich: Links wird mit rechts verglichen.",
    body: "Karosseriepunkte wie gelotet",
    body_hint: "Wo der Punkt auf den Boden kommt: wie weit vor der Vorderachse und links der Mittellinie; negativ: dahinter, rechts",
    stood: "Fahrzeug bewegt?",
    stood_why: "Zwei Strecken vom Boden zum Fahrzeug messen, wenn die Marken liegen, und am Ende noch einmal.",
    floor_point: "Von, am Boden",
    floor_point_hint: "Eine Marke oder ein Kreuz auf Klebeband neben dem Fahrzeug",
    car_point: "Bis, am Fahrzeug",
    car_point_hint: "Ein Punkt, der sich wiederfindet, etwa die Felgenkante vorn links",
    at_start: "Am Anfang",
    at_end: "Am Ende",
    remove_stood: "Entfernen",
    enter_measured: "Links unter „An diesem Fahrzeug gemessen“ eintippen, was das Bandmaß zeigt.",
    tick_sensor: "Den Sensor messen, links unter „An diesem Fahrzeug gemessen“ ankreuzen, dass er gemessen ist, und seine Höhe eintippen.",
    allowed_off: "Erlaubt ±",
    allowed_off_hint: "Wie der Hersteller sagt, in beide Richtungen. Leer: nicht gesagt",
};

pub fn part(part: SheetPart) -> String {
    match part {
        SheetPart::Toe(wheel) => format!("Spur {}", wheel_name(wheel)),
        SheetPart::Camber(wheel) => format!("Sturz {}", wheel_name(wheel)),
        SheetPart::SetBack => "Radversatz".to_owned(),
        SheetPart::Thrust => TEXTS.thrust.to_owned(),
    }
}

pub fn way_of(part: SheetPart) -> String {
    match part {
        SheetPart::Toe(wheel) => format!("Rad {} hat", wheel_name(wheel)),
        SheetPart::Camber(wheel) => format!("Rad {} steht", wheel_name(wheel)),
        SheetPart::SetBack => "Weiter hinten".to_owned(),
        SheetPart::Thrust => "Fahrachse".to_owned(),
    }
}

pub fn usual_floor(number: usize) -> String {
    format!("Kreuz {number}")
}

pub fn usual_car(number: usize) -> String {
    match number {
        1 => "Felge vorn links".to_owned(),
        2 => "Felge hinten rechts".to_owned(),
        _ => format!("Punkt {number} am Fahrzeug"),
    }
}

pub const fn unit(unit: SheetUnit) -> &'static str {
    match unit {
        SheetUnit::Degrees => "Grad, 0,25°",
        SheetUnit::DegreesMinutes => "Grad und Minuten, 0° 15′",
        SheetUnit::Millimetres => "Millimeter",
        SheetUnit::Inches => "Zoll",
    }
}

pub const fn toe_way(way: Inward) -> &'static str {
    match way {
        Inward::In => "Vorspur",
        Inward::Out => "Nachspur",
    }
}

pub const fn camber_way(way: Inward) -> &'static str {
    match way {
        Inward::In => "oben nach innen",
        Inward::Out => "oben nach außen",
    }
}

pub const fn back_way(side: Side) -> &'static str {
    match side {
        Side::Left => "linkes Rad",
        Side::Right => "rechtes Rad",
    }
}

pub const fn thrust_way(side: Side) -> &'static str {
    match side {
        Side::Left => "zeigt nach links",
        Side::Right => "zeigt nach rechts",
    }
}

pub fn no_figure(text: &str) -> String {
    format!("„{}“ ist kein Wert in dieser Einheit.", crate::words::screen::cut(text))
}

pub fn arch_of(wheel: Wheel) -> String {
    format!("Radlauf {}", wheel_name(wheel))
}

pub fn body_point(name: &str, is_ahead: bool) -> String {
    if is_ahead { format!("{name}, voraus") } else { format!("{name}, links") }
}

pub fn nth(number: usize, field: &str) -> String {
    format!("{number}. {field}")
}

/// In the dative.
const fn axis(axis: ReferenceAxis) -> &'static str {
    match axis {
        ReferenceAxis::GeometricCentreline => "der Mittellinie nach den Rädern",
        ReferenceAxis::ThrustLine => "der geometrischen Fahrachse",
    }
}

const fn side_of(positive_left: f64) -> &'static str {
    if positive_left >= 0.0 { "links" } else { "rechts" }
}

const fn low_or_high(nose_down: f64) -> &'static str {
    if nose_down >= 0.0 { "tief" } else { "hoch" }
}

/// What comes first where the car itself stops the aiming: no move of anything helps.
pub fn first(assessment: &Assessment) -> Option<&'static str> {
    let stops = || assessment.findings.iter().filter(|own| own.severity == Severity::Stops);
    if stops().any(|own| matches!(own.facts, Facts::CarMoved { .. })) {
        Some("Die Marken gelten nicht mehr für dieses Fahrzeug: abstellen, setzen lassen und neu legen.")
    } else if stops().any(|own| matches!(own.facts, Facts::AlignmentOff(_) | Facts::RideHeight(_))) {
        Some("Kein Verschieben hilft: zuerst das Fahrzeug in Ordnung bringen.")
    } else {
        None
    }
}

impl About<'_> {
    /// See [`crate::words::Words::thrust_line`].
    pub fn thrust_line(&self) -> Option<String> {
        let car = &self.arrangement.on_this_car;
        let thrust = car.thrust_rad()?;
        let by = if car.worked_thrust_rad().is_some() {
            "aus der Spur hinten"
        } else {
            "wie im Protokoll gedruckt"
        };
        Some(format!(
            "Geometrische Fahrachse: {} nach {}, {by}.",
            self.degrees(thrust.abs()),
            side_of(thrust)
        ))
    }

    /// See [`crate::words::Words::stands_on`].
    pub fn stands_on(&self) -> Vec<String> {
        let Some(feet) = feet(self.arrangement) else { return Vec::new() };
        let back = feet.front_set_back_rad;
        let wheel = if back >= 0.0 { "linkes" } else { "rechtes" };
        let mut lines = vec![
            format!(
                "Spurweite vorn {}, hinten {}.",
                self.length(feet.front_track_mm),
                self.length(feet.rear_track_mm)
            ),
            format!(
                "Radstand links {}, rechts {}.",
                self.length(feet.left_wheelbase_mm),
                self.length(feet.right_wheelbase_mm)
            ),
            format!(
                "Radversatz {} ({}), {wheel} Vorderrad hinten.",
                self.length((feet.front_track_mm * libm::sin(back)).abs()),
                self.degrees(back.abs())
            ),
        ];
        let turned = feet.centreline_rad;
        lines.push(format!(
            "Mittellinie gegenüber dem Profil um {} nach {} gedreht.",
            self.degrees(turned.abs()),
            side_of(turned)
        ));
        lines
    }

    /// See [`crate::words::Words::hubs_off`].
    pub fn hubs_off(&self) -> Option<String> {
        let told: Vec<String> = Wheel::ALL
            .into_iter()
            .filter(|wheel| self.arrangement.on_this_car.sheet.camber_rad(*wheel).is_some())
            .map(|wheel| {
                let aside = self.arrangement.plumbed_from_middle(wheel).y;
                let outboard = if wheel.is_left() { aside } else { -aside };
                let way = if outboard >= 0.0 { "außen" } else { "innen" };
                format!("{} {} weiter {way}", wheel_name(wheel), self.length(outboard.abs()))
            })
            .collect();
        (!told.is_empty()).then(|| {
            format!(
                "Durch den Sturz liegt eine gelotete Nabe neben der Reifenmitte: {}.{}",
                listed(&told),
                if self.arrangement.aiming.plumbs_hubs() {
                    " Die Markenprüfung rechnet das ein."
                } else {
                    " Dieser Markenplan lotet keine Nabe."
                }
            )
        })
    }

    /// See [`crate::words::Words::body_hangs`].
    pub fn body_hangs(&self) -> Vec<String> {
        let Some(hangs) = hangs(self.arrangement) else { return Vec::new() };
        let (pitch, roll, higher) = (hangs.pitch_rad.value, hangs.roll_rad.value, hangs.higher_mm.value);
        vec![
            format!(
                "Gegenüber dem Profil: {} {}, Bug {} {}.",
                self.length(higher.abs()),
                if higher >= 0.0 { "höher" } else { "tiefer" },
                self.degrees(pitch.abs()),
                if pitch >= 0.0 { "nach unten" } else { "nach oben" }
            ),
            format!("Neigt sich {} nach {}.", self.degrees(roll.abs()), side_of(-roll)),
        ]
    }

    /// See [`crate::words::Words::lines_apart`].
    pub fn lines_apart(&self, scene: &Scene) -> Option<String> {
        let (apart, _) = body_at_target(self.arrangement, scene)?;
        let (turned, aside) = (apart.turned_rad.value, apart.aside_mm.value);
        Some(format!(
            "Die Mittellinie nach der Karosserie läuft {} nach {} gegenüber {} und liegt am Ziel {} ± {} weiter {}.",
            self.degrees(turned.abs()),
            side_of(turned),
            axis(self.arrangement.aiming.axis),
            self.bare(aside.abs()),
            self.length(1.96 * apart.aside_mm.u),
            side_of(aside)
        ))
    }

    /// See [`crate::words::Words::stood_still`].
    pub fn stood_still(&self) -> Option<String> {
        let all = &self.arrangement.on_this_car.stood;
        let open = all.iter().filter(|own| own.end_mm.is_none()).count();
        let off = all.iter().filter_map(|own| Some((own.end_mm? - own.start_mm).abs())).fold(0.0, f64::max);
        match (all.len(), open) {
            (0, _) => None,
            _ if off > still_within_mm(self.arrangement) => {
                Some(format!("Das Fahrzeug hat sich um {} bewegt, seit die Marken liegen.", self.length(off)))
            }
            (_, 1) => Some("Eine Strecke zum Fahrzeug ist am Ende noch einmal zu messen.".to_owned()),
            (_, 2..) => Some(format!("{open} Strecken zum Fahrzeug sind am Ende noch einmal zu messen.")),
            _ => Some("Das Fahrzeug stand still: Die Strecken zu ihm sind wie am Anfang.".to_owned()),
        }
    }

    pub(super) fn this_car_title(&self, finding: &Finding) -> String {
        match &finding.facts {
            Facts::SheetOpen(open) if open.len() == 1 => {
                "ein Wert aus dem Protokoll der Achsvermessung zählt nicht".to_owned()
            }
            Facts::SheetOpen(open) => {
                format!("{} Werte aus dem Protokoll der Achsvermessung zählen nicht", open.len())
            }
            Facts::SheetDiffers { .. } => {
                "Fahrachswinkel und Spur hinten im Protokoll passen nicht zusammen".to_owned()
            }
            Facts::RideHeight(RideFact::NotTaped(_)) => "der Höhenstand ist nicht gemessen".to_owned(),
            Facts::RideHeight(RideFact::Arch(wheel, off)) => format!(
                "der Radlauf {} ist zu {}",
                wheel_name(*wheel),
                if *off < 0.0 { "tief" } else { "hoch" }
            ),
            Facts::RideHeight(RideFact::NoseDown(by)) => {
                format!("der Aufbau hängt vorn zu {}", low_or_high(by.value))
            }
            Facts::RideHeight(RideFact::LeftUp(by)) => {
                format!("der Aufbau neigt sich nach {}", side_of(-by.value))
            }
            Facts::RideHeight(RideFact::SidesApart { is_front, apart, .. }) => format!(
                "der Aufbau hängt {} nach {}",
                if *is_front { "vorn" } else { "hinten" },
                side_of(-apart.value)
            ),
            Facts::RideHeight(RideFact::WithFloor { is_pitch: true, in_all, .. }) => {
                format!("Aufbau und Boden zusammen stehen vorn zu {}", low_or_high(in_all.value))
            }
            Facts::RideHeight(RideFact::WithFloor { in_all, .. }) => {
                format!("Aufbau und Boden zusammen neigen sich nach {}", side_of(-in_all.value))
            }
            Facts::RideHeight(RideFact::SensorMoved(by)) => {
                format!("der Sensor hängt {} als im Profil", if by.value < 0.0 { "tiefer" } else { "höher" })
            }
            Facts::CarUnlikely(own) => super::car_unlikely::title(own),
            Facts::CentrelinesApart(apart) => {
                format!("die Mittellinie der Karosserie weicht von {} ab", axis(apart.axis))
            }
            Facts::CarMoved { .. } => "das Fahrzeug hat sich bewegt, seit die Marken liegen".to_owned(),
            _ => String::new(),
        }
    }

    pub(super) fn this_car_measure(&self, finding: &Finding, value: &str, limit: &str) -> String {
        match &finding.facts {
            Facts::SheetDiffers { .. } => format!("{value} auseinander, Grenze {limit}"),
            Facts::CarMoved { .. } => format!("um {value}, das Bandmaß erklärt {limit}"),
            Facts::RideHeight(RideFact::SidesApart { apart, .. }) => {
                format!("{value} auseinander{}, Grenze {limit}", self.or_so(*apart, true))
            }
            Facts::RideHeight(RideFact::SensorMoved(by)) => {
                format!("{value} daneben{}, Grenze {limit}", self.or_so(*by, true))
            }
            Facts::RideHeight(
                RideFact::NoseDown(by) | RideFact::LeftUp(by) | RideFact::WithFloor { in_all: by, .. },
            ) => format!("{value}{} daneben, Grenze {limit}", self.or_so(*by, false)),
            Facts::RideHeight(RideFact::NotTaped(_) | RideFact::Arch(..)) => {
                format!("{value} daneben, Grenze {limit}")
            }
            Facts::CarUnlikely(own) => super::car_unlikely::measure(own, value, limit),
            _ => format!("{value}, Grenze {limit}"),
        }
    }

    /// What a figure may be off by, behind it; nothing where that is nothing.
    fn or_so(&self, own: Off, is_length: bool) -> String {
        if own.u95 <= 0.0 {
            return String::new();
        }
        let within = if is_length { self.length(own.u95) } else { self.degrees(own.u95) };
        format!(" ± {within}")
    }

    /// What a body that leans does to the sensor that is aimed.
    fn rolls_with_it(&self) -> &'static str {
        if self.arrangement.sensor.kind.is_camera() {
            "ebenso das Bild einer Kamera: Was sie seitlich misst, kommt dann zum Teil von oben und unten."
        } else {
            "ebenso Radar oder Lidar: Was nach oben oder unten gestellt wird, dreht sie dann auch zur Seite."
        }
    }

    fn tilt_of(&self, is_pitch: bool, rad: f64) -> String {
        let by = self.degrees(rad.abs());
        if is_pitch {
            format!("{by} (vorn {})", if rad >= 0.0 { "tiefer" } else { "höher" })
        } else {
            format!("{by} nach {}", side_of(-rad))
        }
    }

    pub(super) fn this_car_detail(&self, finding: &Finding) -> String {
        let told = |rad: f64| format!("{} nach {}", self.degrees(rad.abs()), side_of(rad));
        match &finding.facts {
            Facts::SheetOpen(open) => match open.first() {
                Some((own, SheetLacks::Way)) => format!("{}: beim Wert sagen, wohin er geht.", part(*own)),
                Some((_, SheetLacks::Rim)) => {
                    "Die Spur ist als Länge eingetippt: den Durchmesser eintippen, für den das Protokoll sie angibt."
                        .to_owned()
                }
                None => String::new(),
            },
            Facts::SheetDiffers { printed_rad, worked_rad } => format!(
                "Gedruckt ist {}, die Spur hinten ergibt {}. Einheit und Richtung aller Werte prüfen; die Spur zählt.",
                told(*printed_rad),
                told(*worked_rad)
            ),
            Facts::RideHeight(RideFact::NotTaped(wheel)) => {
                let limit = finding.limit.map_or_else(String::new, |own| self.quantity(own));
                format!(
                    "Der Hersteller erlaubt ± {limit}. Von jeder Radmitte hinauf zum Radlauf messen, auch {}, und unter „An diesem \
                     Fahrzeug gemessen“ eintippen.",
                    wheel_name(*wheel)
                )
            }
            Facts::RideHeight(RideFact::Arch(..)) => {
                "Erst nach Ladung, Reifen und Federn sehen, das Fahrzeug eine Länge rollen, dann neu messen.".to_owned()
            }
            Facts::RideHeight(RideFact::NoseDown(_) | RideFact::LeftUp(_)) => {
                "Die Sensoren neigen sich mit. Erst nach Ladung, Reifen und Federn sehen, dann neu messen.".to_owned()
            }
            Facts::RideHeight(RideFact::SidesApart { leans_rad, .. }) => format!(
                "Das neigt ihn um {}, und {} Erst nach Ladung, Reifen und Federn sehen, das Fahrzeug eine Länge rollen, dann neu messen.",
                self.degrees(leans_rad.abs()),
                self.rolls_with_it()
            ),
            Facts::RideHeight(RideFact::WithFloor { is_pitch, in_all, floor_rad }) => format!(
                "Davon kommen {} vom Boden und {} vom Aufbau nach seinen Radläufen: Jedes für sich liegt in der Grenze, beide zusammen \
                 nicht. Gegen ein lotrechtes Ziel neigen sich die Sensoren mit beidem. Nach Ladung, Reifen und Federn sehen oder das \
                 Fahrzeug ausrichten.",
                self.tilt_of(*is_pitch, *floor_rad),
                self.tilt_of(*is_pitch, in_all.value - floor_rad)
            ),
            Facts::RideHeight(RideFact::SensorMoved(_)) => {
                "So sagen es die Radläufe; die Höhe des Ziels zählt vom Sensor aus. Seine Höhe an diesem Fahrzeug messen und unter „An \
                 diesem Fahrzeug gemessen“ eintippen."
                    .to_owned()
            }
            Facts::CarUnlikely(own) => super::car_unlikely::detail(own).to_owned(),
            Facts::CentrelinesApart(LinesApart { turned_rad, aside_mm, aside_u95_mm, axis: own }) => format!(
                "Nach den geloteten Punkten läuft sie {} und liegt am Ziel {} ± {} weiter {}. Die Einstellung zählt von {} aus; \
                 nachlesen, wonach die Anleitung geht, und nach einem schiefen Emblem oder Aufbau sehen.",
                told(*turned_rad),
                self.bare(aside_mm.abs()),
                self.length(*aside_u95_mm),
                side_of(*aside_mm),
                axis(*own)
            ),
            Facts::CarMoved { from, to, by_mm } => format!(
                "Von „{from}“ bis „{to}“ zeigt das Bandmaß {} {} als am Anfang. Fahrzeug abstellen, setzen lassen und die Marken neu \
                 legen.",
                self.length(by_mm.abs()),
                if *by_mm > 0.0 { "mehr" } else { "weniger" }
            ),
            _ => String::new(),
        }
    }
}
