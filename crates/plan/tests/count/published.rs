//! Published amounts of material.

use plan::count::build_up::{Assumed, Bought, Filling, LayerWidth};
use plan::count::paving::Bond;
use plan::count::{Measure, Soil, built_in};

use crate::plans::{
    assumed, build_up, by_volume, counted, layer, near, need, straight_path, waste,
};

const FOOT: f64 = 0.3048;
const INCH: f64 = 0.0254;
const CUBIC_YARD: f64 = 0.9144 * 0.9144 * 0.9144;

#[test]
fn decomposed_granite_by_the_cubic_yard() {
    // Source: 2minutegardener.blogspot.com 2011/08: a path of 60 ft by 3 ft, 180 ft², takes 2 yd³ at
    // 3 in compacted; 1 yd³ covers 90 ft².
    for (length, width, yards) in [(60.0, 3.0, 2.0), (30.0, 3.0, 1.0)] {
        let plan = straight_path(length * FOOT, width * FOOT);
        let granite = layer("granite", 3.0 * INCH, LayerWidth::Path, by_volume(1.2));
        let found = counted(&plan, build_up(vec![granite]));
        let loose = need(&found, "granite", Measure::Volume).amount;
        near(loose / CUBIC_YARD, yards, 1e-9);
    }
}

fn units(length: f64, width: f64) -> Bought {
    Bought::Units {
        length: assumed(length),
        width: assumed(width),
        density: assumed(2200.0),
        filling: Some(Box::new(Filling {
            key: "joint-sand".into(),
            name: "joint sand".into(),
            joint: assumed(0.003),
            density: assumed(1500.0),
            waste: waste(0.0, 0.0),
            packs: Vec::new(),
        })),
        bond: Bond::Stack,
        edges: None,
    }
}

#[test]
fn units_to_an_area() {
    let foot = |length: f64| length * FOOT;
    for (path, (length, width), count) in [
        // Source: pavingshopper.co.uk, block paving guide: 50 of 200 by 100 mm to a square metre.
        ((10.0, 1.0), (0.2, 0.1), 500.0),
        // Source: s51810.gridserver.com: 4.5 bricks of 4 by 8 in to a square foot.
        ((foot(10.0), foot(1.0)), (8.0 * INCH, 4.0 * INCH), 45.0),
    ] {
        let plan = straight_path(path.0, path.1);
        let pavers = layer("pavers", 0.06, LayerWidth::Path, units(length, width));
        let found = counted(&plan, build_up(vec![pavers]));
        assert_eq!(need(&found, "pavers", Measure::Pieces).amount, count);
    }
}

#[test]
fn joint_sand() {
    // Geometry: 1/0.2 + 1/0.1 = 15 m of joint to a square metre; 3 mm by 60 mm of it is 2.7 L, about
    // 4 kg at 1500 kg/m³.
    let plan = straight_path(10.0, 1.0);
    let pavers = layer("pavers", 0.06, LayerWidth::Path, units(0.2, 0.1));
    let found = counted(&plan, build_up(vec![pavers]));
    near(need(&found, "joint-sand", Measure::Mass).amount, 40.5, 1e-9);
}

#[test]
fn concrete_by_the_cubic_yard() {
    // Definition: a slab of 81 ft² at 4 in is 27 ft³, one cubic yard.
    let plan = straight_path(27.0 * FOOT, 3.0 * FOOT);
    let slab = layer("concrete", 4.0 * INCH, LayerWidth::Path, by_volume(1.0));
    let found = counted(&plan, build_up(vec![slab]));
    let volume = need(&found, "concrete", Measure::Volume).amount;
    near(volume / CUBIC_YARD, 1.0, 1e-9);
}

#[test]
fn gravel_by_the_tonne() {
    // Source: dmediagroup.co, copy of a merchant's table: 1 t of pea gravel covers 11 m² at 50 mm,
    // which is 1.8 t/m³.
    let gravel = built_in()[0].layers[0].clone();
    let Bought::Mass { compacted, .. } = &gravel.bought else {
        panic!("{gravel:?}")
    };
    let tonne_covers = |density: f64| 1000.0 / (0.05 * density);
    let [low, high] = compacted.spread();
    near(tonne_covers(high), 11.0, 0.02);
    near(tonne_covers(low), 14.0, 0.02);
}

#[test]
fn bulking() {
    let within = |soil: Soil, factor: f64| {
        let [low, high] = soil.data().bulking.spread();
        assert!(low <= factor && factor <= high, "{soil:?} {factor}");
    };
    // Source: scribd.com 663198882, Bulking, shrinkage and bulk density.
    within(Soil::Sand, 1.05);
    within(Soil::SandAndGravel, 1.15);
    within(Soil::Clay, 1.30);
    // Source: tpub.com, Soil conversion factors: 100 in place are 111 loose.
    within(Soil::Sand, 1.11);
    // From memory: common earth 1.25, clay 1.43.
    within(Soil::Loam, 1.25);
    within(Soil::Clay, 1.43);
    // Source: infi-sev.be 12818: firm clay, peat, silt 1.20 to 1.40.
    within(Soil::Loam, 1.20);
    within(Soil::Clay, 1.20);
    within(Soil::Clay, 1.40);
    for soil in Soil::ALL {
        within(soil, soil.data().bulking.value);
        within(Soil::Unknown, soil.data().bulking.value);
    }
}

#[test]
fn stepping_stones() {
    // Source: walterreeves.com, stepping stones: 24 in (600 mm) from middle to middle.
    let up = built_in().last().unwrap().clone();
    let found = counted(&straight_path(12.0, 0.6), up);
    assert_eq!(found.stones, Some(20));
    assert_eq!(
        need(&found, "stepping-stones", Measure::Pieces).amount,
        20.0
    );
    // Opened is no more than the stones.
    near(found.dug.area, 20.0 * 0.4 * 0.5, 1e-12);
}

#[test]
fn control_joints() {
    // Source: concreteconstruction.net: a walk of 4 in by 5 ft is jointed every 5 ft; eng-tips.com
    // 156956: at most 36 thicknesses (12 ft) and 1.2 widths (6 ft) apart.
    let mut up = build_up(vec![layer(
        "concrete",
        4.0 * INCH,
        LayerWidth::Path,
        by_volume(1.0),
    )]);
    let factor = |value: f64| Assumed::own(value);
    up.joints = Some(plan::count::build_up::ControlJoints {
        of_thickness: factor(36.0),
        of_width: factor(1.0),
    });
    let found = counted(&straight_path(30.0 * FOOT, 5.0 * FOOT), up.clone());
    near(
        need(&found, "control-joint", Measure::Length).amount,
        5.0 * 5.0 * FOOT,
        1e-9,
    );
    // A wide one is held by its thickness: 12 ft.
    let found = counted(&straight_path(36.0 * FOOT, 20.0 * FOOT), up);
    near(
        need(&found, "control-joint", Measure::Length).amount,
        2.0 * 20.0 * FOOT,
        1e-9,
    );
}
