//! The owner's report: nothing on it is cut, off the paper or on anything else, however many its places and long its names; each place and
//! line stands on it; what was not looked at is told as that; its pictures are to scale; changes stand in their order.

use std::collections::BTreeMap;
use std::sync::Arc;

use baywright_drawing::page::Content;
use baywright_drawing::sheet::{About, ChangesAsked, Paper, ReportOf, Size, owner_report};
use baywright_drawing::{Lettering, PX_PER_PAPER_MM, Page};
use baywright_planner::matrix::{
    BestPlace, Cell, Change, Curve, DoorStays, EachAlone, Grid, Line, NoneFound, Place, Planned, Row, Stands,
    Together, Unlocked, fit_map, heard, needs, there,
};
use baywright_planner::model::Arrangement;
use baywright_planner::place::{Margin, Search, Slack};
use baywright_planner::words::{Language, Locale, Units, Words};
use baywright_planner::{Severity, Verdict, assess, judge};

use super::bay;
use super::sheets::{long, texts, wrong};

/// In store along a wall of the empty room, mm.
const STORE_MM: f64 = 800.0;
const MARGIN: Margin = Margin { mm: 30.0, rad: 0.0087 };

/// The crowded bay under a name, with its car under one.
fn named(nth: usize, is_long: bool) -> Arrangement {
    let mut own = bay::crowded();
    let name =
        |begin: &str| if is_long { long(&format!("{begin} {nth} ")) } else { format!("{begin} {nth}") };
    own.id = name("set-up").as_str().into();
    own.vehicle.name = name("car");
    own.aiming.name = name("aiming");
    own
}

/// A list of so many lines at so many places, with an answer of every kind, and a map and a room that were worked out of the first line.
pub(super) fn found(lines: usize, places: usize, is_long: bool) -> Planned {
    let first = named(0, is_long);
    let said = assess(&first);
    let steps = said.promise.as_ref().map(|own| own.steps.clone()).unwrap_or_default();
    assert!(!steps.is_empty(), "there is something to move");
    let stops: Vec<_> = said.findings.iter().filter(|own| own.severity == Severity::Stops).cloned().collect();
    let stands = |meets_margin: bool, verdict: Verdict| Stands {
        pose: first.parked,
        slack: Slack { mm: if meets_margin { 60.0 } else { 4.0 }, rad: 0.014 },
        meets_margin,
        verdict,
        care: 2,
    };
    let none = |is_everywhere: bool, is_partial: bool| {
        Cell::NoneFound(NoneFound { pose: first.parked, stops: stops.clone(), is_everywhere, is_partial })
    };
    let cell = |nth: usize| match nth % 9 {
        0 => Some(Cell::Fits(stands(true, Verdict::Ready))),
        1 => Some(Cell::Fits(stands(true, Verdict::ReadyWithCare))),
        2 => Some(Cell::Fits(stands(false, Verdict::ReadyWithCare))),
        3 => {
            let (steps, verdict) = (steps.clone(), Verdict::ReadyWithCare);
            Some(Cell::AfterMoves { pose: first.parked, steps, verdict })
        }
        4 => Some(Cell::Elsewhere(stands(true, Verdict::Ready))),
        5 => Some(none(false, false)),
        6 => Some(none(true, false)),
        7 => Some(none(false, true)),
        _ => None,
    };
    let line = |nth: usize| Line {
        arrangement: named(nth, is_long),
        is_saved: true,
        weight: if nth == 1 { 2.5 } else { 1.0 },
    };
    let all: Arc<[Line]> = (0..lines).map(line).collect();
    let place = |nth: usize| match nth {
        own if own + 1 == places => Place::Room,
        own if own % 2 == 0 => Place::Parked {
            of: long(&format!("place {own} ")).as_str().into(),
            pose: first.parked,
            on_runways: Vec::new(),
            in_bay: None,
        },
        own => Place::Bay(long(&format!("bay {own} ")).as_str().into()),
    };
    let slack = Slack { mm: MARGIN.mm, rad: MARGIN.rad };
    let mut one = bay::empty(false);
    one.id = first.id.clone();
    let one = Line { arrangement: one, is_saved: true, weight: 1.0 };
    let grid = Grid::over(first.bay.room.bounds(), 250.0);
    let heard = [heard(&[Search::new(&one.arrangement)], &[1.0], &grid, 0.0)];
    let mut needed = vec![needs(&one, &slack); lines];
    // One that fits in no empty room.
    if lines > 2 {
        needed[2] = None;
    }
    let mut own = Planned::begun(all, (0..places).map(place).collect(), MARGIN);
    own.rows = (0..lines)
        .map(|line| {
            let cells = (0..places).map(|place| cell(line + 2 * place)).collect();
            Some(Arc::new(Row { cells, has_moves: true }))
        })
        .collect();
    own.map = Some(Arc::new(fit_map(grid, &heard, lines)));
    own.best = Some(Arc::new(BestPlace {
        pose: one.arrangement.parked,
        slack: Slack { mm: 60.0, rad: 0.014 },
        meets_margin: true,
        serves: vec![(0, Verdict::ReadyWithCare)],
        weight: 1.0,
        of_weight: lines as f64,
    }));
    own.is_best_looked_for = true;
    own.store_mm = STORE_MM;
    own.room = Some(Arc::new(Curve::of(&needed, STORE_MM)));
    own.needs = needed.into();
    own
}

