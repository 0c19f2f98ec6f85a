//! What `baywright plan` tells, as data.

use std::io::{self, Write};
use std::path::Path;

use baywright_planner::clearing::{Cleared, Surety, Way, Where};
use baywright_planner::geometry::{PlanPose, angle};
use baywright_planner::matrix::{
    Along, Cell, Change, DoorStays, FitMap, Line, Place, Planned, RoomSize, Row, Stands, ground_mm,
};
use baywright_planner::model::{Layout, Shop};
use baywright_planner::words::{Locale, Words};
use schemars::JsonSchema;
use serde::Serialize;

use super::shape::{Causes, Do, Judged, ShopUsed};
use super::{VERSION, causes, hundredths, millionths, plan as at_mm, shop, step};
use crate::command_line::changes::ChangesFound;

/// What `baywright plan --json` writes: which aimings fit where. That no place was found is no proof that there is none.
#[derive(Serialize, JsonSchema)]
pub(super) struct PlanTold {
    /// Which kind of document this is.
    format: PlanFormat,
    /// The version of the format. New fields may be added without a new one.
    version: u32,
    /// The file, as it was named; "-" for standard input.
    file: String,
    /// The bay's name.
    bay: String,
    /// By which settings of the shop it was judged.
    shop: ShopUsed,
    /// How far off its place a car is parked, either way.
    margin: SlackTold,
    /// Whether anything was stopped before its end.
    partial: bool,
    /// The places that were asked about.
    places: Vec<PlaceTold>,
    /// The cars and aimings that were asked about, each with an answer for each place, in their order.
    lines: Vec<LineTold>,
    /// The one place that serves the most of them, of those that were found; null: none serves any.
    one_place: Option<OnePlace>,
    /// How many of them each place serves.
    fit_map: Option<MapTold>,
    /// The empty rectangular room of the least area in which each of them has a place, each car as far off as the margin; null: none.
    empty_room: Option<RoomTold>,
    /// What changes of the building unlock anywhere in the room, if that was asked.
    #[serde(skip_serializing_if = "Option::is_none")]
    changes: Option<ChangesTold>,
}

/// What `baywright plan` writes.
#[derive(Serialize, JsonSchema)]
enum PlanFormat {
    #[serde(rename = "baywright-plan")]
    Plan,
}

/// So far off, either way.
#[derive(Serialize, JsonSchema)]
struct SlackTold {
    /// Along and across the car, mm.
    mm: f64,
    /// In heading, degrees.
    deg: f64,
}

/// A pose of a car: the middle of the front axle, bay frame.
#[derive(Serialize, JsonSchema)]
struct PoseTold {
    /// Where the middle of the front axle is, mm.
    at_mm: [f64; 2],
    /// The heading, degrees anticlockwise from the bay's x.
    heading_deg: f64,
}

/// A place.
#[derive(Serialize, JsonSchema)]
struct PlaceTold {
    /// What kind of place it is.
    kind: PlaceKind,
    /// The set-up whose car stands there, or the bay of the hall; null: the room.
    name: Option<String>,
    /// Of a parking place the pose.
    #[serde(skip_serializing_if = "Option::is_none")]
    pose: Option<PoseTold>,
}

/// A kind of place.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum PlaceKind {
    /// Where the car of a set-up stands.
    Parked,
    /// Anywhere in a bay of the hall.
    Bay,
    /// Anywhere in the room.
    Room,
}

/// A car and one of its aimings.
#[derive(Serialize, JsonSchema)]
struct LineTold {
    /// The set-up, if it is one of the layout.
    #[serde(skip_serializing_if = "Option::is_none")]
    set_up: Option<String>,
    /// The car's name.
    vehicle: String,
    /// The aiming's name.
    aiming: String,
    /// The answers, one for each place; null: it was stopped before.
    cells: Vec<Option<CellTold>>,
    /// With --moves: what must move where it is stopped, for where the car of a set-up stands first, then for anywhere in the room.
    #[serde(skip_serializing_if = "Option::is_none")]
    must_move: Option<Vec<MustMove>>,
}

