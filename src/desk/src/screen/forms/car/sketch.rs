//! Small pictures of what a figure measures: a car from the side or from above, and one dimension in the hand's colour.

use baywright_drawing::Theme;
use egui::{Color32, Painter, Pos2, Sense, Shape, Stroke, Ui, Vec2};

use crate::screen::look;

/// What is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::screen) enum Sketch {
    Length,
    Width,
    Height,
    Wheelbase,
    OverhangFront,
    OverhangRear,
    TrackFront,
    TrackRear,
    TyreDiameter,
    TyreWidth,
    Clearance,
    MirrorWidth,
    MirrorAhead,
    MirrorHeight,
    SensorAhead,
    SensorAside,
    SensorHeight,
    SensorEdge,
    LooksLeft,
    LooksUp,
    StandOff,
    TargetHeight,
    ClearAside,
    ClearReach,
    ClearTop,
    TargetAside,
    Outboard,
    FloorLevel,
}

/// Whence the car is seen.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Seen {
    Side,
    Top,
    /// The nose from near, with the sensor in it.
    Near,
    /// Smaller, with a target ahead.
    SideFar,
    TopFar,
}

type At = (f32, f32);

/// Every picture is drawn on a field of 100 by 44, nose to the right, y down.
impl Sketch {
    /// Whence it is seen, and between which two places the dimension stands.
    const fn what(self) -> (Seen, At, At) {
        match self {
            Self::Length => (Seen::Side, (4.0, 42.0), (96.0, 42.0)),
            Self::Width => (Seen::Top, (50.0, 6.0), (50.0, 38.0)),
            Self::Height => (Seen::Side, (46.0, 8.0), (46.0, 41.0)),
            Self::Wheelbase => (Seen::Side, (22.0, 34.0), (78.0, 34.0)),
            Self::OverhangFront => (Seen::Side, (78.0, 34.0), (96.0, 34.0)),
            Self::OverhangRear => (Seen::Side, (4.0, 34.0), (22.0, 34.0)),
            Self::TrackFront => (Seen::Top, (78.0, 9.0), (78.0, 35.0)),
            Self::TrackRear => (Seen::Top, (22.0, 9.0), (22.0, 35.0)),
            Self::TyreDiameter => (Seen::Side, (78.0, 27.0), (78.0, 41.0)),
            Self::TyreWidth => (Seen::Top, (78.0, 6.0), (78.0, 12.0)),
            Self::Clearance => (Seen::Side, (50.0, 34.0), (50.0, 42.0)),
            Self::MirrorWidth => (Seen::Top, (63.0, 1.0), (63.0, 43.0)),
            Self::MirrorAhead => (Seen::Side, (66.0, 17.0), (78.0, 17.0)),
            Self::MirrorHeight => (Seen::Side, (66.0, 17.0), (66.0, 41.0)),
            Self::SensorAhead => (Seen::Side, (78.0, 28.0), (95.0, 28.0)),
            Self::SensorAside => (Seen::Top, (94.0, 22.0), (94.0, 11.0)),
            Self::SensorHeight => (Seen::Side, (94.0, 28.0), (94.0, 41.0)),
            Self::SensorEdge => (Seen::Near, (80.0, 22.0), (80.0, 34.0)),
            Self::LooksLeft => (Seen::TopFar, (60.0, 22.0), (92.0, 8.0)),
            Self::LooksUp => (Seen::SideFar, (60.0, 30.0), (92.0, 16.0)),
            Self::StandOff => (Seen::SideFar, (47.0, 36.0), (94.0, 36.0)),
            Self::TargetHeight => (Seen::SideFar, (94.0, 24.0), (94.0, 41.0)),
            Self::ClearAside => (Seen::TopFar, (76.0, 22.0), (76.0, 2.0)),
            Self::ClearReach => (Seen::TopFar, (58.0, 38.0), (99.0, 38.0)),
            Self::ClearTop => (Seen::SideFar, (76.0, 41.0), (76.0, 8.0)),
            Self::Outboard => (Seen::Top, (78.0, 6.0), (78.0, 0.0)),
            Self::FloorLevel => (Seen::SideFar, (14.0, 43.0), (94.0, 43.0)),
            Self::TargetAside => (Seen::TopFar, (94.0, 22.0), (94.0, 8.0)),
        }
    }
}

