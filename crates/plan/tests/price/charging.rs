//! What needs come to: packs, units, suppliers, least orders, deliveries, taxes, and what has no price.

use plan::count::{Measure, Need, Part};
use plan::price::{
    Band, Charge, Currency, Labour, Line, Missing, PriceLine, PriceList, Sold, Unit, band, charge,
    saves,
};
use rust_decimal::{Decimal, dec};

use super::{hourly, line, list, need, pack, packed, share, tax};

/// Five needs of one path, one in each part of the work.
fn needs() -> Vec<Need> {
    vec![
        need("spoil", Part::Dig, Measure::Volume, 4.73),
        need("sub-base", Part::Base, Measure::Mass, 4180.0),
        need("edging", Part::Edges, Measure::Length, 26.57),
        packed(
            need("joint-sand", Part::Surface, Measure::Mass, 64.0),
            "25 kg bag",
            25.0,
        ),
        need("laying", Part::Work, Measure::Hours, 10.1),
    ]
}

fn prices() -> PriceList {
    PriceList {
        currency: Currency {
            sign: "€".into(),
            ..Currency::default()
        },
        lines: vec![
            line(
                "spoil",
                "Carter",
                pack("6 m³ skip", dec!(6), Unit::CubicMetre),
                dec!(240.00),
            ),
            PriceLine {
                delivery: dec!(45.00),
                ..line("sub-base", "Quarry", Sold::Per(Unit::Tonne), dec!(24.50))
            },
            line(
                "edging",
                "Yard",
                pack("2.5 m length", dec!(2.5), Unit::Metre),
                dec!(31.20),
            ),
            line(
                "joint-sand",
                "Yard",
                pack("25 kg bag", dec!(25), Unit::Kilogram),
                dec!(6.15),
            ),
        ],
        labour: vec![hourly(dec!(38.00))],
        overhead: share(dec!(20)),
        contingency: share(dec!(7.5)),
        taxes: vec![tax("VAT", dec!(20))],
        ..PriceList::default()
    }
}

fn count(line: &Line) -> Decimal {
    line.ordered.as_ref().unwrap().count
}

fn total(line: &Line) -> Decimal {
    line.price.as_ref().unwrap().total
}

#[test]
fn a_whole_job_by_hand() {
    // By hand: one skip 240.00; 4.18 t at 24.50 = 102.41; 26.57 m in lengths of 2.5 m = 11 at 31.20 = 343.20; 64 kg in
    // bags of 25 kg = 3 at 6.15 = 18.45; 10.1 h in quarters = 10.25 at 38.00 = 389.50; delivery 45.00. Together
    // 1138.56; 20 % 227.712; 7.5 % 85.392; net 1451.66; 20 % of it 290.332.
    let charge = charge(&needs(), &prices());
    let counts: Vec<Decimal> = charge.lines.iter().map(count).collect();
    assert_eq!(
        counts,
        [dec!(1), dec!(4.18), dec!(11), dec!(3), dec!(10.25)]
    );
    let totals: Vec<Decimal> = charge.lines.iter().map(total).collect();
    assert_eq!(
        totals,
        [
            dec!(240.00),
            dec!(102.41),
            dec!(343.20),
            dec!(18.45),
            dec!(389.50)
        ]
    );
    assert_eq!(charge.cost, dec!(1138.56));
    assert_eq!(charge.overhead.sum, dec!(227.71));
    assert_eq!(charge.contingency.sum, dec!(85.39));
    assert_eq!(charge.net, dec!(1451.66));
    assert_eq!(
        (charge.taxes[0].on, charge.taxes[0].sum),
        (dec!(1451.66), dec!(290.33))
    );
    assert_eq!(charge.total, dec!(1741.99));
    assert!(charge.is_complete());
    assert_eq!(charge.total_in_words(), "€1\u{a0}741.99");
    assert_eq!(
        charge.overhead_in_words(),
        "20 % on the cost, which is 16.7 % of cost and overhead together"
    );
    let left = charge.lines[3].ordered.as_ref().unwrap().left_over;
    assert!(
        (left - 11.0).abs() < 1e-9,
        "{left} kg of sand are left over"
    );
    let parts: Vec<Part> = charge.parts.iter().map(|part| part.part).collect();
    assert_eq!(
        parts,
        [
            Part::Dig,
            Part::Base,
            Part::Edges,
            Part::Surface,
            Part::Work
        ]
    );
}

