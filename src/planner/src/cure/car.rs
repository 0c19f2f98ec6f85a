//! Parking the car elsewhere, with marks, targets and zones: the way out when what is in the way cannot move.

use baywright_geometry::overlap::overlaps;
use baywright_geometry::protrude::moves_inside;
use baywright_geometry::separate::{EQUAL_MOVES_MM, exits, heading_from_x};
use baywright_geometry::{Bounds, Circle, DVec2, Outline, Polygon, convex};

use super::parking::{LOOKED_WITHIN_MM, places, rooms, set_up};
use super::{Case, WHOLE_MM, apply, caused};
use crate::assessment::{Code, Cure, Facts, Finding, Severity, Shorter, Step, Subject, TooLarge};
use crate::check::{self, Remedy, claim};
use crate::judge::judge;
use crate::model::{Id, ParkedKnown, Wheel};
use crate::scene::{PlacedThing, Scene};

/// How many places are tried for one finding, and for all findings together: each costs a whole assessment.
const MOST_TRIED: usize = 2;
const MOST_TRIED_IN_ALL: usize = 8;

/// Two moves whose directions differ by less, rad, go the same way: moves are rounded to whole millimetres.
const SAME_WAY: f64 = 0.01;

/// A place of the car that was tried, with what was found there.
struct Tried {
    by: DVec2,
    after: Vec<Finding>,
}

/// The moves of the car that were tried so far.
pub(super) struct Moves<'a> {
    case: &'a Case<'a>,
    /// Everything of the set-up that must be inside the room, as one convex outline.
    set_up: Option<Polygon>,
    room: &'a Polygon,
    /// Where the set-up is clear of everything.
    places: Option<Vec<DVec2>>,
    tried: Vec<Tried>,
}

impl<'a> Moves<'a> {
    pub(super) fn new(case: &'a Case<'a>) -> Self {
        let room = case.scene.room.with_open_doors();
        Self { case, set_up: set_up(&case.claims), room, places: None, tried: Vec::new() }
    }

    /// The way out of a finding that blames no movable thing.
    pub(super) fn cure(&mut self, finding: &Finding, remedy: Remedy) -> Option<Cure> {
        match remedy {
            Remedy::IntoRoom => self.open_door(finding).or_else(|| self.inside(finding)),
            Remedy::OffFeature => self.off_the_feature(finding),
            Remedy::OntoRunways => self.onto_the_runway(finding),
            Remedy::CarClear => self.all_clear(),
            Remedy::OffOther => self.off_the_other(finding),
            Remedy::IntoBay => self.back_in_its_bay(finding).or_else(|| self.keep_empty(finding)),
            Remedy::None | Remedy::ThingOut | Remedy::ThingFurther => None,
        }
    }

    /// Away from a thing that stays where it is.
    pub(super) fn away_from(&mut self, id: &Id) -> Option<Cure> {
        let index = self.case.arrangement.bay.things.iter().position(|thing| thing.id == *id)?;
        let thing = self.case.arrangement.bay.things.get(index)?;
        let placed = self.case.scene.things.get(index)?;
        let regions: Vec<Outline> =
            claim::of_car(&self.case.claims, thing).map(|(_, region)| region).collect();
        let regions: Vec<&Outline> = regions.iter().collect();
        // The thing leaves the set-up by `exit`; the set-up leaves the thing by the opposite. First where everything else
        // is left too.
        let exits = exits(&regions, &placed.prism.outline).into_iter().map(|exit| -exit);
        let moves: Vec<DVec2> = self.places().iter().copied().chain(exits.take(MOST_TRIED)).collect();
        let is_cured =
            |after: &[Finding]| !after.iter().any(|f| f.severity == Severity::Stops && super::blames(f, id));
        let cure = self.best(moves, is_cured)?;
        let further = self.further_from(placed, id, &cure.step);
        let cure = cure.further(further);
        let at_least =
            cure.at_least.or_else(|| self.just_clears(&cure.step, is_cured).map(Shorter::ThisAlone));
        Some(Cure { at_least, ..cure })
    }

    /// The shortest move in the same direction that was tried and does.
    fn just_clears(&self, step: &Step, is_cured: impl Fn(&[Finding]) -> bool) -> Option<DVec2> {
        let Step::MoveCar { by: further } = *step else { return None };
        let same_way = |by: DVec2| by.normalize_or_zero().distance(further.normalize_or_zero()) < SAME_WAY;
        let shorter = self
            .tried
            .iter()
            .map(|tried| (tried.by, &tried.after))
            .filter(|(by, after)| by.length() < further.length() && same_way(*by) && is_cured(after));
        shorter.map(|(by, _)| by).min_by(|a, b| a.length().total_cmp(&b.length()))
    }

