//! Where the chosen obstacle is: its corners and sides, or its middle and radius.

use egui::{RichText, Ui};
use geometry::Point;
use plan::Edit;
use plan::document::{Extent, ObstacleKind};
use plan::edit::SiteEdit;

use super::super::bend::row_ui;
use super::super::field::{SiteField, Typing, figure_style};
use super::super::{ask, read_length};
use super::chosen::Chosen;
use super::{row_button, rows_ui, subject};
use crate::window::canvas::{insert_corner, side_of};
use crate::window::intent::Intent;
use crate::window::site::{Part, SiteAsk, SitePick, Thing};
use crate::window::theme;
use crate::window::words::capital;

/// The list of corners and sides shows no more rows than this at a time.
const MOST: usize = 6;

/// Shows where it is.
pub(super) fn ui(ui: &mut Ui, typing: &mut Typing, chosen: &Chosen<'_>, out: &mut Vec<Intent>) {
    if let Extent::Round { centre, radius } = chosen.it.extent {
        if chosen.it.kind != ObstacleKind::Tree {
            let row = ("Its radius is", SiteField::Radius);
            chosen.length_ui(ui, typing, row, Some(radius), out, |it, value| {
                if let (Extent::Round { radius, .. }, Some(value)) = (&mut it.extent, value) {
                    *radius = value;
                }
            });
        }
        let middle = Place {
            name: "Its middle stands",
            at: centre,
            nth: 0,
        };
        place_ui(ui, typing, chosen, &middle, out, |to| {
            SiteEdit::MoveObstacle {
                obstacle: chosen.index,
                by: to - centre,
            }
        });
        return;
    }
    part_ui(ui, typing, chosen, out);
    list_ui(ui, chosen, out);
}

/// A place to be typed east and north.
struct Place<'a> {
    name: &'a str,
    at: Point,
    nth: usize,
}

fn place_ui(
    ui: &mut Ui,
    typing: &mut Typing,
    chosen: &Chosen<'_>,
    place: &Place<'_>,
    out: &mut Vec<Intent>,
    edit: impl Fn(Point) -> SiteEdit,
) {
    let ruler = chosen.scene.ruler();
    ui.horizontal_wrapped(|ui| {
        ui.label(place.name);
        for word in ["east", "north"] {
            let east = word == "east";
            let (field, value) = if east {
                (SiteField::East(place.nth), place.at.x)
            } else {
                (SiteField::North(place.nth), place.at.y)
            };
            let label = super::super::sentence(word);
            let shown = ruler.text(value);
            if let Some(typed) = typing.field(ui, subject(field), &label, &shown, figure_style())
                && chosen.may_move(out)
            {
                let to = |value| {
                    if east {
                        Point::new(value, place.at.y)
                    } else {
                        Point::new(place.at.x, value)
                    }
                };
                let read = read_length(&ruler, &typed.text);
                ask(out, read.map(|value| Edit::Site(edit(to(value)))));
            }
            ui.label(word);
        }
    });
}

/// The chosen corner or side with what can be typed of it.
fn part_ui(ui: &mut Ui, typing: &mut Typing, chosen: &Chosen<'_>, out: &mut Vec<Intent>) {
    let extent = &chosen.it.extent;
    let part = chosen.scene.site.map_or(Part::Whole, |pick| pick.part);
    let obstacle = chosen.index;
    match part {
        Part::Corner(corner) => {
            let Some(at) = extent.corners().get(corner).copied() else {
                return;
            };
            let name = format!("{} stands", corner_name(chosen, corner));
            let place = Place {
                name: &name,
                at,
                nth: corner,
            };
            place_ui(ui, typing, chosen, &place, out, |to| SiteEdit::MoveCorner {
                obstacle,
                corner,
                to,
            });
            if chosen.it.kind != ObstacleKind::Gate
                && ui.button("Take this corner out").clicked()
                && chosen.may_move(out)
            {
                out.push(Intent::Site(SiteAsk::TakeOut));
            }
        }
        Part::Side(side) => {
            let Some(piece) = side_of(extent, side) else {
                return;
            };
            let ruler = chosen.scene.ruler();
            ui.label(format!(
                "Side {} is {} long",
                side + 1,
                ruler.text(piece.length())
            ));
            if extent.is_closed() {
                rise_ui(ui, typing, chosen, side, out);
            }
            if ui.button("Put a corner in its middle").clicked() {
                let middle = piece.point_at(0.5 * piece.length());
                out.push(insert_corner(chosen.it, obstacle, side, middle));
                let part = Part::Corner(side + 1);
                let thing = Thing::Obstacle(obstacle);
                out.push(Intent::Site(SiteAsk::Choose(Some(SitePick {
                    thing,
                    part,
                }))));
            }
        }
        Part::Whole => {}
    }
}

