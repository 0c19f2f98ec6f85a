//! A drawing of another program on its way into the work: what is chosen of it, and what comes of that. The command `import` and the
//! window take the same way.

pub(crate) mod picture;

use std::collections::{BTreeMap, BTreeSet};

use baywright_files::{ClosedGap, DxfBay, DxfChoice, DxfDrawing, DxfNames, DxfUnit, FileFault};
use baywright_planner::edit::redrawn;
use baywright_planner::geometry::DVec2;
use baywright_planner::model::fault::{DrawingTrouble, FileTrouble, Wrong};
use baywright_planner::model::{Bay, Id};
use baywright_planner::words::imports::Imports;
use baywright_planner::words::{Language, Lengths};

/// A ceiling that is lower than most: what is found under it is found under any higher one (common practice, no source).
pub(crate) const CEILING_MM: f64 = 2_500.0;
/// Gaps up to this are closed, and walls of one line are so thick, unless one says otherwise, mm (common practice, no source).
pub(crate) const GAP_MM: f64 = 10.0;
pub(crate) const WALL_MM: f64 = 100.0;
/// So many layers that became nothing are told.
const MOST_LAYERS: usize = 30;
/// So many closed gaps are told one by one.
const MOST_GAPS: usize = 10;
/// So many layers are tried as the room's, those that reach furthest first.
const MOST_TRIED: usize = 6;

/// What a layer becomes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Becomes {
    Room,
    Walls,
    Things,
    #[default]
    LeftOut,
}

impl Becomes {
    pub(crate) const ALL: [Self; 4] = [Self::Room, Self::Walls, Self::Things, Self::LeftOut];
}

/// What is chosen of a drawing.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Chosen {
    layers: BTreeMap<String, Becomes>,
    /// Which outline is the room, from 1; `None`: there is only one that may be.
    pub(crate) outline: Option<usize>,
    /// `None`: as the file says.
    pub(crate) unit: Option<DxfUnit>,
    /// So many times as large as the file has it.
    pub(crate) by: f64,
    pub(crate) gap_mm: f64,
    pub(crate) wall_mm: f64,
    /// `None`: what stands for a ceiling that nobody told.
    pub(crate) ceiling_mm: Option<f64>,
}

impl Default for Chosen {
    fn default() -> Self {
        Self {
            layers: BTreeMap::new(),
            outline: None,
            unit: None,
            by: 1.0,
            gap_mm: GAP_MM,
            wall_mm: WALL_MM,
            ceiling_mm: None,
        }
    }
}

impl Chosen {
    /// What a layer becomes.
    pub(crate) fn of(&self, layer: &str) -> Becomes {
        self.layers.get(layer).copied().unwrap_or_default()
    }

    /// One becomes this. There is one room: what was it before is left out.
    pub(crate) fn set(&mut self, layer: &str, becomes: Becomes) {
        if becomes == Becomes::Room || self.of(layer) == Becomes::Room {
            self.layers.retain(|_, own| *own != Becomes::Room);
            self.outline = None;
        }
        self.layers.insert(layer.to_owned(), becomes);
    }

    /// The layers that become this, by name.
    fn all(&self, becomes: Becomes) -> Vec<String> {
        self.layers.iter().filter(|(_, own)| **own == becomes).map(|(name, _)| name.clone()).collect()
    }

    /// The layer of the room's outline.
    pub(crate) fn room(&self) -> Option<String> {
        self.all(Becomes::Room).into_iter().next()
    }

    /// One unit of the drawing, mm, once its unit is known.
    pub(crate) fn mm_per_unit(&self, drawing: &DxfDrawing) -> Option<f64> {
        self.unit.or(drawing.unit).map(|unit| unit.mm() * self.by)
    }

    /// The same as it is asked for; `None` without a layer for the room.
    fn choice(&self, mm_per_unit: f64, ceiling_mm: f64) -> Option<DxfChoice> {
        Some(DxfChoice {
            room: self.room()?,
            outline: self.outline,
            walls: self.all(Becomes::Walls),
            things: self.all(Becomes::Things),
            mm_per_unit,
            gap_mm: self.gap_mm,
            wall_mm: self.wall_mm,
            ceiling_mm: self.ceiling_mm.unwrap_or(ceiling_mm),
            low_at: None,
        })
    }
}

