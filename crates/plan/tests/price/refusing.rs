//! Price lists that are none, each with its sentence.

use plan::price::read_price_list;

use super::lists::GOLDEN;

#[track_caller]
fn check(bytes: &[u8], expected: &str) {
    match read_price_list(bytes) {
        Ok(_) => panic!("it was read; expected: {expected}"),
        Err(error) => assert_eq!(error.to_string(), expected),
    }
}

/// The golden list with one thing changed.
#[track_caller]
fn changed(from: &str, to: &str, expected: &str) {
    assert!(GOLDEN.contains(from), "{from} is not in the list");
    check(GOLDEN.replacen(from, to, 1).as_bytes(), expected);
}

#[test]
fn what_cannot_be_a_list() {
    check(b"", "the file is empty: there is no price list in it");
    check(
        b"\x89PNG",
        "byte 0 is not text: this is not a price list, which is a text file ending in .ron",
    );
    check(
        b"hello",
        "line 1, column 1: this does not start as a price list does, with `(` and its fields",
    );
    changed(
        "version: 1",
        "version: 2",
        "this price list is of version 2, this program reads up to version 1: open it with a newer one",
    );
    changed(
        "version: 1",
        "version: 0",
        "this price list says it is of version 0: there is no such version, the first is 1",
    );
    check(
        GOLDEN
            .trim_end()
            .trim_end_matches(')')
            .trim_end()
            .as_bytes(),
        "x",
    );
}

#[test]
fn prices_that_are_none() {
    changed("\"24.50\"", "\"-24.50\"", "x");
    changed("\"24.50\"", "24.50", "x");
    changed("\"24.50\"", "24", "x");
    changed("\"24.50\"", "-24", "x");
    changed("\"24.50\"", "\"24,50\"", "x");
    changed("\"24.50\"", "\"\"", "x");
    changed("\"24.50\"", "\"1 250.00\"", "x");
    changed("\"24.50\"", "\"24.50 €\"", "x");
    changed("\"24.50\"", "\"NaN\"", "x");
    changed("\"24.50\"", "\"1e3\"", "x");
    changed("\"24.50\"", "\"24.50001\"", "x");
    changed("\"24.50\"", "\"1000000001\"", "x");
    changed("\"24.50\"", "\"99999999999999999999999999999999999\"", "x");
    changed("\"45.00\"", "\"-45.00\"", "x");
    changed("\"0.5\"", "\"0\"", "x");
    changed("\"25\"", "\"0\"", "x");
    changed("\"38.00\"", "\"-38.00\"", "x");
}

#[test]
fn shares_that_are_none() {
    changed("\"20 %\"", "\"120 %\"", "x");
    changed("\"20 %\"", "\"-5 %\"", "x");
    changed("\"20 %\"", "\"20\"", "x");
    changed("\"20 %\"", "20", "x");
    changed("\"20 %\"", "\"a fifth\"", "x");
    changed("\"20 %\"", "\"12.34567 %\"", "x");
    changed("\"8.1 %\"", "\"100.1 %\"", "x");
    changed("\"5 %\"", "\"500 %\"", "x");
}

#[test]
fn slips_of_the_pen() {
    changed("Per(Tonne)", "Per(Furlong)", "x");
    changed("unit: Kilogram", "unit: Bag", "x");
    changed("Per(Tonne)", "Each(Tonne)", "x");
    changed("supplier:", "seller:", "x");
    changed("sold: Per(Tonne),", "", "x");
    changed("price: \"24.50\",", "price: \"24.50\"", "x");
    changed("place: After", "place: Behind", "x");
    changed("halves: Even", "halves: Odd", "x");
}

#[test]
fn what_does_not_fit_together() {
    changed(
        "\"joint-sand\",\n      supplier: \"The Yard\"",
        "\"sub-base\",\n      supplier: \"Quarry Lane\"",
        "x",
    );
    changed("key: Some(\"digging\"),", "", "x");
    changed("key: \"sub-base\"", "key: \" \"", "x");
    changed("name: \"25 kg bag\"", "name: \"\"", "x");
    changed("digits: 2", "digits: 5", "x");
    changed("digits: 2", "digits: 1", "x");
    changed("\"0.05\"", "\"0\"", "x");
    changed("\"Fr.\"", "\"thirteen char\"", "x");
    changed("Some(30)", "Some(0)", "x");
    changed("\"VAT\"", "\"V\\nAT\"", "x");
}
