//! Colours and their contrast.

use baywright_planner::Severity;

use super::Palette;

/// A colour of the sRGB space with an opacity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Colour {
    /// Red, green, blue.
    pub rgb: [u8; 3],
    /// 0 for clear to 1 for opaque.
    pub opacity: f32,
}

impl Colour {
    /// An opaque colour, written as in `0x1B2430`.
    pub const fn hex(rgb: u32) -> Self {
        let [_, r, g, b] = rgb.to_be_bytes();
        Self { rgb: [r, g, b], opacity: 1.0 }
    }

    /// The same colour, so opaque.
    pub const fn faded(self, opacity: f32) -> Self {
        Self { rgb: self.rgb, opacity }
    }

    /// Relative luminance after WCAG 2.2, 0 for black to 1 for white.
    pub fn luminance(self) -> f64 {
        let linear = |level: u8| {
            let c = f64::from(level) / 255.0;
            if c <= 0.04045 { c / 12.92 } else { libm::pow((c + 0.055) / 1.055, 2.4) }
        };
        let [r, g, b] = self.rgb;
        0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b)
    }
}

impl Palette {
    /// The colour of a severity.
    pub(super) const fn sign(&self, severity: Severity) -> Colour {
        match severity {
            Severity::Stops => self.stops,
            Severity::Care => self.care,
            Severity::Note => self.soft,
        }
    }
}

