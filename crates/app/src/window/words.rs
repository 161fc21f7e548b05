//! Every sentence the window shows: sentence case, no stop after a single sentence, an ellipsis when a question follows.
#![expect(missing_docs, reason = "each sentence says what it is")]

pub mod compare;
pub mod count;

/// Name of the program, as on the window.
pub const PROGRAM: &str = "Pegbow";

/// A plan without a title.
pub const UNTITLED: &str = "Untitled plan";

/// After undo.
#[must_use]
pub fn undone(name: &str) -> String {
    format!("Taken back: {name}")
}

/// After redo.
#[must_use]
pub fn redone(name: &str) -> String {
    format!("Made again: {name}")
}

/// Why an edit is refused, in the plan's units.
#[must_use]
pub fn refused(error: &plan::edit::EditError, ruler: &plan::units::Ruler) -> String {
    match error {
        plan::edit::EditError::NoBend(_, why) => plan::refusal::sentence(why, ruler),
        other => other.to_string(),
    }
}

/// A name where there is little room: of a long one its first words.
#[must_use]
pub fn short(name: &str) -> String {
    const MOST: usize = 40;
    match name.char_indices().nth(MOST) {
        Some((end, _)) => {
            let part = &name[..end];
            // Rather a whole word less than a part of one.
            let word = part.rfind(' ').filter(|word| *word > end / 2);
            format!("{}…", part[..word.unwrap_or(end)].trim_end())
        }
        None => name.to_owned(),
    }
}

/// How many findings there are besides those listed.
#[must_use]
pub fn more_findings(more: usize) -> String {
    format!("And {more} more, which show when these are put right")
}

/// A sentence begins with a capital.
#[must_use]
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

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
    pub const LAY: &str = "Lay a new path";
    pub const LAY_TIP: &str = "Lay a path peg by peg with clicks on the plan";
    pub const MEASURE: &str = "Measure a distance";
    pub const MEASURE_TIP: &str = "Measure between any two places";
    pub const ALONG: &str = "Along the path";
    pub const ALONG_TIP: &str = "Show how the path is all along it, or put that away";
    pub const ALL: &str = "All pegs";
    pub const ALL_TIP: &str = "Choose all pegs of the path together";
    pub const LARGER: &str = "Larger type";
    pub const LARGER_TIP: &str = "Make all type and handles larger";
    pub const SMALLER: &str = "Smaller type";
    pub const SMALLER_TIP: &str = "Make all type and handles smaller";
    pub const SHOW: &str = "Show the client";
    pub const SHOW_TIP: &str = "Show the chosen option over the whole window";
    pub const PICTURE: &str = "Save a picture…";
    pub const PICTURE_TIP: &str =
        "Save the chosen option as a picture, in pixels (.png) or in lines (.svg)";
    pub const BUILD_UP: &str = "Own build-up…";
    pub const BUILD_UP_TIP: &str = "Build the chosen option up as a file of your own says";
    pub const OPEN_PRICES: &str = "Open a price list…";
    pub const OPEN_PRICES_TIP: &str = "Take the prices of this plan from the list you keep";
    pub const SAVE_PRICES: &str = "Save the price list…";
    pub const SAVE_PRICES_TIP: &str = "Keep the prices of this plan for the next job";
    pub const ORDER_LIST: &str = "Order list…";
    pub const ORDER_PAGES: &str = "Order list to print…";
    pub const ORDER_PAGES_TIP: &str = "Write what the chosen option needs as pages (.pdf)";
    pub const CLIENT_PAGE: &str = "Page for the client…";
    pub const CLIENT_PAGE_TIP: &str =
        "Write the options, four at most, on one page to leave behind (.pdf)";
    pub const ORDER_LIST_TIP: &str = "Write what the chosen option needs as a table (.csv)";
    pub const KEYS: &str = "Keys";
    pub const KEYS_TIP: &str = "Show which keys do what";
}

