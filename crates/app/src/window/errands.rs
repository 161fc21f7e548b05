//! Errands: opening, saving, writing the sheet, closing; with every question they need answered.

mod counting;
mod printing;

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::{Context, Id, Key, Modal, RichText, TextEdit, ViewportCommand};
use plan::{Edit, History, Plan};

use super::action::Action;
use super::dialog::{Answer, Dialog, Question};
use super::pick::Pick;
use super::slip::SheetWish;
use super::theme;
use super::words::errands as words;
use crate::files;
use crate::picture::{Kind, USUAL_WIDE};

/// What is to be done, and what is being asked about it.
#[derive(Debug, Default)]
pub struct Errands {
    /// The plan's own file.
    path: Option<PathBuf>,
    /// The errand under way.
    now: Option<Errand>,
    /// What follows once the plan has been saved or given up.
    then: Option<Errand>,
    dialog: Option<Dialog>,
    field: Option<PathField>,
    asking: Option<Unsaved>,
    /// Never ask the desktop for a file, only in the window itself.
    pub(super) in_window: bool,
    /// The title the window wears.
    pub(super) titled: Option<String>,
}

/// One errand.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Errand {
    New,
    Open(PathBuf),
    AskOpen,
    Save(PathBuf),
    Sheet(PathBuf),
    OrderPages(PathBuf),
    ClientPage(PathBuf),
    Picture(PathBuf),
    BuildUp(PathBuf),
    OpenPrices(PathBuf),
    SavePrices(PathBuf),
    Order(PathBuf),
    Close,
}

/// The question whether to save first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Unsaved;

/// The field for a path, where the desktop has no dialog.
#[derive(Debug)]
struct PathField {
    question: Question,
    text: String,
    /// The file that is there already and would be replaced, once pointed out.
    replaces: Option<PathBuf>,
}

impl PathField {
    fn new(question: Question) -> Self {
        Self {
            text: offered(&question),
            question,
            replaces: None,
        }
    }
}

/// What came of an errand.
pub enum Done {
    /// A plan was opened.
    Opened(Box<Plan>),
    /// This plan was saved, said in a sentence.
    Saved(Arc<Plan>, String),
    /// This was read, said in a sentence: an edit of the plan.
    Read(Box<Edit>, String),
    /// Something was written, said in a sentence.
    Wrote(String),
    /// It failed, said in a sentence.
    Failed(String),
}

impl Errands {
    /// Errands of a plan that came from a file.
    #[must_use]
    pub fn new(path: Option<PathBuf>) -> Self {
        Self {
            path,
            ..Self::default()
        }
    }

    /// Whether a question stands in the window, so that keys belong to it.
    #[must_use]
    pub fn asks_something(&self) -> bool {
        self.asking.is_some() || self.field.is_some()
    }

    /// Begins what an action asks for.
    pub fn start(&mut self, ctx: &Context, action: Action, history: &History) {
        if self.dialog.is_some() || self.asks_something() {
            return;
        }
        match action {
            Action::New => self.guarded(Errand::New, history),
            Action::Open => self.guarded(Errand::AskOpen, history),
            Action::Save => match self.path.clone() {
                Some(path) => self.now = Some(Errand::Save(path)),
                None => self.ask_save(ctx, history.settled()),
            },
            Action::SaveAs => self.ask_save(ctx, history.settled()),
            Action::Sheet => {
                let question = Question::Sheet {
                    folder: self.folder(),
                    name: format!("{}.pdf", self.stem(history.settled())),
                };
                self.ask(question, ctx);
            }
            Action::OrderPages => {
                let question = Question::OrderPages {
                    folder: self.folder(),
                    name: format!("{}-order.pdf", self.stem(history.settled())),
                };
                self.ask(question, ctx);
            }
            Action::ClientPage => {
                let question = Question::ClientPage {
                    folder: self.folder(),
                    name: format!("{}-options.pdf", self.stem(history.settled())),
                };
                self.ask(question, ctx);
            }
            Action::Picture => {
                let question = Question::Picture {
                    folder: self.folder(),
                    name: format!("{}.png", self.stem(history.settled())),
                };
                self.ask(question, ctx);
            }
            Action::BuildUp => {
                let folder = self.folder();
                self.ask(Question::BuildUp { folder }, ctx);
            }
            Action::OpenPrices => {
                let folder = self.folder();
                self.ask(Question::OpenPrices { folder }, ctx);
            }
            Action::SavePrices => {
                let question = Question::SavePrices {
                    folder: self.folder(),
                    name: "prices.ron".to_owned(),
                };
                self.ask(question, ctx);
            }
            Action::OrderList => {
                let question = Question::Order {
                    folder: self.folder(),
                    name: format!("{}.csv", self.stem(history.settled())),
                };
                self.ask(question, ctx);
            }
            // The rest is done at once, by the sketchpad.
            _ => {}
        }
    }