#[test]
fn without_one_price_the_total_is_incomplete_and_the_rest_stays() {
    let whole = charge(&needs(), &prices());
    for gone in 0..4 {
        let mut prices = prices();
        let key = prices.lines.remove(gone).key;
        let charge = charge(&needs(), &prices);
        assert!(!charge.is_complete());
        assert_eq!(charge.missing, 1);
        assert!(
            charge
                .total_in_words()
                .ends_with(", incomplete: 1 of 5 lines has no price"),
            "{}",
            charge.total_in_words()
        );
        for (line, before) in charge.lines.iter().zip(&whole.lines) {
            if line.key == key {
                assert_eq!(line.price, Err(Missing::NoPrice));
                assert_eq!(line.price.as_ref().unwrap_err().to_string(), "no price");
                assert!(count(line) > Decimal::ZERO, "it is still ordered");
            } else {
                assert_eq!(line, before);
            }
        }
        let missing: Vec<(Part, usize)> = charge
            .parts
            .iter()
            .filter(|part| part.missing > 0)
            .map(|part| (part.part, part.missing))
            .collect();
        assert_eq!(missing, [(whole.lines[gone].part, 1)]);
        assert!(charge.total < whole.total);
    }
    let nothing = charge(&needs(), &PriceList::default());
    assert_eq!((nothing.missing, nothing.total), (5, Decimal::ZERO));
    assert!(nothing.lines.iter().all(|line| line.price.is_err()));
    assert_eq!(
        nothing.total_in_words(),
        "incomplete: none of 5 lines has a price"
    );
}

#[test]
fn a_price_of_nothing_is_a_price() {
    let free = list(vec![line(
        "turf",
        "neighbour",
        Sold::Per(Unit::SquareMetre),
        dec!(0),
    )]);
    let charge = charge(&[need("turf", Part::Surface, Measure::Area, 3.0)], &free);
    assert!(charge.is_complete());
    assert_eq!(charge.total_in_words(), "0.00");
}

#[test]
fn no_needs_come_to_nothing() {
    let charge = charge(&[], &prices());
    assert!(charge.is_complete() && charge.deliveries.is_empty());
    assert_eq!(charge.total, Decimal::ZERO);
}

/// How many of a need are ordered, sold so.
#[track_caller]
fn orders(measure: Measure, amount: f64, sold: Sold, expected: Decimal) {
    let prices = list(vec![line("it", "", sold, dec!(1))]);
    let charge = charge(&[need("it", Part::Base, measure, amount)], &prices);
    let ordered = charge.lines[0].ordered.as_ref().unwrap();
    assert_eq!(ordered.count, expected, "{amount}");
    assert!(ordered.left_over >= 0.0);
}

#[test]
fn units_of_both_systems() {
    use Measure::{Area, Length, Mass, Volume};
    // Source: the definitions of the international yard and pound, 1959: 0.9144 m and 0.453 592 37 kg.
    let yard = 0.9144;
    let pound = 0.453_592_37;
    orders(Length, 3.0 * yard, Sold::Per(Unit::Yard), dec!(3));
    orders(Length, yard, Sold::Per(Unit::Foot), dec!(3));
    orders(Area, yard * yard, Sold::Per(Unit::SquareFoot), dec!(9));
    orders(Area, yard * yard, Sold::Per(Unit::SquareYard), dec!(1));
    orders(
        Volume,
        yard * yard * yard,
        Sold::Per(Unit::CubicFoot),
        dec!(27),
    );
    orders(
        Volume,
        2.0 * yard * yard * yard,
        Sold::Per(Unit::CubicYard),
        dec!(2),
    );
    orders(Mass, 2000.0 * pound, Sold::Per(Unit::ShortTon), dec!(1));
    orders(Mass, 50.0 * pound, Sold::Per(Unit::Pound), dec!(50));
    orders(Mass, 1234.0, Sold::Per(Unit::Tonne), dec!(1.24));
    orders(Volume, 0.0123, Sold::Per(Unit::Litre), dec!(13));
    // Source: the 60 ft by 3 ft path of decomposed granite 3 in deep, 90 ft² a cubic yard, takes 2 yd³; the figures as
    // in an excerpt of a supplier's page, from memory.
    let two = 180.0 / 90.0 * yard * yard * yard;
    orders(
        Volume,
        two,
        pack("scoop", dec!(0.5), Unit::CubicYard),
        dec!(4),
    );
}

