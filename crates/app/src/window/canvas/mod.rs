//! The plan on its paper: what is drawn, what the hand can move, and the camera.

mod along;
mod figures;
pub(crate) mod guide;
mod handles;
mod labels;
mod lay;
mod narrow;
mod on_plan;
mod options;
mod placed;
mod reached;
mod room;
mod site;
mod sparse;
mod steps;
mod swept;
mod trust;

use std::collections::BTreeSet;

use egui::{Color32, Key, Pos2, Rect, Response, Sense, Ui, Vec2, vec2};
use geometry::{Bounds, Chain, Figure, Piece, Point};
use plan::compare::Comparison;
use plan::room::Room;
use plan::setout::{BendWork, Manner, Method, Voice, Way};
use plan::solve::{Origin, Solved, SolvedRoute};
use plan::units::Ruler;
use plan::{Edit, Plan, finding::Severity};

use self::labels::Labels;
use self::on_plan::OnPlan;
use self::placed::Placed;
use self::sparse::thinned;
use super::compare::Comparing;
use super::derived::Derived;
use super::fonts::Face;
use super::intent::Intent;
use super::mode::Mode;
use super::pen::{self, Pen};
use super::pick::{Pick, Picked, Stage};
use super::site::SitePick;
use super::theme::{self, Palette};
use super::view::{Curve, View};
use super::words;

pub use handles::Grip;
pub(in crate::window) use options::draw_for_client;
pub(in crate::window) use room::nearest;
pub(crate) use site::{insert_corner, side_of};

/// What the canvas shows this frame.
#[derive(Clone, Copy)]
pub struct Scene<'a> {
    /// The plan shown: with the drag under way, if any.
    pub plan: &'a Plan,
    /// What follows from it.
    pub solved: &'a Solved,
    /// The plan as it was at the press.
    pub settled: &'a Plan,
    /// What follows from that, while a drag is under way.
    pub before: Option<&'a Solved>,
    /// What is chosen.
    pub pick: Pick,
    /// The open stage.
    pub stage: Stage,
    /// What a click on the plan means.
    pub mode: &'a Mode,
    /// The rises at which the chosen bend keeps clear; `None` where no free bend is chosen.
    pub room: Option<&'a Room>,
    /// Whether a dragged apex stays where the path keeps clear.
    pub keeps_clear: bool,
    /// Pegs of the chosen path that are chosen together.
    pub together: &'a BTreeSet<usize>,
    /// What of the site is chosen.
    pub site: Option<SitePick>,
    /// What is worked out of the chosen path when asked for.
    pub derived: &'a Derived,
    /// While the strip along the path is open: the station of its cursor in metres, if it has one.
    pub along: Option<Option<f64>>,
    /// The vehicle whose swept ground shows, counted from 0.
    pub sweep: Option<usize>,
    /// Whether it is drawn how far pegs may be out.
    pub trust: bool,
    /// The step of setting out that is gone through, counted from 0.
    pub step: Option<usize>,
    /// The way of setting out that is looked at, and of which bend.
    pub looked_at: Option<(Origin, Method)>,
    /// The options beside each other, where that is shown.
    pub comparison: Option<&'a Comparison>,
    /// How they are shown.
    pub comparing: &'a Comparing,
    /// The colours.
    pub palette: &'a Palette,
}

impl<'a> Scene<'a> {
    /// How lengths are written.
    pub fn ruler(&self) -> Ruler {
        self.plan.ruler()
    }

    /// Whether options are only looked at, alone or side by side: then nothing shows that the work goes
    /// by, such as marks and what is buried.
    pub fn only_looked_at(&self) -> bool {
        self.comparing.shown.is_some()
            || self.stage == Stage::Compare && self.comparing.side_by_side
    }

    /// The chosen path as it is drawn.
    pub fn route(&self) -> Option<&'a SolvedRoute> {
        let scheme = self.solved.schemes.get(self.pick.scheme)?;
        scheme.routes.get(self.pick.route)
    }

    /// The piece of the chosen path's centre line that is chosen, and which one it is.
    pub fn piece(&self) -> Option<(usize, Piece)> {
        let route = self.route()?;
        let origin = match self.pick.part? {
            Picked::Leg(leg) => Origin::Leg(leg),
            Picked::Rounding(waypoint) => Origin::Rounding(waypoint),
            Picked::Waypoint(_) => return None,
        };
        let index = route.piece_of(origin)?;
        Some((index, *route.centre_line.as_ref()?.pieces().get(index)?))
    }
}

