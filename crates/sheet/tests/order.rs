//! The order list on paper: every figure of the order stands on it, sums add up, what has no price says so.

#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot be set up fails by panicking"
)]

mod yard;

use std::sync::Arc;

use plan::Plan;
use plan::order::{Order, order};
use plan::price::PriceList;
use sheet::{Paper, Request, Sheet, compose_order_list, order_list};
use yard::{assert_in_order, in_feet, prices, rows, said};

fn request(scheme: usize) -> Request {
    Request {
        scheme,
        paper: Paper::A4,
        both_units: false,
        date: None,
    }
}

fn listed(plan: &Plan, scheme: usize) -> (Order, Sheet) {
    let solved = plan.solve();
    let order = order(plan, &solved, scheme).unwrap();
    (order, compose_order_list(plan, &solved, &request(scheme)))
}

/// The price of the first need of the first option taken off the list.
fn lacking() -> Plan {
    let mut plan = yard::yard();
    plan.prices = Arc::new(prices(&plan, "sub-base"));
    plan
}

#[test]
fn nothing_is_cut_and_no_words_lie_over_others() {
    for plan in [yard::yard(), in_feet(yard::yard()), lacking()] {
        let solved = plan.solve();
        for paper in Paper::ALL {
            for scheme in 0..plan.schemes.len() {
                for both_units in [false, true] {
                    let request = Request {
                        paper,
                        both_units,
                        ..request(scheme)
                    };
                    assert_in_order(&compose_order_list(&plan, &solved, &request));
                }
            }
        }
    }
}

#[test]
fn every_figure_of_the_order_is_read_back() {
    for plan in [yard::yard(), in_feet(yard::yard()), lacking()] {
        for scheme in 0..plan.schemes.len() {
            let (order, sheet) = listed(&plan, scheme);
            let rows = rows(&sheet);
            let needs = order.quantities.needs.iter().zip(&order.charge.lines);
            for (need, line) in needs {
                let amount = need.measure.text(need.amount, plan.ruler());
                let is_of = |row: &&Vec<String>| row[0] == need.name && row[1].starts_with(&amount);
                let row = rows.iter().find(is_of).unwrap();
                for end in need.range.into_iter().flatten() {
                    let end = need.measure.text(end, plan.ruler());
                    assert!(row[1].contains(&end), "{end} in {row:?}");
                }
                match &line.price {
                    Ok(priced) => {
                        assert_eq!(row[5], order.charge.currency.write(priced.total));
                        assert!(row[4].contains(&priced.supplier));
                    }
                    Err(_) => assert_eq!(row[5], "no price"),
                }
                let ordered = line.ordered.as_ref().unwrap();
                if ordered.packs {
                    let count = ordered.count.normalize().to_string();
                    assert!(row[2].starts_with(&count), "{row:?}");
                    let left = need.measure.text(ordered.left_over, plan.ruler());
                    assert_eq!(row[3], left);
                }
                for because in &need.because {
                    let is_said = |row: &Vec<String>| {
                        row[0] == because.what
                            && row[1] == because.source
                            && row[2].contains(&need.name)
                    };
                    assert!(rows.iter().any(is_said), "{because:?}");
                }
            }
            let said = said(&sheet);
            let spoil = &order.quantities.spoil;
            for trips in [&spoil.barrows, &spoil.loads] {
                assert!(said.contains(&trips.trips.to_string()));
            }
            assert!(said.contains(&plan::fingerprint::fingerprint(&plan)));
        }
    }
}

/// A figure of money in euros, in hundredths.
fn cents(words: &str) -> i64 {
    let figures: String = words
        .trim_start_matches('€')
        .chars()
        .take_while(|c| c.is_ascii_digit() || matches!(c, '.' | '\u{a0}'))
        .filter(char::is_ascii_digit)
        .collect();
    figures.parse().unwrap()
}

/// The lines printed for a part add up to the part, parts and deliveries to the cost, cost and shares
/// to the net price, net price and taxes to the total: read from paper alone, to the last hundredth.
#[test]
fn printed_sums_are_the_sums_of_what_is_printed() {
    for plan in [yard::yard(), lacking()] {
        for scheme in 0..plan.schemes.len() {
            let (order, sheet) = listed(&plan, scheme);
            let rows = rows(&sheet);
            let lines = rows
                .iter()
                .filter(|row| row.len() == 6 && row[5].starts_with('€'));
            let lines: i64 = lines.map(|row| cents(&row[5])).sum();
            let sums: Vec<&Vec<String>> = rows
                .iter()
                .filter(|row| row.len() == 2 && row[1].starts_with('€'))
                .collect();
            let of = |name: &str| {
                let row = sums
                    .iter()
                    .position(|row| row[0].starts_with(name))
                    .unwrap();
                (row, cents(&sums[row][1]))
            };
            let between = |from: usize, to: usize| -> i64 {
                sums[from..to].iter().map(|row| cents(&row[1])).sum()
            };
            let ((cost_at, cost), (net_at, net)) = (of("Cost"), of("Price before tax"));
            let parts = order.charge.parts.len();
            assert_eq!(between(0, parts), lines);
            assert_eq!(between(0, cost_at), cost);
            assert_eq!(between(cost_at, net_at), net);
            let total = between(net_at, sums.len());
            let said = said(&sheet);
            let (_, printed) = said.split_once("Total: ").unwrap();
            assert_eq!(cents(printed), total);
            assert_eq!(order.charge.currency.write(order.charge.total), {
                let end = printed.find([',', ' ']).unwrap();
                printed[..end].to_owned()
            });
        }
    }
}

#[test]
fn a_missing_price_makes_the_total_incomplete_and_is_never_nothing() {
    let (order, sheet) = listed(&lacking(), 0);
    assert_eq!(order.charge.missing, 1);
    let said = said(&sheet);
    assert!(said.contains("incomplete: 1 of"), "{said}");
    assert!(said.contains("no price"));
    let zero = order.charge.currency.write(Default::default());
    assert!(!said.contains(&format!("{zero} ")), "a price of nothing");
    let (_, whole) = listed(&yard::yard(), 0);
    assert!(!yard::said(&whole).contains("incomplete"));
}

#[test]
fn without_a_price_list_no_money_is_spoken_of() {
    let mut plan = yard::yard();
    plan.prices = Arc::new(PriceList::default());
    let (_, sheet) = listed(&plan, 0);
    let said = said(&sheet);
    assert!(!said.contains('€') && !said.contains("Price before"));
    assert!(!rows(&sheet).iter().flatten().any(|cell| cell == "no price"));
    assert!(said.contains("has no price list"));
    assert_in_order(&sheet);
}

#[test]
fn what_cannot_be_counted_says_why() {
    let mut plan = yard::yard();
    plan.schemes[0].build_up = None;
    let solved = plan.solve();
    for (scheme, why) in [(0, "what it is built of"), (9, "no such option")] {
        let sheet = compose_order_list(&plan, &solved, &request(scheme));
        assert!(said(&sheet).contains(why));
    }
    let bytes = order_list(&plan, &solved, &request(1)).unwrap();
    assert!(bytes.starts_with(b"%PDF-"));
}
