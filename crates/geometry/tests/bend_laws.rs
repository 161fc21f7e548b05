//! What holds for every bend and every fitted circle, whatever the figures.

use std::f64::consts::PI;

use geometry::{Bend, Figure, Point, Vector, bends_from, circle_from_points};
use proptest::prelude::*;

/// Chords from 10 mm to 10 km and rises from 1e-9 of the chord to far past a half circle.
fn any_bend() -> impl Strategy<Value = Bend> {
    (-2.0..4.0_f64, -9.0..6.0_f64).prop_map(|(chord, ratio)| {
        let chord = 10_f64.powf(chord);
        Bend::from_chord_and_rise(chord, chord * 10_f64.powf(ratio)).expect("a bend")
    })
}

/// Bends as gardens have them: from a bow of a hundredth to three quarters of a turn.
fn garden_bend() -> impl Strategy<Value = Bend> {
    (0.3..60.0_f64, 0.01..1.2_f64)
        .prop_map(|(chord, ratio)| Bend::from_chord_and_rise(chord, chord * ratio).expect("a bend"))
}

fn pair() -> impl Strategy<Value = (Figure, Figure)> {
    (0..8_usize, 1..8_usize).prop_map(|(i, step)| (Figure::ALL[i], Figure::ALL[(i + step) % 8]))
}

fn relative(found: f64, expected: f64) -> f64 {
    ((found - expected) / expected).abs()
}

