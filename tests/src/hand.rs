//! A hand that does what a sheet says and knows nothing else: marks, words, a tape.
//!
//! It shares no code with what composed the words: sentences are taken apart and done with plane
//! geometry of its own. It can also misread one figure by a little, which tells what rounding may do.

use std::collections::BTreeMap;

use geometry::Point;
use plan::units::{Units, parse_length};

use crate::paper::{Chapter, Part, Table};

/// What is done once.
#[derive(Clone, Debug, PartialEq)]
pub struct Act {
    /// What is done.
    pub does: Doing,
    /// What is put there.
    pub makes: Option<String>,
}

/// The kinds of things that hands do; distances in metres, squares positive to the left.
#[expect(
    missing_docs,
    reason = "spots, lines and pulls are named as on the sheet"
)]
#[derive(Clone, Debug, PartialEq)]
pub enum Doing {
    /// A tape along a line.
    Along { line: [String; 2], at: f64 },
    /// A square off a line.
    Square {
        line: [String; 2],
        at: f64,
        off: f64,
    },
    /// Two tapes crossing, to the left of the line from the first zero to the second or not.
    Cross {
        from: [String; 2],
        pulls: [f64; 2],
        left: bool,
    },
    /// A tape swung from one line through the swing point to another.
    Strike {
        about: String,
        radius: f64,
        between: [String; 2],
        left: bool,
        line: String,
    },
    /// Two battens slid over three spots.
    Slide {
        over: [String; 3],
        arm: f64,
        brace: f64,
        line: String,
    },
}

/// What must be read between two spots, metres.
#[derive(Clone, Debug, PartialEq)]
pub struct Check {
    /// From where to where.
    pub between: [String; 2],
    /// The least and the most.
    pub range: [f64; 2],
}

/// What pages tell, read once.
#[derive(Clone, Debug, Default)]
pub struct Told {
    /// What is done, in order.
    pub acts: Vec<Act>,
    /// What must be read.
    pub checks: Vec<Check>,
    /// All names so far.
    names: Vec<String>,
}

/// What stands and is struck on the ground in the end.
#[derive(Clone, Debug, Default)]
pub struct Ground {
    /// Every spot by its name.
    pub stands: BTreeMap<String, Point>,
    /// Every line: its name, its middle, its radius, and the angles from which to which it is struck.
    pub lines: Vec<Struck>,
    /// By how much each brace is longer than the battens lie apart.
    pub braces: Vec<f64>,
}

/// A line on the ground.
#[derive(Clone, Debug)]
pub struct Struck {
    /// Which line.
    pub line: String,
    /// About what.
    pub centre: Point,
    /// How far from there.
    pub radius: f64,
    /// In which direction from there it begins, and through how much it is struck, positive to the
    /// left.
    pub start: f64,
    /// See above.
    pub sweep: f64,
}

impl Act {
    /// The figures pulled.
    pub fn figures(&mut self) -> Vec<&mut f64> {
        match &mut self.does {
            Doing::Along { at, .. } => vec![at],
            Doing::Square { at, off, .. } => vec![at, off],
            Doing::Cross { pulls, .. } => pulls.iter_mut().collect(),
            Doing::Strike { radius, .. } => vec![radius],
            Doing::Slide { arm, brace, .. } => vec![arm, brace],
        }
    }
}

