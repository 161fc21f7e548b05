//! Counting: the build-up, what is assumed, the order list and its prices.
#![expect(missing_docs, reason = "each sentence says what it is")]

use plan::count::paving::{Bond, Lay};
use plan::count::{Amount, Limit, Measure, Need, Part, Trips};
use plan::price::{Charge, Delivery, Ordered};
use plan::units::Ruler;

pub const BUILT_OF: &str = "Built of";
pub const NOT_CHOSEN: &str = "nothing chosen yet";
pub const NO_BUILD_UP: &str =
    "Choose what the paths of this option are built of: what to dig, buy and carry follows";
pub const NO_PATH: &str = "There is no path to count yet: lay one at Draw";
pub const NO_PRICES: &str =
    "There are no prices yet: type one beside a thing, or open the list you keep";
pub const ASSUMED: &str = "What is assumed of it";
pub const GOES_BY: &str = "What is dug, and what carries it";
pub const SOIL: &str = "What is dug";
pub const OWN_SOIL: &str = "soil as measured";
pub const LABOUR: &str = "Count hours of work";
pub const CARRIER: &str = "It leaves in a";
pub const USUAL: &str = "Back to the usual figures";
pub const WHY: &str = "Why so much, and who sells it";
pub const NO_PRICE: &str = "no price";
pub const SUPPLIER: &str = "Sold by";
pub const SOLD: &str = "Sold as";
pub const OWN_PACK: &str = "a pack of one’s own";
pub const PACK_NAME: &str = "One is called";
pub const HOLDS: &str = "It holds, in";
pub const LEAST_ORDER: &str = "Least order";
pub const NONE: &str = "none";
pub const DELIVERY: &str = "Delivery";
pub const TAKE_OUT: &str = "Take the price out";
pub const ANOTHER: &str = "Another supplier";
pub const PRICE: &str = "Price";
pub const SIGN: &str = "Currency";
pub const NO_SIGN: &str = "type its sign";
pub const AFTER: &str = "The sign stands behind the figure";
pub const RATE: &str = "An hour of work";
pub const OVERHEAD: &str = "Overhead and profit";
pub const CONTINGENCY: &str = "For what turns up";
pub const ADD_TAX: &str = "Add a tax";
pub const TAX: &str = "tax";
pub const DROP_TAX: &str = "Take this tax out";
pub const COST: &str = "Cost";
pub const NET: &str = "Price before tax";
pub const TOTAL: &str = "Total";
pub const PAVERS: &str = "Pavers one by one";
pub const LAID: &str = "They are laid";
pub const WIDTHS: &str = "Which width saves cuts";
pub const NO_SAVING: &str = "No width within 50 mm has fewer cuts";
pub const BARS_LACK: &str = "! prices are missing there: an open bar will be longer";
pub const CHART: &str = "What each part of the work costs";

#[must_use]
pub fn part(part: Part) -> &'static str {
    match part {
        Part::Dig => "To dig",
        Part::Base => "Under the surface",
        Part::Edges => "Along the edges",
        Part::Surface => "To walk on",
        Part::Work => "Work",
    }
}

/// The same with every unit on the line of its figures.
#[must_use]
pub fn unbroken(text: &str) -> String {
    let mut after_figure = false;
    let keep = |c: char| {
        let c = if c == ' ' && after_figure {
            '\u{a0}'
        } else {
            c
        };
        after_figure = c.is_ascii_digit();
        c
    };
    text.chars().map(keep).collect()
}

/// How much, and between what where sources disagree.
#[must_use]
pub fn amount(need: &Need, ruler: Ruler) -> String {
    let text = |amount| need.measure.text(amount, ruler);
    between(&text(need.amount), need.range.map(|range| range.map(text)))
}

fn between(amount: &str, range: Option<[String; 2]>) -> String {
    match range {
        Some([low, high]) if low != high => {
            format!("{amount}; sources say {low} to {high}")
        }
        _ => amount.to_owned(),
    }
}

/// What is ordered of it, and what will be left.
#[must_use]
pub fn ordered(ordered: &Ordered, measure: Measure, ruler: Ruler) -> String {
    let count = ordered.count.normalize();
    let mut words = if ordered.packs {
        format!("Order {count} × {}", ordered.one)
    } else {
        format!("Reckoned as {count} {}", ordered.one)
    };
    if ordered.packs && ordered.left_over > 0.0 {
        let left = measure.text(ordered.left_over, ruler);
        words = format!("{words}, {left} left over");
    }
    if let Some(would_do) = ordered.would_do {
        let would_do = would_do.normalize();
        words = format!("{words}; {would_do} would do, but fewer than {count} are not sold");
    }
    words
}

#[must_use]
pub fn spoil(what: &str, amount: Amount, text: impl Fn(f64) -> String) -> String {
    let range = amount.range.map(|range| range.map(&text));
    format!("{what}: {}", between(&text(amount.amount), range))
}

fn limit(limit: Limit) -> &'static str {
    match limit {
        Limit::Volume => "they are full before they are too heavy",
        Limit::Mass => "they are too heavy before they are full",
    }
}

fn times(trips: &Trips) -> String {
    let [low, high] = trips.trips_range;
    if low == high {
        trips.trips.to_string()
    } else {
        format!("{} ({low} to {high})", trips.trips)
    }
}

#[must_use]
pub fn loads(trips: &Trips, carrier: &str) -> String {
    format!(
        "Loads ({carrier}): {}; {}",
        times(trips),
        limit(trips.limit)
    )
}

#[must_use]
pub fn barrows(trips: &Trips, ruler: &Ruler) -> String {
    format!(
        "Barrow runs: {}; {}; {} there and back in all",
        times(trips),
        limit(trips.limit),
        ruler.way(trips.walked)
    )
}

#[must_use]
pub fn not_counted(paths: &[usize]) -> String {
    let paths: Vec<String> = paths.iter().map(ToString::to_string).collect();
    format!(
        "Path {} is not counted: an edge of it is lost, see below",
        paths.join(", ")
    )
}

#[must_use]
pub fn price_of(one: &str) -> String {
    format!("Price of one {one}")
}

#[must_use]
pub fn costs(charge: &Charge, total: rust_decimal::Decimal, each: &str) -> String {
    format!("{each} comes to {}", charge.currency.write(total))
}

#[must_use]
pub fn sum(charge: &Charge, sum: rust_decimal::Decimal, missing: usize) -> String {
    let nothing = sum.is_zero();
    let sum = charge.currency.write(sum);
    match missing {
        0 => sum,
        _ if nothing => NO_PRICE.to_owned(),
        1 => format!("{sum}, 1 without a price"),
        _ => format!("{sum}, {missing} without a price"),
    }
}

#[must_use]
pub fn delivery(delivery: &Delivery) -> String {
    match delivery.supplier.trim() {
        "" => "Delivery".to_owned(),
        name => format!("Delivery, {name}"),
    }
}

#[must_use]
pub fn band(low: &str, high: &str, driver: Option<&str>) -> String {
    let words = format!("Between {low} and {high}, since sources disagree about amounts");
    match driver {
        Some(driver) => format!("{words}, most of all about {driver}"),
        None => words,
    }
}

#[must_use]
pub fn bond(bond: Bond) -> &'static str {
    match bond {
        Bond::Running => "in rows, each moved half a paver",
        Bond::Stack => "in rows, joints in line",
        Bond::Radial(Lay::Soldier) => "along the path, short side along",
        Bond::Radial(Lay::Stretcher) => "along the path, long side along",
    }
}