/// On the flattest bends arc length and tangent length differ from the chord by less than this.
const ROUNDING: f64 = 1e-15;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    /// Any two figures of a bend give it back among their answers, and each answer has both.
    #[test]
    fn two_figures_give_the_bend_back(bend in any_bend(), (a, b) in pair()) {
        let (Some(first), Some(second)) = (bend.figure(a), bend.figure(b)) else { return Ok(()) };
        let answers = match bends_from((a, first), (b, second)) {
            Ok(answers) => answers,
            Err(error) => {
                // rounding alone may carry the figures over a limit: only where they are not held
                let nearer = relative(first, second) < 1e-13 || relative(first, 2.0 * second) < 1e-13
                    || relative(2.0 * first, second) < 1e-13;
                prop_assert!(nearer, "{a} {first:e}, {b} {second:e}: {error}");
                return Ok(());
            }
        };
        prop_assert!((1..=2).contains(&answers.len()));
        prop_assert!(answers.is_sorted_by(|a, b| a.bend.sweep() < b.bend.sweep()));
        // Chord and rise hold the apothem of a bend near the half circle only to this, and with it
        // tangent length and external distance.
        let slack = |bend: Bend| 1.0 + (bend.radius() / bend.apothem()).abs().min(1e16);
        for answer in &answers {
            prop_assert!(answer.digits.is_finite());
            for (figure, given) in [(a, first), (b, second)] {
                let back = answer.bend.figure(figure).expect("a given figure");
                let allowed = match figure {
                    Figure::Apothem => 1e-14 * answer.bend.radius(),
                    Figure::TangentLength | Figure::ExternalDistance => {
                        1e-14 * given * slack(answer.bend)
                    }
                    // near a whole turn the sweep no longer says how far from it
                    _ => 1e-13 * given,
                };
                prop_assert!((back - given).abs() <= allowed, "{figure} {given:e} came back {back:e} in {answer:?}");
            }
        }
        let off = answers.iter().map(|x| relative(x.bend.radius(), bend.radius())).fold(f64::INFINITY, f64::min);
        let digits = answers.iter().map(|x| x.digits).fold(f64::INFINITY, f64::min);
        // two digits for the rounding of the givens and of the way there; without as many left
        // nothing is promised
        let promised = if digits > 2.0 { 10_f64.powf(2.0 - digits) } else { f64::INFINITY };
        prop_assert!(off <= promised, "{off:e} off, {promised:e} promised: {answers:?} for {bend:?}");
    }

    /// Whatever is asked, the answer is a bend with both figures or a sentence.
    #[test]
    fn nothing_asked_goes_astray(
        (a, b) in pair(),
        (first, second) in (-31.0..31.0_f64, -31.0..31.0_f64),
        (first_below, second_below) in (any::<bool>(), any::<bool>()),
    ) {
        let given = |power: f64, below: bool| 10_f64.powf(power) * if below { -1.0 } else { 1.0 };
        let (first, second) = ((a, given(first, first_below)), (b, given(second, second_below)));
        match bends_from(first, second) {
            Ok(answers) => {
                prop_assert!((1..=2).contains(&answers.len()));
                for answer in answers {
                    prop_assert!(answer.bend.figure(a).is_some_and(f64::is_finite));
                    prop_assert!(answer.bend.figure(b).is_some_and(f64::is_finite));
                    prop_assert!((0.0..=15.9).contains(&answer.digits), "{answer:?}");
                }
            }
            Err(error) => prop_assert!(!error.to_string().contains("NaN"), "{error}"),
        }
    }

    /// Scale changes nothing but size.
    #[test]
    fn answers_grow_with_the_figures(bend in garden_bend(), (a, b) in pair(), scale in 0.001..1000.0_f64) {
        let (Some(first), Some(second)) = (bend.figure(a), bend.figure(b)) else { return Ok(()) };
        let scaled = |figure: Figure, value: f64| if figure.is_angle() { value } else { value * scale };
        let small = bends_from((a, first), (b, second)).expect("a bend");
        let great = bends_from((a, scaled(a, first)), (b, scaled(b, second))).expect("a bend");
        prop_assert_eq!(small.len(), great.len());
        for (small, great) in small.iter().zip(&great) {
            let allowed = 1e-13 * 10_f64.powf(15.9 - small.digits.min(great.digits));
            prop_assert!(relative(great.bend.radius(), scale * small.bend.radius()) <= allowed);
            prop_assert!(relative(great.bend.sweep(), small.bend.sweep()) <= allowed.max(1e-9));
        }
    }

    /// The sensitivities are the slopes one finds by changing a figure a little.
    #[test]
    fn sensitivities_are_slopes(bend in garden_bend(), (a, b) in pair()) {
        let (Some(first), Some(second)) = (bend.figure(a), bend.figure(b)) else { return Ok(()) };
        let answers = bends_from((a, first), (b, second)).expect("a bend");
        for (at, answer) in answers.iter().enumerate() {
            if answer.digits < 14.0 || first.abs() < 1e-3 || second.abs() < 1e-3 {
                continue;
            }
            let radius = answer.bend.radius();
            let moved = |x: f64, y: f64| {
                bends_from((a, x), (b, y)).ok().and_then(|all| all.get(at).map(|answer| answer.bend.radius()))
            };
            let steps = (first * 1e-6, second * 1e-6);
            for (per, step, more, less) in [
                (answer.radius_per_first, steps.0, moved(first + steps.0, second), moved(first - steps.0, second)),
                (answer.radius_per_second, steps.1, moved(first, second + steps.1), moved(first, second - steps.1)),
            ] {
                let (Some(more), Some(less)) = (more, less) else { continue };
                let slope = (more - less) / (2.0 * step);
                let size = (radius / step.abs() * 1e-6).max(per.abs());
                prop_assert!((slope - per).abs() <= 1e-5 * size, "{a}, {b}: {per}, found {slope} in {answer:?}");
            }
        }
    }

    /// A higher rise over the same chord is a longer way, turns more and brings the centre nearer.
    #[test]
    fn more_rise_is_more_way(bend in any_bend(), more in 1.000_001..2.0_f64) {
        let higher = Bend::from_chord_and_rise(bend.chord(), bend.rise() * more).expect("a bend");
        prop_assert!(higher.sweep() > bend.sweep());
        prop_assert!(higher.arc_length() >= bend.arc_length() * (1.0 - ROUNDING));
        prop_assert!(higher.apothem() < bend.apothem());
        prop_assert!(higher.segment_area() > bend.segment_area());
        prop_assert_eq!(higher.apothem() <= 0.0, higher.is_half_circle_or_more());
        if let (Some(a), Some(b)) = (bend.tangent_length(), higher.tangent_length()) {
            prop_assert!(b >= a * (1.0 - ROUNDING) && a >= bend.chord() / 2.0 * (1.0 - ROUNDING));
        }
    }

    /// Offsets from chord and from tangent are the same circle seen from two sides.
    #[test]
    fn offsets_lie_on_the_circle(bend in any_bend(), share in 0.0..1.0_f64) {
        let (radius, half) = (bend.radius(), bend.chord() / 2.0);
        let x = half * share;
        let above_centre = bend.offset_from_chord(x).expect("on the chord") + bend.apothem();
        prop_assert!(relative(above_centre.hypot(x), radius) < 1e-14);
        prop_assert_eq!(bend.offset_from_chord(-x), bend.offset_from_chord(x));
        if let Some(in_from_tangent) = bend.offset_from_tangent(x) {
            prop_assert!(relative((radius - in_from_tangent).hypot(x), radius) < 1e-14);
        }
    }

    /// Halving: two halves make the length, and the half bends lie on the same circle.
    #[test]
    fn two_halves_make_the_whole(bend in any_bend()) {
        let half = bend.half();
        prop_assert!(relative(half.radius(), bend.radius()) < 1e-14);
        prop_assert!(relative(2.0 * half.arc_length(), bend.arc_length()) < 1e-14);
        prop_assert!(half.rise() < half.chord() / 2.0);
    }

    /// A circle comes back from points on it, wherever it lies and however little of it is seen.
    #[test]
    fn points_on_a_circle_give_it_back(
        (x, y) in (-1e5..1e5_f64, -1e5..1e5_f64),
        radius in 0.5..50.0_f64,
        from in 0.0..6.0_f64,
        sweep in 0.3..6.0_f64,
        shares in prop::collection::vec(0.0..1.0_f64, 0..30),
    ) {
        let centre = Point::new(x, y);
        let on_circle: Vec<Point> = [0.0, 0.5, 1.0].into_iter().chain(shares)
            .map(|share| from + sweep * share)
            .map(|angle| centre + Vector::new(angle.cos(), angle.sin()) * radius)
            .collect();
        let fit = circle_from_points(&on_circle).expect("a circle");
        // coordinates 100 km out are rounded to 1.5e-11 m; a short arc magnifies that by 8 / t²
        let allowed = 1e-9 * (1.0 + 8.0 / (sweep * sweep));
        prop_assert!((fit.radius - radius).abs() < allowed, "{fit:?}");
        prop_assert!(fit.centre.distance(centre) < allowed, "{fit:?}");
    }

    /// The fit turns and moves with its points, and no small change of it comes nearer to them.
    #[test]
    fn a_fit_is_the_nearest_circle(
        radius in 1.0..20.0_f64,
        sweep in 1.0..6.0_f64,
        slips in prop::collection::vec(-0.05..0.05_f64, 4..20),
        turn in 0.0..6.0_f64,
    ) {
        let parts = f64::from(u32::try_from(slips.len()).expect("few") - 1);
        let measured: Vec<Point> = slips.iter().zip(0_u32..)
            .map(|(slip, i)| {
                let angle = sweep * f64::from(i) / parts;
                Point::ORIGIN + Vector::new(angle.cos(), angle.sin()) * (radius + slip)
            })
            .collect();
        let fit = circle_from_points(&measured).expect("a circle");
        let squares = |centre: Point, radius: f64| -> f64 {
            measured.iter().map(|&p| (p.distance(centre) - radius).powi(2)).sum()
        };
        let found = squares(fit.centre, fit.radius);
        prop_assert!((found - fit.sum_of_squares).abs() <= 1e-9 * found + 1e-20);
        for (x, y, r) in [(1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (0.7, 0.7, 0.7), (0.6, -0.5, 0.5)] {
            for step in [1e-5, -1e-5, 1e-2, -1e-2] {
                let near = squares(fit.centre + Vector::new(x, y) * step, fit.radius + r * step);
                prop_assert!(near >= found * (1.0 - 1e-9), "{fit:?}: {near:e} below {found:e}");
            }
        }
        let (sine, cosine) = turn.sin_cos();
        let turned = |p: Point| Point::new(p.x * cosine - p.y * sine + 30.0, p.x * sine + p.y * cosine - 7.0);
        let moved: Vec<Point> = measured.iter().copied().map(turned).collect();
        let again = circle_from_points(&moved).expect("a circle");
        prop_assert!((again.radius - fit.radius).abs() < 1e-8, "{again:?} {fit:?}");
        prop_assert!(again.centre.distance(turned(fit.centre)) < 1e-8);
    }
}

#[test]
fn a_quarter_of_a_circle_is_what_it_is() {
    let quarter =
        bends_from((Figure::Radius, 2.0), (Figure::Sweep, PI / 2.0)).expect("a bend")[0].bend;
    assert!(relative(quarter.tangent_length().expect("below a half circle"), 2.0) < 1e-15);
}
