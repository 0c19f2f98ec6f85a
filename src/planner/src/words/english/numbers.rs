//! Values as they stand within a sentence.

use baywright_geometry::DVec2;

use super::About;
use crate::assessment::Quantity;
use crate::words::Region;
use crate::words::numbers::Share;

/// A share in per cent.
pub(super) fn percent(share: f64, region: Region) -> String {
    match region.share(share) {
        Share::Below(least) => format!("less than {least} %"),
        Share::Above(most) => format!("more than {most} %"),
        Share::Of(percent) => format!("{percent} %"),
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

    /// What was measured and its limit, as [`Matter::against`](crate::words::matter::Matter::against) has them.
    pub(super) fn against(&self, measured: Quantity, limit: Quantity) -> [String; 2] {
        self.0.against(measured, limit, |own| self.quantity(own))
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
