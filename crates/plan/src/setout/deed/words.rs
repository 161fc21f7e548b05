//! A deed in words, for a helper who has never seen the plan: what to do, and what must read how much.

use super::{Crew, Deed, Doing, Fastening, Manner, Reading, Scratch, Spot, Spots, Taped};
use crate::setout::Step;
use crate::setout::steps::{roughly, side};

impl Deed {
    /// What to do, in whole sentences, and what must read how much afterwards.
    ///
    /// Every figure and spot the deed needs stands in them, figures as [`Ruler::text`] writes them
    /// and spots as [`Spots::name`] does, in the order of [`Doing`]'s fields.
    ///
    /// [`Ruler::text`]: crate::units::Ruler::text
    #[must_use]
    pub fn words(&self, manner: &Manner, spots: &Spots) -> Step {
        let telling = Telling { manner, spots };
        let make = self.makes.map(|spot| telling.make(spot));
        let text = telling.doing(&self.does, &make.unwrap_or_default());
        let note = self.note.iter().map(|note| note.words(&manner.voice));
        let sentences: Vec<String> = text.into_iter().chain(note).collect();
        let checks: Vec<String> = self
            .checks
            .iter()
            .map(|check| check.words(manner, spots))
            .collect();
        Step {
            text: sentences.join(" "),
            check: (!checks.is_empty()).then(|| checks.join("; ")),
        }
    }
}

impl Reading {
    /// What must be read: `peg 1 to S1 must read 3.155 m to 3.165 m`.
    #[must_use]
    pub fn words(&self, manner: &Manner, spots: &Spots) -> String {
        format!(
            "{} to {} must read {}",
            spots.name(self.from),
            spots.name(self.to),
            self.range(manner)
        )
    }

    /// From the least to the most it may read: `3.155 m to 3.165 m`.
    #[must_use]
    pub fn range(&self, manner: &Manner) -> String {
        let more = manner.allowances.of(manner.fastening(self.from, false));
        let [least, most] = [self.least, self.most].map(|read| manner.voice.length(read + more));
        format!("{least} to {most}")
    }
}

/// What the telling of one deed leans on.
struct Telling<'a> {
    manner: &'a Manner,
    spots: &'a Spots,
}

