//! The table of aimings by places (CSV), for other programs: one row for each aiming and place.

use baywright_planner::Verdict;
use baywright_planner::geometry::{PlanPose, angle};
use baywright_planner::matrix::{Cell, Place, Planned};
use baywright_planner::place::Slack;

/// The columns of the table. Their names and what they mean never change once shipped.
const COLUMNS: [&str; 15] = [
    "set_up",
    "vehicle",
    "aiming",
    "place_kind",
    "place",
    "answer",
    "verdict",
    "x_mm",
    "y_mm",
    "heading_deg",
    "slack_mm",
    "slack_deg",
    "care",
    "stops",
    "never",
];

/// The table, as far as there are answers.
///
/// # Errors
/// Its writer refused.
pub(crate) fn table(found: &Planned) -> csv::Result<Vec<u8>> {
    let mut out = csv::Writer::from_writer(Vec::new());
    out.write_record(COLUMNS)?;
    for (nth, (line, row)) in found.lines.iter().zip(&found.rows).enumerate() {
        let cells = row.iter().flat_map(|own| &own.cells);
        for (at, (place, cell)) in found.places.iter().zip(cells).enumerate() {
            let Some(cell) = cell else { continue };
            let own = &line.arrangement;
            let (kind, name) = match place {
                Place::Parked { of, .. } => ("parked", of.as_str()),
                Place::Bay(bay) => ("bay", bay.as_str()),
                Place::Room => ("room", ""),
            };
            let told = Told::of(cell);
            let set_up = if line.is_saved { own.id.as_str() } else { "" };
            let figures = told.figures();
            let first = [set_up, own.vehicle.id.as_str(), own.aiming.id.as_str(), kind, name];
            let rest = [told.answer, told.verdict.map_or("", verdict_name)].into_iter();
            let figures = figures.iter().map(String::as_str);
            let never = found.never(nth, at).map_or("", |_| "true");
            out.write_record(first.into_iter().chain(rest).chain(figures).chain([never]))?;
        }
    }
    out.into_inner().map_err(|why| why.into_error().into())
}

const fn verdict_name(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Ready => "ready",
        Verdict::ReadyWithCare => "ready-with-care",
        Verdict::NotReady => "not-ready",
    }
}

/// What the table says of a cell.
struct Told {
    answer: &'static str,
    verdict: Option<Verdict>,
    pose: PlanPose,
    slack: Option<Slack>,
    care: Option<usize>,
    stops: String,
}

impl Told {
    fn of(cell: &Cell) -> Self {
        let at = |answer, pose, verdict| Self {
            answer,
            verdict,
            pose,
            slack: None,
            care: None,
            stops: String::new(),
        };
        match cell {
            Cell::Fits(own) | Cell::Elsewhere(own) => {
                let answer = if matches!(cell, Cell::Fits(_)) { "fits" } else { "elsewhere" };
                let told = at(answer, own.pose, Some(own.verdict));
                Self { slack: Some(own.slack), care: Some(own.care), ..told }
            }
            Cell::AfterMoves { pose, verdict, .. } => at("after-moves", *pose, Some(*verdict)),
            Cell::NoneFound(own) => {
                let mut codes: Vec<&str> = own.stops.iter().map(|own| own.code().as_str()).collect();
                codes.sort_unstable();
                codes.dedup();
                Self { stops: codes.join(" "), ..at("none-found", own.pose, None) }
            }
        }
    }

    /// All that is no name, as text.
    fn figures(&self) -> [String; 7] {
        let to = |value: f64, parts: f64| format!("{}", (value * parts).round() / parts + 0.0);
        let slack =
            |of: fn(&Slack) -> f64| self.slack.as_ref().map_or_else(String::new, |slack| to(of(slack), 1e2));
        let at = self.pose.origin();
        [
            to(at.x, 1e2),
            to(at.y, 1e2),
            to(angle::degrees(self.pose.heading()), 1e4),
            slack(|own| own.mm),
            slack(|own| angle::degrees(own.rad)),
            self.care.map_or_else(String::new, |own| own.to_string()),
            self.stops.clone(),
        ]
    }
}
