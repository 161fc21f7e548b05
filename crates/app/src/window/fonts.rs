//! The one type face, with figures that stand in columns.
//!
//! The face has figures of equal width, but as a feature ("tnum") that the window library cannot ask for by name. So the
//! families for figures hold a copy of the font in which that feature's four-letter tag is changed to one that every
//! text gets. Nothing else changes: fractions written with the fraction slash (1⁄16) are still set as true fractions.

use std::sync::Arc;

use egui::{FontData, FontDefinitions, FontFamily, FontId};
use sheet::lettering::{REGULAR, SEMI_BOLD};

/// What the parts of the window are set in: two weights, for sentences and for figures.
///
/// Figures of equal width make hyphens and operators as wide as a figure too, so sentences keep the plain face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Face {
    /// Sentences.
    Text,
    /// Headings and names.
    Strong,
    /// Measurements.
    Figures,
    /// The measurements that matter most.
    StrongFigures,
}

impl Face {
    /// The family of the window library.
    #[must_use]
    pub fn family(self) -> FontFamily {
        match self {
            Self::Text => FontFamily::Proportional,
            Self::Strong => FontFamily::Name("strong".into()),
            Self::Figures => FontFamily::Name("figures".into()),
            Self::StrongFigures => FontFamily::Name("strong figures".into()),
        }
    }

    /// This face `size` screen points high.
    #[must_use]
    pub fn sized(self, size: f32) -> FontId {
        FontId::new(size, self.family())
    }

    const ALL: [Self; 4] = [Self::Text, Self::Strong, Self::Figures, Self::StrongFigures];

    fn font(self) -> (&'static str, FontData) {
        match self {
            Self::Text => ("Inter", FontData::from_static(REGULAR)),
            Self::Strong => ("Inter SemiBold", FontData::from_static(SEMI_BOLD)),
            Self::Figures => (
                "Inter, figures",
                FontData::from_owned(with_equal_figures(REGULAR)),
            ),
            Self::StrongFigures => (
                "Inter SemiBold, figures",
                FontData::from_owned(with_equal_figures(SEMI_BOLD)),
            ),
        }
    }
}

/// All families of [`Face`], with the library's own fonts behind them for signs the face lacks.
#[must_use]
pub fn definitions() -> FontDefinitions {
    let mut fonts = FontDefinitions::default();
    let behind = fonts
        .families
        .get(&FontFamily::Proportional)
        .cloned()
        .unwrap_or_default();
    for face in Face::ALL {
        let (name, font) = face.font();
        fonts.font_data.insert(name.to_owned(), Arc::new(font));
        let mut order = vec![name.to_owned()];
        order.extend(behind.iter().cloned());
        fonts.families.insert(face.family(), order);
    }
    // Nothing in the window is set in a typewriter face; what asks for one gets figures that line up.
    if let Some(order) = fonts.families.get(&Face::Figures.family()).cloned() {
        fonts.families.insert(FontFamily::Monospace, order);
    }
    fonts
}

/// A copy of a font in which figures of equal width are the rule: the feature `tnum` of its glyph substitution table is
/// given the tag `rclt`, which every text gets. A font without that feature comes back as it was.
///
/// Layout of the table: OpenType specification, chapters "Organization of an OpenType Font" and "Common Table Formats".
#[must_use]
pub fn with_equal_figures(font: &[u8]) -> Vec<u8> {
    let mut font = font.to_vec();
    for at in figure_features(&font).unwrap_or_default() {
        if let Some(tag) = font.get_mut(at..at + 4) {
            tag.copy_from_slice(b"rclt");
        }
    }
    font
}

/// Where in the font the tags of its `tnum` features are.
fn figure_features(font: &[u8]) -> Option<Vec<usize>> {
    let tables = usize::from(u16_at(font, 4)?);
    let table = (0..tables)
        .map(|nth| 12 + 16 * nth)
        .find(|&at| font.get(at..at + 4) == Some(b"GSUB"))?;
    let substitution = usize::try_from(u32_at(font, table + 8)?).ok()?;
    let features = substitution + usize::from(u16_at(font, substitution + 6)?);
    let count = usize::from(u16_at(font, features)?);
    let tags = (0..count).map(|nth| features + 2 + 6 * nth);
    Some(
        tags.filter(|&at| font.get(at..at + 4) == Some(b"tnum"))
            .collect(),
    )
}

fn u16_at(font: &[u8], at: usize) -> Option<u16> {
    let bytes = font.get(at..at.checked_add(2)?)?;
    Some(u16::from_be_bytes(bytes.try_into().ok()?))
}

fn u32_at(font: &[u8], at: usize) -> Option<u32> {
    let bytes = font.get(at..at.checked_add(4)?)?;
    Some(u32::from_be_bytes(bytes.try_into().ok()?))
}

#[cfg(test)]
#[expect(clippy::float_cmp, reason = "figures that line up are exactly as wide")]
mod tests {
    use super::*;

    /// Width of a text set in one line, in screen points.
    fn width(face: Face, text: &str) -> f32 {
        let ctx = egui::Context::default();
        ctx.set_fonts(definitions());
        ctx.set_missing_glyph_policy(egui::MissingGlyphPolicy::Panic);
        let mut wide = 0.0;
        let mut output = ctx.run_ui(egui::RawInput::default(), |ui| {
            let colour = egui::Color32::BLACK;
            wide = ui
                .painter()
                .layout_no_wrap(text.to_owned(), face.sized(32.0), colour)
                .size()
                .x;
        });
        output.textures_delta.clear();
        wide
    }

    #[test]
    fn figures_stand_in_columns() {
        for face in [Face::Figures, Face::StrongFigures] {
            let nought = width(face, "0.00 m");
            for text in ["1.11 m", "7.14 m", "9.87 m"] {
                assert_eq!(width(face, text), nought, "{face:?} {text}");
            }
            assert_eq!(width(face, "−0.30"), width(face, "+1.17"));
        }
        assert!(width(Face::Text, "1.11 m") < width(Face::Text, "0.00 m") - 10.0);
    }

    #[test]
    fn true_fractions_survive() {
        for face in [Face::Text, Face::Figures, Face::StrongFigures] {
            // Numerator and denominator are raised and lowered small figures: together narrower than three full ones.
            let fraction = width(face, "6 1⁄16");
            let flat = width(face, "6 1116");
            assert!(fraction < 0.9 * flat, "{face:?}: {fraction} {flat}");
        }
    }

    #[test]
    fn every_sign_we_set_is_there() {
        let signs = "0123456789′″⁄½¼¾⅛⅜⅝⅞°±≤≥×−–’·→Ø…²√←↑↓‘“”";
        for face in Face::ALL {
            assert!(0.0 < width(face, signs), "{face:?}");
        }
    }

    #[test]
    fn nonsense_is_left_alone() {
        for bytes in [&b""[..], b"\0\x01\0\0\xff\xff", &REGULAR[..300]] {
            assert_eq!(with_equal_figures(bytes), bytes);
        }
        let changed = with_equal_figures(REGULAR);
        let differing = REGULAR.iter().zip(&changed).filter(|(a, b)| a != b).count();
        // "tnum" and "rclt" differ in all four letters.
        assert_eq!((differing, changed.len()), (4, REGULAR.len()));
    }
}
