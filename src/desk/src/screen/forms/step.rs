//! Up and Down in a field: its figure becomes more or less, by as much as arrows move a thing.

use egui::{Key, Modifiers, Ui};

/// A figure that can be stepped, as it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::screen) enum Stepped {
    /// mm: by 10, with Shift by 100, with Alt by 1.
    Length(f64),
    /// Degrees: by 1, with Shift by 15, with Alt by a tenth.
    Degrees(f64),
}

impl Stepped {
    /// What the arrow keys that were pressed in this frame make of it, as one would type it; they are then used up. `None`
    /// if none was pressed.
    pub fn by_keys(self, ui: &Ui) -> Option<String> {
        let ways = [(Key::ArrowUp, 1.0), (Key::ArrowDown, -1.0)];
        let kinds = [(Modifiers::SHIFT, 0), (Modifiers::ALT, 1), (Modifiers::NONE, 2)];
        let steps = match self {
            Self::Length(_) => [100.0, 1.0, 10.0],
            Self::Degrees(_) => [15.0, 0.1, 1.0],
        };
        let mut by = 0.0;
        let mut pressed = false;
        for (key, way) in ways {
            for (modifiers, kind) in kinds {
                let times = ui.input_mut(|i| i.count_and_consume_key(modifiers, key));
                pressed |= times > 0;
                by += way * times as f64 * steps.get(kind).copied().unwrap_or(0.0);
            }
        }
        // A tenth is as fine as anything is stepped.
        let tenths = |value: f64| ((value + by) * 10.0).round() / 10.0;
        pressed.then(|| match self {
            Self::Length(mm) => format!("{} mm", tenths(mm)),
            Self::Degrees(degrees) => format!("{}", tenths(degrees)),
        })
    }
}
