//! What stands around a radar, as plain faces, drums and solids.
//!
//! Upright faces of walls (with what of them openings leave), of shut doors and windows, and of every thing, the tops of what is
//! rectangular, the floor and the ceiling; round things as drums. The car itself and the target with its own stand
//! are no part of it, but for the face of a plate, which is a mirror.

use std::f64::consts::FRAC_PI_2;

use baywright_geometry::{Bounds, DVec2, DVec3, Face, Outline, PlanPose, Polygon, Prism, Segment, Span};
use baywright_radar::cylinder::Cylinder;
use baywright_radar::dihedral::Dihedral;
use baywright_radar::echo::Shape;
use baywright_radar::paths::Mirror;

use crate::assessment::Subject;
use crate::check::thing_subject;
use crate::model::{Arrangement, Id, Material, Metal, Opening, Shape as Footprint, TargetKind};
use crate::scene::Scene;

/// Strips narrower or lower than this, mm, are no faces: a tenth of what is told.
const LEAST_MM: f64 = 1.0;
/// Faces of a corner are as wide as that share of the way to it, at most.
const SHARE_OF_WAY: f64 = 0.45;
/// Corners that are no righter than that, radians, send nothing straight back.
const MOST_OPEN_RAD: f64 = 0.1;

/// What something is made of, as far as a wave meets it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Stuff {
    pub material: Material,
    pub metal: Metal,
}

impl Stuff {
    const STEEL: Self = Self { material: Material::Steel, metal: Metal::All };

    const fn of(material: Material) -> Self {
        Self { material, metal: material.metal() }
    }
}

/// A flat face of something.
#[derive(Clone, Debug)]
pub(super) struct Flat {
    pub of: Subject,
    /// Of a corner, the other wall.
    pub and: Option<Subject>,
    pub stuff: Stuff,
}

/// All that stands around.
#[derive(Clone, Debug, Default)]
pub(super) struct Around {
    /// What each mirror is of, in their order.
    pub flats: Vec<Flat>,
    /// The faces themselves.
    pub mirrors: Vec<Mirror>,
    /// Round things, and corners of the room in which two walls meet at a right angle.
    pub others: Vec<(Flat, Shape)>,
    /// What hides, beside the faces of the room.
    pub solids: Vec<Prism>,
    /// What lies in the floor and is, or may be, of metal: where the floor mirrors, it does.
    pub in_floor: Vec<(Flat, Polygon)>,
}

impl Around {
    /// What stands around the sensor while one target is up.
    pub(super) fn of(arrangement: &Arrangement, scene: &Scene, target: &Id) -> Self {
        let mut own = Self::default();
        own.room(arrangement, scene);
        for (thing, placed) in arrangement.bay.things.iter().zip(&scene.things) {
            let stuff = Stuff { material: thing.material, metal: thing.metal_content() };
            let of = thing_subject(&thing.id);
            if let Footprint::Rectangle { length_mm, width_mm } = *thing.footprint.shape() {
                own.top(
                    &of,
                    stuff,
                    &thing.place.at,
                    DVec2::new(length_mm, width_mm),
                    placed.prism.span.top(),
                );
            }
            own.solid(of, stuff, placed.prism.clone());
        }
        for runway in &arrangement.bay.runways {
            let Ok(span) = Span::new(0.0, runway.top_mm) else { continue };
            let prism = Prism::new(runway.outline.clone().into(), span);
            own.solid(Subject::Runway(runway.id.clone()), Stuff::STEEL, prism);
        }
        for feature in &arrangement.bay.floor_features {
            let (of, stuff) = (Subject::FloorFeature(feature.id.clone()), Stuff::of(feature.material));
            if stuff.metal.counts() != Some(false) {
                own.in_floor.push((Flat { of: of.clone(), and: None, stuff }, feature.outline.clone()));
            }
            let Some(prism) = feature.solid() else { continue };
            own.solid(of, stuff, prism);
        }
        let placements = &arrangement.aiming.placements;
        let up = placements.iter().find(|own| own.id == *target);
        let face = scene.targets.iter().find(|own| own.id == *target).and_then(|own| own.face.clone());
        if let Some(face) = face.filter(|_| up.is_some_and(|own| own.target.kind == TargetKind::Plate)) {
            own.face(&Subject::Target(target.clone()), Stuff::STEEL, Ok::<_, ()>(face));
        }
        for (other, placed) in placements.iter().zip(&scene.targets) {
            if other.id == *target || !up.is_some_and(|own| own.stands_with(other)) || placed.lies {
                continue;
            }
            let stuff = Stuff { material: Material::Unknown, metal: other.target.kind.metal() };
            for prism in &placed.solids {
                own.solid(Subject::Stand(other.id.clone()), stuff, prism.clone());
            }
        }
        own
    }

