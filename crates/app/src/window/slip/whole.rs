//! What is not about one leg: the head of the slip, findings, the path and the plan.

use egui::{Button, RichText, Ui};
use plan::document::Shape;
use plan::edit::LegId;
use plan::finding::{Code, Part, Severity};
use plan::units::{Graduation, Units};
use plan::{Edit, Finding};

use super::field::{Subject, Typing, figure_style};
use super::{ask, bend::row_ui, read_length};
use crate::window::action::Action;
use crate::window::canvas::Scene;
use crate::window::intent::Intent;
use crate::window::pick::{Picked, Stage};
use crate::window::site::{SiteAsk, SitePick, Thing};
use crate::window::theme::{self, Look};
use crate::window::words;

/// The options, and the paths of the one shown.
pub(super) fn head_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    ui.horizontal_wrapped(|ui| {
        ui.label("Option");
        for (i, scheme) in scene.solved.schemes.iter().enumerate() {
            let chosen = i == scene.pick.scheme;
            if ui.selectable_label(chosen, &scheme.letter).clicked() {
                out.push(Intent::Scheme(i));
            }
        }
        if let Some(scheme) = scene.solved.schemes.get(scene.pick.scheme) {
            let name = RichText::new(words::short(&scheme.name)).text_style(theme::strong());
            ui.label(name).on_hover_text(&scheme.name);
        }
    });
    if let Some(scheme) = scene.solved.schemes.get(scene.pick.scheme)
        && scheme.routes.len() > 1
    {
        ui.horizontal_wrapped(|ui| {
            for (i, route) in scheme.routes.iter().enumerate() {
                let chosen = i == scene.pick.route;
                let name = words::short(&route.name);
                let touch = ui.selectable_label(chosen, name).on_hover_text(&route.name);
                if touch.clicked() {
                    out.push(Intent::Route(i));
                }
            }
        });
    }
    ui.add_space(theme::GAP);
}

/// What to put right or know; a click goes there.
pub(super) fn findings_ui(ui: &mut Ui, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let mut here = scene
        .solved
        .findings
        .iter()
        .filter(|finding| finding.place.concerns(scene.pick.scheme));
    for finding in here.by_ref().take(MOST_FINDINGS) {
        let (sign, colour) = match finding.severity {
            Severity::Stop => ("Stop", scene.palette.clay),
            Severity::Care => ("Care", scene.palette.ochre),
            Severity::Note => ("Note", scene.palette.faint),
        };
        let part = match finding.place.part {
            Part::Whole => String::new(),
            Part::Waypoint(i) => format!(", waypoint {}", i + 1),
            Part::Leg(i) => format!(", leg {}", i + 1),
            Part::Obstacle(_) => ", on the site".to_owned(),
        };
        ui.label(
            RichText::new(format!("{sign}{part}"))
                .text_style(theme::strong())
                .color(colour),
        );
        let sentence = super::sentence(&finding.sentence);
        // A button takes a little more than its text: the text keeps within.
        let room = egui::vec2(ui.available_width() - 4.0, 0.0);
        let says = Button::new(sentence).wrap().frame(false);
        let says = ui.allocate_ui(room, |ui| ui.add(says)).inner;
        if says.clicked() {
            let of_path = !matches!(finding.place.part, Part::Obstacle(_));
            if of_path && finding.place.route != scene.pick.route {
                out.push(Intent::Route(finding.place.route));
            }
            out.push(Intent::GoTo(finding.place.at));
            match finding.place.part {
                Part::Leg(leg) => out.push(Intent::Pick(Picked::Leg(leg))),
                Part::Waypoint(i) => out.push(Intent::Pick(Picked::Waypoint(i))),
                Part::Obstacle(i) => {
                    let whole = SitePick::whole(Thing::Obstacle(i));
                    out.push(Intent::Stage(Stage::Measure));
                    out.push(Intent::Site(SiteAsk::Choose(Some(whole))));
                }
                Part::Whole => {}
            }
        }
        if finding.code == Code::DirectionMissed {
            offer_two_bends(ui, scene, finding, out);
        }
        ui.add_space(theme::GAP);
    }
    let more = here.count();
    if more > 0 {
        ui.label(words::more_findings(more));
        ui.add_space(theme::GAP);
    }
}

/// Findings listed at a time, what matters most first: more would not be read.
const MOST_FINDINGS: usize = 50;

