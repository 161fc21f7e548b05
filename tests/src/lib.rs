//! Test support: what the tests of the whole workspace share.

pub mod pdf_text;
