//! The stake-out sheet: pages are composed as plain ink in millimetres, then written as PDF.
//!
//! Two steps that know nothing of each other. *Composing* places [`Ink`] on a [`Page`] of
//! [`Paper`]; [`lettering`] measures the words exactly as they will be drawn. *Writing*
//! ([`pdf::pdf`]) turns the finished [`Sheet`] into bytes and knows nothing of paths or pegs.
//!
//! Conventions: millimetres from the bottom-left corner of the paper, y up; angles in radians,
//! counter-clockwise from the x axis. Everything here is pure: the same sheet gives the same bytes.

pub mod document;
pub mod ink;
pub mod lettering;
pub mod pages;
pub mod paper;
pub mod pdf;
pub mod pen;
pub mod picture;
pub mod png;
pub mod svg;

pub use document::{Block, Cell, Date, Item, Names, Page, Row, Sheet};
pub use ink::{Anchor, Ink, Pos, Step, Text};
pub use pages::{
    MOST_OPTIONS, OptionsRequest, Request, client_page, compose, compose_client_page,
    compose_order_list, option_picture, order_list, stakeout,
};
pub use paper::{Frame, Orientation, Paper};
pub use pdf::{PdfError, pdf};
pub use pen::{Dash, Pen, Style, Tone, Weight};
pub use picture::{Picture, PictureError};
pub use png::png;
pub use svg::svg;
