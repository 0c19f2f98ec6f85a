//! What can be read on the screen and what cannot: texts on texts, names away from what they name, figures that are missing.

use baywright_desk::screen::Desk;
use baywright_desk::screen::view::Letters;
use baywright_drawing::{Align, Drawing, Item, Projection, Role, Shape, Text, pinned};
use baywright_planner::geometry::{Bounds, DVec2, angle};
use baywright_planner::{Assessment, Code, Finding, Quantity, Severity, Subject};
use egui_kittest::Harness;

/// What two may share before it is seen, px: letters do not fill their boxes.
const SLACK_PX: f64 = 1.0;

/// Something that is read: a box on the paper, px, maybe slanted.
pub struct Read {
    pub what: String,
    pub middle: DVec2,
    pub half: DVec2,
    pub along: DVec2,
    pub is_marker: bool,
}

impl Read {
    fn corners(&self) -> [DVec2; 4] {
        let (a, b) = (self.along * self.half.x, self.along.perp() * self.half.y);
        [a + b, a - b, -a - b, b - a].map(|by| self.middle + by)
    }

    /// Whether two boxes share more than a hair: no line separates them.
    pub fn meets(&self, other: &Self) -> bool {
        [self.along, self.along.perp(), other.along, other.along.perp()].iter().all(|&way| {
            let reach = |read: &Self| {
                read.corners()
                    .iter()
                    .map(|c| c.dot(way))
                    .fold((f64::MAX, f64::MIN), |(low, high), at| (low.min(at), high.max(at)))
            };
            let (a, b) = (reach(self), reach(other));
            a.1.min(b.1) - a.0.max(b.0) > SLACK_PX
        })
    }
}

pub fn of_text(drawing: &Drawing, text: &Text) -> Read {
    let (sin, cos) = angle::sin_cos(text.angle);
    // On paper y runs down.
    let along = DVec2::new(cos, -sin);
    let by = match text.align {
        Align::Start => text.width * 0.5,
        Align::Middle => 0.0,
        Align::End => text.width * -0.5,
    };
    Read {
        what: text.text.clone(),
        middle: drawing.paper_point(text.at) + along * by,
        // From the top of a capital to the foot of a "g".
        half: DVec2::new(text.width, text.style.size * 0.95) * 0.5,
        along,
        is_marker: false,
    }
}

/// All that is read in a drawing, and which finding's figure it is.
pub fn read(drawing: &Drawing) -> Vec<(Read, Option<usize>)> {
    let items = drawing.items.iter().filter_map(|item| {
        let read = match &item.shape {
            Shape::Text(text) => of_text(drawing, text),
            Shape::Dimension(dimension) => of_text(drawing, &dimension.text),
            Shape::Sign(sign) if matches!(item.role, Role::Flag(_)) => Read {
                what: format!("marker {}", sign.text),
                middle: drawing.paper_point(sign.at),
                half: DVec2::splat(sign.reach),
                along: DVec2::X,
                is_marker: true,
            },
            _ => return None,
        };
        let figure = item.finding.filter(|_| item.role == Role::DimensionStops);
        Some((read, figure))
    });
    items.filter(|(read, _)| drawing.window().grown(20.0).holds(read.middle)).collect()
}

