//! Sectors, overlaps and stretches against what dense sampling says.

use std::f64::consts::TAU;

use geometry::{Arc, Chain, Core, Direction, Ground, Line, Patch, Piece, Point};
use proptest::prelude::*;

use super::making::samples;
use super::patches::patches;

/// The arc about a centre from a direction round to the left (right when below zero).
fn arc(centre: Point, radius: f64, from: f64, sweep: f64) -> Option<Arc> {
    let on = |angle| Some(centre + Direction::at_angle(angle)?.unit() * radius);
    let rise = -radius * (1.0 - (0.5 * sweep).cos());
    Arc::from_rise(on(from)?, on(from + sweep)?, rise.copysign(-sweep)).ok()
}

fn arcs() -> impl Strategy<Value = Arc> {
    (
        (-6.0..6.0_f64, -6.0..6.0_f64),
        0.5..9.0_f64,
        (0.0..TAU, prop_oneof![0.01..6.27_f64, -6.27..-0.01_f64]),
    )
        .prop_filter_map("no arc", |((x, y), radius, (from, sweep))| {
            arc(Point::new(x, y), radius, from, sweep)
        })
}

/// Points are this far apart at most when a sector is sampled, in metres.
const SAMPLED: f64 = 0.1;

/// Points all over a sector: along the strings from its centre to its arc.
fn strings(arc: &Arc) -> Vec<Point> {
    let centre = arc.centre();
    let tips = samples(&Piece::Arc(*arc), count(arc.length()));
    let along = count(arc.radius());
    let share = |i| f64::from(i) / f64::from(along);
    let points = |tip: &Point| {
        (0..=along)
            .map(|i| centre.towards(*tip, share(i)))
            .collect()
    };
    tips.iter()
        .flat_map(|tip| -> Vec<Point> { points(tip) })
        .collect()
}

fn count(length: f64) -> u32 {
    let mut count = 4;
    while f64::from(count) * SAMPLED < 1.5 * length {
        count += 1;
    }
    count
}

/// Depths fall short by a tenth of a millimetre at most, as documented; a sample lies in a patch
/// when it is deeper than that.
const DEPTH: f64 = 1e-4;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn a_sector_overlaps_what_its_strings_run_into(arc in arcs(), patch in patches()) {
        let sector = arc.sector().unwrap();
        let overlap = sector.overlap(&patch);
        let deepest = strings(&arc)
            .into_iter()
            .map(|point| patch.signed_distance(point).distance)
            .fold(f64::INFINITY, f64::min);
        if deepest < -DEPTH {
            prop_assert!(overlap.is_some(), "a string runs {deepest} in");
        }
        // A point of the border that deep in the sector has a sample beside it.
        if overlap.is_some_and(|found| found.depth > DEPTH) {
            prop_assert!(deepest <= SAMPLED, "{overlap:?}, but no string within {deepest}");
        }
        if let Some(found) = overlap {
            prop_assert!(sector.signed_distance(found.at).distance < 1e-6);
            prop_assert!(patch.signed_distance(found.at).distance < 1e-6);
        }
    }

    #[test]
    fn either_patch_overlaps_the_other(one in patches(), two in patches()) {
        let depth = |a: &Patch, b: &Patch| a.overlap(b).map_or(0.0, |found| found.depth);
        prop_assert!((depth(&one, &two) - depth(&two, &one)).abs() <= 1e-9);
    }

    #[test]
    fn an_index_finds_each_patch_overlapped(
        arc in arcs(),
        patches in prop::collection::vec(patches(), 0..12),
    ) {
        let sector = arc.sector().unwrap();
        let least = 0.01;
        let all: Vec<usize> = (0..patches.len())
            .filter(|i| sector.overlap(&patches[*i]).is_some_and(|found| found.depth > least))
            .collect();
        let ground = Ground::new(patches);
        let found: Vec<usize> = ground.overlaps(&sector, least).iter().map(|it| it.0).collect();
        prop_assert_eq!(found, all);
    }

    #[test]
    fn stretches_hold_the_points_that_lie_in_the_ground(arc in arcs(), patch in patches(), bent: bool) {
        let piece = if bent {
            Piece::Arc(arc)
        } else {
            Piece::Line(Line::new(arc.start(), arc.end()).unwrap())
        };
        let stretches = patch.stretches(&piece);
        for pair in stretches.windows(2) {
            prop_assert!(pair[0].end < pair[1].start);
        }
        let length = piece.length();
        for i in 0..=200 {
            let along = length * (f64::from(i) / 200.0);
            let distance = patch.signed_distance(piece.point_at(along)).distance;
            let inside = stretches.iter().any(|part| part.start <= along && along <= part.end);
            // On the border itself either is right.
            prop_assert!(distance.abs() < 1e-6 || inside == (distance < 0.0), "{along} {distance}");
        }
    }
}

