//! Changes the shop's settings: whatever is open is judged by them at once.

use crate::screen::Desk;
use crate::screen::command::OfShop;

impl Desk {
    pub(super) fn apply_to_shop(&mut self, asked: OfShop) {
        match asked {
            OfShop::Set(figure, value) => self.shop.set(figure, value),
            OfShop::SetBack => self.shop.set_back(),
            OfShop::Say(part) => self.shop.say(part),
            OfShop::Have { instead_of, own } => self.shop.have(instead_of.as_ref(), *own),
            OfShop::HaveNot(name) => self.shop.have_not(&name),
            OfShop::Undo => self.shop.undo(),
            OfShop::Redo => self.shop.redo(),
            OfShop::Save(over) => self.shop.save(over),
            OfShop::ReadAgain => self.shop.read_again(),
        }
        self.judge_by_shop();
    }

    /// Another window, or another person, may have changed them since.
    pub(in crate::screen) fn look_at_shop_again(&mut self) {
        self.shop.look_again();
        self.judge_by_shop();
    }
}
