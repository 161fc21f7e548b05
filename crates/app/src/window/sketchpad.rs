//! The whole window: one plan, its history, what is chosen, and the one place where intents are
//! carried out.

mod choosing;
mod comparing;
mod laying;
mod measuring;
mod rehearsing;

use std::collections::BTreeSet;
use std::path::PathBuf;
use std::rc::Rc;
use std::sync::Arc;

use egui::{CentralPanel, Context, Frame, Margin, Panel, Ui};
use plan::document::{Route, Shape, Site};
use plan::edit::LegId;
use plan::room::Room;
use plan::setout::Method;
use plan::solve::Origin;
use plan::{Edit, History, Plan, Solved};

use super::action::Action;
use super::canvas::{Canvas, Scene};
use super::compare::{Comparing, Walk};
use super::derived::{Compared, Derived};
use super::errands::Errands;
use super::hints::Hints;
use super::intent::Intent;
use super::keys::KeyMap;
use super::mode::{Lay, Measure, Mode};
use super::pick::{Pick, Picked, Stage};
use super::site::SitePick;
use super::slip::{Said, Slip};
use super::strip::{self, Strip};
use super::theme::{self, Look};
use super::{client, foot, words};

/// The sketchpad.
pub struct Sketchpad {
    history: History,
    solved: Remembered,
    before: Remembered,
    room: RememberedRoom,
    derived: Rc<Derived>,
    strip: Strip,
    /// The vehicle whose swept ground shows.
    sweep: Option<usize>,
    trust: bool,
    /// The step of setting out that is gone through.
    step: Option<usize>,
    /// The way of setting out that is looked at, and of which bend.
    looked_at: Option<(Origin, Method)>,
    /// Whether a dragged apex stays where the path keeps clear.
    keeps_clear: bool,
    pick: Pick,
    /// Pegs of the chosen path that are chosen together.
    together: BTreeSet<usize>,
    /// What of the site is chosen.
    site: Option<SitePick>,
    mode: Mode,
    stage: Stage,
    /// How the options are compared.
    comparing: Comparing,
    compared: Compared,
    canvas: Canvas,
    slip: Slip,
    look: Look,
    said: Option<Said>,
    keys: KeyMap,
    hints: Hints,
    pub(super) errands: Errands,
}

/// What was solved of a plan, as long as it is that very plan.
#[derive(Clone, Default)]
struct Remembered {
    of: Option<(Arc<Plan>, Arc<Solved>)>,
}

impl Remembered {
    fn get(&mut self, plan: &Arc<Plan>) -> Arc<Solved> {
        match &self.of {
            Some((of, solved)) if Arc::ptr_eq(of, plan) => Arc::clone(solved),
            _ => {
                let before = self.of.as_ref().map(|(_, solved)| &**solved);
                let solved = Arc::new(plan.solve_after(before));
                self.of = Some((Arc::clone(plan), Arc::clone(&solved)));
                solved
            }
        }
    }
}

/// The room of the chosen bend, as long as all else of its path and site stays.
#[derive(Default)]
struct RememberedRoom {
    of: Option<(LegId, Route, Arc<Site>)>,
    room: Option<Arc<Room>>,
}

impl RememberedRoom {
    /// The room of the chosen leg in a plan; while a drag is under way, only if that changes nothing
    /// but the rise.
    fn get(
        &mut self,
        plan: &Plan,
        solved: &Solved,
        pick: Pick,
        dragging: bool,
    ) -> Option<Arc<Room>> {
        let Some(Picked::Leg(leg)) = pick.part else {
            return None;
        };
        let id = pick.leg(leg);
        let mut route = plan.route(id.scheme, id.route)?.clone();
        *route.legs.get_mut(leg)? = match route.legs.get(leg)? {
            Shape::Bend { .. } => Shape::bend(0.0),
            _ => return None,
        };
        let same = |of: &(LegId, Route, Arc<Site>)| {
            of.0 == id && Arc::ptr_eq(&of.2, &plan.site) && of.1 == route
        };
        if !self.of.as_ref().is_some_and(same) {
            if dragging {
                return None;
            }
            self.room = plan.room(id, &solved.surroundings).map(Arc::new);
            self.of = Some((id, route, Arc::clone(&plan.site)));
        }
        self.room.clone()
    }
}

