//! How one bay differs from another, beside the two.

use super::{About, listed, rooms, screen};
use crate::assessment::{Quantity, Subject};
use crate::difference::{Change, Difference, Figure, Kind, OfThisCar, SAME_MM, SAME_RAD};
use crate::model::{Id, Metal, Shape};

impl About<'_> {
    /// One difference, as a line of a list: "„Wand zur Straße“: 600 mm weiter außen".
    pub fn difference(&self, difference: &Difference) -> String {
        let of = match &difference.of {
            Subject::Floor => "Raum".to_owned(),
            other => self.alone(other),
        };
        format!("{of}: {}", self.change(&difference.what, &difference.of))
    }

    /// Over what of the arrangement's own building is not as the bay has it.
    pub const fn own_building_differs(&self, count: usize) -> &'static str {
        if count == 0 {
            "Das Gebäude gehört zu dieser Aufstellung; bisher ist es wie das des Messplatzes."
        } else {
            "Das Gebäude gehört zu dieser Aufstellung, wie geplant. Anders als das des Messplatzes:"
        }
    }

    fn change(&self, change: &Change, of: &Subject) -> String {
        match change {
            Change::New => "neu".to_owned(),
            Change::Gone => "nicht mehr da".to_owned(),
            Change::Name(old) => format!("hieß „{old}“"),
            Change::FurtherOut(by) => {
                let [far, _] = self.against(Quantity::Length(by.abs()), Quantity::Length(0.0));
                format!("{far} weiter {}", if *by > 0.0 { "außen" } else { "innen" })
            }
            Change::Ends([first, second]) => format!(
                "verläuft anders, die Enden {} und {} von der früheren Lage",
                self.length(*first),
                self.length(*second)
            ),
            Change::Length(figure, [was, now]) => self.figure(*figure, *was, *now),
            Change::Heights([was, now]) => {
                let [from, other_from] = self.apart(now[0], was[0]);
                let [to, other_to] = self.apart(now[1], was[1]);
                format!("von {from} bis {to} über dem Boden statt von {other_from} bis {other_to}")
            }
            Change::Moved(by, turned) => {
                let moved = (by.length() >= SAME_MM).then(|| self.towards(*by));
                let turned = (turned.abs() >= SAME_RAD).then(|| {
                    let way = if *turned > 0.0 { "gegen den" } else { "im" };
                    format!("{} {way} Uhrzeigersinn gedreht", self.degrees(turned.abs()))
                });
                let told: Vec<String> = moved.into_iter().chain(turned).collect();
                told.join(", ")
            }
            Change::Shape([was, now]) => instead(&self.shape(now), &self.shape(was)),
            Change::Outline([was, now]) => {
                let size = |own: &baywright_geometry::DVec2| {
                    format!("{} × {}", self.length(own.x), self.length(own.y))
                };
                let (was, now) = (size(was), size(now));
                if was == now {
                    format!("anderer Umriss, gleiche Größe: {now}")
                } else {
                    format!("anderer Umriss: {}", instead(&now, &was))
                }
            }
            Change::Kind([was, now]) => instead(&self.what_it_is(*now), &self.what_it_is(*was)),
            Change::Material([was, now]) => {
                format!("Material: {}", instead(self.material(*now), self.material(*was)))
            }
            Change::Metal([was, now]) => {
                let told = |own: &Option<Metal>| own.map_or(screen::TEXTS.as_its_face, |own| self.metal(own));
                format!("Metall darin: {}", instead(told(now), told(was)))
            }
            Change::Wall([was, now]) => format!("in „{now}“ statt „{was}“"),
            Change::Shut(true) => "jetzt geschlossen".to_owned(),
            Change::Shut(false) => "jetzt offen".to_owned(),
            Change::Exit(true) => "jetzt ein Ausgang".to_owned(),
            Change::Exit(false) => "kein Ausgang mehr".to_owned(),
            Change::Known([was, now]) => {
                let what = if *of == Subject::Floor { "Lage der Wände" } else { "Lage" };
                format!("{what}: {}", instead(&self.how_known(*now), &self.how_known(*was)))
            }
            Change::Effort([was, now]) => {
                format!("zum Versetzen: {}", instead(self.effort(*now), self.effort(*was)))
            }
            Change::Locked(true) => "jetzt gesperrt".to_owned(),
            Change::Locked(false) => "nicht mehr gesperrt".to_owned(),
            Change::Parked([was, now]) => {
                format!("Platz: {}", instead(&self.how_parked(*now), &self.how_parked(*was)))
            }
            Change::Carried([was, now]) => instead(&carried(now), &carried(was)),
            Change::InBay([was, now]) => {
                let told = |own: &Option<Id>| {
                    own.as_ref()
                        .map_or("auf keinem Stellplatz der Halle".to_owned(), |id| format!("auf „{id}“"))
                };
                instead(&told(now), &told(was))
            }
            Change::KeptEmpty([was, now]) => instead(&kept_empty(now), &kept_empty(was)),
            Change::KeptShut([was, now]) => instead(&kept_shut(now), &kept_shut(was)),
            Change::AtOnce([was, now]) => instead(&at_once(now), &at_once(was)),
            Change::Levels => "andere Höhen der Oberseite".to_owned(),
            Change::Source => "Angaben von anderer Herkunft".to_owned(),
            Change::OnMark(true) => "jetzt genau auf der Marke".to_owned(),
            Change::OnMark(false) => "jetzt wie hingestellt, nicht mehr genau auf der Marke".to_owned(),
            Change::Tipped([was, now]) => {
                let [now, was] = self.against(Quantity::Angle(*now), Quantity::Angle(*was));
                format!("um {now} geneigt statt um {was}")
            }
            Change::StandsRead([was, now]) => {
                format!("Ablesungen an Ständern: vorher {was}, jetzt {now}")
            }
            Change::MarksTaped([was, now]) => {
                format!("zwischen seinen Marken gemessen: vorher {was}, jetzt {now}")
            }
            Change::OnThisCar(what, were) => {
                let what = of_this_car(*what);
                match were {
                    [false, _] => format!("{what}: jetzt an diesem Fahrzeug gemessen"),
                    [true, false] => format!("{what}: nicht mehr wie an diesem Fahrzeug gemessen"),
                    [true, true] => format!("{what}: an diesem Fahrzeug gemessen, mit anderen Werten"),
                }
            }
        }
    }

    fn figure(&self, figure: Figure, was: f64, now: f64) -> String {
        let [now, was] = self.apart(now, was);
        match figure {
            Figure::WallLength => format!("{now} lang statt {was}"),
            Figure::Ceiling => format!("Decke auf {now} statt {was}"),
            Figure::FromCorner => format!("beginnt {now} von der Ecke der Wand statt {was}"),
            Figure::Width => format!("{now} breit statt {was}"),
            Figure::FreeBeyond => format!("dahinter {now} frei statt {was}"),
            Figure::Proud => format!("steht {now} über den Boden statt {was}"),
            Figure::TargetHeight => format!("Mitte des Ziels {now} über dem Boden statt {was}"),
            Figure::RunwayTop => format!("Oberkante auf {now} statt {was}"),
        }
    }

    /// Two lengths that do not look alike if they are not.
    fn apart(&self, one: f64, other: f64) -> [String; 2] {
        self.against(Quantity::Length(one), Quantity::Length(other))
    }

    fn shape(&self, shape: &Shape) -> String {
        match shape {
            Shape::Rectangle { length_mm, width_mm } => {
                format!("{} × {}", self.length(*length_mm), self.length(*width_mm))
            }
            Shape::Round { diameter_mm } => format!("Ø {}", self.length(*diameter_mm)),
            Shape::Outline(corners) => format!("Umriss mit {} Ecken", corners.len()),
        }
    }

    fn what_it_is(&self, kind: Kind) -> String {
        let rooms = &rooms::TEXTS;
        match kind {
            Kind::Thing(kind) => self.kind_of_thing(kind).to_owned(),
            Kind::Opening(kind) => rooms.opening_of(kind).to_owned(),
            Kind::Feature(kind) => rooms.feature_of(kind).to_owned(),
            Kind::KeepFree(kind) => rooms.kept_free(kind).to_owned(),
        }
    }
}

