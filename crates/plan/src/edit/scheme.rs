//! Edits of an option as a whole: added, copied, moved in the order, taken away, and locked.

use super::route::renamed;
use super::{Edit, EditError};
use crate::document::{Plan, Scheme, letter};

impl Edit {
    /// The option whose paths it changes, counted from 0; nothing for what changes no path, or all
    /// of them alike.
    ///
    /// This is the whole rule of a lock: [`Plan::with`] refuses an edit whose answer is a locked
    /// option. Its name, its notes and its place in the order stay free, and so does the site.
    #[must_use]
    pub fn alters(&self) -> Option<usize> {
        match self {
            Self::MoveWaypoint { id, .. }
            | Self::SetRounding { id, .. }
            | Self::RemoveWaypoint { id }
            | Self::Split { id } => Some(id.scheme),
            Self::SetRise { id, .. }
            | Self::SetBend { id, .. }
            | Self::SetFigure { id, .. }
            | Self::ChooseBend { id, .. }
            | Self::LetGo { id }
            | Self::SetShape { id, .. }
            | Self::InsertWaypoint { id, .. } => Some(id.scheme),
            Self::AddRoute { scheme, .. }
            | Self::RemoveRoute { scheme, .. }
            | Self::RenameRoute { scheme, .. }
            | Self::LeadOn { scheme, .. }
            | Self::TurnRound { scheme, .. }
            | Self::Close { scheme, .. }
            | Self::Join { scheme, .. }
            | Self::Branch { scheme, .. }
            | Self::SetHeading { scheme, .. }
            | Self::MoveTogether { scheme, .. }
            | Self::Mirror { scheme, .. }
            | Self::CopyRoute { to: scheme, .. }
            | Self::MirrorPegs { scheme, .. }
            | Self::CopyPegs { scheme, .. }
            | Self::SetPad { scheme, .. }
            | Self::RemoveScheme { scheme }
            | Self::SetWidth { scheme, .. }
            | Self::SetMethod { scheme, .. }
            | Self::SetBuildUp { scheme, .. }
            | Self::SetEdging { scheme, .. } => Some(*scheme),
            Self::AddScheme { .. }
            | Self::MoveScheme { .. }
            | Self::RenameScheme { .. }
            | Self::LockScheme { .. }
            | Self::SetSchemeNotes { .. }
            | Self::SetUnits { .. }
            | Self::SetTitle(_)
            | Self::Site(_)
            | Self::SetRules(_)
            | Self::SetWalk(_)
            | Self::SetSetOut(_)
            | Self::SetTape(_)
            | Self::SetPrices(_)
            | Self::SetCount(_) => None,
        }
    }
}

/// Refuses an edit of the paths of a locked option.
pub(super) fn refuse_locked(plan: &Plan, edit: &Edit) -> Result<(), EditError> {
    let locked = |scheme: &usize| plan.schemes.get(*scheme).is_some_and(|s| s.locked);
    match edit.alters().filter(locked) {
        Some(scheme) => Err(EditError::Locked(scheme)),
        None => Ok(()),
    }
}

/// Adds an option after the others: empty, or a copy, which is not locked.
pub(super) fn add(plan: &mut Plan, copy_of: Option<usize>) -> Result<(), EditError> {
    let scheme = match copy_of {
        None => Scheme::default(),
        Some(of) => {
            let original = plan.scheme_mut(of)?.clone();
            Scheme {
                name: copied(plan, of, &original.name),
                locked: false,
                ..original
            }
        }
    };
    plan.schemes.push(scheme);
    Ok(())
}

/// What a copy is called: as the first, with “copy” and, where that is taken, a number.
fn copied(plan: &Plan, of: usize, name: &str) -> String {
    let called = if name.trim().is_empty() {
        format!("Option {}", letter(of))
    } else {
        name.to_owned()
    };
    let taken = |name: &String| plan.schemes.iter().any(|scheme| scheme.name == *name);
    let mut number = 1_usize;
    loop {
        let name = match number {
            1 => renamed(&called, "copy"),
            _ => renamed(&called, &format!("copy {number}")),
        };
        // One more name than there are options: one of them is free.
        if !taken(&name) || number > plan.schemes.len() {
            return name;
        }
        number += 1;
    }
}

/// Takes an option away, but not the last.
pub(super) fn remove(plan: &mut Plan, scheme: usize) -> Result<(), EditError> {
    plan.scheme_mut(scheme)?;
    if plan.schemes.len() == 1 {
        return Err(EditError::LastScheme);
    }
    plan.schemes.remove(scheme);
    Ok(())
}

/// Moves an option in the order; the others close up.
pub(super) fn shift(plan: &mut Plan, scheme: usize, to: usize) -> Result<(), EditError> {
    plan.scheme_mut(scheme)?;
    plan.scheme_mut(to)?;
    let moved = plan.schemes.remove(scheme);
    plan.schemes.insert(to, moved);
    Ok(())
}