impl<'a> Scene<'a> {
    /// Each bend of what is chosen, and the way that is looked at: unless asked for, the one that is
    /// taken.
    pub fn ways(&self) -> Vec<(&'a BendWork, &'a Way)> {
        let (Some(part), Some(rehearsal)) = (self.pick.part, self.derived.rehearsal()) else {
            return Vec::new();
        };
        let chosen = |bend: &&BendWork| Picked::from(bend.of) == part;
        let bends = rehearsal.work.bends.iter().filter(chosen);
        let looked_at = |bend: &'a BendWork| {
            let of = self.looked_at.filter(|(of, _)| *of == bend.of);
            let asked = of.and_then(|(_, method)| bend.ways.iter().find(|w| w.method == method));
            (bend, asked.unwrap_or(bend.way()))
        };
        bends.map(looked_at).collect()
    }

    /// How deeds are told.
    pub fn manner(&self, both_units: bool) -> Manner {
        Manner {
            voice: Voice {
                ruler: self.ruler(),
                both: both_units,
            },
            crew: self.plan.set_out.crew,
            allowances: self.plan.set_out.allowances,
            tape: self.plan.tape.length,
        }
    }
}

impl Scene<'_> {
    /// The bends that end at the chosen peg, the one after it first: what its drag changes.
    pub fn bends_at_peg(&self) -> Vec<(usize, Origin, geometry::Arc)> {
        let (Some(Picked::Waypoint(waypoint)), Some(solved)) = (self.pick.part, self.route())
        else {
            return Vec::new();
        };
        let route = self.plan.route(self.pick.scheme, self.pick.route);
        let Some((before, after)) = route.map(|route| route.legs_at(waypoint)) else {
            return Vec::new();
        };
        let pieces = solved.centre_line.as_ref().map_or(&[][..], Chain::pieces);
        let mut found: Vec<(usize, Origin, geometry::Arc)> = Vec::new();
        for leg in after.into_iter().chain(before) {
            for origin in [Origin::Leg(leg), Origin::SecondBend(leg)] {
                let piece = solved.piece_of(origin);
                if let Some(arc) = piece.and_then(|i| pieces.get(i)?.arc().copied()) {
                    found.extend(piece.map(|i| (i, origin, arc)));
                }
            }
        }
        found
    }
}

/// The camera and what the hand holds.
#[derive(Debug, Default)]
pub struct Canvas {
    view: Option<View>,
    grip: Grip,
    site: site::SiteGrip,
    /// Show the whole plan as soon as the size of the picture is known.
    fit_next: bool,
    /// The figure being typed on the plan, and what is typed.
    typed: OnPlan,
}

/// Room left round a fitted plan, in screen points, or in a small picture as a share of its side.
const FIT_MARGIN: f32 = 48.0;
const FIT_SHARE: f32 = 0.1;
/// Room left round what is brought into sight, in screen points.
const SHOWN_MARGIN: f32 = 24.0;
/// A wheel step of one line zooms by this.
const ZOOM_STEP: f64 = 1.25;
/// A dragged or new peg is held to what lies this near, in screen points.
const HOLD: f32 = 8.0;
/// A click this near a line means the line, in screen points.
const NEAR: f32 = 14.0;

