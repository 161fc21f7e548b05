//! The limits of a price list; past them a sentence, and nothing is lost.

use std::collections::HashSet;

use rust_decimal::Decimal;

use super::written::{count_fault, price_fault};
use super::{Currency, PriceLine, PriceList, Sold, VERSION};
use crate::limits::{LimitError, fail, name};

/// The most lines of a price list.
pub const PRICE_LINES: usize = 2_000;
/// The most rates of labour.
pub const LABOUR: usize = 100;
/// The most taxes.
pub const TAXES: usize = 10;
/// The most days a price holds.
pub const VALID_DAYS: u32 = 3_650;

/// The most characters of a currency's sign.
const SIGN: usize = 12;
/// The most digits of a currency behind the point.
const DIGITS: u8 = 4;

/// Checks a price list.
///
/// # Errors
/// The first place that is past a limit, or that says one thing twice.
pub(crate) fn check(prices: &PriceList) -> Result<(), LimitError> {
    if prices.version != VERSION {
        let version = prices.version;
        return fail(
            "the price list",
            format!("it is of version {version}, this program reads version {VERSION}"),
        );
    }
    check_currency(&prices.currency)?;
    for (what, count, most) in [
        ("lines", prices.lines.len(), PRICE_LINES),
        ("rates of labour", prices.labour.len(), LABOUR),
        ("taxes", prices.taxes.len(), TAXES),
    ] {
        if count > most {
            return fail(
                "the price list",
                format!("it has {count} {what}, more than {most}"),
            );
        }
    }
    let mut seen = HashSet::new();
    for (i, line) in prices.lines.iter().enumerate() {
        let place = format!("price line {} “{}”", i + 1, line.key);
        check_line(&place, line)?;
        if !seen.insert((&line.key, &line.supplier)) {
            return fail(
                &place,
                format!(
                    "it stands twice for the supplier “{}”: leave one of them",
                    line.supplier
                ),
            );
        }
    }
    check_labour(prices)?;
    for (i, tax) in prices.taxes.iter().enumerate() {
        name(&format!("tax {}", i + 1), &tax.name)?;
    }
    match prices.valid_days {
        Some(days) if !(1..=VALID_DAYS).contains(&days) => fail(
            "the price list",
            format!("a price holds for 1 to {VALID_DAYS} days, here are {days}"),
        ),
        _ => Ok(()),
    }
}

fn check_currency(currency: &Currency) -> Result<(), LimitError> {
    let place = "the currency";
    name(place, &currency.sign)?;
    let count = currency.sign.chars().count();
    if count > SIGN {
        return fail(
            place,
            format!("its sign has at most {SIGN} characters, this one has {count}"),
        );
    }
    let digits = currency.digits;
    if digits > DIGITS {
        return fail(
            place,
            format!("it has at most {DIGITS} digits behind the point, here are {digits}"),
        );
    }
    let Some(step) = currency.step else {
        return Ok(());
    };
    if step <= Decimal::ZERO || price_fault(step).is_some() {
        return fail(
            place,
            format!("its step is more than 0, such as 0.05, here it is {step}"),
        );
    }
    if step.normalize().scale() > u32::from(digits) {
        return fail(
            place,
            format!("its step of {step} is finer than its last digit: give it more than {digits}"),
        );
    }
    Ok(())
}

fn check_line(place: &str, line: &PriceLine) -> Result<(), LimitError> {
    key(place, &line.key)?;
    name(place, &line.name)?;
    name(place, &line.supplier)?;
    fine(place, price_fault(line.price))?;
    fine(place, price_fault(line.delivery))?;
    fine(place, line.least_order.and_then(count_fault))?;
    if let Sold::Pack {
        name: pack, holds, ..
    } = &line.sold
    {
        name(place, pack)?;
        fine(place, count_fault(*holds))?;
        if pack.trim().is_empty() {
            let sentence = "its pack has no name: write what one is called, such as \"25 kg bag\"";
            return fail(place, sentence.into());
        }
    }
    Ok(())
}

fn check_labour(prices: &PriceList) -> Result<(), LimitError> {
    let mut seen = HashSet::new();
    for (i, labour) in prices.labour.iter().enumerate() {
        let place = format!("rate {}", i + 1);
        if let Some(labour_key) = &labour.key {
            key(&place, labour_key)?;
        }
        name(&place, &labour.name)?;
        fine(&place, price_fault(labour.rate))?;
        if !seen.insert(&labour.key) {
            return fail(
                &place,
                match &labour.key {
                    Some(twice) => format!("“{twice}” has a rate already: leave one of them"),
                    None => "there is a rate for all hours already: leave one of them".into(),
                },
            );
        }
    }
    Ok(())
}

fn key(place: &str, key: &str) -> Result<(), LimitError> {
    name(place, key)?;
    if key.trim().is_empty() {
        let sentence = "it has no key: write which need it is for, such as \"sub-base\"";
        return fail(place, sentence.into());
    }
    Ok(())
}

fn fine(place: &str, fault: Option<String>) -> Result<(), LimitError> {
    fault.map_or(Ok(()), |fault| fail(place, fault))
}
