//! Rules as data: published values and common practice, and what of a path lies outside them.
//!
//! A plan names the sets it wants to be judged by. What lies outside a value is a finding of care or a
//! note, never a stop, and none says that a path keeps a law: each names the clause and the edition,
//! and leaves the judgement to the local rules and a qualified person. Values for slopes wait for levels
//! and are not here.

mod bends;
mod judge;
mod space;
mod tables;

use serde::{Deserialize, Serialize};

use crate::finding::{Code, Severity};

pub(crate) use judge::judge_route;
pub use judge::{JUDGED_BY_OTHERS, judge};

/// A set of rules.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum RuleSet {
    /// What people who lay garden paths hold to.
    Everyday,
    /// 2010 ADA Standards for Accessible Design, USA.
    Ada2010,
    /// ICC A117.1, chapter 4 in draft, USA.
    IccA117,
    /// ABA outdoor developed areas, trails, USA, federal land.
    AbaTrails,
    /// ABA outdoor developed areas, outdoor recreation access routes, USA, federal land.
    AbaAccessRoutes,
    /// Approved Document M, volume 1, dwellings, England.
    ApprovedDocumentM,
    /// Inclusive Mobility, Department for Transport, United Kingdom.
    InclusiveMobility,
    /// Technical Guidance Document M, Ireland.
    TechnicalGuidanceM,
    /// DIN 18040, parts 1 and 2, walks outdoors, Germany.
    Din18040Walks,
    /// DIN 18040, part 3, public traffic and open space, Germany.
    Din18040Public,
    /// AS 1428.1, Australia.
    As1428,
    /// Fieldfare figures for countryside paths, United Kingdom.
    Fieldfare,
    /// Sensory Trust factsheet for gardens, United Kingdom.
    SensoryTrust,
}

/// One rule.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rule {
    /// The clause, such as `403.5.1`.
    pub clause: &'static str,
    /// The edition, such as `2010`.
    pub edition: &'static str,
    /// Set, edition and clause together, as findings name them.
    pub source: &'static str,
    /// What is measured.
    pub measure: Measure,
    /// Which side of the value is within it.
    pub comparison: Comparison,
    /// The value.
    pub value: Value,
    /// How a path outside it is judged: care or note.
    pub severity: Severity,
    /// How far the value has been checked.
    pub seen: Seen,
    /// Why, in a few words that follow on `for`; may be empty.
    pub reason: &'static str,
}

/// What a rule measures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Measure {
    /// The width of the path.
    ClearWidth,
    /// The width of the path where the inside radius of a bend is at most so many metres.
    WidthOnBend {
        /// Bends of at most this inside radius count.
        inside_radius: f64,
    },
    /// The width of a path that changes its direction.
    WidthWhereItTurns,
    /// The least radius of an inside edge.
    InsideRadius,
    /// The straight between two bends that turn opposite ways; none at all is within it.
    StraightBetweenOpposite,
    /// The straight between two bends that turn the same way; none at all is within it.
    StraightBetweenAlike,
    /// The larger radius over the smaller, of two bends that run into each other and turn alike.
    RadiusRatio,
    /// What a corner that is not rounded turns through, so long as it is not clearly a corner.
    Kink {
        /// From this turn on it is clearly a corner.
        corner: f64,
    },
    /// The angle between a path and the edge it starts from.
    MeetingAngle,
    /// The way from one passing place to the next; the ends of a path count as such.
    PassingPlaces {
        /// What counts as a passing place.
        space: Space,
        /// From this width on, two can pass anywhere.
        unless_width: f64,
    },
    /// The diameter of the largest circle in which one can turn on the path or its landings.
    TurningSpace,
}

/// Which side of a value is within it; the value itself is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Comparison {
    /// At least so much.
    AtLeast,
    /// At most so much.
    AtMost,
}

/// A value to be held against.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Value {
    /// Metres.
    Metres(f64),
    /// Radians.
    Radians(f64),
    /// So many widths of the path.
    Widths(f64),
    /// One figure over another.
    Ratio(f64),
}

/// Room for passing, in metres, either way round.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Space {
    /// One side of it.
    pub along: f64,
    /// The other.
    pub across: f64,
}

/// How far a value has been checked against its document.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Seen {
    /// It was recalled.
    Recalled,
    /// It was read in one copy or quotation.
    Once,
    /// It was read, and read again.
    Twice,
    /// It is practice that nobody publishes.
    Practice,
}

