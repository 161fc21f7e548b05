//! Patches of ground: what is refused, and what holds for their signed distances.

use geometry::{Bounds, Chain, Core, Gap, Patch, PatchError, Piece, Point, SAME_PLACE};
use proptest::prelude::*;

use super::making::{chain, cornered, piece, samples};

/// Depths are short of the deepest by this at most, as their documentation says.
const DEPTH_TOLERANCE: f64 = 1e-4;

/// Ground of every kind.
pub(crate) fn patches() -> impl Strategy<Value = Patch> {
    let grown = || prop_oneof![Just(0.0), 0.0..2.0_f64];
    let point = (-10.0..10.0_f64, -10.0..10.0_f64, grown())
        .prop_map(|(x, y, grown)| (Core::Point(Point::new(x, y)), grown));
    let outlined = (outlines(), grown(), any::<bool>()).prop_map(|(outline, grown, area)| {
        let core = if area {
            Core::Area(outline)
        } else {
            Core::Beyond(outline)
        };
        (core, grown)
    });
    let line = (cornered(2..6), grown()).prop_map(|(line, grown)| (Core::Line(line), grown));
    prop_oneof![point, line, outlined].prop_filter_map("crosses itself", |(core, grown)| {
        Patch::new(core, grown).ok()
    })
}

/// Closed outlines about some middle, star-shaped but for their bends.
fn outlines() -> impl Strategy<Value = Chain> {
    let corner = (1.0..7.0_f64, prop_oneof![Just(0.0), -0.3..0.5_f64]);
    (
        prop::collection::vec(corner, 3..9),
        -6.0..6.0_f64,
        -6.0..6.0_f64,
    )
        .prop_filter_map("no outline", |(corners, x, y)| {
            let count = f64::from(u32::try_from(corners.len()).ok()?);
            let mut angle = 0.0_f64;
            let mut points = Vec::new();
            for (reach, _) in &corners {
                points.push(Point::new(x + reach * angle.cos(), y + reach * angle.sin()));
                angle += std::f64::consts::TAU / count;
            }
            let ends = points.iter().cycle().skip(1);
            let pieces: Option<Vec<Piece>> = points
                .iter()
                .zip(ends)
                .zip(&corners)
                .map(|((from, to), (_, bow))| piece(*from, *to, bow * from.distance(*to)))
                .collect();
            Chain::new(pieces?, true).ok()
        })
}

fn paths() -> impl Strategy<Value = Piece> {
    let coordinate = || -12.0..12.0_f64;
    let bow = prop_oneof![Just(0.0), -1.5..1.5_f64];
    (coordinate(), coordinate(), coordinate(), coordinate(), bow).prop_filter_map(
        "no piece",
        |(x, y, z, w, bow)| {
            let (from, to) = (Point::new(x, y), Point::new(z, w));
            let chord = from.distance(to);
            (chord > 0.1)
                .then(|| piece(from, to, bow * chord))
                .flatten()
        },
    )
}

/// The signed distance by another way: the core's nearest point one piece after the other, and the
/// side by the chain's own test.
fn plainly(patch: &Patch, point: Point) -> f64 {
    let off = |chain: &Chain| chain.nearest(point).distance;
    let signed = |outline: &Chain| {
        let off = off(outline);
        if outline.contains(point) { -off } else { off }
    };
    let core = match patch.core() {
        Core::Point(at) => at.distance(point),
        Core::Line(line) => off(line),
        Core::Area(outline) => signed(outline),
        Core::Beyond(outline) => -signed(outline),
    };
    core - patch.grown()
}

fn consistent(patch: &Patch, gap: &Gap) -> bool {
    (gap.from.distance(gap.to) - gap.distance.abs()).abs() < 1e-7
        && (plainly(patch, gap.from) - gap.distance).abs() < 1e-7
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn a_point_as_deep_as_it_is_found_plainly(patch in patches(), x in -12.0..12.0_f64, y in -12.0..12.0_f64) {
        let point = Point::new(x, y);
        let gap = patch.signed_distance(point);
        prop_assert!((gap.distance - plainly(&patch, point)).abs() < 1e-12);
        prop_assert!(consistent(&patch, &gap), "{gap:?}");
        prop_assert_eq!(gap.from, point);
        if gap.distance.abs() > SAME_PLACE {
            prop_assert_eq!(patch.contains(point), gap.distance < 0.0);
        }
        if patch.contains(point) {
            prop_assert!(patch.bounds().is_none_or(|b| b.grown(SAME_PLACE).meets(Bounds::of(point))));
        }
    }

    #[test]
    fn a_piece_as_deep_as_its_deepest_sample(patch in patches(), path in paths()) {
        const COUNT: u32 = 1000;
        let gap = patch.gap(&path);
        let deepest = samples(&path, COUNT).into_iter().map(|p| plainly(&patch, p)).fold(f64::INFINITY, f64::min);
        // No sample is deeper by more than the tolerance, and some sample within half a step of the
        // deepest point is as deep but for that half step.
        let step = path.length() / f64::from(COUNT);
        prop_assert!(gap.distance <= deepest + DEPTH_TOLERANCE, "{} {deepest}", gap.distance);
        prop_assert!(deepest <= gap.distance + 0.5 * step + 1e-9, "{} {deepest}", gap.distance);
        prop_assert!(consistent(&patch, &gap), "{gap:?}");
        prop_assert!(path.nearest(gap.from).1.distance(gap.from) < 1e-7);
        // Outside, and for points and lines everywhere, it is exact.
        if gap.distance > 0.0 || matches!(patch.core(), Core::Point(_) | Core::Line(_)) {
            prop_assert!(gap.distance <= deepest + 1e-9);
        }
    }

    #[test]
    fn beyond_an_outline_is_the_other_side_of_it(outline in outlines(), x in -12.0..12.0_f64, y in -12.0..12.0_f64) {
        let (Ok(area), Ok(beyond)) = (Patch::new(Core::Area(outline.clone()), 0.0), Patch::new(Core::Beyond(outline), 0.0)) else { return Ok(()) };
        let point = Point::new(x, y);
        let (a, b) = (area.signed_distance(point), beyond.signed_distance(point));
        prop_assert!((a.distance + b.distance).abs() < 1e-12);
        prop_assert_eq!(a.to, b.to);
    }
}

