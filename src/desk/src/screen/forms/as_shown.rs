//! Lines of a list as they were shown: one that nobody touched is what it stands for, finer than it is written.

use std::collections::{BTreeMap, VecDeque};

/// What each line of a list that was shown stands for.
#[derive(Clone, Debug)]
pub(in crate::screen) struct AsShown<T> {
    all: BTreeMap<String, VecDeque<T>>,
}

impl<T: Copy> AsShown<T> {
    /// Of these, each as it is shown in a line.
    pub fn new(all: &[T], line: impl Fn(&T) -> String) -> Self {
        let mut lines: BTreeMap<String, VecDeque<T>> = BTreeMap::new();
        for own in all {
            lines.entry(line(own).trim_end().to_owned()).or_default().push_back(*own);
        }
        Self { all: lines }
    }

    /// What a line stands for; `None` of one that was not shown. Of several that are shown alike each in its turn: they are not the
    /// same. One that was copied stands for the last of them.
    pub fn take(&mut self, line: &str) -> Option<T> {
        let alike = self.all.get_mut(line)?;
        if alike.len() > 1 { alike.pop_front() } else { alike.front().copied() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn alike_is_not_the_same() {
        let mut shown = AsShown::new(&[1.24, 1.16, 3.0], |own| format!("{own:.1}\n"));
        let read: Vec<Option<f64>> = ["1.2", "3.0", "1.2", "1.2", "4.0"].map(|line| shown.take(line)).into();
        assert_eq!(read, [Some(1.24), Some(3.0), Some(1.16), Some(1.16), None]);
    }
}
