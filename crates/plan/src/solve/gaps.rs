//! How near the paths of one option come to each other.

use geometry::{Chain, Point};

use super::{Report, SolvedRoute};
use crate::clearance::IN_SIGHT;
use crate::document::Scheme;
use crate::finding::{Code, Finding, Severity};
use crate::units::Ruler;

/// Two paths of one option that come near each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PathGap {
    /// Which two, counted from 0.
    pub paths: [usize; 2],
    /// The least distance between their outlines in metres: 0 where they meet.
    pub distance: f64,
    /// Whether they take up the same ground.
    pub overlaps: bool,
    /// The nearest point of the second.
    pub at: Point,
}

/// All pairs of paths that come near each other.
pub(super) fn gaps(routes: &[SolvedRoute]) -> Vec<PathGap> {
    if routes.len() < 2 {
        return Vec::new();
    }
    let outlines: Vec<Vec<Chain>> = routes.iter().map(SolvedRoute::outline).collect();
    let bounds: Vec<_> = outlines
        .iter()
        .map(|rings| rings.first().map(Chain::bounds))
        .collect();
    let mut found = Vec::new();
    for second in 1..routes.len() {
        for first in 0..second {
            let near = bounds[first]
                .zip(bounds[second])
                .is_some_and(|(a, b)| a.grown(IN_SIGHT).meets(b));
            if near {
                found.extend(gap([first, second], &outlines));
            }
        }
    }
    found
}

fn gap(paths: [usize; 2], outlines: &[Vec<Chain>]) -> Option<PathGap> {
    let [first, second] = paths.map(|path| &outlines[path]);
    let nearest = first
        .iter()
        .flat_map(|a| second.iter().map(|b| a.gap(b)))
        .min_by(|a, b| a.distance.total_cmp(&b.distance))?;
    let inside = |ring: &Chain, rings: &[Chain]| crate::clearance::is_in(rings, ring.start());
    let overlaps =
        nearest.distance <= 0.0 || inside(&second[0], first) || inside(&first[0], second);
    (overlaps || nearest.distance < IN_SIGHT).then_some(PathGap {
        paths,
        distance: nearest.distance,
        overlaps,
        at: nearest.to,
    })
}

/// Tells of paths that overlap though neither begins on the other's edge.
pub(super) fn report(
    (ruler, scheme): (Ruler, usize),
    meant: &Scheme,
    routes: &[SolvedRoute],
    gaps: &[PathGap],
    findings: &mut Vec<Finding>,
) {
    for gap in gaps {
        let [first, second] = gap.paths;
        let begins_on = |path: usize, host: usize| {
            let junction = meant.routes[path].start_on.as_ref();
            junction.is_some_and(|junction| junction.route == host + 1)
        };
        if !gap.overlaps || begins_on(second, first) || begins_on(first, second) {
            continue;
        }
        let route = &routes[second];
        let nearest = route.centre_line.as_ref().map(|line| line.nearest(gap.at));
        let station = nearest.map_or(0.0, |nearest| nearest.station);
        let mut report = Report {
            ruler,
            scheme,
            route: second,
            findings,
        };
        report.add(
            (Severity::Note, Code::PathsOverlap),
            (route.part_at(station), gap.at),
            format!(
                "this path and path {} take up the same ground, {} from its start: begin one on the edge of the other, or lead it past",
                first + 1,
                ruler.text(station)
            ),
            (Some(gap.distance), Some(0.0)),
        );
    }
}
