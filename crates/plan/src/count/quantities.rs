//! How much of everything an option needs, from the exact areas and edges of its paths.

mod measured;
mod needs;
mod paved;
mod spoil;

use serde::Serialize;

use super::Need;
use super::build_up::{Bought, BuildUp, Cover, EdgeCourse, Layer};
use super::packs::packed;
use crate::document::{Plan, Scheme, Side};
use crate::solve::Solved;
use measured::Measured;

pub use paved::{PathCourse, Paved, PaverCount, Pavers, PavingHints, paving_hints};
pub use spoil::{Limit, Spoil, Trips};

/// How much of everything an option needs. SI units at full precision.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Quantities {
    /// What its build-up is called.
    pub build_up: String,
    /// The length of its centre lines together.
    pub length: f64,
    /// The ground its paths and landings take up, each spot counted once; of stepping stones their own.
    pub area: f64,
    /// How much of both edges is bent, as a share of 1.
    pub curved_share: f64,
    /// The left edges.
    pub left: EdgeQuantity,
    /// The right edges.
    pub right: EdgeQuantity,
    /// How many stepping stones, where it is built of them.
    pub stones: Option<u64>,
    /// Its pavers, where the surface is of them.
    pub paving: Option<Paved>,
    /// What is dug.
    pub dug: Dug,
    /// Its layers, from the surface down.
    pub layers: Vec<LayerQuantity>,
    /// What is wheeled away and taken away.
    pub spoil: Spoil,
    /// The share of each path that can be built.
    pub paths: Vec<RouteQuantity>,
    /// Which paths are not counted, from 1, because an edge of theirs is lost.
    pub not_counted: Vec<usize>,
    /// Everything to dig, buy and do, in the order of work.
    pub needs: Vec<Need>,
}

/// An amount, and the least and the most it may be.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Amount {
    /// The amount.
    pub amount: f64,
    /// The least and the most where sources disagree.
    pub range: Option<[f64; 2]>,
}

/// The edges of one side together, where nothing joins them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct EdgeQuantity {
    /// Their length.
    pub length: f64,
    /// How much of it is bent.
    pub curved: f64,
    /// How many lengths or rolls of the usual kind hold them, waste included.
    pub pieces: Option<u64>,
    /// How many pins hold them.
    pub pins: Option<u64>,
}

/// What is dug.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Dug {
    /// The ground that is opened.
    pub area: f64,
    /// How deep.
    pub depth: f64,
    /// Its volume in the ground.
    pub volume: f64,
}

/// One layer.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LayerQuantity {
    /// What finds it in a price list.
    pub key: String,
    /// What it is called.
    pub name: String,
    /// The ground it covers.
    pub area: f64,
    /// How thick it lies.
    pub thickness: f64,
    /// Its volume as it lies compacted, without waste.
    pub volume: f64,
    /// Its volume as it comes, waste included; nothing where that is not known.
    pub loose: Option<f64>,
    /// Its mass as it comes, waste included; nothing where that is not known.
    pub mass: Option<f64>,
    /// The barrow loads it makes; nothing where its loose volume is not known.
    pub trips: Option<Trips>,
}

/// The share of one path.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RouteQuantity {
    /// Its name.
    pub name: String,
    /// Which path, counted from 1.
    pub path: usize,
    /// The length of its centre line.
    pub length: f64,
    /// The ground it takes up that no path before it does, with its landings.
    pub area: f64,
    /// The ground opened for it that is not opened for a path before it.
    pub dug_area: f64,
    /// Its left edge, where nothing joins it.
    pub left: f64,
    /// Its right edge.
    pub right: f64,
}

impl EdgeQuantity {
    fn curved_share(&self) -> f64 {
        if self.length > 0.0 {
            self.curved / self.length
        } else {
            0.0
        }
    }
}

impl Quantities {
    /// The edges of one side.
    #[must_use]
    pub fn edge(&self, side: Side) -> &EdgeQuantity {
        match side {
            Side::Left => &self.left,
            Side::Right => &self.right,
        }
    }
}

