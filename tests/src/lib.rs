//! Test support: what the tests of the whole workspace share.

pub mod hand;
pub mod harness;
pub mod painter;
pub mod paper;
pub mod pdf_text;
pub mod seen;