/// Questions about files.
pub mod files {
    pub const OPEN: &str = "Open a plan";
    pub const SAVE: &str = "Save the plan";
    pub const SHEET: &str = "Write the sheet";
    pub const PICTURE: &str = "Save a picture";
    pub const BUILD_UP: &str = "Open a build-up";
    pub const OPEN_PRICES: &str = "Open a price list";
    pub const SAVE_PRICES: &str = "Save the price list";
    pub const ORDER: &str = "Write the order list";
    pub const BUILD_UP_KIND: &str = "Build-up";
    pub const PRICES_KIND: &str = "Price list";
    pub const ORDER_KIND: &str = "Table";
    pub const PLAN_KIND: &str = "Pegbow plan";
    pub const ORDER_PAGES: &str = "Write the order list";
    pub const CLIENT_PAGE: &str = "Write the client's page";
    pub const SHEET_KIND: &str = "PDF";
    pub const PICTURE_KIND: &str = "Picture";
    pub const NO_DIALOG: &str =
        "This desktop offers no file window, so type where the file is or is to go";
}

/// Laying a path and measuring, in one line each.
pub mod lay {
    pub const FIRST: &str = "Click where the path starts";
    pub const NEXT: &str =
        "Click where the next peg goes; Enter or a double click ends; Alt lets go of all holds";
    pub const MEASURE_FROM: &str = "Click where to measure from";
    pub const MEASURE_TO: &str = "Click where to measure to";
    pub const MEASURE_AGAIN: &str = "Click to measure again, Esc to put the tape away";
    pub const EMPTY: &str = "This plan is empty: press “Lay a new path” and click where it starts";
}

/// What stands on the site: drawn, chosen, moved.
pub mod site {
    use plan::document::Obstacle;

    pub const EMPTY: &str =
        "Nothing stands here yet: press a word, then click its corners on the plan";
    pub const CHOOSE: &str = "Click a thing on the plan or in the list to see its figures";
    pub const FIRST: &str = "Click its first corner";
    pub const NEXT: &str = "Click its next corner, or type a length and press Enter or an arrow key; Enter ends it, Backspace takes a corner back, Alt lets go of all holds";
    pub const NEXT_OR_CLOSE: &str = "Click its next corner, or type a length and press Enter or an arrow key; a click on the first corner closes it, Enter ends it, Backspace takes a corner back, Alt lets go of all holds";
    pub const MIDDLE: &str = "Click its middle, or press there and drag its radius";
    pub const RADIUS: &str = "Click its edge, or type its radius and press Enter";
    pub const STEM: &str = "Click the edge of its stem, or type how thick that is and press Enter";
    pub const HINGE: &str = "Click its hinge post";
    pub const LATCH: &str = "Click its latch post, or type its width and press Enter";
    pub const MARK: &str = "Click where the mark is, or type how far east; how far north";
    pub const WHERE_FIRST: &str =
        "type how far east and how far north, with a semicolon between: 3.2; 1.5";
    pub const WHICH_WAY: &str =
        "point the way with the pointer and press Enter, or press an arrow key";

    #[must_use]
    pub fn typed(text: &str) -> String {
        format!("Typed: {text}")
    }

    #[must_use]
    pub fn stem(across: &str, roots: &str) -> String {
        format!("stem {across} across, roots to {roots}")
    }

    #[must_use]
    pub fn holds_still(obstacle: &Obstacle) -> String {
        format!(
            "{} holds still: let it go on the slip to change its place",
            super::capital(&short_name(obstacle))
        )
    }

    /// What to call it in a sentence: its name in quotes, a long one cut short, or its kind.
    #[must_use]
    pub fn short_name(obstacle: &Obstacle) -> String {
        match obstacle.name.trim() {
            "" => obstacle.called(),
            name => format!("“{}”", super::short(name)),
        }
    }
}

/// Setting out: the steps, the ways, what it has to go by.
pub mod set_out {
    use plan::document::{Spacing, Surface, TapeClass};
    use plan::setout::Effort;
    use plan::units::Ruler;