    fn places(&mut self) -> &[DVec2] {
        self.places.get_or_insert_with(|| places(self.case, |_| true))
    }

    /// The same way, further by what the thing's place and the car's are uncertain by, with what that causes, if it leaves
    /// nothing to say of the thing and stops nothing that the shorter way does not.
    fn further_from(&mut self, placed: &PlacedThing, id: &Id, step: &Step) -> Option<(DVec2, Vec<Finding>)> {
        let Step::MoveCar { by } = *step else { return None };
        // Seen from the car the thing goes the other way.
        let parked = super::parked_anew(self.case);
        let margin = super::margin(self.case, placed, -by, parked);
        // All of where the thing may be counts, and that reaches farther from the car than the thing as it is drawn.
        let sway = |far: f64| check::sway_if(self.case.arrangement, parked, far);
        let margin = margin + sway(margin) - sway(0.0);
        let may_meet =
            |f: &Finding| f.code() == Code::CarPlace && f.subjects.contains(&Subject::Thing(id.clone()));
        self.further_by(by, margin, |f| may_meet(f) || (super::blames(f, id) && super::may_be_in_the_way(f)))
    }

    /// The same for whatever is unsure after the shorter way.
    fn further_by(
        &self,
        by: DVec2,
        margin: f64,
        is_unsure: impl Fn(&Finding) -> bool,
    ) -> Option<(DVec2, Vec<Finding>)> {
        let shorter = self.tried.iter().find(|tried| tried.by == by)?;
        if margin <= 0.0 || !shorter.after.iter().any(&is_unsure) {
            return None;
        }
        let further = rounded(self.case.scene, by + by.normalize_or_zero() * margin);
        let after = judge(&apply(self.case.arrangement, &Step::MoveCar { by: further })).findings;
        let is_sure =
            !after.iter().any(&is_unsure) && super::minded(&after).0 <= super::minded(&shorter.after).0;
        is_sure.then(|| (further, caused(self.case.before, &after)))
    }

    /// Where nothing is too near to tell any more; if there is no such place, a tape is better than nothing.
    fn all_clear(&mut self) -> Option<Cure> {
        let moves = self.places().to_vec();
        let tape = Cure { step: Step::TapeCar, effort: None, at_least: None, causes: Vec::new() };
        let is_planned = self.case.arrangement.parked_known == ParkedKnown::Planned;
        let cure = self.best(moves, |after| !after.iter().any(|f| f.code() == Code::CarPlace));
        cure.or_else(|| is_planned.then_some(tape))
    }

    /// Where neither this set-up nor what is done at the same time is stopped by the other.
    fn off_the_other(&mut self, finding: &Finding) -> Option<Cure> {
        let Facts::Beside { set_up, .. } = &finding.facts else { return None };
        let moves = self.places().to_vec();
        let is_still = |f: &Finding| {
            f.severity == Severity::Stops
                && matches!(&f.facts, Facts::Beside { set_up: other, .. } if other == set_up)
        };
        self.best(moves, |after| !after.iter().any(is_still))
    }

    fn inside(&mut self, finding: &Finding) -> Option<Cure> {
        let set_up = self.set_up.clone()?.into();
        let rooms = rooms(self.case);
        let moves =
            rooms.iter().flat_map(|room| moves_inside(room, &set_up).into_iter().take(MOST_TRIED)).collect();
        let (code, subjects) = (finding.code(), finding.subjects.clone());
        self.best(moves, |after| !after.iter().any(|f| f.code() == code && f.subjects == subjects))
    }

    /// Back into the bay of the hall that it is aimed in, with all that it uses of the floor, where that costs nothing: by as much as
    /// where the car stands then is uncertain by, else just into it.
    fn back_in_its_bay(&mut self, finding: &Finding) -> Option<Cure> {
        let Case { arrangement, scene, .. } = *self.case;
        let own = check::own_bay(arrangement)?;
        let used = check::used_floor(&check::Context::new(arrangement, scene));
        let (axle, parked) = (arrangement.parked.origin(), super::parked_anew(self.case));
        let corners = |sure: bool| -> Vec<DVec2> {
            let all = used.iter().filter_map(|(outline, sway)| {
                // Parked anew it is known as planned, if it was taped.
                let then = check::sway_if(arrangement, parked, check::farthest_of(outline, axle));
                let by = if sure { then.max(*sway) } else { 0.0 };
                super::grown(outline, by, arrangement.parked.heading())
            });
            all.flat_map(|own| own.as_polygon().outer().to_vec()).collect()
        };
        let moves = [true, false].into_iter().filter_map(|sure| convex::hull(&corners(sure)));
        let moves = moves.flat_map(|all| moves_inside(&own.outline, &all.into()).into_iter().take(1));
        let moves = moves.filter(|by| *by != DVec2::ZERO && by.length() <= LOOKED_WITHIN_MM).collect();
        let (code, first) = (finding.code(), finding.subjects.first());
        let is_left =
            |f: &Finding| f.code() == code && f.severity != Severity::Note && f.subjects.first() == first;
        let cure = self.best(moves, |after| !after.iter().any(is_left))?;
        cure.causes.is_empty().then_some(cure)
    }

