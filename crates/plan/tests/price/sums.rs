//! Laws of sums: over random needs and prices every total is the exact sum of the rounded figures it is made of.

use plan::count::{Measure, Need, Part};
use plan::price::{
    Charge, Currency, Halves, PriceLine, PriceList, Share, Sold, Unit, charge, read_price_list,
    write_price_list,
};
use proptest::prelude::*;
use rust_decimal::{Decimal, dec};

use super::{hourly, line, need, pack, tax};

const KEYS: [&str; 6] = ["spoil", "sub-base", "sand", "edging", "gravel", "laying"];
const MEASURES: [Measure; 6] = [
    Measure::Length,
    Measure::Area,
    Measure::Volume,
    Measure::Mass,
    Measure::Pieces,
    Measure::Hours,
];
const PARTS: [Part; 5] = [
    Part::Dig,
    Part::Base,
    Part::Edges,
    Part::Surface,
    Part::Work,
];

fn any_need() -> impl Strategy<Value = Need> {
    let amount = prop_oneof![4 => 0.0..5_000.0_f64, 1 => Just(0.0), 1 => 0.0..1e8_f64];
    (
        prop::sample::select(KEYS.to_vec()),
        prop::sample::select(PARTS.to_vec()),
        prop::sample::select(MEASURES.to_vec()),
        amount,
    )
        .prop_map(|(key, part, measure, amount)| need(key, part, measure, amount))
}

fn price() -> impl Strategy<Value = Decimal> {
    prop_oneof![
        4 => (0_i64..10_000_000, 0_u32..=4).prop_map(|(figure, scale)| Decimal::new(figure, scale)),
        1 => Just(dec!(1000000000)),
    ]
}

fn any_share() -> impl Strategy<Value = Share> {
    (0_i64..=1_000_000).prop_map(|figure| Share::percent(Decimal::new(figure, 4)).unwrap())
}

fn any_line(supplier: usize, key: &'static str) -> impl Strategy<Value = PriceLine> {
    let unit = || prop::sample::select(Unit::ALL.to_vec());
    let sold = prop_oneof![
        unit().prop_map(Sold::Per),
        (1_i64..1_000_000, unit()).prop_map(|(holds, unit)| pack(
            "bag",
            Decimal::new(holds, 2),
            unit
        )),
    ];
    let least = prop::option::of((1_i64..5_000).prop_map(|figure| Decimal::new(figure, 2)));
    (
        sold,
        price(),
        least,
        price(),
        prop::option::weighted(0.2, any_share()),
    )
        .prop_map(move |(sold, price, least_order, delivery, tax)| PriceLine {
            least_order,
            delivery,
            tax,
            ..line(key, &format!("supplier {supplier}"), sold, price)
        })
}

fn any_currency() -> impl Strategy<Value = Currency> {
    (0_u8..=4, 0_i64..200, any::<bool>()).prop_map(|(digits, step, up)| Currency {
        sign: "¤".into(),
        digits,
        step: (step > 0).then(|| Decimal::new(step, u32::from(digits))),
        halves: if up { Halves::Up } else { Halves::Even },
        ..Currency::default()
    })
}

fn any_prices() -> impl Strategy<Value = PriceList> {
    let lines: Vec<_> = KEYS
        .iter()
        .flat_map(|key| (0..2).map(|supplier| prop::option::of(any_line(supplier, key)).boxed()))
        .collect();
    (
        any_currency(),
        lines,
        prop::option::of(price()),
        (any_share(), any_share()),
        prop::collection::vec(any_share(), 0..3),
    )
        .prop_map(
            |(currency, lines, rate, (overhead, contingency), taxes)| PriceList {
                currency,
                lines: lines.into_iter().flatten().collect(),
                labour: rate.map(hourly).into_iter().collect(),
                overhead,
                contingency,
                taxes: taxes
                    .into_iter()
                    .map(|share| tax("tax", share.in_percent()))
                    .collect(),
                ..PriceList::default()
            },
        )
}

fn sum(figures: impl IntoIterator<Item = Decimal>) -> Decimal {
    figures.into_iter().sum()
}