/// Contrast of two opaque colours after WCAG 2.2, 1 to 21.
pub fn contrast(a: Colour, b: Colour) -> f64 {
    let (a, b) = (a.luminance(), b.luminance());
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

pub(super) const LIGHT: Palette = Palette {
    paper: Colour::hex(0xFB_FA_F7),
    sheet: Colour::hex(0xFF_FF_FF),
    panel: Colour::hex(0xF4_F2_EC),
    ink: Colour::hex(0x1B_24_30),
    soft: Colour::hex(0x5A_64_72),
    beam: Colour::hex(0x00_72_B2),
    stops: Colour::hex(0xC0_33_0C),
    care: Colour::hex(0x80_60_00),
    care_sign: Colour::hex(0xF5_B8_2E),
    ready: Colour::hex(0x00_66_4A),
    grid: Colour::hex(0xEC_EA_E4),
    body: Colour::hex(0xDC_E6_EF),
    stuff: Colour::hex(0xEF_EB_E2),
    masonry: Colour::hex(0xC4_C1_B8),
    on_sign: Colour::hex(0xFF_FF_FF),
    on_care: Colour::hex(0x1B_24_30),
};

pub(super) const DARK: Palette = Palette {
    paper: Colour::hex(0x14_18_1E),
    sheet: Colour::hex(0x19_1E_25),
    panel: Colour::hex(0x1B_21_29),
    ink: Colour::hex(0xE8_EB_EF),
    soft: Colour::hex(0xA3_AD_B9),
    beam: Colour::hex(0x56_B4_E9),
    stops: Colour::hex(0xFF_7F_66),
    care: Colour::hex(0xF4_D8_5E),
    care_sign: Colour::hex(0xF4_D8_5E),
    ready: Colour::hex(0x4C_C9_A4),
    grid: Colour::hex(0x25_2B_34),
    body: Colour::hex(0x2C_39_48),
    stuff: Colour::hex(0x2A_30_39),
    masonry: Colour::hex(0x4A_53_5F),
    on_sign: Colour::hex(0x14_18_1E),
    on_care: Colour::hex(0x14_18_1E),
};

pub(super) const PRINT: Palette = Palette {
    paper: Colour::hex(0xFF_FF_FF),
    sheet: Colour::hex(0xFF_FF_FF),
    panel: Colour::hex(0xEC_EC_EC),
    ink: Colour::hex(0x00_00_00),
    soft: Colour::hex(0x4A_4A_4A),
    beam: Colour::hex(0x00_4A_7C),
    stops: Colour::hex(0xA8_20_00),
    care: Colour::hex(0x5A_44_00),
    care_sign: Colour::hex(0xF5_B8_2E),
    ready: Colour::hex(0x00_58_40),
    grid: Colour::hex(0xDC_DC_DC),
    body: Colour::hex(0xE2_E6_EA),
    stuff: Colour::hex(0xEE_EE_EE),
    masonry: Colour::hex(0xB4_B4_B4),
    on_sign: Colour::hex(0xFF_FF_FF),
    on_care: Colour::hex(0x00_00_00),
};

#[cfg(test)]
mod tests {
    use super::*;
    use crate::theme::Theme;

    /// WCAG 2.2 relative luminance and contrast: values computed by an independent script from the published formula;
    /// #767676 and #777777 on white are the well-known neighbours of the 4.5 limit.
    #[test]
    fn contrast_as_published() {
        for (a, b, ratio) in [
            (0x00_00_00, 0xFF_FF_FF, 21.000000),
            (0x76_76_76, 0xFF_FF_FF, 4.542225),
            (0x77_77_77, 0xFF_FF_FF, 4.478089),
            (0x94_94_94, 0xFF_FF_FF, 3.033470),
            (0x59_59_59, 0xFF_FF_FF, 7.004729),
            (0xFF_00_00, 0xFF_FF_FF, 3.998477),
            (0x00_00_FF, 0xFF_FF_FF, 8.592471),
            (0x00_80_00, 0xFF_FF_FF, 5.137403),
            (0x00_72_B2, 0xF0_E4_42, 3.921453),
            (0xD5_5E_00, 0x00_00_00, 5.430308),
            (0xE6_9F_00, 0x00_72_B2, 2.302302),
        ] {
            let found = contrast(Colour::hex(a), Colour::hex(b));
            assert!((found - ratio).abs() < 1e-6, "{a:06X} {b:06X}: {found}");
        }
    }

    /// Lightness alone tells the sign of what stops from that of what needs care, beside their shapes: WCAG 2.2, 1.4.1 and 1.4.11.
    #[test]
    fn what_stops_and_what_needs_care_are_told_apart_without_hues() {
        let apart = |theme: Theme| contrast(theme.palette().stops, theme.palette().care_sign);
        assert!(apart(Theme::Light) >= 3.0, "{:.2}", apart(Theme::Light));
        assert!(apart(Theme::Print) >= 3.0, "{:.2}", apart(Theme::Print));
        assert!(apart(Theme::Dark) >= 1.6, "{:.2}", apart(Theme::Dark));
    }

    /// WCAG 2.2, 1.4.3: 4.5 for text. 1.4.11: 3 for parts that must be seen.
    #[test]
    fn texts_and_signs_can_be_read_on_every_ground() {
        for theme in [Theme::Light, Theme::Dark, Theme::Print] {
            let p = theme.palette();
            for ground in [p.paper, p.sheet, p.panel] {
                for (name, text) in [
                    ("ink", p.ink),
                    ("soft", p.soft),
                    ("beam", p.beam),
                    ("stops", p.stops),
                    ("care", p.care),
                    ("ready", p.ready),
                ] {
                    let ratio = contrast(text, ground);
                    assert!(ratio >= 4.5, "{theme:?} {name} on {:?}: {ratio:.2}", ground.rgb);
                }
            }
            for (name, text, sign) in [
                ("stops", p.on_sign, p.stops),
                ("care", p.on_care, p.care_sign),
                ("ready", p.on_sign, p.ready),
            ] {
                let ratio = contrast(text, sign);
                assert!(ratio >= 4.5, "{theme:?} number on {name}: {ratio:.2}");
            }
            // A bright sign on bright paper is seen by its edge.
            for ground in [p.paper, p.sheet, p.panel] {
                let ratio = contrast(p.on_care, ground).max(contrast(p.care_sign, ground));
                assert!(ratio >= 3.0, "{theme:?} sign of care on {:?}: {ratio:.2}", ground.rgb);
            }
            for ground in [p.body, p.stuff] {
                assert!(contrast(p.ink, ground) >= 3.0, "{theme:?} outline on {:?}", ground.rgb);
                assert!(contrast(p.stops, ground) >= 3.0, "{theme:?} stops on {:?}", ground.rgb);
            }
        }
    }
}
