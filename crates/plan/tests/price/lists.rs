//! Price lists as files: the golden one read and written to the byte.

use plan::price::{
    Currency, Halves, LABOUR, PRICE_LINES, PriceList, SignPlace, Sold, TAXES, Unit, VALID_DAYS,
    read_price_list, write_price_list,
};
use rust_decimal::dec;

use super::share;

/// A list with everything a list may have.
pub(crate) const GOLDEN: &str = include_str!("prices.ron");

#[test]
fn the_golden_list_is_written_as_it_was_read() {
    let prices = read_price_list(GOLDEN.as_bytes()).unwrap();
    assert_eq!(write_price_list(&prices), GOLDEN);
}

#[test]
fn it_means_what_it_says() {
    let prices = read_price_list(GOLDEN.as_bytes()).unwrap();
    let currency = Currency {
        sign: "Fr.".into(),
        place: SignPlace::After,
        digits: 2,
        step: Some(dec!(0.05)),
        halves: Halves::Even,
    };
    assert_eq!(prices.currency, currency);
    let stone = &prices.lines[0];
    assert_eq!(stone.sold, Sold::Per(Unit::Tonne));
    assert_eq!((stone.price, stone.delivery), (dec!(24.50), dec!(45.00)));
    assert_eq!(
        (stone.least_order, stone.tax),
        (Some(dec!(0.5)), Some(share(dec!(5))))
    );
    let bag = Sold::Pack {
        name: "25 kg bag".into(),
        holds: dec!(25),
        unit: Unit::Kilogram,
    };
    assert_eq!(prices.lines[1].sold, bag);
    assert_eq!(prices.labour[1].key.as_deref(), Some("digging"));
    assert_eq!(
        (prices.overhead, prices.contingency),
        (share(dec!(20)), share(dec!(7.5)))
    );
    assert_eq!(prices.valid_days, Some(30));
}

#[test]
fn an_empty_list() {
    let prices = read_price_list(b"(version: 1)").unwrap();
    assert_eq!(prices, PriceList::default());
    let text = write_price_list(&prices);
    assert_eq!(read_price_list(text.as_bytes()), Ok(prices));
}

#[test]
fn what_a_person_typed_keeps_its_digits() {
    // As 64-bit numbers these would not come back.
    for price in [
        "24.50",
        "0.1",
        "999999999.9999",
        "1000000000",
        "0.0001",
        "0.00",
        "07.20",
    ] {
        let text =
            format!(r#"(version: 1, lines: [(key: "a", sold: Per(Tonne), price: "{price}")])"#);
        let read = read_price_list(text.as_bytes()).unwrap();
        let plain = price.trim_start_matches('0');
        let written = write_price_list(&read);
        assert!(written.contains(plain), "{price}: {written}");
    }
}

#[test]
fn written_in_other_ways() {
    let prices = read_price_list(GOLDEN.as_bytes()).unwrap();
    for text in [
        format!("\u{feff}{GOLDEN}"),
        GOLDEN.replace('\n', "\r\n"),
        GOLDEN.replace("20 %", "20%"),
        GOLDEN.replace("20 %", " 20  % "),
        GOLDEN.replace("\"24.50\"", "\" 24.50 \""),
        GOLDEN.replacen("  currency", "  // mine\n  currency", 1),
    ] {
        assert_eq!(
            read_price_list(text.as_bytes()).as_ref(),
            Ok(&prices),
            "{text}"
        );
    }
}

#[test]
fn cut_short_at_every_byte_it_is_refused() {
    let text = GOLDEN.trim_end();
    for end in 0..text.len() {
        let error = read_price_list(&text.as_bytes()[..end]).expect_err("only the whole is a list");
        assert!(!error.to_string().is_empty());
    }
}

#[test]
fn one_wrong_byte_anywhere_breaks_nothing() {
    for at in 0..GOLDEN.len() {
        for wrong in *b"\0(]\"x-9,%\xff" {
            let mut bytes = GOLDEN.as_bytes().to_vec();
            bytes[at] = wrong;
            if let Ok(prices) = read_price_list(&bytes) {
                let again = read_price_list(write_price_list(&prices).as_bytes());
                assert_eq!(again, Ok(prices), "byte {at}");
            }
        }
    }
}

const DOC: &str = include_str!("../../../../docs/prices.md");

#[test]
fn the_example_of_the_handbook_opens_and_every_word_is_named() {
    let (_, rest) = DOC.split_once("```ron\n").unwrap();
    let (example, described) = rest.split_once("```").unwrap();
    let prices = read_price_list(example.as_bytes()).unwrap();
    let text = write_price_list(&prices);
    let fields = text
        .split(|c: char| !(c.is_alphanumeric() || c == '_' || c == ':'))
        .filter_map(|word| word.strip_suffix(':'));
    for field in fields {
        let (cell, inside) = (format!("`{field}`"), format!("{field}: "));
        assert!(
            described.contains(&cell) || described.contains(&inside),
            "{field} is not described"
        );
    }
    for unit in Unit::ALL {
        let word = format!("`{unit:?}`");
        let row = described.lines().find(|line| line.contains(&word)).unwrap();
        let division = unit.division();
        assert!(
            row.ends_with(&format!("| {division} |")),
            "{row}: {division}"
        );
    }
    let plain = described.replace(',', "");
    for (what, limit) in [
        ("`lines`", PRICE_LINES),
        ("`labour`", LABOUR),
        ("`taxes`", TAXES),
        ("`valid_days`", VALID_DAYS as usize),
    ] {
        let row = plain
            .lines()
            .find(|line| line.starts_with(&format!("| {what}")));
        assert!(
            row.unwrap().contains(&format!(" {limit}")),
            "{what}: {limit}"
        );
    }
}