/// What must move so that the car can stand.
#[derive(Serialize, JsonSchema)]
struct MustMove {
    /// Where it is to stand.
    at: MoveFor,
    /// The way to make room; null: none was found.
    way: Option<WayTold>,
    /// Whether each way that takes less is ruled out (fewer hands; of one that needs a builder, less money); without a way, whether
    /// each is.
    surety: SuretyTold,
    /// Whether each way that takes as few hands and costs less is ruled out; null: no costs were entered.
    least_money: Option<SuretyTold>,
    /// Of a way that needs a builder, whether each is ruled out that hands alone make; else null.
    not_by_hands: Option<SuretyTold>,
    /// Whether the search came to its limits before all was tried.
    partial: bool,
    /// What stops it whatever goes.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    remains: Vec<Causes>,
    /// All of it in sentences.
    sentences: Vec<String>,
}

/// Where a car is to stand.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum MoveFor {
    /// Where the car of the set-up stands.
    Here,
    /// Anywhere in the room.
    Anywhere,
}

/// How sure something is.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum SuretyTold {
    /// It is proven, in headings a degree apart.
    Proven,
    /// It is the best that was found.
    BestFound,
}

/// A way to make room.
#[derive(Serialize, JsonSchema)]
struct WayTold {
    /// What goes, all of it together.
    moves: Vec<Do>,
    /// What of it a builder takes out, by name.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    by_builder: Vec<String>,
    /// Where the car stands then.
    pose: PoseTold,
    /// How far off it may stand so that nothing stops.
    slack: SlackTold,
    /// Whether that is as much as the margin.
    meets_margin: bool,
    /// The hands that it takes: one person 1, two people 2, a fork lift 4, out of the bay twice that.
    hands: u32,
    /// What it costs, by what was entered for having things gone; null: nothing was entered of any.
    costs: Option<f64>,
    /// Of so many of the things that go no cost was entered: they count as nothing.
    without_cost: usize,
    /// The verdict then.
    verdict: Judged,
}

/// What is found of an aiming at a place.
#[derive(Serialize, JsonSchema)]
struct CellTold {
    /// The answer.
    answer: CellKind,
    /// The verdict there, after the moves if there are any; null: no place was found.
    verdict: Option<Judged>,
    /// Where the car stands; where no place was found a pose that was looked at.
    pose: PoseTold,
    /// How far off it may stand so that nothing stops.
    #[serde(skip_serializing_if = "Option::is_none")]
    slack: Option<SlackTold>,
    /// Whether that is as much as the margin.
    #[serde(skip_serializing_if = "Option::is_none")]
    meets_margin: Option<bool>,
    /// How many findings need care there.
    #[serde(skip_serializing_if = "Option::is_none")]
    care: Option<usize>,
    /// The moves that make it so.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    moves: Vec<Do>,
    /// What stops it at that pose.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    stops: Vec<Causes>,
    /// Whether that stops it wherever the car stands.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    everywhere: bool,
    /// Whether it is proven, of solids alone and with all gone that can be moved, that it fits nowhere in the room.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    never: bool,
    /// The answer in words.
    sentence: String,
}

/// What was found.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum CellKind {
    /// Nothing stops it there.
    Fits,
    /// Nothing stops it there once things are moved.
    AfterMoves,
    /// Something stops it there, and nothing at another place of the room, which is told.
    Elsewhere,
    /// No place was found.
    NoneFound,
}

/// One place for several.
#[derive(Serialize, JsonSchema)]
struct OnePlace {
    /// Where the cars stand.
    pose: PoseTold,
    /// How far off each may stand.
    slack: SlackTold,
    /// Whether that is as much as the margin.
    meets_margin: bool,
    /// Which lines it serves, by their position from 0.
    serves: Vec<usize>,
    /// The place in words, with the first of these cars.
    sentence: String,
}

/// How many lines each place serves, at whichever heading that the room invites serves the most.
#[derive(Serialize, JsonSchema)]
struct MapTold {
    /// The first square's middle, mm.
    first_mm: [f64; 2],
    /// How far apart the squares are, mm.
    step_mm: f64,
    /// Row after row in the direction of y, each in the direction of x.
    rows: Vec<Vec<u16>>,
}

/// A room.
#[derive(Serialize, JsonSchema)]
struct RoomTold {
    /// Its length, mm.
    length_mm: f64,
    /// Its width, mm.
    width_mm: f64,
    /// The line that decides, by its position from 0.
    decides: usize,
    /// The strip of it that is kept for what is in store.
    #[serde(skip_serializing_if = "Option::is_none")]
    store: Option<StoreTold>,
}

