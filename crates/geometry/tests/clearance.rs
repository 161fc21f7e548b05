//! Exact clearance: published distances, and what holds between any pieces, chains and patches.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot make its pieces fails there"
)]

#[path = "clearance/gaps.rs"]
mod gaps;
#[path = "clearance/ground.rs"]
mod ground;
#[path = "chains/making.rs"]
#[allow(
    dead_code,
    reason = "shared with the tests of chains, which need more of it"
)]
mod making;
#[path = "clearance/overlaps.rs"]
mod overlaps;
#[path = "clearance/patches.rs"]
mod patches;
#[path = "clearance/published.rs"]
mod published;
#[path = "clearance/winding.rs"]
mod winding;