    pub const NOTHING: &str = "There is nothing to set out yet";
    pub const LONG: &str = "This path is long: working out how it is set out takes a while";
    pub const WORK_OUT: &str = "Work it out";
    pub const CHOOSE: &str = "Click a bend on the plan to see the ways to set it out";
    pub const SETTINGS: &str = "How it is set out";
    pub const BEGIN: &str = "Go through the steps";
    pub const BEGIN_AT_BEND: &str = "From this bend on";
    pub const BEGIN_TIP: &str = "One step after the other on the plan (Right)";
    pub const BACK: &str = "Step back";
    pub const BACK_TIP: &str = "The step before (Left)";
    pub const NEXT: &str = "Next step";
    pub const NEXT_TIP: &str = "The step after (Right)";
    pub const FIRST: &str = "First step";
    pub const FIRST_TIP: &str = "Back to the first step (Home)";
    pub const LAST: &str = "Last step";
    pub const LAST_TIP: &str = "On to the last step (End)";
    pub const LEAVE: &str = "Leave the steps";
    pub const LEAVE_TIP: &str = "Back to the ways of setting out (Esc)";
    pub const LOOK_TIP: &str = "Look at this way on the plan";
    pub const TAKEN: &str = "taken";
    pub const TAKE_IT: &str = "Set it out this way";
    pub const YOUR_CHOICE: &str = "This way is your choice";
    pub const LEAVE_IT: &str = "Leave the choice to Pegbow";
    pub const BEST: &str = "This way takes the least of those that can be gone here";

    #[must_use]
    pub fn steps_in_all(count: usize) -> String {
        match count {
            1 => "One step in all".to_owned(),
            count => format!("{count} steps in all, each drawn on the plan"),
        }
    }

    #[must_use]
    pub fn step_of(step: usize, count: usize) -> String {
        format!("Step {step} of {count}")
    }

    #[must_use]
    pub fn effort(effort: &Effort, ruler: &Ruler) -> String {
        let people = match effort.people {
            1 => "one person".to_owned(),
            people => format!("{people} people"),
        };
        format!(
            "{} pulls of the tape, the longest {}, with {people}",
            effort.pulls,
            ruler.text(effort.longest_pull)
        )
    }

    #[must_use]
    pub fn error(error: f64, tolerance: f64, ruler: &Ruler) -> String {
        let (error, tolerance) = (ruler.text(error), ruler.text(tolerance));
        format!("The line is expected within {error} of the drawn one; {tolerance} is allowed")
    }

    pub const SHOW_TRUST: &str = "Draw how far each peg may be out";

    #[must_use]
    pub fn pegs_out(worst: &str, far: &str) -> String {
        format!("Driven from the marks, {worst} may be out the most: {far}, 95 times of 100")
    }

    #[must_use]
    pub fn truer(change: &str) -> String {
        format!("What would help most: {change}")
    }

    #[must_use]
    pub fn surface(surface: Surface) -> &'static str {
        match surface {
            Surface::LooseGravel => "Gravel without edges",
            Surface::EdgedGravel => "Gravel between edgings",
            Surface::Brick => "Brick or pavers",
            Surface::Concrete => "Concrete",
            Surface::Flags => "Flags",
        }
    }

    #[must_use]
    pub fn tape_class(class: TapeClass) -> &'static str {
        match class {
            TapeClass::One => "EU class I, the truest",
            TapeClass::Two => "EU class II, good steel",
            TapeClass::Three => "EU class III, or no mark",
            TapeClass::Imperial => "British, in feet, older",
            TapeClass::Handbook44 => "American steel, in feet",
        }
    }

    #[must_use]
    pub fn spacing(spacing: &Spacing) -> &'static str {
        match spacing {
            Spacing::Usual => "as far apart as is usual",
            Spacing::Every(_) => "every so far",
            Spacing::Bow(_) => "by the bow between them",
        }
    }
}

/// Bends with clean figures.
pub mod clean {
    pub const TITLE: &str = "Take clean figures";
    pub const LATER: &str = "These follow once the hand lets go";
    pub const NONE: &str = "Nothing near has cleaner figures than this bend";
    pub const TAKE: &str = "Take this bend";

