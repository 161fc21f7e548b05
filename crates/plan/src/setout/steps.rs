//! The set-out in words: numbered steps that a helper can follow who has never seen the plan.

use super::checks::allowed;
use super::{BaseLine, BendSetOut, RouteSetOut, StraightSetOut, SwingVerdict, Taped};
use crate::units::{Ruler, Units};

/// How lengths are spoken: in the plan's units, or in both systems side by side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Voice {
    /// The plan's ruler.
    pub ruler: Ruler,
    /// Whether the other system stands beside it in brackets.
    pub both: bool,
}

/// One thing to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// What to do, in whole sentences.
    pub text: String,
    /// What it must read after it, if it is checked there.
    pub check: Option<String>,
}

impl Step {
    fn new(text: String) -> Self {
        Self { text, check: None }
    }

    fn checked(text: String, check: String) -> Self {
        Self {
            text,
            check: Some(check),
        }
    }
}

impl Voice {
    /// A taped distance as it is to be read off the tape.
    ///
    /// Beside the other system each is rounded from the drawing itself, so either tape serves.
    #[must_use]
    pub fn taped(&self, taped: &Taped) -> String {
        self.length(taped.exact)
    }

    /// A length as it is to be read off the tape.
    #[must_use]
    pub fn length(&self, metres: f64) -> String {
        if self.both {
            self.ruler.both(metres)
        } else {
            self.ruler.text(metres)
        }
    }

    /// A small length finer than any tape: tenths of a millimetre, or hundredths of an inch.
    #[must_use]
    pub fn fine(&self, metres: f64) -> String {
        fine(metres, self.ruler.units)
    }
}

/// A length that need not be exact, in whole centimetres or inches.
pub(super) fn roughly(metres: f64, voice: &Voice) -> String {
    match voice.ruler.units {
        Units::Metric => format!("{:.0} cm", metres * 100.0),
        Units::FeetInches => format!("{:.0} in", metres / 0.0254),
    }
}

/// A length finer than any tape shows, without its sign: tenths of a millimetre, or hundredths of an
/// inch.
pub(super) fn fine(metres: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{:.1} mm", metres.abs() * 1000.0),
        Units::FeetInches => format!("{:.2} in", metres.abs() / 0.0254),
    }
}

pub(super) fn side(left: bool) -> &'static str {
    if left { "left" } else { "right" }
}

impl BaseLine {
    /// How the base line is laid, what it must read, and how pegs are set from it.
    #[must_use]
    pub fn steps(&self, voice: &Voice) -> Vec<Step> {
        let (start, end) = (&self.from_name, &self.to_name);
        vec![
            Step::new(
                "Measure from the middle of a post or peg, at the ground, best from a nail in its head; where you can only hook on its face, read half its thickness less. On a slope hold the tape level and plumb down, in short pulls.".into(),
            ),
            Step::checked(
                format!(
                    "The base line: stretch a string from {start} to {end} and lay a tape along it, its zero at {start}. Leave both until the last peg stands; keep people off the string."
                ),
                format!(
                    "{end} must read {}. If not, stop: the marks are not where the plan has them",
                    self.check(voice)
                ),
            ),
            Step::new(
                "Each peg: go along the string by the first figure of the table, then square off it by the second, left or right as one looks along the string. A minus along lies behind the start, more than its length beyond the end.".into(),
            ),
            Step::checked(
                format!(
                    "Check each peg by both ties, straight from {start} and from {end}. Where something is in the way, or the square is long or runs past an end of the string, set the peg where its two ties cross instead."
                ),
                "a tie may be out by 5 mm and 1 mm for each metre, no more: if it is, set that peg again".into(),
            ),
        ]
    }

    /// What the base line must read, from the least to the most.
    #[must_use]
    pub fn check(&self, voice: &Voice) -> String {
        range(&allowed(self.length.exact, &voice.ruler), voice)
    }
}

/// The range a length must read in, as spoken.
fn range([from, to]: &[f64; 2], voice: &Voice) -> String {
    format!("{} to {}", voice.length(*from), voice.length(*to))
}

