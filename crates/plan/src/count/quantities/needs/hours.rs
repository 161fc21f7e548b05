//! The hours of work, where they are wanted.

use super::super::super::build_up::{Assumed, Labour};
use super::super::super::{Because, Measure, Need, Part};
use super::{List, need, range};

/// Hours to wheel a cubic metre in the ground, to [`WHEELED`] metres.
const WHEEL_HOURS: f64 = 1.25;
const WHEELED: f64 = 50.0;
/// Hours to level and grade a square metre.
const LEVEL_HOURS: f64 = 0.05;
const LABOUR_SOURCE: &str = "menlo-academy.com, labour factors for excavation";

impl List<'_> {
    pub(super) fn hours(&self) -> Vec<Need> {
        let bank = self.quantities.dug.volume;
        let soil = self.plan.count.soil.data();
        let distance = self.plan.count.distance;
        // What is published reaches to 50 m; farther is taken in proportion.
        let wheel = WHEEL_HOURS * (distance / WHEELED).max(1.0);
        let hours = |key: &str, name: &str, amount: f64, rate: String, source: String| Need {
            because: vec![Because { what: rate, source }],
            ..need(key, name, Part::Work, Measure::Hours, amount)
        };
        let of_soil = |key: &str, name: &str, assumed: &Assumed| {
            let rate = format!("{} h/m³ in the ground", assumed.value);
            let amount = bank * assumed.value;
            hours(key, name, amount, rate, assumed.source.to_string())
        };
        let mut needs = vec![
            of_soil("labour-dig", "digging by hand", &soil.dig_hours),
            of_soil("labour-load", "loading barrows", &soil.load_hours),
            hours(
                "labour-wheel",
                "wheeling",
                bank * wheel,
                format!(
                    "{wheel} h/m³ in the ground, for {} one way",
                    self.ruler.text(distance)
                ),
                LABOUR_SOURCE.into(),
            ),
            hours(
                "labour-level",
                "levelling the bottom",
                self.quantities.dug.area * LEVEL_HOURS,
                format!("{LEVEL_HOURS} h/m²"),
                LABOUR_SOURCE.into(),
            ),
        ];
        let layers = self.build_up.layers.iter().zip(&self.quantities.layers);
        for (layer, counted) in layers.rev() {
            let (amount, rate, unit) = match &layer.labour {
                Some(Labour::PerVolume(rate)) => (counted.volume, rate, "m³"),
                Some(Labour::PerArea(rate)) => (counted.area, rate, "m²"),
                None => continue,
            };
            let mut found = hours(
                &format!("labour-{}", layer.key),
                &format!("laying {}", layer.name),
                amount * rate.value,
                format!("{} h/{unit}", rate.value),
                rate.source.to_string(),
            );
            found.range = range(rate.spread().map(|rate| amount * rate));
            needs.push(found);
        }
        needs
    }
}