impl Canvas {
    /// Shows the plan and lets the hand at it.
    pub fn ui(&mut self, ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Intent>) {
        let area = ui.max_rect();
        let view = match self.view {
            Some(view) if !self.fit_next => view.with_area(area),
            _ => {
                let margin = FIT_MARGIN.min(FIT_SHARE * area.width().min(area.height()));
                View::fitted(extent(scene), area, margin)
            }
        };
        self.fit_next = false;
        let ground = ui.interact(area, ui.scope_id().with("ground"), Sense::click_and_drag());
        self.site.press(ui, &view, scene, &ground, out);
        let view = self.moved(ui, view, scene, &ground);
        self.view = Some(view);
        if scene.stage == Stage::Compare {
            options::ui(ui, &view, scene, &ground, out);
            name_ground(ui, &ground);
            return;
        }
        let mut labels = Labels::new(ui.painter_at(area), scene.palette.paper, area);
        let measuring = scene.stage == Stage::Measure;
        let handles = if measuring || scene.step.is_some() {
            Vec::new()
        } else {
            placed::shown(&view, scene, self.grip.held())
        };
        let shown = draw(ui, &view, scene, &handles, &mut labels);
        self.typed.ui(ui, scene, &shown, out);
        let held = if measuring {
            // The handles of paths are quiet while the site is measured.
            self.site.ui(ui, &view, scene, &mut labels, &ground, out);
            None
        } else {
            self.grip.ui(ui, &view, scene, handles, &mut labels, out)
        };
        if *scene.mode == Mode::Choose {
            if measuring {
                site::choose(ui, &view, scene, &ground, out);
            } else if scene.step.is_none() {
                choose(ui, &view, scene, &ground, out);
            }
            if held.is_none()
                && !self.site.is_holding()
                && ui.input(|input| input.key_pressed(Key::Escape))
            {
                out.push(Intent::Cancel);
            }
        } else if let Mode::Sketch(sketch) = scene.mode {
            site::sketch_ui(ui, &view, scene, (sketch, &ground), &mut labels, out);
        } else {
            lay::ui(ui, &view, scene, &mut labels, &ground, out);
        }
        if !self.is_holding() {
            along::follow(ui, &view, scene, out);
        }
        site::write_names(&view, scene, &mut labels);
        labels.paint();
        along::draw(&ui.painter_at(area), &view, scene);
        name_ground(ui, &ground);
    }

    /// Shows all of the plan from the next frame on.
    pub fn fit(&mut self) {
        self.fit_next = true;
    }

    /// Zooms about the middle of the picture.
    pub fn zoom(&mut self, closer: bool) {
        let factor = if closer { ZOOM_STEP } else { 1.0 / ZOOM_STEP };
        self.view = self
            .view
            .map(|view| view.zoomed_about(view.area().center(), factor));
    }

    /// Puts the keyboard into a figure of the chosen bend on the plan itself.
    pub fn type_on_plan(&mut self, figure: Figure) {
        self.typed.open(figure);
    }

    /// Brings a place to the middle of the picture.
    pub fn go_to(&mut self, place: Point) {
        self.view = self
            .view
            .map(|view| View::new(view.area(), place, view.points_per_metre()));
    }

    /// Brings what lies within bounds into sight: only if some of it is not, and smaller only if all
    /// of it would not fit.
    pub fn show(&mut self, bounds: Bounds) {
        self.view = self.view.map(|view| {
            let area = view
                .area()
                .shrink(SHOWN_MARGIN.min(FIT_SHARE * view.area().width()));
            let corners = [bounds.low, bounds.high].map(|corner| view.screen_from_plan(corner));
            let on_screen = Rect::from_two_pos(corners[0], corners[1]);
            if area.contains_rect(on_screen) {
                view
            } else if on_screen.width() < area.width() && on_screen.height() < area.height() {
                View::new(view.area(), bounds.middle(), view.points_per_metre())
            } else {
                view.fit(bounds, FIT_MARGIN)
            }
        });
    }

    /// Whether the hand holds something.
    #[must_use]
    pub fn is_holding(&self) -> bool {
        self.grip.is_holding() || self.site.is_holding()
    }

    /// The camera of the last frame.
    #[must_use]
    pub fn view(&self) -> Option<&View> {
        self.view.as_ref()
    }

    fn moved(&self, ui: &Ui, mut view: View, scene: &Scene<'_>, ground: &Response) -> View {
        if ground.dragged() && !self.is_holding() && !site::takes_drags(scene.mode) {
            view = view.panned(ground.drag_delta());
        }
        let over = ui.rect_contains_pointer(view.area()) && !self.is_holding();
        let (scroll, pinch, pointer) = ui.input(|input| {
            (
                input.smooth_scroll_delta(),
                input.zoom_delta(),
                input.pointer.hover_pos(),
            )
        });
        if let (true, Some(at)) = (over, pointer) {
            let lines = f64::from(scroll.y) / 50.0;
            let factor = ZOOM_STEP.powf(lines) * f64::from(pinch);
            if (factor - 1.0).abs() > 1e-6 {
                view = view.zoomed_about(at, factor);
            }
        }
        view
    }
}

fn name_ground(ui: &Ui, ground: &Response) {
    ui.ctx().accesskit_node_builder(ground.id, |node| {
        node.set_role(egui::accesskit::Role::Canvas);
        node.set_label("Plan");
    });
}