impl RuleSet {
    /// All sets.
    pub const ALL: [Self; 13] = [
        Self::Everyday,
        Self::Ada2010,
        Self::IccA117,
        Self::AbaTrails,
        Self::AbaAccessRoutes,
        Self::ApprovedDocumentM,
        Self::InclusiveMobility,
        Self::TechnicalGuidanceM,
        Self::Din18040Walks,
        Self::Din18040Public,
        Self::As1428,
        Self::Fieldfare,
        Self::SensoryTrust,
    ];

    /// Its title, with the country.
    #[must_use]
    pub fn title(self) -> &'static str {
        match self {
            Self::Everyday => "everyday garden practice",
            Self::Ada2010 => "ADA Standards (USA)",
            Self::IccA117 => "ICC A117.1 (USA)",
            Self::AbaTrails => "ABA outdoor developed areas, trails (USA, federal land)",
            Self::AbaAccessRoutes => {
                "ABA outdoor developed areas, access routes (USA, federal land)"
            }
            Self::ApprovedDocumentM => "Approved Document M, volume 1 (England)",
            Self::InclusiveMobility => "Inclusive Mobility (United Kingdom)",
            Self::TechnicalGuidanceM => "Technical Guidance Document M (Ireland)",
            Self::Din18040Walks => "DIN 18040-1 and -2, walks outdoors (Germany)",
            Self::Din18040Public => "DIN 18040-3, public open space (Germany)",
            Self::As1428 => "AS 1428.1 (Australia)",
            Self::Fieldfare => "Fieldfare, countryside paths (United Kingdom)",
            Self::SensoryTrust => "Sensory Trust, gardens (United Kingdom)",
        }
    }

    /// Its rules; of two that measure the same the stricter judgement first.
    #[must_use]
    pub fn rules(self) -> &'static [Rule] {
        match self {
            Self::Everyday => tables::EVERYDAY,
            Self::Ada2010 => tables::ADA_2010,
            Self::IccA117 => tables::ICC_A117,
            Self::AbaTrails => tables::ABA_TRAILS,
            Self::AbaAccessRoutes => tables::ABA_ACCESS_ROUTES,
            Self::ApprovedDocumentM => tables::APPROVED_DOCUMENT_M,
            Self::InclusiveMobility => tables::INCLUSIVE_MOBILITY,
            Self::TechnicalGuidanceM => tables::TECHNICAL_GUIDANCE_M,
            Self::Din18040Walks => tables::DIN_18040_WALKS,
            Self::Din18040Public => tables::DIN_18040_PUBLIC,
            Self::As1428 => tables::AS_1428,
            Self::Fieldfare => tables::FIELDFARE,
            Self::SensoryTrust => tables::SENSORY_TRUST,
        }
    }
}

impl Rule {
    /// Whether its value was seen in the document or a copy of it; practice and what was recalled
    /// were not.
    #[must_use]
    pub fn is_verified(&self) -> bool {
        matches!(self.seen, Seen::Once | Seen::Twice)
    }

    /// The value for a path of this width: metres, radians, or a bare ratio.
    #[must_use]
    pub fn limit(&self, width: f64) -> f64 {
        match self.value {
            Value::Metres(value) | Value::Radians(value) | Value::Ratio(value) => value,
            Value::Widths(widths) => widths * width,
        }
    }
}

impl Measure {
    /// The kind of finding that what lies outside it gives.
    #[must_use]
    pub fn code(&self) -> Code {
        match self {
            Self::ClearWidth | Self::WidthWhereItTurns => Code::ClearWidth,
            Self::WidthOnBend { .. } => Code::WidthOnBend,
            Self::InsideRadius => Code::InsideRadius,
            Self::StraightBetweenOpposite => Code::ShortStraight,
            Self::StraightBetweenAlike => Code::BrokenBack,
            Self::RadiusRatio => Code::UnequalBends,
            Self::Kink { .. } => Code::Kink,
            Self::MeetingAngle => Code::SharpMeeting,
            Self::PassingPlaces { .. } => Code::PassingPlace,
            Self::TurningSpace => Code::TurningSpace,
        }
    }
}

/// What a new plan is judged by.
#[must_use]
pub fn usual_rules() -> Vec<RuleSet> {
    vec![RuleSet::Everyday]
}

pub(crate) fn are_usual(rules: &[RuleSet]) -> bool {
    rules == [RuleSet::Everyday]
}
