//! What a path comes too near to, runs into or covers, in words.

use super::Clearance;
use crate::document::{Obstacle, ObstacleKind};
use crate::finding::{Code, Severity};
use crate::solve::{Report, SolvedRoute};
use crate::surroundings::Surroundings;

/// The share of a root zone that may be covered, at most: one fifth. Source: BS 5837:2012,
/// 7.4.2.3 (from memory).
const ROOT_SHARE: f64 = 0.2;

/// No digging nearer to a stem than this, in metres. Source: National Joint Utilities Group,
/// volume 4, issue 2 (2007), operatives' handout.
const NO_DIGGING: f64 = 1.0;

/// Tells of everything one path comes too near to: of each obstacle once, where it is worst.
pub(crate) fn report(solved: &SolvedRoute, surroundings: &Surroundings, report: &mut Report<'_>) {
    let mut worst: Vec<&Clearance> = Vec::new();
    for clearance in solved.clearances.iter().filter(|c| c.is_too_near()) {
        match worst.last_mut() {
            Some(last) if last.obstacle == clearance.obstacle => {
                if clearance.to_spare() < last.to_spare() {
                    *last = clearance;
                }
            }
            _ => worst.push(clearance),
        }
    }
    for clearance in worst {
        let obstacle = &surroundings.site().obstacles[clearance.obstacle];
        tell_of_clearance(clearance, obstacle, solved, report);
    }
    tell_of_roots(solved, surroundings, report);
}

fn tell_of_clearance(
    clearance: &Clearance,
    obstacle: &Obstacle,
    solved: &SolvedRoute,
    report: &mut Report<'_>,
) {
    let ruler = report.ruler;
    let (name, edge) = (obstacle.called(), clearance.border.word());
    let place = format!("{} from the start", ruler.text(clearance.station));
    let deep = ruler.text(-clearance.distance);
    let near = ruler.text(clearance.distance);
    let wanted = ruler.text(clearance.wanted);
    let missing = ruler.text(-clearance.to_spare());
    let (severity, code, sentence) = match (obstacle.kind, clearance.overlaps) {
        (ObstacleKind::Service, _) => (
            Severity::Care,
            Code::OverService,
            match obstacle.unsure {
                _ if clearance.wanted > 0.0 => format!(
                    "the path comes within {wanted} of {name}, {place}: have it located and marked, and dig by hand there"
                ),
                Some(unsure) if unsure > 0.0 => format!(
                    "the path is dug over {name} or may be, {place}, since its place is known to {} only: have it located and marked, and dig by hand there",
                    ruler.text(unsure)
                ),
                _ => format!(
                    "the path is dug over {name}, {place}: have it located and marked, and dig by hand there"
                ),
            },
        ),
        (ObstacleKind::Boundary, true) => (
            Severity::Stop,
            Code::OverBoundary,
            if clearance.distance < 0.0 {
                format!("the {edge} goes {deep} beyond {name}, {place}: bring the path back inside")
            } else {
                format!("the path crosses {name}, {place}: keep it on one side")
            },
        ),
        (ObstacleKind::Boundary, false) => (
            Severity::Care,
            Code::OverBoundary,
            format!(
                "the {edge} comes within {near} of {name}, {place}: move it {missing} off to keep the {wanted} wanted"
            ),
        ),
        (_, true) if clearance.leads_up => (
            Severity::Care,
            Code::RunsInto,
            format!(
                "the {edge} arrives out of square: {deep} of it lies in {name}, {place}; turn the end square, or cut the path off along it"
            ),
        ),
        (_, true) => (
            Severity::Stop,
            Code::RunsInto,
            if clearance.distance < 0.0 {
                format!("the {edge} runs {deep} into {name}, {place}: lead the path round it")
            } else {
                format!("the path crosses {name}, {place}: lead it round the end")
            },
        ),
        (_, false) => (
            Severity::Care,
            Code::TooNear,
            format!(
                "the {edge} comes within {near} of {name}, {place}: move it {missing} off to keep the {wanted} wanted"
            ),
        ),
    };
    report.add_from(
        (severity, code),
        (solved.part_at(clearance.station), clearance.on_path),
        sentence,
        (Some(clearance.distance), Some(clearance.wanted)),
        if obstacle.clearance.is_some() {
            "the clearance given for it"
        } else {
            "the usual clearance of its kind"
        },
    );
}

/// Tells of every root zone that a path covers some of.
fn tell_of_roots(solved: &SolvedRoute, surroundings: &Surroundings, report: &mut Report<'_>) {
    let site = surroundings.site();
    for share in &solved.roots {
        let tree = &site.obstacles[share.tree];
        let stem = solved
            .clearances
            .iter()
            .filter(|c| c.obstacle == share.tree);
        let stem = stem.map(|c| c.distance).fold(f64::INFINITY, f64::min);
        let percent = (100.0 * share.covered / share.whole).max(1.0);
        let name = tree.called();
        let close = stem < NO_DIGGING;
        let much = share.covered > ROOT_SHARE * share.whole;
        let severity = if close || much {
            Severity::Care
        } else {
            Severity::Note
        };
        let advice = if close {
            format!(
                "and comes within {} of the stem: no digging there, ask an arborist first",
                report.ruler.text(stem.max(0.0))
            )
        } else {
            "dig by hand or build up on the ground there, and cut no thick root without advice"
                .into()
        };
        let source = if close {
            "NJUG volume 4, issue 2 (2007): no digging within 1 m of a stem"
        } else if tree.root_zone.is_some() {
            "BS 5837:2012, 7.4.2.3 (from memory); the root zone given for it"
        } else {
            site.roots.source()
        };
        report.add_from(
            (severity, Code::OverRoots),
            (solved.part_at(share.station), share.at),
            format!(
                "the path covers {percent:.0} % of the roots of {name}, taken to reach {}: {advice}",
                report.ruler.text(share.radius)
            ),
            (Some(share.covered / share.whole), Some(ROOT_SHARE)),
            source,
        );
    }
}
