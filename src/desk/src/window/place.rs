//! Where the window goes: where it was last, as far as that is on a screen that is there now.

use baywright_files::KeptWindow;
use egui::{Pos2, Rect, Vec2, ViewportBuilder};

/// Of a first window, points.
const USUAL: Vec2 = Vec2::new(1_440.0, 900.0);
/// No window is smaller, unless its screen is.
pub(crate) const LEAST: Vec2 = Vec2::new(800.0, 520.0);
/// So much of the window's upper edge must be on a screen for the hand to reach it, in the unit of the screens.
const REACHED: Vec2 = Vec2::new(160.0, 24.0);

/// The window as it is asked for at first.
pub(crate) fn asked(kept: Option<KeptWindow>, builder: ViewportBuilder) -> ViewportBuilder {
    let builder = builder.with_min_inner_size(LEAST);
    let Some(kept) = kept else { return builder.with_inner_size(USUAL) };
    let builder = builder.with_inner_size(size_of(kept)).with_maximized(kept.maximized);
    match kept.at {
        Some((x, y)) if x.is_finite() && y.is_finite() => builder.with_position([x, y]),
        _ => builder,
    }
}

/// What was written may have been changed by hand.
fn size_of(kept: KeptWindow) -> Vec2 {
    let size = Vec2::from(kept.size);
    if size.is_finite() { size.max(LEAST) } else { USUAL }
}

/// How a window of this size at this place, its frame included, is to be put so that all of it is on a screen: its size and
/// its left upper corner; `None` if it is well where it is. All in one unit; the first screen is the usual one.
pub(crate) fn fitted(window: Rect, screens: &[Rect]) -> Option<(Vec2, Pos2)> {
    let seen = |screen: &Rect| window.intersect(*screen).size().max(Vec2::ZERO);
    let most = screens.iter().max_by(|a, b| {
        let area = |screen: &Rect| seen(screen).x * seen(screen).y;
        area(a).total_cmp(&area(b))
    });
    let screen = most.filter(|screen| seen(screen).x > 0.0 && seen(screen).y > 0.0).or(screens.first())?;
    let size = window.size().min(screen.size());
    let edge = Rect::from_min_size(window.min, Vec2::new(window.width(), REACHED.y));
    let is_reached = screens.iter().any(|own| {
        let seen = edge.intersect(*own);
        seen.width() >= REACHED.x && seen.height() >= REACHED.y
    });
    if is_reached && size == window.size() {
        return None;
    }
    // Of one as large as its screen rounding may leave the corner a hair outside.
    Some((size, window.min.clamp(screen.min, (screen.max - size).max(screen.min))))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rect(x: f32, y: f32, width: f32, height: f32) -> Rect {
        Rect::from_min_size(Pos2::new(x, y), Vec2::new(width, height))
    }

    #[test]
    fn a_window_is_on_a_screen_and_no_larger() {
        let laptop = rect(0.0, 0.0, 1_280.0, 720.0);
        let beside = rect(1_280.0, -200.0, 2_560.0, 1_440.0);
        let both = [laptop, beside];
        // Well where it is, also over two screens or a little beyond the edge.
        for well in [
            rect(10.0, 20.0, 1_000.0, 600.0),
            rect(1_400.0, 0.0, 1_440.0, 900.0),
            rect(-300.0, 5.0, 900.0, 600.0),
        ] {
            assert_eq!(fitted(well, &both), None, "{well}");
        }
        // Larger than its screen.
        let corner = (Vec2::new(1_280.0, 720.0), Pos2::ZERO);
        assert_eq!(fitted(rect(0.0, 0.0, 1_440.0, 900.0), &[laptop]), Some(corner));
        assert_eq!(fitted(rect(30.0, 40.0, 1_440.0, 900.0), &[laptop]), Some(corner));
        // Where a screen was that is gone, or with its upper edge out of reach.
        let gone = rect(3_000.0, 300.0, 1_000.0, 600.0);
        assert_eq!(fitted(gone, &[laptop]), Some((Vec2::new(1_000.0, 600.0), Pos2::new(280.0, 120.0))));
        let above = rect(100.0, -300.0, 900.0, 600.0);
        assert_eq!(fitted(above, &[laptop]), Some((Vec2::new(900.0, 600.0), Pos2::new(100.0, 0.0))));
        // Nothing is known of the screens.
        assert_eq!(fitted(gone, &[]), None);
    }

    /// Screens that are scaled by a quarter lie at thirds of a point; a window as large as one rounds to a hair more.
    #[test]
    fn a_window_as_large_as_a_scaled_screen_is_put_on_it() {
        for step in 0..5_000_u16 {
            let from = f32::from(step) * 0.37 + 0.1;
            let screen =
                Rect::from_min_max(Pos2::new(from, -from), Pos2::new(from * 2.3 + 900.7, from + 600.3));
            let large = Rect::from_min_size(screen.min, screen.size() * 1.5);
            let (size, at) = fitted(large, &[screen]).unwrap();
            assert_eq!((size, at), (screen.size(), screen.min), "{step}");
        }
    }

    #[test]
    fn what_was_kept_is_asked_for_as_far_as_it_makes_sense() {
        let kept = KeptWindow { at: Some((40.0, 50.0)), size: (1_000.0, 700.0), maximized: true };
        let made = asked(Some(kept), ViewportBuilder::default());
        assert_eq!(made.position, Some(Pos2::new(40.0, 50.0)));
        assert_eq!((made.inner_size, made.maximized), (Some(Vec2::new(1_000.0, 700.0)), Some(true)));
        let odd = KeptWindow { at: Some((f32::NAN, 0.0)), size: (3.0, f32::INFINITY), maximized: false };
        let made = asked(Some(odd), ViewportBuilder::default());
        assert_eq!((made.position, made.inner_size), (None, Some(USUAL)));
        assert_eq!(asked(None, ViewportBuilder::default()).inner_size, Some(USUAL));
    }
}