/// What is wrong with what is shown now.
pub fn wrong(desk: &Desk) -> Vec<String> {
    let mut wrong = Vec::new();
    let assessment = &desk.answer().assessment;
    for (drawing, _) in desk.drawings() {
        let all = read(drawing);
        for (i, (one, _)) in all.iter().enumerate() {
            for (other, _) in all.iter().skip(i + 1) {
                if (!one.is_marker || !other.is_marker) && one.meets(other) {
                    wrong.push(format!("{:?}: “{}” on “{}”", drawing.projection, one.what, other.what));
                }
            }
        }
        wrong.extend(zones_named_elsewhere(drawing));
        wrong.extend(nameless(drawing, assessment));
        if drawing.projection == Projection::Side {
            let floor = drawing.paper_point(DVec2::ZERO).y;
            let across = |read: &&Read| {
                let (low, high) = (read.middle.y - read.half.y, read.middle.y + read.half.y);
                !read.is_marker && read.along.x > 0.99 && low < floor - SLACK_PX && high > floor + SLACK_PX
            };
            let names = all.iter().map(|(read, _)| read).filter(across);
            wrong.extend(names.map(|read| format!("Side: “{}” across the floor", read.what)));
            continue;
        }
        let stops = pinned(assessment)
            .filter(|told| told.finding.severity == Severity::Stops && told.finding.measured.is_some());
        for told in stops {
            // What goes furthest through a wall tells it for all that goes through it.
            let tells = |index: usize| {
                assessment
                    .findings
                    .get(index)
                    .is_some_and(|own| index == told.index || is_told_by(told.finding, own))
            };
            let figure = all.iter().find(|(_, figure)| figure.is_some_and(tells));
            let seen =
                figure.is_some_and(|(read, _)| read.corners().iter().all(|&p| drawing.window().holds(p)));
            if !seen {
                wrong.push(format!("no figure of {:?} {:?}", told.finding.code(), told.finding.subjects));
            }
        }
    }
    wrong
}

/// Whether a straight line on the paper runs through a box that is read.
fn runs_through(read: &Read, from: DVec2, to: DVec2) -> bool {
    let half = read.half - DVec2::splat(SLACK_PX);
    let within = |p: DVec2| {
        let by = p - read.middle;
        by.dot(read.along).abs() < half.x && by.dot(read.along.perp()).abs() < half.y
    };
    (0..=200_u16).any(|step| within(from.lerp(to, f64::from(step) / 200.0)))
}

/// The lines of an item on the paper, px.
fn lines(drawing: &Drawing, item: &Item) -> Vec<(DVec2, DVec2)> {
    let rings = match &item.shape {
        Shape::Line(points) => vec![points.clone()],
        Shape::Area(rings) => {
            rings.iter().map(|ring| ring.iter().chain(ring.first()).copied().collect()).collect()
        }
        _ => return Vec::new(),
    };
    rings
        .iter()
        .flat_map(|points| {
            points.windows(2).map(|two| (drawing.paper_point(two[0]), drawing.paper_point(two[1])))
        })
        .collect()
}

/// Texts that a line to something else runs through, and texts on a wall's face.
pub fn crossed(drawing: &Drawing, all: &[(Read, Option<usize>)]) -> Vec<String> {
    let mut wrong = Vec::new();
    for item in &drawing.items {
        let what = match item.role {
            Role::Leader(_) | Role::NameLeader => "a leader",
            Role::WallLine => "a wall",
            _ => continue,
        };
        for (from, to) in lines(drawing, item) {
            let texts = all.iter().filter(|(read, _)| !read.is_marker && runs_through(read, from, to));
            wrong.extend(texts.map(|(read, _)| {
                format!("{:?}: {what} of {:?} through “{}”", drawing.projection, item.subject, read.what)
            }));
        }
    }
    wrong
}

/// Further off than this a figure is not read as its thing's, px before letters are enlarged.
pub const MOST_FAR_PX: f64 = 48.0;

/// Figures of what stops that stand far from their line, or from what they are about, px before letters are enlarged.
pub fn far_figures(drawing: &Drawing, assessment: &Assessment, most: f64) -> Vec<String> {
    let mut far = Vec::new();
    for item in drawing.items.iter().filter(|item| item.role == Role::DimensionStops) {
        let (text, to) = match &item.shape {
            Shape::Dimension(own) => {
                let ends = [own.line_from, own.line_to].map(|p| drawing.paper_point(p));
                (&own.text, Bounds::around(ends))
            }
            Shape::Text(text) => {
                let finding = item.finding.and_then(|index| assessment.findings.get(index));
                let place = finding.map(|own| drawing.paper_point_of(own.place));
                let body = finding.and_then(|own| drawing.box_of(own.subjects.first()?));
                (text, body.or(place.map(|at| Bounds { low: at, high: at })))
            }
            _ => continue,
        };
        let (Some(to), read) = (to, of_text(drawing, text)) else { continue };
        let Some(own) = Bounds::around(read.corners()) else { continue };
        let gap = (own.low - to.high).max(to.low - own.high).max(DVec2::ZERO).length();
        if gap > most {
            far.push(format!("{:?}: “{}” stands {gap:.0} px off", drawing.projection, text.text));
        }
    }
    far
}

