//! Values as they stand within a sentence.

use baywright_geometry::DVec2;

use super::About;
use crate::assessment::Quantity;
use crate::words::Region;
use crate::words::numbers::Share;

/// A share in per cent.
pub(super) fn percent(share: f64, region: Region) -> String {
    match region.share(share) {
        Share::Below(least) => format!("weniger als {least} %"),
        Share::Above(most) => format!("mehr als {most} %"),
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
            Quantity::Days(1) => "1 Tag".to_owned(),
            Quantity::Days(days) => format!("{days} Tage"),
        }
    }

    /// What was measured and its limit, as [`Matter::against`](crate::words::matter::Matter::against) has them.
    pub(super) fn against(&self, measured: Quantity, limit: Quantity) -> [String; 2] {
        self.0.against(measured, limit, |own| self.quantity(own))
    }

    /// A move of the bay as seen from the car, nowhere shown shorter than it is: "250 mm in Fahrtrichtung nach links".
    pub fn towards(&self, by: DVec2) -> String {
        /// Less than this aside, half a millimetre, is straight.
        const STRAIGHT_MM: f64 = 0.5;
        let own = self.arrangement.parked.inverse().turned(by);
        let ahead = if own.x >= 0.0 { "vorn" } else { "hinten" };
        let aside = if own.y >= 0.0 { "links" } else { "rechts" };
        let by = self.at_least(by.length());
        if own.y.abs() < STRAIGHT_MM {
            format!("{by} in Fahrtrichtung nach {ahead}")
        } else if own.x.abs() < STRAIGHT_MM {
            format!("{by} in Fahrtrichtung nach {aside}")
        } else {
            format!(
                "{by} (in Fahrtrichtung {} nach {ahead}, {} nach {aside})",
                self.at_least(own.x.abs()),
                self.at_least(own.y.abs())
            )
        }
    }
}
