//! What of a path lies outside the values of the rules, as findings.

use geometry::{Chain, Point};

use super::space::{room_to_turn, widest_gap};
use super::{Comparison, Measure, Rule, RuleSet, Seen, Value, bends};
use crate::document::{Junction, Plan, Route, Side};
use crate::edging::Edging;
use crate::finding::{Code, Finding, Part, Place, Severity};
use crate::solve::{Origin, SolvedRoute};
use crate::units::{Ruler, angle_text};

/// Closes every finding against a published value.
pub const JUDGED_BY_OTHERS: &str = "local rules and a qualified person decide";

/// Lengths typed in other units may lose this much on their way to metres: a nanometre.
const HAIR: f64 = 1e-9;

/// One path with what was meant by it.
pub(crate) struct Judged<'a> {
    pub(crate) meant: &'a Route,
    pub(crate) solved: &'a SolvedRoute,
    pub(crate) chain: &'a Chain,
    /// The paths before it, one of which it may start from.
    pub(crate) before: &'a [SolvedRoute],
}

/// A figure and where it was found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Measured {
    /// Metres, radians, or a ratio.
    pub(super) value: f64,
    pub(super) part: Part,
    pub(super) at: Point,
}

/// What lies outside the rules of a plan, in one of its options, its paths solved.
#[must_use]
pub fn judge(plan: &Plan, scheme: usize, routes: &[SolvedRoute]) -> Vec<Finding> {
    let mut findings = Vec::new();
    for index in 0..routes.len() {
        judge_route(plan, [scheme, index], routes, &mut findings);
    }
    findings
}

/// The findings of the path of this number, those before it solved.
pub(crate) fn judge_route(
    plan: &Plan,
    [scheme, index]: [usize; 2],
    routes: &[SolvedRoute],
    findings: &mut Vec<Finding>,
) {
    let (Some(meant), Some(solved)) = (plan.route(scheme, index), routes.get(index)) else {
        return;
    };
    let Some(chain) = &solved.centre_line else {
        return;
    };
    let path = Judged {
        meant,
        solved,
        chain,
        before: &routes[..index],
    };
    let ruler = plan.ruler();
    let place = |found: &Measured| Place {
        scheme,
        route: index,
        part: found.part,
        at: found.at,
    };
    for set in &plan.rules {
        let mut said: Vec<Code> = Vec::new();
        for rule in set.rules() {
            let code = rule.measure.code();
            if said.contains(&code) {
                continue; // the stricter judgement of the same thing has been given
            }
            let Some((worst, more)) = path.outside(rule) else {
                continue;
            };
            said.push(code);
            findings.push(Finding {
                severity: rule.severity,
                code,
                place: place(&worst),
                sentence: sentence(*set, rule, (worst.value, more), solved.width, ruler),
                value: Some(worst.value),
                limit: Some(rule.limit(solved.width)),
                source: rule.source,
            });
        }
    }
    let edging = |side| plan.schemes[scheme].edging_at(side);
    let (left, right) = (edging(Side::Left), edging(Side::Right));
    if left == right {
        let edging = left.and_then(|edging| path.edging(edging, None, ruler, place));
        findings.extend(edging);
    } else {
        for (edging, side) in [(left, Side::Left), (right, Side::Right)] {
            let edging = edging.and_then(|edging| path.edging(edging, Some(side), ruler, place));
            findings.extend(edging);
        }
    }
}

