//! A room that is being typed, wall by wall or in two numbers, and is no layout yet: texts as they stand in their fields.

use baywright_planner::words::{Locale, Units};
use serde::{Deserialize, Serialize};

/// The version of its text in the recovery journal: one more whenever an older program would misread it.
const VERSION: u32 = 2;

/// So many walls are typed at most; more come from a drawing.
pub const MOST_WALLS: usize = 100;

/// The unit of a length that is typed without one: the one that is shown meanwhile.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum TypedIn {
    /// mm.
    #[default]
    Millimetres,
    /// m.
    Metres,
    /// Inches, where feet and inches are shown.
    Inches,
}

impl From<Units> for TypedIn {
    fn from(units: Units) -> Self {
        match units {
            Units::Millimetres => Self::Millimetres,
            Units::Metres => Self::Metres,
            Units::FeetInches => Self::Inches,
        }
    }
}

impl TypedIn {
    /// As it is typed after a number.
    const fn sign(self) -> &'static str {
        match self {
            Self::Millimetres => "mm",
            Self::Metres => "m",
            Self::Inches => "in",
        }
    }

    /// A bay of a usual size: length, width, clear height.
    fn usual(self) -> [String; 3] {
        let usual = match self {
            Self::Millimetres => ["12000", "6000", "3500"],
            Self::Metres => ["12 m", "6 m", "3.5 m"],
            Self::Inches => ["40 ft", "20 ft", "11 ft 6 in"],
        };
        usual.map(|text| {
            let mut text = text.to_owned();
            self.named(&mut text);
            text
        })
    }

    /// What was typed, with the unit that it is in wherever it names none, in each part of a sum; what is no figure stays as
    /// it is. Whole millimetres look as they do everywhere else.
    pub fn named(self, text: &mut String) {
        let typed = text.trim();
        let digits = typed.chars().all(|c| c.is_ascii_digit()).then(|| typed.parse::<u32>().ok()).flatten();
        if let (Self::Millimetres, Some(mm)) = (self, digits) {
            *text = Locale::default().length(f64::from(mm));
            return;
        }
        // Fourteen feet six or eight inches: that is asked first.
        let (feet, inches) = typed.split_once('-').unwrap_or_default();
        let is_bare = !feet.is_empty() && feet.trim_end().chars().all(|c| c.is_ascii_digit());
        if self == Self::Inches && is_bare && !inches.starts_with(char::is_whitespace) {
            return;
        }
        let parts = parts_of_sum(text);
        let is_named =
            |part: &str| !part.contains(|c: char| c.is_ascii_digit()) || part.contains(names_a_unit);
        if parts.iter().all(|part| is_named(part)) {
            return;
        }
        let named = parts.iter().map(|part| {
            let (length, blanks) = part.split_at(part.trim_end().len());
            if is_named(part) { (*part).to_owned() } else { format!("{length} {}{blanks}", self.sign()) }
        });
        *text = named.collect::<String>().trim_end().to_owned();
    }
}

/// What was typed of one wall.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct WallTyped {
    /// Its length, with its unit or in that of the room, [`RoomDraft::typed_in`].
    pub length: String,
    /// The turn to the left at its end, degrees.
    pub turn: String,
    /// Its name.
    pub name: String,
}

/// What was typed of a room.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RoomDraft {
    /// The bay's name.
    pub name: String,
    /// Wall by wall, instead of two numbers.
    pub taped: bool,
    /// The unit of the lengths below that have none of their own. Rooms that did not say so were typed in millimetres, as the
    /// program starts.
    #[serde(default)]
    pub typed_in: TypedIn,
    /// The rectangle's length, its width, the clear height: each with its unit or in [`Self::typed_in`].
    pub sizes: [String; 3],
    /// The walls.
    pub walls: Vec<WallTyped>,
    /// Whether what is left open is spread over all walls.
    pub spread: bool,
}

