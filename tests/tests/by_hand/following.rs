//! Followed step by step the sheet leads to the drawn lines, as near as its tape can tell.

use std::collections::BTreeMap;

use geometry::{Point, Vector};
use pegbow_tests::hand::{Doing, Ground, Struck, Told, length};
use pegbow_tests::paper::Chapter;
use serde_json::Value;

use crate::printed::{Case, Printed};

/// What half a graduation in each figure does is worked out figure by figure; together they do a
/// little more.
const TOGETHER: f64 = 1.02;

/// What plane geometry of its own may differ by, metres.
const SAME: f64 = 1e-6;

/// At so many places along it a struck line is looked at.
const PLACES: i32 = 8;

/// What is followed, and where it should lead.
struct Followed<'a> {
    printed: &'a Printed,
    told: Told,
    /// Every spot as drawn.
    drawn: BTreeMap<String, Point>,
    /// Of which bend each struck line is, in the order of striking.
    lines: Vec<&'a Value>,
}

impl<'a> Followed<'a> {
    fn new(printed: &'a Printed) -> Self {
        Self {
            printed,
            told: Told::given(printed.marks.keys()),
            drawn: printed.marks.clone(),
            lines: Vec::new(),
        }
    }

    fn read(&mut self, chapter: &Chapter, course: &Value) {
        self.told.read(chapter);
        for deed in course["deeds"].as_array().unwrap() {
            if let (Some(name), Some(at)) = (deed["makes"].as_str(), deed["at"].as_array()) {
                let [x, y] = [0, 1].map(|axis| at[axis].as_f64().unwrap());
                self.drawn.insert(name.to_owned(), Point::new(x, y));
            }
        }
    }

    fn read_bend(&mut self, chapter: &Chapter, bend: &'a Value, which: &str) {
        let way = index(&bend[which]);
        self.read(chapter, &bend["ways"][way]["course"]);
        let strikes = self
            .told
            .acts
            .iter()
            .filter(|act| matches!(act.does, Doing::Strike { .. } | Doing::Slide { .. }));
        self.lines.resize(strikes.count(), bend);
    }

    /// How far everything is off: each spot from where it is drawn, each line from its arc.
    fn misses(&self, ground: &Ground) -> Vec<(String, Vector)> {
        let mut misses = Vec::new();
        for (name, drawn) in &self.drawn {
            misses.push((name.clone(), ground.at(name) - *drawn));
        }
        assert_eq!(ground.lines.len(), self.lines.len());
        for (struck, bend) in ground.lines.iter().zip(&self.lines) {
            misses.extend(self.off_the_arc(struck, bend));
        }
        let along = |off: f64| Vector::new(off, 0.0);
        let braces = ground.braces.iter().enumerate();
        misses.extend(braces.map(|(nth, off)| (format!("brace {nth}"), along(*off))));
        misses
    }

    fn off_the_arc(&self, struck: &Struck, bend: &Value) -> Vec<(String, Vector)> {
        let piece = &self.printed.path["centre_line"]["pieces"][index(&bend["piece"])];
        let [x, y] = [0, 1].map(|axis| piece["swing_point"][axis].as_f64().unwrap());
        let figure = match struck.line.as_str() {
            "centre line" => "radius",
            "inside edge" => "inner",
            "outside edge" => "outer",
            other => panic!("{other}"),
        };
        let radius = bend[figure]["exact"].as_f64().unwrap();
        let to_the_left = if piece["turns"] == "left" { 1.0 } else { -1.0 };
        let sweep = piece["sweep"].as_f64().unwrap() * to_the_left;
        let name = format!("{} of bend {}", struck.line, bend["number"]);
        assert!(
            struck.sweep * sweep > 0.0,
            "{name} is struck the wrong way round"
        );
        let places = (0..=PLACES).map(|place| {
            let angle = struck.start + struck.sweep * f64::from(place) / f64::from(PLACES);
            let way = Vector::new(angle.cos(), angle.sin());
            let on = struck.centre + way * struck.radius;
            let off = on.distance(Point::new(x, y)) - radius;
            (name.clone(), Vector::new(off, 0.0))
        });
        let farther = Vector::new((struck.sweep - sweep) * radius, 0.0);
        places
            .chain([(format!("end of {name}"), farther)])
            .collect()
    }

