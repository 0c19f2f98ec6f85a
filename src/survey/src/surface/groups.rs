//! What belongs together: each names another of its group, and one of them itself.

/// The one that stands for a group.
pub(super) fn root(group: &[usize], mut of: usize) -> usize {
    while let Some(up) = group.get(of).copied().filter(|up| *up != of) {
        of = up;
    }
    of
}
