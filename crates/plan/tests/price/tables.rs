//! The order list as a table, read back by the csv crate.

use plan::count::{Measure, Part};
use plan::price::{Charge, Currency, PriceLine, PriceList, Sold, Unit, charge, order_csv};
use rust_decimal::dec;

use super::{line, list, need, pack, packed};

fn rows(charge: &Charge) -> Vec<Vec<String>> {
    let text = order_csv(charge);
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let heads = reader.headers().unwrap().clone();
    assert_eq!(heads.iter().next(), Some("part"));
    let rows = reader
        .records()
        .map(|row| row.unwrap().iter().map(str::to_owned).collect());
    rows.collect()
}

#[test]
fn it_is_read_back() {
    let prices = PriceList {
        currency: Currency {
            sign: "€".into(),
            ..Currency::default()
        },
        ..list(vec![PriceLine {
            name: "Sand, \"kiln dried\"".into(),
            least_order: Some(dec!(4)),
            ..line(
                "joint-sand",
                "Yard; & sons",
                pack("25 kg bag", dec!(25), Unit::Kilogram),
                dec!(6.1),
            )
        }])
    };
    let mut sand = need("joint-sand", Part::Surface, Measure::Mass, 64.0);
    sand.name = "joint sand,\nfine".into();
    let edging = packed(
        need("edging", Part::Edges, Measure::Length, 26.57),
        "2.5 m length",
        2.5,
    );
    let charge = charge(&[sand, edging], &prices);
    let rows = rows(&charge);
    assert_eq!(
        rows[0],
        [
            "surface",
            "joint-sand",
            "joint sand,\nfine",
            "64.000",
            "kg",
            "Yard; & sons",
            "Sand, \"kiln dried\"",
            "4",
            "25 kg bag",
            "36.000",
            "6.10",
            "24.40",
            "€",
            "least order 4: 3 would do",
        ]
    );
    assert_eq!(
        rows[1],
        [
            "edges",
            "edging",
            "edging",
            "26.570",
            "m",
            "",
            "",
            "11",
            "2.5 m length",
            "0.930",
            "",
            "",
            "",
            "no price",
        ]
    );
    assert_eq!(rows.len(), 2);
}

#[test]
fn no_cell_is_a_formula() {
    for start in [
        "=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "  =1", "＝1",
    ] {
        let mut nasty = packed(need("it", Part::Base, Measure::Mass, 10.0), start, 5.0);
        nasty.name = start.into();
        let prices = PriceList {
            currency: Currency {
                sign: start.into(),
                ..Currency::default()
            },
            ..list(vec![PriceLine {
                name: start.into(),
                ..line("it", start, pack(start, dec!(5), Unit::Kilogram), dec!(1))
            }])
        };
        for charge in [
            charge(&[nasty.clone()], &prices),
            charge(&[nasty.clone()], &list(vec![])),
        ] {
            for cell in rows(&charge).concat() {
                let first = cell.trim_start().chars().next();
                assert!(
                    !matches!(first, Some('=' | '+' | '-' | '@' | '＝')),
                    "{cell}"
                );
            }
        }
    }
    let honest = need("it", Part::Base, Measure::Mass, 10.0);
    let prices = list(vec![line(
        "it",
        "Yard - East",
        Sold::Per(Unit::Kilogram),
        dec!(1),
    )]);
    assert_eq!(rows(&charge(&[honest], &prices))[0][5], "Yard - East");
}

#[test]
fn amounts_that_are_no_numbers_leave_their_cells_empty() {
    let prices = list(Vec::new());
    let rows = rows(&charge(
        &[need("it", Part::Dig, Measure::Volume, f64::NAN)],
        &prices,
    ));
    assert_eq!(rows[0][3], "");
}
