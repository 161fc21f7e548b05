//! Edits: how a plan changes. The document changes by nothing else.
//!
//! The rule: *the hand moves one thing; what the person fixed stays; otherwise the shape stays.*

mod hold;
mod peg;

use std::fmt;

use geometry::{Answer, Bend, Figure, Point, SolveError};

use crate::document::{Plan, Route, Shape};
use crate::limits::{self, LimitError};
use crate::units::{Graduation, Units};

pub use hold::{held, other_answers};

/// Which leg, all counted from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct LegId {
    /// The option.
    pub scheme: usize,
    /// The path.
    pub route: usize,
    /// The leg.
    pub leg: usize,
}

/// Which waypoint, all counted from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct WaypointId {
    /// The option.
    pub scheme: usize,
    /// The path.
    pub route: usize,
    /// The waypoint.
    pub waypoint: usize,
}

/// One change of a plan.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// Moves a waypoint. The other ends of its legs stay; each bend keeps its sweep, or what was
    /// typed and holds.
    MoveWaypoint {
        /// Which waypoint.
        id: WaypointId,
        /// Where to.
        to: Point,
    },
    /// Sets the signed rise of a bend: its apex was dragged. The ends stay; what was typed, but
    /// for the chord, lets go.
    SetRise {
        /// Which leg.
        id: LegId,
        /// The rise in metres, positive when the apex lies left of the chord.
        rise: f64,
    },
    /// Sets a typed figure, which then holds. The start of the leg stays, the end follows.
    SetFigure {
        /// Which leg.
        id: LegId,
        /// Which figure.
        figure: Figure,
        /// Metres, or radians for the sweep.
        value: f64,
    },
    /// Takes the other bend that the two held figures also give.
    ChooseBend {
        /// Which leg.
        id: LegId,
        /// The bend to take.
        bend: Bend,
    },
    /// Lets go of all typed figures of a bend.
    LetGo {
        /// Which leg.
        id: LegId,
    },
    /// Gives a leg another shape.
    SetShape {
        /// Which leg.
        id: LegId,
        /// The shape.
        shape: Shape,
    },
    /// Rounds a corner, or makes it sharp.
    SetRounding {
        /// Which waypoint.
        id: WaypointId,
        /// The radius in metres.
        radius: Option<f64>,
    },
    /// Sets the width of a path.
    SetWidth {
        /// Which option, counted from 0.
        scheme: usize,
        /// Which path of it, counted from 0.
        route: usize,
        /// The width in metres.
        width: f64,
    },
    /// Sets the units and the graduation of the tape.
    SetUnits {
        /// The units.
        units: Units,
        /// The graduation.
        graduation: Graduation,
    },
    /// Sets the title of the plan.
    SetTitle(String),
}

/// A changed plan, and what held the hand back, if anything did.
#[derive(Clone, Debug, PartialEq)]
pub struct Edited {
    /// The changed plan.
    pub plan: Plan,
    /// Why a peg stopped short of where it was dragged.
    pub stopped: Option<Stopped>,
}

/// Why a peg stopped short of where it was dragged.
#[derive(Clone, Debug, PartialEq)]
pub enum Stopped {
    /// A bend holds figures that give no bend past here.
    Holds {
        /// Which leg, counted from 0.
        leg: usize,
        /// The figures that hold.
        figures: [Figure; 2],
    },
    /// The chords of the bends on both sides hold.
    BothChords,
    /// The end of the plan's ground, or the other peg, is reached.
    Limit,
}

impl fmt::Display for Stopped {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Holds { leg, figures } => write!(
                f,
                "leg {} holds its {} and {}: let one go to move this peg farther",
                leg + 1,
                figure_name(figures[0]),
                figure_name(figures[1])
            ),
            Self::BothChords => f.write_str(
                "the legs on both sides hold their chords: let one go to move this peg",
            ),
            Self::Limit => f.write_str("the peg cannot go farther this way"),
        }
    }
}

/// Why an edit is refused; the plan stays as it was.
#[derive(Clone, Debug, PartialEq)]
pub enum EditError {
    /// There is no such option, path, leg or waypoint.
    NotThere,
    /// The leg is not a bend whose figures can be set.
    NotABend,
    /// An onward bend takes its shape from the leg before it.
    Onward,
    /// The figures give no bend: which two, and why.
    NoBend([Figure; 2], SolveError),
    /// A peg cannot follow because of what a neighbouring bend holds.
    Held(Stopped),
    /// A limit is passed.
    Limit(LimitError),
}

impl From<LimitError> for EditError {
    fn from(error: LimitError) -> Self {
        Self::Limit(error)
    }
}

impl fmt::Display for EditError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotThere => f.write_str("that part of the plan is no longer there"),
            Self::NotABend => f.write_str(
                "this leg is a straight: only its length can be set; make it a bend to set the rest",
            ),
            Self::Onward => f.write_str(
                "this bend leaves smoothly from the leg before it and takes its shape from there: make it a free bend to set its figures",
            ),
            Self::NoBend(_, why) => why.fmt(f),
            Self::Held(stopped) => stopped.fmt(f),
            Self::Limit(limit) => limit.fmt(f),
        }
    }
}

