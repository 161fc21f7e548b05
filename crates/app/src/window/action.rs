//! What the person can ask for by key or button: one table with name, tip and keys.

use egui::{Context, Key, KeyboardShortcut, Modifiers};

use super::words::actions as words;

/// Something asked for by a key or a button. What is done to the plan by hand is not among them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Action {
    /// Begin an empty plan.
    New,
    /// Open a plan from a file.
    Open,
    /// Save to the plan's own file.
    Save,
    /// Save to another file.
    SaveAs,
    /// Take back the last change.
    Undo,
    /// Make it again.
    Redo,
    /// Write the sheet as a PDF.
    Sheet,
    /// Show all of the plan.
    Fit,
    /// Show less of the plan, larger.
    Closer,
    /// Show more of the plan, smaller.
    Farther,
    /// Lay a new path.
    Lay,
    /// Measure between two places.
    Measure,
    /// Open or close the strip along the path.
    Along,
    /// Choose all pegs of the path.
    All,
    /// Make all type and handles larger.
    Larger,
    /// Make them smaller.
    Smaller,
    /// Show the chosen option to a client.
    Show,
    /// Save the chosen option as a picture.
    Picture,
    /// Build the chosen option up as a file says.
    BuildUp,
    /// Open the price list that is kept between jobs.
    OpenPrices,
    /// Save it.
    SavePrices,
    /// Write the order list as a table.
    OrderList,
    /// Write the order list as a PDF.
    OrderPages,
    /// Write the client's page.
    ClientPage,
    /// Show which keys do what.
    Keys,
}

/// How an action is shown and asked for.
#[derive(Clone, Copy, Debug)]
pub struct Entry {
    /// The action.
    pub action: Action,
    /// As written on a button.
    pub name: &'static str,
    /// What it does, in a sentence.
    pub tip: &'static str,
    /// Keys that ask for it; the first is the one shown.
    pub keys: &'static [KeyboardShortcut],
    /// Whether its keys belong to a text field while one is typed in.
    pub yields_to_typing: bool,
}

