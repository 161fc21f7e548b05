//! Whether a closed chain holds a point.

use geometry::{Chain, Core, Patch, Piece, Point};
use proptest::prelude::*;

use super::making::{chain, cornered, piece, samples};

/// How often fine straights along a chain wind round a point, by the angles they are seen under.
fn turns(chain: &Chain, point: Point) -> f64 {
    let points: Vec<Point> = chain
        .pieces()
        .iter()
        .flat_map(|piece| samples(piece, 100))
        .collect();
    let angle = |from: Point, to: Point| {
        let (a, b) = (from - point, to - point);
        a.cross(b).atan2(a.dot(b))
    };
    let walked: f64 = points.windows(2).map(|p| angle(p[0], p[1])).sum();
    walked / std::f64::consts::TAU
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    #[test]
    fn as_the_angles_have_it(outline in cornered(4..9)) {
        prop_assume!(outline.is_closed());
        let bounds = outline.bounds().grown(1.0);
        for i in 0..7 {
            for j in 0..7 {
                let share = |n: i32| (f64::from(n) + 0.5) / 7.0;
                let point = Point::new(
                    bounds.low.x + share(i) * bounds.width(),
                    bounds.low.y + share(j) * bounds.height(),
                );
                // Straights this fine are off their arcs by less than this.
                if outline.nearest(point).distance > 1e-2 {
                    prop_assert_eq!(outline.contains(point), turns(&outline, point).abs() > 0.5, "{:?}", point);
                }
            }
        }
    }

    #[test]
    fn level_with_corners_and_ends(outline in cornered(4..9), along in 0.0..1.0_f64) {
        prop_assume!(outline.is_closed());
        // The worst a ray can do: through corners, apexes and along chords.
        let corners: Vec<Point> = outline.pieces().iter().flat_map(|p| [p.start(), p.point_at(0.5 * p.length())]).collect();
        let bounds = outline.bounds();
        let chords = outline.pieces().iter().map(|p| p.start().towards(p.end(), along));
        let level = corners.iter().map(|c| Point::new(bounds.low.x + along * bounds.width(), c.y));
        for point in chords.chain(level) {
            if outline.nearest(point).distance > 1e-2 {
                prop_assert_eq!(outline.contains(point), turns(&outline, point).abs() > 0.5, "{:?}", point);
            }
        }
    }

    #[test]
    fn the_outline_counts_as_inside(outline in cornered(4..9), along in 0.0..1.0_f64) {
        prop_assume!(outline.is_closed());
        prop_assert!(outline.contains(outline.point_at(along * outline.length())));
        prop_assert!(outline.pieces().iter().all(|piece| outline.contains(piece.start())));
    }

    #[test]
    fn through_the_index_as_without(outline in cornered(4..9)) {
        prop_assume!(outline.is_closed());
        let Ok(patch) = Patch::new(Core::Area(outline.clone()), 0.0) else { return Ok(()) };
        let bounds = outline.bounds();
        let corners: Vec<Point> = outline.pieces().iter().map(Piece::start).collect();
        for a in &corners {
            for b in &corners {
                for point in [Point::new(a.x, b.y), a.middle(*b), bounds.middle()] {
                    prop_assert_eq!(patch.contains(point), outline.contains(point), "{:?}", point);
                }
            }
        }
    }
}

#[test]
fn tangent_rays_and_open_chains() {
    let at = Point::new;
    // A ray along the top and the bottom of a round outline, and through its joints.
    let round = chain(
        vec![
            piece(at(-1., 0.), at(1., 0.), 1.0).unwrap(),
            piece(at(1., 0.), at(-1., 0.), 1.0).unwrap(),
        ],
        true,
    );
    for (x, y, inside) in [
        (-2., 1., false),
        (-2., -1., false),
        (-2., 0., false),
        (2., 0., false),
        (0., 0., true),
        (0.5, 0., true),
        (0., 1.0 + 0.9e-7, true),
        (0., 1.0 + 1.1e-7, false),
    ] {
        assert_eq!(round.contains(at(x, y)), inside, "{x} {y}");
    }
    let open = chain(vec![piece(at(-1., 0.), at(1., 0.), 1.0).unwrap()], false);
    assert!(!open.contains(at(0., 0.5)));
    assert!(!round.contains(at(f64::NAN, 0.)));
    // Wound round twice is inside too: the inner loop of a limaçon of straights.
    let knot = [
        (0., 0.),
        (6., 0.),
        (6., 6.),
        (1., 1.),
        (4., 1.),
        (4., 3.),
        (0., 6.),
    ];
    let ends = knot.iter().cycle().skip(1);
    let pieces = knot
        .iter()
        .zip(ends)
        .map(|(a, b)| piece(at(a.0, a.1), at(b.0, b.1), 0.).unwrap());
    let knot = chain(pieces.collect(), true);
    assert!((turns(&knot, at(3.5, 2.0)).abs() - 2.0).abs() < 0.1);
    assert!(knot.contains(at(3.5, 2.0)));
}
