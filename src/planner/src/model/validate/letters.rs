//! Characters that a name or a text of a file may not hold: what is not seen, and what makes the rest be seen as something else.

/// Controls of the direction of writing, and separators of lines and paragraphs: what stands after them is read in another
/// order or on another line than it was typed. After the Unicode Standard's property `Bidi_Control` (UAX #9) and its general
/// categories Zl and Zp.
pub(super) const fn reorders_or_breaks(c: char) -> bool {
    matches!(
        c,
        '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{2028}' | '\u{2029}'
    )
}

/// Whether anything of a text is seen. Joiners between letters stay; a text of nothing else than blanks, joiners, fillers and
/// marks without a letter to stand on is none.
pub(super) fn is_seen(text: &str) -> bool {
    text.chars().any(|c| !c.is_whitespace() && !is_unseen(c))
}

/// What takes no ink: after the property `Default_Ignorable_Code_Point` of the Unicode Standard, with the blank of Braille and
/// the combining marks of the usual blocks, which need a letter to stand on.
const fn is_unseen(c: char) -> bool {
    matches!(
        c,
        '\u{ad}'
            | '\u{34f}'
            | '\u{115f}'..='\u{1160}'
            | '\u{17b4}'..='\u{17b5}'
            | '\u{180b}'..='\u{180f}'
            | '\u{200b}'..='\u{200f}'
            | '\u{202a}'..='\u{202e}'
            | '\u{2060}'..='\u{206f}'
            | '\u{2800}'
            | '\u{3164}'
            | '\u{fe00}'..='\u{fe0f}'
            | '\u{feff}'
            | '\u{ffa0}'
            | '\u{fff0}'..='\u{fff8}'
            | '\u{1bca0}'..='\u{1bca3}'
            | '\u{1d173}'..='\u{1d17a}'
            | '\u{e0000}'..='\u{e0fff}'
            | '\u{300}'..='\u{36f}'
            | '\u{1ab0}'..='\u{1aff}'
            | '\u{1dc0}'..='\u{1dff}'
            | '\u{20d0}'..='\u{20ff}'
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_seen_is_no_name() {
        for unseen in ["\u{200b}", "\u{200d}\u{2060}", "\u{2800}", "\u{3164}", "\u{301}", "\u{feff} \u{ad}"] {
            assert!(!is_seen(unseen), "{unseen:?}");
        }
        // Joiners between letters of Persian and of the scripts of India are part of how a word is written.
        for seen in ["a", "7", "-", "می\u{200c}خواهم", "क्\u{200d}ष", "e\u{301}", "名", "👍🏽"]
        {
            assert!(is_seen(seen), "{seen:?}");
            assert!(!seen.chars().any(reorders_or_breaks), "{seen:?}");
        }
        for hidden in ["a\u{202e}b", "\u{2066}a", "a\u{200f}", "a\u{2028}b", "a\u{2029}", "\u{61c}a"] {
            assert!(hidden.chars().any(reorders_or_breaks), "{hidden:?}");
        }
    }
}