/// Draws all but what the hand can move; where the figures stand that can be typed over.
fn draw(
    ui: &Ui,
    view: &View,
    scene: &Scene<'_>,
    handles: &[(Placed, Pos2)],
    labels: &mut Labels,
) -> Vec<(Figure, Rect)> {
    let painter = ui.painter_at(view.area());
    if let (Some(step), Some(rehearsal)) = (scene.step, scene.derived.rehearsal()) {
        draw_faint(&painter, view, scene);
        site::draw_grounds(&painter, view, scene);
        site::keep_scale_free(labels, view);
        let ink = steps::ink(&painter, view, scene);
        steps::draw(&ink, rehearsal, step, labels);
        site::draw_scale(&painter, view, scene);
        return Vec::new();
    }
    if scene.stage == Stage::Measure {
        draw_faint(&painter, view, scene);
        site::draw_grounds(&painter, view, scene);
        site::keep_scale_free(labels, view);
        lay::write_tip(view, scene, labels);
        site::draw_scale(&painter, view, scene);
        return Vec::new();
    }
    site::draw_grounds(&painter, view, scene);
    let Some(scheme) = scene.solved.schemes.get(scene.pick.scheme) else {
        return Vec::new();
    };
    for (i, route) in scheme.routes.iter().enumerate() {
        draw_path(&painter, view, scene.palette, route, i == scene.pick.route);
    }
    if let Some(before) = scene.before.and_then(|b| b.schemes.get(scene.pick.scheme)) {
        for (before, now) in before.routes.iter().zip(&scheme.routes) {
            draw_moved(&painter, view, scene.palette, before, now);
        }
    }
    draw_pads(&painter, view, scene);
    swept::draw(&painter, view, scene);
    site::keep_scale_free(labels, view);
    lay::write_tip(view, scene, labels);
    let signs = signs(view, scene);
    for (at, _) in &signs {
        labels.keep_free(Rect::from_center_size(*at, Vec2::splat(2.0 * SIGN)));
    }
    reached::draw(&painter, view, scene, labels);
    let pegs = figures::seen_pegs(view, scene, handles);
    figures::keep_handles_free(view, scene, &pegs, labels);
    figures::write_chosen_numbers(scene, &pegs, labels);
    let shown = figures::draw(&painter, view, scene, labels);
    room::draw(&painter, view, scene, labels);
    reached::write(&painter, view, scene, labels);
    trust::draw(&painter, view, scene, labels);
    figures::draw_pegs(&painter, scene, &pegs, labels);
    for (at, severity) in signs {
        finding_sign(&painter, at, severity, scene.palette);
    }
    site::draw_scale(&painter, view, scene);
    if scheme.routes.is_empty() && *scene.mode == Mode::Choose {
        let width = (view.area().width() - 40.0).max(80.0);
        let font = Face::Text.sized(theme::BODY);
        let text = painter.layout(words::lay::EMPTY.to_owned(), font, scene.palette.ink, width);
        let rect = Rect::from_center_size(view.area().center(), text.size());
        painter.galley(rect.min, text, scene.palette.ink);
    }
    shown
}

/// The paths as they lie faint under what is measured or set out.
fn draw_faint(painter: &egui::Painter, view: &View, scene: &Scene<'_>) {
    let scheme = scene.solved.schemes.get(scene.pick.scheme);
    for route in scheme.iter().flat_map(|scheme| &scheme.routes) {
        for line in [&route.left_edge, &route.right_edge].into_iter().flatten() {
            let runs = view.trace(&curves(line));
            Pen::Outline.draw_in(painter, &runs, scene.palette, scene.palette.rule);
        }
    }
}

/// The findings that can be seen and matter, and where their signs stand.
fn signs(view: &View, scene: &Scene<'_>) -> Vec<(Pos2, Severity)> {
    let seen = view.area().expand(3.0 * SIGN);
    let matter = scene
        .solved
        .findings
        .iter()
        .filter(|f| f.place.concerns(scene.pick.scheme) && f.severity != Severity::Note)
        .map(|f| (f.place.at, view.screen_from_plan(f.place.at), f.severity))
        .filter(|(_, at, _)| seen.contains(*at))
        .collect();
    thinned(matter, view, |(place, ..)| *place, |_| false)
        .into_iter()
        .map(|(_, at, severity)| (at - vec2(0.0, 2.6 * SIGN), severity))
        .collect()
}

