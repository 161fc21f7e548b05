//! Every number on the pages is a figure of the plan, or one of few that need none.

use std::collections::BTreeSet;

use pegbow_tests::hand::length_here;
use plan::Plan;
use plan::fingerprint::fingerprint;
use plan::units::Units;
use serde_json::Value;

use crate::printed::{Printed, blocked, example, in_feet, printed};

/// The lengths among the figures: under these names, and in lists under them.
const LENGTHS: [&str; 33] = [
    "after",
    "along",
    "before",
    "beyond_fine",
    "check_room",
    "covered",
    "cut",
    "distance",
    "error",
    "exact",
    "least",
    "length",
    "limit",
    "longest_pull",
    "look_again",
    "most",
    "overlap",
    "rise",
    "radius",
    "remark",
    "sides",
    "station",
    "stops",
    "string",
    "apex_moves",
    "swing_point_moves",
    "tape",
    "tape_length",
    "tolerance",
    "value",
    "wanted",
    "width",
    "within",
];

/// What stands on a page and is no figure of the plan; with it the reason.
const EXCUSED: [(&str, &str); 14] = [
    ("call 811", "a telephone number"),
    ("811 in the USA", "the same"),
    ("(100 %)", "of a printer"),
    ("must measure 100 mm", "the bar that proves the printer"),
    ("must measure 4 in", "the same"),
    ("hundred good jobs 95", "a share"),
    ("3-4-5", "the name of a triangle"),
    ("a round 10 cm", "any length one can remember"),
    ("“10 cm on towards peg 4”", "an example"),
    ("a round 4 in", "any length one can remember"),
    ("“4 in on towards peg 4”", "an example"),
    ("metric, 5 mm", "the graduation, a setting of the plan"),
    ("nearest 5 mm", "the same"),
    ("1⁄8″", "the same in inches, once the lengths are taken out"),
];

struct Known {
    lengths: Vec<f64>,
    counts: BTreeSet<u64>,
    area: f64,
}

fn known(printed: &Printed) -> Known {
    let mut lengths = Vec::new();
    let findings = &printed.figures["findings"];
    for value in [&printed.path, findings, &printed.figures["obstacles"]] {
        collect(value, &mut lengths);
    }
    let tools = &printed.set_out()["tools"];
    let mut counts: BTreeSet<u64> = tools.as_object().unwrap().values().filter_map(Value::as_u64).collect();
    let pegs = ["path_pegs", "apex_pegs", "swing_pegs", "offset_pegs", "spare_pegs"];
    counts.insert(pegs.iter().map(|of| tools[of].as_u64().unwrap()).sum());
    // The first three uses of a string are named, the others counted.
    let strings = tools["strings"].as_array().unwrap().iter();
    counts.extend(strings.map(|string| (string["used"].as_array().unwrap().len() as u64).saturating_sub(3)));
    Known {
        lengths,
        counts,
        area: printed.path["area"].as_f64().unwrap(),
    }
}

fn collect(value: &Value, lengths: &mut Vec<f64>) {
    match value {
        Value::Object(fields) => {
            for (name, field) in fields {
                let is_length = LENGTHS.contains(&name.as_str());
                match field {
                    Value::Number(number) if is_length => lengths.extend(number.as_f64()),
                    Value::Array(list) if is_length => {
                        lengths.extend(list.iter().filter_map(Value::as_f64));
                    }
                    _ => {}
                }
                collect(field, lengths);
            }
        }
        Value::Array(list) => list.iter().for_each(|item| collect(item, lengths)),
        _ => {}
    }
}

impl Known {
    /// Whether a printed length is one of them, rounded as it is printed.
    fn has(&self, says: &str, metres: f64, half: f64) -> bool {
        let half = if says.contains(" mm") {
            let decimals = says.split(' ').next().and_then(|says| says.split_once('.'));
            decimals.map_or(0.0005, |_| 0.00005)
        } else if says.contains(" cm") {
            0.005
        } else if says.contains(" in") {
            let places = says.split(' ').next().and_then(|says| says.split_once('.'));
            0.5 * 0.0254 * 0.1_f64.powi(places.map_or(0, |(_, places)| places.len() as i32))
        } else {
            half
        };
        let near = |length: &&f64| (length.abs() - metres.abs()).abs() <= half + 1e-9;
        self.lengths.iter().any(|length| near(&length))
    }
}

/// All names a person gave, the longest first: what is in them is theirs.
fn names(plan: &Plan, option: usize) -> Vec<String> {
    let scheme = &plan.schemes[option];
    let mut names = vec![
        fingerprint(plan),
        plan.title.clone(),
        plan.place.clone(),
        plan.client.clone(),
        scheme.name.clone(),
    ];
    names.extend(scheme.routes.iter().map(|route| route.name.clone()));
    names.extend(plan.site.marks.iter().map(|mark| mark.name.clone()));
    names.extend(plan.site.obstacles.iter().map(|thing| thing.name.clone()));
    names.retain(|name| !name.is_empty());
    names.sort_by_key(|name| std::cmp::Reverse(name.len()));
    names
}

