//! Comparing options, on the slip and before a client.
#![expect(missing_docs, reason = "each sentence says what it is")]

use plan::compare::{Better, Criterion};
use plan::document::Side;

pub const WITHOUT_PRICES: &str = "The page for the client without prices";
pub const ADD: &str = "Add an option";
pub const COPY: &str = "Copy it";
pub const UP: &str = "Move it up";
pub const DOWN: &str = "Move it down";
pub const LOCK: &str = "Lock it";
pub const UNLOCK: &str = "Unlock it";
pub const REMOVE: &str = "Take it away";
pub const LOCKED: &str = "locked";
pub const OVER: &str = "Over each other";
pub const BESIDE: &str = "Side by side";
pub const OTHERS: &str = "The others behind it";
pub const TABLE_KEY: &str = "≠ differs, ✓ best; press what a row is called to sort by it";
pub const AXES: &str = "On two axes";
pub const ACROSS: &str = "Across";
pub const UPWARDS: &str = "Upwards";
pub const NOT_ON_AXES: &str =
    "No option has a figure for both: choose others, or count the options at Count";
pub const NOTHING_DRAWN: &str = "Nothing is drawn of it yet";
pub const CLIENT_KEYS: &str =
    "Left and right: the other options; Space: walk along it; Esc: back to work";
pub const LEAVE: &str = "Back to work";
pub const NEXT: &str = "Next option";
pub const BEFORE: &str = "Option before";
pub const WALK: &str = "Walk along it";
pub const STAND_STILL: &str = "Stand still";

/// `A, Round the pond`, or `Option A` without a name.
#[must_use]
pub fn option(letter: &str, name: &str) -> String {
    match name.trim() {
        "" => format!("Option {letter}"),
        name => format!("{letter}, {name}"),
    }
}

#[must_use]
pub fn notes_of(letter: &str) -> String {
    format!("Notes of option {letter}")
}

#[must_use]
pub fn sort_by(name: &str) -> String {
    format!("Sort by {}", name.to_lowercase())
}

#[must_use]
pub fn sort_tip(criterion: Criterion) -> &'static str {
    match criterion.better() {
        Better::Less => "The least is best: sort by it",
        Better::More => "The most is best: sort by it",
        Better::Neither => "Neither more nor less is best: sort by it, the least first",
    }
}

#[must_use]
pub fn better(criterion: Criterion) -> &'static str {
    match criterion.better() {
        Better::Less => "less is better",
        Better::More => "more is better",
        Better::Neither => "neither more nor less is better",
    }
}

#[must_use]
pub fn on_axes([across, up]: [&str; 2]) -> String {
    format!(
        "Options by {} across and {} upwards",
        across.to_lowercase(),
        up.to_lowercase()
    )
}

#[must_use]
pub fn cell(letter: &str, name: &str, figure: &str, is_best: bool) -> String {
    let best = if is_best { ", best" } else { "" };
    format!("Option {letter}, {}: {figure}{best}", name.to_lowercase())
}

#[must_use]
pub fn beside(side: Side, name: &str, distance: &str) -> String {
    format!("On the {}: {name}, {distance} off the path", side.word())
}

#[must_use]
pub fn open_beside(side: Side) -> String {
    format!("On the {}: open ground", side.word())
}
