//! Edits: how a plan changes. The document changes by nothing else.
//!
//! The rule: *the hand moves one thing; what the person fixed stays; otherwise the shape stays.*

mod branch;
mod hold;
mod keep;
mod many;
mod peg;
mod route;
mod scheme;
mod site;

use std::fmt;
use std::sync::Arc;

use geometry::{Answer, Bend, Direction, Figure, Point, SolveError, Vector};

use crate::count::{BuildUp, CountSettings};
use crate::document::{
    Heading, MethodChoice, Pad, Plan, Route, Scheme, SetOutSettings, Shape, Side, letter,
};
use crate::edging::Edging;
use crate::feel::Walk;
use crate::limits::{self, LimitError};
use crate::price::PriceList;
use crate::rules::RuleSet;
use crate::setout::Method;
use crate::solve::Origin;
use crate::units::{Graduation, Units};

pub use hold::{held, other_answers};
pub use site::SiteEdit;

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

/// One of the two ends of a path.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum End {
    /// Where it starts.
    Start,
    /// Where it ends.
    End,
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
    /// Gives a bend other ends and another rise in one go. The legs beside it follow the rule of a
    /// dragged peg; what was typed lets go.
    SetBend {
        /// Which leg.
        id: LegId,
        /// Where its first and its last peg go.
        ends: [Point; 2],
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
    /// Adds a path to an option.
    AddRoute {
        /// Which option, counted from 0.
        scheme: usize,
        /// The path.
        route: Box<Route>,
    },
    /// Takes a path away.
    RemoveRoute {
        /// Which option, counted from 0.
        scheme: usize,
        /// Which path of it, counted from 0.
        route: usize,
    },
    /// Renames a path.
    RenameRoute {
        /// Which option, counted from 0.
        scheme: usize,
        /// Which path of it, counted from 0.
        route: usize,
        /// Its name.
        name: String,
    },
    /// Leads a path on from one of its ends by a leg.
    LeadOn {
        /// Which option, counted from 0.
        scheme: usize,
        /// Which path of it, counted from 0.
        route: usize,
        /// From which end.
        end: End,
        /// Where the leg goes.
        at: Point,
        /// Its shape.
        shape: Shape,
    },
    /// Puts a waypoint on a leg; the line of the path stays.
    InsertWaypoint {
        /// Which leg.
        id: LegId,
        /// Near which place.
        near: Point,
    },
    /// Takes a waypoint out; the legs on both sides become one.
    RemoveWaypoint {
        /// Which waypoint.
        id: WaypointId,
    },
    /// Turns a path round: it runs the other way over the same ground.
    TurnRound {
        /// Which option, counted from 0.
        scheme: usize,
        /// Which path of it, counted from 0.
        route: usize,
    },
    /// Leads the end of a path back to its start.
    Close {
        /// Which option, counted from 0.
        scheme: usize,
        /// Which path of it, counted from 0.
        route: usize,
    },
    /// Parts an open path at a waypoint into two; opens a closed one there.
    Split {
        /// Which waypoint.
        id: WaypointId,
    },
    /// Joins the start of a second path to the end of a first.
    Join {
        /// Which option, counted from 0.
        scheme: usize,
        /// The path that is led on, counted from 0.
        first: usize,
        /// The path that is joined to it, counted from 0.
        second: usize,
    },
    /// Begins a path at the edge of another.
    Branch {
        /// Which option, counted from 0.
        scheme: usize,
        /// The path it starts from, counted from 0.
        host: usize,
        /// From which edge.
        side: Side,
        /// Near which place on that edge.
        near: Point,
        /// Where its first straight goes.
        to: Point,
    },
    /// Holds the start or end of a path to a direction, or lets go of it.
    SetHeading {
        /// Which option, counted from 0.
        scheme: usize,
        /// Which path of it, counted from 0.
        route: usize,
        /// Which end.
        end: End,
        /// The direction.
        heading: Option<Heading>,
    },
    /// Moves several waypoints together.
    MoveTogether {
        /// Which option, counted from 0.
        scheme: usize,
        /// Paths and waypoints, both counted from 0.
        waypoints: Vec<(usize, usize)>,
        /// How far.
        by: Vector,
    },
    /// Mirrors a path in a line.
    Mirror {
        /// Which option, counted from 0.
        scheme: usize,
        /// Which path of it, counted from 0.
        route: usize,
        /// A point of the line.
        through: Point,
        /// The line's direction.
        along: Direction,
    },
    /// Copies a path, to the same option or another.
    CopyRoute {
        /// From which option, counted from 0.
        scheme: usize,
        /// Which path of it, counted from 0.
        route: usize,
        /// To which option, counted from 0.
        to: usize,
        /// How far the copy is moved.
        by: Vector,
    },
    /// Mirrors several waypoints of a path in the line from the first to the last of them, and the
    /// legs between neighbours among them. On a ring the first is the one behind the longest
    /// stretch that is not among them.
    MirrorPegs {
        /// Which option, counted from 0.
        scheme: usize,
        /// Which path of it, counted from 0.
        route: usize,
        /// The waypoints, counted from 0, in any order.
        waypoints: Vec<usize>,
    },
    /// Copies what runs from the first to the last of several waypoints as a path of its own; the
    /// first is found as in [`Self::MirrorPegs`].
    CopyPegs {
        /// Which option, counted from 0.
        scheme: usize,
        /// Which path of it, counted from 0.
        route: usize,
        /// The waypoints, counted from 0, in any order.
        waypoints: Vec<usize>,
        /// How far the copy is moved.
        by: Vector,
    },
    /// Lays a landing on a path, replaces one, or takes one away.
    SetPad {
        /// Which option, counted from 0.
        scheme: usize,
        /// Which path of it, counted from 0.
        route: usize,
        /// Which landing, counted from 0; one past the last adds one.
        pad: usize,
        /// What it becomes; nothing takes it away.
        to: Option<Pad>,
    },
    /// Adds an option: empty, or a copy of another.
    AddScheme {
        /// Which one is copied, counted from 0.
        copy_of: Option<usize>,
    },
    /// Takes an option away.
    RemoveScheme {
        /// Which option, counted from 0.
        scheme: usize,
    },
    /// Renames an option.
    RenameScheme {
        /// Which option, counted from 0.
        scheme: usize,
        /// Its name.
        name: String,
    },
    /// Moves an option to another place in the order; the letters follow the order.
    MoveScheme {
        /// Which option, counted from 0.
        scheme: usize,
        /// Where it stands then, counted from 0.
        to: usize,
    },
    /// Locks an option, so that its paths stay as they are, or lets them be changed again.
    LockScheme {
        /// Which option, counted from 0.
        scheme: usize,
        /// Whether it is locked.
        locked: bool,
    },
    /// Sets the notes of an option.
    SetSchemeNotes {
        /// Which option, counted from 0.
        scheme: usize,
        /// The notes; lines are allowed.
        notes: String,
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
    /// Changes what is on the ground.
    Site(SiteEdit),
    /// Chooses the rules the paths are judged by.
    SetRules(Vec<RuleSet>),
    /// Sets who walks the paths, and what is wheeled along them.
    SetWalk(Walk),
    /// Sets who sets the paths out, with what, and how true.
    SetSetOut(SetOutSettings),
    /// Sets the length of the tape at hand, in metres.
    SetTape(f64),
    /// Chooses how a bend is set out, or leaves it to what the ground allows.
    SetMethod {
        /// Which option, counted from 0.
        scheme: usize,
        /// Which path of it, counted from 0.
        route: usize,
        /// The bend.
        of: Origin,
        /// The method; nothing takes the best one.
        method: Option<Method>,
    },
    /// Chooses what the paths of an option are edged with, or leaves it open.
    SetEdging {
        /// Which option, counted from 0.
        scheme: usize,
        /// The edging.
        edging: Option<Edging>,
    },
    /// Sets what things, hands and the rest cost.
    SetPrices(Arc<PriceList>),
    /// Chooses what the paths of an option are built of, or leaves it open.
    SetBuildUp {
        /// Which option, counted from 0.
        scheme: usize,
        /// The build-up.
        build_up: Option<Arc<BuildUp>>,
    },
    /// Sets what the counting of quantities goes by.
    SetCount(CountSettings),
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
            Self::BothChords => {
                f.write_str("the legs on both sides hold their chords: let one go to move this peg")
            }
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
    /// The path is closed, or would be joined to itself.
    Closed,
    /// A path needs two pegs.
    TwoPegs,
    /// Chosen pegs give no line to mirror the others in.
    MirrorLine,
    /// A path cannot be made of one peg.
    OnePeg,
    /// A path cannot be parted at its end.
    AtAnEnd,
    /// No line is drawn there that a peg could be put on.
    NothingDrawn,
    /// Only the sides of an area can be bent, and a circle has no corners.
    NotAnArea,
    /// A line needs two corners, an area three.
    LastCorners,
    /// The last option cannot be taken away.
    LastScheme,
    /// The option is locked: which one, counted from 0.
    Locked(usize),
    /// A peg cannot follow because of what a neighbouring bend holds.
    Held(Stopped),
    /// A method was chosen for what is no bend.
    NoSuchBend,
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
            Self::Closed => f.write_str(
                "the path is closed: it has no end to lead on or to join; open it at a peg first",
            ),
            Self::TwoPegs => f.write_str(
                "a path needs two pegs, and a closed one three: take the whole path away instead",
            ),
            Self::MirrorLine => f.write_str(
                "pegs are mirrored in the line from the first to the last of them, and these two stay: choose one more between them, and ends that stand apart",
            ),
            Self::OnePeg => f.write_str(
                "one peg makes no path: choose another, and what runs between them is copied",
            ),
            Self::AtAnEnd => {
                f.write_str("a path cannot be parted at its own end: choose a peg between two legs")
            }
            Self::NothingDrawn => f.write_str(
                "no line is drawn here to put a peg on or to begin at: put right first what is found about this path",
            ),
            Self::NotAnArea => f.write_str(
                "only the sides of an area can be bent or parted: draw it as an area first",
            ),
            Self::LastCorners => f.write_str(
                "a line needs two corners, and an area three: take the whole of it away instead",
            ),
            Self::LastScheme => f.write_str(
                "a plan keeps at least one option: add another before this one is taken away",
            ),
            Self::Locked(scheme) => write!(
                f,
                "option {} is locked: unlock it under Compare to change its paths, or change a copy of it",
                letter(*scheme)
            ),
            Self::Held(stopped) => stopped.fmt(f),
            Self::NoSuchBend => f.write_str(
                "there is no bend here to choose a method for: bend the leg or round the corner first",
            ),
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
            Self::SetBend { id, .. } => format!("resize leg {}", id.leg + 1),
            Self::SetFigure { id, figure, .. } => {
                format!("set the {} of leg {}", figure_name(*figure), id.leg + 1)
            }
            Self::ChooseBend { id, .. } => format!("take the other bend for leg {}", id.leg + 1),
            Self::LetGo { id } => format!("let go of leg {}", id.leg + 1),
            Self::SetShape { id, .. } => format!("reshape leg {}", id.leg + 1),
            Self::SetRounding { id, .. } => format!("round corner {}", id.waypoint + 1),
            Self::AddRoute { route, .. } => format!("lay {}", quoted(&route.name)),
            Self::RemoveRoute { route, .. } => format!("take path {} away", route + 1),
            Self::RenameRoute { route, .. } => format!("rename path {}", route + 1),
            Self::LeadOn { .. } => "lead the path on".into(),
            Self::InsertWaypoint { id, .. } => format!("put a peg on leg {}", id.leg + 1),
            Self::RemoveWaypoint { id } => format!("take waypoint {} out", id.waypoint + 1),
            Self::TurnRound { .. } => "turn the path round".into(),
            Self::Close { .. } => "close the path".into(),
            Self::Split { id } => format!("part the path at waypoint {}", id.waypoint + 1),
            Self::Join { .. } => "join two paths".into(),
            Self::Branch { .. } => "begin a path at an edge".into(),
            Self::SetHeading {
                end: End::Start, ..
            } => "set the start direction".into(),
            Self::SetHeading { end: End::End, .. } => "set the end direction".into(),
            Self::MoveTogether { waypoints, .. } => format!("move {} pegs", waypoints.len()),
            Self::Mirror { .. } => "mirror the path".into(),
            Self::CopyRoute { .. } => "copy the path".into(),
            Self::MirrorPegs { waypoints, .. } => format!("mirror {} pegs", waypoints.len()),
            Self::CopyPegs { waypoints, .. } => format!("copy {} pegs", waypoints.len()),
            Self::SetPad { to: Some(_), .. } => "lay a landing".into(),
            Self::SetPad { to: None, .. } => "take a landing away".into(),
            Self::AddScheme { copy_of: None } => "add an option".into(),
            Self::AddScheme { copy_of: Some(of) } => format!("copy option {}", letter(*of)),
            Self::RemoveScheme { .. } => "take an option away".into(),
            Self::RenameScheme { .. } => "rename the option".into(),
            Self::MoveScheme { scheme, .. } => format!("move option {}", letter(*scheme)),
            Self::LockScheme {
                scheme,
                locked: true,
            } => format!("lock option {}", letter(*scheme)),
            Self::LockScheme { scheme, .. } => format!("unlock option {}", letter(*scheme)),
            Self::SetSchemeNotes { scheme, .. } => {
                format!("write notes of option {}", letter(*scheme))
            }
            Self::SetWidth { .. } => "set the width".into(),
            Self::SetUnits { .. } => "change the units".into(),
            Self::SetTitle(_) => "rename the plan".into(),
            Self::Site(edit) => edit.name(),
            Self::SetRules(_) => "choose the rules".into(),
            Self::SetWalk(_) => "set what goes along the paths".into(),
            Self::SetSetOut(_) => "set how paths are set out".into(),
            Self::SetTape(_) => "set the length of the tape".into(),
            Self::SetMethod {
                method: Some(method),
                ..
            } => format!("set out by {}", method.name()),
            Self::SetMethod { method: None, .. } => "set out the best way".into(),
            Self::SetEdging { scheme, .. } => {
                format!("choose the edging of option {}", letter(*scheme))
            }
            Self::SetPrices(_) => "set the prices".into(),
            Self::SetBuildUp { scheme, .. } => {
                format!("choose the build-up of option {}", letter(*scheme))
            }
            Self::SetCount(_) => "set how quantities are counted".into(),
        }
    }
}

