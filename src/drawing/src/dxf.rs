//! DXF: the plan itself, for the drawing program of a floor painter, an architect or a contractor.
//!
//! No picture of a page: every line is where it is in the bay, in mm of the bay's own frame, 1 : 1, on a layer that says what it
//! is. Drawn from the arrangement and what was worked out of it, as the views are; nothing is shortened, hatched or moved for the
//! paper's sake. All lies flat at height 0, but for the points of the floor's levels, which are as high as they were surveyed.

mod writer;

use baywright_planner::geometry::{DVec2, Outline, Polygon};
use baywright_planner::hand::kept_ends;
use baywright_planner::model::{Arrangement, Effort, OpeningKind, Wheel};
use baywright_planner::scene::TargetPart;
use baywright_planner::words::layers::Layers;
use baywright_planner::words::{Locale, Words};
use baywright_planner::{Assessment, Scene};

use crate::thing_name::thing_name;
use writer::{Layer, Line, Writer};

/// Height of lettering, mm: 2.5 mm at 1 : 50, the smallest that ISO 3098 has for a sheet of this size (from memory).
const TEXT_MM: f64 = 125.0;
/// From a point to its text, mm.
const BESIDE_MM: f64 = 60.0;
/// From line to line of the title, mm.
const LEADING_MM: f64 = 220.0;
/// How far the centreline goes on beyond the car, mm.
const CENTRELINE_BEYOND_MM: f64 = 300.0;

/// The plan of an arrangement as a DXF file: text of release 2000, lengths in mm, in the bay's frame (x along the long
/// side, y to the left of x). The layers are those of [`Layers`], in the locale's language; figures that are written follow the
/// locale. The same bytes every time; it cannot fail.
pub fn to_dxf(arrangement: &Arrangement, assessment: &Assessment, locale: Locale) -> Vec<u8> {
    let layers = Named::of(locale.language.layers());
    let words = Words::new(arrangement, locale);
    let mut plan =
        Plan { out: Writer::new(layers.all()), words, layers, arrangement, scene: &assessment.scene };
    plan.room();
    plan.floor();
    plan.things();
    plan.car();
    plan.marks();
    plan.targets();
    plan.zones();
    plan.dimensions();
    plan.levels();
    plan.title(assessment);
    plan.out.finish()
}

/// Every layer, with its colour and its line.
macro_rules! layers {
    ($($field:ident: $colour:literal, $line:ident;)*) => {
        #[derive(Clone, Copy)]
        struct Named { $($field: Layer,)* }

        impl Named {
            const fn of(names: &Layers) -> Self {
                Self { $($field: Layer { name: names.$field, colour: $colour, line: Line::$line },)* }
            }

            fn all(&self) -> Vec<Layer> {
                vec![$(self.$field,)*]
            }
        }
    };
}

layers! {
    walls: 7, Whole;
    doors: 3, Whole;
    windows: 4, Whole;
    beyond: 8, Dashed;
    floor_features: 8, Whole;
    runways: 8, Whole;
    fixed: 7, Whole;
    movable: 7, Whole;
    overhead: 8, Dashed;
    keep_free: 3, Dashed;
    bays: 8, DashDot;
    car: 8, Whole;
    centreline: 1, DashDot;
    marks: 1, Whole;
    runs: 1, Dashed;
    permanent_marks: 2, Whole;
    target: 6, Whole;
    stand: 6, Whole;
    sight: 5, DashDot;
    zones: 5, Dashed;
    dimensions: 7, Whole;
    levels: 4, Whole;
    title: 7, Whole;
}

struct Plan<'a> {
    out: Writer,
    words: Words<'a>,
    layers: Named,
    arrangement: &'a Arrangement,
    scene: &'a Scene,
}

