//! Every sentence the window shows: sentence case, no stop after a single sentence, an ellipsis when a question follows.
#![expect(missing_docs, reason = "each sentence says what it is")]

/// Name of the program, as on the window.
pub const PROGRAM: &str = "Pegbow";

/// What the person can ask for, as written on buttons and in tips.
pub mod actions {
    pub const NEW: &str = "New plan";
    pub const NEW_TIP: &str = "Begin an empty plan";
    pub const OPEN: &str = "Open…";
    pub const OPEN_TIP: &str = "Open a plan from a file";
    pub const SAVE: &str = "Save";
    pub const SAVE_TIP: &str = "Save the plan to its file";
    pub const SAVE_AS: &str = "Save as…";
    pub const SAVE_AS_TIP: &str = "Save the plan to another file";
    pub const UNDO: &str = "Undo";
    pub const UNDO_TIP: &str = "Take back the last change";
    pub const REDO: &str = "Redo";
    pub const REDO_TIP: &str = "Make the change again that was taken back";
    pub const SHEET: &str = "Write the sheet…";
    pub const SHEET_TIP: &str = "Write the pages that are taken outside, as a PDF";
    pub const FIT: &str = "Whole plan";
    pub const FIT_TIP: &str = "Show all of the plan";
    pub const CLOSER: &str = "Closer";
    pub const CLOSER_TIP: &str = "Show less of the plan, larger";
    pub const FARTHER: &str = "Farther";
    pub const FARTHER_TIP: &str = "Show more of the plan, smaller";
}

/// Questions about files.
pub mod files {
    pub const OPEN: &str = "Open a plan";
    pub const SAVE: &str = "Save the plan";
    pub const SHEET: &str = "Write the sheet";
    pub const PLAN_KIND: &str = "Pegbow plan";
    pub const SHEET_KIND: &str = "PDF";
    pub const NO_DIALOG: &str =
        "This desktop offers no file window, so type where the file is or is to go";
}

/// Why the window cannot open.
pub mod launch {
    /// Packages of Debian 12 without which an X11 window cannot open, each tried by hand.
    pub const X11_PACKAGES: &str =
        "libx11-6 libx11-xcb1 libxcursor1 libxi6 libxkbcommon-x11-0 libgl1 libgl1-mesa-dri";
    /// The same for Wayland.
    pub const WAYLAND_PACKAGES: &str =
        "libegl1 libgl1-mesa-dri libwayland-client0 libwayland-egl1 libxkbcommon0";
    pub const WITHOUT_WINDOW: &str = "The command line works without a window, see pegbow --help";
}
