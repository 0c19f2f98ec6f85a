//! What stands in the room, against all of the set-up that must not meet it: things by the checks' claims, runways and what is
//! proud of the floor or a hole in it by the checks' rules.

use baywright_geometry::marks::Construction;
use baywright_geometry::{DVec2, Prism, Span};

use super::pairs::{Barred, Pairs, rings};
use super::sight::Sight;
use crate::assessment::{Code, Severity};
use crate::check::{
    Claims, Context, MovesWith, Volume, excludes_part, is_in_run, level_mm, rests_on_floor, stops_a_wheel,
};
use crate::model::{Arrangement, Exclusion, FloorFeature, FloorFeatureKind, HeightsFrom, Metal, Other};
use crate::scene::{PlacedZone, Scene};

/// The set-up at the bay's origin, so that its bay frame is the vehicle frame.
pub(super) struct SetUp<'a> {
    pub arrangement: &'a Arrangement,
    pub scene: &'a Scene,
    pub claims: Claims,
    pub sights: Vec<Sight>,
}

impl<'a> SetUp<'a> {
    pub(super) fn new(arrangement: &'a Arrangement, scene: &'a Scene) -> Self {
        let claims = crate::check::claims(arrangement, scene);
        let sights = claims.iter().filter_map(|claim| match &claim.volume {
            Volume::Sight { eye, face } => Some(Sight { eye: *eye, face: face.clone() }),
            _ => None,
        });
        Self { arrangement, scene, sights: sights.collect(), claims }
    }

    /// How high marks may lie, mm: on the floor, or on the highest of the runways that carry the car.
    fn marks_up_to_mm(&self) -> f64 {
        self.scene.carried_at_mm
    }

    /// The same heights, from what marks and runs may lie on: whether it is all one.
    fn free(&self, free: &Span) -> Option<(Span, bool)> {
        let up = self.marks_up_to_mm();
        Some((Span::new(free.bottom(), free.top() + up).ok()?, up <= 0.0))
    }

    fn is_raised(&self) -> bool {
        !self.arrangement.on_runways.is_empty()
    }

    /// The marks that a person makes.
    fn made(&self) -> impl Iterator<Item = DVec2> {
        let made = self.arrangement.aiming.mark_plan.iter().zip(&self.scene.marks);
        let made = made.filter(|(step, _)| !matches!(step.construction, Construction::WheelPoint { .. }));
        made.filter_map(|(_, mark)| mark.at.ok())
    }

    /// What of the set-up a thing would stop, vehicle frame.
    fn bars_thing(
        &self,
        pairs: &mut Pairs,
        thing: &crate::model::Thing,
        stays: &[Vec<DVec2>],
    ) -> Vec<Barred> {
        let heights = &thing.span;
        let mut bars = Vec::new();
        let stopping =
            self.claims.iter().filter(|claim| claim.moves_with == MovesWith::Car && claim.may_stop(thing));
        for claim in stopping {
            match &claim.volume {
                Volume::Prism(prism) if prism.span.shared(heights).is_some() => {
                    // How much it sends back there only judging tells.
                    let sure = claim.says(thing).is_some_and(|(_, severity)| severity == Severity::Stops);
                    bars.extend(Barred::of(&prism.outline).map(|own| Barred { sure, ..own }));
                }
                Volume::Line { line, free } => bars.extend(self.free(free).and_then(|(free, sure)| {
                    let volume = Volume::Line { line: *line, free };
                    volume.at(heights).map(|_| Barred { ring: vec![line.from, line.to], sure })
                })),
                Volume::Spot { at, free } => bars.extend(self.free(free).and_then(|(free, sure)| {
                    let volume = Volume::Spot { at: *at, free };
                    volume.at(heights).map(|_| Barred { ring: vec![*at], sure })
                })),
                // Sights come below, with what they surely hide.
                Volume::Prism(_)
                | Volume::Sight { .. }
                | Volume::Within { .. }
                | Volume::Fresnel { .. }
                | Volume::Picture(_) => {}
            }
        }
        bars.extend(self.bars_sight(pairs, stays, heights));
        bars
    }

    fn bars_sight(&self, pairs: &mut Pairs, stays: &[Vec<DVec2>], heights: &Span) -> Vec<Barred> {
        self.sights.iter().filter_map(|sight| sight.bars(pairs, stays, heights)).collect()
    }

