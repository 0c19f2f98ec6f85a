//! What the radar would see, on the findings report: the echoes that matter in the screen's own words, numbered in a picture as it is
//! seen from the sensor.

use baywright_planner::echoes::{Echo, Seen, With, seen};
use baywright_planner::words::Words;

use super::Answered;
use crate::lettering::Lettering;
use crate::sheet::flow::{Flow, Lead, px};
use crate::sheet::plan::in_views;
use crate::view::{LookedAt, ViewState, sensor_view};

/// So many echoes of one target are told; of the rest how many there are.
const MOST: usize = 6;
/// In a bay of more things than this only ways by one mirror are followed, as the screen does while something is in hand: of those by
/// two there are as many as pairs of faces.
const MOST_THINGS: usize = 60;
/// So much of a page's height is taken by the picture at most, and it is no wider than this, mm.
const PICTURE: f64 = 0.4;
const WIDEST_MM: f64 = 160.0;

/// Nothing of a sensor that is no radar, one line where no echo matters.
pub(super) fn told(flow: &mut Flow<'_>, of: &Answered<'_>, words: &Words<'_>, lettering: &Lettering<'_>) {
    let things = of.arrangement.bay.things.len();
    let with = if things > MOST_THINGS { With::OneMirror } else { With::TwoMirrors };
    let all = seen(of.arrangement, &of.assessment.scene, with);
    let Some(first) = all.first() else { return };
    let texts = words.locale().language.echoes();
    let is_matter =
        all.iter().any(|own| own.own.is_ok() && own.echoes.iter().any(|echo| echo.heard.matters()));
    if !is_matter {
        let known = all.iter().find_map(|own| own.own.as_ref().err().copied());
        let line = known.map_or(texts.none_matters, |why| texts.untold(why));
        let line = texts.in_one(&[texts.title.to_owned(), line.to_owned()]);
        flow.read(&line, Some(Lead::Text("\u{2013}".to_owned())));
        return;
    }
    flow.heading(texts.title, 20.0);
    flow.read(texts.decides, None);
    let many = all.len() > 1;
    for own in &all {
        if many {
            flow.heading(&words.echoes_of(own), 12.0);
        }
        of_target(flow, of, own, words, lettering);
    }
    flow.gap(0.8);
    let assumed = words.echoes_assume(first);
    if !assumed.is_empty() {
        flow.read(&assumed, None);
    }
    flow.read(texts.rests_on, None);
}

fn of_target(
    flow: &mut Flow<'_>,
    of: &Answered<'_>,
    seen: &Seen,
    words: &Words<'_>,
    lettering: &Lettering<'_>,
) {
    let texts = words.locale().language.echoes();
    let own = match &seen.own {
        Ok(own) => own,
        Err(why) => return flow.read(texts.untold(*why), None),
    };
    let matter: Vec<&Echo> = seen.echoes.iter().filter(|echo| echo.heard.matters()).collect();
    if matter.is_empty() {
        return flow.read(texts.none_matters, None);
    }
    let (told, more) = matter.split_at(matter.len().min(MOST));
    let looked = LookedAt { target: &seen.target, own: Some(own.at), echoes: told, is_numbered: true };
    let width = flow.width().min(px(WIDEST_MM));
    let state = ViewState::default();
    let picture = sensor_view(&looked, of.arrangement, of.assessment, &state, width, &in_views(lettering));
    if let Some(picture) = picture.filter(|own| own.size.y <= flow.height() * PICTURE) {
        flow.view(picture);
        flow.read(texts.from_sensor_numbered, None);
        flow.gap(0.8);
    }
    for (nth, echo) in told.iter().enumerate() {
        let mut line =
            vec![words.echo_of(echo), words.echo_lies(echo), words.echo_strength(echo.heard.level_db)];
        line.extend(words.echo_does(echo));
        line.push(words.echo_cures(echo));
        line.retain(|own| !own.is_empty());
        let line = texts.in_one(&line);
        // What is said of one echo stands on one page.
        flow.ensure(flow.height_read(&line));
        flow.read(&line, Some(Lead::Text((nth + 1).to_string())));
    }
    if !more.is_empty() {
        flow.read(&texts.more_matter(more.len()), None);
    }
}
