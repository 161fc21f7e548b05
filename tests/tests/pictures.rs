//! A few small pictures of the window, compared with those kept in tests/pictures.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on says where")]

use egui::accesskit::Role;
use egui::{Pos2, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use pegbow::window::sketchpad::Sketchpad;
use pegbow::window::theme::Look;
use pegbow_tests::harness::{builder, hold, place};
use pegbow_tests::painter::check_picture;
use plan::example;
use plan::units::{Graduation, Units};

fn pad<'a>(look: Look, size: [f32; 2], zoom: f32) -> Harness<'a, Sketchpad> {
    let mut pad = Sketchpad::new(example::plan().unwrap(), None);
    pad.wear(look);
    let mut harness = builder(look)
        .with_size(Vec2::new(size[0], size[1]) / zoom)
        .with_pixels_per_point(zoom)
        .build_eframe(|_| pad);
    harness.run();
    harness
}

#[track_caller]
fn check(name: &str, pad: &mut Harness<'_, Sketchpad>) {
    pad.run();
    check_picture(name, &pad.render().expect("a picture"));
}

#[test]
fn by_day() {
    check("day", &mut pad(Look::Day, [1000.0, 640.0], 1.0));
}

#[test]
fn after_dark_while_a_peg_is_dragged() {
    let mut pad = pad(Look::Dusk, [1000.0, 640.0], 1.0);
    let from = place(&pad, Role::Slider, "Peg 3");
    hold(&mut pad, from, from + Vec2::new(40.0, -30.0), 5);
    pad.run_steps(1);
    check_picture("dusk-drag", &pad.render().expect("a picture"));
}

#[test]
fn in_the_sun_setting_out_in_feet() {
    let mut pad = pad(Look::Sun, [1000.0, 640.0], 1.0);
    pad.state_mut().commit(&plan::Edit::SetUnits {
        units: Units::FeetInches,
        graduation: Graduation::EighthInch,
    });
    pad.get_by_role_and_label(Role::Tab, "Set out").click();
    check("sun-set-out-feet", &mut pad);
}

#[test]
fn how_far_pegs_may_be_out() {
    let mut pad = pad(Look::Dusk, [1000.0, 640.0], 1.0);
    pad.get_by_role_and_label(Role::Tab, "Set out").click();
    pad.run();
    pad.get_by_role_and_label(Role::CheckBox, "Draw how far each peg may be out")
        .click();
    check("trust-dusk", &mut pad);
}

#[test]
fn a_step_of_setting_out() {
    let mut pad = pad(Look::Day, [1000.0, 640.0], 1.0);
    pad.get_by_role_and_label(Role::Tab, "Set out").click();
    pad.run();
    pad.get_by_role_and_label(Role::Button, "From this bend on")
        .click();
    pad.run();
    for _ in 0..4 {
        pad.key_press(egui::Key::ArrowRight);
        pad.run();
    }
    check("step", &mut pad);
}

#[test]
fn twice_as_large_on_a_small_screen() {
    let mut pad = pad(Look::Day, [1280.0, 720.0], 2.0);
    pad.hover_at(Pos2::new(2.0, 2.0));
    check("day-200", &mut pad);
}

#[test]
fn measuring_what_stands_there() {
    let mut pad = pad(Look::Day, [1000.0, 640.0], 1.0);
    pad.get_by_role_and_label(Role::Tab, "Measure").click();
    pad.run();
    let view = *pad.state().canvas().view().unwrap();
    let at = view.screen_from_plan(geometry::Point::new(17.0, 9.0));
    pad.drag_at(at);
    pad.run_steps(1);
    pad.drop_at(at);
    pad.run();
    let side = place(&pad, Role::Slider, "Side 3 of potting shed");
    hold(&mut pad, side, side + Vec2::new(20.0, 0.0), 4);
    pad.run_steps(1);
    check_picture("measure", &pad.render().expect("a picture"));
}

#[test]
fn with_the_strip_along_the_path() {
    let mut pad = pad(Look::Day, [1280.0, 720.0], 1.0);
    pad.key_press(egui::Key::A);
    pad.run();
    let apex = place(&pad, Role::Slider, "Apex of leg 2");
    pad.hover_at(apex);
    check("along", &mut pad);
}

#[test]
fn a_rounded_corner_with_its_pegs() {
    let mut pad = pad(Look::Day, [1000.0, 640.0], 1.0);
    pad.get_by_role_and_label(Role::Button, "B").click();
    check("rounded-corner", &mut pad);
}

#[test]
fn options_compared() {
    let mut pad = pad(Look::Day, [1280.0, 720.0], 1.0);
    pad.get_by_role_and_label(Role::Tab, "Compare").click();
    check("compare", &mut pad);
}

#[test]
fn options_side_by_side_after_dark() {
    let mut pad = pad(Look::Dusk, [1000.0, 640.0], 1.0);
    pad.get_by_role_and_label(Role::Tab, "Compare").click();
    pad.run();
    pad.get_by_role_and_label(Role::Button, "Side by side")
        .click();
    check("beside-dusk", &mut pad);
}

#[test]
fn an_option_before_a_client_in_the_sun() {
    let mut pad = pad(Look::Sun, [1280.0, 720.0], 1.0);
    pad.key_press(egui::Key::C);
    pad.run();
    pad.key_press(egui::Key::Num2);
    pad.run();
    pad.key_press(egui::Key::Space);
    pad.run_steps(40);
    pad.key_press(egui::Key::Space);
    check("client-sun", &mut pad);
}

/// The Count stage with pavers and a few prices.
fn counted<'a>(look: Look) -> Harness<'a, Sketchpad> {
    let mut pad = pad(look, [1280.0, 720.0], 1.0);
    let build_up = plan::count::built_in()[3].clone();
    pad.state_mut().commit(&plan::Edit::SetBuildUp {
        scheme: 0,
        build_up: Some(std::sync::Arc::new(build_up)),
    });
    let list = r#"(
        version: 1,
        currency: (sign: "€"),
        lines: [
            (key: "dig", supplier: "Quarry Lane", sold: Per(CubicMetre), price: "42"),
            (key: "pavers", supplier: "Brickfield", sold: Per(Piece), price: "0.85", delivery: "45"),
            (key: "bedding-sand", supplier: "Quarry Lane", sold: Per(Tonne), price: "38.50"),
            (key: "joint-sand", supplier: "Quarry Lane", sold: Per(Kilogram), price: "0.24"),
        ],
        taxes: [(name: "tax", share: "20 %")],
    )"#;
    let prices = plan::price::read_price_list(list.as_bytes()).unwrap();
    let prices = std::sync::Arc::new(prices);
    pad.state_mut().commit(&plan::Edit::SetPrices(prices));
    pad.get_by_role_and_label(Role::Tab, "Count").click();
    pad.run();
    pad
}

#[test]
fn what_an_option_comes_to() {
    check("count", &mut counted(Look::Day));
}

#[test]
fn what_it_costs_in_the_sun() {
    let mut pad = counted(Look::Sun);
    pad.get_by_role_and_label(Role::Image, "What each part of the work costs")
        .scroll_to_me();
    check("count-cost-sun", &mut pad);
}

#[test]
fn options_on_two_axes_after_dark() {
    let mut pad = pad(Look::Dusk, [1280.0, 720.0], 1.0);
    pad.get_by_role_and_label(Role::Tab, "Compare").click();
    pad.run();
    let header = "On two axes";
    pad.get_by_label(header).scroll_to_me();
    pad.run();
    pad.get_by_label(header).click();
    pad.run();
    let chart = "Options by length across and tightest inside edge upwards";
    pad.get_by_role_and_label(Role::Image, chart).scroll_to_me();
    check("axes-dusk", &mut pad);
}
