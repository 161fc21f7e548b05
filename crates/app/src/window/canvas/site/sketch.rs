//! Drawing a thing corner by corner: what follows the pointer, and lengths typed on the plan.

use egui::{Event, Key, Painter, Pos2, Rect, Response, Stroke, StrokeKind, Ui, Vec2};
use geometry::{Direction, Point};
use plan::document::{Extent, ObstacleKind};
use plan::limits::SHORTEST;

use super::super::Scene;
use super::super::guide::{self, Beside, Corner, Guided, Spot, guided_corner};
use super::super::labels::Labels;
use super::look::straight;
use crate::window::fonts::Face;
use crate::window::intent::Intent;
use crate::window::mode::Mode;
use crate::window::pen::Pen;
use crate::window::site::{SiteAsk, Sketch, What, free_number};
use crate::window::theme;
use crate::window::view::View;
use crate::window::words::site as words;

/// A place this near the first corner is the first corner, in screen points.
const CATCH: f32 = 12.0;
/// A drag shorter than this gives no radius, in screen points.
const LEAST_DRAG: f32 = 6.0;

/// Whether a drag on the plan draws, rather than moves the paper: the radius of a round thing.
pub(in super::super) fn takes_drags(mode: &Mode) -> bool {
    matches!(
        mode,
        Mode::Sketch(Sketch {
            what: What::Round(_),
            ..
        })
    )
}

/// Says at the head of the plan what a click does now, and what is typed.
pub(in super::super) fn tip(sketch: &Sketch) -> String {
    let tip = match (sketch.what, sketch.corners.len()) {
        (What::Mark, _) => words::MARK,
        (What::Round(_), 0) => words::MIDDLE,
        (What::Round(ObstacleKind::Tree), _) => words::STEM,
        (What::Round(_), _) => words::RADIUS,
        (What::Corners(ObstacleKind::Gate), 0) => words::HINGE,
        (What::Corners(ObstacleKind::Gate), _) => words::LATCH,
        (What::Corners(_), 0) => words::FIRST,
        (what, _) if what.may_close() => words::NEXT_OR_CLOSE,
        _ => words::NEXT,
    };
    match sketch.typed.as_str() {
        "" => tip.to_owned(),
        typed => format!("{tip}\n{}", words::typed(typed)),
    }
}

/// Follows the pointer and the keys while a thing is drawn.
pub(in super::super) fn ui(
    ui: &Ui,
    view: &View,
    scene: &Scene<'_>,
    (sketch, ground): (&Sketch, &Response),
    labels: &mut Labels,
    out: &mut Vec<Intent>,
) {
    let pointer = ui.input(|input| input.pointer.hover_pos());
    let pointer = pointer.filter(|at| view.area().contains(*at));
    let here = pointer.map(|at| held_place(ui, view, scene, sketch, view.plan_from_screen(at)));
    let painter = ui.painter_at(view.area());
    let closes = pointer.is_some_and(|at| closes(view, sketch, at));
    let at = match (closes, &here) {
        (true, _) => sketch.corners.first().copied(),
        (false, here) => here.as_ref().map(|held| held.at),
    };
    draw(&painter, view, scene, sketch, at, labels);
    if let Some(held) = here.as_ref().filter(|_| !closes) {
        guide::draw(&painter, view, scene.palette, held, labels);
    }
    if !ui.ctx().text_edit_focused() && keys(ui, scene, sketch, at, out) {
        return;
    }
    by_pointer(ui, view, scene, (sketch, ground), (at, closes), out);
}

fn by_pointer(
    ui: &Ui,
    view: &View,
    scene: &Scene<'_>,
    (sketch, ground): (&Sketch, &Response),
    (at, closes): (Option<Point>, bool),
    out: &mut Vec<Intent>,
) {
    let Some(at) = at else { return };
    if takes_drags(scene.mode) {
        let press = ui.input(|input| input.pointer.press_origin());
        if let (true, true, Some(press)) = (ground.drag_started(), sketch.corners.is_empty(), press)
        {
            let middle = held_place(ui, view, scene, sketch, view.plan_from_screen(press));
            out.push(turn(sketch.with(middle.at)));
            return;
        }
        let far = |middle: &Point| view.screen_length(middle.distance(at)) > LEAST_DRAG;
        if ground.drag_stopped() && sketch.corners.first().is_some_and(far) {
            put(scene, sketch, at, out);
            return;
        }
    }
    if ground.double_clicked() {
        end(scene, sketch, false, out);
    } else if ground.clicked() {
        if closes {
            end(scene, sketch, true, out);
        } else {
            put(scene, sketch, at, out);
        }
    }
}

