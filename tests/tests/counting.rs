//! The stage Count driven by hand: a build-up chosen, figures and prices typed, files opened and written.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on says where")]

use std::fs;

use egui::accesskit::Role;
use egui::{Key, Modifiers, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use pegbow::window::sketchpad::Sketchpad;
use pegbow::window::theme::Look;
use pegbow_tests::harness::{builder, value};
use plan::count::{BuildUp, Soil};
use plan::price::PriceList;
use plan::units::Units;
use plan::{Plan, example};

type Pad<'a> = Harness<'a, Sketchpad>;

fn window<'a>(plan: Plan) -> Pad<'a> {
    let mut harness = builder(Look::Day)
        .with_size(Vec2::new(1280.0, 9000.0))
        .build_eframe(|_| Sketchpad::new(plan, None).asking_in_window());
    harness.run();
    click(&mut harness, Role::Tab, "Count");
    harness
}

/// The example without build-ups.
fn bare() -> Plan {
    let mut plan = example::plan().unwrap();
    for scheme in &mut plan.schemes {
        (scheme.build_up, scheme.edging) = (None, None);
    }
    plan
}

/// It with a build-up chosen by hand.
fn built<'a>(of: &str) -> Pad<'a> {
    let mut pad = window(bare());
    choose(&mut pad, "Built of", of);
    pad
}

#[track_caller]
fn click(pad: &mut Pad<'_>, role: Role, label: &str) {
    pad.get_by_role_and_label(role, label).click();
    pad.run();
}

#[track_caller]
fn open(pad: &mut Pad<'_>, header: &str) {
    pad.get_by_label(header).click();
    pad.run();
}

#[track_caller]
fn choose(pad: &mut Pad<'_>, from: &str, what: &str) {
    click(pad, Role::ComboBox, from);
    click(pad, Role::Button, what);
}

#[track_caller]
fn type_into(pad: &mut Pad<'_>, label: &str, text: &str) {
    click(pad, Role::TextInput, label);
    let typed = if text.is_empty() {
        pad.key_press(Key::Delete);
        pad.run();
        Key::Enter
    } else {
        pad.event(egui::Event::Text(text.to_owned()));
        pad.run();
        Key::Enter
    };
    pad.key_press(typed);
    pad.run();
}

fn undo(pad: &mut Pad<'_>) {
    pad.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    pad.run();
}

fn shows(pad: &Pad<'_>, words: &str) -> bool {
    pad.query_all_by_label_contains(words).next().is_some()
}

fn said(pad: &Pad<'_>) -> String {
    pad.state()
        .said()
        .map_or_else(String::new, |said| said.sentence.clone())
}

fn build_up(pad: &Pad<'_>) -> BuildUp {
    let scheme = &pad.state().plan().schemes[0];
    BuildUp::clone(scheme.build_up.as_ref().unwrap())
}

fn prices(pad: &Pad<'_>) -> PriceList {
    PriceList::clone(&pad.state().plan().prices)
}

/// The names of all fields for a price.
fn price_fields(pad: &Pad<'_>) -> Vec<String> {
    let all = pad.query_all_by_role(Role::TextInput);
    let labels = all.filter_map(|node| node.accesskit_node().label());
    labels.filter(|label| label.ends_with(": price")).collect()
}

#[test]
fn without_build_up_path_or_prices_it_says_what_to_do() {
    let mut pad = window(bare());
    assert!(shows(
        &pad,
        "Choose what the paths of this option are built of"
    ));
    choose(&mut pad, "Built of", "Brick or pavers on sand");
    assert!(shows(&pad, "There are no prices yet"));
    let pad = window(Plan::empty(Units::Metric));
    assert!(shows(&pad, "There is no path to count yet"));
}

#[test]
fn a_build_up_is_chosen_and_a_thickness_typed_each_undone_in_one_step() {
    let mut pad = window(bare());
    let before = pad.state().plan().clone();
    choose(&mut pad, "Built of", "Brick or pavers on sand");
    assert_eq!(build_up(&pad).name, "Brick or pavers on sand");
    assert!(shows(&pad, "Loads (6-yard skip)"));
    open(&mut pad, "What is assumed of it");
    assert!(shows(&pad, "pavingexpert.com, block details"));
    let thickness = "Sharp sand: thickness, compacted";
    assert_eq!(value(&pad, Role::TextInput, thickness), "0.040 m");
    type_into(&mut pad, thickness, "50mm");
    let bed = build_up(&pad).layers[1].thickness.clone();
    assert_eq!(bed, plan::count::build_up::Assumed::own(0.05));
    assert_eq!(value(&pad, Role::TextInput, thickness), "0.050 m");
    undo(&mut pad);
    assert_eq!(value(&pad, Role::TextInput, thickness), "0.040 m");
    undo(&mut pad);
    assert_eq!(*pad.state().plan(), before);
}

#[test]
fn bad_figures_are_refused_with_the_remedy_and_nothing_changes() {
    let mut pad = built("Brick or pavers on sand");
    open(&mut pad, "What is assumed of it");
    let before = pad.state().plan().clone();
    for (field, text, expected) in [
        ("Sharp sand: thickness, compacted", "-40mm", "thickness"),
        ("Sharp sand: density, compacted", "0", "density"),
        ("Sharp sand: waste on bends", "140 %", "more than 100 %"),
        ("Sharp sand: waste on bends", "some", "is no figure"),
        (
            "Sharp sand: density, compacted",
            "1800 lumps",
            "is no unit for this",
        ),
    ] {
        type_into(&mut pad, field, text);
        assert!(said(&pad).contains(expected), "{text}: {}", said(&pad));
        assert_eq!(*pad.state().plan(), before, "{text}");
    }
}

#[test]
fn the_soil_and_hours_are_set() {
    let mut pad = built("Brick or pavers on sand");
    open(&mut pad, "What is dug, and what carries it");
    choose(&mut pad, "What is dug", "clay");
    assert_eq!(pad.state().plan().count.soil, Soil::Clay);
    click(&mut pad, Role::CheckBox, "Count hours of work");
    assert!(pad.state().plan().count.labour);
    type_into(&mut pad, "It is wheeled, one way", "35 m");
    assert_eq!(
        pad.state().plan().count.distance.to_bits(),
        35.0_f64.to_bits()
    );
    type_into(&mut pad, "A barrow is filled with", "70 L");
    assert_eq!(
        pad.state().plan().count.barrow.volume.to_bits(),
        0.07_f64.to_bits()
    );
    click(&mut pad, Role::Button, "Back to the usual figures");
    assert_eq!(
        pad.state().plan().count,
        plan::count::CountSettings::default()
    );
}

#[test]
fn a_price_deleted_makes_the_total_incomplete_again() {
    let mut pad = built("Brick or pavers on sand");
    let fields = price_fields(&pad);
    assert!(fields.len() > 3, "{fields:?}");
    for field in &fields {
        type_into(&mut pad, field, "10.50");
        assert_eq!(value(&pad, Role::TextInput, field), "10.50");
    }
    assert_eq!(prices(&pad).lines.len(), fields.len());
    assert!(!shows(&pad, "incomplete"));
    assert!(shows(&pad, "Total "));
    type_into(&mut pad, &fields[1], "");
    assert_eq!(value(&pad, Role::TextInput, &fields[1]), "no price");
    assert_eq!(prices(&pad).lines.len(), fields.len() - 1);
    let missing = format!("incomplete: 1 of {} lines has no price", fields.len());
    assert!(shows(&pad, &missing));
    type_into(&mut pad, &fields[1], "12,50");
    assert!(said(&pad).contains("is no price"), "{}", said(&pad));
    undo(&mut pad);
    assert!(!shows(&pad, "incomplete"));
}

#[test]
fn the_currency_shares_and_taxes_are_typed() {
    let mut pad = built("Brick or pavers on sand");
    let first = price_fields(&pad).remove(0);
    type_into(&mut pad, &first, "10.50");
    type_into(&mut pad, "Currency", "€");
    type_into(&mut pad, "Overhead and profit", "15");
    click(&mut pad, Role::Button, "Add a tax");
    type_into(&mut pad, "Share of tax", "20 %");
    let list = prices(&pad);
    assert_eq!(list.currency.sign, "€");
    assert_eq!(list.overhead.to_string(), "15 %");
    assert_eq!(list.taxes[0].share.to_string(), "20 %");
    assert!(shows(&pad, "Tax, 20 %"));
    type_into(&mut pad, "Overhead and profit", "150 %");
    assert!(said(&pad).contains("at most 100 %"), "{}", said(&pad));
}

#[test]
fn pavers_are_counted_with_a_caution_about_dust() {
    let pad = built("Brick or pavers on sand");
    assert!(shows(&pad, "to order without spares"));
    assert!(shows(&pad, "silica dust"));
    let pad = built("Gravel on a compacted base");
    assert!(!shows(&pad, "silica dust"));
}

/// Does what an action asks for with a path typed in the window.
fn with_path(pad: &mut Pad<'_>, button: &str, field: &str, path: &std::path::Path, go: &str) {
    click(pad, Role::Button, button);
    click(pad, Role::TextInput, field);
    pad.key_press_modifiers(Modifiers::COMMAND, Key::A);
    pad.event(egui::Event::Text(path.display().to_string()));
    pad.run();
    click(pad, Role::Button, go);
}

#[test]
fn prices_are_kept_between_jobs_and_the_order_list_is_written() {
    let folder = tempfile::tempdir().unwrap();
    let (list, order) = (
        folder.path().join("prices.ron"),
        folder.path().join("order.csv"),
    );
    let mut pad = built("Brick or pavers on sand");
    for field in price_fields(&pad) {
        type_into(&mut pad, &field, "3.25");
    }
    let before = prices(&pad);
    let save = "Type where the price list is to be saved";
    with_path(&mut pad, "Save the price list…", save, &list, "Save it");
    let write = "Type where the order list is to be written: .csv";
    with_path(&mut pad, "Order list…", write, &order, "Write it");
    let table = fs::read_to_string(&order).unwrap();
    assert!(table.starts_with("part,key,name,amount,unit,"), "{table}");
    assert_eq!(table.lines().count(), 1 + before.lines.len());

    let mut other = built("Brick or pavers on sand");
    let open = "Type where the price list is";
    with_path(&mut other, "Open a price list…", open, &list, "Open it");
    assert_eq!(prices(&other), before);
    fs::write(&list, "(version: 1,\n  lines: [(key: 7)])").unwrap();
    with_path(&mut other, "Open a price list…", open, &list, "Open it");
    assert!(said(&other).contains("line 2, column"), "{}", said(&other));
    assert_eq!(prices(&other), before);
}

#[test]
fn the_order_list_and_the_clients_page_are_written_as_pages() {
    let folder = tempfile::tempdir().unwrap();
    let (order, page) = (
        folder.path().join("order.pdf"),
        folder.path().join("page.pdf"),
    );
    let mut pad = built("Brick or pavers on sand");
    let field = "Type where the order list is to be written: .pdf";
    with_path(&mut pad, "Order list to print…", field, &order, "Write it");
    assert!(fs::read(&order).unwrap().starts_with(b"%PDF"));
    click(&mut pad, Role::Tab, "Compare");
    let field = "Type where the client's page is to be written: .pdf";
    with_path(&mut pad, "Page for the client…", field, &page, "Write it");
    assert!(fs::read(&page).unwrap().starts_with(b"%PDF"));
}

#[test]
fn a_build_up_of_ones_own_is_read_and_a_bad_one_changes_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("own.ron");
    let mut own = plan::count::built_in()[0].clone();
    own.name = "Gravel of the yard".to_owned();
    fs::write(&path, plan::count::write_build_up(&own)).unwrap();
    let mut pad = window(bare());
    let field = "Type where the build-up is";
    with_path(&mut pad, "Own build-up…", field, &path, "Open it");
    assert_eq!(build_up(&pad), own);
    assert!(value(&pad, Role::ComboBox, "Built of").starts_with("Gravel of the yard"));
    fs::write(&path, "(\n  name: \"Gravel\",\n  layer: [],\n)").unwrap();
    with_path(&mut pad, "Own build-up…", field, &path, "Open it");
    assert!(said(&pad).contains("line 3, column"), "{}", said(&pad));
    assert_eq!(build_up(&pad), own);
}

#[test]
fn compare_has_what_is_dug_and_what_it_costs() {
    let mut pad = built("Brick or pavers on sand");
    click(&mut pad, Role::Tab, "Compare");
    assert!(shows(&pad, "Option A, dug out: "));
}