    #[must_use]
    pub fn take(nth: usize) -> String {
        format!("Take offer {nth}")
    }
}

/// What keys and the hand do besides the actions, for the map of keys.
pub mod keys {
    pub const CLOSE: &str = "Close the map";
    pub const BY_HAND: [(&str, &str); 20] = [
        ("Tab", "Go to the next handle, field or button"),
        ("Arrow keys", "Move the handle by one division of the tape"),
        (
            "Enter",
            "From a handle to its figures; in a field, set the figure",
        ),
        (
            "Left and right in the strip",
            "Go along the path by one division of its scale, with Shift by a tenth",
        ),
        (
            "Left and right at Set out",
            "Go through the steps of setting out one by one",
        ),
        (
            "Home, End, Esc among the steps",
            "To the first step, to the last, leave the steps",
        ),
        (
            "Arrow keys, 1 to 9 before a client",
            "Turn to another option; Esc leaves",
        ),
        (
            "Space before a client",
            "Walk along the path, or stand still",
        ),
        ("Delete", "Take the chosen peg, corner or thing out"),
        ("Esc", "Give up a drag, a figure, laying or measuring"),
        ("Alt while dragging", "Let go of all holds"),
        (
            "Shift and a click, Shift+Space",
            "Choose several pegs together",
        ),
        ("Double click on a leg", "Put a peg there"),
        ("Double click or Enter", "End the path that is being laid"),
        (
            "S, B, O while laying",
            "The next leg is a straight, a bend, an onward bend",
        ),
        (
            "W, B, D, P, R, T while measuring",
            "Draw a wall, a building, a bed, a pond, a round pond, a tree",
        ),
        (
            "S, Y, G, K while measuring",
            "Draw a service, a boundary, a gate, a mark",
        ),
        (
            "A length, then Enter or an arrow",
            "While drawing: the next side has that length, towards the pointer or that way",
        ),
        (
            "Insert, or a double click on a side",
            "Put a corner on the side of a thing",
        ),
        ("Wheel or two fingers", "Show less or more of the plan"),
    ];
}

/// Saving, opening, writing the sheet.
pub mod errands {
    use std::path::Path;

    use crate::files::shown;
    use crate::window::dialog::Question;

    pub const UNSAVED: &str = "This plan has changes that are not saved";
    pub const SAVE_FIRST: &str = "Save them first";
    pub const GIVE_UP: &str = "Give them up";
    pub const KEEP_WORKING: &str = "Keep working";
    pub const CANCEL: &str = "Cancel";
    pub const REPLACE: &str = "Replace it";
    pub const REPLACES: &str = "There is such a file already";
    pub const SHEET_OVER_PLAN: &str =
        "That is the plan’s own file: give the sheet another name, ending in .pdf";
    pub const PICTURE_OVER_PLAN: &str =
        "A picture is not written over the plan: give it another name";
    pub const NO_SUCH_PICTURE: &str = "A picture is saved to a name that ends in .png or .svg";
    pub const NOTHING_TO_SHOW: &str = "There is no option to show: add one first";

