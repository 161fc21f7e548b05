//! What a path is built of: layers, edges, membrane and joints, each figure with its source.

mod along;
mod built_in;
mod check;
mod figures;
mod read;

use serde::{Deserialize, Serialize};

use super::paving::{Bond, Course, Grid, Joints, Lay, Unit};
use crate::document::Side;
use crate::edging::Edging;

pub use along::{ControlJoints, EdgeCourse, Forms, Haunch, Membrane, Pins};
pub use built_in::built_in;
pub(crate) use check::check;
pub use figures::Figure;
pub use read::{BuildUpError, read_build_up, write_build_up};

/// What a path is built of. Lengths are metres, densities kilograms per cubic metre.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BuildUp {
    /// What it is called.
    pub name: String,
    /// Anything worth knowing about it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
    /// Whether it covers the whole path.
    #[serde(default, skip_serializing_if = "Cover::is_whole")]
    pub cover: Cover,
    /// How far the finished surface stands above the ground; below it where negative.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub raised: Option<Assumed>,
    /// The layers, from the surface down.
    pub layers: Vec<Layer>,
    /// What holds the left edge.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub left: Option<EdgeCourse>,
    /// What holds the right edge.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub right: Option<EdgeCourse>,
    /// What is spread on the ground before anything is laid.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub membrane: Option<Membrane>,
    /// What holds concrete along both edges until it is hard.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub forms: Option<Forms>,
    /// The joints that let concrete shrink.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub joints: Option<ControlJoints>,
}

/// A figure that is assumed, and why.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Assumed {
    /// The figure.
    pub value: f64,
    /// The least and the most where sources disagree.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub range: Option<(f64, f64)>,
    /// Where it comes from.
    #[serde(default)]
    pub source: Source,
}

/// Where a figure comes from.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub enum Source {
    /// It was read there.
    Published(String),
    /// What people in the trade do.
    CommonPractice,
    /// A published figure that was not looked up again.
    FromMemory,
    /// It follows from other figures: how.
    Worked(String),
    /// The figure of whoever wrote the file.
    #[default]
    Own,
}

/// How much of a path is built on.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub enum Cover {
    /// All of it.
    #[default]
    Whole,
    /// Single stones, one after the other along the centre line.
    Stones {
        /// From the middle of one to the middle of the next.
        spacing: Assumed,
        /// The length of one along the path.
        along: Assumed,
        /// The width of one across the path.
        across: Assumed,
    },
}

/// One layer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Layer {
    /// What finds it in a price list: "sub-base".
    pub key: String,
    /// What it is called on an order list.
    pub name: String,
    /// Which part of the path it is.
    pub part: LayerPart,
    /// How thick it lies when it is compacted.
    pub thickness: Assumed,
    /// How wide it lies.
    pub width: LayerWidth,
    /// How it is bought.
    pub bought: Bought,
    /// What is lost of it.
    pub waste: Waste,
    /// How it is sold, the usual way first, in what it is counted in.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub packs: Vec<Packing>,
    /// What laying it takes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub labour: Option<Labour>,
}

/// Which part of a path a layer is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum LayerPart {
    /// What is walked on.
    Surface,
    /// What the surface lies in.
    Bed,
    /// What carries both.
    Base,
}

/// How wide a layer lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum LayerWidth {
    /// From edge to edge of the path.
    Path,
    /// As wide as is dug.
    Dig,
    /// Beyond the edging on both sides by its own thickness.
    BeyondEdging,
}

/// How a layer is bought. A compacted density and a compaction factor exclude each other: the mass
/// of what lies compacted already holds what it was before.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Bought {
    /// By mass.
    Mass {
        /// Its density as it lies compacted.
        compacted: Assumed,
        /// Its density as it comes, for what a barrow holds.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        loose: Option<Assumed>,
    },
    /// By loose volume.
    Volume {
        /// How much of it loose makes one compacted, 1 or more.
        factor: Assumed,
        /// Its density as it comes.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        loose: Option<Assumed>,
    },
    /// By the piece, laid side by side.
    Units {
        /// From one to the next along its length, a joint included.
        length: Assumed,
        /// From one to the next across, a joint included.
        width: Assumed,
        /// Its density.
        density: Assumed,
        /// What fills the joints.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        filling: Option<Box<Filling>>,
        /// How they are laid.
        #[serde(default, skip_serializing_if = "Bond::is_running")]
        bond: Bond,
        /// How a course along each edge is laid, if there is one.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        edges: Option<Lay>,
    },
    /// By the area that it covers.
    Area {
        /// Its density.
        density: Assumed,
    },
    /// By the piece, one for each stepping stone.
    Each {
        /// Its density.
        density: Assumed,
    },
}

/// What fills the joints between units, as deep as they are thick.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Filling {
    /// What finds it in a price list.
    pub key: String,
    /// What it is called on an order list.
    pub name: String,
    /// How wide a joint is.
    pub joint: Assumed,
    /// Its density in the joint.
    pub density: Assumed,
    /// What is lost of it.
    pub waste: Waste,
    /// How it is sold, in kilograms.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub packs: Vec<Packing>,
}