    /// What of it is no further from the sensor than this, mm, by its nearest place; round things and corners all.
    pub(super) fn within(&self, sensor: DVec3, most_mm: f64) -> Self {
        let is_near = |face: &Face| {
            let off = sensor - face.centre();
            let beyond = |along: DVec3, whole: f64| (off.dot(along).abs() - 0.5 * whole).max(0.0);
            let aside = [beyond(face.left(), face.width()), beyond(face.up(), face.height())];
            DVec3::new(aside[0], aside[1], face.in_front(sensor)).length() <= most_mm
        };
        let at = Bounds { low: sensor.truncate(), high: sensor.truncate() };
        let kept = self.flats.iter().zip(&self.mirrors).filter(|(_, mirror)| is_near(&mirror.face));
        let (flats, mirrors) = kept.map(|(flat, mirror)| (flat.clone(), mirror.clone())).unzip();
        let is_solid_near = |own: &&Prism| own.outline.bounds().gap_squared(&at) <= most_mm * most_mm;
        Self {
            flats,
            mirrors,
            others: self.others.clone(),
            solids: self.solids.iter().filter(is_solid_near).cloned().collect(),
            in_floor: self.in_floor.clone(),
        }
    }

    fn room(&mut self, arrangement: &Arrangement, scene: &Scene) {
        let bay = &arrangement.bay;
        let Ok(full) = Span::new(0.0, bay.ceiling_mm) else { return };
        for (nth, (edge, wall)) in scene.room.walls().edges().zip(&bay.walls).enumerate() {
            let length = edge.from.distance(edge.to);
            let piece = |from: f64, to: f64| {
                let along = (edge.to - edge.from) / length;
                Segment::new(edge.from + along * from, edge.from + along * to)
            };
            let mut openings: Vec<&Opening> = bay.openings.iter().filter(|own| own.wall == nth).collect();
            openings.sort_by(|a, b| a.from_mm.total_cmp(&b.from_mm));
            let (of, stuff) = (Subject::Wall(wall.id.clone()), Stuff::of(wall.material));
            let mut at = 0.0_f64;
            for opening in openings {
                let to = opening.from_mm + opening.width_mm;
                self.upright(&of, stuff, &piece(at, opening.from_mm), full);
                let line = piece(opening.from_mm, to);
                for (bottom, top) in [(0.0, opening.span.bottom()), (opening.span.top(), bay.ceiling_mm)] {
                    if let Ok(span) = Span::new(bottom, top) {
                        self.upright(&of, stuff, &line, span);
                    }
                }
                if !opening.is_open() {
                    let leaf = Subject::Opening(opening.id.clone());
                    self.upright(&leaf, Stuff::of(opening.material), &line, opening.span);
                }
                at = at.max(to);
            }
            self.upright(&of, stuff, &piece(at, length), full);
        }
        self.corners(arrangement, scene);
        let Some(around) = Bounds::around(scene.room.walls().outer().iter().copied()) else { return };
        let (size, middle) = (around.high - around.low, around.centre());
        for (height_mm, pitch, of) in
            [(0.0, -FRAC_PI_2, Subject::Floor), (bay.ceiling_mm, FRAC_PI_2, Subject::Ceiling)]
        {
            let material = if of == Subject::Floor { Material::Concrete } else { Material::Unknown };
            self.face(
                &of,
                Stuff::of(material),
                Face::new(middle.extend(height_mm), 0.0, pitch, size.y, size.x),
            );
        }
    }

