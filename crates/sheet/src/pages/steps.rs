//! A course as numbered steps; what is done alike over and over is one step with a table.

use plan::setout::{Course, Deed, Doing, Note, RightAngle, Spot, Taped, TiedSpot};

use crate::pen::{Style, Weight};

use super::entry::{Entry, Label};
use super::flow::Part;
use super::table::{Content, Table};
use super::{Job, words};

/// How steps are lettered: read from a clipboard on the ground.
pub(super) const STEP: Style = Style::new(2.8, Weight::Regular);

/// How tables are lettered whose lines would break otherwise.
const CLOSE: Style = Style::new(2.5, Weight::Regular);

/// So many deeds alike are a table, fewer are told one by one.
const A_TABLE: usize = 3;

/// Rows with a box to write in: of more, what is read is only ticked.
const MOST_WRITTEN: usize = 14;

/// The steps of a course.
pub(super) fn parts(job: &Job<'_>, course: &Course) -> Vec<Part> {
    numbered(job, course, Vec::new())
}

/// The steps of a course, which begin with some others.
pub(super) fn numbered(job: &Job<'_>, course: &Course, before: Vec<Entry>) -> Vec<Part> {
    let telling = Telling { job, course };
    let mut parts = Vec::new();
    let mut number = before.len();
    let mut entries = before;
    for run in course
        .deeds
        .chunk_by(|a, b| alike(a).is_some() && alike(a) == alike(b))
    {
        let is_table = run.len() >= A_TABLE || makes_pegs(run);
        match alike(&run[0]).filter(|_| is_table) {
            Some(kind) => {
                number += 1;
                entries.push(telling.like_the_first(number, run));
                parts.push(Part::List(std::mem::take(&mut entries)));
                parts.push(Part::Table(telling.table(kind, run)));
                parts.extend(telling.notes(run));
            }
            None => {
                for deed in run {
                    number += 1;
                    entries.push(telling.step(number, deed));
                }
            }
        }
    }
    if !entries.is_empty() {
        parts.push(Part::List(entries));
    }
    parts
}

/// The ties of some spots, to make them again.
pub(super) fn ties_table<'a>(
    job: &Job<'_>,
    what: &str,
    spots: impl Iterator<Item = (&'a TiedSpot, String)>,
) -> Table {
    let heads = [what, "two tapes cross there", "it stands"];
    let rows = spots.map(|(tied, name)| match &tied.ties {
        Ok(ties) => vec![
            Content::Words(name),
            Content::Words(
                ties.pair
                    .each_ref()
                    .map(|tie| words::tie(tie, &job.voice))
                    .join("\n"),
            ),
            Content::Words(ties.side_words(Some(&job.solved.surroundings))),
        ],
        Err(error) => vec![
            Content::Words(name.clone()),
            Content::Words("–".to_owned()),
            Content::Words(words::sentence(&error.words(&name, &job.voice))),
        ],
    });
    Table {
        heads: heads.map(str::to_owned).to_vec(),
        rows: rows.collect(),
        names: 0,
        style: STEP,
    }
}

/// Deeds that differ in their spots and figures alone.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Alike {
    Along,
    Square,
    Cross,
}

fn alike(deed: &Deed) -> Option<Alike> {
    let is_one_of_many = matches!(deed.makes, Some(Spot::Flag { .. } | Spot::Peg(_)));
    match deed.does {
        _ if !is_one_of_many => None,
        Doing::Along { .. } => Some(Alike::Along),
        Doing::Square { .. } => Some(Alike::Square),
        Doing::Cross {
            scratches: None, ..
        } => Some(Alike::Cross),
        _ => None,
    }
}

/// Whether pegs are tied: one by one or many, they stand in a table with their ties.
fn makes_pegs(run: &[Deed]) -> bool {
    run.iter().all(|deed| {
        matches!(deed.makes, Some(Spot::Peg(_))) && matches!(deed.does, Doing::Cross { .. })
    })
}

struct Telling<'a> {
    job: &'a Job<'a>,
    course: &'a Course,
}

