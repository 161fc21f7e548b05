//! Money rounded and written, against published values.

use plan::price::{Currency, Halves, SignPlace};
use rust_decimal::{Decimal, dec};

use super::share;

fn currency(digits: u8, step: Option<Decimal>, halves: Halves) -> Currency {
    Currency {
        digits,
        step,
        halves,
        ..Currency::default()
    }
}

#[track_caller]
fn rounds(currency: &Currency, table: &[(Decimal, Decimal)]) {
    for (amount, expected) in table {
        let rounded = currency.round(*amount);
        assert_eq!(rounded, *expected, "{amount}");
        assert_eq!(currency.round(rounded), rounded, "{amount} twice");
    }
}

#[test]
fn halves_to_the_even_step() {
    // Source: Microsoft Open Specifications [MS-VBAL], 5.5.1.2.1.1, Banker's rounding: 73.5 and 74.5 to 74, 75.5 and
    // 76.5 to 76.
    rounds(
        &currency(0, None, Halves::Even),
        &[
            (dec!(73.5), dec!(74)),
            (dec!(74.5), dec!(74)),
            (dec!(75.5), dec!(76)),
            (dec!(76.5), dec!(76)),
        ],
    );
    // Source: General Decimal Arithmetic FAQ, "What rounding modes are needed", as on experts123.com.
    rounds(
        &currency(2, None, Halves::Even),
        &[(dec!(12.345), dec!(12.34)), (dec!(12.355), dec!(12.36))],
    );
    // Source: sageshome.net, "Banker's rounding": the last is more than half way.
    rounds(
        &currency(2, None, Halves::Even),
        &[
            (dec!(12.435), dec!(12.44)),
            (dec!(12.445), dec!(12.44)),
            (dec!(12.44501), dec!(12.45)),
        ],
    );
}

#[test]
fn halves_up() {
    // Source: General Decimal Arithmetic FAQ, the same.
    rounds(
        &currency(2, None, Halves::Up),
        &[(dec!(12.345), dec!(12.35)), (dec!(12.355), dec!(12.36))],
    );
}

#[test]
fn steps_of_five_hundredths() {
    // Source: Wikipedia, "Swedish rounding", with 5c intervals: 1, 2, 6, 7 down; 3, 4, 8, 9 up; 0 and 5 stay.
    let ends = [
        (dec!(7.40), dec!(7.40)),
        (dec!(7.41), dec!(7.40)),
        (dec!(7.42), dec!(7.40)),
        (dec!(7.43), dec!(7.45)),
        (dec!(7.44), dec!(7.45)),
        (dec!(7.45), dec!(7.45)),
        (dec!(7.46), dec!(7.45)),
        (dec!(7.47), dec!(7.45)),
        (dec!(7.48), dec!(7.50)),
        (dec!(7.49), dec!(7.50)),
    ];
    for halves in [Halves::Up, Halves::Even] {
        rounds(&currency(2, Some(dec!(0.05)), halves), &ends);
    }
    // Half a step: 7.425 lies between 148 and 149 steps, 7.475 between 149 and 150.
    rounds(
        &currency(2, Some(dec!(0.05)), Halves::Even),
        &[(dec!(7.425), dec!(7.40)), (dec!(7.475), dec!(7.50))],
    );
    rounds(
        &currency(2, Some(dec!(0.05)), Halves::Up),
        &[(dec!(7.425), dec!(7.45)), (dec!(7.475), dec!(7.50))],
    );
}

#[test]
fn no_digits_and_three() {
    let none = currency(0, None, Halves::Up);
    assert_eq!(none.round(dec!(1234.5)), dec!(1235));
    assert_eq!(none.write(dec!(1235)), "1\u{a0}235");
    let hundreds = currency(0, Some(dec!(100)), Halves::Up);
    assert_eq!(hundreds.round(dec!(1249.99)), dec!(1200));
    assert_eq!(hundreds.round(dec!(1250)), dec!(1300));
    let three = currency(3, None, Halves::Up);
    assert_eq!(three.round(dec!(0.0005)), dec!(0.001));
    assert_eq!(three.write(dec!(4.5)), "4.500");
}

#[test]
fn money_in_words() {
    let check = |sign: &str, place, amount, expected: &str| {
        let currency = Currency {
            sign: sign.into(),
            place,
            ..Currency::default()
        };
        let written = currency.write(amount);
        assert_eq!(written.replace('\u{a0}', "_"), expected);
    };
    use SignPlace::{After, Before};
    check("", Before, dec!(0), "0.00");
    check("", After, dec!(999.9), "999.90");
    check("€", Before, dec!(1000), "€1_000.00");
    check("€", After, dec!(1234567.891), "1_234_567.891_€");
    check("EUR", Before, dec!(12), "EUR_12.00");
    check("Fr.", Before, dec!(12.5), "Fr._12.50");
    check("$", Before, dec!(-1500), "−$1_500.00");
    check("kr", After, dec!(123456), "123_456.00_kr");
    check(" £ ", Before, dec!(0.0125), "£0.0125");
    check("£", Before, dec!(2.5000), "£2.50");
}

#[test]
fn markup_is_not_margin() {
    // Source: contractorcfo.org, "Markup vs Margin", conversion table.
    for (markup, margin) in [
        (dec!(10), dec!(9.1)),
        (dec!(15), dec!(13.0)),
        (dec!(20), dec!(16.7)),
        (dec!(25), dec!(20.0)),
        (dec!(30), dec!(23.1)),
        (dec!(35), dec!(25.9)),
        (dec!(40), dec!(28.6)),
        (dec!(50), dec!(33.3)),
        (dec!(100), dec!(50.0)),
    ] {
        assert_eq!(share(markup).as_margin(), margin, "{markup} %");
    }
    // Source: jtdodd.com.au, "A simple and easy to understand explanation of markup vs margin", table; to two digits
    // there.
    for (margin, markup) in [
        (dec!(5), dec!(5.3)),
        (dec!(10), dec!(11.1)),
        (dec!(20), dec!(25.0)),
        (dec!(35), dec!(53.8)),
        (dec!(45), dec!(81.8)),
        (dec!(50), dec!(100.0)),
    ] {
        assert_eq!(
            share(margin).markup_for_margin(),
            Some(markup),
            "{margin} %"
        );
    }
    assert_eq!(share(dec!(100)).markup_for_margin(), None);
}
