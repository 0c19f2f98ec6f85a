//! How one bay differs from another, beside the two.

use super::{About, rooms, screen, sentence_start};
use crate::assessment::{Quantity, Subject};
use crate::difference::{Change, Difference, Figure, Kind, OfThisCar, SAME_MM, SAME_RAD};
use crate::model::{Id, Metal, Shape};

impl About<'_> {
    /// One difference, as a line of a list: "Street wall: 600 mm further out".
    pub fn difference(&self, difference: &Difference) -> String {
        let of = match &difference.of {
            Subject::Floor => "room".to_owned(),
            other => self.bare_subject(other),
        };
        format!("{}: {}", sentence_start(&of), self.change(&difference.what, &difference.of))
    }

    /// Over what of the arrangement's own building is not as the bay has it.
    pub const fn own_building_differs(&self, count: usize) -> &'static str {
        if count == 0 {
            "The building is this set-up's own; so far it is as the bay's."
        } else {
            "The building is this set-up's own, as planned. Against the bay's:"
        }
    }

    fn change(&self, change: &Change, of: &Subject) -> String {
        match change {
            Change::New => "new".to_owned(),
            Change::Gone => "not there any more".to_owned(),
            Change::Name(old) => format!("was called “{old}”"),
            Change::FurtherOut(by) => {
                let [far, _] = self.against(Quantity::Length(by.abs()), Quantity::Length(0.0));
                format!("{far} further {}", if *by > 0.0 { "out" } else { "in" })
            }
            Change::Ends([first, second]) => format!(
                "runs otherwise, with its ends {} and {} from where they were",
                self.length(*first),
                self.length(*second)
            ),
            Change::Length(figure, [was, now]) => self.figure(*figure, *was, *now),
            Change::Heights([was, now]) => {
                let [from, other_from] = self.apart(now[0], was[0]);
                let [to, other_to] = self.apart(now[1], was[1]);
                format!("from {from} to {to} above the floor instead of from {other_from} to {other_to}")
            }
            Change::Moved(by, turned) => {
                let moved = (by.length() >= SAME_MM).then(|| self.towards(*by));
                let turned = (turned.abs() >= SAME_RAD).then(|| {
                    let way = if *turned > 0.0 { "anticlockwise" } else { "clockwise" };
                    format!("turned {} {way}", self.degrees(turned.abs()))
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
                    format!("another outline, of the same size: {now}")
                } else {
                    format!("another outline: {}", instead(&now, &was))
                }
            }
            Change::Kind([was, now]) => instead(&self.what_it_is(*now), &self.what_it_is(*was)),
            Change::Material([was, now]) => {
                format!("made of: {}", instead(self.material(*now), self.material(*was)))
            }
            Change::Metal([was, now]) => {
                let told = |own: &Option<Metal>| own.map_or(screen::TEXTS.as_its_face, |own| self.metal(own));
                format!("metal in it: {}", instead(told(now), told(was)))
            }
            Change::Wall([was, now]) => format!("in “{now}” instead of “{was}”"),
            Change::Shut(true) => "shut now".to_owned(),
            Change::Shut(false) => "open now".to_owned(),
            Change::Exit(true) => "a way out now".to_owned(),
            Change::Exit(false) => "no way out any more".to_owned(),
            Change::Known([was, now]) => {
                let what = if *of == Subject::Floor { "walls known" } else { "place known" };
                format!("{what}: {}", instead(&self.how_known(*now), &self.how_known(*was)))
            }
            Change::Effort([was, now]) => {
                format!("to move it: {}", instead(self.effort(*now), self.effort(*was)))
            }
            Change::Locked(true) => "locked now".to_owned(),
            Change::Locked(false) => "not locked any more".to_owned(),
            Change::Parked([was, now]) => {
                format!("place known: {}", instead(&self.how_parked(*now), &self.how_parked(*was)))
            }
            Change::Carried([was, now]) => instead(&carried(now), &carried(was)),
            Change::InBay([was, now]) => {
                let told = |own: &Option<Id>| {
                    own.as_ref().map_or("in no bay of the hall".to_owned(), |id| format!("in “{id}”"))
                };
                instead(&told(now), &told(was))
            }
            Change::KeptEmpty([was, now]) => instead(&kept_empty(now), &kept_empty(was)),
            Change::KeptShut([was, now]) => instead(&kept_shut(now), &kept_shut(was)),
            Change::AtOnce([was, now]) => instead(&at_once(now), &at_once(was)),
            Change::Levels => "other levels of its top".to_owned(),
            Change::Source => "its figures come from elsewhere".to_owned(),
            Change::OnMark(true) => "exactly on its mark now".to_owned(),
            Change::OnMark(false) => "as it was put now, no longer exactly on its mark".to_owned(),
            Change::Tipped([was, now]) => {
                let [now, was] = self.against(Quantity::Angle(*now), Quantity::Angle(*was));
                format!("tipped {now} instead of {was}")
            }
            Change::StandsRead([was, now]) => {
                format!("what was read of stands: {was} before, {now} now")
            }
            Change::MarksTaped([was, now]) => {
                format!("distances taped between its marks: {was} before, {now} now")
            }
            Change::OnThisCar(what, were) => {
                let what = of_this_car(*what);
                match were {
                    [false, _] => format!("{what} measured on this car now"),
                    [true, false] => format!("{what} no longer as measured on this car"),
                    [true, true] => format!("{what} measured on this car, with other figures"),
                }
            }
        }
    }

    fn figure(&self, figure: Figure, was: f64, now: f64) -> String {
        let [now, was] = self.apart(now, was);
        match figure {
            Figure::WallLength => format!("{now} long instead of {was}"),
            Figure::Ceiling => format!("ceiling at {now} instead of {was}"),
            Figure::FromCorner => format!("starts {now} from the wall's corner instead of {was}"),
            Figure::Width => format!("{now} wide instead of {was}"),
            Figure::FreeBeyond => format!("free beyond it for {now} instead of {was}"),
            Figure::Proud => format!("{now} proud of the floor instead of {was}"),
            Figure::TargetHeight => {
                format!("the middle of the target {now} above the floor instead of {was}")
            }
            Figure::RunwayTop => format!("top at {now} instead of {was}"),
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
            Shape::Round { diameter_mm } => format!("{} across", self.length(*diameter_mm)),
            Shape::Outline(corners) => format!("an outline of {} corners", corners.len()),
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
        OfThisCar::Sensor => "sensor's place",
        OfThisCar::RearToe => "rear toe",
        OfThisCar::SetBack => "set-back",
        OfThisCar::TurningCircle => "turning circle",
        OfThisCar::Wheels => "places of the wheels",
        OfThisCar::Sheet => "alignment sheet",
        OfThisCar::Arches => "heights of the wheel arches",
        OfThisCar::BodyPoints => "places of body points",
        OfThisCar::Stood => "distances from the floor to the car",
    }
}

/// What is kept empty beside it.
fn kept_empty(bays: &[Id]) -> String {
    let names: Vec<String> = bays.iter().map(|id| format!("“{id}”")).collect();
    if names.is_empty() {
        "no bay kept empty".to_owned()
    } else {
        format!("{} kept empty", names.join(" and "))
    }
}

/// Which doors are kept shut for it.
fn kept_shut(doors: &[Id]) -> String {
    let names: Vec<String> = doors.iter().map(|id| format!("“{id}”")).collect();
    if names.is_empty() {
        "no door kept shut".to_owned()
    } else {
        format!("{} kept shut", names.join(" and "))
    }
}

/// What is done at the same time as it.
fn at_once(set_ups: &[Id]) -> String {
    let names: Vec<String> = set_ups.iter().map(|id| format!("“{id}”")).collect();
    if names.is_empty() {
        "nothing at the same time".to_owned()
    } else {
        format!("{} at the same time", names.join(" and "))
    }
}

/// What the car stands on.
fn carried(runways: &[Id]) -> String {
    let names: Vec<String> = runways.iter().map(|id| format!("“{id}”")).collect();
    if names.is_empty() { "on the floor".to_owned() } else { format!("on {}", names.join(" and ")) }
}

fn instead(now: &str, was: &str) -> String {
    if now == was { format!("another {now}") } else { format!("{now} instead of {was}") }
}
