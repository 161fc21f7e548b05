//! Writes a picture as SVG: the one file that knows its elements and their y axis, which points down.
//!
//! One piece of ink is one element, and an arc stays an arc. Words are text that can be searched and
//! copied, set in the sheet's type face where it is at hand and in any plain one where it is not, and
//! spread to the very length they were given room for. The same picture gives the same bytes.

use std::f64::consts::PI;
use std::fmt::Write;

use crate::ink::{Ink, Pos, Step, Text};
use crate::lettering;
use crate::pen::{Pen, Tone, Weight};
use crate::picture::{Picture, PictureError};

/// The family of [`lettering::REGULAR`], then any without serifs.
const FAMILY: &str = "Inter, sans-serif";

/// An arc is written in pieces of at most so much, radians: between two points that are not nearly
/// opposite it is one arc and no other.
const ARC_PIECE: f64 = 0.75 * PI;

/// The SVG of a picture, in millimetres.
///
/// # Errors
/// [`PictureError::NotANumber`] when some ink has no place; [`PictureError::Missing`] as for a sheet,
/// since what a reader's type face would put in its stead has another length.
pub fn svg(picture: &Picture) -> Result<String, PictureError> {
    picture.check()?;
    let whole = picture.whole;
    let (width, height) = (number(whole.width), number(whole.height));
    let mut writer = Writer {
        out: String::new(),
        head: whole.height,
        windows: 0,
    };
    writer.line(&format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" viewBox=\"0 0 {width} {height}\" role=\"img\">"
    ));
    writer.line(&format!("<title>{}</title>", escaped(&picture.title)));
    if !picture.description.is_empty() {
        writer.line(&format!("<desc>{}</desc>", escaped(&picture.description)));
    }
    let paper = shade(Tone::White);
    writer.line(&format!(
        "<rect width=\"{width}\" height=\"{height}\" fill=\"{paper}\"/>"
    ));
    // Butt ends keep lengths true; round joints keep ink within half a width of its line.
    writer.line(&format!(
        "<g stroke-linecap=\"butt\" stroke-linejoin=\"round\" fill-rule=\"evenodd\" font-family=\"{FAMILY}\">"
    ));
    writer.inks(&picture.inks);
    writer.line("</g>");
    writer.line("</svg>");
    Ok(writer.out)
}

struct Writer {
    out: String,
    /// Height of the picture, millimetres: SVG counts down from it.
    head: f64,
    /// How many windows there are so far, to tell them apart.
    windows: usize,
}

impl Writer {
    fn line(&mut self, line: &str) {
        self.out.push_str(line);
        self.out.push('\n');
    }

    fn inks(&mut self, inks: &[Ink]) {
        for ink in inks {
            self.ink(ink);
        }
    }

    fn ink(&mut self, ink: &Ink) {
        match ink {
            Ink::Line { from, to, pen } => {
                let [x1, y1] = self.place(*from);
                let [x2, y2] = self.place(*to);
                let look = look(Some(*pen), None);
                self.line(&format!(
                    "<line x1=\"{x1}\" y1=\"{y1}\" x2=\"{x2}\" y2=\"{y2}\"{look}/>"
                ));
            }
            Ink::Arc {
                centre,
                radius,
                start,
                sweep,
                pen,
            } => {
                let step = Step::Round {
                    centre: *centre,
                    sweep: *sweep,
                };
                let way = self.way(centre.toward(*start, *radius), &[step], false);
                self.path(&way, Some(*pen), None);
            }
            Ink::Path {
                from,
                steps,
                closed,
                pen,
                fill,
            } => {
                let way = self.way(*from, steps, *closed);
                self.path(&way, *pen, *fill);
            }
            Ink::Rect { frame, pen, fill } => {
                let [x, y] = self.place(Pos::new(frame.left(), frame.head()));
                let (width, height) = (number(frame.width), number(frame.height));
                let look = look(*pen, *fill);
                self.line(&format!(
                    "<rect x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\"{look}/>"
                ));
            }
            Ink::Circle {
                centre,
                radius,
                pen,
                fill,
            } => {
                let [x, y] = self.place(*centre);
                let (r, look) = (number(*radius), look(*pen, *fill));
                self.line(&format!("<circle cx=\"{x}\" cy=\"{y}\" r=\"{r}\"{look}/>"));
            }
            Ink::Text(text) => self.text(text),
            Ink::Through { window, inks } => {
                self.windows += 1;
                let name = self.windows;
                let [x, y] = self.place(Pos::new(window.left(), window.head()));
                let (width, height) = (number(window.width), number(window.height));
                self.line(&format!(
                    "<clipPath id=\"window-{name}\"><rect x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\"/></clipPath>"
                ));
                self.line(&format!("<g clip-path=\"url(#window-{name})\">"));
                self.inks(inks);
                self.line("</g>");
            }
        }
    }