    fn bars_solid<'b>(
        solids: impl Iterator<Item = &'b Prism>,
        heights: &Span,
    ) -> impl Iterator<Item = Barred> {
        let heights = *heights;
        let sharing = solids.filter(move |own| own.span.shared(&heights).is_some());
        sharing.flat_map(|own| Barred::of(&own.outline).collect::<Vec<_>>())
    }

    fn stands(&self) -> impl Iterator<Item = &Prism> {
        self.scene.targets.iter().flat_map(|own| &own.solids)
    }

    /// The zones in which a part of the building of this metal stops.
    fn zones(&self, metal: Metal, counts: impl Fn(HeightsFrom) -> bool) -> impl Iterator<Item = &Prism> {
        let zones = self.scene.zones.iter();
        let zones = zones
            .filter(move |own| excludes_part(own.excludes, metal) == Some(true) && counts(own.heights_from));
        zones.map(|own| &own.prism)
    }

    /// The zones in which a part of the building may stop by how much it sends back: only judging it tells.
    fn bars_by_level(&self, heights: &Span, counts: impl Fn(HeightsFrom) -> bool) -> Vec<Barred> {
        let is_by_level = |own: &&PlacedZone| matches!(own.excludes, Exclusion::Reflecting(_));
        let zones = self.scene.zones.iter().filter(is_by_level).filter(|own| counts(own.heights_from));
        let bars = Self::bars_solid(zones.map(|own| &own.prism), heights);
        bars.map(|own| Barred { sure: false, ..own }).collect()
    }

    /// The runs that something of these heights is in.
    fn runs(&self, heights: &Span) -> impl Iterator<Item = (Vec<DVec2>, bool)> {
        let heights = *heights;
        self.claims.iter().filter_map(move |claim| {
            let Volume::Line { line, free } = &claim.volume else { return None };
            let (free, sure) = self.free(free)?;
            let is_run = matches!(claim.code(), Some(Code::RunBlocked));
            (is_run && is_in_run(&heights, &free)).then(|| (vec![line.from, line.to], sure))
        })
    }

    pub(super) fn against_things(&self, pairs: &mut Pairs) {
        for (thing, placed) in self.arrangement.bay.things.iter().zip(&self.scene.things) {
            let stays = rings(&placed.prism.outline);
            let bars = self.bars_thing(pairs, thing, &stays);
            pairs.add(&stays, bars);
        }
    }

    /// What set-ups that are done at the same time keep clear, against this one's car and stands.
    pub(super) fn against_beside(&self, pairs: &mut Pairs) {
        let own = crate::at_once::solids(self.arrangement);
        for beside in &self.arrangement.beside {
            let Other::Known(other) = &beside.other else { continue };
            let scene = Scene::of(other);
            for claim in crate::check::claims(other, &scene).iter().filter(|claim| !claim.is_solid()) {
                for (_, thing) in &own {
                    if !claim.may_stop(thing) {
                        continue;
                    }
                    let says_so = claim.says(thing).is_some_and(|(_, severity)| severity == Severity::Stops);
                    let Some(region) = claim.volume.at(&thing.span) else { continue };
                    let sure = says_so && matches!(claim.volume, Volume::Prism(_));
                    let solid = rings(&thing.prism().outline);
                    let bars = solid.into_iter().map(|ring| Barred { ring, sure });
                    pairs.add(&rings(&region), bars.collect());
                }
            }
        }
    }

    pub(super) fn against_runways(&self, pairs: &mut Pairs) {
        let context = Context::new(self.arrangement, self.scene);
        for (_, prism) in context.idle_runways() {
            let (stays, heights) = (rings(&prism.outline), prism.span);
            let mut bars: Vec<Barred> = Self::bars_solid(self.scene.car.iter(), &heights).collect();
            bars.extend(Self::bars_solid(self.stands(), &heights));
            bars.extend(Self::bars_solid(self.zones(Metal::All, |_| true), &heights));
            bars.extend(self.bars_by_level(&heights, |_| true));
            bars.extend(self.made().map(|at| Barred { ring: vec![at], sure: true }));
            bars.extend(self.runs(&heights).map(|(ring, sure)| Barred { ring, sure }));
            bars.extend(self.bars_sight(pairs, &stays, &heights));
            pairs.add(&stays, bars);
        }
        for (_, prism) in context.carrying_steel() {
            let (stays, heights) = (rings(&prism.outline), prism.span);
            let mut bars: Vec<Barred> = Self::bars_solid(self.stands(), &heights).collect();
            let from_wheels = self.zones(Metal::All, |from| from == HeightsFrom::Wheels);
            bars.extend(Self::bars_solid(from_wheels, &heights));
            bars.extend(self.bars_by_level(&heights, |from| from == HeightsFrom::Wheels));
            // Only where both ends of the run lie beside it.
            bars.extend(self.runs(&heights).map(|(ring, _)| Barred { ring, sure: false }));
            bars.extend(self.bars_sight(pairs, &stays, &heights));
            pairs.add(&stays, bars);
        }
    }

    pub(super) fn against_floor(&self, pairs: &mut Pairs) {
        for feature in &self.arrangement.bay.floor_features {
            let outline = feature.outline.clone().into();
            let stays = rings(&outline);
            let mut bars = self.bars_flat(feature);
            if let Some(prism) = feature.solid() {
                let heights = prism.span;
                let carried = self.scene.carried_at_mm;
                let body = self.scene.car.iter().filter(|own| own.span.bottom() > carried);
                bars.extend(Self::bars_solid(body, &heights));
                bars.extend(Self::bars_solid(self.stands(), &heights));
                bars.extend(Self::bars_solid(self.zones(feature.material.metal(), |_| true), &heights));
                bars.extend(self.bars_by_level(&heights, |_| true));
                bars.extend(self.runs(&heights).map(|(ring, sure)| Barred { ring, sure }));
                bars.extend(self.bars_sight(pairs, &stays, &heights));
                bars.extend(self.tyres_beside(feature));
            }
            pairs.add(&stays, bars);
        }
    }

    /// What rests on the floor.
    fn bars_flat(&self, feature: &FloorFeature) -> Vec<Barred> {
        let mut bars = Vec::new();
        let stops_a_mark = match feature.kind {
            FloorFeatureKind::Drain | FloorFeatureKind::Pit => true,
            FloorFeatureKind::Joint => feature.proud_mm > 0.0,
        };
        if stops_a_mark {
            let sure = !self.is_raised();
            bars.extend(self.made().map(|at| Barred { ring: vec![at], sure }));
        }
        if feature.kind == FloorFeatureKind::Pit {
            let feet = self.stands().filter(|own| rests_on_floor(own));
            bars.extend(feet.flat_map(|own| Barred::of(&own.outline).collect::<Vec<_>>()));
        }
        if !self.is_raised() && stops_a_wheel(feature, level_mm(self.arrangement)) {
            let treads = self.scene.treads.iter();
            bars.extend(treads.map(|own| Barred { ring: own.outer().to_vec(), sure: true }));
        }
        bars
    }

    /// Tyres that bulge over something proud beside their treads; where a tread is on it that is another matter.
    fn tyres_beside(&self, feature: &FloorFeature) -> Vec<Barred> {
        if self.is_raised() {
            return Vec::new();
        }
        let tyres = self.scene.tyres_up_to(self.arrangement, feature.proud_mm);
        let sure = stops_a_wheel(feature, level_mm(self.arrangement));
        tyres.iter().map(|own| Barred { ring: own.outer().to_vec(), sure }).collect()
    }

    /// What must lie inside the room, each with its heights: solids, zones that keep things out, what a target is seen through,
    /// and, flat on the floor, marks that a person makes and the ends of runs.
    pub(super) fn inside(&self) -> Vec<(Vec<Vec<DVec2>>, Span)> {
        let prisms =
            self.claims.iter().filter(|claim| claim.inside).filter_map(|claim| match &claim.volume {
                Volume::Prism(prism) => Some((rings(&prism.outline), prism.span)),
                _ => None,
            });
        let sights = self.sights.iter().filter_map(|own| own.in_all());
        prisms.chain(sights.map(|(ring, span)| (vec![ring], span))).collect()
    }

    /// The places on the floor that must lie in the room: marks that a person makes, and corners of runs.
    pub(super) fn on_floor(&self) -> Vec<DVec2> {
        let wheel_point = |at: DVec2| self.scene.wheels.iter().any(|own| own.distance(at) < 1e-3);
        let ends = self.scene.runs.iter().flat_map(|own| [own.run.from, own.run.to]);
        let mut all: Vec<DVec2> = self.made().chain(ends.filter(|&at| !wheel_point(at))).collect();
        all.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
        all.dedup();
        all
    }

    /// All runs, as lines.
    pub(super) fn lines(&self) -> Vec<Vec<DVec2>> {
        let ends = self.scene.runs.iter().map(|own| vec![own.run.from, own.run.to]);
        ends.filter(|line| line.iter().all(|p| p.is_finite())).collect()
    }
}
