//! The values themselves, each with its clause, its edition and how far it has been checked.
//!
//! All were gathered from excerpts, copies and summaries, not from the documents: whoever builds to one
//! of them reads the document.

use std::f64::consts::PI;

use super::Comparison::{AtLeast, AtMost};
use super::Measure::{
    ClearWidth, InsideRadius, Kink, MeetingAngle, PassingPlaces, RadiusRatio, StraightBetweenAlike,
    StraightBetweenOpposite, TurningSpace, WidthOnBend, WidthWhereItTurns,
};
use super::Seen::{Once, Practice, Recalled, Twice};
use super::Value::{Metres, Radians, Ratio, Widths};
use super::{Rule, Space};
use crate::finding::Severity::{Care, Note};

macro_rules! rule {
    (
        $set:literal, $edition:literal, $clause:literal:
        $measure:expr, $comparison:ident $value:expr, $severity:ident, $seen:ident $(, $reason:literal)?
    ) => {
        Rule {
            clause: $clause,
            edition: $edition,
            source: concat!($set, ", ", $edition, ", ", $clause),
            measure: $measure,
            comparison: $comparison,
            value: $value,
            severity: $severity,
            seen: $seen,
            reason: concat!($($reason)?),
        }
    };
}

const INCH: f64 = 0.0254;
const FOOT: f64 = 0.3048;
const DEGREE: f64 = PI / 180.0;

/// Passing for paths narrower than the space itself.
const fn passing(along: f64, across: f64, unless_width: f64) -> super::Measure {
    PassingPlaces {
        space: Space { along, across },
        unless_width,
    }
}

pub(super) const EVERYDAY: &[Rule] = &[
    // About 2 ft. Source: University of Illinois Extension, S. Mason.
    rule!("everyday garden practice", "no edition", "width of the narrowest garden path": ClearWidth, AtLeast Metres(0.6), Care, Once, "one person"),
    // Common practice, no source.
    rule!("everyday garden practice", "no edition", "width between hard edges": ClearWidth, AtLeast Metres(0.9), Note, Practice, "a wheelbarrow"),
    // Common practice, no source: corners are cut unless they are eased by so much.
    rule!("everyday garden practice", "no edition", "inside radius, walking": InsideRadius, AtLeast Metres(0.5), Care, Practice, "walking without cutting the corner"),
    // Common practice, no source: 1.0 to 1.5 m.
    rule!("everyday garden practice", "no edition", "inside radius, barrow": InsideRadius, AtLeast Metres(1.0), Note, Practice, "a wheelbarrow at walking pace"),
    // Common practice, no source.
    rule!("everyday garden practice", "no edition", "straight between opposite bends": StraightBetweenOpposite, AtLeast Widths(1.0), Note, Practice),
    // Road manuals avoid it as unexpected and not pleasing (TxDOT, Roadway Design Manual, 4.7.1); how
    // short is too short in a garden is common practice, no source.
    rule!("everyday garden practice", "no edition", "straight between bends that turn alike": StraightBetweenAlike, AtLeast Widths(3.0), Note, Practice),
    rule!("everyday garden practice, after TxDOT Roadway Design Manual", "no edition", "4.7.1": RadiusRatio, AtMost Ratio(1.5), Note, Twice),
    // Common practice, no source: the eye sees 1 to 2 degrees in a hard edge, and less than about 15
    // reads as a slip rather than a corner.
    rule!("everyday garden practice", "no edition", "kinks": Kink { corner: 15.0 * DEGREE }, AtMost Radians(2.0 * DEGREE), Care, Practice),
    // Walks that meet in a sharp point are better square (H. Repton, Observations, 1803, chapter VI); the
    // angle is common practice, no source: less cannot be paved neatly.
    rule!("everyday garden practice, after Repton, Observations", "1803", "chapter VI": MeetingAngle, AtLeast Radians(30.0 * DEGREE), Care, Practice),
];

pub(super) const ADA_2010: &[Rule] = &[
    rule!("ADA Standards (USA)", "2010", "403.5.1": ClearWidth, AtLeast Metres(36.0 * INCH), Care, Once),
    rule!("ADA Standards (USA)", "2010", "403.5.3": passing(60.0 * INCH, 60.0 * INCH, 60.0 * INCH), AtMost Metres(200.0 * FOOT), Care, Once),
    rule!("ADA Standards (USA)", "2010", "304.3": TurningSpace, AtLeast Metres(60.0 * INCH), Note, Once),
];