/// Names of zones that stand neither inside their own zone nor are led to it.
fn zones_named_elsewhere(drawing: &Drawing) -> Vec<String> {
    let mut wrong = Vec::new();
    for item in drawing.items.iter().filter(|item| item.role == Role::LabelZone) {
        let Shape::Text(text) = &item.shape else { continue };
        let own = |other: &&Item| other.subject == item.subject;
        if drawing.items.iter().filter(own).any(|other| other.role == Role::NameLeader) {
            continue;
        }
        let edges: Vec<(DVec2, DVec2)> = (drawing.items.iter().filter(own))
            .filter(|other| matches!(other.role, Role::ZoneEdge | Role::OtherZoneEdge))
            .flat_map(|other| lines(drawing, other))
            .collect();
        let holds = |p: &DVec2| {
            edges.iter().fold(false, |inside, (a, b)| {
                let crosses =
                    (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x);
                inside != crosses
            })
        };
        let mut read = of_text(drawing, text);
        read.half -= DVec2::splat(SLACK_PX);
        if !read.corners().iter().all(holds) {
            wrong.push(format!("{:?}: “{}” is not inside its own zone", drawing.projection, read.what));
        }
    }
    wrong
}

/// How many figures of kept dimensions can be read.
pub fn kept_figures(desk: &Desk) -> usize {
    let items = desk.drawings().flat_map(|(drawing, _)| &drawing.items);
    items.filter(|item| item.role == Role::KeptDimension && matches!(item.shape, Shape::Dimension(_))).count()
}

/// Texts of the panels that lie on one another, as far as they are seen.
pub fn texts_on_texts(screen: &Harness<'_, Desk>) -> Vec<String> {
    fn texts(shape: &egui::Shape, clip: egui::Rect, all: &mut Vec<(String, egui::Rect)>) {
        match shape {
            egui::Shape::Text(text) => {
                let seen = text.visual_bounding_rect().intersect(clip);
                if seen.is_positive() && !text.galley.text().trim().is_empty() {
                    all.push((text.galley.text().to_owned(), seen));
                }
            }
            egui::Shape::Vec(shapes) => shapes.iter().for_each(|own| texts(own, clip, all)),
            _ => {}
        }
    }
    let paper: Vec<egui::Rect> = screen.state().drawings().map(|(_, rect)| rect).collect();
    let mut all = Vec::new();
    for clipped in screen.output().shapes.iter().filter(|own| !paper.contains(&own.clip_rect)) {
        texts(&clipped.shape, clipped.clip_rect, &mut all);
    }
    let mut wrong = Vec::new();
    for (i, (one, a)) in all.iter().enumerate() {
        for (other, b) in all.iter().skip(i + 1) {
            let both = a.intersect(*b);
            if both.width() > SLACK_PX as f32 && both.height() > SLACK_PX as f32 {
                wrong.push(format!("“{one}” on “{other}”"));
            }
        }
    }
    assert!(all.len() > 20, "{} texts", all.len());
    wrong
}

/// Whether the other goes through the same wall, and as far.
fn is_told_by(finding: &Finding, other: &Finding) -> bool {
    let depth = |own: &Finding| match own.measured {
        Some(Quantity::Length(depth)) => depth,
        _ => 0.0,
    };
    [finding, other].iter().all(|own| own.code() == Code::OutsideRoom)
        && matches!(finding.subjects.get(1), Some(Subject::Wall(_) | Subject::Opening(_)))
        && finding.subjects.get(1) == other.subjects.get(1)
        && depth(other) >= depth(finding)
}

