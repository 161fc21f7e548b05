//! What stands below an order: what is dug and carried, what to mind, and what the amounts rest on.

use plan::count::{Measure, Part as Work, Trips};

use crate::pen::Style;

use super::super::table::{Content, Table};
use super::super::words;
use super::List;

impl List<'_> {
    pub(super) fn spoil(&self) -> Vec<String> {
        let (quantities, settings) = (self.quantities(), &self.plan.count);
        let spoil = &quantities.spoil;
        let spread = |measure, amount: plan::count::Amount| {
            let said = self.amount(measure, amount.amount);
            match amount
                .range
                .map(|ends| ends.map(|end| self.amount(measure, end)))
            {
                Some([least, most]) if least != most => format!("{said} ({least} to {most})"),
                _ => said,
            }
        };
        let dug = format!(
            "Dug out: {} in the ground, of {}. Loose it is {} and weighs {}.",
            self.amount(Measure::Volume, spoil.bank),
            settings.soil.data().name,
            spread(Measure::Volume, spoil.loose),
            spread(Measure::Mass, spoil.mass),
        );
        let away = format!(
            "Taken away in: {} ({}); their {} limits them.",
            trips(&spoil.loads, ["load", "loads"]),
            settings.carrier.name,
            spoil.loads.limit.word(),
        );
        let mut said = vec![
            dug,
            away,
            format!("Wheeled out: {}.", self.runs(&spoil.barrows)),
        ];
        for layer in &quantities.layers {
            if let Some(barrows) = layer.trips.filter(|trips| trips.trips > 0) {
                said.push(format!(
                    "Wheeled in, {}: {}.",
                    layer.name,
                    self.runs(&barrows)
                ));
            }
        }
        said
    }

    /// How many barrows, and how far one walks with them.
    fn runs(&self, barrows: &Trips) -> String {
        format!(
            "{}, {} walked there and back in all",
            trips(barrows, ["barrow", "barrows"]),
            words::about(barrows.walked, self.plan.units)
        )
    }

    pub(super) fn cautions(&self) -> Vec<String> {
        let quantities = self.quantities();
        let needs = &quantities.needs;
        let mass: f64 = quantities
            .layers
            .iter()
            .filter_map(|layer| layer.mass)
            .sum();
        let mut list = Vec::new();
        list.push(if mass > 0.0 {
            format!(
                "Lifting: about {} is carried in. Have it tipped where it is used, know the spot before it comes, lift heavy pieces by two or with a tool.",
                self.amount(Measure::Mass, mass)
            )
        } else {
            "Lifting: know where things are put down before they come; lift heavy pieces by two or with a tool.".to_owned()
        });
        let is_cut = |need: &plan::count::Need| {
            matches!(need.measure, Measure::Pieces | Measure::Area)
                && matches!(need.part, Work::Surface | Work::Edges)
        };
        if needs.iter().any(is_cut) {
            list.push(
                "Dust: cut stone, brick and concrete wet, with a mask and goggles made for it and nobody beside you. The dust of a dry cut harms lungs for good."
                    .to_owned(),
            );
        }
        let binds = |need: &plan::count::Need| {
            ["cement", "mortar", "concrete"]
                .iter()
                .any(|word| need.key.contains(word))
        };
        if needs.iter().any(binds) {
            list.push(
                "Cement burns: keep it off skin and out of eyes, wear gloves, wash it off at once."
                    .to_owned(),
            );
        }
        if quantities.spoil.loads.trips > 0 {
            list.push(
                "Skip or trailer: one that stands on a public road or footway may need a permit, lights and a board. What is dug may have to go with a licensed carrier. Local rules decide: ask before you order it."
                    .to_owned(),
            );
        }
        list.push(
            "Amounts follow from the plan, not from the ground: measure what is pegged out before you order what cannot be given back."
                .to_owned(),
        );
        list
    }

    /// Every figure the amounts rest on, once, with its source and what it is for.
    pub(super) fn assumptions(&self) -> Table {
        let mut said: Vec<(&str, &str, Vec<&str>)> = Vec::new();
        for need in &self.quantities().needs {
            for because in &need.because {
                let (what, source) = (because.what.as_str(), because.source.as_str());
                let known = said
                    .iter_mut()
                    .find(|known| (known.0, known.1) == (what, source));
                match known {
                    Some((_, _, needs)) if needs.contains(&need.name.as_str()) => {}
                    Some((_, _, needs)) => needs.push(&need.name),
                    None => said.push((what, source, vec![&need.name])),
                }
            }
        }
        let cells = |(what, source, needs): (&str, &str, Vec<&str>)| {
            let words = [what.to_owned(), source.to_owned(), needs.join(", ")];
            words.map(Content::Words).to_vec()
        };
        Table {
            heads: ["figure", "where it comes from", "for"]
                .map(str::to_owned)
                .to_vec(),
            rows: said.into_iter().map(cells).collect(),
            names: 0,
            style: Style::SMALL,
        }
    }
}

/// `82 barrows (66 to 95)`.
fn trips(trips: &Trips, [one, many]: [&str; 2]) -> String {
    let called = if trips.trips == 1 { one } else { many };
    let [least, most] = trips.trips_range;
    let range = if least < most {
        format!(" ({least} to {most})")
    } else {
        String::new()
    };
    format!("{} {called}{range}", trips.trips)
}
