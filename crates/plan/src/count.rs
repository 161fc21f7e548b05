//! What a path needs: what to dig, to buy and to carry, each with how much of it and why.

pub mod build_up;
mod ground;
mod need;
mod packs;
pub mod paving;
mod quantities;
mod settings;
mod soil;

pub(crate) use build_up::check;
pub use build_up::{BuildUp, BuildUpError, EdgeCourse, built_in, read_build_up, write_build_up};
pub use need::{Because, Measure, Need, Pack, Part};
pub use packs::Packed;
pub use quantities::{
    Amount, Dug, EdgeQuantity, LayerQuantity, Limit, PathCourse, Paved, PaverCount, Pavers,
    PavingHints, Quantities, RouteQuantity, Spoil, Trips, paving_hints, quantities,
};
pub use settings::{Barrow, Carrier, CountSettings};
pub use soil::{Soil, SoilData};