impl Plan {
    /// The plan with one thing changed.
    ///
    /// # Errors
    /// [`EditError`] if the thing is not there or locked, the figures give no bend, what is held
    /// does not allow it, or a limit is passed. The plan itself never changes.
    pub fn with(&self, edit: &Edit) -> Result<Edited, EditError> {
        scheme::refuse_locked(self, edit)?;
        let mut plan = self.clone();
        let mut stopped = None;
        match edit {
            Edit::MoveWaypoint { id, to } => {
                stopped = match branch::along_its_edge(&plan, *id, *to)? {
                    Some((at, junction)) => branch::slide(&mut plan, *id, at, junction)?,
                    None => peg::drag(&mut plan, *id, *to)?,
                };
            }
            Edit::SetRise { id, rise } => {
                let holds_chord = |figure: &Figure| *figure == Figure::Chord;
                match plan.leg_mut(*id)? {
                    Shape::Bend { rise: old, holds } => {
                        *old = *rise;
                        holds.retain(holds_chord);
                    }
                    Shape::Straight => return Err(EditError::NotABend),
                    Shape::Onward | Shape::TwoBends => return Err(EditError::Onward),
                }
            }
            Edit::SetBend { id, ends, rise } => peg::set_bend(&mut plan, *id, *ends, *rise)?,
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
            Edit::AddRoute { scheme, route } => {
                plan.scheme_mut(*scheme)?.routes.push((**route).clone());
            }
            Edit::RemoveRoute { scheme, route } => {
                route::remove_route(&mut plan, (*scheme, *route))?;
            }
            Edit::RenameRoute {
                scheme,
                route,
                name,
            } => plan.route_mut(*scheme, *route)?.name.clone_from(name),
            Edit::LeadOn {
                scheme,
                route,
                end,
                at,
                shape,
            } => route::append(&mut plan, (*scheme, *route), *end, *at, shape.clone())?,
            Edit::InsertWaypoint { id, near } => route::insert(&mut plan, *id, *near)?,
            Edit::RemoveWaypoint { id } => route::remove(&mut plan, *id)?,
            Edit::TurnRound { scheme, route } => route::reverse(&mut plan, (*scheme, *route))?,
            Edit::Close { scheme, route } => route::close(&mut plan, (*scheme, *route))?,
            Edit::Split { id } => route::split(&mut plan, *id)?,
            Edit::Join {
                scheme,
                first,
                second,
            } => route::join(&mut plan, *scheme, [*first, *second])?,
            Edit::Branch {
                scheme,
                host,
                side,
                near,
                to,
            } => branch::branch(&mut plan, (*scheme, *host), *side, *near, *to)?,
            Edit::SetHeading {
                scheme,
                route,
                end,
                heading,
            } => {
                let route = plan.route_mut(*scheme, *route)?;
                match end {
                    End::Start => route.start_direction.clone_from(heading),
                    End::End => route.end_direction.clone_from(heading),
                }
            }
            Edit::MoveTogether {
                scheme,
                waypoints,
                by,
            } => many::move_all(&mut plan, *scheme, waypoints, *by)?,
            Edit::Mirror {
                scheme,
                route,
                through,
                along,
            } => route::mirror(&mut plan, (*scheme, *route), (*through, *along))?,
            Edit::CopyRoute {
                scheme,
                route,
                to,
                by,
            } => {
                let mut copy = plan.route_mut(*scheme, *route)?.clone();
                for waypoint in &mut copy.waypoints {
                    waypoint.at += *by;
                }
                copy.start_on = None;
                plan.scheme_mut(*to)?.routes.push(copy);
            }
            Edit::MirrorPegs {
                scheme,
                route,
                waypoints,
            } => many::mirror(&mut plan, (*scheme, *route), waypoints)?,
            Edit::CopyPegs {
                scheme,
                route,
                waypoints,
                by,
            } => many::copy(&mut plan, (*scheme, *route), waypoints, *by)?,
            Edit::SetPad {
                scheme,
                route,
                pad,
                to,
            } => {
                let pads = &mut plan.route_mut(*scheme, *route)?.pads;
                match to {
                    Some(new) if *pad == pads.len() => pads.push(new.clone()),
                    Some(new) => *pads.get_mut(*pad).ok_or(EditError::NotThere)? = new.clone(),
                    None if *pad < pads.len() => drop(pads.remove(*pad)),
                    None => return Err(EditError::NotThere),
                }
            }
            Edit::AddScheme { copy_of } => scheme::add(&mut plan, *copy_of)?,
            Edit::RemoveScheme { scheme } => scheme::remove(&mut plan, *scheme)?,
            Edit::RenameScheme { scheme, name } => {
                plan.scheme_mut(*scheme)?.name.clone_from(name);
            }
            Edit::MoveScheme { scheme, to } => scheme::shift(&mut plan, *scheme, *to)?,
            Edit::LockScheme { scheme, locked } => plan.scheme_mut(*scheme)?.locked = *locked,
            Edit::SetSchemeNotes { scheme, notes } => {
                plan.scheme_mut(*scheme)?.notes.clone_from(notes);
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
            Edit::Site(edit) => site::change(&mut plan, edit)?,
            Edit::SetRules(rules) => plan.rules.clone_from(rules),
            Edit::SetWalk(walk) => plan.walk.clone_from(walk),
            Edit::SetSetOut(settings) => plan.set_out = *settings,
            Edit::SetTape(length) => plan.tape.length = *length,
            Edit::SetMethod {
                scheme,
                route,
                of,
                method,
            } => {
                let route = plan.route_mut(*scheme, *route)?;
                if !route.is_bend(*of) {
                    return Err(EditError::NoSuchBend);
                }
                route.methods.retain(|choice| choice.of != *of);
                let chosen = method.map(|method| MethodChoice { of: *of, method });
                route.methods.extend(chosen);
            }
            Edit::SetPrices(prices) => plan.prices = Arc::clone(prices),
            Edit::SetEdging { scheme, edging } => {
                let scheme = plan.scheme_mut(*scheme)?;
                scheme.edging = *edging;
                if let Some(build_up) = &mut scheme.build_up {
                    Arc::make_mut(build_up).edge_with(*edging);
                }
            }
            Edit::SetBuildUp { scheme, build_up } => {
                plan.scheme_mut(*scheme)?.build_up.clone_from(build_up);
            }
            Edit::SetCount(settings) => plan.count.clone_from(settings),
        }
        keep::drop_methods_of_no_bend(&mut plan);
        limits::check_changed(&plan, self)?;
        if branch::refasten(self, &mut plan) {
            keep::drop_methods_of_no_bend(&mut plan);
            limits::check_changed(&plan, self)?;
        }
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

    fn scheme_mut(&mut self, scheme: usize) -> Result<&mut Scheme, EditError> {
        self.schemes.get_mut(scheme).ok_or(EditError::NotThere)
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
    answers.iter().map(|answer| answer.bend).min_by(|a, b| {
        let off = |bend: &Bend| (bend.sweep() - sweep).abs();
        off(a).total_cmp(&off(b))
    })
}

fn quoted(name: &str) -> String {
    if name.trim().is_empty() {
        "a path".to_owned()
    } else {
        format!("“{name}”")
    }
}
