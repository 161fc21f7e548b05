//! Chains of straights and arcs: published values, and what holds for every chain.

#[path = "chains/corners.rs"]
mod corners;
#[path = "chains/laws.rs"]
mod laws;
#[path = "chains/making.rs"]
mod making;
#[path = "chains/published.rs"]
mod published;
