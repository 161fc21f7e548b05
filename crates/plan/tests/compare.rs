//! Options beside each other: figures by hand, words that match them, and which is no better.

mod common;

use common::route;
use geometry::Point;
use plan::Plan;
use plan::compare::{Amount, Better, Comparison, Counted, Criterion, compare, compare_counted};
use plan::document::{Extent, Obstacle, ObstacleKind, Scheme, Shape};
use plan::units::{Graduation, Ruler, Units};
use plan::{example, limits};
use proptest::prelude::*;

fn option(points: &[(f64, f64)], legs: Vec<Shape>) -> Scheme {
    Scheme {
        name: "option".into(),
        routes: vec![route(points, legs)],
        ..Scheme::default()
    }
}

/// A pond of 1 m about (5, 3).
fn yard(schemes: Vec<Scheme>) -> Plan {
    let mut plan = Plan {
        schemes,
        rules: Vec::new(),
        ..Plan::empty(Units::Metric)
    };
    let extent = Extent::Round {
        centre: Point::new(5., 3.),
        radius: 1.0,
    };
    plan.site_mut().obstacles = vec![Obstacle::new("pond", ObstacleKind::Pond, extent)];
    plan
}

fn straight(y: f64, length: f64) -> Scheme {
    option(&[(0., y), (length, y)], vec![Shape::Straight])
}

fn compared(plan: &Plan) -> Comparison {
    assert_eq!(limits::check(plan), Ok(()));
    compare(plan, &plan.solve())
}

#[test]
fn figures_by_hand() {
    let bent = option(&[(0., 0.), (10., 0.)], vec![Shape::bend(-5.0)]);
    let plan = yard(vec![straight(1., 10.), bent]);
    let comparison = compared(&plan);
    let [a, b] = &comparison.standings[..] else {
        panic!("two options")
    };
    // The upper edge lies at 1.6 m, the pond begins at 2 m.
    assert_eq!((a.length, a.widths), (10.0, [1.2, 1.2]));
    assert!((a.area - 12.0).abs() < 1e-12);
    assert!((a.nearest.as_ref().unwrap().distance - 0.4).abs() < 1e-12);
    assert_eq!(a.tightest_inside, None);
    // Half a circle of radius 5: π · 5 long, π · 5 · 1.2 wide, 4.4 inside, 0.75 / 5 a pace.
    let half = 5.0 * std::f64::consts::PI;
    assert!((b.length - half).abs() < 1e-9 && (b.area - 1.2 * half).abs() < 1e-9);
    assert!((b.tightest_inside.unwrap() - 4.4).abs() < 1e-9);
    assert!((b.turn_per_pace - 0.15).abs() < 1e-9);
    assert_eq!(b.nearest, None);
    assert_eq!(a.character, "Brisk, straight, two side by side");
    assert_eq!(
        b.character,
        "Unhurried, winding, two side by side; with tall planting a bend hides what comes next"
    );
}

#[test]
fn what_a_walker_has_on_both_sides() {
    use plan::beside::beside;
    let mut plan = yard(vec![straight(1., 10.)]);
    let wall = Extent::Line(vec![Point::new(0., -1.), Point::new(10., -1.)]);
    let pipe = Extent::Line(vec![Point::new(0., 0.), Point::new(10., 0.)]);
    plan.site_mut().obstacles.extend([
        Obstacle::new("wall", ObstacleKind::Wall, wall),
        Obstacle::new("pipe", ObstacleKind::Service, pipe),
    ]);
    let solved = plan.solve();
    let check = |station: f64, expected: [Option<(usize, f64)>; 2]| {
        let found = beside(
            &solved.schemes[0].routes[0],
            &solved.surroundings,
            station,
            4.0,
        );
        for (found, expected) in found.into_iter().zip(expected) {
            assert_eq!(
                found.map(|b| b.obstacle),
                expected.map(|e| e.0),
                "{station}"
            );
            if let (Some(found), Some((_, distance))) = (found, expected) {
                assert!(
                    (found.distance - distance).abs() < 1e-12,
                    "{station}: {found:?}"
                );
            }
        }
    };
    // The pond begins 1 m off the centre line at station 5, 0.4 m off the edge; the wall lies 2 m
    // off the centre line all along; the pipe is not seen.
    check(5.0, [Some((0, 0.4)), Some((1, 1.4))]);
    // From station 0 the pond lies ahead: its middle by atan(2/5), less than 30°.
    check(0.0, [None, Some((1, 1.4))]);
    check(2.0, [Some((0, 13_f64.sqrt() - 1.6)), Some((1, 1.4))]);
    check(f64::NAN, [None, None]);
}

