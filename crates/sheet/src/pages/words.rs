//! What the pages say that no figure decides: cautions, tools, what the sheet is not.

use plan::Plan;
use plan::document::{ObstacleKind, Surface};
use plan::setout::{Crew, Method, Stage, StringCut, Tie, Voice};
use plan::units::Units;

use super::Job;

/// What the sheet is, and what it is not.
pub(super) const STANDING: &str = "These are dimensions for laying out by hand. Measure every one of them on site before anyone digs. \
This sheet is not a survey, not engineering and no approval under any code: local rules, and people licensed for the work, come first.";

/// On every plan.
pub(super) const DO_NOT_SCALE: &str = "Dimensions rule, do not scale";

/// A length to bring, in whole metres or feet, never too short.
pub(super) fn about(metres: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{:.0} m", (metres - 1e-6).ceil()),
        Units::FeetInches => format!("{:.0} ft", (metres / 0.3048 - 1e-6).ceil()),
    }
}

/// The cautions that apply to a plan.
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
    let mut list = vec![services];
    list.push(
        "Pegs and strings trip people and hurt eyes. Cap steel pins, hang flags on strings, leave no string across a gateway or a way in use, \
         least of all at night. Count the pegs out and in again, and mark those that are left standing."
            .to_owned(),
    );
    let has = |kind| {
        plan.site
            .obstacles
            .iter()
            .any(|obstacle| obstacle.kind == kind)
    };
    if has(ObstacleKind::Tree) {
        list.push(
            "Trees and roots may be protected by law. Ask the local authority, or an arborist, before digging under a crown; cut no thick root."
                .to_owned(),
        );
    }
    list.push(
        "Boundaries, rights of way, drains, walls. Have the owner confirm the boundary. Keep covers free, send no water to a neighbour, \
         do not dig below the foot of a wall. Stop at footings, waste, or anything you cannot name."
            .to_owned(),
    );
    list.push(match plan.set_out.surface {
        Surface::LooseGravel | Surface::EdgedGravel => {
            "Lifting: wheel or carry loads in parts, and know where they are tipped before the first.".to_owned()
        }
        Surface::Brick | Surface::Concrete | Surface::Flags => {
            "Lifting and dust: lift heavy pieces by two or with a tool. Cut stone and brick wet, with a mask and goggles that are made for it, and nobody beside you."
                .to_owned()
        }
    });
    let alone = match plan.set_out.crew {
        Crew::Alone => " You work alone: tell somebody where, and until when.",
        Crew::Two => "",
    };
    list.push(format!(
        "People and permission. Keep children and pets off; sun, cold and cement on the skin hurt.{alone} \
         Codes for slopes, steps, widths and drainage differ from place to place: ask before you build, and leave licensed work to those licensed for it."
    ));
    list
}

/// What to bring for exactly this work.
pub(super) fn tools(job: &Job<'_>) -> Vec<String> {
    let (tools, voice, tape) = (&job.work.tools, &job.voice, job.plan.tape.length);
    let mut list = vec![format!(
        "{} and a hammer: {} for the centre line{}{}{}, {} to spare; {}",
        count(
            tools.pegs + tools.apex_pegs + tools.swing_pegs + tools.offset_pegs + tools.spare_pegs,
            "peg",
            "pegs"
        ),
        tools.pegs,
        some(tools.apex_pegs, "apexes"),
        some(tools.swing_pegs, "swing points"),
        some(tools.offset_pegs, "offset pegs"),
        tools.spare_pegs,
        count(tools.nails, "nail", "nails"),
    )];
    if tools.flags > 0 {
        list.push(format!(
            "{}, canes or pins",
            count(tools.flags, "flag", "flags")
        ));
    }
    list.extend(tools.strings.iter().map(|cut| string(cut, voice)));
    let counted_on = match voice.ruler.units {
        Units::Metric => format!("{:.0} m", (tape + 1e-6).floor()),
        Units::FeetInches => format!("{:.0} ft", (tape / 0.3048 + 1e-6).floor()),
    };
    let reach = if tools.longest_pull > tape {
        format!("longer than the {counted_on} the plan counts on: bring a longer one")
    } else {
        format!("within the {counted_on} the plan counts on")
    };
    list.push(format!(
        "{}; the longest pull is {}, {reach}",
        count(tools.tapes, "tape", "tapes"),
        voice.length(tools.longest_pull)
    ));
    if let Some(longest) = tools.battens {
        list.push(format!(
            "Two straight battens longer than {}, a third for a brace, screws",
            voice.length(longest)
        ));
    }
    if tools.draws_lines {
        list.push("Paint, sand or lime to draw the lines".to_owned());
    }
    list.push(
        "A builder's square, a plumb bob, a spirit level, a knife to cut string, a marker pen, a pencil, caps for steel pins"
            .to_owned(),
    );
    list.push(match tools.people {
        1 => {
            "One person; a nail or a clamp at each mark for the tape's end, and somebody who knows where you are".to_owned()
        }
        people => format!("{people} people"),
    });
    let seconds = job.work.bends.iter().filter_map(|bend| bend.second_way());
    let seconds: Vec<&str> = seconds.map(|way| way.method.name()).collect();
    if tools.battens.is_none() && seconds.contains(&Method::Battens.name()) {
        list.push(
            "Only if a swing fails: two straight battens as long as its page says, a third for a brace, screws".to_owned(),
        );
    }
    list
}

