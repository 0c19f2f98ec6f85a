//! What stands before a sensor, as the faces that it can see: of walls (with what openings leave of them), floor features, runways,
//! things, targets and stands. Faces that look away are none; the car itself is none.

use baywright_planner::Subject;
use baywright_planner::geometry::{DVec2, DVec3, Face, Outline, Polygon, Pose, Prism, Segment, Span};
use baywright_planner::model::{Arrangement, Id, Material, Opening, OpeningKind, Placement, TargetKind};
use baywright_planner::scene::{PlacedTarget, Scene, TargetPart};

use super::angles::{Frame, arc, ring};
use super::order::Flat;
use crate::list::Shape;
use crate::role::Role;

/// A round thing is drawn with so many sides.
const SIDES: u32 = 48;
/// Edges of a target's face are drawn at least so far apart from its back, mm: a plate has a rim.
const THINNEST_MM: f64 = 4.0;
/// Of more faces than this those that are seen the smallest are left out: the picture is one of a frame.
const MOST_FACES: usize = 3000;

/// What is drawn on a face, in the picture's degrees.
pub(super) struct Detail {
    pub role: Role,
    pub subject: Option<Subject>,
    pub shape: Shape,
}

/// A face that the sensor looks at.
pub(super) struct Surface {
    pub subject: Subject,
    pub role: Role,
    /// Its rings, degrees.
    pub rings: Vec<Vec<DVec2>>,
    pub on_it: Vec<Detail>,
    /// What of it hides and is hidden.
    pub flats: Vec<Flat>,
}

/// Puts faces together.
pub(super) struct Surfaces<'a> {
    pub arrangement: &'a Arrangement,
    pub scene: &'a Scene,
    pub frame: &'a Frame,
    sensor_from_bay: Pose,
    /// Whether something is drawn full, not pale.
    is_loud: &'a dyn Fn(&Subject) -> bool,
    out: Vec<Surface>,
}

/// All that the sensor can see while one target is up.
pub(super) fn surfaces(
    arrangement: &Arrangement,
    scene: &Scene,
    (frame, target): (&Frame, &Id),
    is_loud: &dyn Fn(&Subject) -> bool,
) -> Vec<Surface> {
    let sensor_from_bay = scene.bay_from_sensor.inverse();
    let mut all = Surfaces { arrangement, scene, frame, sensor_from_bay, is_loud, out: Vec::new() };
    all.walls();
    all.things();
    all.targets(target);
    if all.out.len() > MOST_FACES {
        let size = |own: &Surface| own.rings.first().map_or(0.0, |ring| area(ring));
        all.out.sort_by(|a, b| size(b).total_cmp(&size(a)));
        all.out.truncate(MOST_FACES);
    }
    all.out
}

fn area(ring: &[DVec2]) -> f64 {
    baywright_planner::geometry::polygon::signed_area(ring).abs()
}

