//! Colours, type and measures of the window: a sheet of paper on a bench.

use egui::style::{ScrollStyle, Selection, WidgetVisuals, Widgets};
use egui::{
    Color32, Context, CornerRadius, FontId, Margin, Stroke, Style, TextStyle, Theme, Vec2, Visuals,
};

use super::fonts::{self, Face};

/// The colours of one look, named by what they are for. Each meaning also has a line style or a sign: never colour alone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Palette {
    /// What everything lies on.
    pub paper: Color32,
    /// The surface of a path.
    pub path: Color32,
    /// Where one types.
    pub field: Color32,
    /// Behind what is chosen.
    pub chosen: Color32,
    /// Text and firm lines.
    pub ink: Color32,
    /// Text that explains.
    pub faint: Color32,
    /// Thin lines that part things.
    pub rule: Color32,
    /// Strings, swing points and what the hand can move.
    pub string: Color32,
    /// Room to spare.
    pub moss: Color32,
    /// To stop for.
    pub clay: Color32,
    /// To care about.
    pub ochre: Color32,
    /// Round what the keyboard speaks to.
    pub focus: Color32,
    /// How many times as wide lines are drawn as in daylight indoors.
    pub weight: f32,
}

/// Which colours the window wears.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Look {
    /// Paper indoors.
    #[default]
    Day,
    /// After dark.
    Dusk,
    /// A laptop in the sun: black on white, wider lines.
    Sun,
}

/// Least contrast of text with what lies behind it. Source: WCAG 2.2, success criterion 1.4.3.
pub const TEXT_CONTRAST: f64 = 4.5;
/// Least contrast of lines, signs and large type. Source: WCAG 2.2, success criteria 1.4.3 and 1.4.11.
pub const LINE_CONTRAST: f64 = 3.0;

/// Least side of anything to be hit with a pointer, in screen points: a gloved finger on a touch screen.
pub const TARGET: f32 = 30.0;
/// Height of explaining text.
pub const SMALL: f32 = 13.0;
/// Height of sentences.
pub const BODY: f32 = 15.0;
/// Height of headings.
pub const HEADING: f32 = 19.0;
/// Height of the live figures, the largest type there is.
pub const BIG_FIGURE: f32 = 28.0;
/// Distance between things that belong together.
pub const GAP: f32 = 8.0;
/// Distance between things that do not.
pub const WIDE_GAP: f32 = 20.0;
/// Distance from the edge of a panel to what stands in it.
pub const EDGE: i8 = 20;

impl Look {
    /// All looks, in the order they are offered.
    pub const ALL: [Self; 3] = [Self::Day, Self::Dusk, Self::Sun];

    /// Its colours.
    #[must_use]
    pub const fn palette(self) -> &'static Palette {
        match self {
            Self::Day => &DAY,
            Self::Dusk => &DUSK,
            Self::Sun => &SUN,
        }
    }
}

/// The style of a measurement in a sentence: figures that line up.
#[must_use]
pub fn figure() -> TextStyle {
    TextStyle::Monospace
}

/// The style of the live figures on the plan.
#[must_use]
pub fn big_figure() -> TextStyle {
    TextStyle::Name("big figure".into())
}

/// The style of a name within a sentence.
#[must_use]
pub fn strong() -> TextStyle {
    TextStyle::Name("strong".into())
}

/// Gives the window its fonts, once, at the start.
pub fn set_fonts(ctx: &Context) {
    ctx.set_fonts(fonts::definitions());
}

/// Dresses the window in a look.
pub fn wear(ctx: &Context, look: Look) {
    let theme = match look {
        Look::Day | Look::Sun => Theme::Light,
        Look::Dusk => Theme::Dark,
    };
    ctx.set_theme(theme);
    ctx.set_style_of(theme, style(look));
}

