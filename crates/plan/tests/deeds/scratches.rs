//! Scratches are long enough: each error is made in turn and the crossing looked for.

use geometry::{Point, Vector};
use plan::setout::methods::BendJob;
use plan::setout::{Deed, Deviations, Doing, Made, Method, Scratch, Spot, Spots, carry_out};

use super::{bend, job};

/// The deed that finds the swing point, with its scratches.
fn finding(job: &BendJob) -> (Deed, Spots, [Scratch; 2]) {
    let course = job.course(Method::Swing).unwrap();
    let found = course.deeds.iter().find_map(|deed| match deed.does {
        Doing::Cross { scratches, .. } => Some((deed.clone(), scratches?)),
        _ => None,
    });
    let (deed, scratches) = found.unwrap();
    (deed, course.spots, scratches)
}

#[track_caller]
fn crossed(deed: &Deed, spots: &Spots, pulled: [f64; 2]) -> Point {
    match carry_out(deed, spots, &pulled) {
        Ok(Made::Spot(at)) => at,
        other => panic!("{other:?}"),
    }
}

/// Three times the root of the summed squares of how far each error alone moves the crossing along
/// the scratch about the first peg.
#[test]
fn three_deviations_of_every_error_stay_on_the_scratch() {
    let deviations = Deviations {
        spot: 0.02,
        string: 0.002,
        string_per_metre: 0.003,
        pointing: 0.015,
    };
    for (chord, rise) in [(6.0, 0.9), (6.0, 1.8), (5.0, 1.7), (4.0, 2.9)] {
        let job = BendJob {
            deviations,
            ..job(bend(chord, rise))
        };
        let (deed, spots, scratches) = finding(&job);
        let radius = job.arc.radius();
        let planned = job.arc.centre();
        let string = (planned - job.arc.start()) / radius;
        let small = 1e-6;
        let moved = |spots: &Spots, pulled| {
            (crossed(&deed, spots, pulled) - planned).dot(string.left()) / small
        };
        let pegs = [Spot::Peg(2), Spot::Peg(3)].into_iter().flat_map(|peg| {
            [Vector::new(small, 0.0), Vector::new(0.0, small)].map(|by| {
                let mut spots = spots.clone();
                spots.put(peg, spots.at(peg).unwrap() + by);
                moved(&spots, [radius, radius]) * deviations.spot
            })
        });
        let pointing = [[small, 0.0], [0.0, small]].map(|[one, other]| {
            moved(&spots, [radius + one, radius + other]) * deviations.pointing
        });
        let both = moved(&spots, [radius + small, radius + small]);
        let squares: f64 = pegs
            .chain(pointing)
            .chain([both * deviations.of_string(radius)])
            .map(|by| by * by)
            .sum();
        let reach = 3.0 * squares.sqrt();
        let length = scratches[0].length;
        assert!(
            (0.5 * length - reach).abs() < 1e-4 * reach,
            "{length} for {reach} each way"
        );
    }
}

/// Both ends of a scratch are where they are told to be, on the graduation, and the crossing
/// between them.
#[test]
fn the_ends_of_a_scratch_can_be_found() {
    let job = job(bend(6.0, 0.9));
    let (_, spots, scratches) = finding(&job);
    let radius = job.arc.radius();
    for scratch in scratches {
        assert!(scratch.least < radius && radius < scratch.most);
        let (about, other) = (
            spots.at(scratch.about).unwrap(),
            spots.at(scratch.seen_from).unwrap(),
        );
        let string = (job.arc.centre() - about) / radius;
        let turn = 0.5 * scratch.length / radius;
        for (end, told) in [(turn, scratch.least), (-turn, scratch.most)] {
            let ends = [end, -end]
                .map(|turn| about + (string * turn.cos() + string.left() * turn.sin()) * radius);
            let nearest = ends.map(|end| (end.distance(other) - told).abs());
            assert!(nearest[0].min(nearest[1]) <= 0.0011, "{nearest:?}");
        }
        assert!(scratch.length >= 0.15 - 1e-12);
    }
}