    /// Shows the questions there are.
    pub fn ui(&mut self, ctx: &Context, history: &History) {
        if ctx.input(|input| input.viewport().close_requested())
            && history.is_unsaved()
            && self.now != Some(Errand::Close)
        {
            ctx.send_viewport_cmd(ViewportCommand::CancelClose);
            self.guarded(Errand::Close, history);
        }
        self.unsaved_ui(ctx, history);
        self.field_ui(ctx);
    }

    /// Carries on with what is under way; what came of it.
    pub fn run(
        &mut self,
        ctx: &Context,
        history: &History,
        wished: (Pick, SheetWish),
    ) -> Option<Done> {
        self.take_answer();
        match self.now.take()? {
            Errand::New => {
                self.path = None;
                let units = history.settled().units;
                Some(Done::Opened(Box::new(Plan::empty(units))))
            }
            Errand::AskOpen => {
                let folder = self.folder();
                self.ask(Question::Open { folder }, ctx);
                None
            }
            Errand::Open(path) => Some(match files::read_plan(&path) {
                Ok(plan) => {
                    self.path = Some(path);
                    Done::Opened(Box::new(plan))
                }
                Err(error) => Done::Failed(error.to_string()),
            }),
            Errand::Save(path) => {
                let plan = Arc::clone(history.settled());
                Some(
                    match files::write_atomically(&path, plan::file::write(&plan).as_bytes()) {
                        Ok(()) => {
                            let sentence = words::saved(&path);
                            self.path = Some(path);
                            self.now = self.then.take();
                            ctx.request_repaint();
                            Done::Saved(plan, sentence)
                        }
                        Err(error) => {
                            self.then = None;
                            Done::Failed(error.to_string())
                        }
                    },
                )
            }
            Errand::Sheet(path) => {
                let own = self.path.as_deref();
                let stakeout = sheet::stakeout;
                Some(printing::write_pages(&path, own, history, wished, stakeout))
            }
            Errand::OrderPages(path) => {
                let own = self.path.as_deref();
                let order_list = sheet::order_list;
                Some(printing::write_pages(
                    &path, own, history, wished, order_list,
                ))
            }
            Errand::ClientPage(path) => {
                let own = self.path.as_deref();
                Some(printing::write_client_page(&path, own, history, wished.1))
            }
            Errand::Picture(path) => {
                Some(save_picture(&path, self.path.as_deref(), history, wished.0))
            }
            Errand::BuildUp(path) => Some(counting::read_build_up(&path, wished.0)),
            Errand::OpenPrices(path) => Some(counting::open_prices(&path)),
            Errand::SavePrices(path) => {
                Some(counting::save_prices(&path, self.path.as_deref(), history))
            }
            Errand::Order(path) => {
                let own = self.path.as_deref();
                Some(counting::write_order(&path, own, history, wished.0))
            }
            Errand::Close => {
                // Kept until the window is gone, so that closing is not asked about again.
                self.now = Some(Errand::Close);
                ctx.send_viewport_cmd(ViewportCommand::Close);
                None
            }
        }
    }