/// So many more pegs for a thing, if any.
fn some(number: usize, what: &str) -> String {
    match number {
        0 => String::new(),
        _ => format!(", {number} for {what}"),
    }
}

/// A string and where it runs, one after the other.
fn string(cut: &StringCut, voice: &Voice) -> String {
    const MOST: usize = 3;
    let runs = cut
        .uses
        .iter()
        .take(MOST)
        .map(|used| used.between.join(" to "));
    let runs = runs.collect::<Vec<_>>().join(", then ");
    let more = match cut.uses.len().saturating_sub(MOST) {
        0 => String::new(),
        more => format!(", and {more} more"),
    };
    format!(
        "String that does not stretch: cut {}, knots in it, for {runs}{more}",
        voice.length(cut.length)
    )
}

/// How spots are named, as far as there are such.
pub(super) fn naming(job: &Job<'_>) -> Vec<String> {
    let mut list = vec![
        "Tie: a pull of the tape from a mark to a peg. Left and right: as you look from the first thing named to the second. A1: the peg at the apex of bend 1, S1: its swing point, from which the tape is swung.".to_owned(),
    ];
    let mut flags = Vec::new();
    if let Some(work) = job.work.straights.first() {
        let peg = work.straight.pegs.0;
        flags.push(format!(
            "L{peg}+0 and R{peg}+0: the left and right edge beside peg {peg}, L{peg}+1 the next along"
        ));
    }
    if !job.work.bends.is_empty() {
        flags.push(
            "C, I, O: centre line, inside edge, outside edge; IA1 and OA1 beside the apex of bend 1"
                .to_owned(),
        );
    }
    if !flags.is_empty() {
        list.push(format!("Flags: {}.", flags.join(". ")));
    }
    list
}

/// What a reading in its range is, and what it is outside.
pub(super) fn reading(job: &Job<'_>) -> Vec<String> {
    let range = "“Must read”: between these two figures all is fine. Of a hundred good jobs 95 read fine throughout.".to_owned();
    let beyond = job.work.beyond_fine().map(|beyond| {
        format!(
            "Out of the range by up to {}: look again, pull once more from the other end. By more: stop, something is wrong. Find it before you go on; page “Record” has the figures for each.",
            job.voice.length(beyond)
        )
    });
    [range].into_iter().chain(beyond).collect()
}

/// A stage of the work.
pub(super) fn stage(job: &Job<'_>, stage: Stage) -> String {
    let between = |(first, last): (usize, usize)| format!("peg {first} to peg {last}");
    match stage {
        Stage::Pegs => format!(
            "pegs: read the marks, then drive pegs 1 to {} in the order of the table and write its number on each; the page from the base line is for pegs that no tape reaches.",
            job.work.pegs.len()
        ),
        Stage::Straight(i) => job.work.straights.get(i).map_or_else(String::new, |work| {
            format!("straight from {}.", between(work.straight.pegs))
        }),
        Stage::Bend(i) => job.work.bends.get(i).map_or_else(String::new, |work| {
            format!(
                "bend {} from {}: {}.",
                work.bend.number,
                between(work.bend.pegs),
                work.way().method.name()
            )
        }),
        Stage::OffsetPegs => {
            "before anyone digs, offset pegs; how a lost peg is found again.".to_owned()
        }
    }
}

/// A tie: how far, from what.
pub(super) fn tie(tie: &Tie, voice: &Voice) -> String {
    format!("{} from {}", voice.taped(&tie.distance), tie.anchor.name)
}

/// Left or right.
pub(super) const fn side(left: bool) -> &'static str {
    if left { "left" } else { "right" }
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
