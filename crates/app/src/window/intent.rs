//! What a view asks for: the views never change anything themselves.

use geometry::Point;
use plan::Edit;

use super::action::Action;
use super::pick::{Picked, Stage};
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
    /// An action of the table.
    Do(Action),
    /// Wear another look.
    Wear(Look),
    /// Put the keyboard into the first field of what is chosen.
    Type,
    /// Say a sentence.
    Tell(String),
    /// Close the hints for good.
    CloseHints,
}