impl Telling<'_> {
    fn name(&self, spot: Spot) -> String {
        self.course.spots.name(spot)
    }

    fn read(&self, taped: &Taped, from: Spot) -> String {
        let manner = &self.job.manner;
        manner.read(taped, manner.fastening(from, false))
    }

    fn step(&self, number: usize, deed: &Deed) -> Entry {
        let (manner, spots) = (&self.job.manner, &self.course.spots);
        let checks = deed.checks.iter();
        Entry::new(Label::Number(number), deed.words(manner, spots).text, STEP)
            .checked(checks.map(|check| words::sentence(&check.words(manner, spots))))
    }

    /// One step for all rows of a table: the first of them told in full.
    fn like_the_first(&self, number: usize, run: &[Deed]) -> Entry {
        let first = Deed {
            checks: Vec::new(),
            note: None,
            ..run[0].clone()
        };
        let told = first.words(&self.job.manner, &self.course.spots).text;
        let words = if run.len() == 1 {
            told
        } else {
            let triangle = if self.is_squared_far(run) {
                " For a long square mark the first length of its triangle on the line from the foot, back or on; the square goes through where the second from the foot meets the third from that mark."
            } else {
                ""
            };
            format!("Row by row down the table, each like the first: {told}{triangle}")
        };
        Entry::new(Label::Number(number), words, STEP)
    }

    /// The remarks of a run, each once.
    fn notes(&self, run: &[Deed]) -> Option<Part> {
        let mut said: Vec<String> = Vec::new();
        for note in run.iter().filter_map(|deed| deed.note.as_ref()) {
            let words = if *note == Note::OnTheFace {
                let own = run.iter().filter(|deed| deed.note == Some(Note::OnTheFace));
                let names: Vec<String> = own.map(|deed| self.made(deed)).collect();
                words::sentence(&format!(
                    "{}: on the face of a wall or building; mark it there, drive nothing",
                    names.join(", ")
                ))
            } else {
                note.words(&self.job.voice)
            };
            if !said.contains(&words) {
                said.push(words);
            }
        }
        (!said.is_empty()).then(|| Part::Paragraph(said.join(" "), STEP))
    }

    /// Deeds alike as a table: a row is what is done at one place of the string, its flags one below
    /// the other.
    fn table(&self, kind: Alike, run: &[Deed]) -> Table {
        let rows: Vec<&[Deed]> = match kind {
            Alike::Square => run.chunk_by(is_beside).collect(),
            Alike::Along | Alike::Cross => run.chunks(1).collect(),
        };
        let mut columns: Vec<(&str, Vec<Content>)> = Vec::new();
        let first = |say: &dyn Fn(&Deed) -> String| -> Vec<Content> {
            let cell = |row: &&[Deed]| Content::Words(row.first().map(say).unwrap_or_default());
            rows.iter().map(cell).collect()
        };
        let each = |say: &dyn Fn(&Deed) -> String| -> Vec<Content> {
            let cell = |row: &&[Deed]| {
                let lines: Vec<String> = row.iter().map(say).collect();
                Content::Words(lines.join("\n"))
            };
            rows.iter().map(cell).collect()
        };
        let along = || {
            let mut columns: Vec<(&str, Vec<Content>)> = Vec::new();
            if run.iter().any(|deed| string(deed) != string(&run[0])) {
                columns.push(("line, its zero first", first(&|deed| self.line(deed))));
            }
            columns.push(("along", first(&|deed| self.along(deed))));
            columns
        };
        let what = if makes_pegs(run) { "peg" } else { "flag" };
        let made = (what, each(&|deed| self.made(deed)));
        match kind {
            Alike::Along => {
                columns.push(made);
                columns.extend(along());
            }
            Alike::Square => {
                columns.extend(along());
                columns.push(made);
                columns.push(("square off", each(&|deed| self.off(deed))));
                if self.is_squared_far(run) {
                    columns.push(("triangle", each(&|deed| self.triangle(deed))));
                }
            }
            Alike::Cross => {
                columns.push(made);
                columns.push(("two tapes cross there", each(&|deed| self.tapes(deed))));
                columns.push(("it stands", each(&|deed| self.side(deed))));
            }
        }
        let is_checked = run.iter().any(|deed| !deed.checks.is_empty());
        if is_checked {
            // Beside a column for lines it is narrow: readings break, and none stands level.
            let is_narrow = run.iter().any(|deed| string(deed) != string(&run[0]));
            let must_read = |row: &[Deed]| {
                let is_level = row.iter().all(|deed| deed.checks.len() < 2) && !is_narrow;
                self.must_read(row, kind == Alike::Cross, is_level || row.len() == 1)
            };
            let cell = |row: &&[Deed]| Content::Words(must_read(row));
            columns.push(("must read, from", rows.iter().map(cell).collect()));
            if run.len() <= MOST_WRITTEN {
                let checks = |row: &&[Deed]| row.iter().map(|deed| deed.checks.len()).sum();
                let boxes = rows.iter().map(|row| Content::Boxes(checks(row)));
                columns.push(("you read", boxes.collect()));
            }
        }
        columns.push(("fine", vec![Content::Tick; rows.len()]));
        let rows = (0..rows.len()).map(|row| {
            let cell = |(_, cells): &(&str, Vec<Content>)| cells[row].clone();
            columns.iter().map(cell).collect()
        });
        let table = Table {
            rows: rows.collect(),
            heads: columns.iter().map(|(head, _)| (*head).to_owned()).collect(),
            names: 0,
            style: STEP,
        };
        table.smaller_if_wide(CLOSE, self.job.width)
    }

    fn made(&self, deed: &Deed) -> String {
        deed.makes.map_or_else(String::new, |spot| self.name(spot))
    }

    fn line(&self, deed: &Deed) -> String {
        string(deed).map_or_else(String::new, |[from, to]| {
            format!("{} to {}", self.name(from), self.name(to))
        })
    }

    fn along(&self, deed: &Deed) -> String {
        match &deed.does {
            Doing::Along { from, at, .. }
            | Doing::Square {
                from, along: at, ..
            } => self.read(at, *from),
            _ => String::new(),
        }
    }

    fn off(&self, deed: &Deed) -> String {
        match &deed.does {
            Doing::Square { off, left, .. } => {
                format!("{} {}", self.job.voice.taped(off), words::side(*left))
            }
            _ => String::new(),
        }
    }

    fn right_angle(&self, deed: &Deed) -> Option<RightAngle> {
        let Doing::Square {
            from,
            to,
            along,
            off,
            ..
        } = &deed.does
        else {
            return None;
        };
        let spots = &self.course.spots;
        let length = spots.at(*from)?.distance(spots.at(*to)?);
        Some(self.job.manner.right_angle(along.exact, length, off.exact))
    }

    fn is_squared_far(&self, run: &[Deed]) -> bool {
        let is_far = |deed: &Deed| {
            let angle = self.right_angle(deed);
            angle.is_some_and(|angle| angle != RightAngle::BuildersSquare)
        };
        run.len() > 1 && run.iter().any(is_far)
    }

    fn triangle(&self, deed: &Deed) -> String {
        let length = |metres| self.job.voice.length(metres);
        match self.right_angle(deed) {
            Some(RightAngle::ThreeFourFive {
                along,
                square,
                across,
                back,
            }) => format!(
                "{} {}, {}, {}",
                if back { "back" } else { "on" },
                length(along),
                length(square),
                length(across)
            ),
            Some(RightAngle::EqualPulls { each_way, pull }) => {
                format!("{} both ways, {} from both", length(each_way), length(pull))
            }
            Some(RightAngle::BuildersSquare) | None => "builder's square".to_owned(),
        }
    }

    fn tapes(&self, deed: &Deed) -> String {
        match &deed.does {
            Doing::Cross { one, other, .. } => {
                let tape = |(from, taped): &(Spot, Taped)| {
                    format!("{} from {}", self.read(taped, *from), self.name(*from))
                };
                format!("{}\n{}", tape(one), tape(other))
            }
            _ => String::new(),
        }
    }

    /// On which side it stands; of a peg beside what, too.
    fn side(&self, deed: &Deed) -> String {
        let pegs = &self.job.work.pegs;
        let peg = pegs.iter().find(|peg| Some(peg.peg.spot) == deed.makes);
        if let Some(Ok(ties)) = peg.map(|peg| &peg.peg.ties) {
            return ties.side_words(Some(&self.job.solved.surroundings));
        }
        match &deed.does {
            Doing::Cross {
                one, other, left, ..
            } => format!(
                "{} as you look from {} to {}",
                words::side(*left),
                self.name(one.0),
                self.name(other.0)
            ),
            _ => String::new(),
        }
    }

    /// What must be read in a row, and from where: on a line of its own in a row that is high anyway.
    ///
    /// It is taken to the flag it stands level with; where it may not be level, both ends are named.
    fn must_read(&self, row: &[Deed], high: bool, is_level: bool) -> String {
        let then = if high { "\n" } else { " " };
        let line = |deed: &Deed| {
            let checks = deed.checks.iter().map(|check| {
                let range = check.range(&self.job.manner);
                let (from, to) = (self.name(check.from), self.name(check.to));
                if is_level && Some(check.to) == deed.makes {
                    format!("{range},{then}{from}")
                } else {
                    format!("{range},{then}{from} to {to}")
                }
            });
            checks.collect::<Vec<_>>().join("\n")
        };
        let lines = row.iter().map(line);
        let lines = lines.filter(|line| is_level || !line.is_empty());
        lines.collect::<Vec<_>>().join("\n")
    }
}

/// Whether two deeds square off the same place of the same string.
fn is_beside(one: &Deed, other: &Deed) -> bool {
    match (&one.does, &other.does) {
        (Doing::Square { along: a, .. }, Doing::Square { along: b, .. }) => {
            string(one) == string(other) && (a.tape - b.tape).abs() < geometry::SAME_PLACE
        }
        _ => false,
    }
}

/// The string a deed is done along.
fn string(deed: &Deed) -> Option<[Spot; 2]> {
    match deed.does {
        Doing::Along { from, to, .. } | Doing::Square { from, to, .. } => Some([from, to]),
        _ => None,
    }
}
