//! What runs along a path: edging, membrane, forms, joints.

use serde::{Deserialize, Serialize};

use super::{Assumed, Packing, Source, Waste, built_in};
use crate::edging::Edging;

/// What holds one edge of a path.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EdgeCourse {
    /// What kind it is; the least bend it follows is that of its kind.
    pub edging: Edging,
    /// What finds it in a price list.
    pub key: String,
    /// What it is called on an order list.
    pub name: String,
    /// How far beyond the edge of the path is dug for it.
    pub beyond: Assumed,
    /// What is lost of it.
    pub waste: Waste,
    /// Its lengths or rolls, in metres.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub packs: Vec<Packing>,
    /// The pins, pegs or spikes that hold it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pins: Option<Pins>,
    /// The concrete it stands in.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub haunch: Option<Haunch>,
}

/// Pins, pegs or spikes along an edge.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pins {
    /// What finds them in a price list.
    pub key: String,
    /// What they are called on an order list.
    pub name: String,
    /// How far apart they are on a straight.
    pub straight: Assumed,
    /// How far apart they are on a bend.
    pub curve: Assumed,
}

/// Concrete along an edge.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Haunch {
    /// What finds it in a price list.
    pub key: String,
    /// What it is called on an order list.
    pub name: String,
    /// Cubic metres of it for a metre of edge: an area across.
    pub section: Assumed,
}

/// A membrane on the ground, laid along the path in strips that lap.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Membrane {
    /// What finds it in a price list.
    pub key: String,
    /// What it is called on an order list.
    pub name: String,
    /// How wide a roll is.
    pub roll_width: Assumed,
    /// How long a roll is.
    pub roll_length: Assumed,
    /// How far strips and ends of rolls lap.
    pub lap: Assumed,
    /// What is lost of it, laps apart.
    pub waste: Waste,
}

/// Forms along both edges of poured concrete.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Forms {
    /// What finds them in a price list.
    pub key: String,
    /// What they are called on an order list.
    pub name: String,
    /// How far beyond the edge of the path is dug for them.
    pub beyond: Assumed,
    /// What is lost of them.
    pub waste: Waste,
    /// The stakes that hold them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stakes: Option<Pins>,
}

/// Joints across poured concrete, radial on bends, as far apart as the stricter of the two allows.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ControlJoints {
    /// How many times the thickness of the surface they may stand apart.
    pub of_thickness: Assumed,
    /// How many times the width of the path they may stand apart.
    pub of_width: Assumed,
}

impl EdgeCourse {
    /// The usual course of an edging: that of the first built-in build-up with it, or else its length
    /// and the waste of common practice.
    #[must_use]
    pub fn usual(edging: Edging) -> Self {
        let courses = built_in().iter().flat_map(|up| [&up.left, &up.right]);
        let known = courses.flatten().find(|course| course.edging == edging);
        known.cloned().unwrap_or_else(|| {
            let practice = |value, range| Assumed {
                value,
                range,
                source: Source::CommonPractice,
            };
            Self {
                edging,
                key: "edging".into(),
                name: plain_name(edging).into(),
                beyond: practice(0.05, None),
                waste: Waste {
                    straight: practice(0.05, None),
                    curve: practice(0.10, Some((0.05, 0.15))),
                },
                packs: Vec::new(),
                pins: None,
                haunch: None,
            }
        })
    }
}

/// What an edging is called without its article.
fn plain_name(edging: Edging) -> &'static str {
    let name = edging.data().name;
    let articles = ["a ", "an ", "the "];
    let bare = articles.iter().find_map(|word| name.strip_prefix(word));
    bare.unwrap_or(name)
}
