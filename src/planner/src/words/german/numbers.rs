//! Values as they stand within a sentence.

use baywright_geometry::{DVec2, angle};

use super::About;
use crate::assessment::Quantity;
use crate::words::{Region, Units};

/// A share in per cent: what is not nothing is never shown as "0 %", what is not all never as "100 %".
pub(super) fn percent(share: f64, region: Region) -> String {
    let value = share * 100.0;
    // Where a whole number would say nothing, little or all, a tenth is shown.
    let to_tenths = (value < 10.0 && (value - value.round()).abs() > 0.05) || (99.5..100.0).contains(&value);
    if value > 0.0 && value < 0.1 {
        format!("less than {} %", region.number(0.1, 1))
    } else if (99.95..100.0).contains(&value) {
        format!("more than {} %", region.number(99.9, 1))
    } else if to_tenths {
        format!("{} %", region.number(value, 1))
    } else {
        format!("{value:.0} %")
    }
}

/// No figure is shown to more places: a ten-thousandth of a millimetre is beyond all that is laid out.
const MOST_PLACES: usize = 5;

/// The numbers of two values of one kind; `None` of days, which are whole.
const fn numbers(one: Quantity, other: Quantity) -> Option<[f64; 2]> {
    match (one, other) {
        (Quantity::Length(a), Quantity::Length(b))
        | (Quantity::Angle(a), Quantity::Angle(b))
        | (Quantity::Share(a), Quantity::Share(b))
        | (Quantity::Ratio(a), Quantity::Ratio(b)) => Some([a, b]),
        _ => None,
    }
}

/// Another value of the same kind.
const fn of_kind(kind: Quantity, value: f64) -> Quantity {
    match kind {
        Quantity::Length(_) => Quantity::Length(value),
        Quantity::Angle(_) => Quantity::Angle(value),
        Quantity::Share(_) => Quantity::Share(value),
        Quantity::Ratio(_) => Quantity::Ratio(value),
        Quantity::Days(_) => kind,
    }
}

/// Whether a limit is nought.
pub(super) fn is_nought(quantity: Quantity) -> bool {
    numbers(quantity, quantity).is_some_and(|[value, _]| value == 0.0)
}

fn is_all_noughts(text: &str) -> bool {
    !text.chars().any(|c| ('1'..='9').contains(&c))
}

impl About<'_> {
    /// Any value with its unit.
    pub fn quantity(&self, quantity: Quantity) -> String {
        match quantity {
            Quantity::Length(mm) => self.length(mm),
            Quantity::Angle(radians) => self.degrees(radians),
            Quantity::Share(share) => percent(share, self.locale.region),
            Quantity::Ratio(ratio) => self.locale.region.number(ratio, 2),
            Quantity::Days(1) => "1 day".to_owned(),
            Quantity::Days(days) => format!("{days} days"),
        }
    }

    /// What was measured and its limit, so that the two never look alike when they are not, and what is not nothing never
    /// looks like nothing: with as many more places as that takes, up to [`MOST_PLACES`].
    pub(super) fn against(&self, measured: Quantity, limit: Quantity) -> [String; 2] {
        let plain = [self.quantity(measured), self.quantity(limit)];
        let Some([value, bound]) = numbers(measured, limit) else { return plain };
        let [first, second] = &plain;
        let looks_alike = first == second && value != bound;
        let looks_like_nothing = value != 0.0 && *first == self.quantity(of_kind(measured, 0.0));
        if !looks_alike && !looks_like_nothing {
            return plain;
        }
        (1..=MOST_PLACES)
            .map(|places| [self.to_places(measured, places), self.to_places(limit, places)])
            .find(|[first, second]| {
                (value == bound || first != second) && (value == 0.0 || !is_all_noughts(first))
            })
            .unwrap_or(plain)
    }

    /// A value with its unit to so many places; lengths in whole units of the smallest part that is asked for.
    fn to_places(&self, quantity: Quantity, places: usize) -> String {
        let region = self.locale.region;
        match quantity {
            Quantity::Length(mm) => match self.locale.units {
                Units::Millimetres => format!("{} mm", region.number(mm, places)),
                Units::Metres => format!("{} m", region.number(mm / 1000.0, places + 3)),
                Units::FeetInches => format!("{} in", region.number(mm / 25.4, places + 1)),
            },
            Quantity::Angle(radians) => format!("{}°", region.number(angle::degrees(radians), places)),
            Quantity::Share(share) => format!("{} %", region.number(share * 100.0, places)),
            Quantity::Ratio(ratio) => region.number(ratio, places),
            Quantity::Days(_) => self.quantity(quantity),
        }
    }

    /// A move of the bay as seen from the car, nowhere shown shorter than it is: "250 mm towards the car's left".
    pub fn towards(&self, by: DVec2) -> String {
        /// Less than this aside, half a millimetre, is straight.
        const STRAIGHT_MM: f64 = 0.5;
        let own = self.arrangement.parked.inverse().turned(by);
        let ahead = if own.x >= 0.0 { "front" } else { "rear" };
        let aside = if own.y >= 0.0 { "left" } else { "right" };
        if own.y.abs() < STRAIGHT_MM {
            format!("{} towards the car's {ahead}", self.at_least(by.length()))
        } else if own.x.abs() < STRAIGHT_MM {
            format!("{} towards the car's {aside}", self.at_least(by.length()))
        } else {
            format!(
                "{} ({} towards the car's {ahead}, {} towards its {aside})",
                self.at_least(by.length()),
                self.at_least(own.x.abs()),
                self.at_least(own.y.abs())
            )
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_never_say_nothing_for_something() {
        let percent = |share| percent(share, Region::default());
        assert_eq!(percent(0.00001), "less than 0.1 %");
        assert_eq!(percent(0.9999), "more than 99.9 %");
        assert_eq!(percent(0.997), "99.7 %");
        // Whatever is not all is never written as all.
        for share in [0.994_99, 0.995, 0.999, 0.999_4, 0.999_5] {
            assert_ne!(percent(share), "100 %", "{share}");
        }
        assert_eq!(percent(1.0), "100 %");
        let comma = Region { decimal: crate::words::Decimal::Comma, ..Region::default() };
        assert_eq!(super::percent(0.000_1, comma), "less than 0,1 %");
        assert_eq!(percent(0.31), "31 %");
        assert_eq!(percent(0.0), "0 %");
    }
}
