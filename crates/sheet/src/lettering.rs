//! Words measured exactly as they will be drawn: widths, line breaks, the ink of a line.
//!
//! There is one shaping, used for measuring and for writing, so that the two cannot disagree. Kerning
//! is on; figures all have one width, so that columns line up; figures round a fraction slash
//! become a true fraction (7⁄8); nothing else is replaced (`->` stays what was typed).

use std::ops::Range;
use std::sync::LazyLock;

use rustybuzz::ttf_parser::GlyphId;
use rustybuzz::{Direction, Face, Feature, ShapePlan, UnicodeBuffer, script, shape_with_plan};

use crate::ink::{Along, Level, Pos, Text};
use crate::paper::Frame;
use crate::pen::{Style, Weight};

/// The regular cut of the one type face, of the sheet and the window alike.
pub const REGULAR: &[u8] = include_bytes!("../../../assets/fonts/Inter-Regular.ttf");
/// The semi-bold cut.
pub const SEMI_BOLD: &[u8] = include_bytes!("../../../assets/fonts/Inter-SemiBold.ttf");

/// Type size of a capital one millimetre high, millimetres. Source: the type face (2048 units to
/// the em, capitals of 1490).
const EM: f64 = 2048.0 / 1490.0;

/// Between the base lines of running text, in type sizes (common practice, no source).
const LEADING: f64 = 1.4;

/// Capital heights to step down through when words do not fit, millimetres (ISO 3098-1; from memory).
const HEIGHTS: [f64; 8] = [20.0, 14.0, 10.0, 7.0, 5.0, 3.5, 2.5, 1.8];

/// U+2044, between the figures of a fraction.
const FRACTION_SLASH: char = '⁄';

/// How long the words are from where they begin to where the next would, millimetres.
///
/// ```
/// use sheet::{Style, lettering::width};
/// // Every figure is equally wide.
/// assert_eq!(width("1.11", Style::BODY), width("8.88", Style::BODY));
/// ```
#[must_use]
pub fn width(words: &str, style: Style) -> f64 {
    let ems: f64 = shape(words, style.weight)
        .iter()
        .map(|glyph| glyph.advance)
        .sum();
    ems * size(style)
}

/// Type size, millimetres: what a printer calls the size of the letters.
#[must_use]
pub fn size(style: Style) -> f64 {
    style.height * EM
}

/// From one base line of running text to the next, millimetres.
#[must_use]
pub fn leading(style: Style) -> f64 {
    size(style) * LEADING
}

/// The words in lines no longer than the width, millimetres.
///
/// Lines break at spaces and where the words have a line feed. The parts of a length stay together
/// (`3′ 6 7⁄8″`, `4.20 m`) as long as they fit in a line at all. A single word too long for a line is
/// broken where it must be.
#[must_use]
pub fn wrap(words: &str, style: Style, width: f64) -> Vec<String> {
    let measure = |part: &str| self::width(part, style);
    let space = measure(" ");
    let mut lines = Vec::new();
    for paragraph in words.lines() {
        let mut line = String::new();
        let mut length = 0.0;
        for unit in units(paragraph) {
            let wide = measure(&unit);
            // A line is never longer than its parts: kerning only draws a word closer to a space.
            if !line.is_empty() && length + space + wide <= width {
                line.push(' ');
                line.push_str(&unit);
                length += space + wide;
                continue;
            }
            if !line.is_empty() {
                lines.push(std::mem::take(&mut line));
            }
            let mut pieces = if wide <= width {
                vec![unit]
            } else {
                broken(&unit, style, width)
            };
            line = pieces.pop().unwrap_or_default();
            length = measure(&line);
            lines.append(&mut pieces);
        }
        lines.push(line);
    }
    lines
}

/// A unit too long for a line in pieces that are not: at its spaces, and within a word where it must
/// be, but no piece without a letter.
fn broken(unit: &str, style: Style, width: f64) -> Vec<String> {
    let mut pieces = Vec::new();
    for word in unit.split(' ') {
        let mut piece = String::new();
        for letter in word.chars() {
            let longer = format!("{piece}{letter}");
            if piece.is_empty() || self::width(&longer, style) <= width {
                piece = longer;
            } else {
                pieces.push(std::mem::replace(&mut piece, letter.to_string()));
            }
        }
        pieces.push(piece);
    }
    pieces
}