/// What is measured on one car.
const fn of_this_car(what: OfThisCar) -> &'static str {
    match what {
        OfThisCar::Sensor => "Lage des Sensors",
        OfThisCar::RearToe => "Spur hinten",
        OfThisCar::SetBack => "Radversatz",
        OfThisCar::TurningCircle => "Wendekreis",
        OfThisCar::Wheels => "Lage der Räder",
        OfThisCar::Sheet => "Protokoll der Achsvermessung",
        OfThisCar::Arches => "Höhenstand",
        OfThisCar::BodyPoints => "Lage von Karosseriepunkten",
        OfThisCar::Stood => "Strecken vom Boden zum Fahrzeug",
    }
}

fn names(all: &[Id]) -> String {
    listed(&all.iter().map(|id| format!("„{id}“")).collect::<Vec<_>>())
}

/// What is kept empty beside it.
fn kept_empty(bays: &[Id]) -> String {
    if bays.is_empty() {
        "kein Stellplatz leer gehalten".to_owned()
    } else {
        format!("{} leer gehalten", names(bays))
    }
}

/// Which doors are kept shut for it.
fn kept_shut(doors: &[Id]) -> String {
    if doors.is_empty() {
        "keine Tür geschlossen gehalten".to_owned()
    } else {
        format!("{} geschlossen gehalten", names(doors))
    }
}

/// What is done at the same time as it.
fn at_once(set_ups: &[Id]) -> String {
    if set_ups.is_empty() {
        "nichts gleichzeitig".to_owned()
    } else {
        format!("{} gleichzeitig", names(set_ups))
    }
}

/// What the car stands on.
fn carried(runways: &[Id]) -> String {
    if runways.is_empty() { "auf dem Boden".to_owned() } else { format!("auf {}", names(runways)) }
}

fn instead(now: &str, was: &str) -> String {
    if now == was { format!("{now}, anders als bisher") } else { format!("{now} statt {was}") }
}