/// What a drawing most likely becomes: the layer that encloses most is the room's, and where the layers' names are those under which
/// plans go out here, the rest is known as well.
pub(crate) fn suggested(drawing: &DxfDrawing) -> Chosen {
    let mut chosen = Chosen::default();
    for language in Language::OFFERED {
        let names = language.layers();
        for (name, becomes) in
            [(names.walls, Becomes::Room), (names.fixed, Becomes::Things), (names.movable, Becomes::Things)]
        {
            if drawing.layers.iter().any(|own| own.name == name && own.lines > 0) {
                chosen.set(name, becomes);
            }
        }
    }
    if chosen.room().is_some() {
        return chosen;
    }
    let mut layers: Vec<(&str, f64)> = drawing
        .layers
        .iter()
        .filter(|own| !own.is_hidden && own.lines > 0)
        .filter_map(|own| own.reach.map(|(low, high)| (own.name.as_str(), (high - low).element_product())))
        .collect();
    layers.sort_by(|a, b| b.1.total_cmp(&a.1));
    let mm = chosen.mm_per_unit(drawing).unwrap_or(1.0);
    let encloses = |name: &str| {
        let mut only = Chosen::default();
        only.set(name, Becomes::Room);
        let Some(choice) = only.choice(mm, CEILING_MM) else { return false };
        match bay_of(drawing, &choice, Language::English, "room".into(), String::new()) {
            Ok(_) => true,
            Err(fault) => several_outlines(&fault).is_some(),
        }
    };
    if let Some((name, _)) = layers.into_iter().take(MOST_TRIED).find(|(name, _)| encloses(name)) {
        chosen.set(name, Becomes::Room);
    }
    chosen
}

/// A bay of the layers that were chosen, its walls and things named in this language.
pub(crate) fn bay_of(
    drawing: &DxfDrawing,
    choice: &DxfChoice,
    language: Language,
    id: Id,
    name: String,
) -> Result<DxfBay, FileFault> {
    let (texts, rooms) = (language.imports(), language.rooms());
    let names = DxfNames {
        room_wall: &|number| rooms.nth_wall(number),
        inner_wall: &|number| texts.inner_wall(number),
        thing: &|number| texts.thing(number),
    };
    drawing.bay(choice, &names, id, name)
}

/// The outlines of which one has to be chosen as the room, if that is what is wrong: the size of each, mm.
pub(crate) fn several_outlines(fault: &FileFault) -> Option<Vec<DVec2>> {
    match &*fault.wrong {
        Wrong::Whole(FileTrouble::Drawing(DrawingTrouble::SeveralOutlines { outlines, .. })) => {
            Some(outlines.iter().map(|(size, _)| *size).collect())
        }
        _ => None,
    }
}

/// What is to be known of what came of a drawing: gaps that were closed, what was left out and why.
pub(crate) fn told(
    drawing: &DxfDrawing,
    bay: &DxfBay,
    (choice, unit): (&DxfChoice, DxfUnit),
    texts: &Imports,
    lengths: Lengths,
) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(own) = drawing.unit.filter(|own| *own != unit) {
        lines.push(texts.other_unit(unit_name(unit, texts), unit_name(own, texts)));
    }
    lines.extend(bay.closed.iter().take(MOST_GAPS).map(|gap| texts.closed(gap.size_mm, gap.at, lengths)));
    let told = |count: usize, sentence: String| (count > 0).then_some(sentence);
    let more = bay.closed.len().saturating_sub(MOST_GAPS);
    lines.extend(told(more, texts.closed_more(more)));
    if choice.low_at.is_none() && bay.moved.length() > 0.0 {
        lines.push(texts.moved(bay.moved, lengths));
    }
    lines.extend(told(bay.thickened, texts.thickened(bay.thickened, choice.wall_mm, lengths)));
    lines.extend(told(bay.by_hull, texts.by_hull(bay.by_hull)));
    lines.extend(told(bay.inside_others, texts.inside_others(bay.inside_others)));
    lines.extend(told(bay.outside, texts.outside(bay.outside)));
    lines.extend(told(bay.unclosed, texts.unclosed(bay.unclosed)));
    let used = |layer: &str| {
        let chosen = std::iter::once(&choice.room).chain(&choice.walls).chain(&choice.things);
        chosen.into_iter().any(|own| own.eq_ignore_ascii_case(layer))
    };
    let unused: Vec<&str> = drawing
        .layers
        .iter()
        .filter(|own| own.lines > 0 && !used(&own.name))
        .map(|own| own.name.as_str())
        .take(MOST_LAYERS)
        .collect();
    lines.extend(told(unused.len(), texts.not_used(&unused)));
    lines
}

