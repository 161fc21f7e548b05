//! Everything to dig, buy and do, in the order of work.

mod edges;
mod hours;

use super::super::build_up::{
    Assumed, Bought, BuildUp, Filling, Layer, LayerPart, Membrane, Packing, Source, Waste,
};
use super::super::packs::packed;
use super::super::{Because, Measure, Need, Pack, Part};
use super::measured::Measured;
use super::{Pavers, Quantities};
use crate::document::Plan;
use crate::units::Ruler;

pub(super) use edges::pin_count;

pub(super) fn needs(
    plan: &Plan,
    build_up: &BuildUp,
    measured: &Measured,
    quantities: &Quantities,
) -> Vec<Need> {
    let list = List {
        plan,
        ruler: plan.ruler(),
        build_up,
        measured,
        quantities,
    };
    let mut needs = list.dig();
    needs.extend(list.membrane());
    for (layer, area) in build_up.layers.iter().zip(&measured.layers).rev() {
        needs.extend(list.layer(layer, *area));
    }
    needs.extend(list.edges());
    needs.extend(list.forms());
    needs.extend(list.joints());
    if plan.count.labour {
        needs.extend(list.hours());
    }
    // The order of work within a part is that in which they were put here.
    needs.retain(|need| need.amount > 0.0);
    needs.sort_by_key(|need| need.part);
    needs
}

/// The source of what follows from the outline itself.
const COUNTED: &str = "counted";

struct List<'a> {
    plan: &'a Plan,
    ruler: Ruler,
    build_up: &'a BuildUp,
    measured: &'a Measured,
    quantities: &'a Quantities,
}

/// A need of an amount, still without packs, range and reasons.
fn need(key: &str, name: &str, part: Part, measure: Measure, amount: f64) -> Need {
    Need {
        key: key.into(),
        name: name.into(),
        part,
        measure,
        amount,
        range: None,
        packs: Vec::new(),
        because: Vec::new(),
    }
}

fn because(what: String, source: &Source) -> Because {
    Because {
        what,
        source: source.to_string(),
    }
}

fn packs(packs: &[Packing]) -> Vec<Pack> {
    let pack = |pack: &Packing| Pack {
        name: pack.name.clone(),
        holds: pack.holds.value,
    };
    packs.iter().map(pack).collect()
}

/// The least and the most, if they differ.
fn range([low, high]: [f64; 2]) -> Option<[f64; 2]> {
    (low < high).then_some([low, high])
}

fn percent(share: f64) -> String {
    format!("{} %", (share * 1000.0).round() / 10.0)
}

fn waste_words(waste: &Waste) -> Vec<Because> {
    let (straight, curve) = (&waste.straight, &waste.curve);
    let (on, off) = (percent(straight.value), percent(curve.value));
    if straight.source == curve.source {
        let what = format!("waste {on} on straights, {off} on bends");
        return vec![because(what, &straight.source)];
    }
    vec![
        because(format!("waste {on} on straights"), &straight.source),
        because(format!("waste {off} on bends"), &curve.source),
    ]
}