fn turn(sketch: Sketch) -> Intent {
    Intent::Turn(Mode::Sketch(sketch))
}

/// Puts the next corner, which may end the thing.
fn put(scene: &Scene<'_>, sketch: &Sketch, at: Point, out: &mut Vec<Intent>) {
    let next = sketch.with(at);
    if next.ends_itself() {
        end(scene, &next, false, out);
    } else {
        out.push(turn(next));
    }
}

/// Ends the thing; while there is not enough of it, leaves it.
fn end(scene: &Scene<'_>, sketch: &Sketch, closed: bool, out: &mut Vec<Intent>) {
    let number = free_number(scene.plan, sketch.what.word());
    out.push(match sketch.end(closed, number) {
        Some(edit) => Intent::Site(SiteAsk::Add(edit)),
        None => Intent::Turn(Mode::Choose),
    });
}

/// What keys ask for; whether they asked for anything.
fn keys(
    ui: &Ui,
    scene: &Scene<'_>,
    sketch: &Sketch,
    at: Option<Point>,
    out: &mut Vec<Intent>,
) -> bool {
    let pressed = |key: Key| ui.input(|input| input.key_pressed(key));
    if pressed(Key::Escape) {
        out.push(if sketch.typed.is_empty() {
            Intent::Turn(Mode::Choose)
        } else {
            turn(typing(sketch, String::new()))
        });
        return true;
    }
    if pressed(Key::Backspace) {
        let mut back = sketch.clone();
        if back.typed.pop().is_none() {
            back.corners.pop();
        }
        out.push(turn(back));
        return true;
    }
    if !sketch.typed.is_empty() {
        let arrows = [
            (Key::ArrowRight, Direction::EAST),
            (Key::ArrowUp, Direction::NORTH),
            (Key::ArrowLeft, Direction::EAST.reversed()),
            (Key::ArrowDown, Direction::NORTH.reversed()),
        ];
        let way = arrows.into_iter().find(|(key, _)| pressed(*key));
        if way.is_some() || pressed(Key::Enter) {
            match typed_place(scene, sketch, way.map(|(_, way)| way), at) {
                Ok(at) => put(scene, sketch, at, out),
                Err(sentence) => out.push(Intent::Tell(sentence)),
            }
            return true;
        }
    } else if pressed(Key::Enter) {
        end(scene, sketch, false, out);
        return true;
    }
    let mut typed = sketch.typed.clone();
    ui.input(|input| {
        for event in &input.events {
            if let Event::Text(text) = event {
                let begins = text.starts_with(|c: char| c.is_ascii_digit() || "-.½¼¾".contains(c));
                if !typed.is_empty() || begins {
                    typed.push_str(text);
                }
            }
        }
    });
    if typed == sketch.typed {
        return false;
    }
    out.push(turn(typing(sketch, typed)));
    true
}

fn typing(sketch: &Sketch, typed: String) -> Sketch {
    Sketch {
        typed,
        ..sketch.clone()
    }
}

/// The place that is typed: `east; north`, or a length from the last corner in a direction.
fn typed_place(
    scene: &Scene<'_>,
    sketch: &Sketch,
    way: Option<Direction>,
    at: Option<Point>,
) -> Result<Point, String> {
    let ruler = scene.ruler();
    let read = |text: &str| ruler.parse(text.trim()).map_err(|error| error.to_string());
    if let Some((east, north)) = sketch.typed.split_once(';') {
        return Ok(Point::new(read(east)?, read(north)?));
    }
    let length = read(&sketch.typed)?;
    let last = *sketch.corners.last().ok_or(words::WHERE_FIRST)?;
    let length = match sketch.what {
        // A stem is taped across.
        What::Round(ObstacleKind::Tree) => 0.5 * length,
        _ => length,
    };
    let towards = at.and_then(|at| Direction::of(at - last));
    let onward = match sketch.corners.as_slice() {
        [.., before, last] => Direction::of(*last - *before),
        _ => matches!(sketch.what, What::Round(_)).then_some(Direction::EAST),
    };
    let way = way.or(towards).or(onward).ok_or(words::WHICH_WAY)?;
    Ok(last + way.unit() * length)
}