const DAY: Palette = Palette {
    paper: Color32::from_rgb(0xF7, 0xF3, 0xEA),
    path: Color32::from_rgb(0xEB, 0xE3, 0xD2),
    field: Color32::from_rgb(0xFF, 0xFD, 0xF8),
    chosen: Color32::from_rgb(0xF3, 0xE3, 0xD0),
    ink: Color32::from_rgb(0x22, 0x30, 0x2A),
    faint: Color32::from_rgb(0x57, 0x63, 0x5B),
    rule: Color32::from_rgb(0x85, 0x86, 0x7A),
    string: Color32::from_rgb(0xB2, 0x4A, 0x1E),
    moss: Color32::from_rgb(0x3A, 0x7A, 0x3C),
    clay: Color32::from_rgb(0x8C, 0x1D, 0x38),
    ochre: Color32::from_rgb(0x7A, 0x4A, 0x00),
    focus: Color32::from_rgb(0x1F, 0x5F, 0x8B),
    weight: 1.0,
};

const DUSK: Palette = Palette {
    paper: Color32::from_rgb(0x1D, 0x24, 0x21),
    path: Color32::from_rgb(0x2F, 0x38, 0x33),
    field: Color32::from_rgb(0x14, 0x1A, 0x17),
    chosen: Color32::from_rgb(0x43, 0x37, 0x2B),
    ink: Color32::from_rgb(0xEC, 0xE6, 0xD8),
    faint: Color32::from_rgb(0xA9, 0xB3, 0xAA),
    rule: Color32::from_rgb(0x76, 0x82, 0x7A),
    string: Color32::from_rgb(0xFB, 0xA8, 0x62),
    moss: Color32::from_rgb(0x86, 0xCD, 0xA4),
    clay: Color32::from_rgb(0xEE, 0x6A, 0x66),
    ochre: Color32::from_rgb(0xE9, 0xC0, 0x4A),
    focus: Color32::from_rgb(0x7C, 0xC0, 0xEE),
    weight: 1.0,
};

const SUN: Palette = Palette {
    paper: Color32::WHITE,
    path: Color32::from_rgb(0xEA, 0xEA, 0xE6),
    field: Color32::WHITE,
    chosen: Color32::from_rgb(0xFF, 0xE8, 0xCC),
    ink: Color32::BLACK,
    faint: Color32::from_rgb(0x30, 0x30, 0x30),
    rule: Color32::from_rgb(0x55, 0x55, 0x55),
    string: Color32::from_rgb(0x90, 0x35, 0x00),
    moss: Color32::from_rgb(0x1B, 0x5E, 0x30),
    clay: Color32::from_rgb(0xA8, 0x0A, 0x34),
    ochre: Color32::from_rgb(0x56, 0x34, 0x00),
    focus: Color32::from_rgb(0x00, 0x3F, 0x77),
    weight: 1.4,
};

fn style(look: Look) -> Style {
    let palette = look.palette();
    let mut style = Style {
        text_styles: text_styles(),
        drag_value_text_style: figure(),
        animation_time: 0.0, // nothing repaints while nothing changes
        visuals: visuals(look, palette),
        ..Style::default()
    };
    let spacing = &mut style.spacing;
    spacing.item_spacing = Vec2::new(GAP, GAP);
    spacing.button_padding = Vec2::new(12.0, 6.0);
    spacing.interact_size = Vec2::new(TARGET, TARGET);
    spacing.window_margin = Margin::same(EDGE);
    spacing.menu_margin = Margin::same(6);
    spacing.icon_width = 20.0;
    spacing.icon_width_inner = 12.0;
    spacing.scroll = ScrollStyle::floating();
    style.interaction.selectable_labels = false;
    style.interaction.interact_radius = 6.0;
    style
}

fn text_styles() -> std::collections::BTreeMap<TextStyle, FontId> {
    [
        (TextStyle::Small, Face::Text.sized(SMALL)),
        (TextStyle::Body, Face::Text.sized(BODY)),
        (TextStyle::Button, Face::Text.sized(BODY)),
        (TextStyle::Heading, Face::Strong.sized(HEADING)),
        (figure(), Face::Figures.sized(BODY)),
        (big_figure(), Face::StrongFigures.sized(BIG_FIGURE)),
        (strong(), Face::Strong.sized(BODY)),
    ]
    .into()
}

