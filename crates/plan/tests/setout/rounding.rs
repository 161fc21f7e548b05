//! What rounding one figure does, against the bend set out again with the rounded one.

use geometry::{Arc, Bend, Figure, Point};
use plan::setout::{FigureEffect, effect_of_rounding};
use plan::units::{Graduation, Ruler};
use proptest::prelude::*;

use super::near;

#[test]
fn the_figures_that_are_not_taped_have_no_effect_to_tell() {
    let bend = Bend::from_chord_and_rise(4.0, 0.7).unwrap();
    let ruler = Ruler::new(plan::units::Units::Metric);
    for figure in Figure::ALL {
        let is_taped = matches!(
            figure,
            Figure::Chord | Figure::Rise | Figure::Radius | Figure::Apothem
        );
        assert_eq!(
            effect_of_rounding(&bend, figure, &ruler).is_some(),
            is_taped
        );
    }
    // A rise that the tape reads as nothing is no bend.
    let flat = Bend::from_chord_and_rise(4.0, 0.001).unwrap();
    assert_eq!(effect_of_rounding(&flat, Figure::Rise, &ruler), None);
}

#[test]
fn rounding_the_string_moves_the_apex_as_the_sensitivity_says() {
    // Common practice, no source: chord 84 in, rise 30 in, radius 44.4 in; a tape of 1/8 in reads
    // 44 3/8 in, and the apex moves −2.1 times as far.
    const INCH: f64 = 0.0254;
    let bend = Bend::from_chord_and_rise(84.0 * INCH, 30.0 * INCH).unwrap();
    let ruler = Ruler::new(plan::units::Units::FeetInches);
    let effect = effect_of_rounding(&bend, Figure::Radius, &ruler).unwrap();
    near(effect.by, -0.025 * INCH, 1e-12);
    near(effect.apex_out / effect.by, -2.1, 0.05);
}

/// A bend on a chord to the east, its apex to the north.
fn drawn(bend: &Bend) -> Arc {
    let [start, end] = [Point::ORIGIN, Point::new(bend.chord(), 0.0)];
    Arc::from_rise(start, end, bend.rise()).unwrap()
}

proptest! {
    #[test]
    fn each_effect_is_that_of_the_bend_set_out_again(
        chord in 1.0..12.0, ratio in 0.05..0.95, graduation in prop::sample::select(&Graduation::ALL),
    ) {
        let bend = Bend::from_chord_and_rise(chord, ratio * chord).unwrap();
        let ruler = Ruler { units: graduation.units(), graduation };
        let arc = drawn(&bend);
        let effect = |figure| -> FigureEffect { effect_of_rounding(&bend, figure, &ruler).unwrap() };
        let moved = |again: &Arc| again.apex() - arc.apex();

        let found = effect(Figure::Chord);
        let again = drawn(&Bend::from_chord_and_rise(ruler.round(chord), bend.rise()).unwrap());
        prop_assert!((moved(&again).x - found.apex_along).abs() < 1e-9);
        prop_assert!((moved(&again).y - found.apex_out).abs() < 1e-9);
        prop_assert!((again.end().x - arc.end().x - found.last_peg).abs() < 1e-9);

        let found = effect(Figure::Rise);
        let again = drawn(&Bend::from_chord_and_rise(chord, ruler.round(bend.rise())).unwrap());
        prop_assert!((moved(&again).y - found.apex_out).abs() < 1e-9);

        // The swung line, about the swing point as it is squared off.
        let found = effect(Figure::Apothem);
        let swing_point = Point::new(0.5 * chord, -ruler.round(bend.apothem()));
        let apex = swing_point.y + bend.radius();
        prop_assert!((apex - arc.apex().y - found.apex_out).abs() < 1e-9);
        let past = bend.radius() - swing_point.distance(Point::ORIGIN);
        // Square to the line but for the curve of the second order.
        prop_assert!((past - found.past_pegs).abs() <= found.by * found.by / bend.radius() + 1e-9);
    }
}