/// The words at the greatest usual height, not over that of the style, at which they fit in the
/// width (millimetres) on one line; if they fit at none, shortened with an ellipsis at the least.
#[must_use]
pub fn fit(words: &str, style: Style, width: f64) -> (String, Style) {
    let lower = HEIGHTS.into_iter().filter(|height| *height < style.height);
    let mut least = style;
    for height in std::iter::once(style.height).chain(lower) {
        least = style.high(height);
        if self::width(words, least) <= width {
            return (words.to_owned(), least);
        }
    }
    let ends: Vec<usize> = words.char_indices().map(|(end, _)| end).collect();
    let short = |end: usize| format!("{}…", words.get(..end).unwrap_or_default().trim_end());
    let fits = ends.partition_point(|end| self::width(&short(*end), least) <= width);
    let words = fits
        .checked_sub(1)
        .and_then(|last| ends.get(last))
        .map(|end| short(*end));
    (words.unwrap_or_default(), least)
}

/// The characters that the type face cannot show, each once, in order; empty when all is well.
///
/// Control characters and those of the private use area count as missing: nobody can say what they
/// should look like.
#[must_use]
pub fn missing_glyphs(words: &str) -> Vec<char> {
    let unsayable = |letter: char| {
        letter.is_control()
            || matches!(letter, '\u{e000}'..='\u{f8ff}' | '\u{feff}' | '\u{f0000}'..)
    };
    let mut missing = Vec::new();
    // Both weights have the same letter forms; a test compares them.
    for glyph in shape(words, Weight::Regular) {
        for letter in words.get(glyph.range).unwrap_or_default().chars() {
            if (glyph.id.0 == 0 || unsayable(letter)) && !missing.contains(&letter) {
                missing.push(letter);
            }
        }
    }
    missing
}

/// Corners of the ink of a line of words, along its base line, counter-clockwise from the lower
/// left; `None` when it shows nothing.
#[must_use]
pub fn corners(text: &Text) -> Option<[Pos; 4]> {
    let lettered = lettered(text.style.weight);
    let size = size(text.style);
    let mut pen = 0.0;
    let mut inked: Option<Frame> = None;
    for glyph in shape(&text.words, text.style.weight) {
        if let Some(rect) = lettered.face.glyph_bounding_box(glyph.id) {
            let em = |units: i16| f64::from(units) / lettered.units;
            let corner = Pos::new(
                pen + glyph.right + em(rect.x_min),
                glyph.up + em(rect.y_min),
            );
            let ink = Frame::new(
                corner,
                em(rect.x_max) - em(rect.x_min),
                em(rect.y_max) - em(rect.y_min),
            );
            inked = Some(inked.map_or(ink, |all| all.joined(ink)));
        }
        pen += glyph.advance;
    }
    let inked = inked?;
    let base = base(text);
    let corner = |x: f64, y: f64| base.shifted(x * size, y * size).turned(base, text.angle);
    Some([
        corner(inked.left(), inked.foot()),
        corner(inked.right(), inked.foot()),
        corner(inked.right(), inked.head()),
        corner(inked.left(), inked.head()),
    ])
}

/// Where the base line of the words begins.
pub(crate) fn base(text: &Text) -> Pos {
    let back = match text.anchor.along {
        Along::Start => 0.0,
        Along::Middle => width(&text.words, text.style) / 2.0,
        Along::End => width(&text.words, text.style),
    };
    let down = match text.anchor.level {
        Level::Base => 0.0,
        Level::Middle => text.style.height / 2.0,
        Level::Top => text.style.height,
    };
    text.at.shifted(-back, -down).turned(text.at, text.angle)
}

/// One letter form, lengths in ems.
pub(crate) struct Glyph {
    /// Its number in the type face.
    pub(crate) id: GlyphId,
    /// The bytes of the words that it stands for.
    pub(crate) range: Range<usize>,
    /// How far the pen moves on.
    pub(crate) advance: f64,
    /// How far it is drawn to the right of the pen.
    pub(crate) right: f64,
    /// How far above it.
    pub(crate) up: f64,
}

