//! What a path is edged or paved with, and the bends it can follow.

use serde::{Deserialize, Serialize};

/// What the edges of an option's paths are made of.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Edging {
    /// Thin boards laminated on the spot.
    BenderBoard,
    /// The same in plastic.
    PlasticBoard,
    /// A gravel board of timber, unsawn.
    TimberBoard,
    /// A gravel board sawn one third through, over and over.
    SawnTimberBoard,
    /// Strips of plywood or hardboard.
    PlywoodStrip,
    /// A strip of thin steel, bent by hand.
    SteelStrip,
    /// A paver restraint of aluminium, its back leg cut.
    AluminiumRestraint,
    /// Blocks of 200 by 100 mm laid radially, uncut.
    RadialBlocks,
    /// Setts of 100 mm in concrete.
    StoneSetts,
    /// Straight concrete edging or kerb units.
    StraightUnits,
    /// Something else, by the least inside radius in metres that it follows.
    Other {
        /// The least radius of the inside edge, in metres.
        least_radius: f64,
    },
}

/// What is known of an edging.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EdgingData {
    /// The least radius in metres that it follows.
    pub least_radius: f64,
    /// The length of one straight unit in metres, where it is laid in units that show as a polygon.
    pub unit: Option<f64>,
    /// What it is called, with its article.
    pub name: &'static str,
    /// Where the radius comes from.
    pub source: &'static str,
}

const PRACTICE: &str = "common practice, no source";

impl Edging {
    /// All that are named.
    pub const ALL: [Self; 10] = [
        Self::BenderBoard,
        Self::PlasticBoard,
        Self::TimberBoard,
        Self::SawnTimberBoard,
        Self::PlywoodStrip,
        Self::SteelStrip,
        Self::AluminiumRestraint,
        Self::RadialBlocks,
        Self::StoneSetts,
        Self::StraightUnits,
    ];

    /// What is known of it. Where practice gives a range of radii the larger is taken.
    #[must_use]
    pub fn data(&self) -> EdgingData {
        let (name, least_radius, unit, source) = match *self {
            Self::BenderBoard => (
                "a bender board",
                1.8,
                None,
                "Installing edging boards (thefreelibrary.com): about 6 ft",
            ),
            Self::PlasticBoard => ("a plastic board", 0.9, None, PRACTICE),
            Self::TimberBoard => ("a timber board", 6.0, None, PRACTICE),
            Self::SawnTimberBoard => ("a sawn timber board", 2.0, None, PRACTICE),
            Self::PlywoodStrip => ("a plywood strip", 1.0, None, PRACTICE),
            Self::SteelStrip => ("a steel strip", 1.0, None, PRACTICE),
            Self::AluminiumRestraint => ("an aluminium restraint", 0.9, None, PRACTICE),
            Self::RadialBlocks => (
                "a course of blocks laid radially",
                5.1,
                None,
                "pavingexpert.com, block paving details: joints of 1 to 5 mm",
            ),
            // 100 mm deep, 100 mm wide, joints of 5 mm inside and 15 mm outside: D (W + ji) / (jo − ji).
            Self::StoneSetts => (
                "a course of stone setts",
                1.05,
                None,
                "geometry, for joints of 5 to 15 mm",
            ),
            Self::StraightUnits => (
                "a row of straight units",
                12.0,
                Some(0.915),
                "pavingexpert.com, block paving details: straight kerb units from 12 m",
            ),
            Self::Other { least_radius } => {
                ("the edging", least_radius, None, "the plan's own figure")
            }
        };
        EdgingData {
            least_radius,
            unit,
            name,
            source,
        }
    }
}

impl EdgingData {
    /// How far a straight unit stands off a curve of `radius`, in metres: l² / 8R, the rise of its
    /// chord on a flat bend.
    #[must_use]
    pub fn bulge(&self, radius: f64) -> Option<f64> {
        self.unit.map(|unit| unit * unit / (8.0 * radius))
    }
}