fn visuals(look: Look, palette: &Palette) -> Visuals {
    let mut visuals = match look {
        Look::Day | Look::Sun => Visuals::light(),
        Look::Dusk => Visuals::dark(),
    };
    let line = |colour: Color32, width: f32| Stroke::new(width * palette.weight, colour);
    let corner = CornerRadius::same(2);
    let plain = WidgetVisuals {
        bg_fill: palette.paper,
        weak_bg_fill: palette.paper,
        bg_stroke: line(palette.rule, 1.0),
        corner_radius: corner,
        fg_stroke: line(palette.ink, 1.0),
        expansion: 0.0,
    };
    let touched = WidgetVisuals {
        weak_bg_fill: palette.chosen,
        bg_fill: palette.chosen,
        bg_stroke: line(palette.ink, 1.0),
        ..plain
    };
    visuals.widgets = Widgets {
        noninteractive: plain,
        inactive: plain,
        hovered: touched,
        // Also what has the keyboard: a ring wide enough to be found again.
        active: WidgetVisuals {
            bg_stroke: line(palette.focus, 2.5),
            ..touched
        },
        open: touched,
    };
    visuals.selection = Selection {
        bg_fill: palette.chosen,
        stroke: line(palette.focus, 2.0),
    };
    visuals.text_cursor.stroke = line(palette.ink, 2.0);
    visuals.text_cursor.blink = false; // a blinking cursor would repaint twice a second
    visuals.hyperlink_color = palette.focus;
    visuals.faint_bg_color = palette.path;
    visuals.extreme_bg_color = palette.field;
    visuals.text_edit_bg_color = Some(palette.field);
    visuals.code_bg_color = palette.path;
    visuals.weak_text_color = Some(palette.faint);
    visuals.warn_fg_color = palette.ochre;
    visuals.error_fg_color = palette.clay;
    visuals.panel_fill = palette.paper;
    visuals.window_fill = palette.paper;
    visuals.window_stroke = line(palette.ink, 1.0);
    visuals.window_corner_radius = corner;
    visuals.menu_corner_radius = corner;
    visuals.window_shadow = egui::Shadow::NONE;
    visuals.popup_shadow = egui::Shadow::NONE;
    visuals
}

/// Contrast of two colours, from 1 (the same) to 21 (black on white). Source: WCAG 2.2, "contrast ratio".
#[must_use]
pub fn contrast(one: Color32, other: Color32) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

/// Relative luminance of an opaque colour, 0 to 1. Source: WCAG 2.2, "relative luminance".
fn luminance(colour: Color32) -> f64 {
    let [red, green, blue] = linear(colour);
    0.2126 * red + 0.7152 * green + 0.0722 * blue
}

fn linear(colour: Color32) -> [f64; 3] {
    [colour.r(), colour.g(), colour.b()].map(|channel| {
        let share = f64::from(channel) / 255.0;
        if share <= 0.040_45 {
            share / 12.92
        } else {
            ((share + 0.055) / 1.055).powf(2.4)
        }
    })
}

#[cfg(test)]
#[expect(clippy::float_cmp, reason = "a colour against itself is exactly 1")]
mod tests {
    use super::*;

    #[test]
    fn contrast_of_known_pairs() {
        // The two ends of the scale, and the grey published as just passing 4.5 on white (#767676, 4.54).
        assert!((contrast(Color32::WHITE, Color32::BLACK) - 21.0).abs() < 1e-9);
        assert_eq!(contrast(Color32::WHITE, Color32::WHITE), 1.0);
        let grey = contrast(Color32::from_gray(0x76), Color32::WHITE);
        assert!((grey - 4.54).abs() < 0.005, "{grey}");
    }