    pub fn where_to(question: &Question) -> &'static str {
        match question {
            Question::Open { .. } => "Type where the plan is",
            Question::Save { .. } => "Type where the plan is to be saved",
            Question::Sheet { .. } => "Type where the sheet is to be written",
            Question::OrderPages { .. } => "Type where the order list is to be written: .pdf",
            Question::ClientPage { .. } => "Type where the client's page is to be written: .pdf",
            Question::Picture { .. } => {
                "Type where the picture goes: .png in pixels, .svg in lines"
            }
            Question::BuildUp { .. } => "Type where the build-up is",
            Question::OpenPrices { .. } => "Type where the price list is",
            Question::SavePrices { .. } => "Type where the price list is to be saved",
            Question::Order { .. } => "Type where the order list is to be written: .csv",
        }
    }

    pub fn go(question: &Question) -> &'static str {
        match question {
            Question::Open { .. } => "Open it",
            Question::Save { .. } => "Save it",
            Question::Sheet { .. } | Question::OrderPages { .. } | Question::ClientPage { .. } => {
                "Write it"
            }
            Question::Picture { .. } | Question::SavePrices { .. } => "Save it",
            Question::BuildUp { .. } | Question::OpenPrices { .. } => "Open it",
            Question::Order { .. } => "Write it",
        }
    }

    pub fn saved(path: &Path) -> String {
        format!("Saved as {}", shown(path))
    }

    pub fn wrote(path: &Path) -> String {
        format!("The sheet is written to {}", shown(path))
    }

    pub const OVER_PLAN: &str = "That is the plan’s own file: give another name";
    pub const NOTHING_TO_ORDER: &str =
        "There is nothing to order yet: draw a path, and choose at Count what it is built of";

    pub fn prices_saved(path: &Path) -> String {
        format!("The price list is saved as {}", shown(path))
    }

    pub fn ordered(path: &Path) -> String {
        format!("The order list is written to {}", shown(path))
    }

    pub fn taken_from(path: &Path) -> String {
        format!("Taken from {}", shown(path))
    }

    pub fn drew(path: &Path) -> String {
        format!("The picture is saved as {}", shown(path))
    }
}

/// Three hints for the first run.
pub mod hints {
    pub const ALL: [&str; 3] = [
        "1.  Drag a peg (square) or an apex (triangle), and the figures follow",
        "2.  Type over any figure on the slip, as you would say it: 4.2m or 13' 9\"",
        "3.  Turn to Set out at the foot and write the sheet that goes outside",
    ];
    pub const CLOSE: &str = "Close these hints";
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

/// Why a peg is held where it is, while it is moved or laid.
pub(crate) mod guides {
    use crate::window::canvas::guide::{Side, Spot, Why};

    pub(crate) fn sentence(why: &Why) -> String {
        match why {
            Why::AtMark(name) => format!("at {}", the(name)),
            Why::AtPeg(peg, None) => format!("at {}", spot(*peg)),
            Why::AtPeg(peg, Some(path)) => format!("at {} of {}", spot(*peg), super::short(path)),
            Why::AtCorner(name) => format!("at a corner of {}", the(name)),
            Why::AtEnd(name) => format!("at the end of {}", the(name)),
            Why::Level(peg) => format!("level with {}", spot(*peg)),
            Why::Above(peg) => format!("straight above {}", spot(*peg)),
            Why::Below(peg) => format!("straight below {}", spot(*peg)),
            Why::Between(one, other) => {
                format!("in line with {} and {}", spot(*one), spot(*other))
            }
            Why::SquareSide => "square to the side beside it".into(),
            Why::InLine => "in line with the side beside it".into(),
            Why::Square(Side::Before) => "square to the leg before".into(),
            Why::Square(Side::After) => "square to the leg after".into(),
            Why::Smooth(Side::Before) => "runs on smoothly from the leg before".into(),
            Why::Smooth(Side::After) => "runs on smoothly into the leg after".into(),
            Why::Heading(Side::Before) => "leaves in the direction asked for".into(),
            Why::Heading(Side::After) => "arrives in the direction asked for".into(),
            Why::OnLine(name) => format!("on the line of {}", the(name)),
            Why::OnMarks(one, other) => {
                format!("on the line from {} to {}", the(one), the(other))
            }
            Why::Graduation(graduation) => format!("length to {}", graduation.label()),
        }
    }

    fn spot(spot: Spot) -> String {
        match spot {
            Spot::Peg(number) => format!("peg {number}"),
            Spot::Corner(number) => format!("corner {number}"),
            Spot::Start => "the peg before".into(),
            Spot::Before => "where it stood".into(),
        }
    }

    /// A name in a sentence: `the west gate post`, but `Gate 3`, which is a name of its own.
    fn the(name: &str) -> String {
        let name = super::short(name);
        let plain = name.chars().next().is_some_and(char::is_lowercase);
        if plain && !name.starts_with("the ") {
            format!("the {name}")
        } else {
            name
        }
    }
}
