//! A copy of the price list lives in the plan: undone as one step, stored with it, shared between plans.

use std::sync::Arc;

use plan::price::{Labour, PriceList, read_price_list};
use plan::{Edit, History, Plan, file};
use rust_decimal::dec;

use super::lists::GOLDEN;
use plan::units::Units;

fn golden() -> Arc<PriceList> {
    Arc::new(read_price_list(GOLDEN.as_bytes()).unwrap())
}

#[test]
fn a_plan_without_prices_says_nothing_of_them() {
    let plan = Plan::empty(Units::Metric);
    assert!(plan.prices.is_empty());
    assert!(!file::write(&plan).contains("price"));
}

#[test]
fn it_is_stored_with_the_plan() {
    let mut history = History::new(Plan::empty(Units::Metric));
    history.commit(&Edit::SetPrices(golden())).unwrap();
    let text = file::write(history.plan());
    let read = file::read(text.as_bytes()).unwrap();
    assert_eq!(read, **history.plan());
    assert_eq!(file::write(&read), text);
    // The list stands in the plan as in its own file, set in by two spaces.
    let list: Vec<String> = GOLDEN.lines().map(|line| format!("  {line}")).collect();
    let list = list.join("\n");
    assert!(
        text.contains(&format!("  prices: {}", list.trim_start())),
        "{text}"
    );
}

#[test]
fn it_is_set_and_undone_as_one_step() {
    let mut history = History::new(Plan::empty(Units::Metric));
    history.commit(&Edit::SetPrices(golden())).unwrap();
    assert_eq!(history.undo_name(), Some("set the prices"));
    let with_title = Edit::SetTitle("Yard".into());
    history.commit(&with_title).unwrap();
    assert!(Arc::ptr_eq(&history.plan().prices, &golden()) || history.plan().prices == golden());
    history.undo();
    history.undo();
    assert!(history.plan().prices.is_empty());
    history.commit(&Edit::SetPrices(Arc::default())).unwrap();
    assert_eq!(
        history.undo_name(),
        None,
        "an empty list for an empty list is no step"
    );
}

#[test]
fn a_list_past_a_limit_is_refused() {
    let mut history = History::new(Plan::empty(Units::Metric));
    let before = Arc::clone(history.plan());
    let bad = PriceList {
        labour: vec![Labour {
            key: None,
            name: String::new(),
            rate: dec!(-1),
        }],
        ..PriceList::default()
    };
    let error = history.commit(&Edit::SetPrices(Arc::new(bad))).unwrap_err();
    assert_eq!(
        error.to_string(),
        "rate 1: a price is 0 or more, this one is -1"
    );
    assert!(Arc::ptr_eq(history.plan(), &before));
}

#[test]
fn prices_out_of_place_in_a_plan_file() {
    let text = "(version: 1, units: Metric, graduation: Millimetre, prices: (version: 2))";
    assert_eq!(
        file::read(text.as_bytes()).unwrap_err().to_string(),
        "the price list: it is of version 2, this program reads version 1"
    );
    let text = "(version: 1, units: Metric, graduation: Millimetre, prices: 5)";
    assert_eq!(
        file::read(text.as_bytes()).unwrap_err().to_string(),
        "line 1, column 60: `(` is expected here"
    );
}
