//! What options are compared by, one after the other: how each is ordered and written.

use geometry::angle::to_degrees;

use super::{Amount, Standing};
use crate::units::{Ruler, angle_text};

/// One thing that options are compared by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Criterion {
    /// How long its paths are.
    Length,
    /// How much ground they cover.
    Area,
    /// How wide they are.
    Width,
    /// The radius of the tightest inside edge.
    TightestInside,
    /// How far one turns with a pace where it is tightest.
    TurnPerPace,
    /// How near it comes to what wants to be kept off.
    Clearance,
    /// What there is to stop for, to take care of and to note.
    Findings,
    /// How much of root zones it covers.
    Roots,
    /// What is dug out.
    Spoil,
    /// How many pavers are to be cut: every cut raises dust.
    Cuts,
    /// What it costs.
    Cost,
    /// How long it takes.
    Days,
}

/// Whether more or less of something is better.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Better {
    /// Less of it.
    Less,
    /// More of it.
    More,
    /// Neither: it is a matter of what is wanted.
    Neither,
}

/// More than any figure a plan can come to.
const BEYOND: f64 = 1e12;

impl Criterion {
    /// All of them, in the order of a table.
    pub const ALL: [Self; 12] = [
        Self::Length,
        Self::Area,
        Self::Width,
        Self::TightestInside,
        Self::TurnPerPace,
        Self::Clearance,
        Self::Findings,
        Self::Roots,
        Self::Spoil,
        Self::Cuts,
        Self::Cost,
        Self::Days,
    ];

    /// What it is called over a column.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Length => "Length",
            Self::Area => "Area",
            Self::Width => "Width",
            Self::TightestInside => "Tightest inside edge",
            Self::TurnPerPace => "Turn per pace",
            Self::Clearance => "Nearest",
            Self::Findings => "To put right",
            Self::Roots => "Roots covered",
            Self::Spoil => "Dug out",
            Self::Cuts => "Pavers to cut",
            Self::Cost => "Cost",
            Self::Days => "Days of work",
        }
    }

    /// Whether more or less of it is better.
    #[must_use]
    pub fn better(self) -> Better {
        match self {
            Self::TightestInside | Self::Clearance => Better::More,
            Self::Area | Self::Width => Better::Neither,
            _ => Better::Less,
        }
    }

    /// Whether it is known of an option: nothing is of one that is not drawn.
    #[must_use]
    pub fn is_known_of(self, standing: &Standing) -> bool {
        standing.drawn
            && match self {
                Self::Spoil | Self::Cuts | Self::Cost | Self::Days => {
                    self.amount(standing).is_some()
                }
                _ => true,
            }
    }

    /// What an option is ordered by: the better, the less. Two options have the same where it is
    /// written the same, so that an order of options is one of the written figures.
    #[must_use]
    pub fn key(self, standing: &Standing, ruler: Ruler) -> i64 {
        let taped = |length: f64| ruler.graduation.steps(length);
        match self {
            Self::Length => taped(standing.length),
            Self::Area => ruler.area_steps(standing.area),
            Self::Width => {
                // No width comes to so many divisions.
                let [least, most] = standing.widths.map(taped);
                least.saturating_mul(10_000_000).saturating_add(most)
            }
            Self::TightestInside => -taped(standing.tightest_inside.unwrap_or(BEYOND)),
            Self::TurnPerPace => steps(to_degrees(standing.turn_per_pace), 0.01),
            Self::Clearance => {
                -taped((standing.nearest.as_ref()).map_or(BEYOND, |nearest| nearest.distance))
            }
            Self::Findings => {
                // However many there are of what matters less, one of what matters more outweighs them.
                let count = |n: usize| i64::try_from(n.min(99_999)).unwrap_or(99_999);
                let [stop, care, note] = standing.findings.map(count);
                (stop * 100_000 + care) * 100_000 + note
            }
            Self::Roots => ruler.area_steps(standing.roots),
            Self::Spoil | Self::Cuts | Self::Cost | Self::Days => {
                steps(self.amount(standing).map_or(BEYOND, |a| a.value), 0.01)
            }
        }
    }

    /// The figure of an option as a number to draw it by, in SI units, radians, days and the money of the plan; of
    /// widths the least. `None` where it is not known or no single number.
    #[must_use]
    pub fn value(self, standing: &Standing) -> Option<f64> {
        let value = match self {
            Self::Length => Some(standing.length),
            Self::Area => Some(standing.area),
            Self::Width => Some(standing.widths[0]),
            Self::TightestInside => standing.tightest_inside,
            Self::TurnPerPace => Some(standing.turn_per_pace),
            Self::Clearance => standing.nearest.as_ref().map(|nearest| nearest.distance),
            Self::Findings => None,
            Self::Roots => Some(standing.roots),
            Self::Spoil | Self::Cuts | Self::Cost | Self::Days => {
                self.amount(standing).map(|it| it.value)
            }
        };
        value.filter(|value| standing.drawn && value.is_finite())
    }

    pub(super) fn amount(self, standing: &Standing) -> Option<&Amount> {
        match self {
            Self::Spoil => standing.counted.spoil.as_ref(),
            Self::Cuts => standing.counted.cuts.as_ref(),
            Self::Cost => standing.counted.cost.as_ref(),
            Self::Days => standing.counted.days.as_ref(),
            _ => None,
        }
    }

    /// The figure of an option where there is little room: without what it comes near to, and the
    /// findings as so many / so many / so many.
    #[must_use]
    pub fn brief(self, standing: &Standing, ruler: Ruler) -> String {
        match (self, &standing.nearest) {
            _ if !self.is_known_of(standing) => "–".into(),
            (Self::Clearance, Some(nearest)) => ruler.text(nearest.distance),
            (Self::Findings, _) => {
                let [stop, care, note] = standing.findings;
                format!("{stop} / {care} / {note}")
            }
            _ => self.text(standing, ruler),
        }
    }

    /// The figure of an option as it is written, without what it is called.
    #[must_use]
    pub fn text(self, standing: &Standing, ruler: Ruler) -> String {
        if !self.is_known_of(standing) {
            return "not known".into();
        }
        match self {
            Self::Length => ruler.text(standing.length),
            Self::Area => ruler.area(standing.area),
            Self::Width => {
                let [least, most] = standing.widths.map(|width| ruler.text(width));
                if least == most {
                    least
                } else {
                    format!("{least} to {most}")
                }
            }
            Self::TightestInside => match standing.tightest_inside {
                Some(radius) if radius > 0.0 => ruler.text(radius),
                Some(_) => "none left".into(),
                None => "no bend".into(),
            },
            Self::TurnPerPace => angle_text(standing.turn_per_pace),
            Self::Clearance => match &standing.nearest {
                Some(nearest) => format!("{} to {}", ruler.text(nearest.distance), nearest.called),
                None => format!("over {}", ruler.text(crate::clearance::IN_SIGHT)),
            },
            Self::Findings => {
                let [stop, care, note] = standing.findings;
                format!("{stop} stop, {care} care, {note} note")
            }
            Self::Roots => ruler.area(standing.roots),
            Self::Spoil | Self::Cuts | Self::Cost | Self::Days => {
                let amount = self.amount(standing);
                amount.map_or_else(String::new, |amount| amount.text.clone())
            }
        }
    }
}

/// How many whole steps a figure is, half away from zero.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a whole number below 2^53 after the clamp"
)]
fn steps(figure: f64, step: f64) -> i64 {
    const MOST: f64 = 9e15;
    (figure / step).round().clamp(-MOST, MOST) as i64
}
