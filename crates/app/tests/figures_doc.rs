//! docs/figures.md names every key that the program writes as JSON, and no other.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::collections::BTreeSet;
use std::ffi::OsString;

use pegbow::cli::{self, Asked};
use plan::count::build_up::{Bought, LayerWidth, built_in};
use plan::count::paving::{Bond, Lay};
use plan::document::Scheme;
use serde_json::Value;

const DOC: &str = include_str!("../../../docs/figures.md");

fn json(args: &[&str]) -> Value {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let asked = cli::run(args.iter().map(OsString::from), &mut out, &mut err);
    assert_eq!(
        asked,
        Asked::Done(cli::DONE),
        "{}",
        String::from_utf8_lossy(&err)
    );
    serde_json::from_slice(&out).unwrap()
}

fn collect(value: &Value, keys: &mut BTreeSet<String>) {
    match value {
        Value::Object(fields) => {
            for (key, value) in fields {
                keys.insert(key.clone());
                collect(value, keys);
            }
        }
        Value::Array(items) => items.iter().for_each(|item| collect(item, keys)),
        _ => {}
    }
}

/// The first cells of the tables, such as `| `length` | …`.
fn named() -> BTreeSet<String> {
    let cell = |line: &str| Some(line.strip_prefix("| `")?.split_once('`')?.0.to_owned());
    DOC.lines().filter_map(cell).collect()
}

/// Builds an option of pavers on sand, laid so.
fn lay(scheme: &mut Scheme, laid: Bond, width: LayerWidth) {
    let mut up = built_in()[3].clone();
    let surface = &mut up.layers[0];
    surface.width = width;
    if let Bought::Units { bond, .. } = &mut surface.bought {
        *bond = laid;
    }
    scheme.build_up = Some(up.into());
}

#[test]
fn every_key_is_named_and_every_name_is_a_key() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("yard.ron");
    // Straights, bends, roundings, onward bends, and a width that leaves findings of every severity.
    let text = plan::example::TEXT.replacen("width: 1.2", "width: 9.0", 1);
    // And two paths near each other, to be set out truer than a tape does.
    let mut plan = plan::file::read(text.as_bytes()).unwrap();
    let beside = plan.schemes[0].routes[0].clone();
    plan.schemes[0].routes.push(beside);
    plan.set_out.surface = plan::document::Surface::Flags;
    // And pavers that cannot be counted, others that follow a wide bend whole, and cut in a tight one.
    lay(&mut plan.schemes[0], Bond::Running, LayerWidth::Dig);
    let courses = Bond::Radial(Lay::Stretcher);
    lay(&mut plan.schemes[1], courses, LayerWidth::Path);
    lay(&mut plan.schemes[2], courses, LayerWidth::Path);
    std::fs::write(&path, plan::file::write(&plan)).unwrap();
    let figures = json(&["figures", path.to_str().unwrap()]);
    assert!(!figures["findings"].as_array().unwrap().is_empty());

    let mut keys = BTreeSet::new();
    collect(&figures, &mut keys);
    collect(
        &json(&["bend", "--chord", "4m", "--radius", "3m", "--json"]),
        &mut keys,
    );
    assert!(keys.len() > 30, "{keys:?}");
    let not_a_key: Vec<_> = named().difference(&keys).cloned().collect();
    let not_named: Vec<_> = keys.difference(&named()).cloned().collect();
    assert_eq!((not_a_key, not_named), (vec![], vec![]));
}

#[test]
fn every_code_of_a_finding_is_named() {
    // One list in the program, read from its source so that a new code cannot be forgotten.
    let source = include_str!("../../plan/src/finding.rs");
    let codes: Vec<&str> = source
        .lines()
        .filter_map(|line| {
            line.trim()
                .strip_prefix("Self::")?
                .split_once("=> \"")?
                .1
                .strip_suffix("\",")
        })
        .collect();
    assert!(codes.len() > 10, "{codes:?}");
    for code in codes {
        assert!(
            DOC.contains(&format!("`{code}`")),
            "{code} is not in docs/figures.md"
        );
    }
}
