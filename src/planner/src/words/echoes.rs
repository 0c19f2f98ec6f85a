//! What the radar would see, in words.

use baywright_radar::level::{Band, Figure};
use baywright_radar::resolve::Surely;

use super::Words;
use crate::echoes::{Cure, Does, Echo, May, OwnEcho, Seen, Untold};

texts! {
    echoes: EchoTexts, "Every fixed text about what the radar would see.";
    tab, "The tab.";
    tab_why, "What it tells.";
    title, "Over it.";
    no_radar, "The sensor is no radar.";
    waits, "It waits while the answer is older than what is shown.";
    none, "Nothing sends back as much as is told.";
    show, "Draws the way of an echo.";
    details, "Shows the figures behind it.";
    takes, "It may be taken for the target.";
    in_line, "It comes from the target's own direction.";
    apart_by_both, "It is told apart by distance and direction.";
    apart_by_distance, "By distance.";
    apart_by_direction, "By direction.";
    strongest_takes, "A routine that takes the strongest takes it.";
    strongest_may_take, "It may.";
    if_not_told_apart, "All this if the sensor cannot tell them apart.";
    of_floor, "It is only of the floor or the ceiling: no finding is made of it.";
    stuff_unknown, "What it is made of is not known.";
    prolonged, "Figures of what it is made of end below the sensor's frequency.";
    weaker, "Over the echoes that can be told apart or are weak.";
    rests_on, "What all of it rests on.";
    decides, "Who decides.";
    graph, "A graph: what it shows.";
    graph_across, "Its axis across.";
    graph_up, "Its axis up.";
    target, "In the graph: the target's own echo.";
    cell, "In the graph: where the radar cannot tell an echo from the target by its distance.";
    in_the_drawing, "In the drawing: what is shown of an echo.";
    from_sensor, "Over the picture of what stands before the sensor, as it is seen from there.";
    from_sensor_about, "What that picture shows, and what it leaves out.";
    from_sensor_numbered, "On paper, where its rings are numbered.";
    none_matters, "That no echo matters.";
    off_axis, "Why there is none.";
    beam, "In it: the beam's outline.";
    beam_assumed, "The same, where the profile's figures of the radar were assumed.";
    field, "In it: the edge of what the sensor sees.";
}

impl EchoTexts {
    sentences! { echoes:
        /// How strong against the target's: between two ratios of power.
        times(from: Option<Ratio>, to: Ratio) -> String;
        /// A figure that a profile leaves open.
        figure(figure: Figure) -> &'static str;
        /// All that is said of one echo, as sentences one after another.
        in_one(all: &[String]) -> String;
        /// A heading with how many stand under it.
        of_these(heading: &str, count: usize) -> String;
        /// What the graph shows, read out.
        graph_read(echoes: &[String]) -> String;
        /// In that picture: a direction, degrees to the right of the sensor's axis, or above it.
        direction(degrees: f64, is_across: bool) -> String;
        /// That so many echoes more matter that are not told.
        more_matter(count: usize) -> String;
        /// That picture, read out: what is seen in it.
        from_sensor_read(names: &[String]) -> String;
        /// Why nothing is said of a target.
        untold(why: Untold) -> &'static str;
    }
}

/// A ratio of powers, rounded as it is said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Ratio {
    /// So many times.
    Times(f64),
    /// One part of so many.
    Part(f64),
}

/// To so many leading digits, a ratio is rounded to one, or two from ten on: a level is no surer.
fn rounded(ratio: f64) -> f64 {
    match ratio {
        small if small < 2.0 => (small * 10.0).round() / 10.0,
        middle if middle < 20.0 => middle.round(),
        large => {
            let step = libm::pow(10.0, libm::floor(libm::log10(large)) - 1.0);
            (large / step).round() * step
        }
    }
}

impl Ratio {
    /// Of a level in dB; one endlessly low is none.
    pub(super) fn of(level_db: f64) -> Option<Self> {
        let ratio = libm::pow(10.0, level_db / 10.0);
        let is_one = ratio > 0.0 && ratio.is_finite();
        if !is_one {
            return None;
        }
        // Down to a half in tenths, below that as a part.
        Some(if ratio < 0.45 { Self::Part(rounded(ratio.recip())) } else { Self::Times(rounded(ratio)) })
    }
}