/// Why a kept text is no room.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unread {
    /// A later version of the program wrote it.
    Later,
    /// It is no such text.
    Damaged,
}

#[derive(Serialize)]
struct Written<'a> {
    version: u32,
    #[serde(flatten)]
    room: &'a RoomDraft,
}

/// Whatever else a text says: which version it is of. The first one did not say so.
#[derive(Deserialize)]
struct Version {
    #[serde(default = "first")]
    version: u32,
}

const fn first() -> u32 {
    1
}

impl RoomDraft {
    /// A rectangle of a usual size, and four walls with square corners.
    pub fn new(name: &str, typed_in: TypedIn) -> Self {
        let wall = || WallTyped { turn: "90".to_owned(), ..WallTyped::default() };
        Self {
            name: name.to_owned(),
            taped: false,
            typed_in,
            sizes: typed_in.usual(),
            walls: (0..4).map(|_| wall()).collect(),
            spread: false,
        }
    }

    /// From here on lengths are shown, and typed, in another unit: what was typed says what it said.
    pub fn type_in(&mut self, now: TypedIn) {
        let was = std::mem::replace(&mut self.typed_in, now);
        if was == now {
            return;
        }
        let sizes = if self.sizes == was.usual() {
            // What is only offered is offered anew.
            self.sizes = now.usual();
            &mut []
        } else {
            &mut self.sizes[..]
        };
        for text in self.walls.iter_mut().map(|wall| &mut wall.length).chain(sizes) {
            was.named(text);
        }
    }

    /// Whether anything was typed that would be a pity to lose; `offered` is the name that a new bay has until it gets another.
    pub fn is_begun(&self, offered: &str) -> bool {
        let new = Self::new(offered, self.typed_in);
        self.name != new.name || self.sizes != new.sizes || self.walls != new.walls
    }

    /// The text by which it is kept in the recovery journal.
    pub fn text(&self) -> Option<String> {
        serde_json::to_string(&Written { version: VERSION, room: self }).ok()
    }

    /// One that an earlier session left.
    ///
    /// # Errors
    /// The text is of a later version, or none.
    pub fn left_behind(text: &str) -> Result<Self, Unread> {
        let damaged = |_| Unread::Damaged;
        let Version { version } = serde_json::from_str(text).map_err(damaged)?;
        if version > VERSION {
            return Err(Unread::Later);
        }
        let mut room: Self = serde_json::from_str(text).map_err(damaged)?;
        room.walls.truncate(MOST_WALLS);
        Ok(room)
    }
}

/// Whether a letter can only be of a unit: "7 ft", "8' 6\"".
fn names_a_unit(c: char) -> bool {
    c.is_alphabetic() || matches!(c, '\'' | '"' | '\u{2032}' | '\u{2033}' | '\u{2019}' | '\u{201d}')
}