/// Where the path was before the drag, as far as it has moved.
fn draw_moved(
    painter: &egui::Painter,
    view: &View,
    palette: &Palette,
    before: &SolvedRoute,
    now: &SolvedRoute,
) {
    let (Some(before), Some(now)) = (&before.centre_line, &now.centre_line) else {
        return;
    };
    let (before, now) = (before.pieces(), now.pieces());
    let same = |pair: &(&Piece, &Piece)| pair.0 == pair.1;
    let ahead = before.iter().zip(now).take_while(same).count();
    let (before, now) = (&before[ahead..], &now[ahead..]);
    let behind = before
        .iter()
        .rev()
        .zip(now.iter().rev())
        .take_while(same)
        .count();
    let moved = &before[..before.len() - behind];
    Pen::Ghost.draw(
        painter,
        &view.trace(&moved.iter().map(curve).collect::<Vec<_>>()),
        palette,
    );
}

/// Landings and passing places of all paths.
fn draw_pads(painter: &egui::Painter, view: &View, scene: &Scene<'_>) {
    let scheme = scene.solved.schemes.get(scene.pick.scheme);
    for pad in scheme.iter().flat_map(|s| &s.routes).flat_map(|r| &r.pads) {
        Pen::Outline.draw(painter, &view.trace(&curves(pad)), scene.palette);
    }
}

/// A chain as the camera draws it.
fn curves(chain: &Chain) -> Vec<Curve> {
    chain.pieces().iter().map(curve).collect()
}

fn curve(piece: &Piece) -> Curve {
    Curve {
        start: piece.start(),
        end: piece.end(),
        rise: piece.arc().map_or(0.0, geometry::Arc::rise),
    }
}

/// Narrower than this on the screen, a path is drawn as a line, in screen points.
const NARROW: f32 = 6.0;

fn draw_path(
    painter: &egui::Painter,
    view: &View,
    palette: &Palette,
    route: &SolvedRoute,
    chosen: bool,
) {
    let Some(chain) = &route.centre_line else {
        return;
    };
    let edge = if chosen { Pen::Edge } else { Pen::Outline };
    let wide = view.screen_length(route.width);
    if wide < NARROW {
        narrow::draw(
            painter,
            view,
            palette,
            chain,
            (wide, edge.width() * palette.weight),
        );
        return;
    }
    fill_path(painter, view, palette, chain, route.width);
    for line in [&route.left_edge, &route.right_edge].into_iter().flatten() {
        edge.draw(painter, &view.trace(&curves(line)), palette);
    }
    Pen::Centre.draw(painter, &view.trace(&curves(chain)), palette);
}

/// Fills a path between its edges, and the outsides of its corners.
fn fill_path(painter: &egui::Painter, view: &View, palette: &Palette, chain: &Chain, width: f64) {
    let half = 0.5 * width;
    let seen = view.seen().grown(MITRE * width);
    let mut bands = Vec::new();
    let mut before: Option<&Piece> = None;
    for piece in chain.pieces() {
        if let (Some(left), Some(right)) = (piece.offset(half), piece.offset(-half)) {
            bands.extend(view.band(&curve(&left), &curve(&right)));
        }
        let corner = piece.start();
        if let Some(before) = before
            && seen.meets(Bounds::of(corner))
        {
            let outside = outside_of_corner(before, piece, half).into_iter();
            let line = |at: Point| [at, corner].map(|end| view.screen_from_plan(end));
            bands.push(outside.map(line).collect());
        }
        before = Some(piece);
    }
    pen::fill_bands(painter, &bands, palette.path);
}

/// How far a corner is filled beyond the path's edge, in half widths.
const MITRE: f64 = 4.0;

/// Round the outside of a corner, from the end of one piece's edge to the start of the next one's.
fn outside_of_corner(before: &Piece, after: &Piece, half: f64) -> Vec<Point> {
    let (from, to) = (before.end_direction(), after.start_direction());
    let turn = from.turn_to(to);
    if turn.abs() < geometry::SAME_DIRECTION {
        return Vec::new();
    }
    // The outside of a turn to the left lies on the right.
    let out = -half.copysign(turn);
    let (from, to) = (from.left().unit(), to.left().unit());
    let corner = after.start();
    let mut round = vec![corner + from * out, corner + to * out];
    let both = 1.0 + from.dot(to);
    let straight = before.arc().is_none() && after.arc().is_none();
    // Squared: how far the edges run on to where they meet.
    if straight && 2.0 < both * MITRE * MITRE {
        round.insert(1, corner + (from + to) * (out / both));
    }
    round
}

