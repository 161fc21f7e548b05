//! Plans as large as a plan may be, in the window: bounded work a frame, and nothing freezes.

use std::time::{Duration, Instant};

use egui::accesskit::Role;
use egui::{Key, Modifiers, Shape, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use pegbow::window::sketchpad::Sketchpad;
use pegbow::window::theme::Look;
use pegbow_tests::harness::{builder, hold, let_go};
use plan::{Plan, limits};

type Pad<'a> = Harness<'a, Sketchpad>;

/// The longest frame that is not yet a freeze, unoptimised and on a busy machine.
const FREEZE: Duration = Duration::from_secs(5);

fn window<'a>(plan: Plan) -> Pad<'a> {
    let mut pad = builder(Look::Day)
        .with_size(Vec2::new(1280.0, 800.0))
        .build_eframe(|_| Sketchpad::new(plan, None).asking_in_window());
    pad.run();
    pad
}

/// What is painted and what is read out stay bounded, however many legs there are.
#[track_caller]
fn check(pad: &mut Pad<'_>) {
    let begun = Instant::now();
    pad.step();
    let took = begun.elapsed();
    assert!(took < FREEZE, "{took:?}");
    let shapes = pad.output().shapes.len();
    assert!(shapes < 20_000, "{shapes} shapes");
    let handles = pad.query_all_by_role(Role::Slider).count();
    assert!((1..400).contains(&handles), "{handles} handles");
    let buttons = pad.query_all_by_role(Role::Button).count();
    assert!(buttons < 150, "{buttons} buttons");
}

#[test]
fn ten_thousand_legs_are_shown_dragged_and_set_out() {
    for plan in [
        bench::park(limits::LEGS),
        bench::tangle(limits::LEGS),
        bench::plan(limits::LEGS),
    ] {
        let mut pad = window(plan);
        check(&mut pad);
        let before = pad.state().plan().clone();
        // Of pegs that cannot be told apart the last is shown.
        let place = before.schemes[0].routes[0].waypoints[limits::LEGS].at;
        let at = pad.state().canvas().view().unwrap().screen_from_plan(place);
        let to = at + Vec2::new(-18.0, 14.0);
        hold(&mut pad, at, to, 4);
        assert!(pad.state().canvas().is_holding());
        check(&mut pad);
        let_go(&mut pad, to);
        assert_ne!(*pad.state().plan(), before);
        pad.key_press_modifiers(Modifiers::COMMAND, Key::A);
        pad.run();
        check(&mut pad);
        pad.get_by_role_and_label(Role::Tab, "Set out").click();
        pad.run();
        check(&mut pad);
        pad.hover_at(at);
        for times in [10.0, 100.0, 100.0] {
            pad.event(egui::Event::Zoom(times));
            pad.run();
        }
        let begun = Instant::now();
        pad.step();
        assert!(begun.elapsed() < FREEZE);
    }
}

/// Pegs were once drawn where there was no handle, and could not be moved.
#[test]
fn every_peg_that_is_shown_can_be_moved() {
    let pad = window(bench::plan(2000));
    let handles: Vec<_> = pad
        .query_all_by_role(Role::Slider)
        .map(|node| node.rect().center())
        .collect();
    let ink = Look::Day.palette().ink;
    let mut pegs = 0;
    for clipped in &pad.output().shapes {
        let Shape::Mesh(mesh) = &clipped.shape else {
            continue;
        };
        let [width, height]: [f32; 2] = mesh.calc_bounds().size().into();
        if mesh.vertices.len() == 4 && mesh.vertices[0].color == ink && (width - height).abs() < 0.1
        {
            let at = mesh.calc_bounds().center();
            assert!(
                handles.iter().any(|handle| handle.distance(at) < 1.0),
                "{at}"
            );
            pegs += 1;
        }
    }
    assert!(pegs > 50, "{pegs}");
}

#[test]
fn of_too_many_findings_the_first_are_listed() {
    let pad = window(bench::tangle(200));
    let crossings = |node: &egui_kittest::Node<'_>| {
        let label = node.accesskit_node().label().unwrap_or_default();
        label.contains("crosses itself")
    };
    let listed = pad
        .query_all_by_role(Role::Button)
        .filter(crossings)
        .count();
    assert_eq!(listed, 50);
    assert!(
        pad.query_by_label_contains("more, which show when")
            .is_some()
    );
}
