//! Role by role: how it is painted. Lines by importance: walls and car 2.2 px, what a finding is about and how much it is in
//! the way 1.7 px, edges 1.2 px, things in nobody's way 1.0 px, dimensions and construction 0.8 px.

use baywright_planner::model::FloorFeatureKind;
use baywright_planner::{Severity, Verdict};

use super::{Colour, Fill, Paint, Palette, Stroke, hatch};
use crate::role::Role;

const HEAVY: f64 = 2.2;
const THING: f64 = 1.7;
const EDGE: f64 = 1.2;
const QUIET: f64 = 1.0;
const LIGHT: f64 = 0.8;

const DASH_ZONE: &[f64] = &[9.0, 4.0];
const DASH_OTHER_ZONE: &[f64] = &[9.0, 3.0, 2.5, 3.0];
/// What hangs above: short and even, as hidden edges are after ISO 128.
const DASH_OVERHEAD: &[f64] = &[4.0, 3.0];
/// Where a movable thing would stand: long, double-dotted, after ISO 128.
const DASH_ELSEWHERE: &[f64] = &[12.0, 3.0, 2.0, 3.0, 2.0, 3.0];
/// What local rules want free.
const DASH_FREE: &[f64] = &[1.5, 3.0];
const DASH_CENTRE: &[f64] = &[14.0, 4.0, 3.0, 4.0];
const DASH_RUN: &[f64] = &[3.0, 3.0];
const DASH_HIDDEN: &[f64] = &[6.0, 3.0];
const DASH_JOINT: &[f64] = &[2.0, 2.0];

