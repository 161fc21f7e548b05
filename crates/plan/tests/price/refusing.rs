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
        "line 50, column 23: the file stops here, in the middle of the price list: the end of it is lost",
    );
}

#[test]
fn prices_that_are_none() {
    changed(
        "\"24.50\"",
        "\"-24.50\"",
        "line 16, column 15: a price is 0 or more, this one is -24.50",
    );
    changed(
        "\"24.50\"",
        "24.50",
        "line 16, column 14: this is written between double quotes, such as \"24.50\"",
    );
    changed(
        "\"24.50\"",
        "24",
        "line 16, column 14: this is written between double quotes, such as \"24.50\"",
    );
    changed(
        "\"24.50\"",
        "-24",
        "line 16, column 15: this is written between double quotes, such as \"24.50\"",
    );
    changed(
        "\"24.50\"",
        "\"24,50\"",
        "line 16, column 15: `24,50` is no price or count: write figures with a point before the decimals and nothing between thousands, such as \"1250.00\"",
    );
    changed(
        "\"24.50\"",
        "\"\"",
        "line 16, column 15: nothing is written here: write figures, such as \"24.50\", or take this line of the list out",
    );
    changed(
        "\"24.50\"",
        "\"1 250.00\"",
        "line 16, column 15: `1 250.00` is no price or count: write figures with a point before the decimals and nothing between thousands, such as \"1250.00\"",
    );
    changed(
        "\"24.50\"",
        "\"24.50 €\"",
        "line 16, column 15: `24.50 €` is no price or count: write figures with a point before the decimals and nothing between thousands, such as \"1250.00\"",
    );
    changed(
        "\"24.50\"",
        "\"NaN\"",
        "line 16, column 15: `NaN` is no price or count: write figures with a point before the decimals and nothing between thousands, such as \"1250.00\"",
    );
    changed(
        "\"24.50\"",
        "\"1e3\"",
        "line 16, column 15: `1e3` is no price or count: write figures with a point before the decimals and nothing between thousands, such as \"1250.00\"",
    );
    changed(
        "\"24.50\"",
        "\"24.50001\"",
        "line 16, column 15: a price has at most 4 digits behind the point, this one is 24.50001",
    );
    changed(
        "\"24.50\"",
        "\"1000000001\"",
        "line 16, column 15: a price is at most 1000000000, this one is 1000000001",
    );
    changed(
        "\"24.50\"",
        "\"99999999999999999999999999999999999\"",
        "line 16, column 15: `99999999999999999999999999999999` is no price or count: write figures with a point before the decimals and nothing between thousands, such as \"1250.00\"",
    );
    changed(
        "\"45.00\"",
        "\"-45.00\"",
        "line 18, column 18: a price is 0 or more, this one is -45.00",
    );
    changed(
        "\"0.5\"",
        "\"0\"",
        "line 17, column 26: a count is more than 0, this one is 0",
    );
    changed(
        "\"25\"",
        "\"0\"",
        "line 26, column 17: a count is more than 0, this one is 0",
    );
    changed(
        "\"38.00\"",
        "\"-38.00\"",
        "line 34, column 14: a price is 0 or more, this one is -38.00",
    );
}

#[test]
fn shares_that_are_none() {
    changed(
        "\"20 %\"",
        "\"120 %\"",
        "line 42, column 14: a share is at most 100 %, this one is 120 %",
    );
    changed(
        "\"20 %\"",
        "\"-5 %\"",
        "line 42, column 14: a share is 0 % or more, this one is -5 %",
    );
    changed(
        "\"20 %\"",
        "\"20\"",
        "line 42, column 14: `20` is no share: write figures and the sign, such as \"20 %\" or \"7.5 %\"",
    );
    changed(
        "\"20 %\"",
        "20",
        "line 42, column 13: this is written between double quotes, such as \"20 %\"",
    );
    changed(
        "\"20 %\"",
        "\"a fifth\"",
        "line 42, column 14: `a fifth` is no share: write figures and the sign, such as \"20 %\" or \"7.5 %\"",
    );
    changed(
        "\"20 %\"",
        "\"12.34567 %\"",
        "line 42, column 14: a share has at most 4 digits behind the point, this one is 12.34567 %",
    );
    changed(
        "\"8.1 %\"",
        "\"100.1 %\"",
        "line 47, column 15: a share is at most 100 %, this one is 100.1 %",
    );
    changed(
        "\"5 %\"",
        "\"500 %\"",
        "line 19, column 18: a share is at most 100 %, this one is 500 %",
    );
}

