//! What lets daylight into a bay: openings, and walls of glass or mesh between them.

use baywright_geometry::{DVec3, Segment, Span};

use super::SPEAKS_FROM_MM;
use super::finding::Subject;
use crate::model::{Bay, Opening};

/// A rectangle of the building's shell through which daylight comes, or may come.
#[derive(Clone)]
pub(super) struct Pane {
    /// The opening or the wall.
    pub subject: Subject,
    /// Its foot in plan, bay frame, with the inside on its left.
    pub line: Segment,
    /// Its heights above the floor, mm.
    pub span: Span,
    /// Whether light comes through it for certain; else nobody knows.
    pub is_sure: bool,
}

impl Pane {
    /// Its corners in turn, bay frame.
    pub fn corners(&self) -> [DVec3; 4] {
        let (bottom, top) = (self.span.bottom(), self.span.top());
        let Segment { from, to } = self.line;
        [from.extend(bottom), to.extend(bottom), to.extend(top), from.extend(top)]
    }
}

/// All of them: first the openings in their order, then what is left of walls that let light in.
pub(super) fn panes(bay: &Bay) -> impl Iterator<Item = Pane> {
    let openings = bay.openings.iter().filter_map(|own| {
        let is_sure = match own.lets_light_in() {
            Some(true) => true,
            Some(false) => return None,
            None => false,
        };
        let subject = Subject::Opening(own.id.clone());
        Some(Pane { subject, line: bay.opening_line(own)?, span: own.span, is_sure })
    });
    let walls = bay.walls.iter().enumerate().filter(|(_, wall)| wall.lets_light_in());
    let walls = walls.flat_map(|(edge, wall)| {
        let parts = beside_openings(bay, edge).into_iter();
        parts.map(|(line, span)| Pane { subject: Subject::Wall(wall.id.clone()), line, span, is_sure: true })
    });
    openings.chain(walls)
}

/// What is left of a wall up to the ceiling where no opening is, in rectangles.
fn beside_openings(bay: &Bay, edge: usize) -> Vec<(Segment, Span)> {
    let Some((from, to)) = bay.wall_ends(edge) else { return Vec::new() };
    let (length, along) = (from.distance(to), (to - from).normalize_or_zero());
    let own: Vec<&Opening> = bay.openings.iter().filter(|own| own.wall == edge).collect();
    let ends = own.iter().flat_map(|own| [own.from_mm, own.from_mm + own.width_mm]);
    let mut cuts: Vec<f64> = ends.map(|at| at.clamp(0.0, length)).chain([0.0, length]).collect();
    cuts.sort_by(f64::total_cmp);
    let mut left = Vec::new();
    for (&begins, &ends) in cuts.iter().zip(cuts.iter().skip(1)) {
        if ends - begins <= SPEAKS_FROM_MM {
            continue;
        }
        let line = Segment::new(from + along * begins, from + along * ends);
        let middle = (begins + ends) * 0.5;
        let here = own.iter().filter(|own| (own.from_mm..own.from_mm + own.width_mm).contains(&middle));
        let mut heights: Vec<(f64, f64)> = here.map(|own| (own.span.bottom(), own.span.top())).collect();
        heights.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut bottom = 0.0;
        for (starts, stops) in heights.into_iter().chain([(bay.ceiling_mm, bay.ceiling_mm)]) {
            if starts - bottom > SPEAKS_FROM_MM
                && let Ok(span) = Span::new(bottom, starts)
            {
                left.push((line, span));
            }
            bottom = f64::max(bottom, stops);
        }
    }
    left
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::testing::*;

    /// The far wall, 6 m by 3 m, is of glass but for a steel door of 1 m by 2 m: 16 m² in rectangles that share nothing.
    #[test]
    fn a_glass_wall_beside_and_over_its_door() {
        let mut bay = bay();
        bay.walls[1].material = Material::Glass;
        bay.openings = vec![Opening {
            id: "door".into(),
            kind: OpeningKind::SwingDoor,
            wall: 1,
            from_mm: 2_500.0,
            width_mm: 1_000.0,
            span: span(0.0, 2_000.0),
            material: Material::Steel,
            shut: true,
            free_beyond_mm: 0.0,
            is_exit: false,
        }];
        let area = |bay: &Bay| -> f64 {
            panes(bay)
                .map(|own| own.line.from.distance(own.line.to) * (own.span.top() - own.span.bottom()))
                .sum()
        };
        assert!((area(&bay) - (18e6 - 2e6)).abs() < 1.0, "{}", area(&bay));
        assert!(panes(&bay).all(|own| own.subject == Subject::Wall("far wall".into()) && own.is_sure));
        for (material, sure) in [(Material::Glass, true), (Material::Mesh, true), (Material::Unknown, false)]
        {
            bay.openings[0].material = material;
            assert!((area(&bay) - 18e6).abs() < 1.0);
            assert_eq!(panes(&bay).next().unwrap().is_sure, sure);
        }
        // A gap that is said to be shut has nothing that shuts it.
        (bay.openings[0].kind, bay.openings[0].material) = (OpeningKind::Gap, Material::Steel);
        assert!(bay.openings[0].is_open() && panes(&bay).next().unwrap().is_sure);
        bay.walls[1].material = Material::Unknown;
        assert_eq!(panes(&bay).count(), 1);
    }
}