impl Plan<'_> {
    fn room(&mut self) {
        let bay = &self.arrangement.bay;
        self.polygon(self.layers.walls, &bay.room);
        for own in &bay.openings {
            let Some(line) = bay.opening_line(own) else { continue };
            let layer = if own.kind == OpeningKind::Window { self.layers.windows } else { self.layers.doors };
            self.out.line(&layer, line.from, line.to);
            let text = self.words.opening(own);
            self.label(layer, (line.from + line.to) * 0.5, &text);
            if let Some(free) = self.scene.room.free_beyond(&own.id) {
                // The inside lies left of a wall.
                let out = -(line.to - line.from).normalize_or_zero().perp() * free;
                self.out.ring(&self.layers.beyond, &[line.from, line.from + out, line.to + out, line.to]);
            }
        }
        for own in &bay.bays {
            self.polygon(self.layers.bays, &own.outline);
            self.label(self.layers.bays, own.outline.bounds().centre(), own.id.as_str());
        }
    }

    fn floor(&mut self) {
        let bay = &self.arrangement.bay;
        for own in &bay.floor_features {
            self.polygon(self.layers.floor_features, &own.outline);
            let text = self.words.floor_feature(own.id.as_str(), own.kind);
            self.label(self.layers.floor_features, own.outline.bounds().centre(), &text);
        }
        for own in &bay.runways {
            self.polygon(self.layers.runways, &own.outline);
            self.label(self.layers.runways, own.outline.bounds().centre(), own.id.as_str());
        }
        for own in &bay.keep_free {
            self.polygon(self.layers.keep_free, &own.outline);
            let text = self.words.keep_free(own.id.as_str());
            self.label(self.layers.keep_free, own.outline.bounds().centre(), &text);
        }
        for own in &bay.marks {
            self.point(self.layers.permanent_marks, own.at, 0.0, own.id.as_str());
        }
        for (_, [from, to]) in bay.floor_lines() {
            self.out.line(&self.layers.permanent_marks, from, to);
        }
    }

    fn things(&mut self) {
        // As in the views: what the car passes under hangs above.
        let roof = self.scene.carried_at_mm + self.arrangement.vehicle.height_mm;
        for (own, placed) in self.arrangement.bay.things.iter().zip(&self.scene.things) {
            let hangs = own.span.bottom() >= roof;
            let layer = match own.effort {
                _ if hangs => self.layers.overhead,
                Effort::Fixed => self.layers.fixed,
                Effort::OnePerson | Effort::TwoPeople | Effort::ForkLift => self.layers.movable,
            };
            self.outline(layer, &placed.prism.outline);
            let Some(name) = thing_name(self.arrangement, &self.words, own) else { continue };
            let text = if hangs { self.words.overhead(&name, own.span.bottom()) } else { name.into_owned() };
            self.label(layer, placed.bounds.centre(), &text);
        }
    }

    fn car(&mut self) {
        let vehicle = &self.arrangement.vehicle;
        let bay_from_vehicle = self.scene.bay_from_vehicle;
        let layer = self.layers.car;
        if vehicle.outline_top.len() >= 3 {
            let ring: Vec<DVec2> = vehicle.outline_top.iter().map(|&p| bay_from_vehicle * p).collect();
            self.out.ring(&layer, &ring);
        } else {
            for solid in &self.scene.car {
                self.outline(layer, &solid.outline);
            }
        }
        for (wheel, tread) in Wheel::ALL.into_iter().zip(&self.scene.treads) {
            self.polygon(layer, tread);
            self.out.point(&layer, bay_from_vehicle * self.arrangement.wheel_point(wheel), 0.0);
        }
        let middle = bay_from_vehicle * DVec2::new((vehicle.front() + vehicle.rear()) * 0.5, 0.0);
        self.label(layer, middle, &vehicle.name);
        let (vehicle_from_line, _) = self.arrangement.centreline();
        let line = bay_from_vehicle * vehicle_from_line;
        let ends = [vehicle.rear() - CENTRELINE_BEYOND_MM, vehicle.front() + CENTRELINE_BEYOND_MM];
        let [from, to] = ends.map(|x| line * DVec2::new(x, 0.0));
        self.out.line(&self.layers.centreline, from, to);
    }

    fn marks(&mut self) {
        for own in &self.scene.runs {
            self.out.line(&self.layers.runs, own.run.from, own.run.to);
        }
        for own in &self.scene.marks {
            if let Ok(at) = own.at {
                self.point(self.layers.marks, at, 0.0, own.id.as_str());
            }
        }
    }

    fn targets(&mut self) {
        let placements = &self.arrangement.aiming.placements;
        for (own, placement) in self.scene.targets.iter().zip(placements) {
            for (solid, part) in own.solids.iter().zip(&own.parts) {
                let layer = match part {
                    TargetPart::Body => self.layers.target,
                    TargetPart::Feet | TargetPart::Mast => self.layers.stand,
                };
                self.outline(layer, &solid.outline);
            }
            let centre = own.centre().truncate();
            let text = self.words.target_named(placement.target.kind, placement.id.as_str());
            self.point(self.layers.target, centre, 0.0, &text);
            self.out.line(&self.layers.sight, self.scene.sensor().truncate(), centre);
        }
    }

    fn zones(&mut self) {
        for own in &self.scene.zones {
            self.outline(self.layers.zones, &own.prism.outline);
            let text = self.words.zone_named(own.id.as_str(), own.excludes);
            // In a corner: zones of one aiming share their middles, seldom their corners.
            let corner = DVec2::new(own.bounds.low.x, own.bounds.high.y);
            let at = corner + DVec2::new(BESIDE_MM, -BESIDE_MM - TEXT_MM);
            self.out.text(&self.layers.zones, at, TEXT_MM, false, &text);
        }
    }

    fn dimensions(&mut self) {
        let layer = self.layers.dimensions;
        for own in &self.arrangement.bay.dimensions {
            let ends = kept_ends(self.arrangement, self.scene, own);
            let [from, to] = ends.map(|end| end.at);
            self.out.line(&layer, from, to);
            let text = self.words.kept_dimension(from.distance(to), ends.iter().any(|end| end.is_gone));
            self.label(layer, (from + to) * 0.5, &text);
        }
    }

    fn levels(&mut self) {
        let bay = &self.arrangement.bay;
        let tops = bay.runways.iter().map(|own| (own.survey.as_ref(), own.top_mm));
        for (survey, over) in std::iter::once((bay.survey.as_ref(), 0.0)).chain(tops) {
            for own in survey.iter().flat_map(|survey| survey.points.iter()) {
                let text = self.words.locale().length(own.level_mm);
                self.point(self.layers.levels, own.at, over + own.level_mm, &text);
            }
        }
    }

    /// What it is of, and what it rests on, under the plan.
    fn title(&mut self, assessment: &Assessment) {
        let mut lines = vec![
            self.words.title_line(),
            self.words.verdict(assessment.verdict).to_owned(),
            self.words.summary(assessment),
        ];
        if self.arrangement.loading.own_building {
            lines.push(self.words.own_building().to_owned());
        }
        if assessment.on_example_figures {
            lines.push(self.words.on_example_figures().to_owned());
        }
        let first = self.out.low() - DVec2::new(0.0, 2.0 * LEADING_MM);
        for (line, text) in lines.iter().enumerate() {
            let at = first - DVec2::new(0.0, line as f64 * LEADING_MM);
            self.out.text(&self.layers.title, at, TEXT_MM, false, text);
        }
    }

    fn point(&mut self, layer: Layer, at: DVec2, height: f64, text: &str) {
        self.out.point(&layer, at, height);
        self.out.text(&layer, at + DVec2::splat(BESIDE_MM), TEXT_MM, false, text);
    }

    fn label(&mut self, layer: Layer, middle: DVec2, text: &str) {
        self.out.text(&layer, middle, TEXT_MM, true, text);
    }

    fn outline(&mut self, layer: Layer, outline: &Outline) {
        match outline {
            Outline::Polygon(polygon) => self.polygon(layer, polygon),
            Outline::Circle(circle) => self.out.circle(&layer, circle.centre(), circle.radius()),
        }
    }

    fn polygon(&mut self, layer: Layer, polygon: &Polygon) {
        for ring in polygon.rings() {
            self.out.ring(&layer, ring);
        }
    }
}