/// Widest slip, in screen points; on a small window it takes less.
const SLIP_WIDTH: f32 = 350.0;

impl Sketchpad {
    /// A sketchpad with a plan, and the file it came from.
    #[must_use]
    pub fn new(plan: Plan, path: Option<PathBuf>) -> Self {
        let pick = first_pick(&plan);
        Self {
            history: History::new(plan),
            solved: Remembered::default(),
            before: Remembered::default(),
            room: RememberedRoom::default(),
            derived: Rc::default(),
            strip: Strip::default(),
            sweep: None,
            trust: false,
            step: None,
            looked_at: None,
            keeps_clear: false,
            pick,
            together: BTreeSet::new(),
            site: None,
            mode: Mode::default(),
            stage: Stage::default(),
            comparing: Comparing::default(),
            compared: Compared::default(),
            canvas: Canvas::default(),
            slip: Slip::default(),
            look: Look::default(),
            said: None,
            keys: KeyMap::default(),
            hints: Hints::default(),
            errands: Errands::new(path),
        }
    }

    /// Asks for files in the window itself, never through the desktop.
    #[must_use]
    pub fn asking_in_window(mut self) -> Self {
        self.errands.in_window = true;
        self
    }

    /// Wears another look from now on.
    pub fn wear(&mut self, look: Look) {
        self.look = look;
    }

    /// Carries out an edit as if it had been asked for by hand.
    pub fn commit(&mut self, edit: &Edit) {
        self.carry_out_edit(edit);
    }

    /// Shows the three hints of a first run; `seen` remembers that they were closed.
    #[must_use]
    pub fn with_hints(mut self, seen: Option<PathBuf>) -> Self {
        self.hints = Hints::first_run(seen);
        self
    }

    /// The plan as it would be saved.
    #[must_use]
    pub fn plan(&self) -> &Plan {
        self.history.settled()
    }

    /// The plan as it is shown: with the drag under way, if any.
    #[must_use]
    pub fn shown(&self) -> &Plan {
        self.history.plan()
    }

    /// Whether there is something that would be lost.
    #[must_use]
    pub fn is_unsaved(&self) -> bool {
        self.history.is_unsaved()
    }

    /// The canvas, for tests that need to know where a place is on the screen.
    #[must_use]
    pub fn canvas(&self) -> &Canvas {
        &self.canvas
    }

    /// What was said last.
    #[must_use]
    pub fn said(&self) -> Option<&Said> {
        self.said.as_ref()
    }

    /// The title of the window.
    #[must_use]
    pub fn title(&self) -> String {
        let title = match self.plan().title.trim() {
            "" => words::UNTITLED,
            title => title,
        };
        let sign = if self.is_unsaved() { "• " } else { "" };
        format!("{sign}{title} – {}", words::PROGRAM)
    }

