//! Which instruments of the shop's list count in a set-up, and which of the shop's own figures stand where none does.

use super::tapes::laid_with;
use crate::model::{Arrangement, Chosen, Id, Instrument, InstrumentKind, UNNAMED, chosen};

/// An instrument that counts.
#[derive(Clone, Debug, PartialEq)]
pub struct Used<'a> {
    /// Which.
    pub own: &'a Instrument,
    /// Whether marks are laid or stands are set with it, by the rule of [`chosen`].
    pub lays: bool,
    /// So many distances of the marks were read with it.
    pub readings: usize,
}

/// Those that count, in the list's order.
pub fn used(arrangement: &Arrangement) -> Vec<Used<'_>> {
    let list = &arrangement.instruments;
    let tape = laid_with(arrangement).map(|own| &own.name);
    let lays = |own: &Instrument| {
        let is_chosen = UNNAMED.contains(&own.kind) || own.kind == InstrumentKind::LevelLaser;
        Some(&own.name) == tape
            || is_chosen && chosen(list, own.kind, None) == Chosen::One(own) && own.has_figures()
    };
    let read =
        |id: &Id| arrangement.marks_taped.iter().filter(|own| own.taken.with.as_ref() == Some(id)).count();
    let all = list.iter().map(|own| Used { own, lays: lays(own), readings: read(&own.name) });
    all.filter(|own| own.lays || own.readings > 0).collect()
}

/// The kinds of which the shop's own figures count, with how many are listed: none, or several of which none is named; one that has no
/// figures counts as none.
pub fn by_the_shop(arrangement: &Arrangement) -> Vec<(InstrumentKind, usize)> {
    let list = &arrangement.instruments;
    let tape = laid_with(arrangement).is_none().then(|| {
        let tapes = list.iter().filter(|own| own.kind == InstrumentKind::SteelTape);
        (InstrumentKind::SteelTape, tapes.count())
    });
    let rest = UNNAMED.into_iter().filter_map(|kind| match chosen(list, kind, None) {
        Chosen::One(own) if own.has_figures() => None,
        Chosen::One(_) | Chosen::None => Some((kind, 0)),
        Chosen::Several(count) => Some((kind, count)),
    });
    tape.into_iter().chain(rest).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::testing::clear;
    use crate::model::{MarkTaped, Taken};

    #[test]
    fn what_counts_and_what_does_not_is_told() {
        let mut own = clear();
        let kinds = |of: &Arrangement| by_the_shop(of).into_iter().map(|(kind, _)| kind).collect::<Vec<_>>();
        assert_eq!(used(&own), Vec::new());
        assert_eq!(kinds(&own).len(), 1 + UNNAMED.len());
        let laser = |name: &str| Instrument {
            per_metre_mm: Some(0.1),
            ..Instrument::new(name.into(), InstrumentKind::LineLaser)
        };
        let tape = |name: &str| Instrument::new(name.into(), InstrumentKind::SteelTape);
        own.instruments = [laser("a"), tape("long"), tape("short")].into();
        assert_eq!(used(&own).iter().map(|own| own.own.name.as_str()).collect::<Vec<_>>(), ["a"]);
        assert!(by_the_shop(&own).contains(&(InstrumentKind::SteelTape, 2)));
        let taken = Taken { with: Some("short".into()), ..Taken::default() };
        own.marks_taped = vec![MarkTaped { taken, ..MarkTaped::new("1".into(), "2".into(), 2_040.0) }];
        let all = used(&own);
        assert_eq!(all.iter().map(|own| own.own.name.as_str()).collect::<Vec<_>>(), ["a", "short"]);
        assert!(all[1].lays && all[1].readings == 1 && all[0].readings == 0);
        own.instruments = [laser("a"), laser("b")].into();
        assert!(by_the_shop(&own).contains(&(InstrumentKind::LineLaser, 2)));
    }
}