/// All actions. Where one key is part of another's, the longer one stands first, or it would never be heard.
pub const ACTIONS: &[Entry] = &[
    entry(
        Action::SaveAs,
        words::SAVE_AS,
        words::SAVE_AS_TIP,
        &[ctrl_shift(Key::S)],
        false,
    ),
    entry(
        Action::OrderPages,
        words::ORDER_PAGES,
        words::ORDER_PAGES_TIP,
        &[ctrl_shift(Key::L)],
        false,
    ),
    entry(
        Action::ClientPage,
        words::CLIENT_PAGE,
        words::CLIENT_PAGE_TIP,
        &[ctrl_shift(Key::E)],
        false,
    ),
    entry(
        Action::OpenPrices,
        words::OPEN_PRICES,
        words::OPEN_PRICES_TIP,
        &[ctrl_shift(Key::O)],
        false,
    ),
    entry(
        Action::SavePrices,
        words::SAVE_PRICES,
        words::SAVE_PRICES_TIP,
        &[ctrl_shift(Key::P)],
        false,
    ),
    entry(
        Action::Save,
        words::SAVE,
        words::SAVE_TIP,
        &[ctrl(Key::S)],
        false,
    ),
    entry(
        Action::Open,
        words::OPEN,
        words::OPEN_TIP,
        &[ctrl(Key::O)],
        false,
    ),
    entry(
        Action::New,
        words::NEW,
        words::NEW_TIP,
        &[ctrl(Key::N)],
        false,
    ),
    entry(
        Action::Sheet,
        words::SHEET,
        words::SHEET_TIP,
        &[ctrl(Key::P)],
        false,
    ),
    entry(
        Action::Redo,
        words::REDO,
        words::REDO_TIP,
        &[ctrl_shift(Key::Z), ctrl(Key::Y)],
        true,
    ),
    entry(
        Action::Undo,
        words::UNDO,
        words::UNDO_TIP,
        &[ctrl(Key::Z)],
        true,
    ),
    entry(
        Action::Fit,
        words::FIT,
        words::FIT_TIP,
        &[plain(Key::F), plain(Key::Home)],
        true,
    ),
    entry(
        Action::Closer,
        words::CLOSER,
        words::CLOSER_TIP,
        &[plain(Key::Plus), plain(Key::Equals)],
        true,
    ),
    entry(
        Action::Farther,
        words::FARTHER,
        words::FARTHER_TIP,
        &[plain(Key::Minus)],
        true,
    ),
    entry(
        Action::Lay,
        words::LAY,
        words::LAY_TIP,
        &[plain(Key::L)],
        true,
    ),
    entry(
        Action::Measure,
        words::MEASURE,
        words::MEASURE_TIP,
        &[plain(Key::M)],
        true,
    ),
    entry(
        Action::Along,
        words::ALONG,
        words::ALONG_TIP,
        &[plain(Key::A)],
        true,
    ),
    entry(
        Action::All,
        words::ALL,
        words::ALL_TIP,
        &[ctrl(Key::A)],
        true,
    ),
    entry(
        Action::Larger,
        words::LARGER,
        words::LARGER_TIP,
        &[ctrl(Key::Plus), ctrl(Key::Equals)],
        false,
    ),
    entry(
        Action::Smaller,
        words::SMALLER,
        words::SMALLER_TIP,
        &[ctrl(Key::Minus)],
        false,
    ),
    entry(
        Action::Show,
        words::SHOW,
        words::SHOW_TIP,
        &[plain(Key::C)],
        true,
    ),
    entry(
        Action::Picture,
        words::PICTURE,
        words::PICTURE_TIP,
        &[ctrl(Key::E)],
        false,
    ),
    entry(
        Action::BuildUp,
        words::BUILD_UP,
        words::BUILD_UP_TIP,
        &[ctrl(Key::B)],
        false,
    ),
    entry(
        Action::OrderList,
        words::ORDER_LIST,
        words::ORDER_LIST_TIP,
        &[ctrl(Key::L)],
        false,
    ),
    entry(
        Action::Keys,
        words::KEYS,
        words::KEYS_TIP,
        &[plain(Key::F1), plain(Key::Questionmark)],
        true,
    ),
];

impl Action {
    /// Its row in the table.
    #[must_use]
    pub fn entry(self) -> &'static Entry {
        ACTIONS
            .iter()
            .find(|entry| entry.action == self)
            .unwrap_or(&ACTIONS[0]) // a test sees to it that every action has a row
    }

    /// What was asked for by key since the last frame, the keys taken so that nothing else hears them.
    ///
    /// While a text field has the keyboard, letters and its own undo stay with it.
    pub fn pressed(ctx: &Context) -> Vec<Self> {
        let typing = ctx.text_edit_focused();
        ctx.input_mut(|input| {
            ACTIONS
                .iter()
                .filter(|entry| !(typing && entry.yields_to_typing))
                .filter(|entry| entry.keys.iter().any(|keys| input.consume_shortcut(keys)))
                .map(|entry| entry.action)
                .collect()
        })
    }
}

impl Entry {
    /// The tip with the key that does the same, as the operating system writes it.
    #[must_use]
    pub fn tip_with_key(&self, ctx: &Context) -> String {
        match self.keys.first() {
            Some(keys) => format!("{} ({})", self.tip, ctx.format_shortcut(keys)),
            None => self.tip.to_owned(),
        }
    }
}

const fn entry(
    action: Action,
    name: &'static str,
    tip: &'static str,
    keys: &'static [KeyboardShortcut],
    yields_to_typing: bool,
) -> Entry {
    Entry {
        action,
        name,
        tip,
        keys,
        yields_to_typing,
    }
}

const fn plain(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::NONE, key)
}

const fn ctrl(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::COMMAND, key)
}

const fn ctrl_shift(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::COMMAND.plus(Modifiers::SHIFT), key)
}

