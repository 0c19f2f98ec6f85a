//! What is handed over for other programs: the plan, marks and distances, all that was found out.

use std::path::Path;
use std::sync::Arc;

use baywright_drawing::to_dxf;
use baywright_planner::Assessment;
use baywright_planner::model::{Arrangement, Layout, Shop};
use baywright_planner::words::Locale;

use super::OnPaperPage;
use crate::command_line::{json, marks};
use crate::screen::Desk;
use crate::screen::fits::ReportFrom;
use crate::session::document::made;
use crate::session::printed::{Format, NotMade};

/// What a file's ending says that is saved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum As {
    /// The pages.
    Pages(Format),
    /// Something for other programs.
    Data(Data),
}

/// Something for other programs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Data {
    /// The plan of the set-up that is shown, 1 : 1.
    Plan,
    /// Marks, targets and distances of every set-up.
    Marks,
    /// Which aimings fit where, as far as it was found.
    Fits,
    /// All that the mark sheets of every set-up tell, with the answer.
    Everything,
}

impl As {
    /// By the ending of a name and what is chosen on the page.
    pub(super) fn of_ending(path: &Path, page: &OnPaperPage) -> Option<Self> {
        let ending = path.extension()?.to_string_lossy().to_lowercase();
        match ending.as_str() {
            "dxf" => Some(Self::Data(Data::Plan)),
            "csv" if page.is_report_chosen => Some(Self::Data(Data::Fits)),
            "csv" => Some(Self::Data(Data::Marks)),
            "json" => Some(Self::Data(Data::Everything)),
            other => Format::of_ending(other, page.dpi).map(Self::Pages),
        }
    }
}

/// What is handed over, as it is now.
pub(super) struct HandedOver {
    shown: Arc<Arrangement>,
    said: Arc<Assessment>,
    all: Vec<Arrangement>,
    report: Option<ReportFrom>,
    layout: Arc<Layout>,
    /// The layout's file as it is told.
    file: String,
    shop: Shop,
    shop_file: Option<std::path::PathBuf>,
    locale: Locale,
}

impl HandedOver {
    /// The bytes of a file.
    ///
    /// # Errors
    /// Its writer refused.
    pub(super) fn bytes(&self, data: Data) -> Result<Vec<u8>, NotMade> {
        let not_made = |why: &dyn std::fmt::Display| NotMade::NoPages(why.to_string());
        match data {
            Data::Plan => Ok(to_dxf(&self.shown, &self.said, self.locale)),
            Data::Marks => marks::table(&self.all.iter().collect::<Vec<_>>()).map_err(|why| not_made(&why)),
            Data::Fits => {
                let table = self.report.as_ref().map(ReportFrom::table);
                table.unwrap_or_else(|| Ok(Vec::new())).map_err(|why| not_made(&why))
            }
            Data::Everything => {
                let shop = (&self.shop, self.shop_file.as_deref());
                let all: Vec<&Arrangement> = self.all.iter().collect();
                json::told_sheets(self.file.clone(), &self.layout.bay.name, shop, &all, self.locale)
                    .map_err(|why| not_made(&why))
            }
        }
    }
}

impl Desk {
    /// Whether what is answered is what is drawn now.
    pub(super) fn can_save_data(&self, page: &OnPaperPage, data: Data) -> bool {
        let is_there = data != Data::Fits || self.has_report();
        is_there && !self.answer.stale && !page.writing.is_running()
    }

    /// All of it as it is now, to be made into files beside the frame.
    pub(super) fn handed_over(&self) -> HandedOver {
        let layout = Arc::clone(self.document.layout());
        let of = |id| made(&layout, id, self.document.cars(), self.document.by());
        let all = layout.arrangements.iter().filter_map(|own| of(&own.id)).collect();
        let path = self.document.path();
        HandedOver {
            shown: Arc::clone(&self.answer.judged),
            said: Arc::clone(&self.answer.assessment),
            all,
            report: self.report_from(),
            file: path.map_or_else(|| layout.bay.id.to_string(), |own| own.display().to_string()),
            layout: Arc::clone(&layout),
            shop: self.shop.shop(),
            shop_file: self.shop.path().map(Path::to_owned),
            locale: self.view.locale,
        }
    }
}
