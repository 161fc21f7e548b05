//! The order list, part by part: how much of each thing, how it is sold, what it costs, and why.

use egui::{CollapsingHeader, RichText, Ui};
use plan::count::{Need, Part, Quantities};
use plan::order::Order;
use plan::price::Line;

use super::{heading, line, small};
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::slip::field::Typing;
use crate::window::theme;
use crate::window::words::{capital, count as said};

/// Shows it.
pub(super) fn ui(
    ui: &mut Ui,
    typing: &mut Typing,
    scene: &Scene<'_>,
    order: &Order,
    out: &mut Vec<Intent>,
) {
    let Order {
        quantities, charge, ..
    } = order;
    if !quantities.not_counted.is_empty() {
        let words = said::not_counted(&quantities.not_counted);
        ui.label(RichText::new(words).color(scene.palette.clay));
    }
    for part in &charge.parts {
        ui.add_space(theme::GAP);
        heading(ui, said::part(part.part));
        if !scene.plan.prices.is_empty() {
            small(ui, scene, &said::sum(charge, part.sum, part.missing));
        }
        if part.part == Part::Dig {
            spoil_ui(ui, scene, quantities);
        }
        let lines = quantities.needs.iter().zip(&charge.lines).enumerate();
        for (place, (need, line)) in lines.filter(|(_, (need, _))| need.part == part.part) {
            need_ui(ui, typing, scene, (place, need, line), order, out);
        }
    }
}

fn need_ui(
    ui: &mut Ui,
    typing: &mut Typing,
    scene: &Scene<'_>,
    (place, need, line): (usize, &Need, &Line),
    order: &Order,
    out: &mut Vec<Intent>,
) {
    let ruler = scene.ruler();
    ui.add_space(theme::GAP);
    let name = capital(&crate::window::words::short(&need.name));
    ui.label(RichText::new(&name).text_style(theme::strong()));
    ui.label(said::unbroken(&said::amount(need, ruler)));
    let ordered = line.ordered.as_ref();
    if let Some(ordered) = ordered.filter(|it| it.packs || line.price.is_ok()) {
        ui.label(said::unbroken(&said::ordered(ordered, need.measure, ruler)));
    }
    line::price_ui(ui, typing, scene, (place, need, line), &order.charge, out);
    let why = CollapsingHeader::new(said::WHY).id_salt(("why", &need.key));
    let why = why.show(ui, |ui| {
        for because in &need.because {
            let what = capital(&because.what);
            small(ui, scene, &format!("{what}: {}", because.source));
        }
        line::sellers_ui(ui, typing, scene, need, out);
    });
    ui.ctx()
        .accesskit_node_builder(why.header_response.id, |node| {
            node.set_label(format!("{name}: {}", said::WHY.to_lowercase()));
        });
}

/// What is dug, how much room it takes loose, what it weighs, and what carries it.
fn spoil_ui(ui: &mut Ui, scene: &Scene<'_>, quantities: &Quantities) {
    let ruler = scene.ruler();
    let spoil = &quantities.spoil;
    let volume = |amount| ruler.volume(amount);
    let in_ground = format!(
        "In the ground: {}, {} deep",
        volume(spoil.bank),
        ruler.text(quantities.dug.depth)
    );
    let carrier = &scene.plan.count.carrier.name;
    for words in [
        in_ground,
        said::spoil("Loose", spoil.loose, volume),
        said::spoil("It weighs", spoil.mass, |mass| ruler.mass(mass)),
        said::loads(&spoil.loads, carrier),
        said::barrows(&spoil.barrows, &ruler),
    ] {
        ui.label(said::unbroken(&words));
    }
}