impl Told {
    /// Before anything is read: these stand.
    #[must_use]
    pub fn given<'a>(names: impl Iterator<Item = &'a String>) -> Self {
        Self {
            names: names.cloned().collect(),
            ..Self::default()
        }
    }

    /// Reads the steps and tables of a chapter.
    ///
    /// # Panics
    /// When it says what this hand does not know.
    pub fn read(&mut self, chapter: &Chapter) {
        let mut like = None;
        let mut count = 0;
        for part in &chapter.parts {
            match part {
                Part::Words(_) => {}
                Part::Step(number, words) => {
                    count += 1;
                    assert_eq!(*number, count, "{}: {words}", chapter.title);
                    like = None;
                    if let Some((_, first)) = words.split_once("each like the first: ") {
                        let mut apart = self.clone();
                        like = apart.act(first);
                        assert!(like.is_some(), "{words}");
                    } else {
                        self.step(words);
                    }
                }
                Part::Table(table) => {
                    if let Some(first) = like.take() {
                        self.table(&first, table);
                    }
                }
            }
        }
    }

    fn step(&mut self, words: &str) {
        if let Some(act) = self.act(words) {
            self.acts.push(act);
        }
        // Sentences end where a space follows: names hold dots of their own.
        for sentence in words.split(". ") {
            if let Some((between, range)) = sentence.split_once(" must read ") {
                let (from, rest) = self.name(between);
                let (to, _) = self.name(rest.strip_prefix(" to ").unwrap_or(rest));
                let (least, rest) = length(range);
                let (most, _) = length(after(rest, "to "));
                self.checks.push(Check {
                    between: [from, to],
                    range: [least, most],
                });
            }
        }
    }

    /// What a step does; nothing where a string is stretched or all is read once more.
    fn act(&mut self, words: &str) -> Option<Act> {
        if words.contains(" scratch an arc ") {
            Some(self.scratch(words))
        } else if words.contains("until they cross") {
            Some(self.cross(words))
        } else if words.contains("walk with it taut") {
            Some(self.strike(words))
        } else if words.contains("Slide the battens") {
            Some(self.slide(words))
        } else if words.contains(" and lay it ") {
            Some(self.along(words))
        } else {
            let nothing_new = [
                "Measure from the middle",
                "Stretch a string",
                "Tie a string",
                "Check the whole",
                "Drive peg 1",
            ];
            let known = nothing_new.iter().any(|start| words.starts_with(start));
            assert!(known, "what is this: {words}");
            None
        }
    }

    /// The name a text begins with, of those that are known, and the rest.
    fn name<'a>(&self, text: &'a str) -> (String, &'a str) {
        self.name_here(text)
            .unwrap_or_else(|| panic!("no such thing stands: {text}"))
    }

    fn name_here<'a>(&self, text: &'a str) -> Option<(String, &'a str)> {
        let begins = |name: &&String| {
            let small = lower(text);
            small
                .strip_prefix(lower(name).as_str())
                .is_some_and(|rest| {
                    !rest.starts_with(|next: char| next.is_ascii_digit() || next == '+')
                })
        };
        let all = self.names.iter().filter(begins);
        let name = all.max_by_key(|name| name.len())?;
        Some((name.clone(), &text[name.len()..]))
    }

    /// The spot a tape's zero comes to, and the rest.
    fn zero<'a>(&self, text: &'a str) -> (String, &'a str) {
        const WAYS: [&str; 5] = [
            "Hold the tape's zero at ",
            "Hook the tape's ring on the nail of ",
            "Hook the tape's ring over the pin of ",
            "Hook the tape on ",
            "Loop the tape round ",
        ];
        let found = WAYS.iter().filter_map(|way| {
            let at = text.find(way)?;
            Some((at, &text[at + way.len()..]))
        });
        let (_, rest) = found
            .min_by_key(|(at, _)| *at)
            .unwrap_or_else(|| panic!("no zero: {text}"));
        self.name(rest)
    }

    fn make(&mut self, does: Doing, text: &str) -> Act {
        const WAYS: [&str; 5] = [
            "drive the swing point peg ",
            "drive the apex peg ",
            "set flag ",
            "drive nail ",
            "drive ",
        ];
        let rest = WAYS
            .iter()
            .find_map(|way| Some(text.split_once(way)?.1))
            .unwrap_or_else(|| panic!("nothing is made: {text}"));
        let name = rest.split(" of the ").next().unwrap_or(rest);
        let name = name.split(". ").next().unwrap_or(name);
        self.made(does, name.trim_end_matches('.'))
    }

    fn made(&mut self, does: Doing, name: &str) -> Act {
        if self.name_here(name).is_none_or(|(known, _)| known != name) {
            self.names.push(name.to_owned());
        }
        Act {
            does,
            makes: Some(name.to_owned()),
        }
    }

    fn along(&mut self, text: &str) -> Act {
        let (from, rest) = self.zero(text);
        let (way, rest) = split(rest, ": at ");
        let ends = ["straight to ", "straight over ", ", in line with "];
        let to = ends.iter().find_map(|words| Some(way.split_once(words)?.1));
        let (to, _) = self.name(to.unwrap_or_else(|| panic!("where to: {text}")));
        let (at, doing) = length(rest);
        let at = if way.contains(" behind ") { -at } else { at };
        let line = [from, to];
        if !doing.starts_with("stop") {
            return self.make(Doing::Along { line, at }, doing);
        }
        let (_, square) = split(doing, "Go square off to the ");
        let (off, rest) = length(after(square, ": at "));
        let off = if square.starts_with("left") {
            off
        } else {
            -off
        };
        self.right_angle(square);
        self.make(Doing::Square { line, at, off }, rest)
    }

    /// A triangle that is laid must have a right angle.
    fn right_angle(&self, text: &str) {
        if let Some((_, triangle)) = text.split_once("with 3-4-5: mark ") {
            let (along, rest) = length(triangle);
            let (square, rest) = length(after(rest, "goes through where "));
            let (across, _) = length(after(rest, " meets "));
            assert!((along.hypot(square) - across).abs() < EXACT, "{text}");
        }
    }

    fn cross(&mut self, text: &str) -> Act {
        let (first, rest) = self.zero(text);
        let (second, rest) = self.zero(rest);
        let (_, rest) = split(rest, "on the ");
        let left = rest.starts_with("left");
        let (one, rest) = length(after(rest, "the first at "));
        let (other, rest) = length(after(rest, "the second at "));
        let does = Doing::Cross {
            from: [first, second],
            pulls: [one, other],
            left,
        };
        self.make(does, rest)
    }

    fn scratch(&mut self, text: &str) -> Act {
        let (first, rest) = self.zero(text);
        let (one, rest) = length(after(rest, " and with "));
        let (_, rest) = split(rest, "an arc on the ");
        let left = rest.starts_with("left");
        let (second, rest) = self.zero(rest);
        let (other, rest) = length(after(rest, " and with "));
        let (_, rest) = split(rest, "scratches cross, ");
        let does = Doing::Cross {
            from: [first, second],
            pulls: [one, other],
            left,
        };
        self.make(does, rest)
    }

    fn strike(&mut self, text: &str) -> Act {
        let (about, rest) = self.zero(text);
        let left = after(rest, " on your ").starts_with("left");
        let mut ends = rest.split(" the line ").skip(1).map(|end| {
            let (_, to) = self.name(end);
            self.name(to.strip_prefix(" to ").unwrap_or(to)).0
        });
        let between = [ends.next(), ends.next()].map(Option::unwrap_or_default);
        let (line, rest) = split(after(rest, ": mark the "), " every step at ");
        Act {
            does: Doing::Strike {
                about,
                radius: length(rest).0,
                between,
                left,
                line: line.to_owned(),
            },
            makes: None,
        }
    }

    fn slide(&mut self, text: &str) -> Act {
        let (arm, rest) = length(after(text, "Screw a brace across, from "));
        let (brace, rest) = length(after(rest, "it must measure "));
        let (start, rest) = self.name(after(rest, "Slide the battens from "));
        let (corner, rest) = self.name(after(rest, " over "));
        let (end, rest) = self.name(after(rest, " to "));
        let line = split(after(rest, "the corner draws the "), ".").0;
        Act {
            does: Doing::Slide {
                over: [start, corner, end],
                arm,
                brace,
                line: line.to_owned(),
            },
            makes: None,
        }
    }

    /// Rows each like the first, which the step before told in full.
    fn table(&mut self, first: &Act, table: &Table) {
        let begins = self.acts.len();
        let mut string = match &first.does {
            Doing::Along { line, .. } | Doing::Square { line, .. } => Some(line.clone()),
            _ => None,
        };
        let what = if table.has("peg") { "peg" } else { "flag" };
        for row in table.rows() {
            if table.has("line, its zero first") {
                let line = table.cell(row, "line, its zero first");
                let (from, rest) = self.name(&line);
                let (to, _) = self.name(rest.strip_prefix(" to ").unwrap_or(rest));
                string = Some([from, to]);
            }
            let at = || length(&table.cell(row, "along")).0;
            let makes = table.lines(row, what);
            let line = || string.clone().unwrap_or_default();
            let mut put = Vec::new();
            if table.has("two tapes cross there") {
                let act = self.ties(table, row, what);
                put.push((0.0, act));
            } else if table.has("square off") {
                let offs = table.lines(row, "square off");
                assert_eq!(offs.len(), makes.len(), "{row:?}");
                for ((y, name), (_, off)) in makes.into_iter().zip(offs) {
                    let (off, side) = length(off);
                    let off = if side == "left" { off } else { -off };
                    let does = Doing::Square {
                        line: line(),
                        at: at(),
                        off,
                    };
                    put.push((y, self.made(does, name)));
                }
            } else {
                let name = table.cell(row, what);
                let does = Doing::Along {
                    line: line(),
                    at: at(),
                };
                put.push((0.0, self.made(does, &name)));
            }
            self.triangles(&table.cell(row, "triangle"));
            self.acts.extend(put.iter().map(|(_, act)| act.clone()));
            self.must_read(table, row, &put);
        }
        assert_eq!(self.acts.get(begins), Some(first), "the first is told so");
    }

    /// Two tapes that cross, from a row of a table.
    #[must_use]
    pub fn ties(&mut self, table: &Table, row: &crate::paper::Row, what: &str) -> Act {
        let tapes = table.cell(row, "two tapes cross there");
        let (one, rest) = length(&tapes);
        let (first, rest) = self.name(after(rest, "from "));
        let (other, rest) = length(rest);
        let (second, _) = self.name(after(rest, "from "));
        let side = table.cell(row, "it stands");
        let looking = after(&side, "as you look from ");
        assert_eq!(self.name(looking).0, first, "{side}");
        let does = Doing::Cross {
            from: [first, second],
            pulls: [one, other],
            left: side.starts_with("left"),
        };
        self.made(does, &table.cell(row, what))
    }

    fn triangles(&self, cell: &str) {
        for triangle in cell.split("on ").flat_map(|part| part.split("back ")) {
            let Some((along, square, across)) = three(triangle) else {
                continue;
            };
            assert!((along.hypot(square) - across).abs() < EXACT, "{cell}");
        }
    }

    /// What must be read in a row: to what stands on the same line of it, unless both ends are named.
    fn must_read(&mut self, table: &Table, row: &crate::paper::Row, put: &[(f64, Act)]) {
        let lines = table.lines(row, "must read, from");
        let mut whole: Vec<(f64, String)> = Vec::new();
        for (y, words) in lines {
            // A line that does not begin with a length goes on with the one before.
            match whole.last_mut() {
                Some((_, before)) if length_here(words).is_none() || before.ends_with(" to") => {
                    before.push(' ');
                    before.push_str(words);
                }
                _ => whole.push((y, words.to_owned())),
            }
        }
        for (y, words) in whole {
            let (least, rest) = length(&words);
            let (most, rest) = length(after(rest, "to "));
            let (from, rest) = self.name(rest.trim_start_matches([',', ' ']));
            let to = match rest.strip_prefix(" to ") {
                Some(to) => self.name(to).0,
                None => {
                    let near = |act: &&(f64, Act)| put.len() == 1 || (act.0 - y).abs() < 0.5;
                    let act = put.iter().find(near);
                    let act = act.unwrap_or_else(|| panic!("to which flag: {words} in {row:?}"));
                    act.1.makes.clone().unwrap_or_default()
                }
            };
            self.checks.push(Check {
                between: [from, to],
                range: [least, most],
            });
        }
    }

    /// Does it all, from what stands, with the figures as they are in the acts.
    ///
    /// # Panics
    /// When something is used that does not stand yet.
    #[must_use]
    pub fn done(&self, given: &BTreeMap<String, Point>) -> Ground {
        let mut ground = Ground {
            stands: given.clone(),
            ..Ground::default()
        };
        for act in &self.acts {
            ground.act(act);
        }
        ground
    }
}