#[test]
fn differences_in_words() {
    let mut wide = straight(1., 10.);
    wide.routes[0].width = 1.6;
    let mut nothing = straight(1., 10.);
    nothing.routes.clear();
    let plan = yard(vec![
        straight(1., 10.),
        straight(0.6, 12.3),
        wide,
        straight(1., 10.005),
        nothing,
        straight(-3., 10.),
    ]);
    let comparison = compared(&plan);
    let check = |of, from, expected: Option<&str>| {
        assert_eq!(comparison.difference(of, from).as_deref(), expected);
    };
    check(
        1,
        0,
        Some("B is 2.30 m longer, covers 2.76 m² more ground and keeps 0.40 m more off “pond”"),
    );
    check(
        0,
        1,
        Some("A is 2.30 m shorter, covers 2.76 m² less ground and keeps 0.40 m less off “pond”"),
    );
    check(
        2,
        0,
        Some(
            "C is 0.40 m wider, covers 4.00 m² more ground, keeps 0.20 m less off “pond” and has 1 more thing to take care of",
        ),
    );
    check(3, 0, Some("D comes to the same as A"));
    check(4, 0, None);
    check(0, 0, None);
    check(0, 9, None);
    check(5, 0, Some("F stays well clear of “pond”"));
    // B is longer than A but keeps more off; F is shorter than B and keeps more off.
    assert_eq!(comparison.no_better_than(1), [5]);
}

#[test]
fn lengths_are_said_as_the_client_reads_them() {
    let check = |units, graduation, expected| {
        let spoken = plan::compare::spoken(Ruler { units, graduation });
        assert_eq!(spoken.text(2.2987), expected);
    };
    check(Units::Metric, Graduation::Millimetre, "2.30 m");
    check(Units::FeetInches, Graduation::SixteenthInch, "7′ 7″");
    check(Units::FeetInches, Graduation::TenthFoot, "7.5′");
    // A graduation of the other system stands for none.
    check(Units::Metric, Graduation::TenthFoot, "2.30 m");
}

#[test]
fn the_options_of_the_example() {
    let plan = example::plan().unwrap();
    let comparison = compared(&plan);
    let best = |criterion| comparison.best(criterion);
    assert_eq!(best(Criterion::Length), [2]);
    assert_eq!(best(Criterion::TightestInside), [1]);
    assert_eq!(best(Criterion::Findings), [0]);
    assert!(!comparison.differs(Criterion::Width));
    assert_eq!(
        comparison.difference(2, 0).as_deref(),
        Some(
            "C is 0.56 m shorter, covers 0.67 m² less ground, bends more gently (inside radius 4.18 m where it is tightest, not 3.40 m), covers 0.57 m² less of roots and has 2 more things to take care of"
        )
    );
    assert_eq!(
        comparison.no_better(0).as_deref(),
        Some(
            "A is no better than C in length, tightest bend, clearance or roots covered (cost is not known)"
        )
    );
    assert_eq!(comparison.no_better(1), None);
}

fn amount(value: f64, text: &str) -> Amount {
    Amount {
        value,
        text: text.into(),
    }
}

#[test]
fn an_option_that_is_no_better_is_said_to_be_so() {
    let plan = yard(vec![
        straight(1., 10.),
        straight(1., 12.),
        straight(0., 11.),
    ]);
    let comparison = compared(&plan);
    assert_eq!(comparison.no_better_than(0), []);
    assert_eq!(comparison.no_better_than(1), [0, 2]);
    assert_eq!(comparison.no_better_than(2), []);
    assert_eq!(
        comparison.no_better(1).as_deref(),
        Some(
            "B is no better than A or C in length, tightest bend, clearance or roots covered (cost is not known)"
        )
    );
    // What it costs counts once it is known of all of them.
    let costs = |costs: &[Option<f64>]| -> Vec<Counted> {
        let cost = |value: &Option<f64>| value.map(|value| amount(value, &format!("{value:.2}")));
        let counted = |value| Counted {
            cost: cost(value),
            ..Counted::default()
        };
        costs.iter().map(counted).collect()
    };
    let with = |known: &[Option<f64>]| compare_counted(&plan, &plan.solve(), &costs(known));
    let cheap = with(&[Some(900.0), Some(800.0), Some(850.0)]);
    assert_eq!(cheap.no_better_than(1), []);
    let same = with(&[Some(900.0), Some(900.0), Some(850.0)]);
    assert_eq!(
        same.no_better(1).as_deref(),
        Some(
            "B is no better than A or C in cost, length, tightest bend, clearance or roots covered"
        )
    );
    let unknown = with(&[Some(900.0), Some(800.0)]);
    assert_eq!(unknown.no_better_than(1), [0, 2]);
    assert_eq!(unknown.best(Criterion::Cost), [1]);
    assert!(
        cheap
            .difference(1, 0)
            .unwrap()
            .ends_with("costs 800.00, not 900.00")
    );
}

