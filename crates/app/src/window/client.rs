//! One option over the whole window, for whoever is to live with it: large, calm, nothing to work with.

use egui::{Align, CentralPanel, Frame, Layout, Margin, Panel, RichText, Ui};
use plan::beside::{Beside, beside};
use plan::document::Side;

use super::canvas::{Scene, draw_for_client};
use super::compare::{CompareAsk, NAMED_WITHIN};
use super::fonts::Face;
use super::intent::Intent;
use super::theme;
use super::words::{self, compare as said};

/// Height of the name of an option, in screen points.
const NAME: f32 = 30.0;
/// Height of what is said about it.
const SAYS: f32 = 18.0;

/// Shows the chosen option.
pub fn ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let margin = Margin::symmetric(theme::EDGE, theme::EDGE / 2);
    let frame = Frame::new().inner_margin(margin);
    Panel::top("client head")
        .frame(frame)
        .show_separator_line(false)
        .show(ui, |ui| head_ui(ui, scene));
    Panel::bottom("client foot")
        .frame(frame)
        .show_separator_line(false)
        .show(ui, |ui| foot_ui(ui, scene, out));
    CentralPanel::default().frame(Frame::NONE).show(ui, |ui| {
        let area = ui.max_rect();
        draw_for_client(ui.painter(), area, scene);
        let picture = ui.interact(area, ui.scope_id().with("picture"), egui::Sense::hover());
        ui.ctx().accesskit_node_builder(picture.id, |node| {
            node.set_role(egui::accesskit::Role::Image);
            node.set_label(name(scene));
        });
    });
}

fn name(scene: &Scene<'_>) -> String {
    let scheme = scene.solved.schemes.get(scene.pick.scheme);
    scheme.map_or_else(String::new, |s| said::option(&s.letter, &s.name))
}

/// The height at which a name fits on one line, or the least, at which it wraps.
fn name_size(ui: &Ui, name: String) -> f32 {
    let (font, ink) = (Face::Strong.sized(NAME), ui.visuals().text_color());
    let wide = ui.painter().layout_no_wrap(name, font, ink).size().x;
    (NAME * ui.available_width() / wide.max(1.0)).clamp(SAYS, NAME)
}

fn head_ui(ui: &mut Ui, scene: &Scene<'_>) {
    let heading = RichText::new(name(scene)).text_style(theme::strong());
    let heading = heading.size(name_size(ui, name(scene)));
    let heading = ui.add(egui::Label::new(heading).wrap());
    ui.ctx().accesskit_node_builder(heading.id, |node| {
        node.set_role(egui::accesskit::Role::Heading);
        node.set_label(name(scene));
        node.set_live(egui::accesskit::Live::Polite);
    });
    let standing = scene
        .comparison
        .and_then(|all| all.standings.get(scene.pick.scheme));
    let words = match standing {
        Some(standing) if standing.drawn => standing.character.clone(),
        _ => said::NOTHING_DRAWN.to_owned(),
    };
    ui.add(egui::Label::new(RichText::new(words).size(SAYS)).wrap());
}

fn foot_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let walk = scene.comparing.shown.unwrap_or_default();
    let route = scene.route();
    if let (Some(station), Some(route)) = (walk.station, route) {
        let found = beside(route, &scene.solved.surroundings, station, NAMED_WITHIN);
        let [left, right] = [Side::Left, Side::Right]
            .map(|side| beside_words(scene, side, found[usize::from(side == Side::Right)]));
        for words in [left, right] {
            ui.add(egui::Label::new(RichText::new(words).size(SAYS)).truncate());
        }
    } else {
        // As much room as the words of a walk take: the picture stands still when one sets out.
        ui.add(egui::Label::new(RichText::new(said::CLIENT_KEYS).size(SAYS)).truncate());
        ui.label(RichText::new("").size(SAYS));
    }
    ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
        let walk_word = if walk.walking {
            said::STAND_STILL
        } else {
            said::WALK
        };
        for (words, ask) in [
            (said::LEAVE, CompareAsk::Leave),
            (said::NEXT, CompareAsk::Next { back: false }),
            (said::BEFORE, CompareAsk::Next { back: true }),
            (walk_word, CompareAsk::Walk),
        ] {
            if ui.button(words).clicked() {
                out.push(Intent::Compare(ask));
            }
        }
    });
}

fn beside_words(scene: &Scene<'_>, side: Side, found: Option<Beside>) -> String {
    let Some(found) = found else {
        return said::open_beside(side);
    };
    let obstacle = &scene.plan.site.obstacles[found.obstacle];
    let ruler = plan::compare::spoken(scene.ruler());
    let name = words::site::short_name(obstacle);
    said::beside(side, &name, &ruler.text(found.distance))
}