impl List<'_> {
    fn length(&self, assumed: &Assumed, before: &str, after: &str) -> Because {
        let length = self.ruler.text(assumed.value);
        because(format!("{before}{length}{after}"), &assumed.source)
    }

    fn dig(&self) -> Vec<Need> {
        let (dug, spoil) = (&self.quantities.dug, &self.quantities.spoil);
        let mut dig = need("dig", "digging", Part::Dig, Measure::Volume, dug.volume);
        let worked = |what: String, source: &str| Because {
            what,
            source: source.into(),
        };
        let beyond = self.build_up.dug_beyond();
        dig.because = vec![
            worked(
                format!("dug {} deep", self.ruler.text(dug.depth)),
                "the layers of the build-up together, less what stands above the ground",
            ),
            worked(
                format!(
                    "dug {} beyond the left edge and {} beyond the right",
                    self.ruler.text(beyond[0]),
                    self.ruler.text(beyond[1])
                ),
                "the edging, and the base beyond it",
            ),
        ];
        let soil = self.plan.count.soil.data();
        let carrier = &self.plan.count.carrier;
        let (name, loose) = ("spoil to take away, loose", spoil.loose.amount);
        let mut away = need("spoil", name, Part::Dig, Measure::Volume, loose);
        away.range = spoil.loose.range;
        // As much as may leave at once: the fill, or what weighs as much as is allowed.
        let holds = carrier.volume.min(carrier.payload / soil.density.value);
        away.packs = vec![Pack {
            name: carrier.name.clone(),
            holds,
        }];
        away.because = vec![
            because(
                format!("{} bulks by {}", soil.name, soil.bulking.value),
                &soil.bulking.source,
            ),
            because(
                format!("{} weighs {} kg/m³ loose", soil.name, soil.density.value),
                &soil.density.source,
            ),
            carrier.because(self.ruler),
        ];
        vec![dig, away]
    }

    /// In strips along the path, side by side where one is too narrow, and lapped.
    fn membrane(&self) -> Option<Need> {
        let membrane = self.build_up.membrane.as_ref()?;
        let Membrane {
            key,
            name,
            roll_width,
            roll_length,
            lap,
            waste,
        } = membrane;
        let (roll, lap_by) = (roll_width.value, lap.value);
        let strips = |width: f64| packed((width - lap_by).max(lap_by), roll - lap_by).count as f64;
        let net = if self.measured.stones.is_some() {
            self.measured.dug_area / roll
        } else {
            let trenches = self.measured.trenches.iter();
            let along: f64 = trenches.map(|t| strips(t.width) * t.length).sum();
            let trenches = self.measured.trenches.iter();
            let covered: f64 = trenches.map(|t| t.width * t.length).sum();
            along + (self.measured.dug_area - covered).max(0.0) / (roll - lap_by)
        };
        let share = self.measured.curved_share;
        let amount = |waste: f64| {
            let cut = net * (1.0 + waste);
            let joins = packed(cut, roll_length.value).count.saturating_sub(1);
            cut + joins as f64 * lap_by
        };
        let mut found = need(
            key,
            name,
            Part::Base,
            Measure::Length,
            amount(waste.at(share)),
        );
        found.range = range(waste.spread_at(share).map(amount));
        found.packs = vec![Pack {
            name: format!(
                "roll of {} by {}",
                self.ruler.text(roll),
                self.ruler.text(roll_length.value)
            ),
            holds: roll_length.value,
        }];
        found.because = vec![
            self.length(roll_width, "rolls ", " wide"),
            self.length(lap, "strips lap by ", ""),
        ];
        found.because.extend(waste_words(waste));
        Some(found)
    }

    fn layer(&self, layer: &Layer, area: f64) -> Vec<Need> {
        let part = match layer.part {
            LayerPart::Base => Part::Base,
            LayerPart::Bed | LayerPart::Surface => Part::Surface,
        };
        let volume = area * layer.thickness.value;
        let share = self.measured.curved_share;
        let lost = layer.waste.spread_at(share);
        // How much of its measure one cubic or square metre in place takes.
        let (measure, net, each, reason) = match &layer.bought {
            Bought::Mass { compacted, .. } => {
                let what = format!("{} kg/m³ compacted", compacted.value);
                let reason = because(what, &compacted.source);
                (Measure::Mass, volume, compacted.clone(), vec![reason])
            }
            Bought::Volume { factor, .. } => {
                let what = format!("{} loose make 1 compacted", factor.value);
                let reason = because(what, &factor.source);
                (Measure::Volume, volume, factor.clone(), vec![reason])
            }
            Bought::Units { length, width, .. } => {
                let a_metre = Assumed::own((length.value * width.value).recip());
                let reasons = vec![
                    self.length(length, "one each ", " along it, joint included"),
                    self.length(width, "one each ", " across it, joint included"),
                ];
                (Measure::Pieces, area, a_metre, reasons)
            }
            Bought::Area { .. } => (Measure::Area, area, Assumed::own(1.0), Vec::new()),
            Bought::Each { .. } => {
                let stones = self.measured.stones.unwrap_or(0) as f64;
                (Measure::Pieces, stones, Assumed::own(1.0), Vec::new())
            }
        };
        let amount = net * each.value * (1.0 + layer.waste.at(share));
        let mut found = need(&layer.key, &layer.name, part, measure, amount);
        let ends = [0, 1].map(|end| net * each.spread()[end] * (1.0 + lost[end]));
        found.range = range(ends);
        if measure == Measure::Pieces {
            found.amount = packed(found.amount, 1.0).count as f64;
            found.range = found
                .range
                .map(|ends| ends.map(|pieces| packed(pieces, 1.0).count as f64));
        }
        found.packs = packs(&layer.packs);
        found.because = vec![self.length(&layer.thickness, "", " thick when compacted")];
        found.because.extend(reason);
        if !self.counted(&mut found, layer) {
            found.because.extend(waste_words(&layer.waste));
        }
        let mut needs = vec![found];
        if let Bought::Units {
            length,
            width,
            filling: Some(filling),
            ..
        } = &layer.bought
        {
            let joints = area * (length.value.recip() + width.value.recip());
            needs.push(self.filling(filling, joints, layer));
        }
        needs
    }

    /// Takes the pavers that were counted, if the need is of those; says why where they were not.
    fn counted(&self, need: &mut Need, layer: &Layer) -> bool {
        let paving = self.quantities.paving.as_ref();
        let Some(paving) = paving.filter(|paving| paving.key == layer.key) else {
            return false;
        };
        let mut say = |what: String, source: &str| {
            need.because.push(Because {
                what,
                source: source.into(),
            });
        };
        let count = match &paving.pavers {
            Pavers::Counted(count) => count,
            Pavers::Uncounted(why) => {
                say(
                    format!("not counted on the outline: {why}"),
                    "by area, with waste",
                );
                return false;
            }
        };
        if let Some(course) = layer.bought.course() {
            say(course.words(), "the build-up");
        }
        say(
            format!(
                "counted on the outline: {} whole, {} cut, {}; breakage not included",
                count.whole,
                count.cut,
                match count.slivers {
                    1 => "1 sliver".into(),
                    slivers => format!("{slivers} slivers"),
                }
            ),
            COUNTED,
        );
        if count.ordered_reusing < count.ordered {
            let reusing = count.ordered_reusing;
            say(
                format!("{reusing} if what is cut off serves again"),
                COUNTED,
            );
        }
        if !count.courses.is_empty() && self.measured.trenches.len() > 1 {
            let what = "courses are counted through where paths join";
            say(what.into(), COUNTED);
        }
        need.amount = count.ordered as f64;
        need.range = range([count.ordered_reusing, count.ordered].map(|pavers| pavers as f64));
        true
    }

    /// Joint width × depth × length of the joints.
    fn filling(&self, filling: &Filling, joints: f64, layer: &Layer) -> Need {
        let share = self.measured.curved_share;
        let net = joints * layer.thickness.value;
        let (joint, density) = (&filling.joint, &filling.density);
        let amount = net * joint.value * density.value * (1.0 + filling.waste.at(share));
        let (key, name) = (&filling.key, &filling.name);
        let mut found = need(key, name, Part::Surface, Measure::Mass, amount);
        let lost = filling.waste.spread_at(share);
        let ends =
            [0, 1].map(|end| net * joint.spread()[end] * density.spread()[end] * (1.0 + lost[end]));
        found.range = range(ends);
        found.packs = packs(&filling.packs);
        found.because = vec![
            because(
                format!("joints {} mm wide", (joint.value * 1e4).round() / 10.0),
                &joint.source,
            ),
            because(
                format!("{} kg/m³ in the joint", density.value),
                &density.source,
            ),
        ];
        found.because.extend(waste_words(&filling.waste));
        found
    }

    fn joints(&self) -> Option<Need> {
        let joints = self.build_up.joints.as_ref()?;
        let thick = self.build_up.layers.first()?.thickness.value;
        let length: f64 = self
            .measured
            .trenches
            .iter()
            .map(|trench| {
                let apart =
                    (joints.of_thickness.value * thick).min(joints.of_width.value * trench.path);
                let bays = packed(trench.length, apart).count;
                let across = if trench.closed {
                    bays
                } else {
                    bays.saturating_sub(1)
                };
                across as f64 * trench.path
            })
            .sum();
        let (key, name) = ("control-joint", "control joints, radial on bends");
        let mut found = need(key, name, Part::Surface, Measure::Length, length);
        found.because = vec![
            because(
                format!("at most {} thicknesses apart", joints.of_thickness.value),
                &joints.of_thickness.source,
            ),
            because(
                format!("at most {} widths apart", joints.of_width.value),
                &joints.of_width.source,
            ),
        ];
        Some(found)
    }
}
