//! What holds the edges: courses, pins, haunches, forms.

use super::super::super::build_up::{EdgeCourse, Haunch, Pins};
use super::super::super::packs::packed;
use super::super::super::{Measure, Need, Part};
use super::super::EdgeQuantity;
use super::{List, because, need, packs, range, waste_words};
use crate::document::Side;

impl List<'_> {
    pub(super) fn edges(&self) -> Vec<Need> {
        let mut needs: Vec<Need> = Vec::new();
        for side in [Side::Left, Side::Right] {
            if let Some(course) = self.build_up.course(side) {
                for found in self.course(course, side) {
                    add(&mut needs, found);
                }
            }
        }
        needs
    }

    fn course(&self, course: &EdgeCourse, side: Side) -> Vec<Need> {
        let edge = self.quantities.edge(side);
        let share = edge.curved_share();
        let ordered = |waste: f64| edge.length * (1.0 + waste);
        let (key, name) = (&course.key, &course.name);
        let amount = ordered(course.waste.at(share));
        let mut laid = need(key, name, Part::Edges, Measure::Length, amount);
        laid.range = range(course.waste.spread_at(share).map(ordered));
        laid.packs = packs(&course.packs);
        laid.because = waste_words(&course.waste);
        let mut needs = vec![laid];
        if let Some(pins) = &course.pins {
            needs.push(self.pins(pins, edge));
        }
        if let Some(Haunch { key, name, section }) = &course.haunch {
            let volume = edge.length * section.value;
            let mut found = need(key, name, Part::Edges, Measure::Volume, volume);
            found.range = range(section.spread().map(|section| edge.length * section));
            let what = format!("{} m³ for each metre of edge", section.value);
            found.because = vec![because(what, &section.source)];
            needs.push(found);
        }
        needs
    }

    fn pins(&self, pins: &Pins, edge: &EdgeQuantity) -> Need {
        let count = pin_count(pins, edge) as f64;
        let mut found = need(&pins.key, &pins.name, Part::Edges, Measure::Pieces, count);
        found.because = vec![
            self.length(&pins.straight, "one each ", " on straights"),
            self.length(&pins.curve, "one each ", " on bends"),
        ];
        found
    }

    pub(super) fn forms(&self) -> Vec<Need> {
        let Some(forms) = &self.build_up.forms else {
            return Vec::new();
        };
        let mut needs: Vec<Need> = Vec::new();
        for side in [Side::Left, Side::Right] {
            let edge = self.quantities.edge(side);
            let share = edge.curved_share();
            let amount = edge.length * (1.0 + forms.waste.at(share));
            let (key, name) = (&forms.key, &forms.name);
            let mut found = need(key, name, Part::Edges, Measure::Length, amount);
            found.because = waste_words(&forms.waste);
            add(&mut needs, found);
            if let Some(stakes) = &forms.stakes {
                add(&mut needs, self.pins(stakes, edge));
            }
        }
        needs
    }
}

/// How many pins hold an edge: one at each spacing, and one to end with.
pub(in super::super) fn pin_count(pins: &Pins, edge: &EdgeQuantity) -> u64 {
    let straight = (edge.length - edge.curved) / pins.straight.value;
    let curved = edge.curved / pins.curve.value;
    if edge.length > 0.0 {
        packed(straight + curved, 1.0).count + 1
    } else {
        0
    }
}

/// Adds a need, to one of the same key if there is one.
fn add(needs: &mut Vec<Need>, found: Need) {
    let Some(same) = needs.iter_mut().find(|need| need.key == found.key) else {
        needs.push(found);
        return;
    };
    same.range = match (same.range, found.range) {
        (None, None) => None,
        (a, b) => {
            let (a, b) = (
                a.unwrap_or([same.amount; 2]),
                b.unwrap_or([found.amount; 2]),
            );
            Some([a[0] + b[0], a[1] + b[1]])
        }
    };
    same.amount += found.amount;
    for reason in found.because {
        if !same.because.contains(&reason) {
            same.because.push(reason);
        }
    }
}
