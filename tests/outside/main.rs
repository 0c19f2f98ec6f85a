//! The maths against outside sources: tables worked by independent libraries, each named in its file with the script that
//! made it.

mod answers;
mod levels;
mod pairs;
mod rooms;
mod sight;