    /// Does an errand at once, or asks first what becomes of unsaved changes.
    fn guarded(&mut self, errand: Errand, history: &History) {
        if history.is_unsaved() {
            self.then = Some(errand);
            self.asking = Some(Unsaved);
        } else {
            self.now = Some(errand);
        }
    }

    fn ask_save(&mut self, ctx: &Context, plan: &Plan) {
        let question = Question::Save {
            folder: self.folder(),
            name: format!("{}.ron", self.stem(plan)),
        };
        self.ask(question, ctx);
    }

    /// Asks the desktop, or in the window where that is wished for.
    fn ask(&mut self, question: Question, ctx: &Context) {
        if self.in_window {
            self.field = Some(PathField::new(question));
            ctx.request_repaint();
        } else {
            self.dialog = Some(Dialog::ask(question, ctx));
        }
    }

    fn folder(&self) -> Option<PathBuf> {
        self.path
            .as_deref()
            .and_then(Path::parent)
            .map(Path::to_path_buf)
    }

    /// A file name without its ending: that of the plan's file, or its title.
    fn stem(&self, plan: &Plan) -> String {
        let of_file = self.path.as_deref().and_then(Path::file_stem);
        let name = of_file.map_or_else(
            || plan.title.to_lowercase(),
            |stem| stem.to_string_lossy().into_owned(),
        );
        let plain: String = name
            .chars()
            .map(|c| if c.is_alphanumeric() { c } else { '-' })
            .take(60)
            .collect();
        match plain.trim_matches('-') {
            "" => "plan".to_owned(),
            plain => plain.to_owned(),
        }
    }

    fn take_answer(&mut self) {
        let Some((dialog, answer)) = self
            .dialog
            .as_ref()
            .and_then(|dialog| Some((dialog, dialog.poll()?)))
        else {
            return;
        };
        let question = dialog.question().clone();
        self.dialog = None;
        match answer {
            Answer::Picked(path) => self.now = Some(errand(&question, path)),
            Answer::NothingPicked => self.then = None,
            Answer::NoDialog => self.field = Some(PathField::new(question)),
        }
    }

    fn unsaved_ui(&mut self, ctx: &Context, history: &History) {
        if self.asking.is_none() {
            return;
        }
        let mut answer = None;
        let modal = Modal::new(Id::unique("unsaved")).show(ctx, |ui| {
            ui.set_max_width(360.0);
            ui.label(RichText::new(words::UNSAVED).text_style(theme::strong()));
            ui.add_space(theme::GAP);
            ui.horizontal_wrapped(|ui| {
                for (i, words) in [words::SAVE_FIRST, words::GIVE_UP, words::KEEP_WORKING]
                    .into_iter()
                    .enumerate()
                {
                    let button = ui.button(words);
                    if i == 0 && ui.memory(|memory| memory.focused().is_none()) {
                        button.request_focus();
                    }
                    if button.clicked() {
                        answer = Some(i);
                    }
                }
            });
        });
        if modal.should_close() {
            answer = Some(2);
        }
        match answer {
            Some(0) => {
                self.asking = None;
                match self.path.clone() {
                    Some(path) => self.now = Some(Errand::Save(path)),
                    None => self.ask_save(ctx, history.settled()),
                }
            }
            Some(1) => {
                self.asking = None;
                self.now = self.then.take();
            }
            Some(_) => {
                self.asking = None;
                self.then = None;
            }
            None => {}
        }
        if answer.is_some() {
            ctx.request_repaint();
        }
    }

