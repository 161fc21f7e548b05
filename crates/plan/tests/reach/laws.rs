//! What holds for any ground: dense sampling agrees, a longer string meets no less.

use super::*;
use geometry::{Line, Piece};
use proptest::prelude::*;

/// Obstacles that take up ground and stop a string: round, with straight and with bent sides.
fn obstacles() -> impl Strategy<Value = Obstacle> {
    let place = (-9.0..9.0_f64, -9.0..9.0_f64);
    let stem = (place.clone(), 0.1..1.5_f64)
        .prop_map(|((x, y), radius)| round(ObstacleKind::Tree, x, y, radius));
    let corner = (0.5..4.0_f64, prop_oneof![Just(0.0), -0.2..0.4_f64]);
    let house = (place, prop::collection::vec(corner, 3..8)).prop_map(|((x, y), corners)| {
        let step = 360.0 / f64::from(u32::try_from(corners.len()).unwrap());
        let mut bearing = 0.0;
        let corner = |(reach, bow): (f64, f64)| {
            let way = Direction::at_angle(geometry::angle::from_degrees(bearing)).unwrap();
            bearing += step;
            Corner {
                at: at(x, y) + way.unit() * reach,
                rise: bow * reach,
            }
        };
        let corners = corners.into_iter().map(corner).collect();
        thing(ObstacleKind::Building, Extent::Curved(corners))
    });
    // An outline that crosses itself has no inside to run into.
    let simple = |obstacle: &Obstacle| {
        let chain = obstacle.extent.chain();
        chain.is_some_and(|chain| chain.self_crossings().is_empty())
    };
    prop_oneof![stem, house.prop_filter("crosses itself", simple)]
}

fn bends() -> impl Strategy<Value = Arc> {
    let sweep = prop_oneof![5.0..350.0_f64, -350.0..-5.0_f64];
    (
        -4.0..4.0_f64,
        -4.0..4.0_f64,
        1.0..8.0_f64,
        0.0..360.0_f64,
        sweep,
    )
        .prop_map(|(x, y, radius, from, sweep)| arc(at(x, y), radius, from, sweep))
}

/// How far apart the strings and the places along each are looked at, in metres at most.
const APART: f64 = 0.1;

/// A string as it lies at every place of its swing, and every place along it: the least signed
/// distance to the ground.
fn swept_by_hand(surroundings: &Surroundings, bend: &Arc, radius: f64) -> f64 {
    let mut least = f64::INFINITY;
    let sweep = bend.sweep();
    let mut turned = 0.0;
    let start = Direction::of(bend.start() - bend.centre()).unwrap();
    while turned <= 1.0 {
        let way = start.turned(turned * sweep).unit();
        let mut out = 0.0;
        while out <= radius {
            let place = bend.centre() + way * out;
            for patch in surroundings.ground().patches() {
                least = least.min(patch.signed_distance(place).distance);
            }
            out += 0.5 * APART;
        }
        turned += 0.5 * APART / (radius * sweep.abs());
    }
    least
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn a_string_swung_by_hand_meets_the_same(
        obstacles in prop::collection::vec(obstacles(), 1..4),
        bend in bends(),
        share in 0.5..1.4_f64,
    ) {
        let surroundings = surroundings(obstacles);
        let radius = share * bend.radius();
        let found = Reach::new(&surroundings, limits()).swing(&bend, radius);
        let stopped = !met(&found).is_empty();
        let least = swept_by_hand(&surroundings, &bend, radius);
        // Between the two is the rim: what touches, and what lies between two places looked at.
        if least < -2.0 * plan::setout::reach::TOUCHING {
            prop_assert!(stopped, "{least} deep by hand");
        }
        if least > APART {
            prop_assert!(!stopped, "{least} off by hand: {found:?}");
        }
    }

    #[test]
    fn a_longer_string_meets_all_a_shorter_one_does(
        obstacles in prop::collection::vec(obstacles(), 1..5),
        bend in bends(),
        shares in (0.2..1.5_f64, 0.0..0.5_f64),
    ) {
        let surroundings = surroundings(obstacles);
        let reach = Reach::new(&surroundings, limits());
        let at_share = |share: f64| met(&reach.swing(&bend, share * bend.radius()));
        let (short, long) = (at_share(shares.0), at_share(shares.0 + shares.1));
        for thing in short {
            prop_assert!(long.contains(&thing));
        }
    }

    #[test]
    fn a_tape_pulled_the_other_way_meets_the_same(
        obstacles in prop::collection::vec(obstacles(), 1..5),
        bend in bends(),
    ) {
        let surroundings = surroundings(obstacles);
        let reach = Reach::new(&surroundings, limits());
        let (from, to) = (bend.start(), bend.end());
        let sorted = |mut found: Vec<(usize, Severity)>| {
            found.sort_unstable();
            found
        };
        let (there, back) = (reach.pull(from, to), reach.pull(to, from));
        prop_assert_eq!(sorted(met(&there)), sorted(met(&back)));
        let tape = Piece::Line(Line::new(from, to).unwrap());
        for hindrance in there {
            prop_assert!(hindrance.at.distance(tape.point_at(hindrance.along)) < 1e-9);
        }
    }
}