/// Between which ratios a level lies; one alone where both are said alike. `None` of one endlessly low.
pub(super) fn strength(level_db: Band) -> Option<(Option<Ratio>, Ratio)> {
    let to = Ratio::of(level_db.high())?;
    Some((Ratio::of(level_db.low()).filter(|from| *from != to), to))
}

impl Words<'_> {
    sentences! { about:
        /// What an echo is of, as a heading.
        echo_of(echo: &Echo) -> String;
        /// Where it lies, seen from the target.
        echo_lies(echo: &Echo) -> String;
        /// How far it draws the aim, and how far it may.
        echo_draws(by: f64, limit: f64, is_upright: bool) -> String;
        /// What all that the sensor may not tell from the target do together.
        echoes_together(does: Does) -> String;
        /// Which echo a routine takes that goes by the strongest, or by the nearest.
        echo_picked(seen: &Seen, may: &May, by_strength: bool) -> String;
        /// One thing that takes it away, as a press says it.
        echo_cure(cure: &Cure) -> String;
        /// All that do, and what it takes; empty where nothing was found.
        echo_cures(echo: &Echo) -> String;
        /// What that takes; empty where nothing is to be said.
        echo_cures_take(echo: &Echo) -> String;
        /// What the figures behind it are.
        echo_behind(echo: &Echo) -> String;
        /// Over the echoes beside one of several targets: its name.
        echoes_of(seen: &Seen) -> String;
        /// The target's own echo.
        own_echo(own: &OwnEcho) -> String;
        /// What of the sensor is not in the profile; empty if all is.
        echoes_assume(seen: &Seen) -> String;
    }

    /// What an echo does to the aim, and what is not known of it.
    pub fn echo_does(&self, echo: &Echo) -> Vec<String> {
        let texts = self.locale.language.echoes();
        let fixed = |text: &'static str| text.to_owned();
        let heard = &echo.heard;
        let (does, more) = match heard.does {
            Does::Takes => (fixed(texts.takes), None),
            Does::InLine => (fixed(texts.in_line), None),
            Does::Draws { by, limit, is_upright } => (self.echo_draws(by, limit, is_upright), None),
            Does::Apart { by_distance, by_direction, is_stronger } => {
                let apart = match (by_distance, by_direction) {
                    (true, true) => texts.apart_by_both,
                    (true, false) => texts.apart_by_distance,
                    (false, _) => texts.apart_by_direction,
                };
                let more = match is_stronger {
                    Surely::Yes => Some(texts.strongest_takes),
                    Surely::Perhaps => Some(texts.strongest_may_take),
                    Surely::No => None,
                };
                (fixed(apart), more)
            }
        };
        let is_one_thing = matches!(heard.does, Does::Takes | Does::Draws { .. });
        let is_open = is_one_thing && heard.beside.is_one() == Surely::Perhaps;
        let more = more.or(is_open.then_some(texts.if_not_told_apart));
        let unknown = (!echo.is_stuff_known).then_some(texts.stuff_unknown);
        let of_floor = (heard.matters() && echo.culprit().is_none()).then_some(texts.of_floor);
        let prolonged = echo.is_prolonged.then_some(texts.prolonged);
        let rest = [more, of_floor, unknown, prolonged].into_iter().flatten().map(fixed);
        std::iter::once(does).chain(rest).collect()
    }

    /// How strong an echo is against the target's.
    pub fn echo_strength(&self, level_db: Band) -> String {
        let texts = self.locale.language.echoes();
        strength(level_db).map_or_else(String::new, |(from, to)| texts.times(from, to))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 10 dB are ten times, 3 dB twice (1.995), -6 dB a quarter (0.251), -20 dB a hundredth; 17 dB are 50.1.
    #[test]
    fn levels_as_ratios() {
        for (level, ratio) in [
            (10.0, Some(Ratio::Times(10.0))),
            (3.0, Some(Ratio::Times(2.0))),
            (1.0, Some(Ratio::Times(1.3))),
            (0.0, Some(Ratio::Times(1.0))),
            (-0.1, Some(Ratio::Times(1.0))),
            (-1.0, Some(Ratio::Times(0.8))),
            (-6.0, Some(Ratio::Part(4.0))),
            (-20.0, Some(Ratio::Part(100.0))),
            (-21.0, Some(Ratio::Part(130.0))),
            (17.0, Some(Ratio::Times(50.0))),
            (f64::NEG_INFINITY, None),
        ] {
            assert_eq!(Ratio::of(level), ratio, "{level}");
        }
    }
}