impl Surfaces<'_> {
    fn eye(&self) -> DVec3 {
        self.scene.sensor()
    }

    fn own(&self, p: DVec3) -> DVec3 {
        self.sensor_from_bay * p
    }

    /// A ring of the bay as it is seen; nothing where it is out of sight.
    fn seen(&self, bay: &[DVec3]) -> Option<Vec<DVec2>> {
        let cut = self.frame.cut(bay.iter().map(|&p| self.own(p)).collect());
        (cut.len() >= 3).then(|| ring(&cut))
    }

    /// A line of the bay as it is seen.
    fn seen_line(&self, from: DVec3, to: DVec3) -> Option<Vec<DVec2>> {
        self.frame.cut_line(self.own(from), self.own(to)).map(|cut| arc(&cut))
    }

    /// A face with its holes, and the convex pieces that it is made of. It looks at the sensor.
    fn face(
        &mut self,
        (role, subject): (Role, &Subject),
        rings: &[Vec<DVec3>],
        pieces: &[Vec<DVec3>],
    ) -> Option<&mut Surface> {
        let seen: Vec<Vec<DVec2>> = rings.iter().filter_map(|own| self.seen(own)).collect();
        let flats = pieces
            .iter()
            .filter_map(|own| Flat::of(&self.frame.cut(own.iter().map(|&p| self.own(p)).collect())));
        let flats: Vec<Flat> = flats.collect();
        if seen.is_empty() || flats.is_empty() {
            return None;
        }
        self.out.push(Surface { subject: subject.clone(), role, rings: seen, on_it: Vec::new(), flats });
        self.out.last_mut()
    }

    fn walls(&mut self) {
        let bay = &self.arrangement.bay;
        let edges: Vec<Segment> = self.scene.room.walls().edges().collect();
        for (nth, (edge, wall)) in edges.iter().zip(&bay.walls).enumerate() {
            // The inside lies left of a wall.
            let inside = (edge.to - edge.from).perp();
            if (self.eye().truncate() - edge.from).dot(inside) <= 0.0 {
                continue;
            }
            let along = (edge.to - edge.from) / edge.length().max(1e-9);
            let openings: Vec<&Opening> = bay.openings.iter().filter(|own| own.wall == nth).collect();
            let piece = |from: f64, to: f64, span: (f64, f64)| {
                upright(&Segment::new(edge.from + along * from, edge.from + along * to), span)
            };
            let of = |own: &Opening| {
                let heights = (own.span.bottom().max(0.0), own.span.top().min(bay.ceiling_mm));
                piece(own.from_mm, own.from_mm + own.width_mm, heights)
            };
            // What stands open is a hole: what lies behind it is seen.
            let open: Vec<&Opening> = openings.iter().copied().filter(|own| own.is_open()).collect();
            let whole = piece(0.0, edge.length(), (0.0, bay.ceiling_mm));
            let rings: Vec<Vec<DVec3>> =
                std::iter::once(whole).chain(open.iter().map(|own| of(own))).collect();
            let pieces = around(&open, edge.length(), bay.ceiling_mm);
            let pieces: Vec<Vec<DVec3>> =
                pieces.into_iter().map(|(along, up)| piece(along.0, along.1, up)).collect();
            let on_it: Vec<Detail> = openings.iter().flat_map(|own| self.opening(own, &of(own))).collect();
            let of_wall = Subject::Wall(wall.id.clone());
            if let Some(own) = self.face((Role::WallFaced(wall.material), &of_wall), &rings, &pieces) {
                own.on_it = on_it;
            }
        }
    }

    /// A door or window: its outline, and what closes it.
    fn opening(&self, opening: &Opening, corners: &[DVec3]) -> Vec<Detail> {
        let subject = Some(Subject::Opening(opening.id.clone()));
        let [low_from, low_to, high_to, high_from] = *corners else { return Vec::new() };
        let mut on_it = Vec::new();
        if !opening.is_open() {
            let seen = self.seen(corners);
            on_it.extend(seen.map(|ring| (Role::OpeningFaced, Shape::Area(vec![ring]))));
        }
        let across = |share: f64| (low_from.lerp(high_from, share), low_to.lerp(high_to, share));
        let up = |share: f64| (low_from.lerp(low_to, share), high_from.lerp(high_to, share));
        let lines: Vec<(DVec3, DVec3)> = match opening.kind {
            // Its slats, its panes, its leaf.
            _ if opening.is_open() => vec![across(0.0), across(1.0), up(0.0), up(1.0)],
            OpeningKind::RollerDoor => (1..8).map(|i| across(f64::from(i) / 8.0)).collect(),
            OpeningKind::Window => vec![across(0.5), up(0.5)],
            // Its handle.
            _ => {
                let at = |share: f64| low_from.lerp(low_to, share).midpoint(high_from.lerp(high_to, share));
                vec![(at(0.84), at(0.94))]
            }
        };
        let seen = lines.into_iter().filter_map(|(from, to)| self.seen_line(from, to));
        on_it.extend(seen.map(|line| (Role::QuietThingLine, Shape::Line(line))));
        on_it.into_iter().map(|(role, shape)| Detail { role, subject: subject.clone(), shape }).collect()
    }

    fn things(&mut self) {
        let things = self.arrangement.bay.things.iter().zip(&self.scene.things);
        for (thing, placed) in things {
            self.solid(thing.material, &Subject::Thing(thing.id.clone()), &placed.prism);
        }
        for runway in &self.arrangement.bay.runways {
            let Ok(span) = Span::new(0.0, runway.top_mm) else { continue };
            let prism = Prism::new(runway.outline.clone().into(), span);
            self.solid(Material::Steel, &Subject::Runway(runway.id.clone()), &prism);
        }
        for feature in &self.arrangement.bay.floor_features {
            if let Some(prism) = feature.solid() {
                self.solid(feature.material, &Subject::FloorFeature(feature.id.clone()), &prism);
            }
        }
    }

    fn solid(&mut self, material: Material, subject: &Subject, prism: &Prism) {
        let is_loud = (self.is_loud)(subject);
        let role = if is_loud { Role::Thing(material) } else { Role::QuietThing(material) };
        self.faces((role, subject), prism);
    }

    /// The sides of a solid that look at the sensor, and its top or its underside if it does.
    fn faces(&mut self, what: (Role, &Subject), prism: &Prism) {
        let span = (prism.span.bottom(), prism.span.top());
        match &prism.outline {
            Outline::Polygon(polygon) => {
                for edge in polygon.edges() {
                    if looks_at(&edge, self.eye()) {
                        let side = upright(&edge, span);
                        self.face(what, std::slice::from_ref(&side), std::slice::from_ref(&side));
                    }
                }
                self.level(what, polygon, span);
            }
            Outline::Circle(circle) => {
                let corner = |i: u32| {
                    let turn = std::f64::consts::TAU * f64::from(i % SIDES) / f64::from(SIDES);
                    circle.centre() + baywright_planner::geometry::angle::direction(turn) * circle.radius()
                };
                let edge = |i: u32| Segment::new(corner(i), corner(i + 1));
                let looks = |i: u32| looks_at(&edge(i), self.eye());
                // One run of sides looks at the sensor: it is drawn as one face.
                let first = (0..SIDES).find(|&i| looks(i) && !looks(i + SIDES - 1));
                if let Some(first) = first {
                    let count = (0..SIDES).take_while(|&i| looks(first + i)).count() as u32;
                    let run: Vec<DVec2> = (0..=count).map(|i| corner(first + i)).collect();
                    let foot = run.iter().map(|p| p.extend(span.0));
                    let whole: Vec<DVec3> = foot.chain(run.iter().rev().map(|p| p.extend(span.1))).collect();
                    let sides: Vec<Vec<DVec3>> =
                        (0..count).map(|i| upright(&edge(first + i), span)).collect();
                    self.face(what, &[whole], &sides);
                }
                if let Ok(polygon) = Polygon::simple((0..SIDES).map(corner).collect()) {
                    self.level(what, &polygon, span);
                }
            }
        }
    }

    /// The top of a solid if it is seen from above, the underside if from below.
    fn level(&mut self, what: (Role, &Subject), polygon: &Polygon, span: (f64, f64)) {
        let eye = self.eye().z;
        let Some(height) = (eye > span.1).then_some(span.1).or((eye < span.0).then_some(span.0)) else {
            return;
        };
        let at = |ring: &[DVec2]| ring.iter().map(|p| p.extend(height)).collect::<Vec<_>>();
        let rings: Vec<_> = polygon.rings().map(at).collect();
        let pieces: Vec<_> = polygon.pieces().map(at).collect();
        self.face(what, &rings, &pieces);
    }

    /// The target that is up, those that stand with it, and their stands.
    fn targets(&mut self, target: &Id) {
        let placements = &self.arrangement.aiming.placements;
        let Some(up) = placements.iter().find(|own| own.id == *target) else { return };
        for (placement, placed) in placements.iter().zip(&self.scene.targets) {
            if placement.id != up.id && !up.stands_with(placement) {
                continue;
            }
            let stand = Subject::Stand(placed.id.clone());
            for (part, solid) in placed.parts.iter().zip(&placed.solids) {
                if *part != TargetPart::Body {
                    self.faces((Role::StandFaced, &stand), solid);
                }
            }
            self.body(placement, placed);
        }
    }

    /// A target: its face, with what tells its kind, and its rim as far as it is seen.
    fn body(&mut self, placement: &Placement, placed: &PlacedTarget) {
        let Some(face) = &placed.face else { return };
        let subject = Subject::Target(placed.id.clone());
        let deep = face.normal() * -placement.target.depth_mm.max(THINNEST_MM);
        let [a, b, c, d] = face.corners();
        let rim = [(a, b), (b, c), (c, d), (d, a)];
        let sides = rim.map(|(from, to)| vec![from, from + deep, to + deep, to]);
        let back = vec![d + deep, c + deep, b + deep, a + deep];
        for side in sides.into_iter().chain([back]) {
            if faces(&side, face.centre() + deep * 0.5, self.eye()) {
                self.face(
                    (Role::TargetRim, &subject),
                    std::slice::from_ref(&side),
                    std::slice::from_ref(&side),
                );
            }
        }
        if face.in_front(self.eye()) > 0.0 {
            let front = vec![a, b, c, d];
            let on_it = self.on_target(placement.target.kind, face);
            if let Some(own) = self.face(
                (Role::TargetFace, &subject),
                std::slice::from_ref(&front),
                std::slice::from_ref(&front),
            ) {
                own.on_it = on_it;
            }
        }
    }

    /// The inner edges of a corner reflector, the middle of any other target.
    fn on_target(&self, kind: TargetKind, face: &Face) -> Vec<Detail> {
        let (u, v) = (face.width() * 0.5, face.height() * 0.5);
        let middle = face.point(0.0, 0.0);
        let ends = match kind {
            TargetKind::CornerReflector => {
                [(0.0, v), (-u, -v), (u, -v)].map(|(u, v)| (middle, face.point(u, v))).to_vec()
            }
            _ => {
                let arm = u.min(v) * 0.35;
                vec![
                    (face.point(-arm, 0.0), face.point(arm, 0.0)),
                    (face.point(0.0, -arm), face.point(0.0, arm)),
                ]
            }
        };
        let seen = ends.into_iter().filter_map(|(from, to)| self.seen_line(from, to));
        seen.map(|line| Detail { role: Role::ThingLine, subject: None, shape: Shape::Line(line) }).collect()
    }
}