/// Triangles are of whole tenths of a metre or quarters of a foot: nothing is rounded, metres.
const EXACT: f64 = 1e-9;

impl Ground {
    /// Where something stands.
    ///
    /// # Panics
    /// When it does not.
    #[must_use]
    pub fn at(&self, name: &str) -> Point {
        let at = self.stands.get(name);
        *at.unwrap_or_else(|| panic!("{name} does not stand yet"))
    }

    fn act(&mut self, act: &Act) {
        let made = match &act.does {
            Doing::Along { line, at } => Some(self.square([&line[0], &line[1]], *at, 0.0)),
            Doing::Square { line, at, off } => Some(self.square([&line[0], &line[1]], *at, *off)),
            Doing::Cross { from, pulls, left } => {
                let [one, other] = [self.at(&from[0]), self.at(&from[1])];
                Some(cross(one, other, *pulls, *left))
            }
            Doing::Strike {
                about,
                radius,
                between,
                left,
                line,
            } => {
                let centre = self.at(about);
                let [start, end] = [&between[0], &between[1]].map(|end| {
                    let way = self.at(end) - centre;
                    way.y.atan2(way.x)
                });
                self.lines.push(Struck {
                    line: line.clone(),
                    centre,
                    radius: *radius,
                    start,
                    sweep: turn(start, end, *left),
                });
                None
            }
            Doing::Slide {
                over,
                arm,
                brace,
                line,
            } => {
                self.slide([&over[0], &over[1], &over[2]], [*arm, *brace], line);
                None
            }
        };
        if let (Some(at), Some(name)) = (made, &act.makes) {
            self.stands.insert(name.clone(), at);
        }
    }

