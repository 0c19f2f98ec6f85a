//! Texts of the shop's settings.

use super::Locale;
use crate::model::ShopFigure;

texts! {
    shop: ShopTexts, "Every fixed text about the shop's settings.";
    title, "A page.";
    intro, "What they are for.";
    places, "A group of figures.";
    floor, "A group of figures.";
    room, "A group of figures.";
    marks, "A group of figures.";
    no_source, "Under a figure that is the default.";
    to_default, "Sets one figure back.";
    all_default, "Sets all of them back.";
    built_in, "No file: the defaults.";
    changed_on_disk, "Why it was not saved.";
    take_theirs, "Reads the file that someone else changed.";
    save_over, "Saves over it.";
    try_again, "Saves once more.";
    not_read, "The file that is there cannot be read.";
    left, "What an earlier run left unsaved.";
    take_up, "Takes it up.";
    drop_it, "Drops it.";
    undo, "One step back, of these settings.";
    redo, "One step forth, of these settings.";
    read_only, "While another window has them open.";
}

impl ShopTexts {
    sentences! { shop:
        /// What a figure is called.
        label(figure: ShopFigure) -> &'static str;
        /// Why its default is what it is.
        reason(figure: ShopFigure) -> &'static str;
        /// A figure of the shop's own: what the default would be.
        own(default: &str) -> String;
        /// Where they are saved.
        saved_in(file: &str) -> String;
        /// What was set: of which figure, and to what.
        set(figure: ShopFigure, value: &str) -> String;
        /// All of them were set back.
        set_back() -> &'static str;
        /// They could not be saved, and why.
        not_saved(why: &str) -> String;
    }

    /// A figure with its unit, in the units in use; `value` is in the file's unit.
    pub fn value(&self, figure: ShopFigure, value: f64, locale: Locale) -> String {
        locale.shop_value(figure, value)
    }
}

impl Locale {
    /// A figure of a shop with its unit; `value` is in the file's unit.
    pub fn shop_value(self, figure: ShopFigure, value: f64) -> String {
        said!(self.language, shop::value(figure, value, self))
    }
}
