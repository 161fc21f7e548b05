//! What is published of pavers on paths.

use plan::count::paving::{Bond, Joints, least_inner_radius};
use plan::document::Shape;

use crate::common::route;
use crate::{near, paved, tight, wide};

fn radius(unit: [f64; 2], [least, most]: [f64; 2]) -> f64 {
    let usual = 0.5 * (least + most);
    least_inner_radius(unit, Joints { least, usual, most })
}

const MM: f64 = 1e-3;

#[test]
fn units_to_the_square_metre_and_the_square_foot() {
    // Source: trade tables, 200 × 100 mm nominal with joints, 50 to the square metre.
    let path = wide(1.0, route(&[(0., 0.), (10., 0.)], vec![Shape::Straight]));
    assert_eq!(paved(&path, &tight(Bond::Stack)).ordered, 500);
    // Source: trade tables, 4 × 8 in nominal, 4.5 to the square foot.
    let per_square_foot = 0.3048 * 0.3048 / (0.1016 * 0.2032);
    near(per_square_foot, 4.5, 1e-12);
}

#[test]
fn the_least_radius_of_whole_blocks() {
    // Source: pavingexpert.com (an excerpt): 200 × 100 mm blocks laid radially with joints of 1 mm
    // inside and 5 mm outside follow about 5.1 m; with 3 and 5 mm about 10.6 m, measured to the
    // outer face; with 10 mm joints, the older practice, about 2.1 m. "About" is taken as 2 %.
    let soldier = [100.0 * MM, 200.0 * MM];
    let about = |actual: f64, published: f64| near(actual, published, 0.02 * published);
    about(radius(soldier, [1.0 * MM, 5.0 * MM]), 5.1);
    about(radius(soldier, [3.0 * MM, 5.0 * MM]) + 0.2, 10.6);
    let older = radius(soldier, [0.0, 10.0 * MM]);
    assert!((2.0 - 1e-12..2.1).contains(&older), "{older}");
}

#[test]
fn the_least_radius_worked_out() {
    // Source: R ≥ D (W + ji) / (jo − ji), worked out by hand.
    near(radius([0.1, 0.2], [0.001, 0.005]), 5.05, 1e-9);
    near(radius([0.1, 0.2], [0.003, 0.005]), 10.3, 1e-9);
    near(radius([0.1, 0.2], [0.002, 0.006]), 5.10, 1e-9);
    near(radius([0.2, 0.1], [0.002, 0.005]), 6.733_333, 1e-6);
    near(radius([0.1, 0.1], [0.005, 0.015]), 1.05, 1e-9);
    // 4 × 8 in, 1/16 to 1/4 in: 8 × 4 1/16 / (3/16) = 173 1/3 in.
    let inch = 0.0254;
    let soldier = [4.0 * inch, 8.0 * inch];
    near(
        radius(soldier, [inch / 16.0, inch / 4.0]),
        173.333_333 * inch,
        1e-6,
    );
}
