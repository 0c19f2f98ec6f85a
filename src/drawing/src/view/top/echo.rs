//! The way of an echo: from the sensor by what sends it back, and where the radar believes that to be.

use super::Top;
use super::contours::in_corner;
use crate::list::Shape;
use crate::role::Role;
use crate::view::pen::Pen;

/// Radius of the ring where the radar believes it, px.
pub(crate) const BELIEVED_PX: f64 = 6.0;

/// The way.
pub(super) fn draw(pen: &mut Pen<'_>, top: &Top<'_>) {
    let Some(echo) = &top.state.echo else { return };
    pen.line(Role::EchoWay, None, echo.way.iter().map(|&at| top.at(at.truncate())).collect());
    let radius = pen.length(BELIEVED_PX);
    let centre = top.at(echo.heard.believed.truncate());
    pen.push(Role::EchoBelieved, None, Shape::Disc { centre, radius });
}

/// What is shown, in a corner that is free.
pub(super) fn told(pen: &mut Pen<'_>, top: &Top<'_>) {
    if top.state.echo.is_some() {
        in_corner(pen, top, top.words.locale().language.echoes().in_the_drawing);
    }
}
