//! What is found on the page, as the owner's report among the sheets that are printed: as far as it is there.

use std::collections::BTreeMap;
use std::sync::Arc;

use baywright_drawing::sheet::{About, ChangesAsked, Paper, ReportOf, owner_report};
use baywright_drawing::{Lettering, Page};
use baywright_planner::matrix::{Change, EachAlone, Place, Planned, Together};

use crate::command_line::plan;
use crate::screen::Desk;
use crate::screen::fits::owner::Figure;

/// What the report is made from.
#[derive(Clone, Debug)]
pub(in crate::screen) struct ReportFrom {
    found: Planned,
    bay: String,
    changes: Option<Changes>,
    price: Option<f64>,
}

/// What was asked of changes, and what was found.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Changes {
    pub place: Place,
    pub fit_now: usize,
    pub further_mm: f64,
    pub found: EachAlone,
    pub costs: BTreeMap<Change, f64>,
    pub for_the_money: bool,
    pub to_spend: Option<f64>,
    pub together: Option<Together>,
}

impl PartialEq for ReportFrom {
    /// Asked anew each frame: what was found is the same where it is shared.
    fn eq(&self, other: &Self) -> bool {
        let (own, others) = (&self.found, &other.found);
        let is_far =
            |own: &Planned| [own.map.is_some(), own.best.is_some(), own.is_best_looked_for, own.is_partial];
        Arc::ptr_eq(&own.lines, &others.lines)
            && is_far(own) == is_far(others)
            && own.rows.len() == others.rows.len()
            && own.rows.iter().zip(&others.rows).all(|(a, b)| is_same(a, b))
            && is_same(&own.room, &others.room)
            && own.proven == others.proven
            && (&self.bay, &self.changes, self.price) == (&other.bay, &other.changes, other.price)
    }
}

fn is_same<T>(a: &Option<Arc<T>>, b: &Option<Arc<T>>) -> bool {
    match (a, b) {
        (Some(a), Some(b)) => Arc::ptr_eq(a, b),
        (a, b) => a.is_none() && b.is_none(),
    }
}

impl ReportFrom {
    /// Its pages.
    pub fn pages(&self, paper: Paper, about: &About, lettering: &Lettering<'_>) -> Vec<Page> {
        let changes = self.changes.as_ref().map(|own| ChangesAsked {
            place: &own.place,
            fit_now: own.fit_now,
            further_mm: own.further_mm,
            found: &own.found,
            costs: &own.costs,
            for_the_money: own.for_the_money,
            to_spend: own.to_spend,
            together: own.together.as_ref(),
        });
        let of = ReportOf { found: &self.found, bay: &self.bay, changes, price: self.price };
        owner_report(&of, paper, about, lettering)
    }

    /// The table of aimings by places, for other programs.
    ///
    /// # Errors
    /// Its writer refused.
    pub fn table(&self) -> Result<Vec<u8>, String> {
        plan::table(&self.found).map_err(|why| why.to_string())
    }
}

impl Desk {
    /// Of what is found on the page now; `None` if there is nothing, or only of what was there earlier.
    pub(in crate::screen) fn report_from(&self) -> Option<ReportFrom> {
        let found = self.fits_planned().filter(|own| !own.lines.is_empty())?;
        Some(ReportFrom {
            bay: self.document.layout().bay.name.clone(),
            changes: self.fits.changes(&found, &self.document.layout().owner, self.view.locale),
            price: self.owner_says(&Figure::SquareMetre),
            found,
        })
    }

    /// Whether there is one.
    pub(in crate::screen) fn has_report(&self) -> bool {
        self.fits_planned().is_some_and(|own| !own.lines.is_empty())
    }
}