    /// Shows the window and carries out what was asked for in it.
    pub fn ui(&mut self, ui: &mut Ui) {
        let mut out = Vec::new();
        let blocked = self.errands.asks_something() || self.keys.is_open();
        self.walk_on(ui.ctx());
        if !blocked && self.comparing.shown.is_some() {
            out.extend(self.hear_client(ui.ctx()));
        } else if !blocked && !self.canvas.is_holding() {
            out.extend(self.hear_steps(ui.ctx()));
            let heard = Action::pressed(ui.ctx()).into_iter();
            out.extend(heard.filter(|action| self.hears(*action)).map(Intent::Do));
        }
        let plan = Arc::clone(self.history.plan());
        let settled = Arc::clone(self.history.settled());
        let solved = self.solved.get(&plan);
        if Arc::ptr_eq(&plan, &settled) {
            self.before = self.solved.clone();
        }
        let before = (!Arc::ptr_eq(&plan, &settled)).then(|| self.before.get(&settled));
        let dragging = before.is_some();
        let room = self.room.get(&plan, &solved, self.pick, dragging);
        let path = [self.pick.scheme, self.pick.route];
        Derived::turn_to(&mut self.derived, &plan, &solved, path);
        let derived = Rc::clone(&self.derived);
        let compares = self.stage == Stage::Compare || self.comparing.shown.is_some();
        let comparison = compares.then(|| self.compared.get(&plan, &solved));
        let scene = Scene {
            plan: &plan,
            solved: &solved,
            settled: &settled,
            before: before.as_deref(),
            pick: self.pick,
            mode: &self.mode.clone(),
            together: &self.together.clone(),
            site: self.site,
            stage: self.stage,
            room: room.as_deref(),
            keeps_clear: self.keeps_clear,
            derived: &derived,
            along: self.strip.open.then_some(self.strip.cursor),
            sweep: self.sweep,
            trust: self.trust,
            step: self.step_now(&derived),
            looked_at: self.looked_at,
            comparison: comparison.as_deref(),
            comparing: &self.comparing.clone(),
            palette: self.look.palette(),
        };
        if self.comparing.shown.is_some() {
            client::ui(ui, &scene, &mut out);
        } else {
            self.views(ui, &scene, &mut out);
        }
        self.errands.ui(ui.ctx(), &self.history);
        self.keys.ui(ui.ctx());
        if !out.is_empty() {
            // What was asked for shows in the next frame: there must be one.
            ui.ctx().request_repaint();
        }
        for intent in out {
            self.carry_out(ui.ctx(), intent);
        }
        self.run_errands(ui.ctx());
    }

    fn views(&mut self, ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Intent>) {
        let width = SLIP_WIDTH.min(0.55 * ui.available_width());
        Panel::bottom("foot")
            .exact_size(foot::HEIGHT)
            .frame(Frame::NONE)
            .show_separator_line(false)
            .show(ui, |ui| foot::ui(ui, scene, out));
        if self.strip.open {
            let height = strip::height(ui.ctx().content_rect().height());
            Panel::bottom("strip")
                .exact_size(height)
                .resizable(false)
                .frame(Frame::new().inner_margin(Margin::symmetric(10, 4)))
                .show(ui, |ui| self.strip.ui(ui, scene, out));
        }
        Panel::right("slip")
            .exact_size(width)
            .resizable(false)
            .frame(Frame::new().inner_margin(Margin::symmetric(theme::EDGE / 2, theme::EDGE / 2)))
            .show(ui, |ui| self.slip.ui(ui, scene, self.said.as_ref(), out));
        CentralPanel::default().frame(Frame::NONE).show(ui, |ui| {
            self.canvas.ui(ui, scene, out);
            self.hints.ui(ui, scene.palette, out);
        });
    }

