//! Texts of the shop's settings.

use super::Locale;
use crate::model::ShopFigure;
use crate::model::validate::limits::Unit;

texts! {
    shop: ShopTexts, "Every fixed text about the shop's settings.";
    title, "A page.";
    intro, "What they are for.";
    places, "A group of figures.";
    floor, "A group of figures.";
    room, "A group of figures.";
    marks, "A group of figures.";
    instruments, "A group of figures.";
    faults, "Over what goes wrong as a rule.";
    to_default, "Sets one figure back.";
    all_to_default, "Sets all of them back.";
    nowhere, "There is no folder in which they could be kept.";
    changed_on_disk, "Why they were not saved.";
    gone_from_disk, "Why they were not saved.";
    save_there_again, "Writes them where they were.";
    take_theirs, "Reads the file that someone else changed.";
    save_over, "Saves over it.";
    save_again, "Tries once more.";
    drop_them, "Drops what could not be saved.";
    not_read, "The file that is there cannot be read.";
    read_again, "Reads it once more.";
    undo, "One step back, of these settings.";
    redo, "One step forth, of these settings.";
    change_it, "Leads from a finding to the settings.";
}

impl ShopTexts {
    sentences! { shop:
        /// What a figure is called.
        label(figure: ShopFigure) -> &'static str;
        /// Why its default is what it is, and where it comes from: `own` is the default, if the shop set another.
        about(figure: ShopFigure, own: Option<&str>) -> String;
        /// What sets one figure back.
        default_of(figure: ShopFigure) -> String;
        /// Where they are kept.
        kept_in(file: &str) -> String;
        /// What was set: of which figure, and to what.
        set(figure: ShopFigure, value: &str) -> String;
        /// What was typed is no number.
        no_number(text: &str) -> String;
        /// What was typed is no whole number.
        no_whole_number(text: &str) -> String;
        /// They could not be saved, and why.
        not_saved(why: &str) -> String;
    }
}

impl Locale {
    /// A figure of a shop with its unit, where it has one that is not in its label, as it can be typed; `value` is in the file's unit.
    pub fn shop_value(self, figure: ShopFigure, value: f64) -> String {
        match figure.range().unit {
            Unit::Millimetres => self.length(value),
            Unit::Degrees => self.region.degrees_to_type(value),
            Unit::Days => self.region.number(value, 0),
            Unit::None | Unit::Gigahertz | Unit::Dbsm => self.region.number(value, 2),
        }
    }
}
