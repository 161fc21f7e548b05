//! What hinders the deeds of a course on the ground.

use geometry::{Arc, Direction, Point};

use super::Ground;
use crate::document::Site;
use crate::setout::reach::{self, Hindrance};
use crate::setout::{Course, Deed, Doing, PathLine, Scratch, Spot, Spots};
use crate::units::Ruler;

/// Something in the way of one deed of a course.
#[derive(Clone, Debug, PartialEq)]
pub struct Hindered {
    /// Which deed of the course, counted from 0.
    pub deed: usize,
    /// What of it: `the swing point`, `the tape from peg 1 to C1.2`.
    pub subject: String,
    /// Whether it is only a check that suffers.
    pub is_check: bool,
    /// What is in the way, and where.
    pub hindrance: Hindrance,
}

impl Hindered {
    /// Whether the deed cannot be done: one can do without a check.
    #[must_use]
    pub fn stops(&self) -> bool {
        !self.is_check && self.hindrance.stops()
    }

    /// In a sentence without a stop.
    #[must_use]
    pub fn sentence(&self, site: &Site, ruler: &Ruler) -> String {
        let sentence = self.hindrance.sentence(&self.subject, site, ruler);
        if self.is_check && self.hindrance.stops() {
            format!("{sentence}: that check is left out")
        } else {
            sentence
        }
    }
}

/// All that hinders a course, deed by deed; of a bend, `arc` is its centre line.
pub(super) fn hindrances(ground: &Ground<'_>, course: &Course, arc: Option<&Arc>) -> Vec<Hindered> {
    let mut survey = Survey {
        ground,
        course,
        arc,
        deed: 0,
        pulled: Vec::new(),
        found: Vec::new(),
    };
    for (number, deed) in course.deeds.iter().enumerate() {
        survey.deed = number;
        survey.deed(deed);
    }
    survey.found
}

/// The sentences of those that stop, or of those that want care: each thing in the way once for
/// what it hinders, since it hinders many flags alike.
pub(super) fn reasons(found: &[Hindered], stops: bool, site: &Site, ruler: &Ruler) -> Vec<String> {
    let mut said = Vec::new();
    let mut sentences: Vec<String> = Vec::new();
    for hindered in found.iter().filter(|hindered| hindered.stops() == stops) {
        let hindrance = &hindered.hindrance;
        let swung = (hindrance.deed == reach::Deed::Swing).then_some(&hindered.subject);
        let what = (hindrance.deed, hindrance.cause, hindered.is_check, swung);
        if !said.contains(&what) {
            said.push(what);
            sentences.push(hindered.sentence(site, ruler));
        }
    }
    sentences
}

struct Survey<'a> {
    ground: &'a Ground<'a>,
    course: &'a Course,
    arc: Option<&'a Arc>,
    deed: usize,
    /// What was pulled between two spots already is not looked at again.
    pulled: Vec<[Spot; 2]>,
    found: Vec<Hindered>,
}

impl Survey<'_> {
    fn deed(&mut self, deed: &Deed) {
        self.done(deed);
        if let Some((spot, at)) = deed.makes.and_then(|spot| Some((spot, self.at(spot)?))) {
            let standing = self.ground.reach.stand(at);
            let spots = &self.course.spots;
            self.found(standing, false, || match spot {
                Spot::Swing(_) => "the swing point".to_owned(),
                spot => spots.name(spot),
            });
        }
        for check in &deed.checks {
            self.tape(check.from, check.to, true);
        }
    }

    fn done(&mut self, deed: &Deed) {
        match &deed.does {
            Doing::Stretch { from, to, .. } => self.tape(*from, *to, false),
            Doing::Along { from, .. } => {
                if let Some(spot) = deed.makes {
                    self.tape(*from, spot, false);
                }
            }
            Doing::Square {
                from, to, along, ..
            } => {
                let (Some(start), Some(end)) = (self.at(*from), self.at(*to)) else {
                    return;
                };
                let Some(way) = Direction::of(end - start) else {
                    return;
                };
                let foot = start + way.unit() * along.exact;
                if !(0.0..=start.distance(end)).contains(&along.exact) {
                    self.line(start, foot, false, |names| {
                        format!("the tape from {} on", names.name(*from))
                    });
                }
                if let Some((spot, at)) = deed.makes.and_then(|spot| Some((spot, self.at(spot)?))) {
                    self.line(foot, at, false, |names| {
                        format!("the square to {}", names.name(spot))
                    });
                }
            }
            Doing::Cross {
                one,
                other,
                scratches,
                ..
            } => {
                let Some(spot) = deed.makes else { return };
                for from in [one.0, other.0] {
                    self.tape(from, spot, false);
                }
                for scratch in scratches.iter().flatten() {
                    self.scratch(scratch, spot);
                }
            }
            Doing::Strike { radius, line, .. } => {
                if let Some(arc) = self.arc {
                    let swung = self.ground.reach.swing(arc, radius.exact);
                    self.found(swung, false, || string_to(*line));
                }
            }
            Doing::Slide { from, over, to, .. } => {
                self.tape(*from, *over, false);
                self.tape(*over, *to, false);
            }
            Doing::Read => {}
        }
    }

    fn at(&self, spot: Spot) -> Option<Point> {
        self.course.spots.at(spot)
    }

    /// A pull from one spot to another.
    fn tape(&mut self, from: Spot, to: Spot, is_check: bool) {
        if self.pulled.contains(&[from, to]) || self.pulled.contains(&[to, from]) {
            return;
        }
        self.pulled.push([from, to]);
        if let (Some(start), Some(end)) = (self.at(from), self.at(to)) {
            self.line(start, end, is_check, |spots| {
                format!("the tape from {} to {}", spots.name(from), spots.name(to))
            });
        }
    }

    fn line(&mut self, from: Point, to: Point, is_check: bool, subject: impl Fn(&Spots) -> String) {
        let pulled = self.ground.reach.tape(from, to);
        let spots = &self.course.spots;
        self.found(pulled, is_check, || subject(spots));
    }

    fn scratch(&mut self, scratch: &Scratch, spot: Spot) {
        let (Some(about), Some(at)) = (self.at(scratch.about), self.at(spot)) else {
            return;
        };
        let Some(way) = Direction::of(at - about) else {
            return;
        };
        let radius = about.distance(at);
        let half = 0.5 * scratch.length;
        let scratched = self.ground.reach.scratch(about, radius, way, half);
        let spots = &self.course.spots;
        self.found(scratched, false, || {
            format!("the scratch about {}", spots.name(scratch.about))
        });
    }

    fn found(&mut self, hindrances: Vec<Hindrance>, is_check: bool, subject: impl Fn() -> String) {
        if hindrances.is_empty() {
            return;
        }
        let subject = subject();
        let deed = self.deed;
        self.found
            .extend(hindrances.into_iter().map(|hindrance| Hindered {
                deed,
                subject: subject.clone(),
                is_check,
                hindrance,
            }));
    }
}

/// What is swung along a line of the path.
fn string_to(line: PathLine) -> String {
    format!("the string to the {}", line.name())
}
