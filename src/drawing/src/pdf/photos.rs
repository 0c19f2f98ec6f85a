//! Pictures of dots on a page: a JPEG byte by byte as it is, the dots of a PNG as they are.

use baywright_planner::geometry::Bounds;
use baywright_planner::record::{Picture, PictureForm};
use krilla::geom::{Size, Transform};
use krilla::image::Image;
use krilla::surface::Surface;

use super::NotWritten;
use crate::page::Photo;

/// The picture as the writer has it.
fn image(of: &Picture) -> Result<Image, NotWritten> {
    let bytes = of.bytes.to_vec().into();
    match of.form {
        PictureForm::Png => Image::from_png(bytes, false),
        PictureForm::Jpeg => Image::from_jpeg(bytes, false),
    }
    .map_err(NotWritten)
}

/// Whether a picture can be written: what cannot is told by its name.
pub(in crate::pdf) fn takes(picture: &Picture) -> bool {
    image(picture).is_ok()
}

/// Paints it upright, so that it fills its place, mm of the page.
pub(super) fn paint(surface: &mut Surface<'_>, photo: &Photo, place: &Bounds) -> Result<(), NotWritten> {
    let picture = &photo.picture;
    let size = Size::from_wh(picture.width as f32, picture.height as f32);
    let size =
        size.ok_or_else(|| NotWritten(format!("a picture of {} by {}", picture.width, picture.height)))?;
    let own = image(picture)?;
    let [a, b, c, d, e, f] = photo.on_paper(place).map(|own| own as f32);
    surface.push_transform(&Transform::from_row(a, b, c, d, e, f));
    surface.draw_image(own, size);
    surface.pop();
    Ok(())
}