impl RouteSetOut {
    /// The order of work over the whole path.
    #[must_use]
    pub fn order_of_work(&self, voice: &Voice) -> Vec<Step> {
        let mut steps = self.base.steps(voice);
        let pegs = self.pegs.len();
        steps.push(Step::new(format!(
            "Drive pegs 1 to {pegs} and write the number on each; at a wall or in a gateway a nail or a mark of paint will do."
        )));
        if !self.straights.is_empty() {
            steps.push(Step::new(format!(
                "Straights: a string from peg to peg is the centre line; the edges lie {} to each side, square.",
                voice.taped(&self.half_width)
            )));
        }
        if !self.bends.is_empty() {
            steps.push(Step::new(
                "Bends: their pages follow in walking order. Swing each, or use its offsets, not both. Left and right are always as one walks from peg 1.".into(),
            ));
        }
        steps.push(Step::new(
            "Stand back and walk it. Only when every check of every page is fine, dig.".into(),
        ));
        steps
    }
}

impl StraightSetOut {
    /// The straight in one line.
    #[must_use]
    pub fn words(&self, voice: &Voice) -> String {
        format!(
            "peg {} to peg {}: {}",
            self.pegs.0,
            self.pegs.1,
            voice.taped(&self.length)
        )
    }
}

impl BendSetOut {
    /// How to swing the bend from its swing point.
    #[must_use]
    pub fn swing_steps(&self, voice: &Voice) -> Vec<Step> {
        let (first, last) = self.pegs;
        let name = format!("S{}", self.number);
        let radius = voice.taped(&self.radius);
        let mut steps = vec![self.chord_step(voice)];
        if self.squares_off() {
            steps.push(self.square_off(&name, voice));
        } else {
            steps.extend(self.two_strings(&name, &radius, voice));
        }
        steps.push(Step::checked(
            format!("Hook the tape on the nail of {name}. Use a tape or a wire, not a string that stretches."),
            format!("peg {first} and peg {last} must both read {radius}"),
        ));
        let apex_side = side(self.apex_on_left());
        steps.push(Step::checked(
            format!(
                "Keep the tape taut and level and walk from peg {first} to peg {last}: mark the centre line every step at {radius}."
            ),
            format!(
                "mark the middle of the chord, {} from peg {first}, and square off it to the {apex_side}: the line must lie {} away, there is the apex",
                voice.taped(&self.half_chord),
                voice.taped(&self.rise)
            ),
        ));
        let inside = side(self.arc.turns_left());
        let outside = side(self.apex_on_left());
        steps.push(Step::checked(
            match &self.inner {
                Some(inner) => format!(
                    "Mark the edges the same way, from the line {name} to peg {first} to the line {name} to peg {last} and no farther: the inside edge, on the {inside}, at {}, the outside edge, on the {outside}, at {}.",
                    voice.taped(inner),
                    voice.taped(&self.outer)
                ),
                None => format!(
                    "Mark the outside edge, on the {outside}, at {}. The inside edge has no radius: this bend is too tight for the width.",
                    voice.taped(&self.outer)
                ),
            },
            format!("edge to edge must read {}", voice.length(self.width)),
        ));
        steps
    }

    /// How to set the bend out by offsets from its chord.
    #[must_use]
    pub fn offset_steps(&self, voice: &Voice) -> Vec<Step> {
        let apex_side = side(self.apex_on_left());
        let other_side = side(self.arc.turns_left());
        let mut steps = vec![self.chord_step(voice)];
        if self.offsets.len() > 1 {
            let half = self.bend.half();
            steps.push(Step::checked(
                format!(
                    "This bend goes round half a circle or more: set the apex first. From the middle of the string, {} along, square off to the {apex_side} and go {}. Then work from the two strings to the apex as below.",
                    voice.taped(&self.half_chord),
                    voice.taped(&self.rise)
                ),
                format!(
                    "both pegs to the apex must read {}",
                    voice.length(half.chord())
                ),
            ));
        }
        steps.push(Step::new(
            "Lay the tape along the string with its zero at the start named above the table. All distances along run from that one zero.".into(),
        ));
        steps.push(Step::checked(
            format!(
                "At each distance square off to the {apex_side} and set a flag at each offset of the table. A minus goes to the {other_side} of the string."
            ),
            match &self.offsets[..] {
                [_] => format!(
                    "at {}, the middle, the flag of the centre line must stand {} off",
                    voice.taped(&self.half_chord),
                    voice.taped(&self.rise)
                ),
                _ => "the longest offset of the centre line must stand at the middle of the string".to_owned(),
            },
        ));
        steps.push(Step::new(
            "Bend a batten or a hose round the flags and look along it: a flag that stands out is measured again.".into(),
        ));
        steps
    }

