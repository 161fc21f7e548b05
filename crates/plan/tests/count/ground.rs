//! Each spot of ground is counted once, and an edge only where nothing joins it.

use std::f64::consts::PI;

use geometry::Point;
use plan::document::{Junction, Pad, PadShape, Shape, Side};
use plan::edit::Edit;

use crate::common::{plan_of, route};
use crate::plans::{build_up, by_mass, counted, layer, near, straight_path};
use plan::count::Quantities;
use plan::count::build_up::LayerWidth;

fn ground(plan: &plan::Plan) -> Quantities {
    let sand = layer("sand", 0.1, LayerWidth::Path, by_mass(1600.0));
    counted(plan, build_up(vec![sand]))
}

fn with_pad(station: f64, shape: PadShape) -> plan::Plan {
    let mut plan = straight_path(10.0, 1.2);
    let name = "seat".into();
    plan.schemes[0].routes[0].pads.push(Pad {
        name,
        station,
        shape,
    });
    plan
}

#[test]
fn a_landing_lies_on_its_path_once() {
    // A circle of 2.4 m on a path of 1.2 m: beyond each edge a segment of half the sweep 120°.
    let found = ground(&with_pad(5.0, PadShape::Circle { diameter: 2.4 }));
    let (radius, sweep) = (1.2_f64, 2.0 * PI / 3.0);
    let segment = 0.5 * radius * radius * (sweep - sweep.sin());
    near(found.area, 12.0 + 2.0 * segment, 1e-9);
    // Each edge goes round it: less the chord, with the arc.
    let chord = 2.0 * radius * (0.5 * sweep).sin();
    near(found.left.length, 10.0 - chord + radius * sweep, 1e-6);
    near(found.right.length, 10.0 - chord + radius * sweep, 1e-6);
    near(found.left.curved, radius * sweep, 1e-6);
}

#[test]
fn a_landing_as_wide_as_its_path_adds_nothing() {
    let shape = PadShape::Rectangle {
        along: 2.0,
        across: 1.2,
    };
    let found = ground(&with_pad(5.0, shape));
    near(found.area, 12.0, 1e-9);
    near(found.left.length, 10.0, 1e-6);
    near(found.right.length, 10.0, 1e-6);
}

#[test]
fn a_wider_landing_adds_what_is_beyond() {
    let shape = PadShape::Rectangle {
        along: 2.0,
        across: 2.0,
    };
    let found = ground(&with_pad(5.0, shape));
    near(found.area, 12.0 + 2.0 * 0.8, 1e-9);
    near(found.left.length, 10.0 + 0.8, 1e-6);
    // At the end of the path it runs on by a metre.
    let found = ground(&with_pad(10.0, shape));
    near(found.area, 12.0 + 0.8 + 2.0, 1e-9);
    // Edged all round: half of its far side counts with each edge.
    near(found.left.length, 9.0 + 0.4 + 2.0 + 1.0, 1e-6);
}

#[test]
fn a_path_from_the_edge_of_another_opens_it() {
    let mut plan = straight_path(10.0, 1.2);
    let branch = Edit::Branch {
        scheme: 0,
        host: 0,
        side: Side::Left,
        near: Point::new(5.0, 0.6),
        to: Point::new(5.0, 4.6),
    };
    plan = plan.with(&branch).unwrap().plan;
    let width = plan.schemes[0].routes[1].width;
    assert!(plan.schemes[0].routes[1].start_on.is_some());
    let found = ground(&plan);
    near(found.area, 12.0 + 4.0 * width, 1e-9);
    // The host has no edge where the branch comes out, and the branch none on its start.
    near(found.paths[0].left, 10.0 - width, 1e-6);
    near(found.paths[0].right, 10.0, 1e-6);
    near(found.paths[1].left + found.paths[1].right, 8.0, 1e-6);
    // Its start lies on ground of the host if it is drawn into it: counted with the host.
    plan.schemes[0].routes[1].waypoints[0].at = Point::new(5.0, 0.0);
    plan.schemes[0].routes[1].start_on = None::<Junction>;
    let found = ground(&plan);
    near(found.area, 12.0 + 4.0 * width, 1e-9);
    near(found.paths[1].area, 4.0 * width, 1e-9);
}

#[test]
fn paths_that_cross() {
    let mut plan = straight_path(10.0, 1.2);
    plan.schemes[0]
        .routes
        .push(route(&[(5.0, -4.0), (5.0, 4.0)], vec![Shape::Straight]));
    let found = ground(&plan);
    near(found.area, 1.2 * 18.0 - 1.44, 1e-9);
    near(found.left.length, 18.0 - 2.4, 1e-6);
    // The same path laid twice takes up no more than once.
    let twice = plan.schemes[0].routes[1].clone();
    plan.schemes[0].routes.push(twice);
    let again = ground(&plan);
    near(again.area, found.area, 1e-9);
    near(again.left.length, found.left.length, 1e-6);
    near(again.paths[2].area, 0.0, 1e-9);
}

#[test]
fn a_path_that_crosses_itself() {
    // East along y = 0, round, and north across it at x = 4.
    let plan = plan_of(route(
        &[(0.0, 0.0), (8.0, 0.0), (8.0, -6.0), (4.0, -6.0), (4.0, 5.0)],
        vec![Shape::Straight; 4],
    ));
    let found = ground(&plan);
    // Length times width (mitres even out), less the square it crosses twice.
    near(found.area, 1.2 * (8.0 + 6.0 + 4.0 + 11.0) - 1.44, 1e-9);
}

#[test]
fn a_ring() {
    // A ring of 3 m radius, of two half circles.
    let half = || Shape::bend(3.0);
    for legs in [
        vec![half(), half()],
        vec![Shape::bend(-3.0), Shape::bend(-3.0)],
    ] {
        let found = ground(&plan_of(route(&[(-3.0, 0.0), (3.0, 0.0)], legs)));
        near(found.area, 1.2 * 6.0 * PI, 1e-9);
        near(found.left.length + found.right.length, 12.0 * PI, 1e-9);
        assert_eq!(found.curved_share, 1.0);
    }
}

#[test]
fn a_path_with_a_lost_edge_is_named_and_not_counted() {
    let mut path = route(&[(0.0, 0.0), (1.0, 0.0)], vec![Shape::bend(0.5)]);
    path.width = 2.0;
    let found = ground(&plan_of(path));
    assert_eq!(found.not_counted, [1]);
    assert_eq!((found.area, found.length), (0.0, 0.0));
    assert_eq!(found.needs, []);
}

#[test]
fn a_trench_with_no_inner_edge_left_is_still_counted() {
    // A bend of 0.65 m radius, 1.2 m wide: 50 mm are left inside, 150 mm are dug beyond.
    let plan = plan_of(route(
        &[(-0.65, 0.0), (0.65, 0.0)],
        vec![Shape::bend(-0.65)],
    ));
    let mut up = build_up(vec![layer("sand", 0.1, LayerWidth::Dig, by_mass(1600.0))]);
    up.left = Some(crate::plans::course(0.15));
    up.right = up.left.clone();
    let found = counted(&plan, up);
    let area = 1.2 * 0.65 * PI;
    near(found.area, area, 1e-9);
    assert!(
        found.dug.area > area && found.dug.area < 2.0 * area,
        "{}",
        found.dug.area
    );
}
