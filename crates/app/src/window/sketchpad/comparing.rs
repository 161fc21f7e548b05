//! Comparing options: what is asked about it, and what the keys do before a client.

use egui::{Context, Key, Modifiers};
use geometry::Chain;

use super::Sketchpad;
use crate::window::compare::{CompareAsk, Walk};
use crate::window::intent::Intent;

/// The longest a frame takes in a walk, in seconds: a window that was held up does not leap.
const LONGEST_FRAME: f32 = 0.1;

/// The keys of options.
const NUMBERS: [Key; 9] = [
    Key::Num1,
    Key::Num2,
    Key::Num3,
    Key::Num4,
    Key::Num5,
    Key::Num6,
    Key::Num7,
    Key::Num8,
    Key::Num9,
];

impl Sketchpad {
    /// What the keys ask for while an option is shown to a client, taken before any button hears them.
    pub(super) fn hear_client(&self, ctx: &Context) -> Option<Intent> {
        self.comparing.shown?;
        let ask = ctx.input_mut(|input| {
            let mut pressed = |key| input.consume_key(Modifiers::NONE, key);
            if pressed(Key::Escape) {
                Some(CompareAsk::Leave)
            } else if pressed(Key::Space) {
                Some(CompareAsk::Walk)
            } else if pressed(Key::ArrowRight) || pressed(Key::ArrowDown) {
                Some(CompareAsk::Next { back: false })
            } else if pressed(Key::ArrowLeft) || pressed(Key::ArrowUp) {
                Some(CompareAsk::Next { back: true })
            } else {
                None
            }
        });
        if let Some(ask) = ask {
            return Some(Intent::Compare(ask));
        }
        let count = self.history.settled().schemes.len();
        let number = ctx.input_mut(|input| {
            let mut numbers = NUMBERS.iter();
            numbers.position(|key| input.consume_key(Modifiers::NONE, *key))
        });
        number.filter(|at| *at < count).map(Intent::Scheme)
    }

    /// Walks on while one walks, and asks for the next frame only then.
    pub(super) fn walk_on(&mut self, ctx: &Context) {
        if !self.comparing.shown.is_some_and(|walk| walk.walking) {
            return;
        }
        let length = self.walked_length();
        if let Some(walk) = &mut self.comparing.shown {
            let seconds = ctx.input(|input| input.stable_dt).min(LONGEST_FRAME);
            walk.go_on(f64::from(seconds), length);
            if walk.walking {
                ctx.request_repaint();
            }
        }
    }

    /// The length of the path that is walked.
    fn walked_length(&mut self) -> f64 {
        let solved = self.solved.get(&std::sync::Arc::clone(self.history.plan()));
        let scheme = solved.schemes.get(self.pick.scheme);
        let route = scheme.and_then(|scheme| scheme.routes.get(self.pick.route));
        let line = route.and_then(|route| route.centre_line.as_ref());
        line.map_or(0.0, Chain::length)
    }

    pub(super) fn carry_out_compare(&mut self, ask: CompareAsk) {
        match ask {
            CompareAsk::SideBySide(beside) => self.comparing.side_by_side = beside,
            CompareAsk::Others(others) => self.comparing.others = others,
            CompareAsk::SortBy(criterion) => self.comparing.sort_by(criterion),
            CompareAsk::Axis(axis, criterion) => {
                if let Some(axis) = self.comparing.axes.get_mut(axis) {
                    *axis = criterion;
                }
            }
            CompareAsk::Next { back } => {
                let count = self.history.settled().schemes.len().max(1);
                let step = if back { count - 1 } else { 1 };
                self.turn_to((self.pick.scheme + step) % count, 0);
            }
            CompareAsk::Walk => {
                let length = self.walked_length();
                if let Some(walk) = &mut self.comparing.shown {
                    walk.turn(length);
                }
            }
            CompareAsk::Leave => self.comparing.shown = None,
        }
    }

    /// Shows the chosen option to a client.
    pub(super) fn show_client(&mut self) {
        self.history.cancel();
        self.comparing.shown = Some(Walk::default());
    }
}
