//! How long a frame of the window takes while a peg of a large plan is dragged, all but the painting of the pixels.
//!
//! `cargo bench -p pegbow-bench --bench window`: least and middle milliseconds a frame, apart for what the program does
//! (solving, laying out) and for what the window library makes of it (triangles).
#![expect(clippy::print_stdout, reason = "a bench is there to be read")]

use std::time::{Duration, Instant};

use egui::{Context, Event, Modifiers, PointerButton, Pos2, RawInput, Rect, Vec2};
use pegbow::window::pick::Stage;
use pegbow::window::sketchpad::Sketchpad;
use pegbow::window::theme::{self, Look};
use plan::Plan;

const SIZE: Vec2 = Vec2::new(1280.0, 800.0);
const FRAMES: u8 = 40;
/// Where the stage Set out is turned to at the foot.
const SET_OUT: Pos2 = Pos2::new(147.0, 785.0);

fn main() {
    println!("  legs  seen     solve ms        frame ms      triangles ms  shapes  corners");
    for legs in [200, 2_000, 10_000] {
        let park = bench::park(legs);
        measure("all", &park, 1.0, Stage::Draw);
        measure("near", &park, 12.0, Stage::Draw);
        measure("set out", &park, 1.0, Stage::SetOut);
        measure("tangle", &bench::tangle(legs), 1.0, Stage::Draw);
    }
}

struct Window {
    ctx: Context,
    pad: Sketchpad,
    time: f64,
}

struct Took {
    ui: Duration,
    triangles: Duration,
    shapes: usize,
    corners: usize,
}

impl Window {
    fn frame(&mut self, events: Vec<Event>) -> Took {
        self.time += 1.0 / 60.0;
        let input = RawInput {
            screen_rect: Some(Rect::from_min_size(Pos2::ZERO, SIZE)),
            time: Some(self.time),
            events,
            ..RawInput::default()
        };
        let begun = Instant::now();
        let mut output = self.ctx.run_ui(input, |ui| self.pad.ui(ui));
        let ui = begun.elapsed();
        output.textures_delta.clear();
        let shapes = output.shapes.len();
        let begun = Instant::now();
        let meshes = self.ctx.tessellate(output.shapes, output.pixels_per_point);
        let triangles = begun.elapsed();
        let corners = meshes
            .iter()
            .map(|mesh| match &mesh.primitive {
                egui::epaint::Primitive::Mesh(mesh) => mesh.vertices.len(),
                egui::epaint::Primitive::Callback(_) => 0,
            })
            .sum();
        Took {
            ui,
            triangles,
            shapes,
            corners,
        }
    }
}

/// Drags the last peg of a plan shown so many times larger than the whole of it; at the stage Set out, where nothing
/// can be dragged, the pointer moves only.
fn measure(what: &str, plan: &Plan, closer: f32, stage: Stage) {
    let legs = plan.schemes[0].routes[0].legs.len();
    let mut solving = Duration::MAX;
    for _ in 0..5 {
        let begun = Instant::now();
        std::hint::black_box(plan.solve());
        solving = solving.min(begun.elapsed());
    }
    // Of pegs too near one another the last is shown first.
    let last = plan.schemes[0].routes[0].waypoints[legs].at;
    let ctx = Context::default();
    ctx.enable_accesskit();
    theme::set_fonts(&ctx);
    theme::wear(&ctx, Look::Day);
    let mut window = Window {
        ctx,
        pad: Sketchpad::new(plan.clone(), None),
        time: 0.0,
    };
    for _ in 0..3 {
        window.frame(vec![]);
    }
    let Some(view) = window.pad.canvas().view() else {
        return;
    };
    // The wheel leaves in its place what lies under the pointer.
    let at = view.screen_from_plan(last);
    window.frame(vec![Event::PointerMoved(at)]);
    window.frame(vec![Event::Zoom(closer)]);
    window.frame(vec![]);
    let press = |pos: Pos2, pressed: bool| Event::PointerButton {
        pos,
        button: PointerButton::Primary,
        pressed,
        modifiers: Modifiers::NONE,
    };
    if stage == Stage::SetOut {
        for pressed in [true, false] {
            window.frame(vec![Event::PointerMoved(SET_OUT), press(SET_OUT, pressed)]);
        }
    }
    window.frame(vec![Event::PointerMoved(at), press(at, true)]);
    let mut took: Vec<Took> = (0..FRAMES)
        .map(|step| {
            let by = Vec2::angled(f32::from(step)) * (8.0 + f32::from(step % 7));
            window.frame(vec![Event::PointerMoved(at + by)])
        })
        .skip(4) // until the drag has begun
        .collect();
    assert_eq!(
        window.pad.canvas().is_holding(),
        stage == Stage::Draw,
        "{what}"
    );
    let (shapes, corners) = took
        .last()
        .map_or((0, 0), |last| (last.shapes, last.corners));
    let mut times = |of: fn(&Took) -> Duration| {
        took.sort_by_key(of);
        let ms = |took: Option<&Took>| took.map_or(0.0, |took| of(took).as_secs_f64() * 1e3);
        format!(
            "{:6.2} {:6.2}",
            ms(took.first()),
            ms(took.get(took.len() / 2))
        )
    };
    let (ui, triangles) = (times(|took| took.ui), times(|took| took.triangles));
    println!(
        "{legs:6}  {what:7}  {:7.2}  {ui}  {triangles}  {shapes:6}  {corners:7}",
        solving.as_secs_f64() * 1e3
    );
}