    /// All lies where it is drawn, but for what half a graduation at each pull can do.
    #[track_caller]
    fn leads_to_what_is_drawn(&self) -> Ground {
        let ground = self.told.done(&self.printed.marks);
        let misses = self.misses(&ground);
        let mut may = vec![0.0; misses.len()];
        let mut told = self.told.clone();
        for act in 0..told.acts.len() {
            for figure in 0..told.acts[act].figures().len() {
                *told.acts[act].figures()[figure] += self.printed.half;
                let moved = self.misses(&told.done(&self.printed.marks));
                for ((may, (_, now)), (_, before)) in may.iter_mut().zip(moved).zip(&misses) {
                    *may += (now - *before).length();
                }
                *told.acts[act].figures()[figure] -= self.printed.half;
            }
        }
        for ((what, miss), may) in misses.iter().zip(may) {
            let off = miss.length();
            assert!(off <= TOGETHER * may + SAME, "{what}: {off}, at most {may}");
        }
        for check in &self.told.checks {
            let [from, to] = [&check.between[0], &check.between[1]].map(|end| ground.at(end));
            let (read, [least, most]) = (from.distance(to), check.range);
            assert!(least <= read && read <= most, "{check:?} reads {read}");
        }
        self.each_step_alone(&ground);
        ground
    }

    /// Each step is true of itself: done from where all else is drawn it misses by no more than its
    /// own figures are rounded.
    #[track_caller]
    fn each_step_alone(&self, ground: &Ground) {
        let done = |told: &Told| told.done(&self.drawn);
        let mut struck = 0;
        for act in &self.told.acts {
            let mut told = self.told.clone();
            told.acts = vec![act.clone()];
            let misses = |ground: &Ground| -> Vec<(String, Vector)> {
                if let Some(name) = &act.makes {
                    return vec![(name.clone(), ground.at(name) - self.drawn[name])];
                }
                let off = self.off_the_arc(&ground.lines[0], self.lines[struck]);
                let braces = ground.braces.iter().map(|off| Vector::new(*off, 0.0));
                let braces = braces.map(|off| ("brace".to_owned(), off));
                off.into_iter().chain(braces).collect()
            };
            let before = misses(&done(&told));
            let mut may = vec![0.0; before.len()];
            for figure in 0..told.acts[0].figures().len() {
                *told.acts[0].figures()[figure] += self.printed.half;
                for ((may, (_, now)), (_, before)) in
                    may.iter_mut().zip(misses(&done(&told))).zip(&before)
                {
                    *may += (now - *before).length();
                }
                *told.acts[0].figures()[figure] -= self.printed.half;
            }
            for ((what, miss), may) in before.iter().zip(may) {
                let off = miss.length();
                assert!(
                    off <= TOGETHER * may + SAME,
                    "{what} alone: {off}, at most {may}"
                );
            }
            struck += usize::from(act.makes.is_none());
        }
        assert_eq!(struck, ground.lines.len());
    }
}

fn index(value: &Value) -> usize {
    usize::try_from(value.as_u64().unwrap()).unwrap()
}

/// Follows the order of work to its last page.
#[track_caller]
fn follow(printed: &Printed) -> (Followed<'_>, Ground) {
    let mut followed = Followed::new(printed);
    let set_out = printed.set_out();
    let order = printed.chapter("What to bring");
    let mut on = 0;
    for step in order.steps() {
        let (page, what) = step
            .strip_prefix("Page ")
            .unwrap()
            .split_once(": ")
            .unwrap();
        let page: usize = page.parse().unwrap();
        let here = printed.chapters.iter().find(|chapter| chapter.page == page);
        let chapter = here.unwrap_or_else(|| panic!("nothing begins on page {page}"));
        assert!(on < page, "the order walks forward: {step}");
        on = page;
        let titled = |begins: &str| {
            assert!(
                chapter.title.starts_with(begins),
                "{step}: {}",
                chapter.title
            );
        };
        if what.starts_with("pegs: ") {
            titled("Pegs");
            followed.read(chapter, &set_out["pegging"]);
        } else if let Some(between) = what.strip_prefix("straight from ") {
            titled(&format!("Straight: {}", between.trim_end_matches('.')));
            let pegs = |straight: &&Value| {
                let [from, to] = [0, 1].map(|end| straight["between"][end].as_u64().unwrap());
                between == format!("peg {from} to peg {to}.")
            };
            let all = set_out["straights"].as_array().unwrap();
            followed.read(chapter, &all.iter().find(pegs).unwrap()["course"]);
        } else if let Some(bend) = what.strip_prefix("bend ") {
            let (number, rest) = bend.split_once(" from ").unwrap();
            let (between, way) = rest.split_once(": ").unwrap();
            titled(&format!("Bend {number}: {between}, turns "));
            let named = |words: &str| words.to_lowercase() == way;
            assert!(chapter.words().any(named), "{step}");
            let nth = number.parse::<usize>().unwrap() - 1;
            followed.read_bend(chapter, &set_out["bends"][nth], "chosen");
        } else if what.starts_with("before anyone digs, ") {
            titled("Before anyone digs");
        } else {
            assert!(what.starts_with("read the whole once more"), "{step}");
            titled("Record");
        }
    }
    let ground = followed.leads_to_what_is_drawn();
    (followed, ground)
}