    fn path(&mut self, way: &str, pen: Option<Pen>, fill: Option<Tone>) {
        let look = look(pen, fill);
        self.line(&format!("<path d=\"{way}\"{look}/>"));
    }

    fn text(&mut self, text: &Text) {
        let words = text.words.trim_end();
        if words.is_empty() {
            return;
        }
        let base = lettering::base(text);
        let [x, y] = self.place(base);
        let size = number(lettering::size(text.style));
        let long = number(lettering::width(words, text.style));
        let weight = match text.style.weight {
            Weight::Regular => "",
            Weight::SemiBold => " font-weight=\"600\"",
        };
        let turned = if text.angle.abs() > f64::EPSILON {
            let degrees = number(-geometry::angle::to_degrees(text.angle));
            format!(" transform=\"rotate({degrees} {x} {y})\"")
        } else {
            String::new()
        };
        let (fill, words) = (shade(text.style.tone), escaped(words));
        self.line(&format!(
            "<text x=\"{x}\" y=\"{y}\" font-size=\"{size}\"{weight} textLength=\"{long}\" fill=\"{fill}\"{turned}>{words}</text>"
        ));
    }

    /// Lines and arcs in the letters of a path.
    fn way(&self, from: Pos, steps: &[Step], closed: bool) -> String {
        let [x, y] = self.place(from);
        let mut way = format!("M{x} {y}");
        let mut at = from;
        for step in steps {
            match step {
                Step::To(to) => {
                    let [x, y] = self.place(*to);
                    let _ = write!(way, "L{x} {y}");
                }
                Step::Round { centre, sweep } => {
                    let radius = number(centre.distance(at));
                    // Counter-clockwise with y up is the way of falling angles with y down.
                    let flag = u8::from(*sweep < 0.0);
                    let pieces = (sweep.abs() / ARC_PIECE).ceil().max(1.0);
                    let mut piece = 1.0;
                    while piece <= pieces {
                        let [x, y] = self.place(at.turned(*centre, sweep * piece / pieces));
                        let _ = write!(way, "A{radius} {radius} 0 0 {flag} {x} {y}");
                        piece += 1.0;
                    }
                }
            }
            at = step.end(at);
        }
        if closed {
            way.push('Z');
        }
        way
    }

    fn place(&self, at: Pos) -> [String; 2] {
        [number(at.x), number(self.head - at.y)]
    }
}

/// How a piece is drawn: with neither pen nor fill nothing is, where SVG would fill it black.
fn look(pen: Option<Pen>, fill: Option<Tone>) -> String {
    let mut look = match fill {
        Some(tone) => format!(" fill=\"{}\"", shade(tone)),
        None => " fill=\"none\"".to_owned(),
    };
    if let Some(pen) = pen {
        let (tone, width) = (shade(pen.tone), number(pen.width));
        let _ = write!(look, " stroke=\"{tone}\" stroke-width=\"{width}\"");
        let dashes: Vec<String> = pen.pattern().map(number).collect();
        if !dashes.is_empty() {
            let _ = write!(look, " stroke-dasharray=\"{}\"", dashes.join(" "));
        }
    }
    look
}

fn shade(tone: Tone) -> String {
    let level = tone.lightness();
    format!("#{level:02X}{level:02X}{level:02X}")
}

/// Millimetres to a thousandth, or degrees, without noughts at the end.
fn number(figure: f64) -> String {
    let text = format!("{figure:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0" } else { text }.to_owned()
}

/// Words as XML has them.
fn escaped(words: &str) -> String {
    let mut safe = String::with_capacity(words.len());
    for letter in words.chars() {
        match letter {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            // What no XML may hold.
            '\u{fffe}' | '\u{ffff}' => safe.push('\u{fffd}'),
            _ if letter.is_control() => safe.push(' '),
            _ => safe.push(letter),
        }
    }
    safe
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_short() {
        let check = |figure: f64, expected: &str| assert_eq!(number(figure), expected);
        check(12.0, "12");
        check(0.5, "0.5");
        check(-0.0001, "0");
        check(100.0, "100");
        check(1e6 + 0.1234, "1000000.123");
    }

    #[test]
    fn words_break_no_markup() {
        assert_eq!(
            escaped("a<b & \"c\"\u{1}\u{ffff}"),
            "a&lt;b &amp; &quot;c&quot; \u{fffd}"
        );
    }
}