    /// Corners of the room in which two walls meet at a right angle: they send a wave back wherever it comes from between them.
    fn corners(&mut self, arrangement: &Arrangement, scene: &Scene) {
        let bay = &arrangement.bay;
        let walls: Vec<_> = scene.room.walls().edges().zip(&bay.walls).collect();
        for (nth, (after, own)) in walls.iter().enumerate() {
            let Some((before, other)) = walls.get((nth + walls.len() - 1) % walls.len()) else { continue };
            let (first, second) = (after.to - after.from, before.from - before.to);
            let inside = libm::atan2(first.perp_dot(second), first.dot(second));
            let open_by = inside - FRAC_PI_2;
            let far = after.from.distance(scene.sensor().truncate());
            // Only what is near the corner takes part, and its formula wants the faces no wider than half the way there.
            let most = SHARE_OF_WAY * far;
            let [first_mm, second_mm] = [first.length().min(most), second.length().min(most)];
            if open_by.abs() > MOST_OPEN_RAD || first_mm < LEAST_MM || second_mm < LEAST_MM {
                continue;
            }
            // Of two kinds the one of metal: at most that comes back.
            let [one, two] = [Stuff::of(own.material), Stuff::of(other.material)];
            let stuff = if one.metal == Metal::All { one } else { two };
            let shape = Dihedral {
                middle: after.from.extend(0.5 * bay.ceiling_mm),
                edge: DVec3::Z,
                first: first.extend(0.0),
                first_mm,
                second_mm,
                length_mm: bay.ceiling_mm,
                open_by,
            };
            let of = Subject::Wall(own.id.clone());
            let and = Some(Subject::Wall(other.id.clone()));
            self.others.push((Flat { of, and, stuff }, Shape::Dihedral(shape)));
        }
    }

    /// All sides of a solid, and what it hides.
    pub(super) fn solid(&mut self, of: Subject, stuff: Stuff, prism: Prism) {
        match &prism.outline {
            Outline::Circle(circle) => {
                let middle = circle.centre().extend(0.5 * (prism.span.bottom() + prism.span.top()));
                let drum = Cylinder::new(middle, DVec3::Z, circle.radius(), prism.span.height());
                self.others.extend(drum.map(|drum| (Flat { of, and: None, stuff }, Shape::Cylinder(drum))));
            }
            Outline::Polygon(polygon) => {
                for edge in polygon.edges() {
                    // What is solid lies left of its edges.
                    self.upright(&of, stuff, &Segment::new(edge.to, edge.from), prism.span);
                }
            }
        }
        self.solids.push(prism);
    }

    fn top(&mut self, of: &Subject, stuff: Stuff, at: &PlanPose, size: DVec2, top_mm: f64) {
        let face = Face::new(at.origin().extend(top_mm), at.heading(), -FRAC_PI_2, size.y, size.x);
        self.face(of, stuff, face);
    }

    /// An upright face along a line, that looks to the left of it.
    fn upright(&mut self, of: &Subject, stuff: Stuff, line: &Segment, span: Span) {
        let (along, width) = (line.to - line.from, line.from.distance(line.to));
        if width < LEAST_MM || span.height() < LEAST_MM {
            return;
        }
        let looks = along.perp();
        let middle = (line.from + line.to) * 0.5;
        let centre = DVec3::new(middle.x, middle.y, 0.5 * (span.bottom() + span.top()));
        let heading = libm::atan2(looks.y, looks.x);
        self.face(of, stuff, Face::new(centre, heading, 0.0, width, span.height()));
    }

    fn face<E>(&mut self, of: &Subject, stuff: Stuff, face: Result<Face, E>) {
        let Ok(face) = face else { return };
        self.flats.push(Flat { of: of.clone(), and: None, stuff });
        self.mirrors.push(Mirror::front(face));
    }
}
