//! Undo and redo: whole plans kept in order, with a preview while the hand is still down.

use std::sync::Arc;

use crate::document::Plan;
use crate::edit::{Edit, EditError, Stopped};

/// The plan as it is now, as it was, and as it was before undo.
///
/// A drag previews on the plan as it was at the press, so a long drag adds no error and letting
/// go of it costs nothing; one commit is one undo step.
#[derive(Clone, Debug)]
pub struct History {
    now: Arc<Plan>,
    preview: Option<Arc<Plan>>,
    saved: Arc<Plan>,
    past: Vec<Step>,
    future: Vec<Step>,
}

#[derive(Clone, Debug)]
struct Step {
    name: String,
    plan: Arc<Plan>,
}

impl History {
    /// A history that starts with this plan, saved as it is.
    #[must_use]
    pub fn new(plan: Plan) -> Self {
        let now = Arc::new(plan);
        Self {
            saved: Arc::clone(&now),
            now,
            preview: None,
            past: Vec::new(),
            future: Vec::new(),
        }
    }

    /// The plan to show: the preview if there is one.
    #[must_use]
    pub fn plan(&self) -> &Arc<Plan> {
        self.preview.as_ref().unwrap_or(&self.now)
    }

    /// The plan without any preview: what would be saved.
    #[must_use]
    pub fn settled(&self) -> &Arc<Plan> {
        &self.now
    }

    /// Shows an edit without keeping it.
    ///
    /// # Errors
    /// As [`Plan::with`]; the picture then stays as it was.
    pub fn preview(&mut self, edit: &Edit) -> Result<Option<Stopped>, EditError> {
        let edited = self.now.with(edit)?;
        self.preview = Some(Arc::new(edited.plan));
        Ok(edited.stopped)
    }

    /// Forgets the preview.
    pub fn cancel(&mut self) {
        self.preview = None;
    }

    /// Carries out an edit as one undo step; an edit that changes nothing is none.
    ///
    /// # Errors
    /// As [`Plan::with`]; nothing is changed then, and any preview is forgotten.
    pub fn commit(&mut self, edit: &Edit) -> Result<Option<Stopped>, EditError> {
        self.preview = None;
        let edited = self.now.with(edit)?;
        if edited.plan != *self.now {
            self.past.push(Step {
                name: edit.name(),
                plan: std::mem::replace(&mut self.now, Arc::new(edited.plan)),
            });
            self.future.clear();
        }
        Ok(edited.stopped)
    }

    /// What undo would take back.
    #[must_use]
    pub fn undo_name(&self) -> Option<&str> {
        self.past.last().map(|step| step.name.as_str())
    }

    /// What redo would bring back.
    #[must_use]
    pub fn redo_name(&self) -> Option<&str> {
        self.future.last().map(|step| step.name.as_str())
    }

    /// Takes back one step; whether there was one.
    pub fn undo(&mut self) -> bool {
        self.preview = None;
        let Some(step) = self.past.pop() else {
            return false;
        };
        self.future.push(Step {
            name: step.name,
            plan: std::mem::replace(&mut self.now, step.plan),
        });
        true
    }

    /// Brings back one step; whether there was one.
    pub fn redo(&mut self) -> bool {
        self.preview = None;
        let Some(step) = self.future.pop() else {
            return false;
        };
        self.past.push(Step {
            name: step.name,
            plan: std::mem::replace(&mut self.now, step.plan),
        });
        true
    }

    /// Whether the plan differs from what was last saved.
    #[must_use]
    pub fn is_unsaved(&self) -> bool {
        !Arc::ptr_eq(&self.now, &self.saved) && self.now != self.saved
    }

    /// Says that this plan has been saved.
    pub fn mark_saved(&mut self, plan: &Arc<Plan>) {
        self.saved = Arc::clone(plan);
    }
}