/// One bend cannot meet two pegs and two directions; two smoothly joined can.
fn offer_two_bends(ui: &mut Ui, scene: &Scene<'_>, finding: &Finding, out: &mut Vec<Intent>) {
    let (scheme, index) = (finding.place.scheme, finding.place.route);
    let (Some(route), Part::Waypoint(waypoint)) =
        (scene.plan.route(scheme, index), finding.place.part)
    else {
        return;
    };
    let leg = if waypoint == 0 { 0 } else { waypoint - 1 };
    let id = LegId {
        scheme,
        route: index,
        leg,
    };
    if route
        .legs
        .get(leg)
        .is_some_and(|shape| *shape != Shape::TwoBends)
        && ui.button("Make that leg two bends").clicked()
    {
        let shape = Shape::TwoBends;
        out.push(Intent::Commit(Edit::SetShape { id, shape }));
    }
}

/// The path as a whole: width, length, area.
pub(super) fn path_ui(ui: &mut Ui, typing: &mut Typing, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    let Some(route) = scene.route() else { return };
    let ruler = scene.ruler();
    let name = RichText::new(words::short(&route.name)).text_style(theme::strong());
    ui.label(name).on_hover_text(&route.name);
    row_ui(ui, "Width", |ui| {
        let shown = ruler.text(route.width);
        if let Some(typed) = typing.field(ui, Subject::Width, "Width", &shown, figure_style()) {
            let (scheme, route) = (scene.pick.scheme, scene.pick.route);
            let read = read_length(&ruler, &typed.text);
            ask(
                out,
                read.map(|width| Edit::SetWidth {
                    scheme,
                    route,
                    width,
                }),
            );
        }
    });
    let lines = [
        ("Centre line", &route.centre_line),
        ("Left edge", &route.left_edge),
        ("Right edge", &route.right_edge),
    ];
    for (name, line) in lines {
        if let Some(line) = line {
            row_ui(ui, name, |ui| {
                ui.label(RichText::new(ruler.text(line.length())).text_style(figure_style()));
            });
        }
    }
    row_ui(ui, "Area", |ui| {
        ui.label(RichText::new(ruler.area(route.area)).text_style(figure_style()));
    });
}

/// The plan itself: title, units, tape, files, look.
pub(super) fn plan_ui(ui: &mut Ui, typing: &mut Typing, scene: &Scene<'_>, out: &mut Vec<Intent>) {
    ui.horizontal_wrapped(|ui| {
        let title = &scene.plan.title;
        if let Some(typed) = typing.field(ui, Subject::Title, "Title", title, theme::strong()) {
            out.push(Intent::Commit(Edit::SetTitle(typed.text.trim().to_owned())));
        }
    });
    ui.horizontal_wrapped(|ui| {
        for units in Units::ALL {
            let chosen = scene.plan.units == units;
            let name = super::sentence(units.label());
            if ui.selectable_label(chosen, name).clicked() && !chosen {
                let graduation = Graduation::default_for(units);
                out.push(Intent::Commit(Edit::SetUnits { units, graduation }));
            }
        }
    });
    let units = scene.plan.units;
    let chosen = scene.plan.graduation;
    let named = ui.label("Smallest division of the tape");
    let choice = egui::ComboBox::from_id_salt("graduation")
        .selected_text(chosen.label())
        .show_ui(ui, |ui| {
            for graduation in Graduation::for_units(units) {
                let here = *graduation == chosen;
                if ui.selectable_label(here, graduation.label()).clicked() && !here {
                    let graduation = *graduation;
                    out.push(Intent::Commit(Edit::SetUnits { units, graduation }));
                }
            }
        });
    choice.response.labelled_by(named.id);
    ui.add_space(theme::GAP);
    ui.horizontal_wrapped(|ui| {
        for action in [
            Action::Undo,
            Action::Redo,
            Action::Save,
            Action::SaveAs,
            Action::Open,
            Action::New,
            Action::Sheet,
            Action::Fit,
        ] {
            let entry = action.entry();
            let tip = entry.tip_with_key(ui.ctx());
            if ui.button(entry.name).on_hover_text(tip).clicked() {
                out.push(Intent::Do(action));
            }
        }
    });
    ui.add_space(theme::GAP);
    ui.horizontal_wrapped(|ui| {
        ui.label("Seen");
        for (look, name) in [
            (Look::Day, "by day"),
            (Look::Dusk, "after dark"),
            (Look::Sun, "in the sun"),
        ] {
            if ui.button(name).clicked() {
                out.push(Intent::Wear(look));
            }
        }
    });
}