fn held_place(ui: &Ui, view: &View, scene: &Scene<'_>, sketch: &Sketch, to: Point) -> Guided {
    let corners = &sketch.corners;
    let mut beside = Vec::new();
    if let Some(last) = corners.last() {
        let side = match corners.as_slice() {
            [.., before, last] => Direction::of(*last - *before),
            _ => None,
        };
        beside.push(Beside {
            at: *last,
            spot: Spot::Corner(corners.len()),
            side,
        });
    }
    if let [first, second, _, ..] = corners.as_slice() {
        beside.push(Beside {
            at: *first,
            spot: Spot::Corner(1),
            side: Direction::of(*first - *second),
        });
    }
    if matches!(sketch.what, What::Round(_)) {
        beside.clear();
    }
    let free = ui.input(|input| input.modifiers.alt);
    let corner = Corner {
        plan: scene.plan,
        solved: scene.solved,
        beside: &beside,
        to_site: true,
        reach: if free {
            0.0
        } else {
            view.plan_length(super::super::HOLD)
        },
    };
    let round = matches!(sketch.what, What::Round(_));
    match corners.first().filter(|_| round && !free) {
        // The edge of a round thing: a whole radius, of a stem a whole diameter.
        Some(middle) => {
            let times = if sketch.what == What::Round(ObstacleKind::Tree) {
                2.0
            } else {
                1.0
            };
            let graduation = scene.plan.graduation;
            let length = graduation.round(times * middle.distance(to)) / times;
            let way = Direction::of(to - *middle).filter(|_| length > 0.0);
            let at = way.map_or(to, |way| *middle + way.unit() * length);
            Guided {
                at,
                why: Vec::new(),
                lines: Vec::new(),
            }
        }
        None => guided_corner(&corner, to),
    }
}

/// Whether a click here leads back to the first corner.
fn closes(view: &View, sketch: &Sketch, pointer: Pos2) -> bool {
    let first = sketch.corners.first().filter(|_| sketch.can_close());
    first.is_some_and(|first| view.screen_from_plan(*first).distance(pointer) < CATCH)
}

/// What is drawn so far and where it goes on, with its lengths where they are measured.
fn draw(
    painter: &Painter,
    view: &View,
    scene: &Scene<'_>,
    sketch: &Sketch,
    at: Option<Point>,
    labels: &mut Labels,
) {
    let palette = scene.palette;
    let ruler = scene.ruler();
    let style = (Face::Figures.sized(theme::BODY), palette.ink);
    let mut write = |at: Point, text: &str, wish: Vec2| {
        let at = view.screen_from_plan(at);
        labels.write(at, 16.0, wish, text, style.clone());
    };
    let dot = |place: Point| {
        let square = Rect::from_center_size(view.screen_from_plan(place), Vec2::splat(8.0));
        let line = Stroke::new(1.5 * palette.weight, palette.string);
        painter.rect_stroke(square, 0.0, line, StrokeKind::Middle);
    };
    if let (What::Round(kind), Some(middle), Some(edge)) = (sketch.what, sketch.corners.first(), at)
    {
        let radius = middle.distance(edge);
        if radius >= SHORTEST {
            let extent = Extent::Round {
                centre: *middle,
                radius,
            };
            let runs = view.trace(&super::look::outline(&extent, view));
            Pen::Outline.draw_in(painter, &runs, palette, palette.string);
            let text = match kind {
                ObstacleKind::Tree => {
                    let roots = scene.plan.site.roots.radius(2.0 * radius);
                    words::stem(&ruler.text(2.0 * radius), &ruler.text(roots))
                }
                _ => format!("R {}", ruler.text(radius)),
            };
            write(edge, &text, Vec2::new(1.0, 0.0));
        }
        dot(*middle);
        return;
    }
    let mut corners = sketch.corners.clone();
    corners.extend(at);
    for (i, pair) in corners.windows(2).enumerate() {
        let pen = if i + 1 < sketch.corners.len() {
            Pen::Outline
        } else {
            Pen::Ghost
        };
        let runs = view.trace(&[straight(pair[0], pair[1])]);
        pen.draw_in(painter, &runs, palette, palette.string);
        let length = pair[0].distance(pair[1]);
        if length < SHORTEST {
            continue;
        }
        let mut text = ruler.text(length);
        if pen == Pen::Ghost
            && let Some(way) = Direction::of(pair[1] - pair[0])
        {
            text = format!("{text}, {}", plan::units::direction_text(way));
        }
        write(pair[0].middle(pair[1]), &text, Vec2::ZERO);
    }
    if sketch.what.may_close() && corners.len() > 2 {
        let runs = view.trace(&[straight(corners[corners.len() - 1], corners[0])]);
        Pen::Ghost.draw_in(painter, &runs, palette, palette.faint);
        let middle = geometry::Bounds::around(corners.iter().copied());
        let area = Extent::Area(corners.clone()).area();
        if let (Some(area), Some(middle)) = (area.filter(|area| *area > 0.0), middle) {
            write(middle.middle(), &ruler.area(area), Vec2::ZERO);
        }
    }
    corners.into_iter().for_each(dot);
}
