//! What an option needs: build-ups, quantities, packs, loads, and what a bad file is told.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]
#![allow(clippy::float_cmp, reason = "some answers are exact")]

mod common;

#[path = "count/bad_input.rs"]
mod bad_input;
#[path = "count/built_in.rs"]
mod built_in;
#[path = "count/figures.rs"]
mod figures;
#[path = "count/ground.rs"]
mod ground;
#[path = "count/laws.rs"]
mod laws;
#[path = "count/pavers.rs"]
mod pavers;
#[path = "count/plans.rs"]
mod plans;
#[path = "count/published.rs"]
mod published;
#[path = "count/stored.rs"]
mod stored;
#[path = "count/worked.rs"]
mod worked;