/// A strip of a room along one of its walls.
#[derive(Serialize, JsonSchema)]
struct StoreTold {
    /// How deep it is, mm.
    depth_mm: f64,
    /// Along which walls it lies.
    along: AlongTold,
}

/// Which way a strip lies.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum AlongTold {
    /// As long as the room: it takes of the width.
    Length,
    /// As long as the room is wide: it takes of the length.
    Width,
}

/// What changes of the building unlock.
#[derive(Serialize, JsonSchema)]
struct ChangesTold {
    /// How much further out walls would stand, and how much more ground before doors would be free, mm.
    further_mm: f64,
    /// How much can be spent, in the owner's money.
    to_spend: Option<f64>,
    /// Each change alone, in order of worth.
    alone: Vec<ChangeTold>,
    /// The openings of which it was not asked what they do walled up.
    stay: Vec<StaysTold>,
    /// The best that was found for the sum, of all single changes, all pairs with a price, and one more at a time on the best pair; null:
    /// no sum was said, or nothing has a price within it.
    together: Option<TogetherTold>,
}

/// A change.
#[derive(Serialize, JsonSchema)]
struct ChangeTold {
    /// What is done.
    #[serde(flatten)]
    change: ChangeKind,
    /// What it costs, in the owner's money, if that was said.
    #[serde(skip_serializing_if = "Option::is_none")]
    costs: Option<f64>,
    /// Which lines it unlocks, by their position from 0.
    unlocks: Vec<usize>,
    /// Which lines that fit anyway have fewer findings to mind then, where their cars stand, by their position from 0.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    eases: Vec<usize>,
}

/// An opening that is not asked to be walled up.
#[derive(Serialize, JsonSchema)]
struct StaysTold {
    /// Its name.
    opening: String,
    /// Why.
    why: WhyStays,
}

/// Why an opening is not asked to be walled up.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum WhyStays {
    /// It is a way out in an emergency, or such a way leads to it.
    Exit,
    /// People, or a car of the list, have no other way in.
    WayIn,
    /// An aiming of the list that fits now stands out of it.
    Used,
}

/// What is done.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum ChangeKind {
    /// This thing is gone.
    Without(String),
    /// This wall stands further out.
    Further(String),
    /// This door, gap or window is walled up.
    WalledUp(String),
    /// This door stands open while it is aimed, with free ground beyond it.
    OpenOnto {
        /// The door or gap.
        door: String,
        /// How far the ground beyond it is free then, mm.
        ground_mm: f64,
    },
}

/// Several changes at once.
#[derive(Serialize, JsonSchema)]
struct TogetherTold {
    /// What is done; empty: nothing within the sum unlocks any.
    changes: Vec<ChangeKind>,
    /// What they cost, in the owner's money.
    costs: f64,
    /// Which lines they unlock, by their position from 0.
    unlocks: Vec<usize>,
    /// How many sets of two or more were looked at.
    sets_looked_at: usize,
}

/// What is told, and of what.
pub(crate) struct PlanAnswer<'a> {
    pub(crate) file: String,
    pub(crate) layout: &'a Layout,
    pub(crate) used: (&'a Shop, Option<&'a Path>),
    /// All that was found.
    pub(crate) found: &'a Planned,
    /// What must move for each line, if that was asked.
    pub(crate) moves: Option<&'a [Vec<Cleared>]>,
    /// What changes unlock, if that was asked.
    pub(crate) changes: Option<&'a ChangesFound>,
}

impl PlanAnswer<'_> {
    /// What is told of a cell, by line and place: that it never fits where that is proven.
    pub(crate) fn sentence(&self, words: &Words<'_>, own: &Cell, (line, place): (usize, usize)) -> String {
        match self.found.never(line, place) {
            Some(proven) => words.never_fits(proven.as_deref()),
            None => words.plan_cell(own, &self.found.margin),
        }
    }

    /// The smallest empty room, if each of the list fits in one.
    pub(crate) fn room(&self) -> Option<&RoomSize> {
        let curve = self.found.room.as_deref()?;
        self.found.needs.iter().all(Option::is_some).then_some(curve.smallest.as_ref()).flatten()
    }
}

/// The map is told in squares that are so many of its own wide.
const COARSER: usize = 5;

