//! Exact plane geometry of straights and circular bends: numbers only, no units text, no files, no screen.
//!
//! Conventions, everywhere in this crate:
//! * lengths in metres, angles in radians, all `f64`;
//! * x runs east, y runs north; a positive angle or sweep turns left (counter-clockwise);
//! * `left` is left of the walking direction; offsets to the left are positive;
//! * a signed rise is positive when the apex lies left of the chord as one walks, so that the bend turns **right**;
//! * arcs stay arcs: nothing here measures, offsets or cuts by short straights.
//!
//! ```
//! use geometry::{Arc, Point};
//! // A 4 m chord with a rise of 0.5 m, apex on the left: the path turns right about a swing point 4.25 m away.
//! let bend = Arc::from_rise(Point::new(0.0, 0.0), Point::new(4.0, 0.0), 0.5)?;
//! assert!((bend.radius() - 4.25).abs() < 1e-12);
//! assert!((bend.centre() - Point::new(2.0, -3.75)).length() < 1e-12);
//! # Ok::<(), geometry::ArcError>(())
//! ```

pub mod angle;
mod arc;
mod bend;
mod bend_solver;
mod bounds;
mod capsule;
mod chain;
mod chain_gap;
mod circle_fit;
mod crossing;
mod depth;
mod direction;
mod fillet;
mod frame;
mod gap;
mod ground;
mod lattice;
mod line;
mod meet;
mod offset;
mod overlap;
mod patch;
mod piece;
mod point;
mod region;
mod rise_band;
mod round_share;
mod runs;
mod sector;
mod stretches;
mod swept;
mod towed;
mod trailing;
mod tree;
mod two_bends;
mod winding;

pub use arc::{Arc, ArcError};
pub use bend::{Bend, BendError, Figure};
pub use bend_solver::{Answer, Bound, SolveError, bends_from};
pub use bounds::Bounds;
pub use chain::{Chain, ChainError, Nearest};
pub use chain_gap::ChainGap;
pub use circle_fit::{CircleErrors, CircleFit, CircleFitError, circle_from_points};
pub use crossing::Crossing;
pub use direction::Direction;
pub use fillet::{Fillet, fillet};
pub use gap::Gap;
pub use ground::{Ground, PatchGap};
pub use lattice::{Cover, FLUSH, Lattice, PartCell};
pub use line::{Line, LineError};
pub use meet::meetings;
pub use offset::{MITRE_REACH, Offset, OffsetTrouble};
pub use overlap::Overlap;
pub use patch::{Core, Patch, PatchError};
pub use piece::Piece;
pub use point::{Point, Vector};
pub use region::Region;
pub use rise_band::{Keep, NARROWEST_RANGE, RiseRange, rises_that_fit};
pub use sector::NARROWEST_SECTOR;
pub use swept::{Outline, Reach, Rig, Swept, Towing, WIDEST_WITHIN, Widest};
pub use towed::Towed;
pub use trailing::{Steady, Trail, TrailError, steady};
pub use two_bends::{TwoBends, TwoBendsError, two_bends};

/// Two points nearer than this are one point: a tenth of a micrometre, far below any tape and far
/// above the rounding of coordinates 100 km out (about 1.5e-11 m).
pub const SAME_PLACE: f64 = 1e-7;

/// Two directions nearer than this (radians) are one direction: over a 100 m leg the ends part by
/// a micrometre. Joints that turn less are smooth.
pub const SAME_DIRECTION: f64 = 1e-8;