pub fn letters(large: bool) -> Letters {
    if large { Letters::LARGE } else { Letters::default() }
}

/// What takes part in the question whose a name or a marker is: things, the car, targets.
fn bodies(drawing: &Drawing) -> Vec<(Subject, Bounds)> {
    let is_body = |own: &Subject| matches!(own, Subject::Thing(_) | Subject::Car | Subject::Target(_));
    // What hangs above is seen through.
    let hangs = |own: &Subject| {
        drawing.items.iter().any(|item| item.role == Role::Overhead && item.subject.as_ref() == Some(own))
    };
    drawing.boxes().into_iter().filter(|(own, _)| is_body(own) && !hangs(own)).collect()
}

/// The gap between a box that is read and a body, px; nothing where they share more than a hair.
fn gap(read: &Read, body: &Bounds) -> f64 {
    let half = DVec2::new(read.half.dot(read.along.abs()), read.half.dot(read.along.perp().abs()));
    let (low, high) = (read.middle - half + SLACK_PX, read.middle + half - SLACK_PX);
    (body.low - high).max(low - body.high).max(DVec2::ZERO).length()
}

/// Markers and names of things, without a line to their own, that stand on another body than their own, or markers nearer to one.
pub fn astray(drawing: &Drawing, assessment: &Assessment) -> Vec<String> {
    let bodies = bodies(drawing);
    let mut wrong = Vec::new();
    for item in &drawing.items {
        let (read, subject) = match (&item.shape, item.role, item.finding) {
            (Shape::Sign(sign), Role::Flag(_), Some(finding)) => {
                let middle = drawing.paper_point(sign.at);
                let half = DVec2::splat(sign.reach);
                let what = format!("marker {}", sign.text);
                let subject = assessment.findings.get(finding).and_then(|own| own.subjects.first());
                (Read { what, middle, half, along: DVec2::X, is_marker: true }, subject)
            }
            (Shape::Text(text), Role::Label | Role::LabelSoft, None) => {
                let is_led = |other: &Item| other.role == Role::NameLeader && other.subject == item.subject;
                if drawing.items.iter().any(is_led) {
                    continue;
                }
                (of_text(drawing, text), item.subject.as_ref())
            }
            _ => continue,
        };
        let subject = match subject {
            Some(Subject::Stand(id)) => Subject::Target(id.clone()),
            Some(own) => own.clone(),
            None => continue,
        };
        let Some((_, own)) = bodies.iter().find(|(body, _)| *body == subject) else { continue };
        let own_gap = gap(&read, own);
        for (other, body) in bodies.iter().filter(|(body, _)| *body != subject) {
            let other_gap = gap(&read, body);
            if (other_gap == 0.0 && own_gap > 0.0) || (read.is_marker && other_gap + ALIKE_PX < own_gap) {
                let view = drawing.projection;
                wrong.push(format!("{view:?}: “{}” of {subject:?} is read as of {other:?}", read.what));
                break;
            }
        }
    }
    wrong
}

/// Gaps that differ by less are alike to the eye, px.
const ALIKE_PX: f64 = 4.0;

/// Things that stop the aiming and have no name in a view that shows them.
fn nameless(drawing: &Drawing, assessment: &Assessment) -> Vec<String> {
    let stops = assessment.findings.iter().filter(|own| own.severity == Severity::Stops);
    let things = stops.filter_map(|own| own.subjects.first().filter(|own| matches!(own, Subject::Thing(_))));
    let is_nameless = |own: &&Subject| {
        let seen = drawing.box_of(own).is_some_and(|body| drawing.window().holds(body.centre()));
        let name = |item: &Item| {
            item.role == Role::Label
                && item.subject.as_ref() == Some(own)
                && matches!(item.shape, Shape::Text(_))
        };
        seen && !drawing.items.iter().any(name)
    };
    things.filter(is_nameless).map(|own| format!("{:?}: {own:?} has no name", drawing.projection)).collect()
}
