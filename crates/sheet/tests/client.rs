//! The page a client chooses from: nothing cut however much is said, no money unless it is asked for.

#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot be set up fails by panicking"
)]

mod yard;

use std::sync::Arc;

use plan::Plan;
use plan::order::order;
use sheet::{Date, OptionsRequest, Paper, Sheet, client_page, compose_client_page};
use yard::{assert_in_order, in_feet, prices, rows, said};

const NAME: &str = "Round the old pear tree and past the bench by the cistern";
const NOTES: &str =
    "Keeps the lawn in one piece, with room for a bench.\nThe hedge is cut by hand.";

fn request(schemes: usize, prices: bool) -> OptionsRequest {
    OptionsRequest {
        schemes: (0..schemes).collect(),
        prices,
        paper: Paper::A4,
        both_units: false,
        date: Date::new(2026, 4, 30),
    }
}

fn composed(plan: &Plan, request: &OptionsRequest) -> Sheet {
    compose_client_page(plan, &plan.solve(), request)
}

fn talkative(name: &str) -> Plan {
    let mut plan = yard::yard();
    for scheme in &mut plan.schemes {
        scheme.name = name.to_owned();
        scheme.notes = NOTES.to_owned();
    }
    plan
}

#[test]
fn one_page_holds_two_to_four_options_and_nothing_is_cut() {
    let longest = ["Quince ".repeat(28), "Q".repeat(200)];
    let plans = [NAME, &longest[0], &longest[1]].map(talkative);
    for plan in plans
        .into_iter()
        .flat_map(|plan| [plan.clone(), in_feet(plan)])
    {
        for paper in [Paper::A4, Paper::Letter] {
            for schemes in [1, 2, 4] {
                for (prices, both_units) in [(true, false), (false, false), (true, true)] {
                    let request = OptionsRequest {
                        paper,
                        both_units,
                        ..request(schemes, prices)
                    };
                    let sheet = composed(&plan, &request);
                    assert_eq!(sheet.pages.len(), 1);
                    assert_in_order(&sheet);
                }
            }
        }
    }
}

#[test]
fn four_long_names_and_their_notes_are_said_whole() {
    for plan in [talkative(NAME), in_feet(talkative(NAME))] {
        for paper in [Paper::A4, Paper::Letter] {
            let request = OptionsRequest {
                paper,
                ..request(4, true)
            };
            let rows = rows(&composed(&plan, &request));
            let notes = rows.iter().find(|row| row[0] == "Notes").unwrap();
            for (index, letter) in ["A", "B", "C", "D"].iter().enumerate() {
                assert_eq!(rows[0][index + 1], format!("{letter}, {NAME}"));
                assert_eq!(notes[index + 1], NOTES.replace('\n', " "));
            }
            let cut = rows.iter().flatten().find(|cell| cell.contains('…'));
            assert_eq!(cut, None);
        }
    }
}

#[test]
fn a_name_is_shortened_only_past_two_lines_and_between_words() {
    let long = talkative(&"Quince ".repeat(28));
    let rows = rows(&composed(&long, &request(4, true)));
    for name in &rows[0][1..] {
        assert!(name.ends_with("Quince…"), "{name}");
    }
}

#[test]
fn prices_are_those_of_the_orders() {
    let plan = yard::yard();
    let solved = plan.solve();
    let sheet = composed(&plan, &request(4, true));
    let rows = rows(&sheet);
    let price = rows.iter().find(|row| row[0] == "Price").unwrap();
    for scheme in 0..4 {
        let charge = order(&plan, &solved, scheme).unwrap().charge;
        let total = charge.currency.write(charge.total);
        assert_eq!(price[scheme + 1], format!("{total} with VAT"));
    }
    let said = said(&sheet);
    for words in [
        "30 days from 2026-04-30",
        "Included",
        "Rock",
        "roots",
        "A change",
    ] {
        assert!(said.contains(words), "{words}");
    }
}

#[test]
fn without_prices_no_figure_of_money_stands_anywhere() {
    let plan = yard::yard();
    let solved = plan.solve();
    let sheet = composed(&plan, &request(4, false));
    let said = said(&sheet).to_lowercase();
    for scheme in 0..4 {
        let charge = order(&plan, &solved, scheme).unwrap().charge;
        let figures = charge.currency.write(charge.total);
        assert!(!said.contains(figures.trim_start_matches('€')));
    }
    for words in ["€", "price", "cost", "vat", "19 %", "20 %", "7.5 %"] {
        assert!(!said.contains(words), "{words}");
    }
}

#[test]
fn what_is_not_known_is_said_to_be_so() {
    let mut plan = yard::yard();
    plan.prices = Arc::new(prices(&plan, "sub-base"));
    plan.schemes[1].build_up = None;
    let rows = rows(&composed(&plan, &request(2, true)));
    let price = rows.iter().find(|row| row[0] == "Price").unwrap();
    assert!(price[1].ends_with("incomplete: one price is still missing"));
    assert_eq!(price[2], "price not known yet");
}

/// Nobody who is to live with a path asks for radii, swing points or what a drawing lacks.
#[test]
fn a_client_reads_no_words_of_the_trade() {
    let said = said(&composed(&talkative(NAME), &request(4, true))).to_lowercase();
    for word in [
        "radius", "chord", "apex", "swing", "sub-base", "finding", "bank", "overhead",
    ] {
        assert!(!said.contains(word), "{word}");
    }
}

#[test]
fn options_that_are_not_there_are_left_out() {
    let plan = yard::yard();
    let solved = plan.solve();
    let asked = |schemes: Vec<usize>| {
        let request = OptionsRequest {
            schemes,
            ..request(0, true)
        };
        client_page(&plan, &solved, &request).unwrap();
        rows(&compose_client_page(&plan, &solved, &request))
    };
    assert_eq!(asked(vec![2, 7, 2, 0])[0].len(), 3);
    assert!(asked(vec![9]).is_empty());
}
