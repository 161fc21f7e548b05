//! Why a method cannot set out a bend.

use std::error::Error;
use std::fmt;

use geometry::angle;

use crate::setout::{Spot, Spots};

/// Why a method cannot set out a bend, whatever the ground. Lengths in metres, angles in radians.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NotHere {
    /// The two strings run so nearly in one line that they fix no swing point.
    StringsInOneLine {
        /// The angle at which they cross.
        crossing: f64,
    },
    /// The two tapes run so nearly in one line that they fix no spot.
    TiesInOneLine {
        /// The spot they should fix.
        spot: Spot,
        /// The angle at which they cross.
        crossing: f64,
    },
    /// A spot the tapes start from does not stand.
    NotSet(Spot),
    /// Ties need two spots to start from.
    TooFewSpots,
    /// The bend turns further than the method can follow.
    TurnsTooFar {
        /// How far it turns.
        sweep: f64,
        /// How far it may.
        most: f64,
    },
    /// The battens would have to be longer than battens are.
    BattensTooLong {
        /// Of the longest line.
        chord: f64,
        /// The most.
        most: f64,
    },
    /// The method is for straights.
    Bend,
}

impl fmt::Display for NotHere {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let degrees = |radians: f64| format!("{:.0}°", angle::to_degrees(radians));
        match self {
            Self::StringsInOneLine { crossing } => write!(
                f,
                "the two strings cross at {} only: square the swing point off the chord",
                degrees(*crossing)
            ),
            Self::TiesInOneLine { spot, crossing } => write!(
                f,
                "the two tapes to {} cross at {} only: tie it from other spots",
                Spots::default().name(*spot),
                degrees(*crossing)
            ),
            Self::NotSet(spot) => write!(
                f,
                "{} does not stand: tie from one that does",
                Spots::default().name(*spot)
            ),
            Self::TooFewSpots => f.write_str("two tapes need two spots: choose one more"),
            Self::TurnsTooFar { sweep, most } => write!(
                f,
                "the bend turns {}, more than {} for this method: use offsets from the chord",
                degrees(*sweep),
                degrees(*most)
            ),
            Self::BattensTooLong { chord, most } => write!(
                f,
                "each batten would be longer than {chord:.1} m, and beyond {most:.1} m they bend: use offsets from the chord"
            ),
            Self::Bend => {
                f.write_str("a string from peg to peg is straight: choose a method for bends")
            }
        }
    }
}

impl Error for NotHere {}