/// How far a side bends, and to which side of it.
fn rise_ui(
    ui: &mut Ui,
    typing: &mut Typing,
    chosen: &Chosen<'_>,
    corner: usize,
    out: &mut Vec<Intent>,
) {
    let rise = match &chosen.it.extent {
        Extent::Curved(corners) => corners.get(corner).map_or(0.0, |corner| corner.rise),
        _ => 0.0,
    };
    let obstacle = chosen.index;
    let bend = |rise| {
        Edit::Site(SiteEdit::BendSide {
            obstacle,
            corner,
            rise,
        })
    };
    let ruler = chosen.scene.ruler();
    row_ui(ui, "It rises from its chord by", |ui| {
        let field = subject(SiteField::SideRise);
        let shown = ruler.text(rise.abs());
        if let Some(typed) = typing.field(ui, field, "Rise of the side", &shown, figure_style())
            && chosen.may_move(out)
        {
            // The figure has no sign: it bulges outward, unless it bulges inward already.
            let sign = if rise.abs() > 0.0 {
                rise.signum()
            } else {
                outward(&chosen.it.extent)
            };
            let read = read_length(&ruler, &typed.text);
            ask(out, read.map(|value| bend(value.copysign(sign))));
        }
    });
    if rise.abs() > 0.0 {
        ui.horizontal_wrapped(|ui| {
            for (words, rise) in [("Bend it the other way", -rise), ("Make it straight", 0.0)] {
                if ui.button(words).clicked() && chosen.may_move(out) {
                    out.push(Intent::Commit(bend(rise)));
                }
            }
        });
    }
}

/// The sign of a rise with which a side bulges out of an area: its apex lies left of the side if the
/// area lies right of it.
fn outward(extent: &Extent) -> f64 {
    let corners = extent.corners();
    let next = corners.iter().cycle().skip(1);
    let twice: f64 = corners
        .iter()
        .zip(next)
        .map(|(a, b)| (*a - corners[0]).cross(*b - corners[0]))
        .sum();
    if twice > 0.0 { -1.0 } else { 1.0 }
}

fn corner_name(chosen: &Chosen<'_>, corner: usize) -> String {
    match (chosen.it.kind, corner) {
        (ObstacleKind::Gate, 0) => "Its hinge post".into(),
        (ObstacleKind::Gate, _) => "Its latch post".into(),
        (_, corner) => format!("Corner {}", corner + 1),
    }
}

/// All corners with the sides between them, each to be chosen; only those that show cost anything.
fn list_ui(ui: &mut Ui, chosen: &Chosen<'_>, out: &mut Vec<Intent>) {
    let extent = &chosen.it.extent;
    let corners = extent.corners();
    let (count, ruler) = (corners.len(), chosen.scene.ruler());
    let part = chosen.scene.site.map_or(Part::Whole, |pick| pick.part);
    let thing = Thing::Obstacle(chosen.index);
    let mut row = |ui: &mut Ui, here: Part, words: &str, figure: &str| {
        if row_button(ui, part == here, format!("{words}: {figure}")) {
            let pick = SitePick { thing, part: here };
            out.push(Intent::Site(SiteAsk::Choose(Some(pick))));
        }
    };
    ui.add_space(theme::GAP);
    ui.label(RichText::new("Corner by corner").text_style(theme::strong()));
    let rows = if extent.is_closed() {
        2 * count
    } else {
        (2 * count).saturating_sub(1)
    };
    rows_ui(ui, ("corners", MOST), rows, |ui, nth| {
        let corner = nth / 2;
        if nth % 2 == 0 {
            let at = corners[corner];
            let words = corner_name(chosen, corner);
            let words = capital(words.trim_start_matches("Its "));
            let place = format!("{} east, {} north", ruler.text(at.x), ruler.text(at.y));
            row(ui, Part::Corner(corner), &words, &place);
        } else if let Some(side) = side_of(extent, corner) {
            let bent = if side.arc().is_some() { ", bent" } else { "" };
            let figure = format!("{}{bent}", ruler.text(side.length()));
            let words = format!("Side {}", corner + 1);
            row(ui, Part::Side(corner), &words, &figure);
        }
    });
}