/// From the middle of the sign of a finding to its corners, in screen points.
const SIGN: f32 = 11.0;

/// A diamond with a stroke in it: full for what stops, open for what wants care.
fn finding_sign(painter: &egui::Painter, at: Pos2, severity: Severity, palette: &Palette) {
    let corners = [(0.0, -SIGN), (SIGN, 0.0), (0.0, SIGN), (-SIGN, 0.0)]
        .map(|(x, y)| at + vec2(x, y))
        .to_vec();
    let (fill, line) = match severity {
        Severity::Stop => (palette.clay, palette.paper),
        Severity::Care | Severity::Note => (palette.paper, palette.ochre),
    };
    let edge = egui::Stroke::new(
        2.0,
        if severity == Severity::Stop {
            fill
        } else {
            line
        },
    );
    painter.add(egui::Shape::convex_polygon(corners, fill, edge));
    painter.line_segment(
        [at - vec2(0.0, 5.0), at + vec2(0.0, 1.5)],
        egui::Stroke::new(2.0, line),
    );
    painter.circle_filled(at + vec2(0.0, 5.0), 1.5, line);
}

/// Everything of the option and the site that one wants to see at once.
fn extent(scene: &Scene<'_>) -> Bounds {
    let site = &scene.plan.site;
    let fixed = site
        .marks
        .iter()
        .map(|mark| mark.at)
        .chain(site.obstacles.iter().flat_map(|o| o.extent.outline()));
    let routes = scene
        .solved
        .schemes
        .get(scene.pick.scheme)
        .into_iter()
        .flat_map(|scheme| &scheme.routes)
        .flat_map(|route| [&route.left_edge, &route.right_edge, &route.centre_line])
        .flatten()
        .map(Chain::bounds);
    Bounds::around(fixed)
        .into_iter()
        .chain(routes)
        .reduce(Bounds::with)
        .unwrap_or(Bounds::of(Point::ORIGIN).grown(5.0))
}

/// A click chooses a leg; a double click puts a peg on it.
fn choose(ui: &Ui, view: &View, scene: &Scene<'_>, ground: &Response, out: &mut Vec<Intent>) {
    let Some(at) = ground.interact_pointer_pos() else {
        return;
    };
    if ground.double_clicked()
        && scene.stage == Stage::Draw
        && let Some(Picked::Leg(leg)) = scene.pick.part
    {
        let near = view.plan_from_screen(at);
        let id = scene.pick.leg(leg);
        if leg_at(view, scene, at) == Some((scene.pick.route, Picked::Leg(leg))) {
            out.push(Intent::Commit(Edit::InsertWaypoint { id, near }));
        }
    } else if ground.clicked() {
        match leg_at(view, scene, at) {
            Some((route, part)) => {
                if route != scene.pick.route {
                    out.push(Intent::Route(route));
                }
                out.push(Intent::Pick(part));
            }
            None => ui.memory_mut(|memory| {
                if let Some(id) = memory.focused() {
                    memory.surrender_focus(id);
                }
            }),
        }
    }
}

/// The path and its part under a place on the screen.
fn leg_at(view: &View, scene: &Scene<'_>, at: Pos2) -> Option<(usize, Picked)> {
    let place = view.plan_from_screen(at);
    let scheme = scene.solved.schemes.get(scene.pick.scheme)?;
    scheme
        .routes
        .iter()
        .enumerate()
        .filter_map(|(i, route)| {
            let nearest = route.centre_line.as_ref()?.nearest(place);
            let reach = (0.5 * route.width).max(view.plan_length(NEAR));
            let origin = *route.origins.get(nearest.piece)?;
            (nearest.distance <= reach).then_some((nearest.distance, i, origin))
        })
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, route, origin)| (route, origin.into()))
}

/// Text with the paper behind it, so that lines do not run through it.
fn backed_text(
    painter: &egui::Painter,
    rect: Rect,
    galley: std::sync::Arc<egui::Galley>,
    paper: Color32,
    ink: Color32,
) {
    pen::fill_rect(painter, rect.expand2(vec2(3.0, 0.0)), paper);
    painter.galley(rect.min, galley, ink);
}
