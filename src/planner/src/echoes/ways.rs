//! The echoes themselves: straight ones, and those by mirrors.

use baywright_geometry::fresnel::zone_radius;
use baywright_geometry::{Circle, DVec2, DVec3, Outline, Polygon, overlaps};
use baywright_radar::echo::{Shape, seen};
use baywright_radar::level::{Band, Received};
use baywright_radar::material::Reach;
use baywright_radar::paths::{Bounce, Ghost, Room, Round, Way, mirror_ghosts, target_ghosts};
use baywright_radar::seen::Seen as Shaped;

use super::around::{Flat, Stuff};
use super::own::{self, OwnEcho};
use super::stuff::{self, Reflected};
use super::{Echo, How, LEAST_DB, Look, With};
use crate::assessment::Subject;

/// A place is looked at from so far before it, mm, so that its own thing does not hide it.
const BEFORE_MM: f64 = 0.05;
/// Ways so many times as long as the target is away are not followed: they come back 24 dB weaker by their length alone.
const LONGEST: f64 = 4.0;

/// What a mirror's size does is told to no better than this, dB: the model of an opening, beside the edges' own waves.
const SHARE_WITHIN_DB: f64 = 1.5;

/// What comes back on one way, before it is set beside the target's.
struct Back {
    how: How,
    way: Vec<DVec3>,
    received: Received,
    made_of: Reflected,
}

