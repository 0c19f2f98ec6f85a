//! A room that is being typed, wall by wall or in two numbers, and is no layout yet: texts as they stand in their fields.

use serde::{Deserialize, Serialize};

/// The version of its text in the recovery journal: one more whenever an older program would misread it.
const VERSION: u32 = 1;

/// So many walls are typed at most; more come from a drawing.
pub const MOST_WALLS: usize = 100;

/// What was typed of one wall.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct WallTyped {
    /// Its length.
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
    /// The rectangle's length, its width, the clear height.
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
    pub fn new(name: &str) -> Self {
        let wall = || WallTyped { turn: "90".to_owned(), ..WallTyped::default() };
        Self {
            name: name.to_owned(),
            taped: false,
            sizes: ["12000", "6000", "3500"].map(str::to_owned),
            walls: (0..4).map(|_| wall()).collect(),
            spread: false,
        }
    }

    /// Whether anything was typed that would be a pity to lose.
    pub fn is_begun(&self) -> bool {
        let new = Self::new(&self.name);
        self.sizes != new.sizes
            || self.walls.iter().any(|wall| !wall.length.is_empty() || !wall.name.is_empty())
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_kept_comes_back_and_the_first_version_too() {
        let room = RoomDraft { taped: true, ..RoomDraft::new("Back bay") };
        let text = room.text().unwrap();
        assert!(text.starts_with(r#"{"version":1,"#), "{text}");
        assert_eq!(RoomDraft::left_behind(&text), Ok(room.clone()));
        // As it was kept before the version was noted.
        let first = text.replacen(r#""version":1,"#, "", 1);
        assert_eq!(RoomDraft::left_behind(&first), Ok(room));
    }

    #[test]
    fn a_later_version_is_not_guessed_at() {
        assert_eq!(RoomDraft::left_behind(r#"{"version":2,"corners":[]}"#), Err(Unread::Later));
        assert_eq!(RoomDraft::left_behind("{}"), Err(Unread::Damaged));
        assert_eq!(RoomDraft::left_behind("walls"), Err(Unread::Damaged));
    }
}
