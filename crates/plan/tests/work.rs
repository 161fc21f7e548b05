//! The work of a path: which way each bend is set out, in which order, and with what.

#![allow(
    clippy::unwrap_used,
    clippy::float_cmp,
    reason = "a test that cannot go on must stop"
)]

#[path = "work/choosing.rs"]
mod choosing;
mod common;
