//! With what each distance was read: whose figures count, and what its temperature takes away.
//!
//! Marks are taken to be laid with the first steel tape of the shop's list that a reading names; where none is named, with the only one
//! in the list, else with a tape of the shop's own figures.
//! What names no instrument, or one that is not in the list, counts as read with that tape: what it is out
//! by itself then lies in marks and readings alike and nothing is learnt of it, which is the careful way. Any other instrument is
//! out by itself, the same in all that it read.
//!
//! A tape that is warmer than 20 °C is longer and reads less: what is entered with its temperature is worked out for 20 °C, and what
//! is left of its warmth is how well that temperature is known. How warm the tape was while the marks were laid nobody said: there
//! the shop's own figure stays.

use baywright_survey::budget::{CheckTape, Tape, warmth_mm};

use crate::model::{
    Arrangement, Chosen, Id, Instrument, InstrumentFigure, InstrumentKind, MarkTaped, Taken, chosen, named,
};

/// At which a tape is true, °C (ISO 1).
const TRUE_AT_C: f64 = 20.0;
/// How well a temperature is known that was typed, ± K, any value alike: a tape follows the air of a room some minutes later
/// (common practice, no source).
pub(super) const TEMPERATURE_WITHIN_K: f64 = 2.0;

/// All that marks are laid and read with.
pub(super) struct Tapes<'a> {
    arrangement: &'a Arrangement,
    /// The tape that the marks are laid with; `None`: the shop's figures.
    laid_with: Option<&'a Instrument>,
    /// The others, and the same one at a temperature that is known, in the order in which they come up.
    others: Vec<(Option<&'a Instrument>, bool)>,
}

impl<'a> Tapes<'a> {
    pub fn of(arrangement: &'a Arrangement) -> Self {
        let read_with = |own: &'a MarkTaped| listed(arrangement, &own.taken);
        let is_tape = |own: &&Instrument| own.kind == InstrumentKind::SteelTape;
        let named = arrangement.marks_taped.iter().filter_map(read_with).find(is_tape);
        let only = || match chosen(&arrangement.instruments, InstrumentKind::SteelTape, None) {
            Chosen::One(own) => Some(own),
            Chosen::Several(_) | Chosen::None => None,
        };
        let laid_with = named.or_else(only);
        let mut own = Self { arrangement, laid_with, others: Vec::new() };
        for taped in &arrangement.marks_taped {
            let key = own.key(&taped.taken);
            if own.place_of(key).is_none() {
                own.others.push(key);
            }
        }
        own
    }

    /// The tape that the marks are laid with.
    pub fn laid(&self) -> Tape {
        self.figures(self.laid_with)
    }

    /// The tape of a reading, and which one it is of the budget's.
    pub fn reading(&self, taken: &Taken) -> (Tape, usize) {
        let key = self.key(taken);
        (self.figures(key.0), self.place_of(key).unwrap_or_default())
    }

    /// That of what is not read yet: as the last one was.
    pub fn next(&self) -> (Tape, usize) {
        let last = self.arrangement.marks_taped.last();
        last.map_or_else(|| (self.laid(), 0), |own| self.reading(&own.taken))
    }

    /// What a reading comes to at 20 °C, mm.
    pub fn corrected_mm(&self, taped: &MarkTaped) -> f64 {
        taped.read_mm + self.warmth_mm(taped).unwrap_or_default()
    }

    /// By how much more than it read a distance is, for the tape's temperature, mm; `None` if that is not known.
    fn warmth_mm(&self, taped: &MarkTaped) -> Option<f64> {
        let own = self.figures(self.key(&taped.taken).0);
        let off_k = taped.taken.temperature_c? - TRUE_AT_C;
        Some(warmth_mm(taped.read_mm, off_k, own.per_k))
    }

    /// The tapes besides the one that the marks are laid with, as the budget takes them.
    pub fn checks(&self) -> Vec<CheckTape> {
        let same =
            |a: Option<&Instrument>, b: Option<&Instrument>| a.map(|own| &own.name) == b.map(|own| &own.name);
        let each = self.others.iter().enumerate();
        each.map(|(at, (own, is_known))| {
            let tape = self.figures(*own);
            // The number of the first entry that is this instrument: the same for each of its temperatures.
            let first = self.others.iter().position(|(other, _)| same(*other, *own)).unwrap_or(at);
            let within_k = if *is_known { TEMPERATURE_WITHIN_K } else { tape.within_k };
            CheckTape {
                is: if same(*own, self.laid_with) { 0 } else { first + 1 },
                scale: tape.scale,
                warmth: super::figures::standard(within_k * tape.per_k),
            }
        })
        .collect()
    }

