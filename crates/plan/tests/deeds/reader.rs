//! A helper who has the words alone: reads each step, does it, and must end at every spot of the plan.
//!
//! It shares no code with deeds: sentences are taken apart and done with plane geometry of its own.

use std::collections::BTreeMap;

use geometry::{Point, Vector};
use plan::setout::methods::straight;
use plan::setout::{Allowances, Course, Crew, Deed};
use plan::units::{Units, parse_length};
use proptest::prelude::*;

use super::laws::METHODS;
use super::telling::manner;
use super::{bend, job, straight_job};

/// Where everything stands by now, by its name.
struct Helper {
    stands: BTreeMap<String, Point>,
}

fn length(text: &str) -> f64 {
    parse_length(text, Units::Metric).unwrap()
}

/// What stands between two words, and the rest.
fn between<'a>(text: &'a str, before: &str, after: &str) -> (&'a str, &'a str) {
    let rest = text
        .split_once(before)
        .unwrap_or_else(|| panic!("{before:?} in {text:?}"))
        .1;
    rest.split_once(after)
        .unwrap_or_else(|| panic!("{after:?} in {rest:?}"))
}

/// The spot at which a tape begins, and the rest of the sentence.
fn zero(text: &str) -> (&str, &str) {
    const WAYS: [&str; 5] = [
        "Hold the tape's zero at ",
        "Hook the tape's ring on the nail of ",
        "Hook the tape's ring over the pin of ",
        "Hook the tape on ",
        "Loop the tape round ",
    ];
    let rest = WAYS
        .iter()
        .find_map(|way| text.strip_prefix(way))
        .unwrap_or_else(|| panic!("{text:?}"));
    // Names hold dots of their own, so a sentence ends where a space follows.
    let end = [" and ", ". ", ", with"]
        .iter()
        .filter_map(|end| rest.find(end))
        .min()
        .unwrap();
    rest.split_at(end)
}

/// What is put down, named in the last words of the doing.
fn made(text: &str) -> &str {
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
        .unwrap_or_else(|| panic!("{text:?}"));
    let rest = rest.split(" of the ").next().unwrap();
    rest.split(". ").next().unwrap().trim_end_matches('.')
}

impl Helper {
    fn at(&self, name: &str) -> Point {
        *self
            .stands
            .get(name)
            .unwrap_or_else(|| panic!("{name:?} does not stand"))
    }

    fn way(&self, from: &str, to: &str) -> Vector {
        let way = self.at(to) - self.at(from);
        way / way.length()
    }

    fn put(&mut self, text: &str, at: Point) {
        self.stands.insert(made(text).to_owned(), at);
    }

    fn step(&mut self, text: &str) {
        if text.contains(" scratch an arc ") {
            self.scratch(text);
        } else if text.contains("until they cross") {
            self.cross(text);
        } else if text.contains(" and lay it ") {
            self.along(text);
        } else {
            let nothing_new = [
                "Stretch a string",
                "Tie a string",
                "Check the whole",
                "Drive a nail",
            ];
            let swung = text.contains("walk with it taut");
            assert!(
                swung || nothing_new.iter().any(|start| text.starts_with(start)),
                "{text:?}"
            );
        }
    }

    fn along(&mut self, text: &str) {
        let (from, rest) = zero(text);
        let (place, rest) = between(rest, " and lay it ", ": at ");
        let (at, doing) = rest.split_once(" m ").unwrap();
        let at = length(at);
        let (to, at) = if let Some(to) = place.strip_prefix("straight to ") {
            (to, at)
        } else if let Some(over) = place.strip_prefix("straight over ") {
            (over.strip_suffix(" and on").unwrap(), at)
        } else {
            (place.split_once(", in line with ").unwrap().1, -at)
        };
        let way = self.way(from, to);
        let foot = self.at(from) + way * at;
        if doing.starts_with("stop.") {
            let (side, rest) = between(doing, "square off to the ", ", as you look");
            let (_, rest) = rest.split_once(": at ").unwrap();
            let (off, doing) = rest.split_once(" m ").unwrap();
            let off = if side == "left" {
                length(off)
            } else {
                -length(off)
            };
            self.put(doing, foot + way.left() * off);
        } else {
            self.put(doing, foot);
        }
    }

