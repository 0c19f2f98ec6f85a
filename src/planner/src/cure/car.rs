//! Parking the car elsewhere, with marks, targets and zones: the way out when what is in the way cannot move.

use baywright_geometry::protrude::moves_inside;
use baywright_geometry::separate::{exits, heading_from_x};
use baywright_geometry::{Bounds, DVec2, Outline, Polygon, convex};

use super::{WHOLE_MM, apply, caused};
use crate::assessment::{Code, Cure, Facts, Finding, Severity, Step, Subject};
use crate::check::{excluded, walls_bind};
use crate::model::{Arrangement, Id};
use crate::scene::Scene;
use crate::{assess, check};

/// How many places are tried for one finding, and for all findings together: each costs a whole assessment.
const MOST_TRIED: usize = 2;
const MOST_TRIED_IN_ALL: usize = 6;

/// A place of the car that was tried, with what was found there.
struct Tried {
    by: DVec2,
    after: Vec<Finding>,
}

/// The moves of the car that were tried so far.
pub(super) struct Moves<'a> {
    arrangement: &'a Arrangement,
    before: &'a [Finding],
    /// Everything of the set-up that must be inside the room, as one convex outline.
    set_up: Option<Polygon>,
    room: &'a Polygon,
    scene: &'a Scene,
    tried: Vec<Tried>,
}

impl<'a> Moves<'a> {
    pub(super) fn new(arrangement: &'a Arrangement, scene: &'a Scene, before: &'a [Finding]) -> Self {
        Self {
            arrangement,
            before,
            set_up: set_up(scene),
            room: scene.room.with_open_doors(),
            scene,
            tried: Vec::new(),
        }
    }

    /// The way out of a finding that blames no movable thing.
    pub(super) fn cure(&mut self, finding: &Finding) -> Option<Cure> {
        match finding.code {
            Code::OutsideRoom | Code::CarClash | Code::MarkPlace | Code::SightBlocked | Code::RunBlocked
                if matches!(finding.subjects.first(), Some(Subject::Wall(_) | Subject::Opening(_)))
                    || matches!(finding.subjects.get(1), Some(Subject::Wall(_) | Subject::Opening(_))) =>
            {
                self.open_door(finding).or_else(|| self.inside(finding))
            }
            Code::MarkPlace | Code::StandClash => self.off_the_feature(finding),
            Code::WheelOffRunway if finding.severity == Severity::Stops => self.onto_the_runway(finding),
            _ => None,
        }
    }

    /// Away from a thing that stays where it is.
    pub(super) fn away_from(&mut self, id: &Id) -> Option<Cure> {
        let index = self.arrangement.bay.things.iter().position(|thing| thing.id == *id)?;
        let thing = self.arrangement.bay.things.get(index)?;
        let placed = self.scene.things.get(index)?;
        let shares = |span: &baywright_geometry::Span| span.shared(&thing.span).is_some();
        let zones = self
            .scene
            .zones
            .iter()
            .filter(|zone| shares(&zone.prism.span) && excluded(zone.excludes, thing) != Some(false))
            .map(|zone| &zone.prism.outline);
        let solids = self.scene.targets.iter().flat_map(|target| &target.solids).chain(&self.scene.car);
        let solids = solids.filter(|solid| shares(&solid.span)).map(|solid| &solid.outline);
        let regions: Vec<&Outline> = zones.chain(solids).collect();
        // The thing leaves the set-up by `exit`; the set-up leaves the thing by the opposite.
        let moves: Vec<DVec2> =
            exits(&regions, &placed.prism.outline).into_iter().map(|exit| -exit).collect();
        let known = placed.known;
        let is_cured =
            |after: &[Finding]| !after.iter().any(|f| f.severity == Severity::Stops && super::blames(f, id));
        let cure = self.best(moves, is_cured)?;
        let to_be_sure = self.further_from(id, &cure.step, known);
        Some(Cure { to_be_sure, ..cure })
    }