/// Writes it.
pub(crate) fn write_plan(all: &PlanAnswer<'_>, locale: Locale, out: &mut dyn Write) -> io::Result<()> {
    let found = all.found;
    let rows = found.lines.iter().zip(&found.rows).enumerate();
    let moves = |nth: usize| all.moves.and_then(|own| own.get(nth)).map(Vec::as_slice);
    let told = PlanTold {
        format: PlanFormat::Plan,
        version: VERSION,
        file: all.file.clone(),
        bay: all.layout.bay.name.clone(),
        shop: shop(all.used),
        margin: slack(found.margin.mm, found.margin.rad),
        partial: found.rows.iter().flatten().any(|own| own.is_partial()),
        places: found.places.iter().map(place).collect(),
        lines: rows
            .filter_map(|(nth, (own, row))| {
                Some(line(all, (nth, own), (row.as_deref()?, moves(nth)), locale))
            })
            .collect(),
        one_place: found.best.as_ref().and_then(|best| {
            let (first, _) = best.serves.first()?;
            let words = Words::new(&found.lines.get(*first)?.arrangement, locale);
            Some(OnePlace {
                pose: pose(best.pose),
                slack: slack(best.slack.mm, best.slack.rad),
                meets_margin: best.meets_margin,
                serves: best.serves.iter().map(|own| own.0).collect(),
                sentence: words.plan_best(best, found.lines.len(), &found.margin),
            })
        }),
        fit_map: found.map.as_deref().map(map),
        empty_room: all.room().map(|own| RoomTold {
            length_mm: own.length_mm,
            width_mm: own.width_mm,
            decides: own.decides,
            store: own.strip.map(|strip| StoreTold {
                depth_mm: hundredths(strip.depth_mm),
                along: match strip.along {
                    Along::Length => AlongTold::Length,
                    Along::Width => AlongTold::Width,
                },
            }),
        }),
        changes: all.changes.map(|own| changes(own, found)),
    };
    serde_json::to_writer_pretty(&mut *out, &told)?;
    writeln!(out)
}

fn slack(mm: f64, rad: f64) -> SlackTold {
    SlackTold { mm: hundredths(mm), deg: millionths(angle::degrees(rad)) }
}

fn pose(own: PlanPose) -> PoseTold {
    PoseTold { at_mm: at_mm(own.origin()), heading_deg: millionths(angle::degrees(own.heading())) }
}

fn place(own: &Place) -> PlaceTold {
    match own {
        Place::Parked { of, pose: at, .. } => {
            PlaceTold { kind: PlaceKind::Parked, name: Some(of.to_string()), pose: Some(pose(*at)) }
        }
        Place::Bay(id) => PlaceTold { kind: PlaceKind::Bay, name: Some(id.to_string()), pose: None },
        Place::Room => PlaceTold { kind: PlaceKind::Room, name: None, pose: None },
    }
}

fn changes(own: &ChangesFound, found: &Planned) -> ChangesTold {
    let own_further_mm = own.further_mm;
    let kind = |own: &Change| match own {
        Change::Without(thing) => ChangeKind::Without(thing.to_string()),
        Change::Further(wall) => ChangeKind::Further(wall.to_string()),
        Change::WalledUp(opening) => ChangeKind::WalledUp(opening.to_string()),
        Change::OpenOnto(door) => {
            let openings = found.lines.first().map(|own| &own.arrangement.bay.openings);
            let open = openings.and_then(|all| all.iter().find(|own| own.id == *door));
            let ground = open.map_or(0.0, |open| ground_mm(open, own_further_mm));
            ChangeKind::OpenOnto { door: door.to_string(), ground_mm: hundredths(ground) }
        }
    };
    let alone = own.in_order(found).into_iter().map(|change| ChangeTold {
        change: kind(&change.change),
        costs: own.costs.get(&change.change).copied(),
        unlocks: change.lines.clone(),
        eases: change.eases.clone(),
    });
    let stay = own.alone.stay.iter().map(|(opening, why)| StaysTold {
        opening: opening.to_string(),
        why: match why {
            DoorStays::Exit => WhyStays::Exit,
            DoorStays::WayIn => WhyStays::WayIn,
            DoorStays::Used => WhyStays::Used,
        },
    });
    ChangesTold {
        further_mm: hundredths(own.further_mm),
        to_spend: own.to_spend,
        alone: alone.collect(),
        stay: stay.collect(),
        together: own.together.as_ref().map(|own| TogetherTold {
            changes: own.changes.iter().map(kind).collect(),
            costs: own.costs,
            unlocks: own.lines.clone(),
            sets_looked_at: own.looked_at,
        }),
    }
}

