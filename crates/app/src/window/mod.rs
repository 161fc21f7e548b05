//! The window: the plan on a sheet of paper, with what a hand can do to it.

pub mod action;
pub mod dialog;
pub mod fonts;
pub mod launch;
pub mod theme;
pub mod view;
pub mod words;