#[test]
fn slips_of_the_pen() {
    changed(
        "Per(Tonne)",
        "Per(Furlong)",
        "line 15, column 17: `Furlong` is not one of the words for this: write `Metre`, `Foot`, `Yard`, `SquareMetre`, `SquareFoot`, `SquareYard`, `CubicMetre`, `Litre`, `CubicFoot`, `CubicYard`, `Kilogram`, `Tonne`, `Pound`, `ShortTon`, `Piece` or `Hour`",
    );
    changed(
        "unit: Kilogram",
        "unit: Bag",
        "line 27, column 15: `Bag` is not one of the words for this: write `Metre`, `Foot`, `Yard`, `SquareMetre`, `SquareFoot`, `SquareYard`, `CubicMetre`, `Litre`, `CubicFoot`, `CubicYard`, `Kilogram`, `Tonne`, `Pound`, `ShortTon`, `Piece` or `Hour`",
    );
    changed(
        "Per(Tonne)",
        "Each(Tonne)",
        "line 15, column 13: `Each` is not one of the words for this: write `Per` or `Pack`",
    );
    changed(
        "supplier:",
        "seller:",
        "line 14, column 7: there is no field `seller` here: it may be `key`, `name`, `supplier`, `sold`, `price`, `least_order`, `delivery` or `tax`",
    );
    changed(
        "sold: Per(Tonne),",
        "",
        "line 20, column 5: the field `sold` is missing from what ends here",
    );
    changed(
        "price: \"24.50\",",
        "price: \"24.50\"",
        "line 17, column 7: a comma is missing before this, or what stands before it is not as it should be",
    );
    changed(
        "place: After",
        "place: Behind",
        "line 5, column 12: `Behind` is not one of the words for this: write `Before` or `After`",
    );
    changed(
        "halves: Even",
        "halves: Odd",
        "line 8, column 13: `Odd` is not one of the words for this: write `Up` or `Even`",
    );
}

#[test]
fn what_does_not_fit_together() {
    changed(
        "\"joint-sand\",\n      supplier: \"The Yard\"",
        "\"sub-base\",\n      supplier: \"Quarry Lane\"",
        "price line 2 “sub-base”: it stands twice for the supplier “Quarry Lane”: leave one of them",
    );
    changed(
        "key: Some(\"digging\"),",
        "",
        "rate 2: there is a rate for all hours already: leave one of them",
    );
    changed(
        "key: \"sub-base\"",
        "key: \" \"",
        "price line 1 “ ”: it has no key: write which need it is for, such as \"sub-base\"",
    );
    changed(
        "name: \"25 kg bag\"",
        "name: \"\"",
        "price line 2 “joint-sand”: its pack has no name: write what one is called, such as \"25 kg bag\"",
    );
    changed(
        "digits: 2",
        "digits: 5",
        "the currency: it has at most 4 digits behind the point, here are 5",
    );
    changed(
        "digits: 2",
        "digits: 1",
        "the currency: its step of 0.05 is finer than its last digit: give it more than 1",
    );
    changed(
        "\"0.05\"",
        "\"0\"",
        "the currency: its step is more than 0, such as 0.05, here it is 0",
    );
    changed(
        "\"Fr.\"",
        "\"thirteen char\"",
        "the currency: its sign has at most 12 characters, this one has 13",
    );
    changed(
        "Some(30)",
        "Some(0)",
        "the price list: a price holds for 1 to 3650 days, here are 0",
    );
    changed(
        "\"VAT\"",
        "\"V\\nAT\"",
        "tax 1: a name is one line of text without control characters",
    );
}