fn ring(points: &[(f64, f64)], closed: bool) -> Chain {
    let ends = points.iter().cycle().skip(1);
    let count = if closed {
        points.len()
    } else {
        points.len() - 1
    };
    let pieces = points.iter().zip(ends).take(count);
    let side = |(a, b): (&(f64, f64), &(f64, f64))| {
        piece(Point::new(a.0, a.1), Point::new(b.0, b.1), 0.0).unwrap()
    };
    chain(pieces.map(side).collect(), closed)
}

const SQUARE: [(f64, f64); 4] = [(0., 0.), (8., 0.), (8., 8.), (0., 8.)];

#[test]
fn what_is_no_ground() {
    let check = |core: Core, grown: f64, expected: PatchError| {
        let found = Patch::new(core, grown).unwrap_err();
        assert_eq!(found, expected);
        assert!(found.to_string().len() > 30);
    };
    let at = Point::new(1.0, 2.0);
    check(Core::Point(at), -0.1, PatchError::Shrunk(-0.1));
    assert!(matches!(
        Patch::new(Core::Point(at), f64::NAN),
        Err(PatchError::NotFinite)
    ));
    check(Core::Point(at), f64::INFINITY, PatchError::NotFinite);
    check(
        Core::Point(Point::new(0.0, f64::NAN)),
        1.0,
        PatchError::NotFinite,
    );
    let open = ring(&SQUARE, false);
    check(Core::Area(open.clone()), 0.0, PatchError::Open);
    check(Core::Beyond(open.clone()), 0.0, PatchError::Open);
    assert!(Patch::new(Core::Line(open), 0.0).is_ok());
    let bow_tie = ring(&[(0., 0.), (4., 4.), (4., 0.), (0., 4.)], true);
    let middle = PatchError::CrossesItself(Point::new(2.0, 2.0));
    check(Core::Area(bow_tie.clone()), 0.0, middle);
    check(Core::Beyond(bow_tie.clone()), 0.0, middle);
    assert!(Patch::new(Core::Line(bow_tie), 0.0).is_ok());
}

/// Closed forms about a square of 8 m.
#[test]
fn depths_about_a_square() {
    let line = |a: (f64, f64), b: (f64, f64)| {
        piece(Point::new(a.0, a.1), Point::new(b.0, b.1), 0.0).unwrap()
    };
    let check = |core: Core, grown: f64, path: Piece, expected: f64| {
        let found = Patch::new(core, grown).unwrap().gap(&path).distance;
        assert!(
            found >= expected - 1e-12 && found <= expected + DEPTH_TOLERANCE,
            "{found} for {expected}"
        );
    };
    let area = || Core::Area(ring(&SQUARE, true));
    let beyond = || Core::Beyond(ring(&SQUARE, true));
    // Across: as deep as the middle line; along a side, inside, on it and outside.
    check(area(), 0.0, line((-2., 3.), (12., 3.)), -3.0);
    check(area(), 0.0, line((-2., -2.), (12., 12.)), -4.0);
    check(area(), 0.5, line((1., 1.), (7., 1.)), -1.5);
    check(area(), 0.0, line((1., 0.), (7., 0.)), 0.0);
    check(area(), 0.0, line((1., -1.), (7., -1.)), 1.0);
    check(area(), 0.25, line((1., -1.), (7., -1.)), 0.75);
    check(area(), 3.0, line((1., -1.), (7., -1.)), -2.0);
    check(beyond(), 0.0, line((1., 1.), (7., 2.)), 1.0);
    check(beyond(), 0.5, line((1., 1.), (7., 2.)), 0.5);
    check(beyond(), 0.0, line((4., 4.), (4., 11.)), -3.0);
    check(beyond(), 0.0, line((4., 4.), (11., 12.)), -5.0);
    // A pipe crossed is as deep as it is unsure.
    let pipe = || Core::Line(ring(&[(0., 0.), (9., 0.)], false));
    check(pipe(), 0.3, line((4., -2.), (4., 2.)), -0.3);
    check(pipe(), 0.3, line((4., 1.), (4., 2.)), 0.7);
    // A round bed of two half circles, walked through along a circle about its own middle.
    let (west, east) = (Point::new(-5., 0.), Point::new(5., 0.));
    let halves = vec![
        piece(west, east, 5.0).unwrap(),
        piece(east, west, 5.0).unwrap(),
    ];
    let round = Core::Area(chain(halves, true));
    let inner = piece(Point::new(-3., 0.), Point::new(3., 0.), 3.0).unwrap();
    check(round.clone(), 0.0, inner, -2.0);
    check(round, 0.0, line((-4., 0.1), (4., 0.1)), -4.9);
}