#[test]
fn a_full_pack_takes_no_other() {
    let bags = || pack("bag", dec!(0.1), Unit::CubicMetre);
    // 0.1 + 0.2 comes out a little over 0.3 in 64-bit numbers.
    orders(Measure::Volume, 0.1 + 0.2, bags(), dec!(3));
    orders(Measure::Volume, 0.3001, bags(), dec!(4));
    orders(Measure::Volume, 0.0, bags(), dec!(0));
    orders(Measure::Volume, 0.001, bags(), dec!(1));
}

#[test]
fn a_least_order_is_made_up_to_and_said() {
    let mut prices = list(vec![PriceLine {
        least_order: Some(dec!(3)),
        ..line("chips", "Mill", Sold::Per(Unit::Tonne), dec!(30.00))
    }]);
    let little = [need("chips", Part::Surface, Measure::Mass, 1200.0)];
    let charged = charge(&little, &prices);
    let ordered = charged.lines[0].ordered.as_ref().unwrap();
    assert_eq!(
        (ordered.count, ordered.would_do),
        (dec!(3), Some(dec!(1.2)))
    );
    assert!((ordered.left_over - 1800.0).abs() < 1e-9);
    assert_eq!(charged.cost, dec!(90.00));
    let enough = [need("chips", Part::Surface, Measure::Mass, 3000.0)];
    assert_eq!(
        charge(&enough, &prices).lines[0]
            .ordered
            .as_ref()
            .unwrap()
            .would_do,
        None
    );
    let none = [need("chips", Part::Surface, Measure::Mass, 0.0)];
    assert_eq!(
        charge(&none, &prices).cost,
        Decimal::ZERO,
        "what is not needed is not ordered"
    );
    // The least order may make another supplier the cheaper one.
    prices
        .lines
        .push(line("chips", "Yard", Sold::Per(Unit::Tonne), dec!(50.00)));
    let supplier = |needs: &[Need]| {
        charge(needs, &prices).lines[0]
            .price
            .clone()
            .unwrap()
            .supplier
    };
    assert_eq!(supplier(&little), "Yard");
    assert_eq!(supplier(&enough), "Mill");
}

#[test]
fn delivery_is_paid_once_a_supplier() {
    let delivered = |key, supplier, delivery| PriceLine {
        delivery,
        ..line(key, supplier, Sold::Per(Unit::Tonne), dec!(10.00))
    };
    let prices = list(vec![
        delivered("sub-base", "Quarry", dec!(45.00)),
        delivered("gravel", "Quarry", dec!(60.00)),
        delivered("sand", "Yard", dec!(15.00)),
        delivered("bark", "Mill", dec!(99.00)),
    ]);
    let needs: Vec<Need> = ["sub-base", "gravel", "sand"]
        .map(|key| need(key, Part::Base, Measure::Mass, 1000.0))
        .into();
    let charge = charge(&needs, &prices);
    let asked: Vec<(&str, Decimal)> = charge
        .deliveries
        .iter()
        .map(|delivery| (delivery.supplier.as_str(), delivery.price))
        .collect();
    assert_eq!(asked, [("Quarry", dec!(60.00)), ("Yard", dec!(15.00))]);
    assert_eq!(charge.cost, dec!(105.00));
}

#[test]
fn what_is_sold_by_another_measure_has_no_price() {
    let prices = list(vec![line(
        "gravel",
        "Yard",
        Sold::Per(Unit::CubicMetre),
        dec!(60),
    )]);
    let charge = charge(
        &[need("gravel", Part::Surface, Measure::Mass, 900.0)],
        &prices,
    );
    assert_eq!(charge.missing, 1);
    assert_eq!(
        charge.lines[0].price.as_ref().unwrap_err().to_string(),
        "no price: the list sells it by the m³, which does not measure what is needed"
    );
}