    fn chord_step(&self, voice: &Voice) -> Step {
        let (first, last) = self.pegs;
        Step::checked(
            format!(
                "Stretch a string from peg {first} to peg {last}: this is the chord, {}.",
                voice.taped(&self.chord)
            ),
            format!(
                "it must read {}; if not, measure both pegs again",
                range(&allowed(self.chord.exact, &voice.ruler), voice)
            ),
        )
    }

    fn two_strings(&self, name: &str, radius: &str, voice: &Voice) -> Vec<Step> {
        let (first, last) = self.pegs;
        let where_to = self.where_to_scratch(voice);
        vec![
            Step::new(format!(
                "Hook the tape on peg {first}, hold it at {radius} and scratch an arc on the ground {where_to}. Make the scratch about {} long.",
                roughly(self.scratch, voice)
            )),
            Step::new(format!(
                "Do the same from peg {last}. Where the two scratches cross drive the swing point peg {name}."
            )),
        ]
    }

    fn where_to_scratch(&self, voice: &Voice) -> String {
        let swing_side = side(self.arc.turns_left());
        let apex_side = side(self.apex_on_left());
        let behind = voice.length(self.apothem.exact.abs());
        if self.apothem.exact < 0.0 {
            format!(
                "on the {apex_side} of the string, the side of the apex, about {behind} square off its middle"
            )
        } else {
            format!("on the {swing_side} of the string, about {behind} square off its middle")
        }
    }

    fn square_off(&self, name: &str, voice: &Voice) -> Step {
        let middle = voice.taped(&self.half_chord);
        if self.apothem.tape.abs() <= 0.0 {
            return Step::new(format!(
                "Drive the swing point peg {name} at the middle of the string, {middle} from peg {}.",
                self.pegs.0
            ));
        }
        let to = side(if self.apothem.exact < 0.0 {
            self.apex_on_left()
        } else {
            self.arc.turns_left()
        });
        Step::new(format!(
            "Mark the middle of the string, {middle} from peg {}. Square off it to the {to} and go {}: there drive the swing point peg {name}.",
            self.pegs.0,
            voice.length(self.apothem.exact.abs())
        ))
    }

    /// In one sentence, whether this bend can be swung.
    #[must_use]
    pub fn swing_words(&self, voice: &Voice) -> String {
        let string = voice.taped(&self.outer);
        match self.swing {
            SwingVerdict::Workable => format!("Swing it: the longest string is {string}."),
            SwingVerdict::Awkward => format!(
                "The longest string is {string}: swing it on a still day with a helper holding the tape up, or use the offsets."
            ),
            SwingVerdict::NotWorkable => format!(
                "The longest string would be {string}, too long to swing well: use the offsets from the chord."
            ),
        }
    }

    /// In one sentence, what rounding the string to the tape does; `None` where that is nothing to
    /// speak of.
    #[must_use]
    pub fn rounding_words(&self, voice: &Voice) -> Option<String> {
        let way = |metres: f64| if metres < 0.0 { "towards" } else { "away from" };
        let longer = if self.rounding.string < 0.0 {
            "shorter"
        } else {
            "longer"
        };
        const SHOWN: f64 = 5e-5; // less is 0.0 mm and 0.00 in
        if self.rounding.string.abs() < SHOWN {
            return None;
        }
        if self.rounding.apex.abs() < SHOWN {
            return Some(format!(
                "Rounding: the string read off the tape is {} {longer} than drawn; with the end pegs kept the apex stays where it is.",
                voice.fine(self.rounding.string)
            ));
        }
        Some(format!(
            "Rounding: the string read off the tape is {} {longer} than drawn; with the end pegs kept the apex moves {} {} the chord.",
            voice.fine(self.rounding.string),
            voice.fine(self.rounding.apex),
            way(self.rounding.apex)
        ))
    }
}