    #[test]
    fn every_pair_that_is_used_can_be_read() {
        for look in Look::ALL {
            let p = look.palette();
            let text = [
                (p.ink, p.paper),
                (p.ink, p.path),
                (p.ink, p.field),
                (p.ink, p.chosen),
                (p.faint, p.paper),
                (p.faint, p.path),
                (p.faint, p.field),
                (p.faint, p.chosen),
                (p.string, p.paper),
                (p.moss, p.paper),
                (p.clay, p.paper),
                (p.ochre, p.paper),
                (p.string, p.field),
                (p.clay, p.field),
                (p.ochre, p.field),
                (p.focus, p.paper),
                (p.focus, p.chosen), // the words of what is chosen
            ];
            let lines = [
                (p.paper, p.clay), // the stroke in the sign of a stop
                (p.faint, p.path), // where a path was, a chord, a line it is held to
                (p.focus, p.path), // round a handle the keyboard speaks to
                (p.rule, p.field),
                (p.rule, p.paper),
                (p.string, p.path),
                (p.moss, p.path),
                (p.clay, p.path),
                (p.ochre, p.path),
                (p.focus, p.field),
                (p.string, p.chosen),
            ];
            for (front, behind) in text {
                let is = contrast(front, behind);
                assert!(
                    TEXT_CONTRAST <= is,
                    "{look:?} {front:?} on {behind:?}: {is:.2}"
                );
            }
            for (front, behind) in lines {
                let is = contrast(front, behind);
                assert!(
                    LINE_CONTRAST <= is,
                    "{look:?} {front:?} on {behind:?}: {is:.2}"
                );
            }
            // In the sun all text has the stricter contrast of criterion 1.4.6.
            if look == Look::Sun {
                for (front, behind) in text {
                    assert!(7.0 <= contrast(front, behind), "{front:?} on {behind:?}");
                }
            }
        }
    }

    /// Linear RGB as seen with one kind of cone missing. Source: Machado, Oliveira and Fernandes 2009, severity 1.0 (from memory).
    const PROTANOPIA: [[f64; 3]; 3] = [
        [0.152_286, 1.052_583, -0.204_868],
        [0.114_503, 0.786_281, 0.099_216],
        [-0.003_882, -0.048_116, 1.051_998],
    ];
    const DEUTERANOPIA: [[f64; 3]; 3] = [
        [0.367_322, 0.860_646, -0.227_968],
        [0.280_085, 0.672_501, 0.047_413],
        [-0.011_820, 0.042_940, 0.968_881],
    ];
    const TRITANOPIA: [[f64; 3]; 3] = [
        [1.255_528, -0.076_749, -0.178_779],
        [-0.078_411, 0.930_809, 0.147_602],
        [0.004_733, 0.691_367, 0.303_900],
    ];

    fn lab(colour: Color32, eye: &[[f64; 3]; 3]) -> [f64; 3] {
        let from = linear(colour);
        let [r, g, b] = eye.map(|row| {
            let seen: f64 = row.iter().zip(from).map(|(part, light)| part * light).sum();
            seen.clamp(0.0, 1.0)
        });
        let root = |t: f64| {
            if 0.008_856 < t {
                t.cbrt()
            } else {
                7.787 * t + 16.0 / 116.0
            }
        };
        let x = root((0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.950_47);
        let y = root(0.2126 * r + 0.7152 * g + 0.0722 * b);
        let z = root((0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.088_83);
        [116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)]
    }

    fn apart(one: Color32, other: Color32, eye: &[[f64; 3]; 3]) -> f64 {
        let (one, other) = (lab(one, eye), lab(other, eye));
        one.iter()
            .zip(other)
            .map(|(a, b)| (a - b) * (a - b))
            .sum::<f64>()
            .sqrt()
    }

    #[test]
    fn meanings_can_be_told_apart_by_most_eyes() {
        // A difference of 2.3 is just seen side by side; 12 is plain, 6 is seen when one looks. Own choice.
        for eye in [PROTANOPIA, DEUTERANOPIA, TRITANOPIA] {
            for look in Look::ALL {
                let p = look.palette();
                for (one, other, least) in [
                    (p.moss, p.clay, 12.0),
                    (p.moss, p.ochre, 12.0),
                    (p.clay, p.ochre, 12.0),
                    (p.string, p.clay, 12.0),
                    (p.string, p.moss, 6.0),
                    (p.string, p.ochre, 6.0),
                ] {
                    let is = apart(one, other, &eye);
                    assert!(
                        least <= is,
                        "{look:?}: {one:?} and {other:?} are {is:.1} apart"
                    );
                }
            }
        }
    }
}
