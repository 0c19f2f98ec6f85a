//! How the screen looks: the drawing's own colours and letters, made into what the screen's library asks for.

use baywright_drawing::theme::{Colour, Palette};
use baywright_drawing::{TextStyle as DrawnStyle, Theme, Weight, font};
use egui::epaint::text::{FontData, FontDefinitions};
use egui::{Color32, CornerRadius, FontFamily, FontId, Margin, Stroke, TextStyle, Vec2, Visuals};

/// Sizes of type, px.
pub(crate) mod size {
    pub(crate) const VERDICT: f32 = 26.0;
    pub(crate) const LEAD: f32 = 15.0;
    pub(crate) const BODY: f32 = 13.0;
    pub(crate) const SMALL: f32 = 12.0;
    /// The smallest there is.
    pub(crate) const LEAST: f32 = 11.5;
}

/// A colour of the drawing as the screen's.
pub(crate) fn colour(colour: Colour) -> Color32 {
    let [r, g, b] = colour.rgb;
    Color32::from_rgba_unmultiplied(r, g, b, (colour.opacity * 255.0).round() as u8)
}

/// The name of a font family of a weight.
fn family(weight: Weight) -> FontFamily {
    match weight {
        Weight::Regular => FontFamily::Proportional,
        Weight::SemiBold => FontFamily::Name("semi-bold".into()),
        Weight::Bold => FontFamily::Name("bold".into()),
    }
}

/// A letter size and weight.
pub(crate) fn letters(size: f32, weight: Weight) -> FontId {
    FontId::new(size, family(weight))
}

/// The same for a text of a drawing.
pub(crate) fn drawn(style: DrawnStyle) -> FontId {
    letters(style.size as f32, style.weight)
}

/// Bold letters of a size.
pub(crate) fn bold(size: f32) -> FontId {
    letters(size, Weight::SemiBold)
}

/// Fonts and spacings, once at the start.
pub(crate) fn install(ctx: &egui::Context) {
    let mut fonts = FontDefinitions::default();
    // What our font lacks (signs, other scripts) comes from the ones that the library brings.
    let others = fonts.families.get(&FontFamily::Proportional).cloned().unwrap_or_default();
    for (name, file, weight) in [
        ("regular", font::FONT_REGULAR, Weight::Regular),
        ("semi-bold", font::FONT_SEMI_BOLD, Weight::SemiBold),
        ("bold", font::FONT_BOLD, Weight::Bold),
    ] {
        fonts.font_data.insert(name.to_owned(), FontData::from_static(file).into());
        let own = std::iter::once(name.to_owned()).chain(others.iter().cloned()).collect();
        fonts.families.insert(family(weight), own);
    }
    ctx.set_fonts(fonts);
    ctx.options_mut(|options| {
        // Ctrl with plus and minus is ours: the letters' size goes in steps, and is remembered.
        options.zoom_with_keyboard = false;
    });
    ctx.all_styles_mut(|style| {
        style.text_styles = [
            (TextStyle::Small, letters(size::LEAST, Weight::Regular)),
            (TextStyle::Body, letters(size::BODY, Weight::Regular)),
            (TextStyle::Button, letters(size::BODY, Weight::Regular)),
            (TextStyle::Heading, letters(size::LEAD, Weight::SemiBold)),
            (TextStyle::Monospace, letters(size::BODY, Weight::Regular)),
        ]
        .into();
        style.spacing.item_spacing = Vec2::new(8.0, 4.0);
        style.spacing.button_padding = Vec2::new(8.0, 4.0);
        style.spacing.interact_size = Vec2::new(24.0, 24.0);
        style.spacing.menu_margin = Margin::same(6);
        style.spacing.combo_width = 40.0;
        style.interaction.selectable_labels = false;
        style.interaction.tooltip_delay = 0.35;
        // Nothing moves by itself: a drag is never waited for, and an idle screen is drawn once.
        style.animation_time = 0.0;
    });
}

/// Colours of a theme.
pub(crate) fn apply(ctx: &egui::Context, theme: Theme) {
    let p = theme.palette();
    let visuals = visuals(p, theme == Theme::Dark);
    let kind = if theme == Theme::Dark { egui::Theme::Dark } else { egui::Theme::Light };
    ctx.set_theme(kind);
    ctx.set_visuals_of(kind, visuals);
}

