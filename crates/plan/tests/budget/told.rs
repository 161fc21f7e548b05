//! Reads the printed sentences of a course back into what hands do; it knows the words alone.

use std::collections::BTreeMap;

use plan::setout::{Allowances, Course, Crew, Manner, Voice};
use plan::units::Ruler;

/// What is read from one step. Spots are places in a list of names; lengths in metres.
#[derive(Clone, Debug)]
pub(crate) struct Told {
    pub(crate) act: Act,
    /// What must be read afterwards, from where to where.
    pub(crate) checks: Vec<[usize; 2]>,
}

#[derive(Clone, Debug)]
pub(crate) enum Act {
    Nothing,
    Along {
        string: [usize; 2],
        at: f64,
        make: usize,
    },
    Square {
        string: [usize; 2],
        at: f64,
        off: f64,
        left: bool,
        angle: Angle,
        make: usize,
    },
    Cross {
        from: [usize; 2],
        pulls: [f64; 2],
        left: bool,
        scratched: bool,
        make: usize,
    },
    Strike {
        about: usize,
        radius: f64,
        line: String,
    },
}

impl Act {
    /// One of its figures, in the order in which they are told.
    pub(crate) fn figure(&mut self, nth: usize) -> &mut f64 {
        match (self, nth) {
            (Self::Along { at, .. } | Self::Square { at, .. }, 0) => at,
            (Self::Square { off, .. }, 1) => off,
            (Self::Cross { pulls, .. }, 0 | 1) => &mut pulls[nth],
            (Self::Strike { radius, .. }, 0) => radius,
            (act, nth) => panic!("{act:?} has no figure {nth}"),
        }
    }
}

#[derive(Clone, Debug)]
pub(crate) enum Angle {
    Square,
    Triangle { sides: [f64; 3], back: bool },
    Pulls { each_way: f64, pull: f64 },
}

/// Names of spots, each with its place in a list.
#[derive(Default)]
pub(crate) struct Names(pub(crate) BTreeMap<String, usize>);

impl Names {
    pub(crate) fn place(&mut self, name: &str) -> usize {
        let next = self.0.len();
        *self.0.entry(name.to_owned()).or_insert(next)
    }
}

/// Every step of a course as two people are told it.
pub(crate) fn told(course: &Course, ruler: Ruler, names: &mut Names) -> Vec<Told> {
    let manner = Manner {
        voice: Voice { ruler, both: false },
        crew: Crew::Two,
        allowances: Allowances::default(),
        tape: 30.0,
    };
    let steps = course
        .deeds
        .iter()
        .map(|deed| deed.words(&manner, &course.spots));
    steps
        .map(|step| Told {
            act: act(&step.text, names),
            checks: checks(step.check.as_deref().unwrap_or_default(), names),
        })
        .collect()
}

fn checks(text: &str, names: &mut Names) -> Vec<[usize; 2]> {
    let checks = text.split("; ").filter(|check| !check.is_empty());
    checks
        .map(|check| {
            let (between, _) = check.split_once(" must read ").unwrap();
            let (from, to) = between.split_once(" to ").unwrap();
            [names.place(from), names.place(to)]
        })
        .collect()
}

fn act(text: &str, names: &mut Names) -> Act {
    if text.starts_with("Stretch a string") || text.starts_with("Check the whole") {
        Act::Nothing
    } else if text.contains("scratch an arc") {
        let (one, other) = spots_after(text, "as you look from ", ", about ", names);
        let mut pulls = text.split(" and with ").skip(1).map(length);
        Act::Cross {
            from: [one, other],
            pulls: [pulls.next().unwrap(), pulls.next().unwrap()],
            left: text.contains("on the left"),
            scratched: true,
            make: names.place(made(text)),
        }
    } else if text.contains("with a second tape") {
        let (one, other) = spots_after(text, "as you look from ", ", the first at ", names);
        Act::Cross {
            from: [one, other],
            pulls: [
                length(after(text, "the first at ")),
                length(after(text, "the second at ")),
            ],
            left: text.contains("on the left"),
            scratched: false,
            make: names.place(made(text)),
        }
    } else if text.contains(", from the line ") {
        let (about, _) = after(text, ", from the line ").split_once(" to ").unwrap();
        let (line, radius) = after(text, ": mark the ")
            .split_once(" every step at ")
            .unwrap();
        Act::Strike {
            about: names.place(about),
            radius: length(radius),
            line: line.to_owned(),
        }
    } else {
        along(text, names)
    }
}

fn along(text: &str, names: &mut Names) -> Act {
    let (start, rest) = after(text, "zero at ").split_once(" and lay it ").unwrap();
    let (way, rest) = rest.split_once(": at ").unwrap();
    let sign = if way.starts_with("behind") { -1.0 } else { 1.0 };
    let end = ["straight to ", "straight over ", "in line with "]
        .into_iter()
        .find_map(|words| way.split_once(words))
        .unwrap()
        .1;
    let end = end.strip_suffix(" and on").unwrap_or(end);
    let string = [names.place(start), names.place(end)];
    let at = sign * length(rest);
    let Some((_, square)) = text.split_once("Go square off to the ") else {
        return Act::Along {
            string,
            at,
            make: names.place(made(text)),
        };
    };
    Act::Square {
        string,
        at,
        off: length(after(square, ": at ")),
        left: square.starts_with("left"),
        angle: angle(square),
        make: names.place(made(square)),
    }
}

fn angle(text: &str) -> Angle {
    if text.contains("with a builder's square") {
        Angle::Square
    } else if let Some((_, pulls)) = text.split_once("two equal pulls: mark ") {
        Angle::Pulls {
            each_way: length(pulls),
            pull: length(after(pulls, "goes through where ")),
        }
    } else {
        let triangle = after(text, "with 3-4-5: mark ");
        let sides = [
            triangle,
            after(triangle, "goes through where "),
            after(triangle, " meets "),
        ];
        Angle::Triangle {
            sides: sides.map(length),
            back: triangle.contains("on the line back from there"),
        }
    }
}

/// What is put in its place, by the last word said of it.
fn made(text: &str) -> &str {
    let named = [
        "drive the apex peg ",
        "drive the swing point peg ",
        "set flag ",
        "drive nail ",
    ];
    let rest = named
        .into_iter()
        .find_map(|words| text.split_once(words))
        .unwrap_or_else(|| panic!("nothing is made: {text}"))
        .1;
    rest.split(' ').next().unwrap().trim_end_matches('.')
}

fn after<'a>(text: &'a str, words: &str) -> &'a str {
    match text.split_once(words) {
        Some((_, rest)) => rest,
        None => panic!("no '{words}' in: {text}"),
    }
}

fn spots_after(text: &str, words: &str, until: &str, names: &mut Names) -> (usize, usize) {
    let (both, _) = after(text, words).split_once(until).unwrap();
    let (one, other) = both.split_once(" to ").unwrap();
    (names.place(one), names.place(other))
}

/// The length a text begins with: `3.160 m`.
fn length(text: &str) -> f64 {
    let number = text.split(' ').next().unwrap();
    number
        .parse()
        .unwrap_or_else(|_| panic!("no length: {text}"))
}