#[test]
fn what_differs_and_which_is_best() {
    let plan = yard(vec![
        straight(1., 10.),
        straight(0., 10.),
        straight(0., 10.004),
    ]);
    let comparison = compared(&plan);
    assert!(!comparison.differs(Criterion::Length));
    assert_eq!(comparison.best(Criterion::Length), []);
    assert!(comparison.differs(Criterion::Clearance));
    assert_eq!(comparison.best(Criterion::Clearance), [1, 2]);
    // Nothing drawn is nought long, not minus nought.
    let mut empty = yard(vec![straight(0., 10.)]);
    empty.schemes[0].routes.clear();
    let nothing = &compared(&empty).standings[0];
    assert!(!nothing.drawn && nothing.character.is_empty());
    for figure in [nothing.length, nothing.area, nothing.roots] {
        assert_eq!(figure.to_bits(), 0.0_f64.to_bits());
    }
    // Nobody is better for a width, and what is not known is no column.
    assert_eq!(Criterion::Width.better(), Better::Neither);
    assert!(!comparison.criteria().contains(&Criterion::Cost));
}

/// Straights, bends and corners of few sizes, so that options are often alike in something.
fn any_option() -> impl Strategy<Value = Scheme> {
    let y = || prop::sample::select(vec![-4.0, -1.0, 0.0, 1.0, 1.004, 1.2]);
    let rise = prop::sample::select(vec![0.0, 1.0, -1.0, 2.0, 4.9]);
    (y(), y(), rise, 9_i32..13, any::<bool>()).prop_map(|(from, to, rise, length, wide)| {
        let ends = [(0., from), (f64::from(length), to)];
        let legs = if rise == 0.0 {
            vec![Shape::Straight]
        } else {
            vec![Shape::bend(rise)]
        };
        let mut option = option(&ends, legs);
        option.routes[0].width = if wide { 1.6 } else { 1.2 };
        option
    })
}

fn any_yard() -> impl Strategy<Value = Plan> {
    prop::collection::vec(any_option(), 2..6).prop_map(|options| {
        let mut plan = yard(options);
        let stem = Extent::Round {
            centre: Point::new(3., -2.),
            radius: 0.2,
        };
        let tree = Obstacle::new("plum", ObstacleKind::Tree, stem);
        plan.site_mut().obstacles.push(tree);
        plan
    })
}

/// The length that stands between two words of a sentence, if they are there.
fn between(sentence: &str, before: &str, after: &[&str]) -> Option<(f64, usize)> {
    let ruler = Ruler {
        units: Units::Metric,
        graduation: Graduation::TenMillimetres,
    };
    sentence.match_indices(before).find_map(|(at, _)| {
        let rest = &sentence[at + before.len()..];
        let which = after.iter().position(|word| {
            rest.split_once(word)
                .is_some_and(|(figure, _)| ruler.parse(figure).is_ok())
        })?;
        let figure = rest.split_once(after[which])?.0;
        Some((ruler.parse(figure).ok()?, which))
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn no_better_is_a_strict_order(plan in any_yard()) {
        let comparison = compared(&plan);
        let count = comparison.standings.len();
        let worse: Vec<Vec<usize>> = (0..count).map(|i| comparison.no_better_than(i)).collect();
        for a in 0..count {
            prop_assert!(!worse[a].contains(&a));
            for b in &worse[a] {
                prop_assert!(!worse[*b].contains(&a));
                for c in &worse[*b] {
                    prop_assert!(worse[a].contains(c));
                }
            }
        }
        // Of all options at least one is no worse than any other.
        prop_assert!(worse.iter().any(Vec::is_empty));
    }

    #[test]
    fn whoever_is_worse_is_best_at_nothing_alone(plan in any_yard()) {
        let comparison = compared(&plan);
        for standing in &comparison.standings {
            if comparison.no_better_than(standing.scheme).is_empty() {
                continue;
            }
            for criterion in [Criterion::Length, Criterion::TightestInside, Criterion::Clearance, Criterion::Roots] {
                prop_assert_ne!(comparison.best(criterion), vec![standing.scheme]);
            }
        }
    }

    #[test]
    fn words_match_figures(plan in any_yard()) {
        let comparison = compared(&plan);
        let count = comparison.standings.len();
        for (of, from) in (0..count).flat_map(|a| (0..count).map(move |b| (a, b))) {
            let Some(said) = comparison.difference(of, from) else {
                prop_assert_eq!(of, from);
                continue;
            };
            let [a, b] = [of, from].map(|i| &comparison.standings[i]);
            let figures = [
                (a.length - b.length, between(&said, "is ", &[" longer", " shorter"]), 0.1),
                (a.widths[0] - b.widths[0], between(&said, "is ", &[" wider", " narrower"]), 0.01),
            ];
            for (more, said_, least) in figures {
                match said_ {
                    Some((much, which)) => {
                        prop_assert!((much - more.abs()).abs() <= 0.005 + 1e-9, "{said}");
                        prop_assert_eq!(which == 0, more > 0.0, "{}", said);
                    }
                    None => prop_assert!(more.abs() <= least + 1e-9, "{more}: {said}"),
                }
            }
            // The other way round it is the same with the words turned.
            let back = comparison.difference(from, of).unwrap();
            for (word, turned) in [("longer", "shorter"), ("wider", "narrower"), ("gently", "tightly"), ("more ground", "less ground")] {
                prop_assert_eq!(said.contains(word), back.contains(turned), "{} / {}", said, back);
            }
        }
    }
}