impl Look<'_> {
    /// Every echo that is no weaker than is told, the strongest first.
    pub(super) fn echoes(&self, own: &OwnEcho, with: With) -> Vec<Echo> {
        let room = Room { longest_mm: LONGEST * own.range_mm, ..self.room };
        let mut all = self.straight(&room);
        all.extend(self.by_mirrors(&room, own, with));
        let mut all: Vec<Echo> = all.into_iter().filter_map(|back| self.beside(back, own)).collect();
        all.sort_by(|a, b| {
            let (of_a, of_b) = (a.heard.level_db, b.heard.level_db);
            of_b.high().total_cmp(&of_a.high()).then(of_b.low().total_cmp(&of_a.low()))
        });
        all
    }

    /// Whether a place is seen from the sensor.
    fn sees(&self, room: &Room<'_>, at: DVec3) -> bool {
        let sensor = self.scene.sensor();
        let before = at + (sensor - at).normalize_or_zero() * BEFORE_MM;
        room.direct(sensor, before).is_some()
    }

    /// What stands there sends back by itself.
    fn straight(&self, room: &Room<'_>) -> Vec<Back> {
        let faces = self.around.mirrors.iter().map(|own| Shape::Face(own.face.clone()));
        let flats = self.around.flats.iter().zip(faces);
        // The target's own face is a mirror beside its own echo.
        let flats = flats.filter(|(own, _)| !matches!(own.of, Subject::Target(_)));
        let all = flats.map(|(own, face)| (own, face, true));
        let others = self.around.others.iter().map(|(own, shape)| (own, shape.clone(), false));
        all.chain(others).filter_map(|(own, shape, is_flat)| self.one(room, own, &shape, is_flat)).collect()
    }

    fn one(&self, room: &Room<'_>, of: &Flat, shape: &Shape, is_flat: bool) -> Option<Back> {
        let sensor = self.scene.sensor();
        let found = seen(shape, sensor, self.wave)?;
        let is_seen = self.sees(room, found.at);
        // What is hidden where most would come from may still be seen beside it: up to all of it.
        let is_heard = is_seen || is_flat && self.is_seen_beside(room, shape);
        if !is_heard {
            return None;
        }
        let low = if is_seen { found.sigma_dbsm.low() } else { f64::NEG_INFINITY };
        let (made_of, received) = self.received(of.stuff, &found)?;
        let sigma_dbsm = Band::between(low, found.sigma_dbsm.high())?;
        Some(Back {
            how: match &of.and {
                Some(and) => How::Corner { of: [of.of.clone(), and.clone()] },
                None => How::Straight { of: of.of.clone(), is_spot_on: found.is_spot_on && is_seen },
            },
            way: vec![sensor, found.at, sensor],
            received: Received { sigma_dbsm, ..received },
            made_of,
        })
    }

    /// What is received of a shape of some stuff, and what that sends on.
    pub(super) fn received(&self, stuff: Stuff, shaped: &Shaped) -> Option<(Reflected, Received)> {
        let made_of = Reflected::all(shaped.incidences.iter().map(|own| self.reflected(stuff, *own)))?;
        let towards = shaped.at - self.scene.sensor();
        let received = Received {
            sigma_dbsm: shaped.sigma_dbsm,
            out_mm: shaped.range_mm,
            back_mm: shaped.range_mm,
            departs: towards,
            comes_from: towards,
            lost_db: made_of.lost_db()?,
            polarised_db: Band::NOTHING,
        };
        Some((made_of, received))
    }

    fn reflected(&self, stuff: Stuff, incidence: f64) -> Reflected {
        stuff::reflected(stuff, incidence, self.wave)
    }

    fn is_seen_beside(&self, room: &Room<'_>, shape: &Shape) -> bool {
        let Shape::Face(face) = shape else { return false };
        face.corners().into_iter().chain([face.centre()]).any(|at| self.sees(room, at))
    }

    /// The target by one mirror out or back, by one out and one back; two mirrors alone.
    fn by_mirrors(&self, room: &Room<'_>, own: &OwnEcho, with: With) -> Vec<Back> {
        let sensor = self.scene.sensor();
        let mut to_target = room.singles(sensor, own.at);
        to_target.extend(room.direct(sensor, own.at));
        let mut ghosts = target_ghosts(sensor, &to_target);
        if with == With::TwoMirrors {
            ghosts.extend(mirror_ghosts(sensor, &room.doubles(sensor, sensor)));
        }
        ghosts.into_iter().filter_map(|ghost| self.ghost(&ghost, own)).collect()
    }

    fn ghost(&self, ghost: &Ghost, own: &OwnEcho) -> Option<Back> {
        let sensor = self.scene.sensor();
        let of = |way: &Way| -> Vec<Subject> {
            way.bounces.iter().filter_map(|bounce| Some(self.mirror(way, bounce)?.of.clone())).collect()
        };
        let places = |way: &Way| way.bounces.iter().map(|own| own.at).collect::<Vec<_>>();
        let mut way = vec![sensor];
        let (how, made_of, sigma_dbsm, [out_mm, back_mm]) = match &ghost.round {
            Round::Target { out, back } => {
                let mirrors = |way: &Way| way.bounces.iter().map(|own| own.mirror).collect::<Vec<_>>();
                let is_same = mirrors(out).iter().eq(mirrors(back).iter().rev());
                way.extend(places(out));
                way.push(own.at);
                way.extend(places(back));
                let sigma = if is_same {
                    own.seen_from(out.comes_from, out.length_mm, &self.eye())?
                } else {
                    own.aside()?
                };
                let made_of = self.made_of([out, back])?;
                let share = self.share(out, sensor)?.plus(&self.share(back, own.at)?)?;
                let sigma = sigma.plus(&share)?;
                (
                    How::TargetBy { out: of(out), back: of(back) },
                    made_of,
                    sigma,
                    [out.length_mm, back.length_mm],
                )
            }
            Round::Mirrors { around } => {
                way.extend(places(around));
                let half = 0.5 * around.length_mm;
                let sigma = Band::of(own::mirrored_dbsm(half))?.plus(&self.share(around, sensor)?)?;
                (How::Round { by: of(around) }, self.made_of([around])?, sigma, [half, half])
            }
        };
        way.push(sensor);
        let received = Received {
            sigma_dbsm,
            out_mm,
            back_mm,
            departs: ghost.departs,
            comes_from: ghost.comes_from,
            lost_db: made_of.lost_db()?,
            polarised_db: Band::NOTHING,
        };
        Some(Back { how, way, received, made_of })
    }

    /// What the sizes of a way's mirrors leave of it, dB.
    fn share(&self, way: &Way, from: DVec3) -> Option<Band> {
        let db = 10.0 * libm::log10(way.share(from, &self.around.mirrors, self.wave)?);
        let within = if way.bounces.is_empty() { 0.0 } else { SHARE_WITHIN_DB };
        Band::between(db - within, db + within)
    }

    /// What all mirrors of some ways together send on.
    fn made_of<'w>(&self, ways: impl IntoIterator<Item = &'w Way>) -> Option<Reflected> {
        let bounces = ways.into_iter().flat_map(|way| way.bounces.iter().map(move |own| (way, own)));
        let flats = bounces.filter_map(|(way, own)| Some((self.mirror(way, own)?, own.incidence)));
        Reflected::all(flats.map(|(flat, incidence)| self.reflected(flat.stuff, incidence)))
    }

    /// What a way is thrown back by at a place: a grate or a cover in the floor, where the first Fresnel zone of the way meets one.
    fn mirror(&self, way: &Way, bounce: &Bounce) -> Option<&Flat> {
        let flat = self.around.flats.get(bounce.mirror)?;
        let in_floor = || self.around.in_floor.iter().find(|(_, outline)| self.meets(way, bounce, outline));
        match flat.of {
            Subject::Floor => Some(in_floor().map_or(flat, |(own, _)| own)),
            _ => Some(flat),
        }
    }

    /// Whether the spot of the floor that a way is thrown back by has something of an outline: an ellipse, as long as the way is flat.
    fn meets(&self, way: &Way, bounce: &Bounce, outline: &Polygon) -> bool {
        let (grazing, at) = (libm::cos(bounce.incidence), bounce.at.truncate());
        let first = self.scene.sensor().distance(bounce.at);
        let spot_mm = zone_radius(self.wave, first, way.length_mm - first, 1);
        let along = (at - self.scene.sensor().truncate()).normalize_or_zero();
        // Seen along the way, the ellipse is a circle.
        let seen = |p: DVec2| DVec2::new((p - at).dot(along) * grazing, (p - at).perp_dot(along));
        let ring: Vec<DVec2> = outline.outer().iter().map(|p| seen(*p)).rev().collect();
        let spot = Circle::new(DVec2::ZERO, spot_mm).map(Outline::from);
        let ring = Polygon::simple(ring).map(Outline::from);
        matches!((spot, ring), (Ok(spot), Ok(ring)) if overlaps(&spot, &ring))
    }

    /// An echo beside the target's; `None` if it is weaker than is told.
    fn beside(&self, back: Back, own: &OwnEcho) -> Option<Echo> {
        let heard = self.heard(&back.received, own).filter(|own| own.level_db.high() >= LEAST_DB)?;
        Some(Echo {
            how: back.how,
            way: back.way,
            heard,
            is_stuff_known: back.made_of.is_known,
            is_prolonged: back.made_of.reach != Reach::Covers,
            cures: Vec::new(),
        })
    }
}