#[cfg(test)]
mod tests {
    use super::*;

    const CTRL: Modifiers = Modifiers {
        alt: false,
        ctrl: true,
        shift: false,
        mac_cmd: false,
        command: true,
    };

    #[track_caller]
    fn check(modifiers: Modifiers, key: Key, expected: &[Action]) {
        let ctx = Context::default();
        let input = egui::RawInput {
            events: vec![
                egui::Event::ModifiersChanged(modifiers),
                egui::Event::Key {
                    key,
                    physical_key: None,
                    pressed: true,
                    repeat: false,
                    modifiers,
                },
            ],
            ..egui::RawInput::default()
        };
        let mut heard = Vec::new();
        let mut output = ctx.run_ui(input, |ui| heard.extend(Action::pressed(ui.ctx())));
        output.textures_delta.clear();
        assert_eq!(heard, expected, "{modifiers:?} {key:?}");
    }

    #[test]
    fn keys_ask_for_one_thing_each() {
        let shift = CTRL.plus(Modifiers::SHIFT);
        check(CTRL, Key::S, &[Action::Save]);
        check(shift, Key::S, &[Action::SaveAs]);
        check(CTRL, Key::Z, &[Action::Undo]);
        check(shift, Key::Z, &[Action::Redo]);
        check(CTRL, Key::Y, &[Action::Redo]);
        check(CTRL, Key::O, &[Action::Open]);
        check(CTRL, Key::P, &[Action::Sheet]);
        check(shift, Key::O, &[Action::OpenPrices]);
        check(shift, Key::P, &[Action::SavePrices]);
        check(CTRL, Key::L, &[Action::OrderList]);
        check(shift, Key::L, &[Action::OrderPages]);
        check(shift, Key::E, &[Action::ClientPage]);
        check(CTRL, Key::B, &[Action::BuildUp]);
        check(Modifiers::NONE, Key::F, &[Action::Fit]);
        check(Modifiers::NONE, Key::Home, &[Action::Fit]);
        check(Modifiers::NONE, Key::Plus, &[Action::Closer]);
        check(Modifiers::SHIFT, Key::Plus, &[Action::Closer]);
        check(CTRL, Key::Plus, &[Action::Larger]);
        check(CTRL, Key::Minus, &[Action::Smaller]);
        check(Modifiers::NONE, Key::F1, &[Action::Keys]);
        check(Modifiers::NONE, Key::A, &[Action::Along]);
        check(CTRL, Key::A, &[Action::All]);
        check(CTRL, Key::F, &[]);
        check(Modifiers::NONE, Key::S, &[]);
    }

    #[test]
    fn the_table_has_every_action_once_and_no_key_twice() {
        for action in [
            Action::New,
            Action::Open,
            Action::Save,
            Action::SaveAs,
            Action::Undo,
            Action::Redo,
            Action::Sheet,
            Action::Fit,
            Action::Closer,
            Action::Farther,
            Action::Lay,
            Action::Measure,
            Action::Along,
            Action::All,
            Action::Larger,
            Action::Smaller,
            Action::Show,
            Action::Picture,
            Action::BuildUp,
            Action::OpenPrices,
            Action::SavePrices,
            Action::OrderList,
            Action::OrderPages,
            Action::ClientPage,
            Action::Keys,
        ] {
            assert_eq!(action.entry().action, action);
            assert_eq!(ACTIONS.iter().filter(|e| e.action == action).count(), 1);
        }
        let keys: Vec<_> = ACTIONS.iter().flat_map(|e| e.keys).collect();
        for (nth, one) in keys.iter().enumerate() {
            assert!(!keys[nth + 1..].contains(one), "{one:?}");
        }
    }

    #[test]
    fn words_follow_the_house_rules() {
        for entry in ACTIONS {
            for words in [entry.name, entry.tip] {
                assert!(words.starts_with(char::is_uppercase), "{words}");
                assert!(!words.ends_with('.'), "{words}");
            }
        }
    }
}