fn line(
    all: &PlanAnswer<'_>,
    (nth, own): (usize, &Line),
    (row, moves): (&Row, Option<&[Cleared]>),
    locale: Locale,
) -> LineTold {
    let words = Words::new(&own.arrangement, locale);
    let told = |at: usize, own: &Cell| {
        let sentence = all.sentence(&words, own, (nth, at));
        CellTold { never: all.found.never(nth, at).is_some(), ..cell(own, sentence) }
    };
    LineTold {
        set_up: own.is_saved.then(|| own.arrangement.id.to_string()),
        vehicle: own.arrangement.vehicle.id.to_string(),
        aiming: own.arrangement.aiming.id.to_string(),
        cells: row.cells.iter().enumerate().map(|(at, own)| own.as_ref().map(|own| told(at, own))).collect(),
        must_move: moves.map(|all| all.iter().map(|own| must_move(own, &words)).collect()),
    }
}

fn must_move(own: &Cleared, words: &Words<'_>) -> MustMove {
    let surety = |own: Surety| match own {
        Surety::Proven => SuretyTold::Proven,
        Surety::BestFound => SuretyTold::BestFound,
    };
    MustMove {
        at: if own.at == Where::Anywhere { MoveFor::Anywhere } else { MoveFor::Here },
        way: own.way.as_ref().map(way),
        surety: surety(own.surety),
        least_money: own.least_money.map(surety),
        not_by_hands: own.not_by_hands.map(surety),
        partial: own.is_partial,
        remains: own.remains.iter().map(causes).collect(),
        sentences: words.cleared(own),
    }
}

fn way(own: &Way) -> WayTold {
    let spot = &own.offer.spot;
    WayTold {
        moves: own.moves.iter().map(|own| step(&own.step)).collect(),
        by_builder: own.by_builder().map(ToString::to_string).collect(),
        pose: pose(spot.pose),
        slack: slack(spot.slack.mm, spot.slack.rad),
        meets_margin: own.offer.meets,
        hands: own.hands,
        costs: own.money.map(|own| own.sum),
        without_cost: own.money.map_or(own.moves.len(), |own| own.unsaid),
        verdict: own.verdict.into(),
    }
}

fn cell(own: &Cell, sentence: String) -> CellTold {
    let stands = |answer: CellKind, own: &Stands, sentence: String| CellTold {
        answer,
        verdict: Some(own.verdict.into()),
        pose: pose(own.pose),
        slack: Some(slack(own.slack.mm, own.slack.rad)),
        meets_margin: Some(own.meets_margin),
        care: Some(own.care),
        moves: Vec::new(),
        stops: Vec::new(),
        everywhere: false,
        never: false,
        sentence,
    };
    let bare = |answer: CellKind, at: PlanPose, sentence: String| CellTold {
        answer,
        verdict: None,
        pose: pose(at),
        slack: None,
        meets_margin: None,
        care: None,
        moves: Vec::new(),
        stops: Vec::new(),
        everywhere: false,
        never: false,
        sentence,
    };
    match own {
        Cell::Fits(own) => stands(CellKind::Fits, own, sentence),
        Cell::Elsewhere(own) => stands(CellKind::Elsewhere, own, sentence),
        Cell::AfterMoves { pose: at, steps, verdict } => CellTold {
            verdict: Some((*verdict).into()),
            moves: steps.iter().map(step).collect(),
            ..bare(CellKind::AfterMoves, *at, sentence)
        },
        Cell::NoneFound(own) => CellTold {
            stops: own.stops.iter().map(causes).collect(),
            everywhere: own.is_everywhere,
            ..bare(CellKind::NoneFound, own.pose, sentence)
        },
    }
}

fn map(own: &FitMap) -> MapTold {
    let grid = &own.grid;
    let picked = |all: usize| (COARSER / 2..all).step_by(COARSER);
    let at =
        |row: usize, column: usize| own.count.get(row * grid.columns + column).copied().unwrap_or_default();
    let middle = (COARSER / 2) * (grid.columns + 1);
    MapTold {
        first_mm: at_mm(grid.at(middle)),
        step_mm: hundredths(grid.step_mm * COARSER as f64),
        rows: picked(grid.rows)
            .map(|row| picked(grid.columns).map(|column| at(row, column)).collect())
            .collect(),
    }
}
