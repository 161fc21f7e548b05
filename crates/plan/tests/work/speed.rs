//! How long the work of a path takes; measured by hand: `cargo test --test work -- --ignored --nocapture`.

use std::time::Instant;

use plan::document::Shape;
use plan::setout::work;

use super::common;

fn time(plan: &plan::Plan, times: u32) {
    let solved = plan.solve();
    let start = Instant::now();
    for _ in 0..times {
        for (scheme, option) in solved.schemes.iter().enumerate() {
            for route in 0..option.routes.len() {
                std::hint::black_box(work(plan, &solved, (scheme, route)));
            }
        }
    }
    println!("{:?}", start.elapsed() / times);
}

#[test]
#[ignore = "it measures and asserts nothing"]
fn the_example_and_two_hundred_legs() {
    time(&plan::example::plan().unwrap(), 200);
    let places: Vec<(f64, f64)> = (0..201_u32)
        .map(|i| (3.0 * f64::from(i), f64::from(i % 2)))
        .collect();
    let legs = (0..200_u32)
        .map(|i| Shape::bend(if i % 2 == 0 { 0.6 } else { -0.6 }))
        .collect();
    time(&common::plan(&places, legs), 5);
}
