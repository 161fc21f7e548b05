//! What the pages say that no figure decides: cautions, tools, what the sheet is not.

use plan::Plan;
use plan::document::ObstacleKind;
use plan::setout::{RouteSetOut, Tools, Voice};
use plan::units::Units;

/// What the sheet is, and what it is not.
pub(super) const STANDING: &str = "These are dimensions for laying out by hand. Measure every one of them on site before anyone digs. \
This sheet is not a survey, not engineering and no approval under any code: local rules, and people licensed for the work, come first.";

/// On every plan.
pub(super) const DO_NOT_SCALE: &str = "Dimensions rule, do not scale";

/// Cautions that hold for every path.
/// A length to bring, in whole metres or feet, never too short.
fn about(metres: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{:.0} m", (metres - 1e-6).ceil()),
        Units::FeetInches => format!("{:.0} ft", (metres / 0.3048 - 1e-6).ceil()),
    }
}

pub(super) fn cautions(plan: &Plan) -> Vec<String> {
    let call = match plan.units {
        Units::Metric => "your local buried-service location scheme (in the USA call 811)",
        Units::FeetInches => {
            "811 in the USA, or your local buried-service location scheme elsewhere,"
        }
    };
    let shown: Vec<&str> = plan
        .site
        .obstacles
        .iter()
        .filter(|obstacle| obstacle.kind == ObstacleKind::Service)
        .map(|obstacle| obstacle.name.as_str())
        .take(3)
        .collect();
    let shown = match shown[..] {
        [] => String::new(),
        _ => format!(" This plan shows: {}; there may be more.", shown.join(", ")),
    };
    let services = format!(
        "Buried pipes and cables. Some working days before you drive a peg or dig, contact {call} and wait for every answer. \
         Private lines for lights, water or gas are often not marked. Take every cable for live; near a mark dig by hand only.{shown}"
    );
    let others = [
        "Pegs and strings trip people and hurt eyes. Cap steel pins, hang flags on strings, leave no string across a way in use, \
         and count the pegs out and in again.",
        "Trees and roots may be protected by law. Ask the local authority, or an arborist, before digging under a crown; cut no thick root.",
        "Boundaries, rights of way, drains, walls. Have the owner confirm the boundary. Keep covers free, send no water to a neighbour, \
         do not dig below the foot of a wall. Stop at footings, waste, or anything you cannot name.",
        "People and permission. Keep children and pets off; sun, cold, cement on the skin and working alone all hurt. \
         Codes for slopes, steps, widths and drainage differ from place to place: ask before you build.",
    ];
    std::iter::once(services)
        .chain(others.map(str::to_owned))
        .collect()
}

/// What to bring for exactly this set-out.
pub(super) fn tools(set: &RouteSetOut, tape: f64, voice: &Voice) -> Vec<String> {
    let Tools {
        pegs,
        swing_pegs,
        flags,
        longest_pull,
        string,
        people,
    } = set.tools;
    let mut list = vec![format!(
        "{pegs} pegs for the centre line, a nail in the head of each, numbered 1 to {pegs}"
    )];
    if swing_pegs > 0 {
        let points = if swing_pegs == 1 {
            "the swing point"
        } else {
            "the swing points"
        };
        list.push(format!(
            "{}, with nails, for {points}",
            count(swing_pegs, "stout peg", "stout pegs")
        ));
    }
    if flags > 0 {
        list.push(format!("{flags} flags or canes if you use the offsets of all bends; marks of sand or paint will do"));
    }
    list.push(format!(
        "About {} of string that does not stretch, and something to cut it with",
        about(string, voice.ruler.units)
    ));
    let reach = if longest_pull > tape {
        format!(
            "longer than the {} the plan counts on: bring a longer one",
            about(tape, voice.ruler.units)
        )
    } else {
        format!(
            "within the {} the plan counts on",
            about(tape, voice.ruler.units)
        )
    };
    list.push(format!(
        "Two tapes, one for the base line: the longest pull is {}, {reach}",
        voice.length(longest_pull)
    ));
    list.push("A hammer, a marker pen, a pencil, caps for steel pins".to_owned());
    list.push("A builder's square, or the tape: sides of 3, 4 and 5 make a right angle".to_owned());
    list.push(format!(
        "{people} people; alone it takes nails and clips, and someone who knows where you are"
    ));
    list
}

/// A length for a narrow column: the other system, if wanted, on a line of its own below.
pub(super) fn stacked(voice: &Voice, metres: f64, after: &str) -> String {
    let ruler = &voice.ruler;
    let own = format!("{}{after}", ruler.text(metres));
    if voice.both {
        format!("{own}\n({})", ruler.companion().text(metres))
    } else {
        own
    }
}

/// How many of a thing.
pub(super) fn count(number: usize, one: &str, more: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { more })
}

/// A sentence from a finding: with a capital and a full stop.
pub(super) fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters
        .next()
        .map(|letter| letter.to_uppercase().to_string());
    let stop = if words.ends_with(['.', '!', '?']) {
        ""
    } else {
        "."
    };
    format!("{}{}{stop}", first.unwrap_or_default(), letters.as_str())
}