/// The letter forms of some words, in order.
pub(crate) fn shape(words: &str, weight: Weight) -> Vec<Glyph> {
    let lettered = lettered(weight);
    let mut glyphs: Vec<Glyph> = Vec::with_capacity(words.len());
    for (run, figures) in runs(words) {
        let mut buffer = UnicodeBuffer::new();
        buffer.set_direction(Direction::LeftToRight);
        buffer.set_script(script::LATIN);
        buffer.push_str(words.get(run.clone()).unwrap_or_default());
        let plan = if figures {
            &lettered.figures
        } else {
            &lettered.plain
        };
        let shaped = shape_with_plan(&lettered.face, plan, buffer);

        let first = glyphs.len();
        for (info, at) in shaped.glyph_infos().iter().zip(shaped.glyph_positions()) {
            let start = run.start + usize::try_from(info.cluster).unwrap_or_default();
            let em = |units: i32| f64::from(units) / lettered.units;
            glyphs.push(Glyph {
                id: GlyphId(u16::try_from(info.glyph_id).unwrap_or_default()),
                range: start..run.end,
                advance: em(at.x_advance),
                right: em(at.x_offset),
                up: em(at.y_offset),
            });
        }
        // A letter form stands for everything up to where the next one starts.
        let mut end = run.end;
        let mut next = run.end;
        for glyph in glyphs.iter_mut().skip(first).rev() {
            if glyph.range.start < next {
                end = next;
                next = glyph.range.start;
            }
            glyph.range.end = end;
        }
    }
    glyphs
}

/// The words cut where plain figures begin and end; true for figures, which all get one width.
/// Figures next to a fraction slash are left to become a fraction.
fn runs(words: &str) -> Vec<(Range<usize>, bool)> {
    let mut runs: Vec<(Range<usize>, bool)> = Vec::new();
    let mut rest = words;
    while let Some(first) = rest.chars().next() {
        let start = words.len() - rest.len();
        let digits = first.is_ascii_digit();
        let length = rest
            .find(|letter: char| letter.is_ascii_digit() != digits)
            .unwrap_or(rest.len());
        let (run, after) = rest.split_at(length);
        let before = words.get(..start).unwrap_or_default();
        let figures =
            digits && !before.ends_with(FRACTION_SLASH) && !after.starts_with(FRACTION_SLASH);
        match runs.last_mut() {
            Some((last, kind)) if *kind == figures => last.end = start + run.len(),
            _ => runs.push((start..start + run.len(), figures)),
        }
        rest = after;
    }
    runs
}

/// The words of a paragraph, those that belong to one length joined.
fn units(paragraph: &str) -> Vec<String> {
    let mut units: Vec<String> = Vec::new();
    for word in paragraph.split(' ').filter(|word| !word.is_empty()) {
        match units.last_mut() {
            Some(unit) if belong_together(unit, word) => {
                unit.push(' ');
                unit.push_str(word);
            }
            _ => units.push(word.to_owned()),
        }
    }
    units
}

/// Whether a word goes on with the length that ends before it: figures after figures or feet, or a
/// unit after figures.
fn belong_together(before: &str, word: &str) -> bool {
    const UNITS: [&str; 6] = ["mm", "cm", "m", "in", "ft", "yd"];
    let figure_before = before.ends_with(|letter: char| letter.is_ascii_digit());
    let figure = word.starts_with(|letter: char| letter.is_ascii_digit());
    let unit = word.trim_end_matches(|letter: char| letter.is_ascii_punctuation());
    (figure && (figure_before || before.ends_with('′'))) || (figure_before && UNITS.contains(&unit))
}

/// The bytes of the type face.
pub(crate) const fn font(weight: Weight) -> &'static [u8] {
    match weight {
        Weight::Regular => REGULAR,
        Weight::SemiBold => SEMI_BOLD,
    }
}

/// A type face ready to shape: read once, because reading takes longer than shaping a line.
struct Lettered {
    face: Face<'static>,
    units: f64,
    plain: ShapePlan,
    figures: ShapePlan,
}

fn lettered(weight: Weight) -> &'static Lettered {
    static REGULAR: LazyLock<Lettered> = LazyLock::new(|| Lettered::new(Weight::Regular));
    static SEMI_BOLD: LazyLock<Lettered> = LazyLock::new(|| Lettered::new(Weight::SemiBold));
    match weight {
        Weight::Regular => &REGULAR,
        Weight::SemiBold => &SEMI_BOLD,
    }
}