    /// The same way, further by what the thing's place is uncertain by, if that leaves nothing to say of it and stops nothing
    /// that the shorter way does not.
    fn further_from(&mut self, id: &Id, step: &Step, known: f64) -> Option<DVec2> {
        let Step::MoveCar { by } = *step else { return None };
        if known <= 0.0 || self.tried.len() >= MOST_TRIED_IN_ALL {
            return None;
        }
        let further = rounded(by + by.normalize_or_zero() * known);
        let after = assess::judge(&apply(self.arrangement, &Step::MoveCar { by: further })).findings;
        let stops = |found: &[Finding]| found.iter().filter(|f| f.severity == Severity::Stops).count();
        let shorter = self.tried.iter().find(|tried| tried.by == by)?;
        let is_sure = !after.iter().any(|f| super::blames(f, id) && super::may_be_in_the_way(f))
            && stops(&after) <= stops(&shorter.after);
        is_sure.then_some(further)
    }

    fn inside(&mut self, finding: &Finding) -> Option<Cure> {
        let moves = moves_inside(self.room, &self.set_up.clone()?.into());
        let (code, subjects) = (finding.code, finding.subjects.clone());
        self.best(moves, |after| !after.iter().any(|f| f.code == code && f.subjects == subjects))
    }

    /// Off a drain or pit: by the shortest way that takes the mark or the feet off it.
    fn off_the_feature(&mut self, finding: &Finding) -> Option<Cure> {
        let Some(Subject::FloorFeature(id)) = finding.subjects.first() else { return None };
        let feature = self.arrangement.bay.floor_features.iter().find(|f| f.id == *id)?;
        let at = finding.place.truncate();
        let half = DVec2::splat(WHOLE_MM);
        let resting: Outline = match finding.subjects.get(1) {
            Some(Subject::Stand(stand)) => {
                let target = self.scene.targets.iter().find(|t| t.id == *stand)?;
                let feet = target.solids.iter().filter(|solid| solid.span.bottom() <= WHOLE_MM);
                let corners: Vec<DVec2> =
                    feet.flat_map(|s| s.outline.as_polygon().outer().to_vec()).collect();
                convex::hull(&corners)?.into()
            }
            _ => Polygon::rectangle(at - half, at + half).ok()?.into(),
        };
        let moves = exits(&[&feature.outline.clone().into()], &resting);
        let (code, subjects) = (finding.code, finding.subjects.clone());
        self.best(moves, |after| !after.iter().any(|f| f.code == code && f.subjects == subjects))
    }

    /// Square across until the wheel is over the middle of its runway.
    fn onto_the_runway(&mut self, finding: &Finding) -> Option<Cure> {
        let Some(Subject::Runway(id)) = finding.subjects.first() else { return None };
        let runway = self.arrangement.bay.runways.iter().find(|runway| runway.id == *id)?;
        let left = self.scene.bay_from_vehicle.left();
        let off = (runway.outline.bounds().centre() - finding.place.truncate()).dot(left);
        let before = self.before.iter().filter(|f| f.code == Code::WheelOffRunway).count();
        self.best(vec![left * off], |after| {
            after.iter().filter(|f| f.code == Code::WheelOffRunway).count() < before
        })
    }

    /// Opening a shut door, if that is enough.
    fn open_door(&mut self, finding: &Finding) -> Option<Cure> {
        let id = finding.subjects.iter().find_map(|subject| match subject {
            Subject::Opening(id) => Some(id),
            _ => None,
        })?;
        let door = self.arrangement.bay.openings.iter().find(|o| o.id == *id)?;
        if !door.shut || door.free_beyond <= 0.0 {
            return None;
        }
        let step = Step::OpenDoor { door: id.clone() };
        let after = assess::judge(&apply(self.arrangement, &step)).findings;
        let others = |subjects: &[Subject]| -> Vec<Subject> {
            let is_barrier = |s: &&Subject| matches!(s, Subject::Opening(_) | Subject::Wall(_));
            subjects.iter().filter(|s| !is_barrier(s)).cloned().collect()
        };
        let about = others(&finding.subjects);
        let still = after.iter().any(|f| f.code == finding.code && others(&f.subjects) == about);
        (!still).then(|| Cure { step, effort: None, to_be_sure: None, causes: caused(self.before, &after) })
    }

