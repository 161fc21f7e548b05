//! What is wheeled along a path: its size from above.

use geometry::{Rig, Towing};
use serde::{Deserialize, Serialize};

/// A vehicle from above, with all figures in metres.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Vehicle {
    /// What it is called.
    pub name: String,
    /// Its width.
    pub width: f64,
    /// From front axle to rear axle; 0 for what has one axle that keeps it in line with the path, as
    /// the wheel of a barrow or the driven wheels of a chair.
    pub wheelbase: f64,
    /// How far it reaches ahead of the front axle.
    pub front: f64,
    /// How far it reaches behind the rear axle.
    pub back: f64,
    /// What it draws.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub trailer: Option<Trailer>,
}

/// A trailer from above, with all figures in metres.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Trailer {
    /// From the rear axle back to the hitch.
    pub hitch: f64,
    /// From the hitch back to the trailer's axle.
    pub drawbar: f64,
    /// Its width.
    pub width: f64,
    /// How far it reaches ahead of its axle.
    pub front: f64,
    /// How far it reaches behind its axle.
    pub back: f64,
}

impl Vehicle {
    /// Its outline, as geometry has it.
    #[must_use]
    pub fn rig(&self) -> Rig {
        Rig {
            width: self.width,
            wheelbase: self.wheelbase,
            front: self.front,
            back: self.back,
            trailer: self.trailer.map(|trailer| Towing {
                hitch: trailer.hitch,
                drawbar: trailer.drawbar,
                width: trailer.width,
                front: trailer.front,
                back: trailer.back,
            }),
        }
    }
}

/// What is wheeled along garden paths most: a barrow, a chair, a ride-on mower with a trailer. All to
/// be changed by whoever knows better; what is at hand is soon measured.
#[must_use]
pub fn usual_vehicles() -> Vec<Vehicle> {
    vec![
        Vehicle {
            name: "wheelbarrow".into(),
            // 0.6 to 0.7 m over the handles: common practice, no source.
            width: 0.7,
            wheelbase: 0.0,
            // Wheel and tray before the axle, and from there to the end of the handles: from memory.
            front: 0.25,
            back: 1.2,
            trailer: None,
        },
        Vehicle {
            name: "wheelchair".into(),
            // 0.8 m by 1.3 m, the footprint of ISO 21542; source: theiteh.com, SIST ISO 21542:2022.
            width: 0.8,
            wheelbase: 0.0,
            // Driven wheels so far from the back: from memory.
            front: 0.95,
            back: 0.35,
            trailer: None,
        },
        Vehicle {
            name: "ride-on mower with trailer".into(),
            // A small one, and a small tipping trailer behind it: from memory. The wheelbase of 47 in:
            // backyardhubs.com, dimensions of a riding lawn mower.
            width: 1.0,
            wheelbase: 1.2,
            front: 0.35,
            back: 0.25,
            trailer: Some(Trailer {
                hitch: 0.3,
                drawbar: 1.2,
                width: 0.8,
                front: 0.55,
                back: 0.55,
            }),
        },
    ]
}
