//! The work in hand, whether or not a screen shows it: the document and its history, the answer for it, what is kept against
//! a crash, what runs beside it. Nothing here reaches the screen.

pub mod answer;
pub mod caught;
pub(crate) mod clock;
pub mod document;
pub mod draft;
pub(crate) mod drawn_in;
pub mod first;
pub mod history;
pub mod job;
pub mod keeper;
pub mod letters;
pub mod log;
pub mod planning;
pub(crate) mod printed;
pub mod room_draft;
pub mod shop;
pub mod slow;
pub mod system_look;
pub mod verdicts;
pub(crate) mod visit_record;
