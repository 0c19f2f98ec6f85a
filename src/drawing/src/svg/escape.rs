//! Numbers, colours and texts as SVG writes them.

use std::borrow::Cow;
use std::fmt;

use crate::theme::Colour;

/// A number of px, rounded to a hundredth; never "-0", never more digits than needed.
#[derive(Clone, Copy)]
pub(super) struct Px(pub f64);

/// Beyond this no renderer keeps a hundredth of a px; a place further out is drawn at the edge of it.
const FARTHEST_PX: f64 = 1e7;

impl fmt::Display for Px {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let hundredths = libm::round(self.0.clamp(-FARTHEST_PX, FARTHEST_PX) * 100.0) as i64;
        let sign = if hundredths < 0 { "-" } else { "" };
        let (whole, part) = (hundredths.unsigned_abs() / 100, hundredths.unsigned_abs() % 100);
        match (part, part % 10) {
            (0, _) => write!(f, "{sign}{whole}"),
            (_, 0) => write!(f, "{sign}{whole}.{}", part / 10),
            _ => write!(f, "{sign}{whole}.{part:02}"),
        }
    }
}

/// A colour without its opacity, and the opacity.
pub(super) fn colour(colour: Colour) -> (String, f32) {
    let [r, g, b] = colour.rgb;
    (format!("#{r:02X}{g:02X}{b:02X}"), colour.opacity)
}

/// An opacity as an attribute; nothing where it is 1.
pub(super) fn opacity(of: &str, opacity: f32) -> String {
    if opacity >= 1.0 { String::new() } else { format!(r#" {of}-opacity="{}""#, Px(f64::from(opacity))) }
}

/// A text without characters that mean something to XML or that XML does not allow.
pub(super) fn escaped(text: &str) -> Cow<'_, str> {
    let odd = |c: char| matches!(c, '<' | '>' | '&' | '"' | '\'' | '\u{fffe}' | '\u{ffff}') || c.is_control();
    if !text.contains(odd) {
        return Cow::Borrowed(text);
    }
    let mut safe = String::with_capacity(text.len() + 16);
    for c in text.chars() {
        match c {
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '&' => safe.push_str("&amp;"),
            '"' => safe.push_str("&quot;"),
            '\'' => safe.push_str("&#39;"),
            '\n' | '\t' | '\r' => safe.push(' '),
            c if odd(c) => {}
            c => safe.push(c),
        }
    }
    Cow::Owned(safe)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers() {
        let px = |v: f64| Px(v).to_string();
        assert_eq!(px(0.0), "0");
        assert_eq!(px(-0.001), "0");
        assert_eq!(px(12.345), "12.35");
        assert_eq!(px(-12.3), "-12.3");
        assert_eq!(px(-0.05), "-0.05");
        assert_eq!(px(1e30), "10000000");
    }

    #[test]
    fn texts() {
        assert_eq!(escaped("plain"), "plain");
        assert_eq!(escaped("<a & \"b\" 'c'>\u{1}\n"), "&lt;a &amp; &quot;b&quot; &#39;c&#39;&gt; ");
    }
}
