//! What a path needs: what to dig, to buy and to carry, each with how much of it and why.

mod need;
pub mod paving;

pub use need::{Because, Measure, Need, Pack, Part};