fn ring(points: &[(f64, f64)]) -> Chain {
    let ends = points.iter().cycle().skip(1);
    let sides = points.iter().zip(ends).map(|(from, to)| {
        Piece::Line(Line::new(Point::new(from.0, from.1), Point::new(to.0, to.1)).unwrap())
    });
    Chain::new(sides.collect(), true).unwrap()
}

#[test]
fn sectors_by_construction() {
    // Three quarters of a circle of 4 m, open to the south-east.
    let wide = arc(Point::ORIGIN, 4.0, 0.0, 0.75 * TAU)
        .unwrap()
        .sector()
        .unwrap();
    let check = |x: f64, y: f64, radius: f64, depth: Option<f64>| {
        let stem = Patch::new(Core::Point(Point::new(x, y)), radius).unwrap();
        let found = wide.overlap(&stem).map(|found| found.depth);
        match (found, depth) {
            (Some(found), Some(depth)) => assert!((found - depth).abs() < 1e-9, "{x} {y}: {found}"),
            _ => assert_eq!(found.is_some(), depth.is_some(), "{x} {y}"),
        }
    };
    check(-2.0, 2.0, 0.1, Some(4.1 - 8.0_f64.sqrt())); // inside, off the arc
    check(2.0, -2.0, 0.5, None); // in the wedge left out
    check(2.0, -0.3, 0.5, Some(0.2)); // from the wedge over the first radius
    check(-5.0, 0.0, 1.0, None); // touching from outside
    check(-5.0, 0.0, 1.1, Some(0.1));
}

#[test]
fn an_area_all_round_a_sector_overlaps_it() {
    let sector = arc(Point::ORIGIN, 1.0, 0.3, 1.0).unwrap().sector().unwrap();
    let court = ring(&[(-5.0, -5.0), (5.0, -5.0), (5.0, 5.0), (-5.0, 5.0)]);
    let bed = Patch::new(Core::Area(court.clone()), 0.0).unwrap();
    // The corner of the sector nearest to the middle of the bed is its swing point.
    assert!((sector.overlap(&bed).unwrap().depth - 5.0).abs() < 1e-4);
    let beyond = Patch::new(Core::Beyond(court), 0.0).unwrap();
    assert!(sector.overlap(&beyond).is_none());
}

#[test]
fn sectors_from_a_hair_to_the_whole_circle() {
    assert!(
        arc(Point::ORIGIN, 5.0, 1.0, 1e-7)
            .unwrap()
            .sector()
            .is_none()
    );
    for sweep in [2e-6, 1e-4, 0.5 * TAU, TAU - 1e-4, TAU - 2e-6, TAU - 1e-7] {
        let arc = arc(Point::new(3.0, 7.0), 5.0, 1.0, sweep).unwrap();
        let sector = arc
            .sector()
            .unwrap_or_else(|| panic!("no sector of {sweep}"));
        assert!(
            sector.contains(Point::new(3.0, 7.0).middle(arc.apex())),
            "{sweep}"
        );
    }
}
