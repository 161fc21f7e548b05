//! The plan: what it holds, how it changes, what follows from it, how it is stored.
//!
//! Pure from end to end: the same plan gives the same answers; no clock, no files, no screen.
//! Lengths are metres and angles radians; text and rounding live in [`units`].

pub mod beside;
pub mod budget;
pub mod clearance;
pub mod compare;
pub mod count;
pub mod document;
pub mod edging;
pub mod edit;
pub mod example;
pub mod feel;
pub mod figures;
pub mod file;
pub mod finding;
pub mod fingerprint;
pub mod history;
pub mod limits;
pub mod order;
pub mod price;
pub mod profile;
pub mod refusal;
pub mod room;
pub mod rules;
pub mod setout;
pub mod solve;
mod stored;
pub mod surroundings;
pub mod units;

pub use document::Plan;
pub use edit::Edit;
pub use finding::Finding;
pub use history::History;
pub use solve::Solved;
