//! The stake-out sheet: pages are composed as plain ink in millimetres, then written as PDF.
//!
//! Two steps that know nothing of each other. *Composing* places [`ink::Ink`] on a [`ink::Page`] of
//! [`paper::Paper`]; [`lettering`] measures the words exactly as they will be drawn. *Writing*
//! ([`pdf::pdf`]) turns the finished [`ink::Sheet`] into bytes and knows nothing of paths or pegs.
//!
//! Conventions: millimetres from the bottom-left corner of the paper, y up; angles in radians,
//! counter-clockwise from the x axis. Everything here is pure: the same sheet gives the same bytes.

pub mod ink;
pub mod lettering;
pub mod paper;
pub mod pdf;

pub use ink::{Block, Ink, Page, Pen, Pos, Sheet, Style, Text};
pub use paper::{Frame, Orientation, Paper};
pub use pdf::{PdfError, pdf};