pub(super) fn paint(p: &Palette, role: Role) -> Paint {
    let stroke = |colour: Colour, width: f64, dash: &'static [f64]| Some(Stroke { colour, width, dash });
    let full = |colour, width| stroke(colour, width, &[]);
    let lines = |stroke| (Fill::None, stroke);
    let (fill, stroke) = match role {
        Role::Floor => (Fill::Solid(p.sheet), None),
        Role::Grid => lines(full(p.grid, 1.0)),
        Role::Beyond => (Fill::Solid(p.sheet), stroke(p.soft, LIGHT, DASH_HIDDEN)),
        // Told by its ground: a line as heavy as a wall's would be one.
        Role::OtherBay => lines(full(p.soft.faded(0.55), QUIET)),
        Role::OwnBay => (Fill::Solid(p.body.faded(0.45)), full(p.soft, EDGE)),
        Role::KeepFree => (Fill::Hatch(hatch::keep_free(p)), stroke(p.ready, 1.4, DASH_FREE)),
        Role::Runway => (Fill::Solid(p.soft.faded(0.14)), full(p.soft, EDGE)),
        Role::FloorFeature(FloorFeatureKind::Drain) => (Fill::Hatch(hatch::grate(p)), full(p.soft, LIGHT)),
        Role::FloorFeature(FloorFeatureKind::Pit) => (Fill::Hatch(hatch::pit(p)), full(p.ink, EDGE)),
        Role::FloorFeature(FloorFeatureKind::Joint) => (Fill::None, stroke(p.soft, 1.0, DASH_JOINT)),
        Role::Wall(material) => (Fill::Hatch(hatch::of_wall(p, material)), None),
        Role::WallLine => lines(full(p.ink, HEAVY)),
        Role::Opening => (Fill::Solid(p.paper), full(p.ink, 1.0)),
        Role::OpeningLine => lines(stroke(p.soft, 1.4, DASH_HIDDEN)),
        Role::DoorSwing => lines(full(p.soft, LIGHT)),
        Role::ZoneFill => (Fill::Hatch(hatch::zone(p)), None),
        Role::ZoneEdge => lines(stroke(p.beam, 1.3, DASH_ZONE)),
        Role::OtherZoneFill => (Fill::Hatch(hatch::other_zone(p)), None),
        Role::OtherZoneEdge => lines(stroke(p.beam, 1.3, DASH_OTHER_ZONE)),
        Role::BeamFill => (Fill::Solid(p.beam.faded(0.1)), None),
        Role::BeamEdge => lines(full(p.beam, LIGHT)),
        Role::ThingAside(material) => (Fill::Hatch(hatch::aside(p, material)), full(p.soft.faded(0.7), 1.0)),
        Role::CarBody => (Fill::Solid(p.body), full(p.ink, HEAVY)),
        Role::CarLine => lines(full(p.ink.faded(0.45), LIGHT)),
        Role::CarGlass => (Fill::Solid(p.sheet.faded(0.8)), full(p.ink, LIGHT)),
        Role::Tyre => (Fill::Solid(p.soft), full(p.ink, LIGHT)),
        Role::Rim => (Fill::Solid(p.sheet.faded(0.75)), None),
        Role::CentreLine => lines(stroke(p.soft, 0.9, DASH_CENTRE)),
        Role::Run => lines(stroke(p.soft, LIGHT, DASH_RUN)),
        Role::StandBase => (Fill::Solid(p.sheet.faded(0.7)), full(p.ink, EDGE)),
        Role::StandMast => (Fill::Solid(p.soft), full(p.ink, EDGE)),
        Role::Thing(material) => (Fill::Hatch(hatch::of_thing(p, material)), full(p.ink, THING)),
        Role::ThingLine => lines(full(p.ink, LIGHT)),
        Role::QuietThing(material) => (Fill::Hatch(hatch::quiet(p, material)), full(p.soft, QUIET)),
        Role::QuietThingLine => lines(full(p.soft.faded(0.7), LIGHT)),
        Role::WallFaced(material) => (Fill::Hatch(hatch::faced(p, material)), full(p.soft, EDGE)),
        Role::OpeningFaced => (Fill::Solid(p.paper), full(p.soft, EDGE)),
        Role::StandFaced => (Fill::Solid(p.soft), full(p.ink, LIGHT)),
        Role::TargetRim => (Fill::Solid(p.ink), full(p.ink, 1.0)),
        Role::TargetFace => (Fill::Solid(p.sheet), full(p.ink, HEAVY)),
        Role::Overhead => lines(stroke(p.soft, QUIET, DASH_OVERHEAD)),
        Role::OverheadLine => lines(stroke(p.soft.faded(0.6), LIGHT, DASH_OVERHEAD)),
        Role::Overlap(severity) => (Fill::Hatch(hatch::overlap(p, severity)), full(p.sign(severity), EDGE)),
        Role::OverlapAside(severity) => {
            (Fill::Hatch(hatch::overlap_aside(p, severity)), full(p.sign(severity).faded(0.6), 1.0))
        }
        Role::OutOfTheWay => (Fill::Solid(p.ink.faded(0.13)), stroke(p.ink, THING, DASH_ELSEWHERE)),
        Role::WayOutUnder => lines(full(p.sheet, HEAVY + 3.0)),
        Role::WayOut => lines(full(p.ink, HEAVY)),
        Role::TargetMeant => lines(stroke(p.ink, EDGE, DASH_ELSEWHERE)),
        Role::Target => (Fill::Solid(p.ink), full(p.ink, 1.0)),
        Role::Mat => (Fill::Solid(p.sheet.faded(0.7)), full(p.ink, THING)),
        Role::SightLine => lines(full(p.beam, THING)),
        Role::SightLineHidden => lines(stroke(p.beam, EDGE, DASH_JOINT)),
        Role::PlaceFits => (Fill::Solid(p.ready.faded(0.17)), None),
        Role::PlaceEdge => lines(full(p.ready, EDGE)),
        Role::PlaceOpen => (Fill::Hatch(hatch::place_open(p)), stroke(p.ready, LIGHT, DASH_HIDDEN)),
        Role::Served => (Fill::Solid(p.ready.faded(0.13)), None),
        Role::ServedEdge => lines(full(p.ready.faded(0.7), LIGHT)),
        Role::WayIn => (Fill::Solid(p.beam.faded(0.13)), None),
        Role::WayInEdge => lines(full(p.beam, EDGE)),
        Role::WayInAxle => lines(stroke(p.beam, THING, DASH_CENTRE)),
        Role::WayInTight => (Fill::Solid(p.beam), full(p.sheet, EDGE)),
        Role::EchoWay => lines(full(p.care, HEAVY)),
        Role::EchoBelieved => (Fill::Solid(p.sheet.faded(0.7)), full(p.care, HEAVY)),
        Role::EchoGhost => lines(stroke(p.care, THING, DASH_ELSEWHERE)),
        Role::ViewEdge => lines(full(p.beam, LIGHT)),
        Role::BeamWidth => lines(stroke(p.beam, THING, DASH_HIDDEN)),
        Role::PlaceNow => (Fill::Solid(p.ready), full(p.sheet, EDGE)),
        Role::Shadow => (Fill::Solid(p.stops.faded(0.13)), None),
        Role::ShadowOnTarget => (Fill::Solid(p.stops), full(p.stops, 1.0)),
        Role::Sensor => (Fill::Solid(p.beam), full(p.sheet, 1.0)),
        Role::Mark => lines(full(p.ink, 1.3)),
        Role::PermanentMark => lines(full(p.soft, 1.3)),
        Role::FloorLine => lines(full(p.soft, THING)),
        Role::Hovered => lines(stroke(p.beam, 1.6, DASH_JOINT)),
        Role::Selected => lines(full(p.beam, 2.2)),
        Role::NameLeader => lines(full(p.ink, LIGHT)),
        Role::Dimension => lines(full(p.ink, LIGHT)),
        Role::KeptDimension => lines(full(p.soft, LIGHT)),
        Role::DimensionStops => lines(full(p.stops, THING)),
        Role::DimensionCare => lines(full(p.care, EDGE)),
        Role::LiveDimension => lines(full(p.beam, 1.1)),
        Role::Level => (Fill::Solid(p.beam), None),
        Role::Contour => lines(full(p.soft, LIGHT)),
        Role::Profile => lines(full(p.beam, EDGE)),
        Role::Label | Role::LabelSoft | Role::LabelZone | Role::Verdict | Role::Title | Role::TitleSoft => {
            (Fill::None, None)
        }
        Role::Leader(severity) => (Fill::Solid(p.sign(severity)), full(p.sign(severity), EDGE)),
        Role::Flag(Severity::Note) | Role::KeySign(Severity::Note) => {
            (Fill::Solid(p.sheet), full(p.soft, 1.6))
        }
        // Bright on bright paper: its edge is what is seen first.
        Role::Flag(Severity::Care) | Role::KeySign(Severity::Care) => {
            (Fill::Solid(p.care_sign), full(p.on_care, EDGE))
        }
        Role::VerdictSign(Verdict::ReadyWithCare) => (Fill::Solid(p.care_sign), full(p.on_care, THING)),
        Role::KeySign(severity) => (Fill::Solid(p.sign(severity)), None),
        Role::Flag(severity) => (Fill::Solid(p.sign(severity)), full(p.sheet, 1.5)),
        Role::VerdictSign(verdict) => (Fill::Solid(verdict_colour(p, verdict)), full(p.on_sign, 2.4)),
        Role::Example => lines(full(p.care, EDGE)),
        Role::ExampleText => (Fill::None, None),
        Role::ScaleDark => (Fill::Solid(p.ink), full(p.ink, 1.0)),
        Role::ScaleLight => (Fill::Solid(p.sheet), full(p.ink, 1.0)),
        Role::Shade => (Fill::Solid(p.panel), None),
        Role::Rule => lines(full(p.soft, LIGHT)),
        Role::RuleHeavy => lines(full(p.ink, EDGE)),
        Role::Field => (Fill::Solid(p.sheet), full(p.ink, QUIET)),
    };
    let text = match role {
        Role::LabelSoft | Role::TitleSoft | Role::Flag(Severity::Note) | Role::KeySign(Severity::Note) => {
            p.soft
        }
        Role::LabelZone | Role::LiveDimension | Role::Level => p.beam,
        Role::DimensionStops => p.stops,
        Role::DimensionCare => p.care,
        Role::ExampleText => p.care,
        Role::Flag(Severity::Care)
        | Role::KeySign(Severity::Care)
        | Role::VerdictSign(Verdict::ReadyWithCare) => p.on_care,
        Role::Flag(_) | Role::KeySign(_) | Role::VerdictSign(_) => p.on_sign,
        _ => p.ink,
    };
    let ground = if role.is_furniture() { p.paper } else { p.sheet };
    Paint { fill, stroke, text, mask: ground.faded(0.88) }
}

const fn verdict_colour(p: &Palette, verdict: Verdict) -> Colour {
    match verdict {
        Verdict::NotReady => p.stops,
        Verdict::ReadyWithCare => p.care,
        Verdict::Ready => p.ready,
    }
}
