//! One figure that can be typed over.

use egui::text::{CCursor, CCursorRange};
use egui::{Key, Response, TextEdit, Ui};

use crate::window::theme;

/// Which figure a field shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Subject {
    /// A figure of the chosen bend.
    Figure(geometry::Figure),
    /// The same, on the plan itself.
    OnPlan(geometry::Figure),
    /// The length of the chosen straight.
    Length,
    /// How far east the chosen waypoint stands.
    East,
    /// How far north the chosen waypoint stands.
    North,
    /// The radius that rounds the chosen corner.
    Rounding,
    /// The width of the path.
    Width,
    /// The title of the plan.
    Title,
    /// The name of the path.
    PathName,
    /// The name of the option.
    SchemeName,
    /// The notes of the option.
    SchemeNotes,
    /// A figure of a landing: which landing, and which figure of it.
    Pad(usize, u8),
    /// A figure of the chosen thing on the site.
    Site(SiteField),
    /// A figure of what is wheeled along.
    Walk(WalkField),
    /// The least radius of an edging that is not on the list.
    Edging,
    /// A figure of how paths are set out.
    SetOut(SetOutField),
    /// A figure of what is counted.
    Count(CountField),
    /// A path to a file.
    Path,
}

/// Which figure of what is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum CountField {
    /// A figure of the build-up, by its place.
    Figure(usize),
    /// A figure of what counting goes by, by its place.
    Setting(usize),
    /// What the skip is called.
    Carrier,
    /// The first price of a need, by its place on the order list.
    Price(usize),
    /// Something about a line of the price list.
    Line(usize, LineField),
    /// What an hour of work costs that has no rate of its own.
    Rate,
    /// The sign of the currency.
    Sign,
    /// Overhead and profit.
    Overhead,
    /// For what turns up.
    Contingency,
    /// What a tax is called.
    TaxName(usize),
    /// The share of a tax.
    TaxShare(usize),
}

/// What about a line of the price list.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LineField {
    /// What one costs.
    Price,
    /// Who sells it.
    Supplier,
    /// The fewest that are sold.
    LeastOrder,
    /// What bringing it costs.
    Delivery,
    /// What a pack is called.
    PackName,
    /// How much a pack holds.
    Holds,
}

/// Which figure of how paths are set out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SetOutField {
    /// How long the tape is.
    Tape,
    /// What the hook adds to a reading.
    Hook,
    /// What the ring adds.
    Ring,
    /// How thick pegs are.
    Peg,
    /// The longest string that is comfortable to swing.
    Comfortable,
    /// The longest that is swung at all.
    Longest,
    /// How far off the edge offset pegs stand.
    OffsetPegs,
    /// How far flags stand apart.
    Apart,
    /// The bow between flags.
    Bow,
}

/// Which figure of what is wheeled along, vehicles and lengths counted from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum WalkField {
    /// The length of a pace.
    Pace,
    /// The name of a vehicle.
    Name(usize),
    /// A length of a vehicle.
    Length(usize, usize),
    /// A length of its trailer.
    Trailer(usize, usize),
}

/// Which figure of the chosen thing on the site, corners counted from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SiteField {
    /// What it is called.
    Name,
    /// What paths keep from it.
    Clearance,
    /// How thick a wall is.
    Thickness,
    /// The radius of a round thing.
    Radius,
    /// The diameter of a stem.
    Stem,
    /// How far roots reach.
    RootZone,
    /// How far a service may lie off its line.
    Unsure,
    /// How far a gate opens.
    Opening,
    /// How far east a corner stands.
    East(usize),
    /// How far north a corner stands.
    North(usize),
    /// The rise of a side.
    SideRise,
}

/// Round the text of a field, in screen points.
const MARGIN: egui::Vec2 = egui::vec2(6.0, 2.0);
/// Room for the caret behind the last letter.
const CARET: f32 = 4.0;

/// The text being typed, and into which field. While nothing is typed a field only shows.
#[derive(Debug, Default)]
pub struct Typing {
    now: Option<(Subject, String)>,
    /// Put the keyboard into the first field shown next.
    pub focus_first: bool,
}