impl Judged<'_> {
    /// Of all that lies outside a rule the worst, and how many more there are.
    fn outside(&self, rule: &Rule) -> Option<(Measured, usize)> {
        let limit = rule.limit(self.solved.width);
        let over = |value: f64| match rule.comparison {
            Comparison::AtLeast => limit - value,
            Comparison::AtMost => value - limit,
        };
        let outside = |found: &Measured| over(found.value) > HAIR;
        worst(
            self.measure(&rule.measure).into_iter().filter(outside),
            over,
        )
    }

    /// Every figure that a rule is held against.
    fn measure(&self, measure: &Measure) -> Vec<Measured> {
        let width = self.solved.width;
        let whole = |value: f64| Measured {
            value,
            part: Part::Whole,
            at: self.chain.start(),
        };
        match measure {
            Measure::ClearWidth => vec![whole(width)],
            Measure::WidthWhereItTurns => {
                let turns = |i: usize, piece: &geometry::Piece| {
                    piece.arc().is_some() || self.chain.corner(i).abs() > bends::SLIGHT
                };
                let mut pieces = self.chain.pieces().iter().enumerate();
                let first = pieces.find(|(i, piece)| turns(*i, piece));
                first
                    .map(|(i, _)| self.on_piece(i, width))
                    .into_iter()
                    .collect()
            }
            Measure::WidthOnBend { inside_radius } => {
                let radii = self.inside_radii();
                let tight = radii
                    .into_iter()
                    .filter(|(_, radius)| radius <= inside_radius);
                tight.map(|(i, _)| self.on_piece(i, width)).collect()
            }
            Measure::InsideRadius => {
                let radii = self.inside_radii().into_iter();
                radii.map(|(i, radius)| self.on_piece(i, radius)).collect()
            }
            Measure::StraightBetweenOpposite => bends::straights_between(self, false),
            Measure::StraightBetweenAlike => bends::straights_between(self, true),
            Measure::RadiusRatio => bends::ratios(self),
            Measure::Kink { corner } => bends::kinks(self, *corner),
            Measure::MeetingAngle => self.meeting_angle().into_iter().collect(),
            Measure::PassingPlaces {
                space,
                unless_width,
            } => {
                if width >= unless_width - HAIR {
                    return Vec::new();
                }
                let (gap, middle) = widest_gap(self.meant, self.chain, *space);
                vec![Measured {
                    value: gap,
                    part: Part::Whole,
                    at: self.chain.point_at(middle),
                }]
            }
            Measure::TurningSpace => vec![whole(room_to_turn(self.meant, width))],
        }
    }

    /// The inside radius of each bend that has an inside edge left; without one it cannot be built,
    /// and is a finding already.
    fn inside_radii(&self) -> Vec<(usize, f64)> {
        let half = 0.5 * self.solved.width;
        let pieces = self.chain.pieces().iter().enumerate();
        pieces
            .filter_map(|(i, piece)| Some((i, piece.arc()?.radius() - half)))
            .filter(|(_, radius)| *radius > 0.0)
            .collect()
    }

    /// A figure of a piece of the centre line, at its middle.
    pub(super) fn on_piece(&self, piece: usize, value: f64) -> Measured {
        let on = &self.chain.pieces()[piece];
        Measured {
            value,
            part: part(self.solved.origins.get(piece)),
            at: on.point_at(0.5 * on.length()),
        }
    }

    fn meeting_angle(&self) -> Option<Measured> {
        let Junction {
            route,
            side,
            station,
        } = self.meant.start_on?;
        let edge = self.before.get(route.checked_sub(1)?)?.edge(side)?;
        let along = edge.direction_at(station.min(edge.length()));
        let turn = along.turn_to(self.chain.direction_at(0.0)).abs();
        Some(Measured {
            value: turn.min(std::f64::consts::PI - turn),
            part: Part::Waypoint(0),
            at: self.chain.start(),
        })
    }

    /// What the chosen edging cannot follow on the inside of bends: of all, or of those that turn to
    /// one side.
    fn edging(
        &self,
        edging: Edging,
        side: Option<Side>,
        ruler: Ruler,
        place: impl Fn(&Measured) -> Place,
    ) -> Option<Finding> {
        let data = edging.data();
        let turns = |piece: usize| {
            let left = self.chain.pieces()[piece].curvature() > 0.0;
            side.is_none_or(|side| left == (side == Side::Left))
        };
        let radii = self.inside_radii().into_iter();
        let tight = radii
            .filter(|(i, radius)| data.least_radius - radius > HAIR && turns(*i))
            .map(|(i, radius)| self.on_piece(i, radius));
        let (worst, more) = worst(tight, |radius| -radius)?;
        let polygon = data.bulge(worst.value).map_or_else(String::new, |bulge| {
            format!(
                ": each unit stands {} off the curve, so that they show as a polygon",
                ruler.text(bulge)
            )
        });
        Some(Finding {
            severity: Severity::Care,
            code: Code::EdgingRadius,
            place: place(&worst),
            sentence: format!(
                "the inside edge has a radius of {}{}, and {} wants {} or more{polygon}; make the bend flatter or take another edging",
                ruler.text(worst.value),
                and_more(more),
                data.name,
                ruler.text(data.least_radius),
            ),
            value: Some(worst.value),
            limit: Some(data.least_radius),
            source: data.source,
        })
    }
}

