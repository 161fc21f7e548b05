//! Plans and build-ups to count.

use std::f64::consts::PI;

use geometry::Point;
use plan::Plan;
use plan::count::build_up::{
    Assumed, Bought, BuildUp, Cover, EdgeCourse, Layer, LayerPart, LayerWidth, Source, Waste,
};
use plan::count::{Measure, Need, Quantities, quantities};
use plan::document::{Scheme, Shape};
use plan::edging::Edging;

use crate::common::{plan_of, route};

pub(crate) fn assumed(value: f64) -> Assumed {
    Assumed {
        value,
        range: None,
        source: Source::Own,
    }
}

pub(crate) fn waste(straight: f64, curve: f64) -> Waste {
    Waste {
        straight: assumed(straight),
        curve: assumed(curve),
    }
}

/// A layer without waste, packs or labour.
pub(crate) fn layer(key: &str, thickness: f64, width: LayerWidth, bought: Bought) -> Layer {
    Layer {
        key: key.into(),
        name: key.into(),
        part: if width == LayerWidth::Path {
            LayerPart::Surface
        } else {
            LayerPart::Base
        },
        thickness: assumed(thickness),
        width,
        bought,
        waste: waste(0.0, 0.0),
        packs: Vec::new(),
        labour: None,
    }
}

pub(crate) fn by_mass(compacted: f64) -> Bought {
    Bought::Mass {
        compacted: assumed(compacted),
        loose: None,
    }
}

pub(crate) fn by_volume(factor: f64) -> Bought {
    Bought::Volume {
        factor: assumed(factor),
        loose: None,
    }
}

pub(crate) fn build_up(layers: Vec<Layer>) -> BuildUp {
    BuildUp {
        name: "tried".into(),
        notes: String::new(),
        cover: Cover::Whole,
        raised: None,
        layers,
        left: None,
        right: None,
        membrane: None,
        forms: None,
        joints: None,
    }
}

/// A course that is dug for so far beyond the path, without waste.
pub(crate) fn course(beyond: f64) -> EdgeCourse {
    EdgeCourse {
        edging: Edging::SteelStrip,
        key: "edging".into(),
        name: "edging".into(),
        beyond: assumed(beyond),
        waste: waste(0.0, 0.0),
        packs: Vec::new(),
        pins: None,
        haunch: None,
    }
}

/// A straight of 4 m, a bend of 6 m radius through 60°, a straight of 3 m.
pub(crate) fn bent_path() -> Plan {
    let turn = PI / 3.0;
    let on = Point::new(4.0 + 6.0 * turn.sin(), 6.0 - 6.0 * turn.cos());
    let end = Point::new(on.x + 3.0 * turn.cos(), on.y + 3.0 * turn.sin());
    // The apex lies right of the chord: the path turns left.
    let rise = -6.0 * (1.0 - (0.5 * turn).cos());
    plan_of(route(
        &[(0.0, 0.0), (4.0, 0.0), (on.x, on.y), (end.x, end.y)],
        vec![Shape::Straight, Shape::bend(rise), Shape::Straight],
    ))
}

/// A straight path so long and so wide.
pub(crate) fn straight_path(length: f64, width: f64) -> Plan {
    let mut path = route(&[(0.0, 0.0), (length, 0.0)], vec![Shape::Straight]);
    path.width = width;
    plan_of(path)
}

pub(crate) fn counted(plan: &Plan, build_up: BuildUp) -> Quantities {
    let mut plan = plan.clone();
    scheme(&mut plan).build_up = Some(build_up.into());
    quantities(&plan, &plan.solve(), 0).unwrap()
}

pub(crate) fn scheme(plan: &mut Plan) -> &mut Scheme {
    &mut plan.schemes[0]
}

#[track_caller]
pub(crate) fn need<'a>(quantities: &'a Quantities, key: &str, measure: Measure) -> &'a Need {
    let found = quantities.needs.iter().find(|need| need.key == key);
    let found = found.unwrap_or_else(|| panic!("no {key} in {:#?}", quantities.needs));
    assert_eq!(found.measure, measure, "{key}");
    found
}

#[track_caller]
pub(crate) fn near(value: f64, expected: f64, within: f64) {
    assert!((value - expected).abs() <= within, "{value} for {expected}");
}