    /// With what, and whether its temperature is known.
    fn key(&self, taken: &Taken) -> (Option<&'a Instrument>, bool) {
        (listed(self.arrangement, taken).or(self.laid_with), taken.temperature_c.is_some())
    }

    /// 0 for the tape that the marks are laid with, as warm as it was then.
    fn place_of(&self, (own, is_known): (Option<&Instrument>, bool)) -> Option<usize> {
        let name = |own: Option<&Instrument>| own.map(|own| own.name.clone());
        if name(own) == name(self.laid_with) && !is_known {
            return Some(0);
        }
        let is_it =
            |(other, known): &(Option<&Instrument>, bool)| name(*other) == name(own) && *known == is_known;
        self.others.iter().position(is_it).map(|at| at + 1)
    }

    /// An instrument's figures, each with what stands in for it.
    fn figures(&self, own: Option<&Instrument>) -> Tape {
        let shop = &self.arrangement.shop;
        let nameless = Instrument::new(Id::from(""), InstrumentKind::SteelTape);
        let counts = |figure| own.unwrap_or(&nameless).counts(figure, shop);
        Tape {
            read_mm: super::figures::standard(counts(InstrumentFigure::Reading)),
            per_metre_mm: 0.0,
            scale: super::figures::standard(counts(InstrumentFigure::PerMetre) * 1e-3),
            within_k: shop.tape_within_k,
            per_k: counts(InstrumentFigure::Warmth) * 1e-6,
        }
    }
}

/// The instrument of the shop's list that something was read with.
fn listed<'a>(arrangement: &'a Arrangement, taken: &Taken) -> Option<&'a Instrument> {
    named(&arrangement.instruments, taken.with.as_ref()?)
}

/// By how much more than it read a distance is, for the temperature that was typed with it, mm; `None` if none was.
pub fn warmth_of(arrangement: &Arrangement, taped: &MarkTaped) -> Option<f64> {
    Tapes::of(arrangement).warmth_mm(taped)
}

/// What a tape reads of a distance if it is as warm as that: the one that is named, else the one that the marks are laid with; mm.
/// `None` where its temperature is not known.
pub fn reads_at(arrangement: &Arrangement, distance_mm: f64, taken: &Taken) -> Option<f64> {
    let tapes = Tapes::of(arrangement);
    let off_k = taken.temperature_c? - TRUE_AT_C;
    let longer = 1.0 + off_k * tapes.figures(tapes.key(taken).0).per_k;
    (longer > 0.0).then(|| distance_mm / longer)
}

/// The tape that the marks are taken to be laid with, if it is one of the list.
pub fn laid_with(arrangement: &Arrangement) -> Option<&Instrument> {
    Tapes::of(arrangement).laid_with
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::testing::clear;

    /// By hand: 5 m, 15 K below 20 °C, 11.5 ppm: the tape is short and reads 0.86 mm more; one of fibreglass by its own figure.
    #[test]
    fn a_cold_tape_reads_more() {
        let mut own = clear();
        let at = |celsius| Taken { temperature_c: Some(celsius), ..Taken::default() };
        let read = |own: &Arrangement, taken: &Taken| reads_at(own, 5_000.0, taken);
        assert!((read(&own, &at(5.0)).unwrap() - 5_000.863).abs() < 1e-3);
        assert!((read(&own, &at(35.0)).unwrap() - 4_999.138).abs() < 1e-3);
        assert_eq!(read(&own, &at(20.0)), Some(5_000.0));
        assert_eq!(read(&own, &Taken::default()), None);
        let glass = Instrument {
            ppm_per_k: Some(30.0),
            ..Instrument::new("glass".into(), InstrumentKind::SteelTape)
        };
        own.instruments = [glass, Instrument::new("other".into(), InstrumentKind::SteelTape)].into();
        let named = Taken { with: Some("glass".into()), ..at(5.0) };
        assert!((read(&own, &named).unwrap() - 5_002.251).abs() < 1e-3);
        // Of two tapes neither is the only one; of one it is.
        assert!((read(&own, &at(5.0)).unwrap() - 5_000.863).abs() < 1e-3);
        own.instruments = own.instruments[..1].into();
        assert!((read(&own, &at(5.0)).unwrap() - 5_002.251).abs() < 1e-3);
        // What it reads so is the distance again once it is worked out for 20 °C.
        let mm = read(&own, &at(5.0)).unwrap();
        let taped = MarkTaped { taken: at(5.0), ..MarkTaped::new("1".into(), "2".into(), mm) };
        assert!((Tapes::of(&own).corrected_mm(&taped) - 5_000.0).abs() < 1e-9);
    }
}
