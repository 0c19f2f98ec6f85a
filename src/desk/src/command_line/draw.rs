//! `baywright draw`: a view, to scale, as SVG or PDF; the plan itself as DXF.

use std::io::Write;
use std::path::{Path, PathBuf};

use baywright_drawing::{
    Fit, Lettering, Page, Projection, Theme, Turned, ViewState, picture, to_dxf, to_pdf, to_svg,
};
use baywright_files::shop_in_use;
use baywright_planner::assess;
use baywright_planner::model::Arrangement;
use baywright_planner::words::Locale;

use crate::command_line::commands::Draw;
use crate::command_line::input::{is_stream, open};
use crate::command_line::outcome::{Outcome, said};
use crate::command_line::report::{chosen, judged_by, not_read};
use crate::command_line::trouble::{Errors, Trouble};

/// Width of a picture, px: fits a sheet of A4 turned sideways at 96 px an inch.
const PICTURE_WIDTH: f64 = 1100.0;

/// What kind of file is written, by its name's end.
enum Kind {
    Svg,
    Pdf,
    Dxf,
}

/// What a picture shows and how.
pub(crate) struct Picture {
    pub(crate) side: bool,
    pub(crate) theme: Theme,
    pub(crate) turned: Turned,
    pub(crate) locale: Locale,
}

/// Draws one arrangement into a file.
pub(crate) fn draw(
    asked: &Draw,
    own_shop: Option<&Path>,
    out: &mut dyn Write,
    errors: &mut Errors<'_>,
) -> Outcome {
    let language = asked.locale.language;
    let to_stream = is_stream(&asked.output);
    let ends_in = |wanted: &str| asked.output.extension().is_some_and(|own| own.eq_ignore_ascii_case(wanted));
    let kind = match () {
        () if to_stream || ends_in("svg") => Kind::Svg,
        () if ends_in("pdf") => Kind::Pdf,
        () if ends_in("dxf") && asked.side => {
            errors.tell(Trouble::NoSideInDxf(asked.output.display().to_string()));
            return Outcome::NotRead;
        }
        () if ends_in("dxf") => Kind::Dxf,
        () => {
            errors.tell(Trouble::NoPicture(asked.output.display().to_string()));
            return Outcome::NotRead;
        }
    };
    let opened = shop_in_use(asked.shop.as_deref(), own_shop)
        .and_then(|used| open(&asked.layout, judged_by(&used, asked.today), language));
    let loaded = match opened {
        Ok(loaded) => loaded,
        Err(faults) => return not_read(faults, errors),
    };
    errors.tell_passed_over(&loaded.passed_over);
    let arrangement = match chosen(&loaded, asked.arrangement.as_deref(), errors) {
        Ok(chosen) => chosen.first().copied(),
        Err(outcome) => return outcome,
    };
    let Some(arrangement) = arrangement else { return Outcome::NotRead };
    let picture = Picture {
        side: asked.side,
        theme: if asked.dark { Theme::Dark } else { Theme::Light },
        turned: if asked.to_room { Turned::ToRoom } else { Turned::ToCar },
        locale: asked.locale,
    };
    let bytes = match kind {
        Kind::Svg => Ok(svg(arrangement, &picture).into_bytes()),
        Kind::Pdf => to_pdf(&[page(arrangement, &picture)], picture.theme, language.tag()),
        Kind::Dxf => Ok(to_dxf(arrangement, &assess(arrangement), asked.locale)),
    };
    let bytes = match bytes {
        Ok(bytes) => bytes,
        Err(fault) => {
            errors.tell(Trouble::NoPages(fault.0));
            return Outcome::NotWritten;
        }
    };
    if to_stream {
        return said(out.write_all(&bytes), errors);
    }
    let made_from: Vec<&Path> = loaded.path.iter().map(PathBuf::as_path).collect();
    match baywright_files::write_output(&asked.output, &bytes, &made_from) {
        Ok(()) if asked.quiet => Outcome::Ready,
        Ok(()) => said(writeln!(out, "{}", asked.output.display()), errors),
        Err(fault) => {
            errors.tell(Trouble::File(fault));
            Outcome::NotWritten
        }
    }
}

/// One view of an arrangement, as SVG.
pub(crate) fn svg(arrangement: &Arrangement, asked: &Picture) -> String {
    to_svg(&page(arrangement, asked), asked.theme)
}

/// The page that a view stands on.
fn page(arrangement: &Arrangement, asked: &Picture) -> Page {
    let assessment = assess(arrangement);
    let state = ViewState { turned: asked.turned, ..ViewState::default() };
    let lettering = Lettering { locale: asked.locale, ..Lettering::default() };
    let projection = if asked.side { Projection::Side } else { Projection::Top };
    picture(arrangement, &assessment, &state, &[projection], Fit::picture(PICTURE_WIDTH), &lettering)
}