    fn cross(&mut self, text: &str) {
        let (first, rest) = zero(text);
        let (_, rest) = rest.split_once(". ").unwrap();
        let (second, rest) = zero(rest);
        let (side, rest) = between(rest, "on the ", " as you look from ");
        let (one, rest) = between(rest, "the first at ", ", the second at ");
        let (other, doing) = rest.split_once(": there ").unwrap();
        let at = self.meet(
            [first, second],
            [length(one), length(other)],
            side == "left",
        );
        self.put(doing, at);
    }

    fn scratch(&mut self, text: &str) {
        let (first, rest) = zero(text);
        let (one, rest) = between(rest, " and with ", " scratch");
        let (side, rest) = between(rest, " an arc on the ", " as you look from ");
        let (second, rest) = zero(
            rest.split_once("Hook")
                .map(|(head, _)| &rest[head.len()..])
                .unwrap(),
        );
        let (other, rest) = between(rest, " and with ", " scratch");
        let (_, doing) = rest.split_once("scratches cross, ").unwrap();
        let at = self.meet(
            [first, second],
            [length(one), length(other)],
            side == "left",
        );
        self.put(doing, at);
    }

    /// Where two tapes meet, found by walking round the first until the second reads right.
    fn meet(&self, spots: [&str; 2], [one, other]: [f64; 2], left: bool) -> Point {
        let (first, second) = (self.at(spots[0]), self.at(spots[1]));
        let way = self.way(spots[0], spots[1]);
        let on = |turn: f64| {
            let turn = if left { turn } else { -turn };
            first + (way * turn.cos() + way.left() * turn.sin()) * one
        };
        // From straight ahead to straight behind the second tape only grows.
        let (mut low, mut high) = (0.0, std::f64::consts::PI);
        for _ in 0..100 {
            let half = 0.5 * (low + high);
            if on(half).distance(second) < other {
                low = half;
            } else {
                high = half;
            }
        }
        on(0.5 * (low + high))
    }
}

/// Does what is written: every spot must stand where the taped figures put it.
fn read_and_do(course: &Course, crew: Crew) -> Result<(), TestCaseError> {
    let name = |spot| course.spots.name(spot);
    let given = course.given.iter();
    let mut helper = Helper {
        stands: given
            .map(|&spot| (name(spot), course.spots.at(spot).unwrap()))
            .collect(),
    };
    let taped = |deed: &Deed| deed.figures().iter().map(|figure| figure.tape).collect();
    let (stand, _) = course.carried_out(taped).unwrap();
    for deed in &course.deeds {
        helper.step(
            &deed
                .words(&manner(crew, Allowances::default()), &course.spots)
                .text,
        );
    }
    for set in stand.iter() {
        let off = helper.at(&name(set.spot)).distance(set.at);
        prop_assert!(off < 1e-6, "{:?} {} {off:e}", course.method, name(set.spot));
    }
    Ok(())
}

proptest! {
    #[test]
    fn the_words_alone_set_out_every_spot(
        chord in 2.0..9.0,
        rise in 0.05..0.8,
        left in any::<bool>(),
        alone in any::<bool>(),
    ) {
        let rise = chord * rise;
        let crew = if alone { Crew::Alone } else { Crew::Two };
        let job = job(bend(chord, if left { rise } else { -rise }));
        for course in METHODS.iter().filter_map(|method| job.course(*method).ok()) {
            read_and_do(&course, crew)?;
        }
    }

    #[test]
    fn the_words_alone_set_out_a_straight(x in 1.0..20.0, y in -20.0..20.0, alone in any::<bool>()) {
        let crew = if alone { Crew::Alone } else { Crew::Two };
        read_and_do(&straight::course(&straight_job(Point::new(x, y))), crew)?;
    }
}