    fn square(&self, [from, to]: [&str; 2], at: f64, off: f64) -> Point {
        let (start, end) = (self.at(from), self.at(to));
        let way = (end - start) / start.distance(end);
        start + way * at + way.left() * off
    }

    /// The corner of the battens runs on the circle through all three.
    fn slide(&mut self, over: [&str; 3], [arm, brace]: [f64; 2], line: &str) {
        let [a, b, c] = over.map(|name| self.at(name));
        let on = |to: Point| b + (to - b) / b.distance(to) * arm;
        self.braces.push(brace - on(a).distance(on(c)));
        let (u, v) = (b - a, c - a);
        let twice = 2.0 * u.cross(v);
        let (uu, vv) = (u.dot(u), v.dot(v));
        let centre = Point::new(
            a.x + (v.y * uu - u.y * vv) / twice,
            a.y + (u.x * vv - v.x * uu) / twice,
        );
        let [start, end] = [a, c].map(|end| (end.y - centre.y).atan2(end.x - centre.x));
        self.lines.push(Struck {
            line: line.to_owned(),
            centre,
            radius: centre.distance(a),
            start,
            sweep: turn(start, end, twice > 0.0),
        });
    }
}

/// Where two tapes cross, to the left of the line from one to the other or not.
fn cross(one: Point, other: Point, [first, second]: [f64; 2], left: bool) -> Point {
    let apart = one.distance(other);
    let along = (first * first - second * second + apart * apart) / (2.0 * apart);
    let off = (first * first - along * along).max(0.0).sqrt();
    let way = (other - one) / apart;
    one + way * along + way.left() * if left { off } else { -off }
}