/// How much of everything an option needs; nothing without a build-up, or where there is no such
/// option.
///
/// Paths that lie on each other, and landings on their paths, take up and open each spot once; where
/// one joins another, neither has an edge. Trenches end where the path does.
#[must_use]
pub fn quantities(plan: &Plan, solved: &Solved, scheme: usize) -> Option<Quantities> {
    let meant = plan.schemes.get(scheme)?;
    let drawn = solved.schemes.get(scheme)?;
    let build_up = meant.laid()?;
    let measured = Measured::of(&build_up, &drawn.routes);
    let dug = Dug {
        area: measured.dug_area,
        depth: build_up.depth(),
        volume: measured.dug_area * build_up.depth(),
    };
    let paving = Paved::of(&build_up, &drawn.routes, &measured.not_counted);
    let layers: Vec<LayerQuantity> = build_up
        .layers
        .iter()
        .zip(&measured.layers)
        .map(|(layer, area)| {
            let counted = paving.as_ref().filter(|paving| paving.key == layer.key);
            let counted = counted.and_then(Paved::count);
            layer_quantity(plan, &measured, (layer, counted), *area)
        })
        .collect();
    let spoil = spoil::spoil(&plan.count, dug.volume);
    let [left, right] = [Side::Left, Side::Right].map(|side| {
        let course = build_up.course(side);
        edge_quantity(measured.edge(side), course)
    });
    let mut quantities = Quantities {
        build_up: build_up.name.clone(),
        length: measured.length,
        area: measured.area,
        curved_share: measured.curved_share,
        left,
        right,
        stones: measured.stones,
        paving,
        dug,
        layers,
        spoil,
        paths: measured.paths.clone(),
        not_counted: measured.not_counted.clone(),
        needs: Vec::new(),
    };
    quantities.needs = needs::needs(plan, &build_up, &measured, &quantities);
    Some(quantities)
}

fn edge_quantity(edge: EdgeQuantity, course: Option<&EdgeCourse>) -> EdgeQuantity {
    let ordered = |course: &EdgeCourse| edge.length * (1.0 + course.waste.at(edge.curved_share()));
    EdgeQuantity {
        pieces: course.and_then(|course| {
            let pack = course.packs.first()?;
            Some(packed(ordered(course), pack.holds.value).count)
        }),
        pins: course
            .and_then(|course| course.pins.as_ref())
            .map(|pins| needs::pin_count(pins, &edge)),
        ..edge
    }
}

fn layer_quantity(
    plan: &Plan,
    measured: &Measured,
    (layer, counted): (&Layer, Option<&PaverCount>),
    area: f64,
) -> LayerQuantity {
    let thickness = layer.thickness.value;
    let volume = area * thickness;
    let with_waste = volume * (1.0 + layer.waste.at(measured.curved_share));
    // The mass of what comes is that of what lies; its volume follows from one factor or from two
    // densities, never from both.
    let (loose, mass) = match (&layer.bought, counted) {
        (Bought::Mass { compacted, loose }, _) => {
            let mass = with_waste * compacted.value;
            (loose.as_ref().map(|loose| mass / loose.value), Some(mass))
        }
        (Bought::Volume { factor, loose }, _) => {
            let volume = with_waste * factor.value;
            let mass = loose.as_ref().map(|loose| volume * loose.value);
            (Some(volume), mass)
        }
        (Bought::Units { density, .. }, Some(count)) => {
            let faces = count.laid + count.waste;
            (None, Some(faces * thickness * density.value))
        }
        (
            Bought::Units { density, .. } | Bought::Area { density } | Bought::Each { density },
            _,
        ) => (None, Some(with_waste * density.value)),
    };
    let exact = |amount| Amount {
        amount,
        range: None,
    };
    LayerQuantity {
        key: layer.key.clone(),
        name: layer.name.clone(),
        area,
        thickness,
        volume,
        loose,
        mass,
        trips: loose.map(|loose| {
            let mass = mass.map_or(0.0, |mass| mass);
            spoil::barrows(&plan.count, exact(loose), exact(mass))
        }),
    }
}

impl Scheme {
    /// What its paths are built of, with the edging that is chosen where the build-up names none.
    fn laid(&self) -> Option<BuildUp> {
        let mut build_up = BuildUp::clone(self.build_up.as_ref()?);
        for side in [Side::Left, Side::Right] {
            let chosen = self.edging.map(EdgeCourse::usual);
            let course = build_up.course_mut(side);
            *course = course.take().or(chosen);
        }
        Some(build_up)
    }
}

impl Cover {
    /// How far apart stepping stones are, how long and how wide.
    fn stone(&self) -> Option<[f64; 3]> {
        match self {
            Self::Whole => None,
            Self::Stones {
                spacing,
                along,
                across,
            } => Some([spacing.value, along.value, across.value]),
        }
    }
}
