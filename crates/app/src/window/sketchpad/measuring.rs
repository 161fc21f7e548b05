//! What stands on the site: chosen, drawn, taken away.

use std::sync::Arc;

use plan::Edit;
use plan::edit::SiteEdit;

use super::Sketchpad;
use crate::window::action::Action;
use crate::window::mode::Mode;
use crate::window::pick::Stage;
use crate::window::site::{Part, SiteAsk, SitePick, Thing};
use crate::window::words;

impl Sketchpad {
    /// Whether a key means an action now: while a length is typed on the plan, letters belong to
    /// it, and a minus sign always does while something is drawn.
    pub(super) fn hears(&self, action: Action) -> bool {
        let Mode::Sketch(sketch) = &self.mode else {
            return true;
        };
        action != Action::Farther && (sketch.typed.is_empty() || !action.entry().yields_to_typing)
    }

    pub(super) fn carry_out_site(&mut self, ask: SiteAsk) {
        match ask {
            SiteAsk::Choose(pick) => {
                if self.site != pick {
                    self.slip.typing.forget();
                }
                self.site = pick;
            }
            SiteAsk::Add(edit) => self.add_to_site(edit),
            SiteAsk::TakeOut => self.take_out_of_site(),
        }
    }

    /// One thing drawn is one step back; then it is chosen.
    fn add_to_site(&mut self, edit: SiteEdit) {
        let is_mark = matches!(edit, SiteEdit::AddMark(_));
        let count = |pad: &Self| {
            let site = &pad.history.settled().site;
            (site.obstacles.len(), site.marks.len())
        };
        let before = count(self);
        self.carry_out_edit(&Edit::Site(edit));
        if count(self) == before {
            return; // refused: the sentence says why, and the hand may try again
        }
        let thing = if is_mark {
            Thing::Mark(before.1)
        } else {
            Thing::Obstacle(before.0)
        };
        self.mode = Mode::Choose;
        self.stage = Stage::Measure;
        self.slip.typing.forget();
        self.site = Some(SitePick::whole(thing));
        // A mark is known by its name alone: it is named at once.
        self.slip.typing.focus_first = is_mark;
    }

    fn take_out_of_site(&mut self) {
        let Some(pick) = self.site else { return };
        let plan = self.history.settled();
        if let Some((_, obstacle)) = pick.obstacle(plan).filter(|(_, o)| o.still) {
            let sentence = words::site::holds_still(obstacle);
            self.tell_wrong(&sentence);
            return;
        }
        let edit = match (pick.thing, pick.part) {
            (Thing::Mark(mark), _) => SiteEdit::RemoveMark { mark },
            (Thing::Obstacle(obstacle), Part::Corner(corner)) => {
                SiteEdit::RemoveCorner { obstacle, corner }
            }
            (Thing::Obstacle(obstacle), Part::Whole | Part::Side(_)) => {
                SiteEdit::RemoveObstacle { obstacle }
            }
        };
        let whole = !matches!(edit, SiteEdit::RemoveCorner { .. });
        let before = Arc::clone(self.history.settled());
        self.carry_out_edit(&Edit::Site(edit));
        if whole && !Arc::ptr_eq(&before, self.history.settled()) {
            self.site = None;
        }
    }

    /// After an edit, undo or redo what was chosen of the site may be gone.
    pub(super) fn keep_site_pick_valid(&mut self) {
        let plan = self.history.settled();
        self.site = self.site.and_then(|pick| {
            let whole = SitePick::whole(pick.thing);
            [pick, whole].into_iter().find(|pick| pick.is_in(plan))
        });
    }
}
