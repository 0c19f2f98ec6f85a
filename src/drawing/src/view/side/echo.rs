//! The way of an echo, from the side.

use super::Side;
use crate::list::Shape;
use crate::role::Role;
use crate::view::pen::Pen;
use crate::view::top::BELIEVED_PX;

/// The way, and where the radar believes what sends it back to be.
pub(super) fn draw(pen: &mut Pen<'_>, side: &Side<'_>) {
    let Some(echo) = &side.state.echo else { return };
    pen.line(Role::EchoWay, None, echo.way.iter().map(|&at| side.at(at)).collect());
    let radius = pen.length(BELIEVED_PX);
    pen.push(Role::EchoBelieved, None, Shape::Disc { centre: side.at(echo.heard.believed), radius });
}