/// A text that was typed and confirmed.
pub struct Typed {
    /// The text.
    pub text: String,
    /// Confirmed with Enter, rather than by going elsewhere.
    pub entered: bool,
}

impl Typing {
    /// The text being typed into a field, if any.
    #[must_use]
    pub fn typed_into(&self, subject: Subject) -> Option<&str> {
        self.now
            .as_ref()
            .filter(|(s, _)| *s == subject)
            .map(|(_, text)| text.as_str())
    }

    /// Forgets what is typed.
    pub fn forget(&mut self) {
        self.now = None;
    }

    /// Shows a field: `shown` while nothing is typed. The typed text when it is confirmed.
    ///
    /// Leaving a field without typing changes nothing; Escape forgets what was typed.
    pub fn field(
        &mut self,
        ui: &mut Ui,
        subject: Subject,
        name: &str,
        shown: &str,
        style: egui::TextStyle,
    ) -> Option<Typed> {
        let typed = self.typed_into(subject).map(str::to_owned);
        let mut text = typed.clone().unwrap_or_else(|| shown.to_owned());
        let font = style.resolve(ui.style());
        let wide = ui.fonts_mut(|fonts| {
            let ink = ui.visuals().text_color();
            let mut width = |text: &str| {
                fonts
                    .layout_no_wrap(text.to_owned(), font.clone(), ink)
                    .size()
                    .x
            };
            width(&text).max(width(shown))
        });
        let field = TextEdit::singleline(&mut text)
            .id_salt(subject)
            .font(style)
            .margin(MARGIN)
            .align(egui::Align2::LEFT_CENTER)
            .min_size(egui::vec2(0.0, theme::TARGET))
            .desired_width(wide + 2.0 * MARGIN.x + CARET)
            .char_limit(match subject {
                Subject::Path => 4096,
                Subject::Title
                | Subject::PathName
                | Subject::SchemeName
                | Subject::Walk(WalkField::Name(_))
                | Subject::Site(SiteField::Name) => plan::limits::NAME,
                _ => 200,
            })
            .show(ui);
        let response = field.response;
        let id = response.id;
        ui.ctx()
            .accesskit_node_builder(id, |node| node.set_label(name));
        if std::mem::take(&mut self.focus_first) {
            response.request_focus();
        }
        if response.gained_focus() {
            let mut state = field.state;
            let all = CCursorRange::two(CCursor::default(), CCursor::new(text.chars().count()));
            state.cursor.set_char_range(Some(all));
            state.store(ui.ctx(), id);
        }
        if response.changed() {
            self.now = Some((subject, text.clone()));
        }
        self.confirmed(ui, subject, &response)
    }

    /// Shows a field of several lines; the typed text once it is left. Escape forgets what was typed.
    pub fn lines(
        &mut self,
        ui: &mut Ui,
        subject: Subject,
        name: &str,
        shown: &str,
    ) -> Option<Typed> {
        let typed = self.typed_into(subject).map(str::to_owned);
        let mut text = typed.unwrap_or_else(|| shown.to_owned());
        let field = TextEdit::multiline(&mut text)
            .id_salt(subject)
            .margin(MARGIN)
            .desired_rows(2)
            .desired_width(f32::INFINITY)
            .char_limit(plan::limits::NOTE);
        let response = ui.add(field);
        ui.ctx()
            .accesskit_node_builder(response.id, |node| node.set_label(name));
        if response.changed() {
            self.now = Some((subject, text));
        }
        self.confirmed(ui, subject, &response)
    }

    fn confirmed(&mut self, ui: &Ui, subject: Subject, response: &Response) -> Option<Typed> {
        if !response.lost_focus() {
            return None;
        }
        let (_, text) = self.now.take_if(|(s, _)| *s == subject)?;
        let (escape, entered) = ui.input(|input| {
            (
                input.key_pressed(Key::Escape),
                input.key_pressed(Key::Enter),
            )
        });
        (!escape).then_some(Typed { text, entered })
    }
}

/// The style of a figure in a sentence.
#[must_use]
pub fn figure_style() -> egui::TextStyle {
    theme::figure()
}
