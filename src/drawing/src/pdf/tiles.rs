//! Hatches as tiles that the reader repeats.

use krilla::geom::{PathBuilder, Rect, Transform};
use krilla::paint::{Fill, Pattern, Stroke};
use krilla::surface::Surface;

use super::paths::{circle, fill, paint};
use crate::theme::Hatch;

/// A hatch as a paint; `None` of a tile of no size.
pub(super) fn pattern(surface: &mut Surface<'_>, hatch: &Hatch) -> Option<Pattern> {
    let [width, height] = hatch.tile.map(|side| side as f32);
    let mut builder = surface.stream_builder();
    let mut tile = builder.surface();
    if let Some(ground) = hatch.ground {
        let mut path = PathBuilder::new();
        path.push_rect(Rect::from_xywh(0.0, 0.0, width, height)?);
        tile.set_fill(Some(fill(ground)));
        tile.draw_path(&path.finish()?);
    }
    let ink: Fill = fill(hatch.ink);
    tile.set_fill(None);
    tile.set_stroke(Some(Stroke {
        paint: paint(hatch.ink),
        opacity: ink.opacity,
        width: hatch.width as f32,
        ..Stroke::default()
    }));
    for [x1, y1, x2, y2] in hatch.lines {
        // A line on a tile's left or upper edge is cut in half by it: the other half is drawn on the opposite edge.
        let across = if *x1 == 0.0 && *x2 == 0.0 { vec![0.0, hatch.tile[0]] } else { vec![0.0] };
        let down = if *y1 == 0.0 && *y2 == 0.0 { vec![0.0, hatch.tile[1]] } else { vec![0.0] };
        let shifts = across.iter().map(|x| (*x, 0.0)).chain(down.iter().skip(1).map(|y| (0.0, *y)));
        for (dx, dy) in shifts {
            let mut path = PathBuilder::new();
            path.move_to((x1 + dx) as f32, (y1 + dy) as f32);
            path.line_to((x2 + dx) as f32, (y2 + dy) as f32);
            if let Some(path) = path.finish() {
                tile.draw_path(&path);
            }
        }
    }
    tile.set_stroke(None);
    tile.set_fill(Some(ink));
    for [x, y, r] in hatch.dots {
        if let Some(path) = circle((*x, *y).into(), *r) {
            tile.draw_path(&path);
        }
    }
    tile.finish();
    let stream = builder.finish();
    Some(Pattern { stream, transform: Transform::from_rotate(hatch.turned as f32), width, height })
}
