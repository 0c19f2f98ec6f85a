//! The word that was probably meant.

/// The one of some words that is nearest to a word that is none of them, if it is near: fewest letters changed, left
/// out, put in or swapped with their neighbour; capitals count nothing, nor does whether words are joined by a blank,
/// a dash or an underscore. A third of the letters may differ. Of two that are as near, the first.
pub fn nearest<'a>(found: &str, words: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    /// What is longer is no slip of a finger, and comparing takes as long as both lengths multiplied.
    const LONGEST: usize = 60;
    let letters = |word: &str| -> Vec<char> {
        let plain = word.trim().chars().filter(|c| !matches!(c, ' ' | '-' | '_'));
        plain.flat_map(char::to_lowercase).take(LONGEST + 1).collect()
    };
    let typed = letters(found);
    if typed.is_empty() || typed.len() > LONGEST {
        return None;
    }
    let mut best: Option<(usize, &str)> = None;
    for word in words {
        let meant = letters(word);
        let most = typed.len().max(meant.len()).div_ceil(3);
        if meant.len() > LONGEST || typed.len().abs_diff(meant.len()) > most {
            continue;
        }
        let slips = slips(&typed, &meant);
        // A word of one letter is near to every other: only what is common counts.
        if slips <= most && slips < meant.len() && best.is_none_or(|(fewest, _)| slips < fewest) {
            best = Some((slips, word));
        }
    }
    best.map(|(_, word)| word)
}

/// How many letters must be changed, left out, put in or swapped with their neighbour: the edit distance after
/// Damerau, each letter touched once, worked row by row.
fn slips(a: &[char], b: &[char]) -> usize {
    let mut before: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=b.len()).collect();
    for (i, from) in a.iter().enumerate() {
        let mut row = vec![i + 1];
        for (j, to) in b.iter().enumerate() {
            let at = |row: &[usize], j: usize| row.get(j).copied().unwrap_or(usize::MAX - 1);
            let changed = at(&last, j) + usize::from(from != to);
            let mut fewest = changed.min(at(&last, j + 1) + 1).min(at(&row, j) + 1);
            let swapped = i > 0 && j > 0 && a.get(i - 1) == Some(to) && b.get(j - 1) == Some(from);
            if swapped {
                fewest = fewest.min(at(&before, j - 1) + 1);
            }
            row.push(fewest);
        }
        before = std::mem::replace(&mut last, row);
    }
    last.last().copied().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_are_counted() {
        let count = |a: &str, b: &str| slips(&a.chars().collect::<Vec<_>>(), &b.chars().collect::<Vec<_>>());
        for (a, b, expected) in [
            ("", "", 0),
            ("", "abc", 3),
            ("abc", "", 3),
            ("wood", "wood", 0),
            ("heigth", "height", 1),
            ("kitten", "sitting", 3),
            ("ca", "abc", 3),
            ("stel", "steel", 1),
        ] {
            assert_eq!((count(a, b), count(b, a)), (expected, expected), "{a:?} {b:?}");
        }
    }

    #[test]
    fn the_nearest_word_is_found() {
        let materials = ["Steel", "Aluminium", "Mesh", "CarBody", "Wood", "Glass", "Plastic"];
        for (found, meant) in [
            ("wood", Some("Wood")),
            ("Stel", Some("Steel")),
            ("aluminum", Some("Aluminium")),
            ("car body", Some("CarBody")),
            ("car_body", Some("CarBody")),
            ("Cheese", None),
            ("", None),
            ("x", None),
        ] {
            assert_eq!(nearest(found, materials), meant, "{found:?}");
        }
        assert_eq!(nearest("heigth_mm", ["width_mm", "height_mm"]), Some("height_mm"));
        assert_eq!(nearest("lenght", ["length_mm", "width_mm"]), Some("length_mm"));
        assert_eq!(nearest("drums", ["drum", "bench"]), Some("drum"));
        assert_eq!(nearest("8", ["3"]), None, "another number is not a slip");
        assert_eq!(nearest(&"x".repeat(5000), ["x"]), None);
    }
}