pub(super) const ICC_A117: &[Rule] = &[
    rule!("ICC A117.1 (USA)", "draft of chapter 4", "403.5.1, exterior routes": ClearWidth, AtLeast Metres(48.0 * INCH), Care, Once),
];

pub(super) const ABA_TRAILS: &[Rule] = &[
    rule!("ABA outdoor developed areas, trails (USA, federal land)", "2013", "1017.3": ClearWidth, AtLeast Metres(36.0 * INCH), Care, Once),
    rule!("ABA outdoor developed areas, trails (USA, federal land)", "2013", "1017.4": passing(60.0 * INCH, 60.0 * INCH, 60.0 * INCH), AtMost Metres(1000.0 * FOOT), Care, Once),
];

pub(super) const ABA_ACCESS_ROUTES: &[Rule] = &[
    rule!("ABA outdoor developed areas, access routes (USA, federal land)", "2013", "1016, clear width": ClearWidth, AtLeast Metres(36.0 * INCH), Care, Recalled),
    rule!("ABA outdoor developed areas, access routes (USA, federal land)", "2013", "1016, passing spaces": passing(60.0 * INCH, 60.0 * INCH, 60.0 * INCH), AtMost Metres(200.0 * FOOT), Care, Recalled),
];

pub(super) const APPROVED_DOCUMENT_M: &[Rule] = &[
    rule!("Approved Document M, volume 1 (England)", "2015", "paragraph 1.6": ClearWidth, AtLeast Metres(0.9), Care, Once),
];

pub(super) const INCLUSIVE_MOBILITY: &[Rule] = &[
    rule!("Inclusive Mobility (United Kingdom)", "December 2021", "4.2, where 2 m is not possible": ClearWidth, AtLeast Metres(1.5), Care, Once),
    rule!("Inclusive Mobility (United Kingdom)", "December 2021", "4.2": ClearWidth, AtLeast Metres(2.0), Note, Once),
];

pub(super) const TECHNICAL_GUIDANCE_M: &[Rule] = &[
    rule!("Technical Guidance Document M (Ireland)", "2010", "1.1.3.2": ClearWidth, AtLeast Metres(1.5), Care, Once),
    rule!("Technical Guidance Document M (Ireland)", "2010", "1.1.3.2, passing places": passing(2.0, 1.8, 1.8), AtMost Metres(25.0), Care, Once),
];

pub(super) const DIN_18040_WALKS: &[Rule] = &[
    rule!("DIN 18040-1 and -2, walks outdoors (Germany)", "as quoted together", "straight walks": ClearWidth, AtLeast Metres(1.2), Care, Once),
    rule!("DIN 18040-1 and -2, walks outdoors (Germany)", "as quoted together", "walks that change direction": WidthWhereItTurns, AtLeast Metres(1.5), Care, Once),
    rule!("DIN 18040-1 and -2, walks outdoors (Germany)", "as quoted together", "passing places": passing(1.8, 1.8, 1.8), AtMost Metres(15.0), Care, Once),
];

pub(super) const DIN_18040_PUBLIC: &[Rule] = &[
    rule!("DIN 18040-3, public open space (Germany)", "as quoted", "passage": ClearWidth, AtLeast Metres(0.9), Care, Twice),
    rule!("DIN 18040-3, public open space (Germany)", "as quoted", "turning": TurningSpace, AtLeast Metres(1.5), Note, Twice),
];

pub(super) const AS_1428: &[Rule] = &[
    rule!("AS 1428.1 (Australia)", "as quoted", "path clear width": ClearWidth, AtLeast Metres(1.0), Care, Once),
    rule!("AS 1428.1 (Australia)", "2021", "7.4(f)": WidthOnBend { inside_radius: 5.0 }, AtLeast Metres(1.5), Care, Twice),
];

pub(super) const FIELDFARE: &[Rule] = &[
    rule!("Fieldfare, countryside paths (United Kingdom)", "as quoted by Trellis", "width": ClearWidth, AtLeast Metres(1.0), Care, Once),
    rule!("Fieldfare, countryside paths (United Kingdom)", "as quoted by Trellis", "passing places": passing(2.0, 1.5, 2.0), AtMost Metres(150.0), Care, Once),
];

pub(super) const SENSORY_TRUST: &[Rule] = &[
    rule!("Sensory Trust, gardens (United Kingdom)", "factsheet", "width, one way": ClearWidth, AtLeast Metres(0.9), Care, Once),
    rule!("Sensory Trust, gardens (United Kingdom)", "factsheet", "width, two ways": ClearWidth, AtLeast Metres(1.8), Note, Once),
];
