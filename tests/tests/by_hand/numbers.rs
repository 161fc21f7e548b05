//! Every number on the pages is a figure of the plan, or one of few that need none.

use std::collections::BTreeSet;
use std::f64::consts::PI;

use pegbow_tests::hand::length_here;
use plan::Plan;
use plan::fingerprint::fingerprint;
use serde_json::Value;

use crate::printed::{Case, Printed};

/// The lengths among the figures: under these names, and in lists under them.
const LENGTHS: [&str; 32] = [
    "after",
    "along",
    "apex_moves",
    "before",
    "check_room",
    "cut",
    "distance",
    "error",
    "exact",
    "least",
    "length",
    "limit",
    "longest_pull",
    "look_again",
    "misread",
    "most",
    "radius",
    "rise",
    "root_zone",
    "remark",
    "sides",
    "station",
    "stops",
    "string",
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
const EXCUSED: [(&str, &str); 15] = [
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
    ("inches, 1/8 in", "the same"),
    ("nearest 1/8 in", "the same"),
];

/// A foot, metres.
const FOOT: f64 = 0.3048;

struct Known {
    lengths: Vec<f64>,
    counts: BTreeSet<u64>,
    area: f64,
    /// What findings measure that is no length, among other values.
    angles: Vec<f64>,
    /// What of each root zone is covered, in percent.
    roots: Vec<f64>,
}

fn known(printed: &Printed) -> Known {
    let mut lengths = Vec::new();
    let findings = &printed.figures["findings"];
    for value in [&printed.path, findings, &printed.figures["obstacles"]] {
        collect(value, &mut lengths);
    }
    let mut angles = Vec::new();
    // By how much a finding is beyond its limit is their difference.
    let figure = |finding: &Value, key: &str| finding[key].as_f64();
    for finding in findings.as_array().unwrap() {
        if let (Some(value), Some(limit)) = (figure(finding, "value"), figure(finding, "limit")) {
            lengths.push(value - limit);
        }
        angles.extend(figure(finding, "value"));
    }
    let tools = &printed.set_out()["tools"];
    let mut counts: BTreeSet<u64> = tools
        .as_object()
        .unwrap()
        .values()
        .filter_map(Value::as_u64)
        .collect();
    let pegs = [
        "path_pegs",
        "apex_pegs",
        "swing_pegs",
        "offset_pegs",
        "spare_pegs",
    ];
    counts.insert(pegs.iter().map(|of| tools[of].as_u64().unwrap()).sum());
    // The first three uses of a string are named, the others counted.
    let strings = tools["strings"].as_array().unwrap().iter();
    counts.extend(
        strings.map(|string| (string["used"].as_array().unwrap().len() as u64).saturating_sub(3)),
    );
    Known {
        lengths,
        counts,
        angles,
        area: printed.path["area"].as_f64().unwrap(),
        roots: printed.path["roots"]
            .as_array()
            .unwrap()
            .iter()
            .map(|root| 100.0 * root["covered"].as_f64().unwrap() / root["whole"].as_f64().unwrap())
            .collect(),
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
                        let pairs = list.iter().filter_map(Value::as_array).flatten();
                        lengths.extend(list.iter().chain(pairs).filter_map(Value::as_f64));
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

/// The sentences under `reasons`.
fn reasons_in<'a>(value: &'a Value, reasons: &mut Vec<&'a str>) {
    match value {
        Value::Object(fields) => {
            for (name, field) in fields {
                if name == "reasons" {
                    let list = field.as_array().into_iter().flatten();
                    reasons.extend(list.filter_map(Value::as_str));
                }
                reasons_in(field, reasons);
            }
        }
        Value::Array(list) => list.iter().for_each(|item| reasons_in(item, reasons)),
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
            0.5 * FOOT / 12.0 / places.map_or(1.0, |(_, places)| [10.0, 100.0][places.len() - 1])
        } else if says.contains(" ft") {
            // How long the tape is, in whole feet rounded down.
            FOOT
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
    let numbered = [
        "peg", "Peg", "PEG", "pegs", "bend", "Bend", "Page", "page", "option",
    ];
    if is_a_name(word) || word.starts_with("1:") {
        return true;
    }
    // A scale, `1 in = 20 ft`.
    if next == "in" && words.get(at + 2) == Some(&"=") || before == "=" && next.starts_with("ft") {
        return true;
    }
    let is_area = |unit: f64, half: f64| {
        let printed: f64 = word.parse().unwrap();
        (printed - known.area / unit).abs() <= half + 1e-9
    };
    if next.starts_with("m²") {
        return is_area(1.0, 0.005);
    }
    if next.starts_with("ft²") {
        return is_area(FOOT * FOOT, 0.05);
    }
    if let Some(degrees) = word.strip_suffix('°') {
        let printed = degrees.parse::<f64>().unwrap() * PI / 180.0;
        let half = 0.005 * PI / 180.0;
        return known
            .angles
            .iter()
            .any(|angle| (angle.abs() - printed).abs() <= half + 1e-9);
    }
    if next.starts_with('%') {
        let printed: f64 = word.parse().unwrap();
        return known
            .roots
            .iter()
            .any(|share| (share - printed).abs() <= 0.5 + 1e-9);
    }
    is_whole
        && (numbered.contains(&before)
            || before == "to" && at > 1 && numbered.contains(&words[at - 3])
            || known.counts.contains(&word.parse().unwrap()))
}

/// The numbers on the pages that are nowhere among the figures, each with its page and what is about it.
fn strangers(printed: &Printed, known: &Known, option: usize) -> Vec<String> {
    let names = names(&printed.plan, option);
    let mut reasons = Vec::new();
    reasons_in(printed.set_out(), &mut reasons);
    let mut strangers = Vec::new();
    for (page, number) in printed.pages.iter().zip(1..) {
        // Peg numbers and scale bars on the drawing of the plan, and numbers of steps.
        let texts = page.texts.iter().filter(|text| !text.furniture);
        let texts = texts.map(|text| text.text.trim());
        let is_whole = |text: &str| text.parse::<u32>().is_ok();
        let is_label = |text: &str| {
            let bar = text.strip_suffix(" m").or(text.strip_suffix(" ft"));
            let on_the_plan = number == 1 && is_whole(bar.unwrap_or(text));
            on_the_plan || text.strip_suffix('.').is_some_and(is_whole)
        };
        let texts: Vec<&str> = texts.filter(|text| !is_label(text)).collect();
        let mut flowing = texts.join(" ");
        // What hinders a way stands in the figures as the very sentence that is printed.
        for reason in &reasons {
            flowing = flowing.replace(reason, "·");
        }
        for name in &names {
            flowing = flowing.replace(name.as_str(), "·");
        }
        for (excused, _) in &EXCUSED {
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
                    if !known.has(says.trim(), metres, printed.half)
                        && !needs_none(&words, at, known)
                    {
                        strangers.push(format!(
                            "page {number}: {} | {says}",
                            words[at.saturating_sub(8)..at].join(" ")
                        ));
                    }
                    at += says.split_whitespace().count();
                }
                _ => {
                    if holds && !needs_none(&words, at, known) {
                        let around = &words[at.saturating_sub(8)..(at + 3).min(words.len())];
                        strangers.push(format!(
                            "page {number}: {} | {}",
                            around.join(" "),
                            words[at]
                        ));
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
    for case in Case::ALL {
        let strangers = strangers(case.printed(), &known(case.printed()), case.option());
        assert!(strangers.is_empty(), "{case:?}\n{}", strangers.join("\n"));
    }
}

/// The test above sees what is missing.
#[test]
fn a_number_that_is_no_figure_is_found() {
    let printed = Case::A.printed();
    let all = known(printed);
    let mut unseen = 0;
    for figure in [30.0, 18.955, 26.28, 5.745, 0.005] {
        let near = |length: &f64| (length - figure).abs() <= printed.half;
        let lengths = all.lengths.iter().filter(|length| !near(length)).copied();
        let without = Known {
            lengths: lengths.collect(),
            counts: all.counts.clone(),
            area: if (all.area - figure).abs() < 0.01 {
                0.0
            } else {
                all.area
            },
            angles: Vec::new(),
            roots: Vec::new(),
        };
        unseen += usize::from(strangers(printed, &without, 0).is_empty());
    }
    assert_eq!(unseen, 0);
}