const BODY_SIDE: [At; 8] = [
    (4.0, 34.0),
    (4.0, 22.0),
    (16.0, 20.0),
    (28.0, 8.0),
    (58.0, 8.0),
    (74.0, 20.0),
    (95.0, 24.0),
    (96.0, 34.0),
];
const BODY_TOP: [At; 8] = [
    (4.0, 10.0),
    (10.0, 6.0),
    (86.0, 6.0),
    (96.0, 14.0),
    (96.0, 30.0),
    (86.0, 38.0),
    (10.0, 38.0),
    (4.0, 34.0),
];
const WHEELS: [At; 2] = [(22.0, 34.0), (78.0, 34.0)];
const GROUND: f32 = 41.0;
const FAR: f32 = 0.6;

/// Paints a sketch of a size.
pub(super) fn show(ui: &mut Ui, theme: Theme, sketch: Sketch, size: Vec2) {
    let (rect, _) = ui.allocate_exact_size(size, Sense::hover());
    if !ui.is_rect_visible(rect) {
        return;
    }
    let palette = theme.palette();
    let (soft, beam, body) =
        (look::colour(palette.soft), look::colour(palette.beam), look::colour(palette.body));
    let by = (rect.width() / 100.0).min(rect.height() / 44.0);
    let corner = rect.center() - Vec2::new(50.0, 22.0) * by;
    let on_field = |(x, y): At| corner + Vec2::new(x, y) * by;
    let (seen, from, to) = sketch.what();
    let far = matches!(seen, Seen::SideFar | Seen::TopFar);
    let side = matches!(seen, Seen::Side | Seen::SideFar);
    // The smaller car stands on the same ground, or about the same middle line.
    let of_car = |(x, y): At| -> Pos2 {
        let about = if side { GROUND } else { 22.0 };
        let (x, y) = if far { (x * FAR, about + (y - about) * FAR) } else { (x, y) };
        on_field((x, y))
    };
    let on = ui.painter();
    let line = Stroke::new(1.0, soft);
    if seen == Seen::Near {
        // A piece of the front, and the sensor's face in it with its middle.
        let nose = [(4.0, 6.0), (60.0, 6.0), (64.0, 40.0), (4.0, 40.0)].map(on_field).to_vec();
        on.add(Shape::convex_polygon(nose, body, line));
        let face = [(56.0, 10.0), (68.0, 10.0), (68.0, 34.0), (56.0, 34.0)].map(on_field).to_vec();
        on.add(Shape::convex_polygon(face, body, Stroke::new(1.5, soft)));
        on.extend(Shape::dashed_line(&[(56.0, 22.0), (92.0, 22.0)].map(on_field), line, 3.0, 2.0));
        dimension(on, [on_field(from), on_field(to)], beam);
        return;
    }
    let outline: Vec<Pos2> = (if side { BODY_SIDE } else { BODY_TOP }).map(of_car).to_vec();
    on.add(Shape::convex_polygon(outline, body, line));
    if side {
        for wheel in WHEELS {
            on.circle(of_car(wheel), 7.0 * by * if far { FAR } else { 1.0 }, body, line);
        }
        on.line_segment([on_field((0.0, GROUND)), on_field((100.0, GROUND))], line);
    } else {
        let middle = [on_field((0.0, 22.0)), on_field((100.0, 22.0))];
        on.extend(Shape::dashed_line(&middle, line, 4.0, 2.0));
    }
    if far {
        let target = if side { [(94.0, 18.0), (94.0, GROUND)] } else { [(94.0, 12.0), (94.0, 32.0)] };
        on.line_segment(target.map(on_field), Stroke::new(2.0, soft));
    }
    dimension(on, [on_field(from), on_field(to)], beam);
}

/// A line from place to place with a short stroke across at each end.
fn dimension(on: &Painter, [a, b]: [Pos2; 2], beam: Color32) {
    let strong = Stroke::new(1.8, beam);
    on.line_segment([a, b], strong);
    let across = (b - a).normalized().rot90() * 3.0;
    for end in [a, b] {
        on.line_segment([end - across, end + across], strong);
    }
}
