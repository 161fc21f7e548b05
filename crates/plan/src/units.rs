//! Lengths and angles as people write them: read from text, rounded to a tape, written as text.
//!
//! Inside the program every length is a number of metres and every angle a number of radians.
//! Text and rounding live here and nowhere else. The units are defined exactly, so reading and
//! writing add no error of their own: 1 in = 25.4 mm, 1 ft = 0.3048 m, 1 yd = 0.9144 m.
//!
//! Source of the three: NIST Special Publication 811, appendix B (the inch, the foot and the yard of
//! the agreement of 1959); from memory. The foot here is that foot, not the survey foot, which is
//! longer by two millionths.
//!
//! ```
//! use plan::units::{Graduation, Ruler, Units, parse_length};
//!
//! let chord = parse_length("7' 6 1/2\"", Units::FeetInches)?;
//! assert_eq!(chord, 2.2987);
//!
//! let tape = Ruler { units: Units::FeetInches, graduation: Graduation::EighthInch };
//! assert_eq!(tape.text(chord), "7′ 6 1⁄2″");
//! assert_eq!(Ruler::new(Units::Metric).text(chord), "2.300 m"); // to the nearest 5 mm
//! # Ok::<(), plan::units::LengthError>(())
//! ```

mod amount;
mod angle;
mod error;
mod graduation;
mod kind;
mod parse;
mod scan;
mod token;
mod write;

use serde::{Deserialize, Serialize};

pub use angle::{angle_text, degrees_minutes, direction_text, parse_angle};
pub use error::{AngleError, Fault, LengthError, TextError};
pub use graduation::Graduation;
pub use kind::{FigureError, Kind};
pub(crate) use parse::closest;
pub use parse::{echo, parse_length, units_named};
pub use write::Ruler;

/// The system of units a plan is written in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Units {
    /// Metres, with the decimals the tape can show.
    Metric,
    /// Feet, inches and fractions of an inch, or feet with decimals where the tape is divided so.
    FeetInches,
}

impl Units {
    /// Both systems.
    pub const ALL: [Self; 2] = [Self::Metric, Self::FeetInches];

    /// The other system.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Metric => Self::FeetInches,
            Self::FeetInches => Self::Metric,
        }
    }

    /// The name to show: `metric` or `feet and inches`.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Metric => "metric",
            Self::FeetInches => "feet and inches",
        }
    }
}
