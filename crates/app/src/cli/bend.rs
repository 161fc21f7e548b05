//! `pegbow bend`: every bend that two figures give, in words or as JSON.

use geometry::{Answer, Figure, bends_from};
use lexopt::{Arg, Parser, ValueExt};
use plan::figures::BendFigures;
use plan::refusal;
use plan::units::{Graduation, Ruler, Units, angle_text, parse_angle, units_named};
use serde::Serialize;

use super::figures::json;
use super::{Words, Wrong, help};

const COMMAND: &str = "bend";

pub(super) fn run(parser: Parser, words: &mut Words<'_>) -> Result<u8, Wrong> {
    let Some(typed) = Typed::read(parser)? else {
        return words.answer(help::BEND);
    };
    let ruler = typed.ruler()?;
    let [first, second] = &typed.figures[..] else {
        return Err(typed.not_two());
    };
    let (first, second) = (first.given(&ruler)?, second.given(&ruler)?);
    let answers = bends_from(first, second)
        .map_err(|error| Wrong::new(ascii(&refusal::sentence(&error, &ruler))))?;
    if typed.json {
        return words.answer(&json(&Solutions::of(&answers))?);
    }
    let mut text = String::new();
    for figure in &typed.figures {
        text += &figure.echo(&ruler)?;
    }
    text += &in_words(&answers, [first, second], &ruler);
    words.answer(&ascii(&text))
}

/// What stands on the command line.
#[derive(Default)]
struct Typed {
    figures: Vec<TypedFigure>,
    units: Option<Units>,
    graduation: Option<Graduation>,
    json: bool,
}

struct TypedFigure {
    figure: Figure,
    text: String,
}

impl Typed {
    /// Reads the rest of the command line; `None` when help was asked for.
    fn read(mut parser: Parser) -> Result<Option<Self>, Wrong> {
        let usage = |error| Wrong::usage(COMMAND, &error);
        let mut typed = Self::default();
        while let Some(arg) = parser.next().map_err(usage)? {
            let name = match arg {
                Arg::Long("help") | Arg::Short('h') => return Ok(None),
                Arg::Long("json") => {
                    typed.json = true;
                    continue;
                }
                Arg::Long(name) if name == "units" || name == "graduation" => name.to_owned(),
                Arg::Long(name) if Figure::ALL.into_iter().any(|f| option(f) == name) => {
                    name.to_owned()
                }
                other => return Err(usage(other.unexpected())),
            };
            let text = parser.value().and_then(ValueExt::string).map_err(usage)?;
            match Figure::ALL.into_iter().find(|f| option(*f) == name) {
                Some(figure) => typed.figures.push(TypedFigure { figure, text }),
                None if name == "units" => typed.units = Some(units(&text)?),
                None => typed.graduation = Some(graduation(&text)?),
            }
        }
        Ok(Some(typed))
    }

    /// How lengths are read and written: as asked for, else as the first length says that names its
    /// units, else metric.
    fn ruler(&self) -> Result<Ruler, Wrong> {
        let lengths = self.figures.iter().filter(|typed| !typed.figure.is_angle());
        let units = self
            .units
            .or(self.graduation.map(Graduation::units))
            .or_else(|| lengths.filter_map(|typed| units_named(&typed.text)).next())
            .unwrap_or(Units::Metric);
        let graduation = self
            .graduation
            .unwrap_or_else(|| Graduation::default_for(units));
        if graduation.units() != units {
            return Err(Wrong::new(format!(
                "--graduation {}: this is no division of a tape in {}: leave out --units, or give one of {}",
                graduation.label(),
                units.label(),
                labels(Graduation::for_units(units))
            )));
        }
        Ok(Ruler { units, graduation })
    }

    fn not_two(&self) -> Wrong {
        let given: Vec<String> = self.figures.iter().map(TypedFigure::shown).collect();
        let here = match given.len() {
            0 => "here is none".to_owned(),
            1 => format!("here is only {}", given[0]),
            _ => format!("here are {}", given.join(", ")),
        };
        Wrong::see(
            COMMAND,
            &format!(
                "a bend is fixed by two of its figures, {here}: give two, such as --chord 4m --rise 80cm"
            ),
        )
    }
}

impl TypedFigure {
    /// The figure in metres or radians.
    fn given(&self, ruler: &Ruler) -> Result<(Figure, f64), Wrong> {
        let value = if self.figure.is_angle() {
            parse_angle(&self.text)
        } else {
            ruler.parse(&self.text)
        };
        let value =
            value.map_err(|error| Wrong::new(format!("--{}: {error}", option(self.figure))))?;
        Ok((self.figure, value))
    }

    /// One line that says how it was read.
    fn echo(&self, ruler: &Ruler) -> Result<String, Wrong> {
        let (figure, value) = self.given(ruler)?;
        let read = if figure.is_angle() {
            format!("read as {}", angle_text(value))
        } else {
            ruler.echo(value, &self.text)
        };
        Ok(format!("{figure} {}: {read}\n", self.text.trim()))
    }

    fn shown(&self) -> String {
        format!("--{} {}", option(self.figure), self.text)
    }
}