impl Lettered {
    fn new(weight: Weight) -> Self {
        let face = Face::from_slice(font(weight), 0)
            .expect("the type face is part of the program and a test reads it");
        let plan = |features: &[Feature]| {
            ShapePlan::new(
                &face,
                Direction::LeftToRight,
                Some(script::LATIN),
                None,
                features,
            )
        };
        let feature = |name: &[u8; 4], value| {
            Feature::new(rustybuzz::ttf_parser::Tag::from_bytes(name), value, ..)
        };
        // "calt" would replace what was typed: x between figures, arrows from hyphens.
        let plain = plan(&[feature(b"calt", 0)]);
        let figures = plan(&[feature(b"calt", 0), feature(b"tnum", 1)]);
        Self {
            units: f64::from(face.units_per_em()),
            plain,
            figures,
            face,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ink::{Anchor, Ink};

    /// The two weights have the proportions this file is built on.
    #[test]
    fn type_face() {
        for weight in [Weight::Regular, Weight::SemiBold] {
            let face = &lettered(weight).face;
            let capital = f64::from(face.capital_height().unwrap());
            approx::assert_abs_diff_eq!(lettered(weight).units / capital, EM, epsilon = 1e-12);
            // A capital H of 10 mm really is 10 mm high.
            let high = Ink::text(Pos::ORIGIN, "H", Style::new(10.0, weight))
                .bounds()
                .unwrap();
            approx::assert_abs_diff_eq!(high.height, 10.0, epsilon = 1e-9);
        }
    }

    /// Whatever one weight can show, the other can.
    #[test]
    fn weights_have_the_same_letters() {
        let forms = |weight| {
            (0..0x3000)
                .filter_map(char::from_u32)
                .map(move |c| lettered(weight).face.glyph_index(c).is_some())
        };
        assert!(forms(Weight::Regular).eq(forms(Weight::SemiBold)));
    }

    /// Kerning never moves a word away from a space, so a line is no longer than its parts.
    #[test]
    fn spaces_do_not_push() {
        for style in [Style::BODY, Style::HEADING] {
            let space = width(" ", style);
            for letter in (0x21..0x2200)
                .filter_map(char::from_u32)
                .filter(|c| missing_glyphs(&c.to_string()).is_empty())
            {
                let alone = width(&letter.to_string(), style) + space;
                for pair in [format!("{letter} "), format!(" {letter}")] {
                    assert!(width(&pair, style) <= alone + 1e-9, "{pair:?}");
                }
            }
        }
    }

    /// What a sheet says can be lettered, and what it cannot is named.
    #[test]
    fn glyphs() {
        let check = |words: &str, expected: &[char]| {
            assert_eq!(missing_glyphs(words), expected, "{words:?}");
        };
        check("0123456789 ABC xyz .,:;!?()[]/&%+*=#@ \"'", &[]);
        check(
            "′ ″ ⁄ ½ ¼ ¾ ⅛ ⅜ ⅝ ⅞ ° ± ≤ ≥ × − – — ’ ‘ “ ” · → ← ↑ ↓ Ø □ ✓ … • √ ² ³ π ≈ △ ▲ ■ ○ ●",
            &[],
        );
        check("Ærøskøbing, Żółć, Łódź, naïve, Straße, Ελλάδα, сад", &[]);
        check("e\u{301} q\u{301} soft\u{ad}ly a\u{200d}b \u{a0}", &[]);
        check("⌀ 40", &['⌀']);
        check("☐ 日本 日 😀", &['☐', '日', '本', '😀']);
        check(
            "a\nb\tc\u{0}\u{feff}\u{e000}",
            &['\n', '\t', '\0', '\u{feff}', '\u{e000}'],
        );
        check("", &[]);
    }

    /// Columns of figures line up, and a fraction is narrower than its figures in full.
    #[test]
    fn figures() {
        let style = Style::BODY;
        for digit in '0'..='9' {
            let word = digit.to_string();
            approx::assert_abs_diff_eq!(width(&word, style), width("0", style), epsilon = 1e-12);
        }
        assert!(width("15⁄16", style) < 0.8 * width("15/16", style));
        // Kerned: a pair that leans together is shorter than its letters apart.
        assert!(width("AV", style) < width("A", style) + width("V", style));
        // Grows with the height.
        approx::assert_abs_diff_eq!(
            width("swing", style.high(5.0)),
            2.0 * width("swing", style),
            epsilon = 1e-12
        );
    }

    /// The letter forms stand for all of the words, in order and without overlap.
    #[test]
    fn letter_forms_cover_the_words() {
        for words in [
            "3′ 6 7⁄8″",
            "peg 12 to 13",
            "e\u{301}q\u{301}a\u{200d}b",
            "1⁄2 3 5⁄16x10",
            "±4°",
        ] {
            let mut end = 0;
            for glyph in shape(words, Weight::Regular) {
                assert!(
                    words
                        .get(glyph.range.clone())
                        .is_some_and(|part| !part.is_empty()),
                    "{words}"
                );
                assert!(
                    glyph.range.start == end || glyph.range.end == end,
                    "{words} {:?}",
                    glyph.range
                );
                end = glyph.range.end;
            }
            assert_eq!(end, words.len(), "{words}");
        }
    }

    #[test]
    fn lines() {
        let check = |words: &str, across: f64, expected: &[&str]| {
            assert_eq!(
                wrap(words, Style::BODY, across),
                expected,
                "{words:?} in {across}"
            );
        };
        check("Drive peg 2", 100.0, &["Drive peg 2"]);
        check("  Drive   peg ", 100.0, &["Drive peg"]);
        check("Drive\npeg\n\n2", 100.0, &["Drive", "peg", "", "2"]);
        check("", 100.0, &[]);
        // Room for the length alone: its first figure would have fitted in the line before.
        let room = width("3′ 6 7⁄8″", Style::BODY) + 0.1;
        assert!(width("Rise 3′", Style::BODY) < room);
        check("Rise 3′ 6 7⁄8″ long", room, &["Rise", "3′ 6 7⁄8″", "long"]);
        check("A chord of 4.20 m.", 26.0, &["A chord of", "4.20 m."]);
        // Never an endless search, and nothing is lost.
        check("peg", 0.0, &["p", "e", "g"]);
        check("peg", f64::NAN, &["p", "e", "g"]);
    }

    /// Every line fits and no letter is lost, whatever the width.
    #[test]
    fn lines_fit_and_lose_nothing() {
        let words = "Hook the tape on the nail at the swing point, pull 10′ 4 1⁄2″ and scratch; 3.16 m from \
                     Llanfairpwllgwyngyllgogerychwyrndrobwllllantysiliogogogoch to peg 12 is enough.";
        let letters = |text: &str| {
            text.chars()
                .filter(|letter| *letter != ' ')
                .collect::<String>()
        };
        for across in 8..120 {
            let across = f64::from(across);
            let lines = wrap(words, Style::BODY, across);
            assert_eq!(letters(&lines.concat()), letters(words), "{across}");
            for line in lines {
                assert!(
                    width(&line, Style::BODY) <= across && line == line.trim(),
                    "{across} {line:?}"
                );
            }
        }
    }

    #[test]
    fn fitted() {
        let (words, style) = fit("Quince Yard", Style::HEADING, 100.0);
        assert_eq!((words.as_str(), style), ("Quince Yard", Style::HEADING));
        let (words, style) = fit(
            "Quince Yard, the way to the potting shed",
            Style::HEADING,
            100.0,
        );
        assert!(words.ends_with("shed") && style.height < 5.0 && width(&words, style) <= 100.0);
        let (words, style) = fit(&"Quince Yard ".repeat(20), Style::HEADING, 100.0);
        assert!(
            words.ends_with('…') && width(&words, style) <= 100.0 && width(&words, style) > 90.0
        );
        assert_eq!(fit("Quince", Style::HEADING, 0.0).0, "");
    }

    /// Anchors put the named point at the place, at every angle.
    #[test]
    fn anchors() {
        let at = Pos::new(50.0, 60.0);
        let text = |anchor, angle| {
            Text::new(at, "HHHH", Style::LARGE)
                .anchored(anchor)
                .turned(angle)
        };
        let ink = Ink::from(text(Anchor::CENTRE, 0.0)).bounds().unwrap();
        assert!(ink.middle().distance(at) < 1e-6, "{:?}", ink.middle());
        let ink = Ink::from(text(Anchor::TOP, 0.0)).bounds().unwrap();
        approx::assert_abs_diff_eq!(ink.head(), at.y, epsilon = 1e-9);
        for angle in [0.0, 0.4, 1.6, 3.0, -2.0] {
            let level = corners(&text(Anchor::MIDDLE, 0.0)).unwrap();
            let turned = corners(&text(Anchor::MIDDLE, angle)).unwrap();
            for (corner, expected) in turned.iter().zip(level) {
                assert!(
                    corner.distance(expected.turned(at, angle)) < 1e-9,
                    "{angle}"
                );
            }
        }
        assert!(corners(&Text::new(at, "  ", Style::BODY)).is_none());
    }
}
