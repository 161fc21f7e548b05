//! Bends near the chosen one whose figures fall on the tape, to be taken instead of it.

use egui::{Button, Ui};
use plan::document::Shape;
use plan::setout::Voice;

use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::pick::Picked;
use crate::window::theme;
use crate::window::words::{capital, clean as words};

/// Shows them; nothing of it is worked out while it is shut, or while the hand is down.
pub(super) fn ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let Some(Picked::Leg(leg)) = scene.pick.part else {
        return;
    };
    let id = scene.pick.leg(leg);
    let route = scene.plan.route(id.scheme, id.route);
    if !matches!(
        route.and_then(|route| route.legs.get(leg)),
        Some(Shape::Bend { .. })
    ) {
        return;
    }
    egui::CollapsingHeader::new(words::TITLE)
        .id_salt("clean figures")
        .show(ui, |ui| {
            if scene.before.is_some() {
                ui.label(words::LATER);
                return;
            }
            let Some(offers) = scene.derived.clean(id, scene.room) else {
                return;
            };
            match &*offers {
                Err(why) => {
                    ui.label(capital(&why.to_string()));
                }
                Ok(offers) if offers.is_empty() => {
                    ui.label(words::NONE);
                }
                Ok(offers) => {
                    let voice = Voice {
                        ruler: scene.ruler(),
                        both: false,
                    };
                    for (nth, offer) in offers.iter().enumerate() {
                        ui.add_space(theme::GAP);
                        ui.label(capital(&offer.words(&voice)));
                        let take = ui.add(Button::new(words::TAKE).wrap());
                        ui.ctx().accesskit_node_builder(take.id, |node| {
                            node.set_label(words::take(nth + 1));
                        });
                        if take.clicked() {
                            out.push(Intent::Commit(offer.edit.clone()));
                        }
                    }
                }
            }
        });
}