/// `S1`, `IA2`, `C1.4`, `L3+0`, `A4`: what stands on the ground, and paper.
fn is_a_name(word: &str) -> bool {
    let rest = word.trim_start_matches(|letter: char| letter.is_ascii_uppercase());
    let letters = word.len() - rest.len();
    let is_number = |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
    (1..=2).contains(&letters) && rest.split(['.', '+']).all(is_number)
}

/// Whether a word that holds a digit and begins no length needs no figure, from the words about it.
fn needs_none(words: &[&str], at: usize, known: &Known) -> bool {
    let word = words[at].trim_matches(['.', ',', ':', ';', '(', ')', '“', '”']);
    let before = at.checked_sub(1).map_or("", |at| words[at]);
    let next = words.get(at + 1).copied().unwrap_or_default();
    let is_whole = !word.is_empty() && word.bytes().all(|byte| byte.is_ascii_digit());
    let numbered = ["peg", "Peg", "PEG", "pegs", "bend", "Bend", "Page", "page", "option"];
    if is_a_name(word) || word.starts_with("1:") {
        return true;
    }
    // A scale, `1 in = 20 ft`.
    if next == "in" && words.get(at + 2) == Some(&"=") || before == "=" && next.starts_with("ft") {
        return true;
    }
    if let Some(area) = next.strip_prefix("m²").or(next.strip_prefix("sq")) {
        let printed: f64 = word.parse().unwrap();
        let square = if next.starts_with('m') { 1.0 } else { 0.3048 * 0.3048 };
        return area.len() < 3 && (printed - known.area / square).abs() <= 0.005 + 1e-9;
    }
    is_whole
        && (numbered.contains(&before)
            || before == "to" && at > 1 && numbered.contains(&words[at - 3])
            || known.counts.contains(&word.parse().unwrap()))
}

/// The numbers on the pages that are nowhere among the figures, each with its page and what is about it.
fn strangers(printed: &Printed, option: usize) -> Vec<String> {
    let known = known(printed);
    let names = names(&printed.plan, option);
    let mut strangers = Vec::new();
    for (page, number) in printed.pages.iter().zip(1..) {
        // Peg numbers and scale bars on the drawing of the plan, and numbers of steps.
        let texts = page.texts.iter().filter(|text| !text.furniture);
        let texts = texts.map(|text| text.text.trim());
        let is_label = |text: &str| text.trim_end_matches('.').parse::<u32>().is_ok() || number == 1 && ["5 m", "10 ft"].contains(&text);
        let texts: Vec<&str> = texts.filter(|text| !is_label(text)).collect();
        let mut flowing = texts.join(" ");
        for name in &names {
            flowing = flowing.replace(name.as_str(), "·");
        }
        for (excused, _) in EXCUSED.iter().take(EXCUSED.len() - 1) {
            flowing = flowing.replace(excused, "·");
        }
        let words: Vec<&str> = flowing.split_whitespace().collect();
        let mut at = 0;
        while at < words.len() {
            let rest = words[at..].join(" ");
            let rest = rest.trim_start_matches('(');
            let holds = words[at].contains(|letter: char| letter.is_ascii_digit());
            match length_here(rest) {
                Some((metres, after)) if holds => {
                    let says = &rest[..rest.len() - after.len()];
                    if !known.has(says.trim(), metres, printed.half) && !needs_none(&words, at, &known) {
                        strangers.push(format!("page {number}: {} | {says}", words[at.saturating_sub(8)..at].join(" ")));
                    }
                    at += says.split_whitespace().count();
                }
                _ => {
                    if holds && !needs_none(&words, at, &known) {
                        let around = &words[at.saturating_sub(8)..(at + 3).min(words.len())];
                        strangers.push(format!("page {number}: {} | {}", around.join(" "), words[at]));
                    }
                    at += 1;
                }
            }
        }
    }
    strangers
}

#[test]
fn every_number_on_the_pages_is_among_the_figures() {
    let plans = [
        (example(), 0),
        (example(), 1),
        (example(), 2),
        (blocked(example()), 0),
        (in_feet(), 0),
    ];
    for (plan, option) in plans {
        let printed = printed(&plan, option);
        let strangers = strangers(&printed, option);
        assert!(strangers.is_empty(), "{option} {:?}\n{}", plan.units, strangers.join("\n"));
    }
}

/// The test above would see a figure that is off by one graduation.
#[test]
fn a_number_that_is_no_figure_is_found() {
    let mut printed = printed(&example(), 0);
    assert_eq!(printed.plan.units, Units::Metric);
    printed.path["set_out"]["look_again"] = Value::Null;
    printed.path["width"] = Value::Null;
    printed.path["set_out"]["tools"]["tape_length"] = Value::Null;
    assert!(!strangers(&printed, 0).is_empty());
}
