//! What a view asks for: the views never change anything themselves.

use geometry::Point;
use plan::Edit;
use plan::setout::Method;
use plan::solve::Origin;

use super::action::Action;
use super::compare::CompareAsk;
use super::mode::{Mode, Start};
use super::pick::{Picked, Stage};
use super::site::SiteAsk;
use super::strip::Chart;
use super::theme::Look;

/// One thing asked for in a frame; carried out in one place after the frame's views have run.
#[derive(Clone, Debug, PartialEq)]
pub enum Intent {
    /// Show an edit while the hand is still down.
    Preview(Edit),
    /// Carry out an edit as one undo step.
    Commit(Edit),
    /// Forget what is shown.
    Cancel,
    /// Choose a part of the path.
    Pick(Picked),
    /// Turn to another option.
    Scheme(usize),
    /// Turn to another path of the option.
    Route(usize),
    /// Turn to another stage.
    Stage(Stage),
    /// Show this place in the middle.
    GoTo(Point),
    /// Turn to another meaning of a click.
    Turn(Mode),
    /// Lay a peg of the path being laid.
    LayPeg {
        /// Where, and from which edge if it is the first.
        start: Start,
        /// Whether it leads the path back to its other end.
        closes: bool,
    },
    /// Choose a peg as well, or let go of it.
    Also(usize),
    /// Choose all pegs of the path.
    All,
    /// Take out what is chosen.
    TakeOut,
    /// About what stands on the site.
    Site(SiteAsk),
    /// Type a figure of the chosen bend on the plan itself.
    TypeOnPlan(geometry::Figure),
    /// An action of the table.
    Do(Action),
    /// Wear another look.
    Wear(Look),
    /// Put the keyboard into the first field of what is chosen.
    Type,
    /// Say a sentence.
    Tell(String),
    /// Move the cursor along the path to this station, in metres.
    Along(f64),
    /// Show another figure in the strip.
    Chart(Chart),
    /// Show the ground that the vehicle of this number sweeps, or none.
    Sweep(Option<usize>),
    /// Draw how far the pegs may be out, or not.
    Trust(bool),
    /// Turn to a step of setting out, counted from 0, or leave the steps.
    Step(Option<usize>),
    /// Look at a way to set out a bend.
    LookAt(Origin, Method),
    /// Work out how a long path is set out.
    WorkOut,
    /// About comparing options.
    Compare(CompareAsk),
    /// Close the hints for good.
    CloseHints,
    /// Keep a dragged apex where the path keeps clear, or no longer.
    KeepClear(bool),
}