/// An upright face over a line.
fn upright(line: &Segment, (bottom, top): (f64, f64)) -> Vec<DVec3> {
    vec![line.from.extend(bottom), line.to.extend(bottom), line.to.extend(top), line.from.extend(top)]
}

/// Whether the side of a solid over an edge of its outline looks at a place: what is solid lies left of its edges.
fn looks_at(edge: &Segment, eye: DVec3) -> bool {
    (edge.to - edge.from).perp_dot(eye.truncate() - edge.from) < 0.0
}

/// Whether a flat face of a convex body looks at a place; `inside` lies in the body.
fn faces(ring: &[DVec3], inside: DVec3, eye: DVec3) -> bool {
    let &[a, b, c, ..] = ring else { return false };
    let normal = (b - a).cross(c - a);
    (eye - a).dot(normal) * (inside - a).dot(normal) < 0.0
}

/// What of a wall is left around its open doors: strips from along it to along it and from height to height, mm.
fn around(open: &[&Opening], length: f64, ceiling: f64) -> Vec<((f64, f64), (f64, f64))> {
    let mut open = open.to_vec();
    open.sort_by(|a, b| a.from_mm.total_cmp(&b.from_mm));
    let (mut at, mut left) = (0.0_f64, Vec::new());
    for own in open {
        let to = own.from_mm + own.width_mm;
        left.push(((at, own.from_mm), (0.0, ceiling)));
        left.push(((own.from_mm, to), (0.0, own.span.bottom())));
        left.push(((own.from_mm, to), (own.span.top(), ceiling)));
        at = at.max(to);
    }
    left.push(((at, length), (0.0, ceiling)));
    left.retain(|(along, up)| along.1 > along.0 && up.1 > up.0);
    left
}