fn about() -> About {
    About {
        day: "2026-11-28".into(),
        file: long("file "),
        shop: long("shop "),
        revision: "B".into(),
        record: String::new(),
    }
}

pub(super) fn pages(found: &Planned, paper: Paper, locale: Locale) -> Vec<Page> {
    let unlocked = |change, lines: &[usize]| Unlocked {
        change,
        lines: lines.to_vec(),
        eases: Vec::new(),
        is_partial: false,
    };
    let walled_up = Unlocked { eases: vec![0], ..unlocked(Change::WalledUp("side door".into()), &[]) };
    let all = vec![
        unlocked(Change::Further(long("wall ").as_str().into()), &[0]),
        unlocked(Change::Without("column".into()), &[0, 1]),
        unlocked(Change::Without("lamp".into()), &[]),
        walled_up,
        unlocked(Change::OpenOnto(long("gate ").as_str().into()), &[0]),
    ];
    let costs = BTreeMap::from([(all[0].change.clone(), 12_500.0), (all[1].change.clone(), 900.5)]);
    let both = Together {
        changes: vec![all[0].change.clone(), all[1].change.clone()],
        costs: 13_400.5,
        lines: vec![0, 1],
        looked_at: 1,
        is_partial: false,
    };
    let each = EachAlone { all, stay: vec![(long("door ").as_str().into(), DoorStays::Exit)] };
    let changes = ChangesAsked {
        place: &Place::Room,
        fit_now: 3,
        further_mm: 1_200.0,
        found: &each,
        costs: &costs,
        for_the_money: false,
        to_spend: Some(15_000.0),
        together: Some(&both),
    };
    let name = long("Bay ");
    let of = ReportOf { found, bay: &name, changes: Some(changes), price: Some(1_500.0) };
    owner_report(&of, paper, &about(), &Lettering { locale, ..Lettering::default() })
}

fn text(pages: &[Page]) -> String {
    pages.iter().flat_map(texts).map(|own| bare(own.text)).collect()
}

/// The same without spaces, as text is compared that may be broken anywhere.
fn bare(text: &str) -> String {
    text.split_whitespace().collect()
}

#[test]
fn nothing_is_cut_and_every_place_and_line_is_there() {
    let mut strips = 0;
    for (lines, places, is_long) in [(3, 2, false), (20, 14, true), (1, 1, true)] {
        let found = found(lines, places, is_long);
        for (size, language, units) in [
            (Size::A4, Language::English, Units::Millimetres),
            (Size::Letter, Language::German, Units::FeetInches),
            (Size::A1, Language::German, Units::Metres),
        ] {
            let locale = Locale::of(language, units);
            for paper in [Paper::portrait(size), Paper::landscape(size)] {
                let pages = pages(&found, paper, locale);
                assert!((1..60).contains(&pages.len()), "{} pages", pages.len());
                for page in &pages {
                    let wrong = wrong(page, paper);
                    assert!(wrong.is_empty(), "{lines} by {places} {size:?} {language:?}: {wrong:#?}");
                }
                let said = text(&pages);
                for (nth, line) in found.lines.iter().enumerate() {
                    let words = Words::new(&line.arrangement, locale);
                    assert!(said.contains(&bare(&words.plan_line(true))), "line {nth}");
                }
                let words = Words::new(&found.lines[0].arrangement, locale);
                for place in found.places.iter() {
                    assert!(said.contains(&bare(&words.fits_place(place))), "{place:?}");
                }
                // The drawn strip of the room is told what it is, beside the drawing.
                let smallest = found.room.as_ref().and_then(|own| own.smallest.as_ref());
                let drawn = smallest.and_then(|own| Some((&found.lines[own.decides], own.strip.as_ref()?)));
                if let Some((line, strip)) = drawn {
                    assert!(said.contains(&bare(&Words::new(&line.arrangement, locale).report_store(strip))));
                }
                strips += usize::from(drawn.is_some());
                // Each line's best place, with what stops, is moved or is to be minded there.
                for (nth, line) in found.lines.iter().enumerate() {
                    let words = Words::new(&line.arrangement, locale);
                    let Some((at, cell)) = found.best_cell(nth) else { continue };
                    let told = match cell {
                        Cell::Fits(own) => words.spot(&own.offer(&line.arrangement)),
                        own => words.plan_cell(own, &MARGIN),
                    };
                    assert!(said.contains(&bare(&told)), "{told}");
                    if let Cell::Fits(own) = cell {
                        let judged = judge(&there(line, &found.places[at], own.pose));
                        for care in judged.findings.iter().filter(|own| own.severity == Severity::Care) {
                            assert!(said.contains(&bare(&words.title(care))), "{}", words.title(care));
                        }
                    }
                }
            }
        }
    }
    assert!(strips > 0, "a room keeps a strip for what is in store");
}