/// What could not be read of a drawing, by kind.
pub(crate) fn left_out(drawing: &DxfDrawing, texts: &Imports) -> Vec<String> {
    let all = drawing.not_read.iter();
    all.map(|own| texts.left_out(own.kind.as_deref(), own.why, own.count, &own.lines)).collect()
}

/// A unit within a sentence.
pub(crate) const fn unit_name(unit: DxfUnit, texts: &Imports) -> &'static str {
    match unit {
        DxfUnit::Millimetres => texts.unit_mm,
        DxfUnit::Centimetres => texts.unit_cm,
        DxfUnit::Metres => texts.unit_m,
        DxfUnit::Inches => texts.unit_in,
        DxfUnit::Feet => texts.unit_ft,
    }
}

/// What comes of a drawing.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Made {
    /// The bay as it is then.
    pub(crate) bay: Bay,
    /// Its things from this one on are the drawing's.
    pub(crate) drawn_from: usize,
    /// Gaps that were closed.
    pub(crate) closed: Vec<ClosedGap>,
    /// The drawing's own places and these are so far apart, mm.
    pub(crate) moved: DVec2,
    /// Whether it was moved for lying elsewhere than the bay.
    pub(crate) to_bay: bool,
    /// Doors, windows and gaps that were left out.
    pub(crate) lost: Vec<Id>,
    /// What else is to be known.
    pub(crate) told: Vec<String>,
}

/// The bay that is open, and the names that are taken in its set-ups.
#[derive(Clone, Debug)]
pub(crate) struct Present {
    pub(crate) bay: Bay,
    pub(crate) taken: BTreeSet<String>,
}

