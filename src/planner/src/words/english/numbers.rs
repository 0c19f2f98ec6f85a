//! Values as they stand within a sentence.

use baywright_geometry::DVec2;

use super::About;
use crate::assessment::Quantity;
use crate::words::Region;

/// A share in per cent: what is not nothing is never shown as "0 %", what is not all never as "100 %".
pub(super) fn percent(share: f64, region: Region) -> String {
    let value = share * 100.0;
    if value > 0.0 && value < 0.1 {
        "less than 0.1 %".to_owned()
    } else if value < 100.0 && value > 99.95 {
        "more than 99.9 %".to_owned()
    } else if value < 10.0 && (value - value.round()).abs() > 0.05 {
        format!("{} %", region.number(value, 1))
    } else {
        format!("{value:.0} %")
    }
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

    /// A move of the bay as seen from the car: "250 mm towards the car's left".
    pub fn towards(&self, by: DVec2) -> String {
        /// Less than this aside, half a millimetre, is straight.
        const STRAIGHT_MM: f64 = 0.5;
        let own = self.arrangement.parked.inverse().turned(by);
        let ahead = if own.x >= 0.0 { "front" } else { "rear" };
        let aside = if own.y >= 0.0 { "left" } else { "right" };
        if own.y.abs() < STRAIGHT_MM {
            format!("{} towards the car's {ahead}", self.length(by.length()))
        } else if own.x.abs() < STRAIGHT_MM {
            format!("{} towards the car's {aside}", self.length(by.length()))
        } else {
            format!(
                "{} ({} towards the car's {ahead}, {} towards its {aside})",
                self.length(by.length()),
                self.length(own.x.abs()),
                self.length(own.y.abs())
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
        assert_eq!(percent(0.31), "31 %");
        assert_eq!(percent(0.0), "0 %");
    }
}