/// Capitals are 2.5 mm high or more, in the pictures too.
#[test]
fn all_of_it_can_be_read() {
    let capitals = 2048.0 / 2816.0;
    let of = |item: &baywright_drawing::Item| match &item.shape {
        baywright_drawing::Shape::Text(own) => Some(own.style.size),
        baywright_drawing::Shape::Dimension(own) => Some(own.text.style.size),
        _ => None,
    };
    for page in pages(&found(4, 3, false), Paper::portrait(Size::A4), Locale::default()) {
        for size in page.frames.iter().flat_map(|own| own.items().iter().filter_map(of)) {
            let high = size * capitals / PX_PER_PAPER_MM;
            assert!(high > 2.5 - 0.001, "{high:.2} mm");
        }
    }
}

/// The map and the room are at the scale that stands below them.
#[test]
fn pictures_are_to_scale() {
    let found = found(3, 2, false);
    let pages = pages(&found, Paper::portrait(Size::A4), Locale::default());
    let said = text(&pages);
    let views = pages.iter().flat_map(|own| &own.frames).filter_map(|own| match &own.content {
        Content::View(drawing) => Some(drawing),
        _ => None,
    });
    let scales: Vec<f64> = views.map(|own| PX_PER_PAPER_MM / own.px_per_mm).collect();
    assert_eq!(scales.len(), 2, "{scales:?}");
    let words = Words::new(&found.lines[0].arrangement, Locale::default());
    for one_to in scales {
        assert!((one_to - one_to.round()).abs() < 1e-9, "{one_to}");
        assert!(said.contains(&bare(&words.scale(one_to.round()))), "1 : {one_to}");
    }
}

/// Nothing that was not looked at passes for an answer.
#[test]
fn what_was_not_looked_at_is_told_as_that() {
    let begun = found(3, 2, false);
    let none = Planned::begun(Arc::clone(&begun.lines), Arc::clone(&begun.places), MARGIN);
    let of = ReportOf { found: &none, bay: "Bay", changes: None, price: None };
    let made = |of: &ReportOf<'_>| {
        text(&owner_report(of, Paper::portrait(Size::A4), &About::default(), &Lettering::default()))
    };
    let said = made(&of);
    for wanted in ["Notallwaslookedat", "0of3canbedoneasitis", "3notlookedattotheend", "Notlookedat."] {
        assert!(said.contains(wanted), "{wanted}: {said}");
    }
    // Of changes that nobody asked about nothing is said.
    assert!(!said.contains("inorderofworth"));
    let mut whole = begun.clone();
    let fits = Cell::Fits(Stands {
        pose: whole.lines[0].arrangement.parked,
        slack: Slack { mm: 60.0, rad: 0.014 },
        meets_margin: true,
        verdict: Verdict::Ready,
        care: 0,
    });
    let row = Arc::new(Row { cells: vec![Some(fits.clone()), Some(fits)], has_moves: true });
    whole.rows = vec![Some(row); 3];
    let said = made(&ReportOf { found: &whole, bay: "Bay", changes: None, price: None });
    assert!(said.contains("3of3canbedoneasitis.") && !said.contains("Notallwaslookedat"), "{said}");
    // One line whose moves were not looked for.
    let Some(Some(row)) = begun.rows.first() else { unreachable!() };
    whole.rows[1] = Some(Arc::new(Row { has_moves: false, ..Row::clone(row) }));
    let said = made(&ReportOf { found: &whole, bay: "Bay", changes: None, price: None });
    assert!(said.contains("Notallwaslookedat"));
}

/// What unlocks most comes first, and what costs more than is to be spent is told so.
#[test]
fn changes_stand_in_their_order() {
    let said = text(&pages(&found(3, 2, false), Paper::portrait(Size::A4), Locale::default()));
    let at = |wanted: &str| said.rfind(wanted).unwrap_or_else(|| panic!("{wanted}: {said}"));
    let [from, to] = ["Changesofthebuilding", "Together,forwhatcanbespent"].map(at);
    assert!(from < to && said[from..to].contains("Withoutthecolumn"), "{said}");
    assert!(said.contains("Itunlocks2.") && said.contains("1otherchangeunlocksnone."), "{said}");
    assert!(!said.contains("Withoutthelamp") && !said.contains("morethanistobespent"));
    assert!(said.contains("Theycost13400.50") && said.contains("unlock2:1,2."), "{said}");
}
