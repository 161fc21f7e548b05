//! What a client is told of each option: figures, how it feels, what differs, what it costs and what that means.

use plan::compare::{Comparison, Counted, Standing, compare_counted};
use plan::order::Order;
use plan::setout::Voice;
use plan::units::Ruler;
use plan::{Plan, Solved};

use super::columns::Said;
use super::{OptionsRequest, Shown};

/// What is said of the options.
pub(super) struct Told<'a> {
    plan: &'a Plan,
    shown: &'a [Shown<'a>],
    comparison: Comparison,
    voice: Voice,
    prices: bool,
    /// What the prices mean, each with a word before it; nothing where there are none.
    pub(super) terms: Vec<(&'static str, String)>,
}

impl<'a> Told<'a> {
    pub(super) fn new(
        plan: &'a Plan,
        solved: &Solved,
        request: &OptionsRequest,
        shown: &'a [Shown<'a>],
    ) -> Self {
        let mut counted = vec![Counted::default(); solved.schemes.len()];
        for (scheme, _, order) in shown {
            if let (Some(place), Some(order)) = (counted.get_mut(*scheme), order) {
                *place = order.counted(plan);
                // Of what is dug a client is not told, nor of money where no prices are asked for.
                place.spoil = None;
                if !request.prices {
                    place.cost = None;
                }
            }
        }
        let mut comparison = compare_counted(plan, solved, &counted);
        comparison.standings.iter_mut().for_each(plain);
        let mut told = Self {
            plan,
            shown,
            comparison,
            voice: Voice {
                ruler: plan.ruler(),
                both: request.both_units,
            },
            prices: request.prices,
            terms: Vec::new(),
        };
        if request.prices {
            told.terms = told.terms(request);
        }
        told
    }

    /// The rows of the page, from its pictures down.
    pub(super) fn rows(&self) -> Vec<Said> {
        let mut rows = Vec::new();
        let mut add = |name: String, most, cells: Vec<String>| {
            rows.push(Said {
                name,
                cells,
                most,
                bold: false,
            });
        };
        let notes = self.each(|scheme, _, _| {
            let notes = self
                .plan
                .schemes
                .get(scheme)
                .map(|scheme| scheme.notes.trim());
            notes.unwrap_or_default().to_owned()
        });
        if notes.iter().any(|notes| !notes.is_empty()) {
            add("Notes".to_owned(), 4, notes);
        }
        add(
            "To walk".to_owned(),
            4,
            self.of(|standing| standing.character.clone()),
        );
        add(
            "Built of".to_owned(),
            2,
            self.each(|_, _, order| {
                order.map_or("not chosen yet".to_owned(), |o| {
                    o.quantities.build_up.clone()
                })
            }),
        );
        add(
            "Length".to_owned(),
            1,
            self.of(|standing| self.length(standing.length)),
        );
        add(
            "Width".to_owned(),
            2,
            self.of(|standing| self.width(standing)),
        );
        add(
            "Ground covered".to_owned(),
            1,
            self.of(|standing| self.area(standing.area)),
        );
        add(
            "Narrowest bend".to_owned(),
            2,
            self.of(|standing| self.narrowest(standing)),
        );
        add(
            "Nearest thing".to_owned(),
            3,
            self.of(|standing| self.nearest(standing)),
        );
        add(
            "Tree roots".to_owned(),
            2,
            self.of(|standing| self.roots(standing)),
        );
        if self.shown.len() > 1 {
            let first = self.comparison.standings.get(self.first());
            let letter = first.map_or("", |standing| standing.letter.as_str());
            add(format!("Beside {letter}"), 6, self.differences());
        }
        let days = self.each(|_, _, order| {
            order.and_then(Order::days).map_or_else(
                || "not known yet".to_owned(),
                |days| format!("about {days:.1} days for one person"),
            )
        });
        if days.iter().any(|days| days != "not known yet") {
            add("Time".to_owned(), 1, days);
        }
        if self.prices {
            rows.push(Said {
                name: "Price".to_owned(),
                cells: self.each(|_, _, order| self.price(order)),
                most: 3,
                bold: true,
            });
            let ranges = self.each(|_, _, order| self.range(order));
            if ranges.iter().any(|range| range != "–") {
                rows.push(Said {
                    name: "May come to".to_owned(),
                    cells: ranges,
                    most: 2,
                    bold: false,
                });
            }
        }
        rows
    }

    fn each(&self, says: impl Fn(usize, &Standing, Option<&Order>) -> String) -> Vec<String> {
        let standing = |scheme: usize| self.comparison.standings.get(scheme);
        self.shown
            .iter()
            .filter_map(|(scheme, _, order)| {
                Some(says(*scheme, standing(*scheme)?, order.as_ref()))
            })
            .collect()
    }

    /// What is said of an option that is drawn.
    fn of(&self, says: impl Fn(&Standing) -> String) -> Vec<String> {
        self.each(|_, standing, _| {
            if standing.drawn {
                says(standing)
            } else {
                "not drawn yet".to_owned()
            }
        })
    }

    /// A length as a client hears it, to 10 mm or an inch.
    fn length(&self, metres: f64) -> String {
        let own = self.comparison.ruler;
        if self.voice.both {
            let other = plan::compare::spoken(own.companion());
            format!("{} ({})", own.text(metres), other.text(metres))
        } else {
            own.text(metres)
        }
    }

    fn area(&self, square_metres: f64) -> String {
        let text = |ruler: Ruler| ruler.area(square_metres);
        let own = text(self.voice.ruler);
        if self.voice.both {
            format!("{own} ({})", text(self.voice.ruler.companion()))
        } else {
            own
        }
    }

    fn width(&self, standing: &Standing) -> String {
        let [least, most] = standing.widths.map(|width| self.length(width));
        if least == most {
            least
        } else {
            format!("{least} to {most}")
        }
    }

    fn narrowest(&self, standing: &Standing) -> String {
        match self.tightest(standing) {
            None => "no bend".to_owned(),
            Some(radius) => format!("as round as a circle {} across", self.length(2.0 * radius)),
        }
    }

    /// The radius of the narrowest bend along the middle of its path.
    fn tightest(&self, standing: &Standing) -> Option<f64> {
        let (_, scheme, _) = (self.shown.iter()).find(|(at, ..)| *at == standing.scheme)?;
        let radii = scheme.routes.iter().flat_map(|route| {
            let bends = plan::feel::bends(&self.plan.walk, route);
            let half = 0.5 * route.width;
            bends.into_iter().map(move |bend| bend.inside_radius + half)
        });
        radii.min_by(f64::total_cmp)
    }

    fn nearest(&self, standing: &Standing) -> String {
        match &standing.nearest {
            Some(nearest) if nearest.distance > 0.0 => {
                format!("{}, {} away", nearest.called, self.length(nearest.distance))
            }
            Some(nearest) => format!("{}: it runs into it", nearest.called),
            None => format!("nothing within {}", self.length(plan::clearance::IN_SIGHT)),
        }
    }

    fn roots(&self, standing: &Standing) -> String {
        if self.comparison.ruler.area_steps(standing.roots) == 0 {
            "none covered".to_owned()
        } else {
            format!(
                "{} covered, at most {:.0} % of one tree’s",
                self.area(standing.roots),
                100.0 * standing.root_share
            )
        }
    }

    /// The option the others are set beside, counted from 0.
    fn first(&self) -> usize {
        self.shown.first().map_or(0, |(scheme, ..)| *scheme)
    }

    /// What is different in each option but the first against the first.
    fn differences(&self) -> Vec<String> {
        self.each(|scheme, _, _| {
            if scheme == self.first() {
                return "–".to_owned();
            }
            let said = self.comparison.difference(scheme, self.first());
            said.unwrap_or_else(|| "not to be compared yet".to_owned())
        })
    }

    fn price(&self, order: Option<&Order>) -> String {
        let has_prices = |order: &&Order| {
            !self.plan.prices.is_empty() && order.charge.missing < order.charge.lines.len()
        };
        let Some(order) = order.filter(has_prices) else {
            return "price not known yet".to_owned();
        };
        let charge = &order.charge;
        let mut said = charge.currency.write(charge.total);
        let taxes = charge.taxes.iter().filter(|tax| !tax.sum.is_zero());
        let taxes: Vec<&str> = taxes
            .map(|tax| tax.name.trim())
            .filter(|n| !n.is_empty())
            .collect();
        if !taxes.is_empty() {
            said += &format!(" with {}", taxes.join(" and "));
        }
        match charge.missing {
            0 => {}
            1 => said += ", incomplete: one price is still missing",
            missing => said += &format!(", incomplete: {missing} prices are still missing"),
        }
        said
    }

    /// Between which figures the price lies as far as amounts are not certain.
    fn range(&self, order: Option<&Order>) -> String {
        let order = order.filter(|order| order.charge.is_complete());
        let band = order.and_then(|order| Some((order, order.band.as_ref()?)));
        match band.filter(|_| !self.plan.prices.is_empty()) {
            Some((order, band)) if band.least != band.most => {
                let [least, most] =
                    [band.least, band.most].map(|sum| order.charge.currency.write(sum));
                format!("{least} to {most}, as the ground and the goods turn out")
            }
            _ => "–".to_owned(),
        }
    }

    /// For how long the prices hold, what is in them and what is not, and what a change costs.
    fn terms(&self, request: &OptionsRequest) -> Vec<(&'static str, String)> {
        let orders = || self.shown.iter().filter_map(|(_, _, order)| order.as_ref());
        if self.plan.prices.is_empty() || orders().next().is_none() {
            return Vec::new();
        }
        let from = request.date.map_or_else(
            || "____________________".to_owned(),
            |date| date.to_string(),
        );
        let valid = match self.plan.prices.valid_days {
            Some(1) => format!("These prices hold for 1 day from {from}."),
            Some(days) => format!("These prices hold for {days} days from {from}."),
            None => format!("These prices are of {from} and hold until ____________________."),
        };
        let worked = orders().all(|order| order.days().is_some());
        let work = if worked {
            "and the work"
        } else {
            "but not the work, which is not counted here"
        };
        vec![
            ("Validity", valid),
            (
                "Included",
                format!(
                    "What is dug out and taken away, everything the path is built of as named above with what is cut off and left over, bringing it, {work}."
                ),
            ),
            (
                "Extra",
                "Rock, pipes and cables in the way, thick roots, old footings or waste in the ground, steps, walls and drains that are not drawn, and making good the lawn beside the path. If any is met the work stops there and you are asked first."
                    .to_owned(),
            ),
            (
                "A change",
                "What you want otherwise is drawn anew, counted by the same prices and shown to you; it is done once you have agreed to the new price."
                    .to_owned(),
            ),
        ]
    }
}

/// A client is told differences in length, width, distance, roots, time and money: not in radii, nor
/// in findings of a drawing that is still to be put right.
fn plain(standing: &mut Standing) {
    standing.tightest_inside = None;
    standing.findings = [0; 3];
}