impl Telling<'_> {
    fn name(&self, spot: Spot) -> String {
        self.spots.name(spot)
    }

    fn read(&self, taped: &Taped, at: Spot) -> String {
        self.manner.read(taped, self.manner.fastening(at, false))
    }

    /// What is put where a spot is found.
    fn make(&self, spot: Spot) -> String {
        let name = self.name(spot);
        match spot {
            Spot::Mark(_) => format!("mark {name}"),
            Spot::Peg(_) => format!("drive {name}"),
            Spot::Swing(_) => format!("drive the swing point peg {name}"),
            Spot::Apex(_) => format!("drive the apex peg {name}"),
            Spot::Flag { line, .. } => format!("set flag {name} of the {}", line.name()),
            Spot::Aim { .. } => format!("drive nail {name}"),
        }
    }

    /// How the zero end comes to a spot, as the beginning of a sentence.
    fn zero(&self, spot: Spot, swung: bool) -> String {
        let name = self.name(spot);
        match self.manner.fastening(spot, swung) {
            Fastening::Held => format!("Hold the tape's zero at {name}"),
            Fastening::Hook => format!("Hook the tape on {name}"),
            Fastening::Ring => match spot {
                Spot::Flag { .. } => format!("Hook the tape's ring over the pin of {name}"),
                _ => format!("Hook the tape's ring on the nail of {name}"),
            },
            Fastening::Loop => format!("Loop the tape round {name}"),
        }
    }

    fn doing(&self, does: &Doing, make: &str) -> Vec<String> {
        match does {
            Doing::Stretch { from, to, length } => {
                let (start, end) = (self.name(*from), self.name(*to));
                vec![match self.manner.crew {
                    Crew::Two => format!(
                        "Stretch a string from {start} to {end}, {}.",
                        self.manner.voice.taped(length)
                    ),
                    Crew::Alone => format!(
                        "Tie a string to {start} and pull it taut to {end}, {}; make it fast there.",
                        self.manner.voice.taped(length)
                    ),
                }]
            }
            Doing::Along { from, to, at } => {
                vec![format!("{} {make}.", self.along(*from, *to, at))]
            }
            Doing::Square {
                from,
                to,
                along,
                off,
                left,
            } => {
                let voice = &self.manner.voice;
                let length = self.distance(*from, *to);
                let right_angle = self.manner.right_angle(along.exact, length, off.exact);
                vec![
                    format!("{} stop.", self.along(*from, *to, along)),
                    format!(
                        "Go square off to the {}, as you look from {} to {}: at {} {make}.",
                        side(*left),
                        self.name(*from),
                        self.name(*to),
                        voice.taped(off)
                    ),
                    right_angle.words(voice),
                ]
            }
            Doing::Cross {
                one,
                other,
                left,
                scratches,
            } => {
                let side = format!(
                    "on the {} as you look from {} to {}",
                    side(*left),
                    self.name(one.0),
                    self.name(other.0)
                );
                match scratches {
                    Some(scratches) => {
                        let [first, second] = scratches;
                        vec![
                            self.scratch(first, &one.1, &side),
                            self.scratch(second, &other.1, "on the same side"),
                            format!("Where the two scratches cross, {make}."),
                        ]
                    }
                    None => self.two_tapes(*one, *other, &side, make),
                }
            }
            Doing::Strike {
                about,
                radius,
                from,
                to,
                left,
                line,
            } => vec![format!(
                "{zero} and walk with it taut and level, {0} on your {1}, from the line {0} to {2} to the line {0} to {3}, no farther: mark the {4} every step at {5}.",
                self.name(*about),
                side(*left),
                self.name(*from),
                self.name(*to),
                line.name(),
                self.manner
                    .read(radius, self.manner.fastening(*about, true)),
                zero = self.zero(*about, true)
            )],
            Doing::Slide {
                from,
                over,
                to,
                arm,
                brace,
                line,
            } => {
                let (start, corner, end) = (self.name(*from), self.name(*over), self.name(*to));
                vec![
                    format!(
                        "Drive a nail at {start} and one at {end}. Lay two battens, each longer than from {start} to {end}, so that they meet at {corner} and each touches its nail; screw them together."
                    ),
                    format!(
                        "Screw a brace across, from {0} from the corner on the one to {0} from it on the other: it must measure {1} between the two.",
                        self.manner.voice.taped(arm),
                        self.manner.voice.taped(brace)
                    ),
                    format!(
                        "Slide the battens from {start} over {corner} to {end}, both against their nails: the corner draws the {}.",
                        line.name()
                    ),
                ]
            }
            Doing::Read => vec!["Check the whole with a fresh pull of the tape.".to_owned()],
        }
    }

    /// Where on a line, as the beginning of a sentence that ends in what to do there.
    fn along(&self, from: Spot, to: Spot, at: &Taped) -> String {
        let (zero, start, end) = (self.zero(from, false), self.name(from), self.name(to));
        if at.exact < 0.0 {
            let behind = Taped {
                exact: -at.exact,
                tape: -at.tape,
            };
            let read = self.read(&behind, from);
            format!("{zero} and lay it behind {start}, in line with {end}: at {read}")
        } else if at.exact > self.distance(from, to) + geometry::SAME_PLACE {
            let read = self.read(at, from);
            format!("{zero} and lay it straight over {end} and on: at {read}")
        } else {
            let read = self.read(at, from);
            format!("{zero} and lay it straight to {end}: at {read}")
        }
    }

    fn two_tapes(
        &self,
        one: (Spot, Taped),
        other: (Spot, Taped),
        side: &str,
        make: &str,
    ) -> Vec<String> {
        let (first, second) = (self.read(&one.1, one.0), self.read(&other.1, other.0));
        let cross = match self.manner.crew {
            Crew::Two => "Pull both taut and level",
            Crew::Alone => "Take one in each hand and pull both taut and level",
        };
        vec![
            format!("{}.", self.zero(one.0, false)),
            format!("{}, with a second tape.", self.zero(other.0, false)),
            format!(
                "{cross} until they cross, {side}, the first at {first}, the second at {second}: there {make}."
            ),
        ]
    }

    fn scratch(&self, scratch: &Scratch, radius: &Taped, side: &str) -> String {
        let voice = &self.manner.voice;
        format!(
            "{} and with {} scratch an arc {side}, about {} long, {} to {} away from {}.",
            self.zero(scratch.about, true),
            self.manner
                .read(radius, self.manner.fastening(scratch.about, true)),
            roughly(scratch.length, voice),
            voice.length(scratch.least),
            voice.length(scratch.most),
            self.name(scratch.seen_from)
        )
    }

    /// How far apart two spots are in the plan; nothing where one is missing.
    fn distance(&self, from: Spot, to: Spot) -> f64 {
        match (self.spots.at(from), self.spots.at(to)) {
            (Some(from), Some(to)) => from.distance(to),
            _ => 0.0,
        }
    }
}
