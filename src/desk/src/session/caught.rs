//! Catching a fault of the program, so that it takes no work along and is said.

use std::any::Any;
use std::panic::{AssertUnwindSafe, catch_unwind};

/// What some work gives, or what its fault said.
///
/// # Errors
/// It panicked. What it was changing may be half done: the caller drops that, or makes it anew.
pub fn caught<T>(work: impl FnOnce() -> T) -> Result<T, String> {
    catch_unwind(AssertUnwindSafe(work)).map_err(|fault| words_of(&*fault))
}

/// What a panic said.
fn words_of(fault: &(dyn Any + Send)) -> String {
    fault
        .downcast_ref::<&str>()
        .map(|text| (*text).to_owned())
        .or_else(|| fault.downcast_ref::<String>().cloned())
        .unwrap_or_else(|| "no words".to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fault_is_told_in_its_own_words() {
        assert_eq!(caught(|| 2), Ok(2));
        let words = |fault: Result<(), String>| fault.unwrap_err();
        assert_eq!(words(caught(|| panic!("planted"))), "planted");
        assert_eq!(words(caught(|| panic!("planted {}", 2))), "planted 2");
        assert_eq!(words(caught(|| std::panic::panic_any(2))), "no words");
    }
}