    fn carry_out(&mut self, ctx: &Context, intent: Intent) {
        match intent {
            Intent::Preview(edit) => match self.history.preview(&edit) {
                Ok(stopped) => self.tell_stopped(stopped.map(|s| s.to_string())),
                Err(error) => self.tell_wrong(&error.to_string()),
            },
            Intent::Commit(edit) => self.carry_out_edit(&edit),
            Intent::Cancel => {
                self.history.cancel();
                self.together.clear();
            }
            Intent::Pick(part) => {
                if self.pick.part != Some(part) {
                    self.slip.typing.forget();
                }
                self.together.clear();
                self.pick.part = Some(part);
            }
            Intent::Also(waypoint) => {
                if let Some(Picked::Waypoint(first)) = self.pick.part {
                    self.together.insert(first);
                }
                if !self.together.insert(waypoint) {
                    self.together.remove(&waypoint);
                }
            }
            Intent::All => self.choose_all(),
            Intent::TakeOut => self.take_out(),
            Intent::Site(ask) => self.carry_out_site(ask),
            Intent::Turn(mode) => self.mode = mode,
            Intent::LayPeg { start, closes } => self.lay_peg(start, closes),
            Intent::TypeOnPlan(figure) => self.canvas.type_on_plan(figure),
            Intent::Scheme(scheme) => self.turn_to(scheme, 0),
            Intent::Route(route) => self.turn_to(self.pick.scheme, route),
            Intent::Stage(stage) => {
                self.stage = stage;
                self.mode = Mode::Choose;
                self.step = None;
            }
            Intent::GoTo(place) => self.canvas.go_to(place),
            Intent::Do(action) => self.act(ctx, action),
            Intent::Wear(look) => {
                self.look = look;
                theme::wear(ctx, look);
            }
            Intent::Type => self.slip.typing.focus_first = true,
            Intent::Tell(sentence) => self.tell_wrong(&sentence),
            Intent::KeepClear(keeps_clear) => self.keeps_clear = keeps_clear,
            Intent::Along(station) => self.strip.cursor = Some(station),
            Intent::Chart(chart) => self.strip.chart = chart,
            Intent::Sweep(vehicle) => self.sweep = vehicle,
            Intent::Trust(shows) => self.trust = shows,
            Intent::Step(step) => {
                let derived = Rc::clone(&self.derived);
                self.turn_to_step(&derived, step);
            }
            Intent::LookAt(of, method) => self.looked_at = Some((of, method)),
            Intent::WorkOut => self.derived.ask(),
            Intent::Compare(ask) => self.carry_out_compare(ask),
            Intent::CloseHints => self.hints.close(),
        }
    }

    fn carry_out_edit(&mut self, edit: &Edit) {
        match self.history.commit(edit) {
            Ok(stopped) => {
                self.said = None;
                self.tell_stopped(stopped.map(|s| s.to_string()));
                self.keep_pick_valid();
                self.keep_site_pick_valid();
            }
            Err(error) => {
                let sentence = words::refused(&error, &self.plan().ruler());
                self.tell_wrong(&sentence);
            }
        }
    }

    fn turn_to(&mut self, scheme: usize, route: usize) {
        let part = first_bend(self.history.settled(), scheme, route);
        self.pick = Pick {
            scheme,
            route,
            part,
        };
        self.together.clear();
        self.strip.cursor = None;
        (self.step, self.looked_at) = (None, None);
        self.comparing.shown = self.comparing.shown.map(|_| Walk::default());
        self.slip.typing.forget();
    }

    fn act(&mut self, ctx: &Context, action: Action) {
        match action {
            Action::Undo => {
                let name = self.history.undo_name().map(str::to_owned);
                self.history.undo();
                self.after_time_travel(name.map(|name| words::undone(&name)));
            }
            Action::Redo => {
                let name = self.history.redo_name().map(str::to_owned);
                self.history.redo();
                self.after_time_travel(name.map(|name| words::redone(&name)));
            }
            Action::Fit => self.canvas.fit(),
            Action::Closer => self.canvas.zoom(true),
            Action::Farther => self.canvas.zoom(false),
            Action::Lay => {
                self.stage = Stage::Draw;
                self.mode = Mode::Lay(Lay::new_path());
            }
            Action::Measure => {
                if matches!(self.stage, Stage::Compare | Stage::Count | Stage::SetOut) {
                    self.stage = Stage::Draw;
                }
                self.mode = Mode::Measure(Measure::default());
            }
            Action::Along => self.strip.open = !self.strip.open,
            Action::All => self.choose_all(),
            Action::Larger => scale_type(ctx, TYPE_STEP),
            Action::Smaller => scale_type(ctx, 1.0 / TYPE_STEP),
            Action::Keys => self.keys.open(),
            Action::Show => self.show_client(),
            Action::New
            | Action::Open
            | Action::Save
            | Action::SaveAs
            | Action::Sheet
            | Action::Picture
            | Action::BuildUp
            | Action::OpenPrices
            | Action::SavePrices
            | Action::OrderList
            | Action::OrderPages
            | Action::ClientPage => {
                self.errands.start(ctx, action, &self.history);
            }
        }
    }