/// What is lost in cutting, spilling and settling: shares of what is needed, 0 to 1.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Waste {
    /// Where edges are straight.
    pub straight: Assumed,
    /// Where edges are bent.
    pub curve: Assumed,
}

/// How a thing is sold.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Packing {
    /// What one is called.
    pub name: String,
    /// How much one holds.
    pub holds: Assumed,
}

/// What laying takes one person.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Labour {
    /// Hours for a cubic metre as it lies compacted.
    PerVolume(Assumed),
    /// Hours for a square metre.
    PerArea(Assumed),
}

impl Cover {
    fn is_whole(&self) -> bool {
        *self == Self::Whole
    }
}

impl Assumed {
    /// A figure of one's own.
    #[must_use]
    pub fn own(value: f64) -> Self {
        Self {
            value,
            range: None,
            source: Source::Own,
        }
    }

    /// The least and the most it may be.
    #[must_use]
    pub fn spread(&self) -> [f64; 2] {
        self.range
            .map_or([self.value, self.value], |(low, high)| [low, high])
    }
}

impl std::fmt::Display for Source {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Published(source) | Self::Worked(source) => f.write_str(source),
            Self::CommonPractice => f.write_str("common practice, no source"),
            Self::FromMemory => f.write_str("from memory"),
            Self::Own => f.write_str("own figure"),
        }
    }
}

impl Waste {
    /// What is lost in all where so much of the edges is bent.
    #[must_use]
    pub fn at(&self, curved_share: f64) -> f64 {
        blend(self.straight.value, self.curve.value, curved_share)
    }

    /// The least and the most of [`Self::at`].
    #[must_use]
    pub fn spread_at(&self, curved_share: f64) -> [f64; 2] {
        let (straight, curve) = (self.straight.spread(), self.curve.spread());
        [0, 1].map(|end| blend(straight[end], curve[end], curved_share))
    }
}

impl Bought {
    /// How its units are laid; nothing of what is not bought by the unit. The face of a unit is what
    /// it takes up less a joint, which is as wide as its filling says, or else as between blocks.
    #[must_use]
    pub fn course(&self) -> Option<Course> {
        let Self::Units {
            length,
            width,
            filling,
            bond,
            edges,
            ..
        } = self
        else {
            return None;
        };
        let joints = filling.as_ref().map_or(Joints::BLOCKS, |filling| {
            let [least, most] = filling.joint.spread();
            let usual = filling.joint.value;
            Joints { least, usual, most }
        });
        Some(Course {
            unit: Unit {
                length: length.value - joints.usual,
                width: width.value - joints.usual,
            },
            joints,
            bond: *bond,
            edges: *edges,
            grid: Grid::default(),
        })
    }
}

fn blend(straight: f64, curve: f64, curved_share: f64) -> f64 {
    straight + (curve - straight) * curved_share
}

impl BuildUp {
    /// How deep is dug: all layers, less what stands above the ground; never negative.
    #[must_use]
    pub fn depth(&self) -> f64 {
        let thick: f64 = self.layers.iter().map(|layer| layer.thickness.value).sum();
        let raised = self.raised.as_ref().map_or(0.0, |raised| raised.value);
        (thick - raised).max(0.0)
    }

    /// How far a layer lies beyond the left and the right edge of the path.
    #[must_use]
    pub fn beyond(&self, layer: &Layer) -> [f64; 2] {
        match layer.width {
            LayerWidth::Path => [0.0, 0.0],
            LayerWidth::Dig => self.dug_beyond(),
            LayerWidth::BeyondEdging => self
                .edging_beyond()
                .map(|edging| edging + layer.thickness.value),
        }
    }

    /// How far is dug beyond the left and the right edge of the path: for the edging, and for every
    /// layer that lies beyond it.
    #[must_use]
    pub fn dug_beyond(&self) -> [f64; 2] {
        let base = self
            .layers
            .iter()
            .filter(|layer| layer.width == LayerWidth::BeyondEdging)
            .map(|layer| layer.thickness.value)
            .fold(0.0, f64::max);
        self.edging_beyond().map(|edging| edging + base)
    }

    /// What holds one edge.
    #[must_use]
    pub fn course(&self, side: Side) -> Option<&EdgeCourse> {
        match side {
            Side::Left => self.left.as_ref(),
            Side::Right => self.right.as_ref(),
        }
    }

    pub(crate) fn course_mut(&mut self, side: Side) -> &mut Option<EdgeCourse> {
        match side {
            Side::Left => &mut self.left,
            Side::Right => &mut self.right,
        }
    }

    /// Edges both sides with the usual course of an edging, or with nothing; a course of that edging
    /// stays as it is.
    pub(crate) fn edge_with(&mut self, edging: Option<Edging>) {
        for side in [Side::Left, Side::Right] {
            let course = self.course_mut(side);
            if course.as_ref().map(|course| course.edging) != edging {
                *course = edging.map(EdgeCourse::usual);
            }
        }
    }

    fn edging_beyond(&self) -> [f64; 2] {
        let forms = self.forms.as_ref().map_or(0.0, |forms| forms.beyond.value);
        [&self.left, &self.right].map(|course| {
            let edging = course.as_ref().map_or(0.0, |course| course.beyond.value);
            edging.max(forms)
        })
    }
}
