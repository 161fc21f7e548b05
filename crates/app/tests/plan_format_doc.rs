//! docs/plan-format.md shows a plan that opens, and names every field and word that a plan may have.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use plan::document::{Extent, Plan};
use plan::limits;
use plan::units::Graduation;

const DOC: &str = include_str!("../../../docs/plan-format.md");

fn example() -> Plan {
    let (_, rest) = DOC.split_once("```ron\n").unwrap();
    let (text, _) = rest.split_once("```").unwrap();
    plan::file::read(text.as_bytes()).unwrap()
}

#[test]
fn its_example_opens_and_can_be_drawn() {
    let plan = example();
    let solved = plan.solve();
    assert!(solved.schemes[0].routes[0].centre_line.is_some());
    assert!(
        plan.site
            .obstacles
            .iter()
            .any(|o| matches!(o.extent, Extent::Round { .. }))
    );
}

#[test]
fn every_field_is_named() {
    // What the program writes for a plan that has everything names every field there is.
    let text = plan::file::write(&example());
    let fields: Vec<&str> = text
        .split(|c: char| !(c.is_alphanumeric() || c == '_' || c == ':'))
        .filter_map(|word| word.strip_suffix(':'))
        .collect();
    assert!(fields.len() > 30);
    for field in fields {
        let cell = format!("`{field}`");
        let inside = format!("{field}: ");
        assert!(
            DOC.contains(&cell) || DOC.contains(&inside),
            "{field} is not described"
        );
    }
    for graduation in Graduation::ALL {
        assert!(DOC.contains(&format!("`{graduation:?}`")), "{graduation:?}");
    }
}

#[test]
fn its_limits_are_those_of_the_program() {
    let (_, table) = DOC.split_once("## Limits").unwrap();
    let plain: String = table.chars().filter(|c| !matches!(c, ' ' | ',')).collect();
    let check = |row: &str, limit: String| {
        let line = plain
            .lines()
            .find(|line| line.starts_with(&format!("|{row}")))
            .unwrap();
        assert!(line.contains(&limit), "{line}: {limit}");
    };
    check("file", limits::FILE_BYTES.to_string());
    check("coordinates", format!("±{}m", limits::COORDINATE));
    check(
        "lengths",
        format!("{}mto{}m", limits::SHORTEST, limits::LONGEST),
    );
    check(
        "width",
        format!("{}mto{}m", limits::NARROWEST, limits::WIDEST),
    );
    check("names", limits::NAME.to_string());
    check("notes", limits::NOTE.to_string());
    check("legs", limits::LEGS.to_string());
    check("pads", limits::PADS.to_string());
    check("marks", limits::MARKS.to_string());
    check("corners", limits::OBSTACLE_VERTICES.to_string());
}