impl std::error::Error for EditError {}

/// The trade's name of a figure, as it stands in a sentence.
#[must_use]
pub fn figure_name(figure: Figure) -> &'static str {
    match figure {
        Figure::Chord => "chord",
        Figure::Rise => "rise",
        Figure::Radius => "radius",
        Figure::ArcLength => "arc length",
        Figure::Sweep => "sweep",
        Figure::Apothem => "apothem",
        Figure::TangentLength => "tangent length",
        Figure::ExternalDistance => "external distance",
    }
}

impl Edit {
    /// What undo calls it.
    #[must_use]
    pub fn name(&self) -> String {
        match self {
            Self::MoveWaypoint { id, .. } => format!("move waypoint {}", id.waypoint + 1),
            Self::SetRise { id, .. } => format!("move the apex of leg {}", id.leg + 1),
            Self::SetFigure { id, figure, .. } => {
                format!("set the {} of leg {}", figure_name(*figure), id.leg + 1)
            }
            Self::ChooseBend { id, .. } => format!("take the other bend for leg {}", id.leg + 1),
            Self::LetGo { id } => format!("let go of leg {}", id.leg + 1),
            Self::SetShape { id, .. } => format!("reshape leg {}", id.leg + 1),
            Self::SetRounding { id, .. } => format!("round corner {}", id.waypoint + 1),
            Self::SetWidth { .. } => "set the width".into(),
            Self::SetUnits { .. } => "change the units".into(),
            Self::SetTitle(_) => "rename the plan".into(),
        }
    }
}

impl Plan {
    /// The plan with one thing changed.
    ///
    /// # Errors
    /// [`EditError`] if the thing is not there, the figures give no bend, what is held does not
    /// allow it, or a limit is passed. The plan itself never changes.
    pub fn with(&self, edit: &Edit) -> Result<Edited, EditError> {
        let mut plan = self.clone();
        let mut stopped = None;
        match edit {
            Edit::MoveWaypoint { id, to } => {
                stopped = peg::drag(&mut plan, *id, *to)?;
            }
            Edit::SetRise { id, rise } => {
                let holds_chord = |figure: &Figure| *figure == Figure::Chord;
                match plan.leg_mut(*id)? {
                    Shape::Bend { rise: old, holds } => {
                        *old = *rise;
                        holds.retain(holds_chord);
                    }
                    Shape::Straight => return Err(EditError::NotABend),
                    Shape::Onward => return Err(EditError::Onward),
                }
            }
            Edit::SetFigure { id, figure, value } => {
                hold::set_figure(&mut plan, *id, *figure, *value)?;
            }
            Edit::ChooseBend { id, bend } => hold::choose(&mut plan, *id, *bend)?,
            Edit::LetGo { id } => {
                if let Shape::Bend { holds, .. } = plan.leg_mut(*id)? {
                    holds.clear();
                }
            }
            Edit::SetShape { id, shape } => *plan.leg_mut(*id)? = shape.clone(),
            Edit::SetRounding { id, radius } => {
                let route = plan.route_mut(id.scheme, id.route)?;
                let waypoint = route.waypoints.get_mut(id.waypoint);
                waypoint.ok_or(EditError::NotThere)?.rounding = *radius;
            }
            Edit::SetWidth {
                scheme,
                route,
                width,
            } => plan.route_mut(*scheme, *route)?.width = *width,
            Edit::SetUnits { units, graduation } => {
                plan.units = *units;
                plan.graduation = *graduation;
            }
            Edit::SetTitle(title) => plan.title.clone_from(title),
        }
        limits::check(&plan)?;
        Ok(Edited { plan, stopped })
    }

    /// A leg of the plan.
    #[must_use]
    pub fn leg(&self, id: LegId) -> Option<&Shape> {
        self.route(id.scheme, id.route)?.legs.get(id.leg)
    }

    /// A path of the plan.
    #[must_use]
    pub fn route(&self, scheme: usize, route: usize) -> Option<&Route> {
        self.schemes.get(scheme)?.routes.get(route)
    }

    fn route_mut(&mut self, scheme: usize, route: usize) -> Result<&mut Route, EditError> {
        self.schemes
            .get_mut(scheme)
            .and_then(|scheme| scheme.routes.get_mut(route))
            .ok_or(EditError::NotThere)
    }

    fn leg_mut(&mut self, id: LegId) -> Result<&mut Shape, EditError> {
        self.route_mut(id.scheme, id.route)?
            .legs
            .get_mut(id.leg)
            .ok_or(EditError::NotThere)
    }
}

/// Of several bends, the one whose sweep is nearest to that of the bend before: of the two that a
/// chord and a radius give, the one on the same side of the half circle.
fn nearest(answers: &[Answer], sweep: f64) -> Option<Bend> {
    answers
        .iter()
        .map(|answer| answer.bend)
        .min_by(|a, b| {
            let off = |bend: &Bend| (bend.sweep() - sweep).abs();
            off(a).total_cmp(&off(b))
        })
}
