//! Pegbow's window and command line: pointer, keys and files in; pixels and text out.

pub mod cli;
pub mod clock;
pub mod files;
pub(crate) mod picture;
pub mod window;