/// Every figure of money in a charge.
fn figures(charge: &Charge) -> Vec<Decimal> {
    let lines = charge
        .lines
        .iter()
        .filter_map(|line| line.price.as_ref().ok());
    lines
        .map(|priced| priced.total)
        .chain(charge.deliveries.iter().map(|delivery| delivery.price))
        .chain(charge.parts.iter().map(|part| part.sum))
        .chain(charge.taxes.iter().map(|tax| tax.sum))
        .chain([
            charge.cost,
            charge.overhead.sum,
            charge.contingency.sum,
            charge.net,
            charge.total,
        ])
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn totals_are_the_sums_of_what_is_shown(
        needs in prop::collection::vec(any_need(), 0..12),
        prices in any_prices(),
    ) {
        let charge = charge(&needs, &prices);
        let totals = |part: Option<Part>| {
            let lines = charge.lines.iter().filter(|line| part.is_none_or(|part| line.part == part));
            sum(lines.filter_map(|line| line.price.as_ref().ok()).map(|priced| priced.total))
        };
        for part in &charge.parts {
            prop_assert_eq!(part.sum, totals(Some(part.part)));
        }
        let delivered = sum(charge.deliveries.iter().map(|delivery| delivery.price));
        prop_assert_eq!(charge.cost, totals(None) + delivered);
        prop_assert_eq!(charge.net, charge.cost + charge.overhead.sum + charge.contingency.sum);
        prop_assert_eq!(charge.total, charge.net + sum(charge.taxes.iter().map(|tax| tax.sum)));
        let unpriced = charge.lines.iter().filter(|line| line.price.is_err()).count();
        prop_assert_eq!(charge.missing, unpriced);
        prop_assert_eq!(charge.is_complete(), unpriced == 0);
        // Every figure is whole in the currency's smallest amount.
        let smallest = prices.currency.step.unwrap_or(Decimal::new(1, u32::from(prices.currency.digits)));
        for figure in figures(&charge) {
            prop_assert_eq!(figure % smallest, Decimal::ZERO, "{}", figure);
            prop_assert!(figure >= Decimal::ZERO);
        }
        // What is taxed is the net price, once by every tax for all and the rest by its own.
        let own = charge.taxes.iter().filter(|tax| tax.name.is_empty()).map(|tax| tax.on);
        let own = sum(own);
        for tax in charge.taxes.iter().filter(|tax| !tax.name.is_empty()) {
            prop_assert_eq!(tax.on + own, charge.net);
        }
    }

    #[test]
    fn what_is_ordered_is_enough_and_no_division_too_many(need in any_need(), prices in any_prices()) {
        let charge = charge(std::slice::from_ref(&need), &prices);
        let line = &charge.lines[0];
        if let (Ok(priced), Some(ordered)) = (&line.price, &line.ordered) {
            let count: f64 = ordered.count.to_string().parse().unwrap();
            let held = count * ordered.holds;
            // A millionth of a division is left to the last digits of 64-bit numbers.
            prop_assert!(held >= need.amount - 1e-6 * ordered.holds - 1e-9 * need.amount);
            let share = (held - need.amount) / ordered.holds;
            prop_assert!(ordered.would_do.is_some() || share <= 1.0 + 1e-6, "{share}");
            if let Some(least) = priced.least_order {
                prop_assert!(ordered.count.is_zero() || ordered.count >= least);
            }
        }
    }

    #[test]
    fn taking_any_price_away_never_raises_a_complete_total_unseen(
        needs in prop::collection::vec(any_need(), 1..8),
        prices in any_prices(),
        at in any::<prop::sample::Index>(),
    ) {
        prop_assume!(!prices.lines.is_empty());
        let whole = charge(&needs, &prices);
        let mut fewer = prices.clone();
        let gone = fewer.lines.remove(at.index(prices.lines.len()));
        let less = charge(&needs, &fewer);
        prop_assert!(less.missing >= whole.missing);
        for (now, before) in less.lines.iter().zip(&whole.lines) {
            if before.key != gone.key {
                prop_assert_eq!(now, before);
            } else if let Err(missing) = &now.price {
                prop_assert!(missing.to_string().starts_with("no price"));
            }
        }
    }

    #[test]
    fn a_list_is_read_as_it_was_written(prices in any_prices()) {
        let text = write_price_list(&prices);
        let again = read_price_list(text.as_bytes());
        prop_assert_eq!(again.as_ref(), Ok(&prices));
        prop_assert_eq!(write_price_list(&again.unwrap()), text);
    }
}
