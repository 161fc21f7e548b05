//! What hinders a deed, in words.

use super::{Cause, Deed, Hindrance, Severity};
use crate::document::{Obstacle, ObstacleKind, Site};
use crate::units::Ruler;

impl Hindrance {
    /// What hinders it, in words, such as `the swing point is in the pond “Cistern”`: `subject` is
    /// what is stood, pulled, swung or scratched (`the swing point`, `the string to the outside
    /// edge`), `site` the one it was asked of.
    #[must_use]
    pub fn sentence(&self, subject: &str, site: &Site, ruler: &Ruler) -> String {
        let name = |index: usize| site.obstacles.get(index).map_or_else(String::new, called);
        match self.cause {
            Cause::TooLong(limit) => {
                let (length, limit) = (ruler.text(limit + self.deep), ruler.text(limit));
                match (self.deed, self.severity) {
                    (Deed::Swing, Severity::Stops) => format!(
                        "{subject} is {length} long: over {limit} the tape ends, or sag and wind spoil the line"
                    ),
                    (Deed::Swing, Severity::Care) => format!(
                        "{subject} is {length} long: over {limit} it wants a still day and a helper"
                    ),
                    (_, _) => format!("{subject} is {length} long, and the tape {limit}"),
                }
            }
            Cause::Roots(tree) => format!(
                "{subject} is among the roots of {}: feel for them before driving it",
                name(tree)
            ),
            Cause::Obstacle(index) => {
                let Some(obstacle) = site.obstacles.get(index) else {
                    return String::new();
                };
                self.by(obstacle, subject, ruler)
            }
        }
    }

    fn by(&self, obstacle: &Obstacle, subject: &str, ruler: &Ruler) -> String {
        use ObstacleKind as Kind;
        let name = called(obstacle);
        let (along, deep) = (ruler.text(self.along), ruler.text(self.deep));
        let over = self.deep > 0.0;
        match (self.deed, obstacle.kind) {
            (Deed::Stand, Kind::Boundary) if over => {
                format!("{subject} is {deep} beyond {name}")
            }
            (Deed::Stand, Kind::Boundary | Kind::Wall | Kind::Gate) if !over => {
                format!("{subject} is on {name}")
            }
            (Deed::Stand, Kind::Service) => {
                format!("{subject} is at {name} or near it: drive no peg here, lay a weight")
            }
            (Deed::Stand, Kind::Bed) => format!("{subject} is in {name}: mind the plants"),
            (Deed::Stand, _) => format!("{subject} is in {name}"),
            (Deed::Pull | Deed::Scratch, Kind::Boundary) if over => {
                format!("{subject} goes {deep} beyond {name}, from {along} on")
            }
            (Deed::Pull | Deed::Scratch, Kind::Boundary) => {
                format!("{subject} crosses {name} at {along}")
            }
            (Deed::Pull, Kind::Service) => {
                format!("{subject} crosses {name} at {along}: drive no pin there")
            }
            (Deed::Pull, Kind::Bed | Kind::Pond) => {
                format!("{subject} goes over {name} at {along}: keep it taut and clear")
            }
            (Deed::Pull, _) => format!("{subject} cannot go through {name}, at {along}"),
            (Deed::Scratch, Kind::Bed) => {
                format!("{subject} is in {name} from {along} on: mind the plants")
            }
            (Deed::Scratch, _) => format!("{subject} meets {name} at {along}"),
            (Deed::Swing, Kind::Boundary) if self.reaches_over(obstacle) => {
                format!("{subject} would reach {deep} over {name}")
            }
            (Deed::Swing, Kind::Boundary) => {
                format!("{subject} would cross {name}, {along} from the swing point")
            }
            (Deed::Swing, Kind::Bed | Kind::Pond | Kind::Service) => {
                format!("{subject} sweeps over {name}: keep it taut and clear")
            }
            (Deed::Swing, _) => {
                format!("{subject} catches {name}, {along} from the swing point")
            }
        }
    }

    /// Whether a boundary encloses ground, so that it is known which side is beyond.
    fn reaches_over(&self, boundary: &Obstacle) -> bool {
        boundary.extent.is_closed() && self.deep > 0.0
    }
}

/// `the pond “Cistern”`, or `the pond`.
fn called(obstacle: &Obstacle) -> String {
    let kind = obstacle.kind.word();
    match obstacle.name.trim() {
        "" => format!("the {kind}"),
        name => format!("the {kind} “{name}”"),
    }
}