#[test]
fn amounts_past_counting_have_no_price() {
    let prices = list(vec![line(
        "it",
        "Yard",
        Sold::Per(Unit::Kilogram),
        dec!(1000000000),
    )]);
    for amount in [f64::NAN, f64::INFINITY, 1e300, 1.1e9] {
        let charge = charge(&[need("it", Part::Base, Measure::Mass, amount)], &prices);
        assert_eq!(charge.lines[0].price, Err(Missing::TooMuch), "{amount}");
        assert_eq!(charge.total, Decimal::ZERO);
    }
}

#[test]
fn hours_by_their_own_rate_or_the_rate_for_all() {
    let own = Labour {
        key: Some("digging".into()),
        name: "two hands".into(),
        rate: dec!(30.00),
    };
    let mut prices = PriceList {
        labour: vec![hourly(dec!(40.00)), own],
        ..PriceList::default()
    };
    let needs = [
        need("digging", Part::Dig, Measure::Hours, 8.0),
        need("laying", Part::Work, Measure::Hours, 6.5),
    ];
    let totals = |charge: Charge| charge.lines.iter().map(total).collect::<Vec<_>>();
    assert_eq!(
        totals(charge(&needs, &prices)),
        [dec!(240.00), dec!(260.00)]
    );
    prices.labour.remove(0);
    let charge = charge(&needs, &prices);
    assert_eq!(charge.lines[1].price, Err(Missing::NoPrice));
}

#[test]
fn a_line_with_a_tax_of_its_own_pays_that_alone() {
    let mut prices = prices();
    prices.lines[1].tax = Some(share(dec!(5)));
    prices.taxes.push(tax("levy", dec!(1)));
    let charge = charge(&needs(), &prices);
    let on: Vec<(&str, Decimal, Decimal)> = charge
        .taxes
        .iter()
        .map(|tax| (tax.name.as_str(), tax.on, tax.sum))
        .collect();
    // By hand: 1451.66 − 102.41 = 1349.25, of which 20 % 269.85 and 1 % 13.4925; 5 % of 102.41 5.1205.
    assert_eq!(
        on,
        [
            ("VAT", dec!(1349.25), dec!(269.85)),
            ("levy", dec!(1349.25), dec!(13.49)),
            ("", dec!(102.41), dec!(5.12)),
        ]
    );
}

#[test]
fn a_little_less_saves_a_pack() {
    let mut prices = prices();
    // 64 kg of sand: 14 kg of the third bag; 26.57 m of edging: 1.57 m of the eleventh length.
    let found = saves(&charge(&needs(), &prices), 0.6);
    assert_eq!(found.len(), 1);
    assert_eq!(
        found[0].words,
        "joint sand: 0.6 of a 25 kg bag less saves one: €6.15"
    );
    assert!((found[0].less - 14.0).abs() < 1e-9);
    let found = saves(&charge(&needs(), &prices), 1.0);
    assert_eq!(
        found.iter().map(|saving| saving.saves).collect::<Vec<_>>(),
        [Some(dec!(31.20)), Some(dec!(6.15))],
        "the only skip is not saved, and what saves most comes first"
    );
    assert_eq!(saves(&charge(&needs(), &prices), 0.5), []);
    prices.lines[3].least_order = Some(dec!(3));
    assert_eq!(
        saves(&charge(&needs(), &prices), 0.6),
        [],
        "three are the least order"
    );
}

#[test]
fn a_least_order_of_packs_is_whole() {
    let prices = list(vec![PriceLine {
        least_order: Some(dec!(2.5)),
        ..line(
            "sand",
            "Yard",
            pack("bag", dec!(25), Unit::Kilogram),
            dec!(6),
        )
    }]);
    let charge = charge(&[need("sand", Part::Base, Measure::Mass, 10.0)], &prices);
    assert_eq!(count(&charge.lines[0]), dec!(3));
}

#[test]
fn a_band_where_sources_disagree() {
    let mut needs = needs();
    assert_eq!(band(&needs, &prices()), None);
    // 3.9 to 4.5 t of sub-base are 95.55 to 110.25; 10 to 10.1 h of work stay 10.25 h at most.
    needs[1].range = Some([3900.0, 4500.0]);
    needs[4].range = Some([10.1, 10.2]);
    // By hand: cost 1131.70 and 1146.40, with 27.5 % and then 20 % on it, each share rounded.
    let expected = Band {
        least: dec!(1731.50),
        most: dec!(1753.99),
        driver: Some(1),
    };
    assert_eq!(band(&needs, &prices()), Some(expected));
}