    /// Of the first few moves, and those tried for other findings, the one that cures and causes the fewest stops; the
    /// shorter among equals. A move that serves another finding already goes first, so that one serves all.
    fn best(&mut self, moves: Vec<DVec2>, is_cured: impl Fn(&[Finding]) -> bool) -> Option<Cure> {
        for by in moves.into_iter().take(MOST_TRIED).map(rounded) {
            let known = self.tried.iter().any(|tried| tried.by == by);
            if !known && self.tried.len() < MOST_TRIED_IN_ALL {
                let after = assess::judge(&apply(self.arrangement, &Step::MoveCar { by })).findings;
                self.tried.push(Tried { by, after });
            }
        }
        let stops = |tried: &Tried| tried.after.iter().filter(|f| f.severity == Severity::Stops).count();
        let best = self.tried.iter().filter(|tried| is_cured(&tried.after)).min_by(|a, b| {
            let turned = || heading_from_x(a.by).total_cmp(&heading_from_x(b.by));
            let length = || a.by.length().total_cmp(&b.by.length());
            stops(a).cmp(&stops(b)).then_with(length).then_with(turned)
        })?;
        Some(Cure {
            step: Step::MoveCar { by: best.by },
            effort: None,
            to_be_sure: None,
            causes: caused(self.before, &best.after),
        })
    }

    /// A target that was put somewhere goes back to its mark, if that is enough.
    pub(super) fn stand_on_mark(&mut self, finding: &Finding) -> Option<Cure> {
        let id = finding.subjects.iter().find_map(|subject| match subject {
            Subject::Stand(id) | Subject::Target(id) => Some(id),
            _ => None,
        })?;
        self.scene.targets.iter().find(|target| target.id == *id && target.set != target.meant)?;
        let step = Step::StandOnMark { placement: id.clone() };
        let after = assess::judge(&apply(self.arrangement, &step)).findings;
        let still = after.iter().any(|f| f.code == finding.code && f.subjects == finding.subjects);
        (!still).then(|| Cure { step, effort: None, to_be_sure: None, causes: caused(self.before, &after) })
    }

    /// Where the set-up is longer or wider than the room in the way it stands, no move of the car helps.
    /// Whether this finding says it now.
    pub(super) fn say_too_long(&self, finding: &mut Finding) -> bool {
        if finding.code != Code::OutsideRoom || finding.cure.is_some() || finding.facts != Facts::None {
            return false;
        }
        let Some(set_up) = &self.set_up else { return false };
        let axis = self.scene.bay_from_vehicle.inverse();
        let extent = |ring: &[DVec2]| Bounds::around(ring.iter().map(|&p| axis * p)).map(|b| b.size());
        let (Some(needs), Some(there)) = (extent(set_up.outer()), extent(self.room.outer())) else {
            return false;
        };
        if needs.x > there.x + check::SPEAKS_FROM_MM {
            finding.facts = Facts::TooLong { needs: needs.x, there: there.x };
        } else if needs.y > there.y + check::SPEAKS_FROM_MM {
            finding.facts = Facts::TooWide { needs: needs.y, there: there.y };
        }
        finding.facts != Facts::None
    }
}

/// Everything of the set-up that must be inside the room, as one convex outline.
fn set_up(scene: &Scene) -> Option<Polygon> {
    let zones = scene.zones.iter().filter(|zone| walls_bind(zone.excludes)).map(|zone| &zone.prism);
    let targets = scene.targets.iter().flat_map(|target| &target.solids);
    let corners: Vec<DVec2> = scene
        .car
        .iter()
        .chain(zones)
        .chain(targets)
        .flat_map(|prism| prism.outline.as_polygon().outer().to_vec())
        .collect();
    convex::hull(&corners)
}

/// Whole millimetres, away from where it stood, so that rounding never leaves it in the way.
fn rounded(by: DVec2) -> DVec2 {
    let up = |v: f64| {
        let whole = (v.abs() - 1e-3).ceil().max(0.0);
        if v < 0.0 { -whole } else { whole }
    };
    DVec2::new(up(by.x), up(by.y))
}