/// Makes a bay of a drawing, or its room that of the bay that is `present`. `None` as long as no layer is chosen for the room.
pub(crate) fn made(
    drawing: &DxfDrawing,
    chosen: &Chosen,
    present: Option<&Present>,
    language: Language,
    lengths: Lengths,
    name: &str,
) -> Result<Option<Made>, FileFault> {
    let unit = drawing.unit_or(chosen.unit)?;
    let ceiling = present.map_or(CEILING_MM, |own| own.bay.ceiling_mm);
    let Some(mut choice) = chosen.choice(unit.mm() * chosen.by, ceiling) else { return Ok(None) };
    let of = |choice: &DxfChoice| bay_of(drawing, choice, language, name.into(), name.to_owned());
    let mut came = of(&choice)?;
    let mut to_bay = false;
    if let Some(own) = present {
        let (there, here) = (came.bay.room.bounds(), own.bay.room.bounds());
        let is_apart = there.low.cmpge(here.high).any() || there.high.cmple(here.low).any();
        if is_apart {
            choice.low_at = Some(here.low);
            (came, to_bay) = (of(&choice)?, true);
        }
    }
    let told = told(drawing, &came, (&choice, unit), language.imports(), lengths);
    let DxfBay { bay: drawn, closed, moved, .. } = came;
    let (bay, drawn_from, lost) = match present {
        None => (drawn, 0, Vec::new()),
        Some(own) => {
            let after = redrawn(&own.bay, &drawn, |name| own.taken.contains(name));
            let ceiling_mm = chosen.ceiling_mm.unwrap_or(own.bay.ceiling_mm);
            (Bay { ceiling_mm, ..after.bay }, own.bay.things.len(), after.lost)
        }
    };
    Ok(Some(Made { bay, drawn_from, closed, moved, to_bay, lost, told }))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> DxfDrawing {
        baywright_files::parse_dxf("hall.dxf", text.as_bytes()).unwrap()
    }

    /// A closed outline on a layer, in the drawing's own units.
    fn outline(layer: &str, corners: &[(f64, f64)]) -> String {
        let points: String = corners.iter().map(|(x, y)| format!("10\n{x}\n20\n{y}\n")).collect();
        format!("0\nLWPOLYLINE\n8\n{layer}\n90\n{}\n70\n1\n{points}", corners.len())
    }

    fn drawing(unit: Option<u8>, entities: &[String]) -> String {
        let header = unit.map_or_else(String::new, |unit| {
            format!("0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n{unit}\n0\nENDSEC\n")
        });
        format!("{header}0\nSECTION\n2\nENTITIES\n{}0\nENDSEC\n0\nEOF\n", entities.concat())
    }

    fn rectangle(layer: &str, low: (f64, f64), high: (f64, f64)) -> String {
        outline(layer, &[low, (high.0, low.1), high, (low.0, high.1)])
    }

    #[test]
    fn the_layer_that_encloses_most_is_the_room() {
        let text = drawing(
            Some(4),
            &[
                rectangle("A", (0.0, 0.0), (12_000.0, 6_000.0)),
                rectangle("B", (1_000.0, 1_000.0), (2_000.0, 2_000.0)),
                "0\nLINE\n8\nC\n10\n-90000\n20\n-90000\n11\n90000\n21\n90000\n".to_owned(),
            ],
        );
        let drawing = read(&text);
        let chosen = suggested(&drawing);
        assert_eq!(
            ["A", "B", "C"].map(|own| chosen.of(own)),
            [Becomes::Room, Becomes::LeftOut, Becomes::LeftOut]
        );
        let language = Language::English;
        let made = made(&drawing, &chosen, None, language, Lengths::InFile, "hall").unwrap().unwrap();
        assert_eq!(made.bay.room.bounds().size(), DVec2::new(12_000.0, 6_000.0));
        // What became nothing is told: something of it may stand in the room.
        assert!(made.told.iter().any(|own| own.contains("B, C")), "{:?}", made.told);
    }

    #[test]
    fn another_room_is_the_room_and_the_first_no_more() {
        let mut chosen = Chosen::default();
        chosen.set("A", Becomes::Room);
        chosen.outline = Some(2);
        chosen.set("C", Becomes::Things);
        assert_eq!(chosen.outline, Some(2));
        chosen.set("B", Becomes::Room);
        assert_eq!(
            ["A", "B", "C"].map(|own| chosen.of(own)),
            [Becomes::LeftOut, Becomes::Room, Becomes::Things]
        );
        assert_eq!(chosen.outline, None, "it was one of the other layer's");
    }

    #[test]
    fn without_a_unit_nothing_is_guessed() {
        let drawing = read(&drawing(None, &[rectangle("A", (0.0, 0.0), (12.0, 6.0))]));
        let mut chosen = suggested(&drawing);
        assert_eq!(chosen.of("A"), Becomes::Room);
        let of = |chosen: &Chosen| made(&drawing, chosen, None, Language::English, Lengths::InFile, "hall");
        assert!(of(&chosen).is_err());
        chosen.unit = Some(DxfUnit::Metres);
        chosen.by = 0.5;
        let made = of(&chosen).unwrap().unwrap();
        assert_eq!(made.bay.room.bounds().size(), DVec2::new(6_000.0, 3_000.0));
    }

    /// A drawing that lies in a corner of a site plan comes to the bay's corner; one that lies over the bay stays where it is.
    #[test]
    fn a_drawing_that_lies_elsewhere_is_moved_to_the_bay() {
        let of = |low: (f64, f64)| {
            let drawing = read(&drawing(Some(4), &[rectangle("A", low, (low.0 + 9_000.0, low.1 + 5_000.0))]));
            let bay = bay_of(
                &drawing,
                &suggested(&drawing).choice(1.0, 3_000.0).unwrap(),
                Language::English,
                "bay".into(),
                "Bay".to_owned(),
            );
            let mut bay = bay.unwrap().bay;
            bay.room = bay.room.moved(-bay.room.bounds().low);
            let present = Present { bay, taken: BTreeSet::new() };
            let chosen = suggested(&drawing);
            made(&drawing, &chosen, Some(&present), Language::English, Lengths::InFile, "x").unwrap().unwrap()
        };
        let near = of((100.0, -50.0));
        assert!(!near.to_bay && near.bay.room.bounds().low == DVec2::new(100.0, -50.0));
        let far = of((40_000.0, 70_000.0));
        assert!(far.to_bay && far.bay.room.bounds().low == DVec2::ZERO);
        assert_eq!(far.moved, DVec2::new(-40_000.0, -70_000.0));
    }
}