    /// After undo or redo what was chosen may be gone.
    fn after_time_travel(&mut self, sentence: Option<String>) {
        self.slip.typing.forget();
        self.together.clear();
        self.keep_site_pick_valid();
        let plan = self.history.settled();
        if plan.route(self.pick.scheme, self.pick.route).is_none() {
            self.pick = first_pick(plan);
        }
        // A path being laid is led on from where it ends now, unless it is gone.
        if let Mode::Lay(lay) = &self.mode
            && lay.leads_on.is_some()
            && plan.route(self.pick.scheme, self.pick.route).is_none()
        {
            self.mode = Mode::Lay(Lay::new_path());
        }
        self.said = sentence.map(|sentence| Said {
            sentence,
            wrong: false,
        });
    }

    fn run_errands(&mut self, ctx: &Context) {
        use super::errands::Done;
        match self
            .errands
            .run(ctx, &self.history, (self.pick, self.slip.sheet))
        {
            Some(Done::Opened(plan)) => {
                self.pick = first_pick(&plan);
                self.mode = if plan.schemes.iter().all(|scheme| scheme.routes.is_empty()) {
                    Mode::Lay(Lay::new_path())
                } else {
                    Mode::Choose
                };
                self.together.clear();
                self.site = None;
                self.stage = Stage::Draw;
                (self.step, self.looked_at) = (None, None);
                self.history = History::new(*plan);
                self.canvas.fit();
                self.slip.typing.forget();
                self.said = None;
            }
            Some(Done::Saved(plan, sentence)) => {
                self.history.mark_saved(&plan);
                self.said = Some(Said {
                    sentence,
                    wrong: false,
                });
            }
            Some(Done::Read(edit, sentence)) => {
                self.said = None;
                self.carry_out_edit(&edit);
                if self.said.is_none() {
                    let wrong = false;
                    self.said = Some(Said { sentence, wrong });
                }
            }
            Some(Done::Wrote(sentence)) => {
                self.said = Some(Said {
                    sentence,
                    wrong: false,
                });
            }
            Some(Done::Failed(sentence)) => self.tell_wrong(&sentence),
            None => {}
        }
    }

    fn tell_stopped(&mut self, stopped: Option<String>) {
        if let Some(sentence) = stopped {
            self.tell_wrong(&sentence);
        }
    }

    fn tell_wrong(&mut self, sentence: &str) {
        self.said = Some(Said {
            sentence: words::capital(sentence),
            wrong: true,
        });
    }
}

impl eframe::App for Sketchpad {
    /// The window is cleared to paper, which nothing then paints again: without a graphics card every pixel costs.
    fn clear_color(&self, visuals: &egui::Visuals) -> [f32; 4] {
        visuals.panel_fill.to_normalized_gamma_f32()
    }

    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        Sketchpad::ui(self, ui);
        let title = self.title();
        if self.errands.titled.as_deref() != Some(&title) {
            self.errands.titled = Some(title.clone());
            ui.ctx()
                .send_viewport_cmd(egui::ViewportCommand::Title(title));
        }
    }
}

/// How much larger one step makes the type.
const TYPE_STEP: f32 = 1.1;
/// The smallest and the largest type, as shares of its usual size.
const TYPE_SCALES: [f32; 2] = [0.8, 2.5];

fn scale_type(ctx: &Context, by: f32) {
    let [least, most] = TYPE_SCALES;
    ctx.set_zoom_factor((ctx.zoom_factor() * by).clamp(least, most));
}

fn first_pick(plan: &Plan) -> Pick {
    Pick {
        scheme: 0,
        route: 0,
        part: first_bend(plan, 0, 0),
    }
}

/// The first bend of a path, or what rounds its first corner, or its first leg.
fn first_bend(plan: &Plan, scheme: usize, route: usize) -> Option<Picked> {
    let route = plan.route(scheme, route)?;
    let bend = route
        .legs
        .iter()
        .position(|leg| !matches!(leg, Shape::Straight));
    let rounded = route.waypoints.iter().position(|w| w.rounding.is_some());
    bend.map(Picked::Leg)
        .or(rounded.map(Picked::Rounding))
        .or((!route.legs.is_empty()).then_some(Picked::Leg(0)))
}