/// The parts of a sum, each with the sign before it. A sign at the start of a part, or after one that multiplies, is its own; a dash
/// that touches the feet before it joins them to inches.
fn parts_of_sum(text: &str) -> Vec<&str> {
    let (mut parts, mut start) = (Vec::new(), 0);
    for (at, _) in text.match_indices(['+', '-', '\u{2212}']) {
        let before = &text[start..at];
        let is_own = before.trim_end().ends_with(['*', '\u{d7}', '\u{b7}', '+', '-', '\u{2212}']);
        let joins = before.ends_with(['\'', '\u{2032}', '\u{2018}', '\u{2019}'])
            || before.to_lowercase().ends_with("ft");
        if !before.trim().is_empty() && !is_own && !joins {
            parts.push(before);
            start = at;
        }
    }
    parts.push(&text[start..]);
    parts
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_kept_comes_back_and_the_first_version_too() {
        let room = RoomDraft { taped: true, ..RoomDraft::new("Back bay", TypedIn::Millimetres) };
        let text = room.text().unwrap();
        assert!(text.starts_with(r#"{"version":2,"#), "{text}");
        assert_eq!(RoomDraft::left_behind(&text), Ok(room.clone()));
        // As it was kept before the version was noted, and the unit.
        let first = text.replacen(r#""version":2,"#, "", 1).replacen(r#""typed_in":"Millimetres","#, "", 1);
        assert_eq!(RoomDraft::left_behind(&first), Ok(room));
    }

    #[test]
    fn whatever_was_typed_would_be_a_pity_to_lose() {
        let new = RoomDraft::new("My bay", TypedIn::Metres);
        assert!(!new.is_begun("My bay"));
        let changes: [fn(&mut RoomDraft); 6] = [
            |room| room.name = "Back bay".to_owned(),
            |room| room.sizes[2] = "4".to_owned(),
            |room| room.walls[0].length = "4".to_owned(),
            |room| room.walls[1].turn = "-90".to_owned(),
            |room| room.walls[2].name = "street wall".to_owned(),
            |room| room.walls.push(WallTyped::default()),
        ];
        for (i, change) in changes.into_iter().enumerate() {
            let mut room = new.clone();
            change(&mut room);
            assert!(room.is_begun("My bay"), "{i}");
        }
    }

    #[test]
    fn what_was_typed_says_the_same_in_another_unit() {
        let mut room = RoomDraft::new("Back bay", TypedIn::Millimetres);
        for (wall, length) in room.walls.iter_mut().zip(["11500", "6 m", " 7 ft 6", ""]) {
            wall.length = length.to_owned();
        }
        room.type_in(TypedIn::Inches);
        let lengths: Vec<&str> = room.walls.iter().map(|wall| wall.length.as_str()).collect();
        assert_eq!(lengths, [&*Locale::default().length(11_500.0), "6 m", " 7 ft 6", ""]);
        assert_eq!(room.sizes, ["40 ft", "20 ft", "11 ft 6 in"], "what is offered is offered anew");
        room.sizes[0] = "12,5".to_owned();
        room.type_in(TypedIn::Metres);
        assert_eq!(room.sizes, ["12,5 in", "20 ft", "11 ft 6 in"]);
        // The unit is kept with it.
        room.sizes[1] = "6,2".to_owned();
        let mut kept = RoomDraft::left_behind(&room.text().unwrap()).unwrap();
        kept.type_in(TypedIn::Millimetres);
        assert_eq!(kept.sizes[1], "6,2 m");
    }

    /// A sum says the same in every unit that it is shown in afterwards: each of its parts.
    #[test]
    fn a_sum_says_the_same_in_another_unit() {
        for (typed, named) in [
            ("1200+35", "1200 mm+35 mm"),
            ("1200 - 35 ", "1200 mm - 35 mm"),
            ("1 200 + 6 in", "1 200 mm + 6 in"),
            ("-40+15", "-40 mm+15 mm"),
            ("3*-10", "3*-10 mm"),
            ("2*300", "2*300 mm"),
            ("4'-6\"", "4'-6\""),
            ("4 ft-6", "4 ft-6"),
            ("4' - 6", "4' - 6 mm"),
            ("about", "about"),
            ("+", "+"),
        ] {
            let mut text = typed.to_owned();
            TypedIn::Millimetres.named(&mut text);
            assert_eq!(text, named, "{typed:?}");
            // Once is enough.
            TypedIn::Inches.named(&mut text);
            assert_eq!(text, named, "{typed:?}");
        }
        for asked in ["14-6", "14-6 1/2\""] {
            let mut text = asked.to_owned();
            TypedIn::Inches.named(&mut text);
            assert_eq!(text, asked);
        }
    }

    #[test]
    fn a_later_version_is_not_guessed_at() {
        assert_eq!(RoomDraft::left_behind(r#"{"version":3,"corners":[]}"#), Err(Unread::Later));
        assert_eq!(RoomDraft::left_behind("{}"), Err(Unread::Damaged));
        assert_eq!(RoomDraft::left_behind("walls"), Err(Unread::Damaged));
    }
}
