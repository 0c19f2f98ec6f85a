//! How one bay differs from another, beside the two.

use super::Words;
use crate::difference::Difference;

impl Words<'_> {
    sentences! { about:
        /// One difference, as a line of a list: "Street wall: 600 mm further out".
        difference(difference: &Difference) -> String;
        /// Over what of the arrangement's own building is not as the bay has it: how much that is.
        own_building_differs(count: usize) -> &'static str;
    }
}