#[test]
fn the_steps_in_their_order_lead_to_every_drawn_line() {
    for case in Case::FREE {
        let printed = case.printed();
        let (followed, ground) = follow(printed);
        let bends = printed.set_out()["bends"].as_array().unwrap().len();
        assert!(followed.told.acts.len() > 10 * bends, "{case:?}");
        what_is_read_once_more_is_fine(printed, &ground);
        a_lost_swing_point_is_found(printed, &followed, &ground);
    }
}

/// The table of the record, read on what was built.
#[track_caller]
fn what_is_read_once_more_is_fine(printed: &Printed, ground: &Ground) {
    let table = printed
        .chapter("Record")
        .tables()
        .find(|table| table.has("measure"));
    let table = table.unwrap();
    assert!(!table.rows().is_empty());
    for row in table.rows() {
        let measure = table.cell(row, "measure");
        let (from, to) = measure.split_once(" to ").unwrap();
        let read = ground.at(from).distance(ground.at(to));
        let figure = |head: &str| length(&table.cell(row, head)).0;
        assert!(
            figure("fine from") <= read && read <= figure("fine up to"),
            "{measure}: {read}"
        );
        assert!(figure("stop under") <= figure("fine from"), "{measure}");
        assert!(figure("stop over") >= figure("fine up to"), "{measure}");
    }
}

/// The ties of swing points, pulled to pegs that stand where they were built.
#[track_caller]
fn a_lost_swing_point_is_found(printed: &Printed, followed: &Followed<'_>, ground: &Ground) {
    let mut tables = printed.chapter("Before anyone digs").tables();
    let Some(table) = tables.find(|table| table.has("point")) else {
        return;
    };
    for row in table.rows() {
        let name = table.cell(row, "point");
        let mut again = followed.told.clone();
        let act = again.ties(table, row, "point");
        again.acts = vec![act];
        let found = again.done(&ground.stands).at(&name);
        // Both tapes are off by half a graduation, the pegs by more; they cross at 30 degrees or better.
        let off = found.distance(ground.at(&name));
        assert!(off < 10.0 * printed.half, "{name}: {off}");
    }
}

#[test]
fn with_the_swing_blocked_the_other_way_leads_to_the_same_lines() {
    for case in [Case::Blocked, Case::BlockedFeet] {
        let printed = case.printed();
        let order: Vec<&str> = printed.chapter("What to bring").steps().collect();
        assert!(
            order[2].contains("bend 1 ") && !order[2].contains("swing"),
            "{}",
            order[2]
        );
        let (followed, ground) = follow(printed);
        for line in ["C1.", "I1.", "O1."] {
            let flags = followed.drawn.keys().filter(|name| name.starts_with(line));
            assert!(flags.count() > 2, "flags {line} stand");
        }
        what_is_read_once_more_is_fine(printed, &ground);
    }
}

#[test]
fn where_a_way_fails_the_second_leads_to_the_same_lines() {
    let mut seconds = 0;
    for case in Case::ALL {
        let printed = case.printed();
        for bend in printed.set_out()["bends"].as_array().unwrap() {
            let title = format!("Bend {}, if that fails", bend["number"]);
            if bend["fallback"].is_null() {
                assert!(
                    printed
                        .chapters
                        .iter()
                        .all(|chapter| chapter.title != title)
                );
                continue;
            }
            let mut followed = Followed::new(printed);
            followed.read(printed.chapter("Pegs"), &printed.set_out()["pegging"]);
            followed.read_bend(printed.chapter(&title), bend, "fallback");
            followed.leads_to_what_is_drawn();
            seconds += 1;
        }
    }
    assert!(seconds > 5, "{seconds}");
}