fn part(origin: Option<&Origin>) -> Part {
    match origin {
        Some(Origin::Leg(leg) | Origin::SecondBend(leg)) => Part::Leg(*leg),
        Some(Origin::Rounding(waypoint)) => Part::Waypoint(*waypoint),
        None => Part::Whole,
    }
}

/// The one farthest over, the first of several, and how many others there are.
fn worst(
    found: impl Iterator<Item = Measured>,
    over: impl Fn(f64) -> f64,
) -> Option<(Measured, usize)> {
    found.fold(None, |worst, next| {
        Some(match worst {
            None => (next, 0),
            Some((worst, more)) if over(next.value) > over(worst.value) => (next, more + 1),
            Some((worst, more)) => (worst, more + 1),
        })
    })
}

fn and_more(more: usize) -> String {
    match more {
        0 => String::new(),
        1 => " (and at one more place)".into(),
        _ => format!(" (and at {more} more places)"),
    }
}

/// The sentence of a finding: the figure, the value it lies outside of, and what to do.
fn sentence(
    set: RuleSet,
    rule: &Rule,
    (value, more): (f64, usize),
    width: f64,
    ruler: Ruler,
) -> String {
    let say = |figure: f64| match rule.value {
        Value::Metres(_) | Value::Widths(_) => ruler.text(figure),
        Value::Radians(_) => angle_text(figure),
        Value::Ratio(_) => format!("{figure:.2} to 1"),
    };
    let figure = say(value);
    let what = match rule.measure {
        Measure::ClearWidth => format!("the path is {figure} wide"),
        Measure::WidthOnBend { inside_radius } => format!(
            "the path is {figure} wide on a bend with an inside radius of {} or less",
            ruler.text(inside_radius)
        ),
        Measure::WidthWhereItTurns => format!("the path is {figure} wide and changes direction"),
        Measure::InsideRadius => format!("the inside edge has a radius of {figure}"),
        Measure::StraightBetweenOpposite => {
            format!("the straight between two opposite bends is {figure}")
        }
        Measure::StraightBetweenAlike => {
            format!("the straight between two bends that turn the same way is {figure}")
        }
        Measure::RadiusRatio => {
            format!("the radii of two bends that run into each other are as {figure}")
        }
        Measure::Kink { .. } => format!("the path kinks by {figure}"),
        Measure::MeetingAngle => format!("the path meets the edge of another at {figure}"),
        Measure::PassingPlaces { space, .. } => format!(
            "it is {figure} from one passing place of {} by {} to the next, the ends of the path counted",
            ruler.text(space.along),
            ruler.text(space.across)
        ),
        Measure::TurningSpace => {
            format!(
                "the largest circle to turn in is {figure} across, the width of the path counted"
            )
        }
    };
    let bound = match rule.comparison {
        Comparison::AtLeast => "at least",
        Comparison::AtMost => "at most",
    };
    let limit = say(rule.limit(width));
    let reason = if rule.reason.is_empty() {
        String::new()
    } else {
        format!(" for {}", rule.reason)
    };
    let remedy = remedy(&rule.measure);
    let more = and_more(more);
    if set == RuleSet::Everyday {
        return format!("{what}{more}: usual is {bound} {limit}{reason}; {remedy}");
    }
    let doubt = match rule.seen {
        Seen::Recalled => ", a value from memory, not verified",
        Seen::Once => ", a value seen in one copy",
        Seen::Twice | Seen::Practice => "",
    };
    format!(
        "{what}{more}, outside the value of {} ({bound} {limit}{reason}{doubt}): {remedy}; {JUDGED_BY_OTHERS}",
        rule.source
    )
}

fn remedy(measure: &Measure) -> &'static str {
    match measure {
        Measure::ClearWidth | Measure::WidthWhereItTurns => "make it wider",
        Measure::WidthOnBend { .. } => "make the path wider or the bend flatter",
        Measure::InsideRadius => "make the bend flatter or the path narrower",
        Measure::StraightBetweenOpposite => "let the bends run into each other, or move them apart",
        Measure::StraightBetweenAlike => "make one bend of them, or move them apart",
        Measure::RadiusRatio => "make them more alike, or one bend of them",
        Measure::Kink { .. } => "round it, or let the next bend lead on smoothly",
        Measure::MeetingAngle => "let it leave more nearly square",
        Measure::PassingPlaces { .. } => "lay a landing of that size between",
        Measure::TurningSpace => "lay a landing of that size",
    }
}
