//! What is published of pavers on paths.

use plan::count::paving::{Bond, Course, Joints, Unit, least_inner_radius};
use plan::document::Shape;

use crate::common::route;
use crate::{near, paved, tight, wide};

fn radius(unit: [f64; 2], [least, most]: [f64; 2]) -> f64 {
    let usual = 0.5 * (least + most);
    least_inner_radius(unit, Joints { least, usual, most })
}

const MM: f64 = 1e-3;
const INCH: f64 = 0.0254;

#[test]
fn units_to_the_square_metre_and_the_square_foot() {
    // Source: trade tables, 200 × 100 mm nominal with joints, 50 to the square metre.
    let path = wide(1.0, route(&[(0., 0.), (10., 0.)], vec![Shape::Straight]));
    assert_eq!(paved(&path, &tight(Bond::Stack)).ordered, 500);
    // Source: trade tables, 4 × 8 in nominal, 4.5 to the square foot.
    let course = Course {
        unit: Unit {
            length: 8.0 * INCH,
            width: 4.0 * INCH,
        },
        ..tight(Bond::Stack)
    };
    let path = route(&[(0., 0.), (96.0 * INCH, 0.)], vec![Shape::Straight]);
    assert_eq!(
        paved(&wide(48.0 * INCH, path), &course).ordered,
        8 * 4 * 9 / 2
    );
}

#[test]
fn the_least_radius_of_whole_blocks() {
    // Source: pavingexpert.com (an excerpt): 200 × 100 mm blocks laid radially with joints of 1 mm
    // inside and 5 mm outside follow about 5.1 m, with 3 and 5 mm about 10.6 m. Which face that is
    // measured to is not said; "about" is taken as 3 %.
    let soldier = [100.0 * MM, 200.0 * MM];
    let about = |actual: f64, published: f64| near(actual, published, 0.03 * published);
    about(radius(soldier, [1.0 * MM, 5.0 * MM]), 5.1);
    about(radius(soldier, [3.0 * MM, 5.0 * MM]), 10.6);
    // The older practice of joints up to 10 mm: about 2.1 m, that is nearly none inside.
    let older = |inner: f64| radius(soldier, [inner * MM, 10.0 * MM]);
    assert!(older(0.0) < 2.1 && 2.1 < older(1.0));
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
    let soldier = [4.0 * INCH, 8.0 * INCH];
    near(
        radius(soldier, [INCH / 16.0, INCH / 4.0]),
        173.333_333 * INCH,
        1e-6,
    );
}