    /// The other bay is kept empty, if that is enough.
    fn keep_empty(&self, finding: &Finding) -> Option<Cure> {
        let Some(Subject::HallBay(bay)) = finding.subjects.first() else { return None };
        let own = self.case.arrangement.in_bay.as_ref()?;
        if bay == own {
            return None;
        }
        let step = Step::KeepEmpty { bay: bay.clone() };
        let after = judge(&apply(self.case.arrangement, &step)).findings;
        let still = |f: &Finding| {
            f.code() == finding.code()
                && f.severity != Severity::Note
                && f.subjects.first() == finding.subjects.first()
        };
        (!after.iter().any(still)).then(|| Cure {
            step,
            effort: None,
            at_least: None,
            causes: caused(self.case.before, &after),
        })
    }

    /// Off a drain or pit: by the shortest way that takes the mark, the feet or the tyre off it, and by what both places are
    /// uncertain by further.
    fn off_the_feature(&mut self, finding: &Finding) -> Option<Cure> {
        let Some(Subject::FloorFeature(id)) = finding.subjects.first() else { return None };
        let feature = self.case.arrangement.bay.floor_features.iter().find(|f| f.id == *id)?;
        let at = finding.place.truncate();
        let resting: Outline = match finding.subjects.get(1) {
            Some(Subject::Stand(stand)) => {
                let target = self.case.scene.targets.iter().find(|t| t.id == *stand)?;
                let feet = target.solids.iter().filter(|solid| solid.span.bottom() <= WHOLE_MM);
                let corners: Vec<DVec2> =
                    feet.flat_map(|s| s.outline.as_polygon().outer().to_vec()).collect();
                convex::hull(&corners)?.into()
            }
            Some(Subject::Car) => {
                let tyres = self.case.scene.tyres_up_to(self.case.arrangement, feature.proud_mm);
                match finding.facts {
                    Facts::WheelPlace(wheel) => {
                        tyres.into_iter().nth(Wheel::ALL.iter().position(|own| *own == wheel)?)?.into()
                    }
                    // The tyre that bulges over it; a body that is in it is let be.
                    _ => {
                        let feature = feature.outline.clone().into();
                        tyres.into_iter().map(Outline::from).find(|tyre| overlaps(tyre, &feature))?
                    }
                }
            }
            _ => Circle::new(at, WHOLE_MM).ok()?.into(),
        };
        let mut moves = exits(&[&feature.outline.clone().into()], &resting);
        moves.truncate(MOST_TRIED);
        let (code, subjects) = (finding.code(), finding.subjects.clone());
        let cure =
            self.best(moves, |after| !after.iter().any(|f| f.code() == code && f.subjects == subjects))?;
        let Step::MoveCar { by } = cure.step else { return Some(cure) };
        let arrangement = self.case.arrangement;
        let far = check::farthest_of(&resting, arrangement.parked.origin());
        let margin = arrangement.shop.within(arrangement.bay.walls_known)
            + check::sway_if(arrangement, super::parked_anew(self.case), far);
        let further = self.further_by(by, margin, |f| {
            f.is_only_unsure() && (f.subjects.first() == subjects.first() || f.code() == Code::CarPlace)
        });
        Some(cure.further(further))
    }

    /// Square across until the wheel is over the middle of its runway.
    fn onto_the_runway(&mut self, finding: &Finding) -> Option<Cure> {
        let Some(Subject::Runway(id)) = finding.subjects.first() else { return None };
        let runway = self.case.arrangement.bay.runways.iter().find(|runway| runway.id == *id)?;
        let left = self.case.scene.bay_from_vehicle.left();
        let off = (runway.outline.bounds().centre() - finding.place.truncate()).dot(left);
        // With one of two wheels on it the same would be said of the other.
        let is_same = |f: &Finding| f.code() == Code::WheelOffRunway && f.subjects == finding.subjects;
        self.best(vec![left * off], |after| !after.iter().any(is_same))
    }