/// The option a figure is given by.
fn option(figure: Figure) -> &'static str {
    match figure {
        Figure::Chord => "chord",
        Figure::Rise => "rise",
        Figure::Radius => "radius",
        Figure::ArcLength => "arc",
        Figure::Sweep => "sweep",
        Figure::Apothem => "apothem",
        Figure::TangentLength => "tangent",
        Figure::ExternalDistance => "external",
    }
}

fn units(text: &str) -> Result<Units, Wrong> {
    match text.trim().to_lowercase().as_str() {
        "metric" => Ok(Units::Metric),
        "feet" => Ok(Units::FeetInches),
        _ => Err(Wrong::new(format!("--units {text}: give metric or feet"))),
    }
}

/// A graduation by its label, spaces left out or not.
fn graduation(text: &str) -> Result<Graduation, Wrong> {
    let plain = |text: &str| text.replace(char::is_whitespace, "").to_lowercase();
    Graduation::ALL
        .into_iter()
        .find(|graduation| plain(graduation.label()) == plain(text))
        .ok_or_else(|| {
            Wrong::new(format!(
                "--graduation {text}: give one of {}",
                labels(&Graduation::ALL)
            ))
        })
}

fn labels(graduations: &[Graduation]) -> String {
    let labels: Vec<&str> = graduations.iter().map(|g| g.label()).collect();
    labels.join(", ")
}

/// The answer for scripts.
#[derive(Serialize)]
struct Solutions {
    solutions: Vec<BendFigures>,
}

impl Solutions {
    fn of(answers: &[Answer]) -> Self {
        Self {
            solutions: answers
                .iter()
                .map(|answer| BendFigures::from(&answer.bend))
                .collect(),
        }
    }
}

/// The answer for people.
fn in_words(answers: &[Answer], given: [(Figure, f64); 2], ruler: &Ruler) -> String {
    let [first, second] = given.map(|(figure, _)| figure);
    let mut text = match answers.len() {
        1 => format!("\nOne bend has this {first} and this {second}.\n"),
        _ => format!(
            "\nTwo bends have this {first} and this {second}. Choose by what else you know of yours.\n"
        ),
    };
    for (i, answer) in answers.iter().enumerate() {
        if answers.len() > 1 {
            let turns = if i == 0 { "less" } else { "more" };
            text += &format!(
                "\nBend {} of {}, the one that turns {turns}\n",
                i + 1,
                answers.len()
            );
        } else {
            text.push('\n');
        }
        text += &table(answer, ruler);
        if answer.is_ill_conditioned() {
            text += &care(answer, given, ruler);
        }
    }
    text
}

fn table(answer: &Answer, ruler: &Ruler) -> String {
    let bend = &answer.bend;
    let row = |name: &str, tape: &str, exact: &str| {
        let line = format!("{name:<20}{:<19} {}", ascii(tape), ascii(exact));
        line.trim_end().to_owned() + "\n"
    };
    let head = format!("on a {} tape", ruler.graduation.label());
    let mut text = row("", &head, "as computed");
    for figure in Figure::ALL {
        let name = figure.to_string();
        text += &match bend.figure(figure) {
            Some(angle) if figure.is_angle() => row(&name, &angle_text(angle), &radians(angle)),
            Some(length) => row(&name, &ruler.plain(length), &ruler.exact(length)),
            None => row(
                &name,
                "none",
                "from half a circle on the tangents do not meet",
            ),
        };
    }
    let area = bend.segment_area();
    text += &row("segment area", &ruler.area(area), &ruler.exact_area(area));
    text
}

/// Seven figures of an angle, however flat the bend.
fn radians(angle: f64) -> String {
    if angle < 1e-3 {
        format!("{angle:.6e} rad")
    } else {
        format!("{angle:.6} rad")
    }
}

/// What a small slip does, for answers that hang on one.
fn care(answer: &Answer, given: [(Figure, f64); 2], ruler: &Ruler) -> String {
    let moves = [answer.radius_per_first, answer.radius_per_second];
    let slips: Vec<String> = given
        .iter()
        .zip(moves)
        .map(|((figure, _), per_unit)| {
            let (slip, said) = if figure.is_angle() {
                let tenth = geometry::angle::from_degrees(0.1);
                (tenth, "0.1 deg".to_owned())
            } else {
                (
                    ruler.graduation.metres(),
                    ruler.graduation.label().to_owned(),
                )
            };
            let moved = (per_unit * slip).abs();
            if moved.is_finite() {
                format!(
                    "{said} in the {figure} moves the radius by {}",
                    ruler.exact(moved)
                )
            } else {
                format!("{said} in the {figure} moves it without limit")
            }
        })
        .collect();
    format!(
        "Care: this answer hangs on small slips: {}, and {:.0} of the digits given are lost. Measure another pair if you can, such as chord and rise.\n",
        slips.join(", "),
        Answer::ALL_DIGITS - answer.digits
    )
}

/// Plain letters for the terminal; what this writes is read back when it is typed.
fn ascii(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '′' => plain.push('\''),
            '″' => plain.push('"'),
            '−' => plain.push('-'),
            '⁄' => plain.push('/'),
            '°' => plain.push_str(" deg"),
            _ => plain.push(c),
        }
    }
    plain.replace(" m²", " sq m").replace(" ft²", " sq ft")
}