/// How strong the edges of fields and buttons are, and the ground of what is chosen.
const EDGE: f32 = 0.8;
const SELECTION: f32 = 0.22;

fn visuals(p: &Palette, dark: bool) -> Visuals {
    let mut v = if dark { Visuals::dark() } else { Visuals::light() };
    let edge = Stroke::new(1.0, colour(p.soft.faded(EDGE)));
    let radius = CornerRadius::same(3);
    v.panel_fill = colour(p.panel);
    v.window_fill = colour(p.panel);
    v.window_stroke = edge;
    v.extreme_bg_color = colour(p.sheet);
    v.text_edit_bg_color = Some(colour(p.sheet));
    v.faint_bg_color = colour(p.paper);
    v.hyperlink_color = colour(p.beam);
    v.warn_fg_color = colour(p.care);
    v.error_fg_color = colour(p.stops);
    v.weak_text_color = Some(colour(p.soft));
    v.selection.bg_fill = colour(p.beam.faded(SELECTION));
    v.selection.stroke = Stroke::new(1.5, colour(p.ink));
    v.window_corner_radius = CornerRadius::same(6);
    v.menu_corner_radius = CornerRadius::same(4);
    v.popup_shadow.blur = 8;
    v.popup_shadow.offset = [0, 3];
    v.window_shadow.blur = 16;
    v.window_shadow.offset = [0, 6];
    let ink = Stroke::new(1.0, colour(p.ink));
    for w in [
        &mut v.widgets.noninteractive,
        &mut v.widgets.inactive,
        &mut v.widgets.hovered,
        &mut v.widgets.active,
        &mut v.widgets.open,
    ] {
        w.corner_radius = radius;
        w.expansion = 0.0;
        w.fg_stroke = ink;
        w.bg_stroke = edge;
        w.bg_fill = colour(p.sheet);
        w.weak_bg_fill = colour(p.sheet);
    }
    v.widgets.noninteractive.bg_stroke = Stroke::new(1.0, colour(p.soft.faded(0.3)));
    v.widgets.hovered.bg_stroke = Stroke::new(1.0, colour(p.beam));
    v.widgets.active.bg_stroke = Stroke::new(2.0, colour(p.beam));
    v.widgets.active.bg_fill = colour(p.sheet);
    v.widgets.open.bg_stroke = Stroke::new(1.0, colour(p.beam));
    v
}

#[cfg(test)]
mod tests {
    use baywright_drawing::theme::contrast;

    use super::*;

    /// One colour over another.
    fn over(top: Colour, ground: Colour) -> Colour {
        let mix =
            |a: u8, b: u8| (f32::from(a) * top.opacity + f32::from(b) * (1.0 - top.opacity)).round() as u8;
        let [a, b] = [top.rgb, ground.rgb];
        Colour { rgb: [mix(a[0], b[0]), mix(a[1], b[1]), mix(a[2], b[2])], opacity: 1.0 }
    }

    /// WCAG 2.2: 4.5 to 1 for texts (1.4.3), 3 to 1 for the edges of what can be pressed or typed into (1.4.11).
    #[test]
    fn every_pair_of_the_screen_can_be_told_apart() {
        for theme in [Theme::Light, Theme::Dark] {
            let p = theme.palette();
            let chosen = over(p.beam.faded(SELECTION), p.panel);
            let hovered = over(p.beam.faded(0.1), p.panel);
            for (what, text, ground) in [
                ("chosen", p.ink, chosen),
                ("typed and chosen", p.ink, over(p.beam.faded(SELECTION), p.sheet)),
                ("hovered row", p.ink, hovered),
                ("note in a hovered row", p.soft, hovered),
                ("a press", p.beam, p.sheet),
                ("a link", p.beam, p.panel),
                ("a fault", p.stops, p.panel),
                ("a number of a card", p.care, p.sheet),
            ] {
                let ratio = contrast(text, ground);
                assert!(ratio >= 4.5, "{theme:?} {what}: {ratio:.2}");
            }
            for ground in [p.sheet, p.panel] {
                for (what, edge) in [("edge", over(p.soft.faded(EDGE), ground)), ("focus", p.beam)] {
                    let ratio = contrast(edge, ground);
                    assert!(ratio >= 3.0, "{theme:?} {what}: {ratio:.2}");
                }
            }
        }
    }
}