    fn field_ui(&mut self, ctx: &Context) {
        let Some(field) = &mut self.field else { return };
        let (mut go, mut cancel) = (false, false);
        let modal = Modal::new(Id::unique("path field")).show(ctx, |ui| {
            ui.set_width(420.0_f32.min(ui.ctx().content_rect().width() - 60.0));
            let label = ui.label(words::where_to(&field.question));
            let text = ui
                .add(TextEdit::singleline(&mut field.text).desired_width(f32::INFINITY))
                .labelled_by(label.id);
            // Asked before the field takes the keyboard again, or it would never have lost it.
            go = text.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
            if ui.memory(|memory| memory.focused().is_none()) {
                text.request_focus();
            }
            if text.changed() {
                field.replaces = None;
            }
            if field.replaces.is_some() {
                ui.label(words::REPLACES);
            }
            ui.add_space(theme::GAP);
            ui.horizontal_wrapped(|ui| {
                let word = if field.replaces.is_some() {
                    words::REPLACE
                } else {
                    words::go(&field.question)
                };
                go |= ui.button(word).clicked();
                cancel = ui.button(words::CANCEL).clicked();
            });
        });
        if cancel || modal.should_close() {
            self.field = None;
            self.then = None;
            return;
        }
        let typed = field.text.trim();
        if !go || typed.is_empty() {
            return;
        }
        let path = PathBuf::from(typed);
        let opens = matches!(
            field.question,
            Question::Open { .. } | Question::BuildUp { .. } | Question::OpenPrices { .. }
        );
        let own = self.path.as_deref() == Some(path.as_path());
        if !opens && !own && path.exists() && field.replaces.as_deref() != Some(path.as_path()) {
            field.replaces = Some(path);
            return;
        }
        self.now = Some(errand(&field.question, path));
        self.field = None;
        ctx.request_repaint();
    }
}

fn errand(question: &Question, path: PathBuf) -> Errand {
    match question {
        Question::Open { .. } => Errand::Open(path),
        Question::Save { .. } => Errand::Save(with_ending(path, "ron")),
        Question::Sheet { .. } => Errand::Sheet(with_ending(path, "pdf")),
        Question::OrderPages { .. } => Errand::OrderPages(with_ending(path, "pdf")),
        Question::ClientPage { .. } => Errand::ClientPage(with_ending(path, "pdf")),
        Question::Picture { .. } => Errand::Picture(with_ending(path, "png")),
        Question::BuildUp { .. } => Errand::BuildUp(path),
        Question::OpenPrices { .. } => Errand::OpenPrices(path),
        Question::SavePrices { .. } => Errand::SavePrices(with_ending(path, "ron")),
        Question::Order { .. } => Errand::Order(with_ending(path, "csv")),
    }
}

/// A name typed without an ending gets the usual one.
fn with_ending(path: PathBuf, ending: &str) -> PathBuf {
    if path.extension().is_some() {
        path
    } else {
        path.with_extension(ending)
    }
}

/// What stands in the field to begin with.
fn offered(question: &Question) -> String {
    let here = || std::env::current_dir().unwrap_or_default();
    let path = match question {
        Question::Open { folder }
        | Question::BuildUp { folder }
        | Question::OpenPrices { folder } => folder.clone().unwrap_or_else(here).join(""),
        Question::Save { folder, name }
        | Question::Sheet { folder, name }
        | Question::OrderPages { folder, name }
        | Question::ClientPage { folder, name }
        | Question::SavePrices { folder, name }
        | Question::Order { folder, name }
        | Question::Picture { folder, name } => folder.clone().unwrap_or_else(here).join(name),
    };
    path.to_string_lossy().into_owned()
}

fn save_picture(path: &Path, own: Option<&Path>, history: &History, pick: Pick) -> Done {
    if own.is_some_and(|own| files::is_same_file(own, path)) {
        return Done::Failed(words::PICTURE_OVER_PLAN.to_owned());
    }
    let Some(kind) = Kind::named(path) else {
        return Done::Failed(words::NO_SUCH_PICTURE.to_owned());
    };
    let plan = history.settled();
    let Some(picture) = sheet::option_picture(plan, &plan.solve(), pick.scheme) else {
        return Done::Failed(words::NOTHING_TO_SHOW.to_owned());
    };
    let written = kind
        .bytes(&picture, USUAL_WIDE)
        .map_err(|error| error.to_string())
        .and_then(|bytes| files::write_atomically(path, &bytes).map_err(|e| e.to_string()));
    match written {
        Ok(()) => Done::Wrote(words::drew(path)),
        Err(error) => Done::Failed(error),
    }
}
