//! Going through the steps of setting out: keys, and what is in sight.

use egui::{Context, EventFilter, Key, Modifiers};

use super::Sketchpad;
use crate::window::derived::Derived;
use crate::window::intent::Intent;
use crate::window::pick::{Picked, Stage};

impl Sketchpad {
    /// What the keys ask for at the stage Set out, taken before anything else hears them.
    ///
    /// They stay with a field that is typed in and with the strip along the path.
    pub(super) fn hear_steps(&self, ctx: &Context) -> Option<Intent> {
        if self.stage != Stage::SetOut
            || ctx.text_edit_focused()
            || self.strip.open && self.strip.has_keys
        {
            return None;
        }
        // Left and right go through the steps, not from button to button.
        if let Some(id) = ctx.memory(egui::Memory::focused) {
            let arrows = EventFilter {
                horizontal_arrows: true,
                ..EventFilter::default()
            };
            ctx.memory_mut(|memory| memory.set_focus_lock_filter(id, arrows));
        }
        let begun = self.step.is_some();
        let (on, back, first, last, leave) = ctx.input_mut(|input| {
            let mut times = |key| input.count_and_consume_key(Modifiers::NONE, key);
            let (on, back) = (times(Key::ArrowRight), times(Key::ArrowLeft));
            let mut pressed = |key| begun && times(key) > 0;
            let ends = (pressed(Key::Home), pressed(Key::End));
            (on, back, ends.0, ends.1, pressed(Key::Escape))
        });
        let step = match self.step {
            _ if leave => return Some(Intent::Step(None)),
            _ if first => 0,
            _ if last => usize::MAX,
            Some(step) if on + back > 0 => (step + on).saturating_sub(back),
            None if on > 0 => 0,
            _ => return None,
        };
        Some(Intent::Step(Some(step)))
    }

    /// Turns to a step, the last one at most, and brings it into sight; or leaves the steps.
    pub(super) fn turn_to_step(&mut self, derived: &Derived, step: Option<usize>) {
        let rehearsal = step.and_then(|_| derived.rehearsal());
        let Some((step, rehearsal)) = step.zip(rehearsal).filter(|(_, r)| r.count() > 0) else {
            self.step = None;
            return;
        };
        let step = step.min(rehearsal.last());
        self.step = Some(step);
        if let Some(of) = rehearsal.bend(step) {
            self.pick.part = Some(Picked::from(of));
        }
        if let Some(room) = rehearsal.room(step) {
            self.canvas.show(room);
        }
    }

    /// The step that is gone through: after an edit there may be fewer.
    pub(super) fn step_now(&self, derived: &Derived) -> Option<usize> {
        let step = self.step.filter(|_| self.stage == Stage::SetOut)?;
        Some(step.min(derived.rehearsal()?.last()))
    }
}