/// The angle from one direction to another, to the left or to the right.
fn turn(from: f64, to: f64, left: bool) -> f64 {
    let turn = (to - from).rem_euclid(std::f64::consts::TAU);
    if left {
        turn
    } else {
        turn - std::f64::consts::TAU
    }
}

/// The length a text begins with in metres, as far as it is one, and what follows.
///
/// # Panics
/// When it begins with none.
#[must_use]
pub fn length(text: &str) -> (f64, &str) {
    length_here(text).unwrap_or_else(|| panic!("no length: {text}"))
}

/// The length a text begins with, if it does.
#[must_use]
pub fn length_here(text: &str) -> Option<(f64, &str)> {
    let text = text.trim_start();
    let ends = text.match_indices(' ').map(|(at, _)| at).take(4);
    let mut ends: Vec<usize> = ends.chain([text.len()]).collect();
    ends.sort_unstable();
    ends.iter().rev().find_map(|&end| {
        let words = text[..end].trim_end_matches(['.', ',', ':', ';', ')']);
        let (sign, words) = match words.strip_prefix('−') {
            Some(rest) => (-1.0, rest),
            None => (1.0, words),
        };
        let units = if words.ends_with('m') {
            Units::Metric
        } else if words.ends_with(['′', '″']) || words.ends_with(" in") || words.ends_with(" ft")
        {
            Units::FeetInches
        } else {
            return None;
        };
        let metres = parse_length(words, units).ok()?;
        Some((sign * metres, text[end..].trim_start()))
    })
}

fn three(text: &str) -> Option<(f64, f64, f64)> {
    let (one, rest) = length_here(text)?;
    let (two, rest) = length_here(rest)?;
    let (three, _) = length_here(rest)?;
    Some((one, two, three))
}

fn split<'a>(text: &'a str, at: &str) -> (&'a str, &'a str) {
    text.split_once(at)
        .unwrap_or_else(|| panic!("no {at:?} in: {text}"))
}

fn after<'a>(text: &'a str, words: &str) -> &'a str {
    split(text, words).1
}

/// With a small letter first: a sentence may begin with a name.
fn lower(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|first| first.to_lowercase().to_string());
    first.unwrap_or_default() + letters.as_str()
}