    /// Opening a shut door, if that is enough.
    fn open_door(&mut self, finding: &Finding) -> Option<Cure> {
        let id = finding.subjects.iter().find_map(|subject| match subject {
            Subject::Opening(id) => Some(id),
            _ => None,
        })?;
        let door = self.case.arrangement.bay.openings.iter().find(|o| o.id == *id)?;
        if door.is_open() || door.free_beyond_mm <= 0.0 {
            return None;
        }
        let step = Step::OpenDoor { door: id.clone() };
        let after = judge(&apply(self.case.arrangement, &step)).findings;
        let others = |subjects: &[Subject]| -> Vec<Subject> {
            let is_barrier = |s: &&Subject| matches!(s, Subject::Opening(_) | Subject::Wall(_));
            subjects.iter().filter(|s| !is_barrier(s)).cloned().collect()
        };
        let about = others(&finding.subjects);
        let still = after.iter().any(|f| f.code() == finding.code() && others(&f.subjects) == about);
        (!still).then(|| Cure {
            step,
            effort: None,
            at_least: None,
            causes: caused(self.case.before, &after),
        })
    }

    /// Of a few moves, and those tried for other findings, the one that cures and leaves the least to be minded; the shorter
    /// among equals.
    fn best(&mut self, moves: Vec<DVec2>, is_cured: impl Fn(&[Finding]) -> bool) -> Option<Cure> {
        let scene = self.case.scene;
        for by in moves.into_iter().map(|by| rounded(scene, by)) {
            let known = self.tried.iter().any(|tried| tried.by.distance(by) <= EQUAL_MOVES_MM);
            if !known && self.tried.len() < MOST_TRIED_IN_ALL {
                let after = judge(&apply(self.case.arrangement, &Step::MoveCar { by })).findings;
                self.tried.push(Tried { by, after });
            }
        }
        let best = self.tried.iter().filter(|tried| is_cured(&tried.after)).min_by(|a, b| {
            let heading = |by| heading_from_x(scene.in_car_directions(by));
            let turned = || heading(a.by).total_cmp(&heading(b.by));
            // Of moves as long as each other rounding does not choose.
            let whole = |by: DVec2| (by.length() / EQUAL_MOVES_MM).round();
            let length = || whole(a.by).total_cmp(&whole(b.by));
            super::minded(&a.after).cmp(&super::minded(&b.after)).then_with(length).then_with(turned)
        })?;
        Some(Cure {
            step: Step::MoveCar { by: best.by },
            effort: None,
            at_least: None,
            causes: caused(self.case.before, &best.after),
        })
    }

    /// A target that was put somewhere goes back to its mark, if that is enough.
    pub(super) fn stand_on_mark(&mut self, finding: &Finding) -> Option<Cure> {
        let id = finding.subjects.iter().find_map(|subject| match subject {
            Subject::Stand(id) | Subject::Target(id) => Some(id),
            _ => None,
        })?;
        self.case.scene.targets.iter().find(|target| target.id == *id && target.set != target.meant)?;
        let step = Step::StandOnMark { placement: id.clone() };
        let after = judge(&apply(self.case.arrangement, &step)).findings;
        let still = after.iter().any(|f| f.code() == finding.code() && f.subjects == finding.subjects);
        (!still).then(|| Cure {
            step,
            effort: None,
            at_least: None,
            causes: caused(self.case.before, &after),
        })
    }

    /// Has a finding say that the set-up is longer or wider than the room in the way it stands, so that no move of the car helps;
    /// whether it says so now.
    pub(super) fn say_too_large(&self, finding: &mut Finding) -> bool {
        let (Facts::OutsideRoom { too_large: said @ None, .. }, None) = (&mut finding.facts, &finding.cure)
        else {
            return false;
        };
        let Some(set_up) = &self.set_up else { return false };
        let axis = self.case.scene.bay_from_vehicle.inverse();
        let extent = |ring: &[DVec2]| Bounds::around(ring.iter().map(|&p| axis * p)).map(|b| b.size());
        let (Some(needs), Some(there)) = (extent(set_up.outer()), extent(self.room.outer())) else {
            return false;
        };
        if needs.x > there.x + check::SPEAKS_FROM_MM {
            *said = Some(TooLarge::Long { needs_mm: needs.x, there_mm: there.x });
        } else if needs.y > there.y + check::SPEAKS_FROM_MM {
            *said = Some(TooLarge::Wide { needs_mm: needs.y, there_mm: there.y });
        }
        said.is_some()
    }
}

/// Whole millimetres along and across the car, away from where it stood, so that rounding never leaves it in the way.
pub(super) fn rounded(scene: &Scene, by: DVec2) -> DVec2 {
    let up = |v: f64| {
        let whole = (v.abs() - 1e-3).ceil().max(0.0);
        if v < 0.0 { -whole } else { whole }
    };
    let own = scene.in_car_directions(by);
    scene.bay_from_vehicle.turned(DVec2::new(up(own.x), up(own.y)))
}
