//! Every check, through the public function, against figures worked out by hand.

mod support;

mod cures;
mod room;
mod set_up;
mod things;
mod totality;
mod words;
