//! What hinders the deeds of a course on the ground.

use std::collections::HashSet;

use geometry::{Arc, Bounds, Direction, Point};

use super::Ground;
use crate::document::Site;
use crate::setout::reach::{self, Cause, Hindrance, OpenGround};
use crate::setout::{Course, Deed, Doing, PathLine, Scratch, Spot, Spots};
use crate::units::Ruler;

/// Something in the way of one deed of a course.
#[derive(Clone, Debug, PartialEq)]
pub struct Hindered {
    /// Which deed of the course, counted from 0.
    pub deed: usize,
    /// What of it: `the swing point`, `the tape from peg 1 to C1.2`.
    pub subject: String,
    /// What is lost where it cannot be done.
    pub loses: Loss,
    /// What is in the way, and where.
    pub hindrance: Hindrance,
}

/// What is lost with a deed that cannot be done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Loss {
    /// The whole course.
    Course,
    /// A check, which one can do without.
    Check,
    /// One flag of many, from which nothing else is set.
    Flag,
}

impl Hindered {
    /// Whether the course cannot be done for it.
    #[must_use]
    pub fn stops(&self) -> bool {
        self.loses == Loss::Course && self.hindrance.stops()
    }

    /// In a sentence without a stop.
    #[must_use]
    pub fn sentence(&self, site: &Site, ruler: &Ruler) -> String {
        let sentence = self.hindrance.sentence(&self.subject, site, ruler);
        match self.loses {
            Loss::Check if self.hindrance.stops() => {
                format!("{sentence}: leave that check out")
            }
            Loss::Flag => format!("{sentence}: leave that flag out"),
            Loss::Check | Loss::Course => sentence,
        }
    }
}

/// All that hinders a course, deed by deed; of a bend, `arc` is its centre line.
pub(super) fn hindrances(ground: &Ground<'_>, course: &Course, arc: Option<&Arc>) -> Vec<Hindered> {
    let spots = course.spots.iter().map(|set| set.at);
    let Some(bounds) = Bounds::around(spots) else {
        return Vec::new();
    };
    let mut survey = Survey {
        ground,
        course,
        arc,
        open: ground.reach.open_ground(bounds),
        deed: 0,
        pulled: HashSet::new(),
        found: Vec::new(),
    };
    let longest = survey.open.free_pull();
    let is_free = longest.is_some_and(|longest| longest <= ground.plan.tape.length);
    for (number, deed) in course.deeds.iter().enumerate() {
        // On free ground only a string that is swung can be too long.
        if is_free && !matches!(deed.does, Doing::Strike { .. }) {
            continue;
        }
        survey.deed = number;
        survey.deed(deed);
    }
    spare_flags(course, &mut survey.found);
    survey.found
}

/// So many flags may be left out: one in this many. Common practice, no source.
const ONE_FLAG_IN: usize = 4;

/// Flags that cannot be set are left out where they are few and nothing else is set from them.
fn spare_flags(course: &Course, found: &mut [Hindered]) {
    let flag = |number: usize| {
        let flag = course.deeds[number].makes;
        flag.filter(|spot| matches!(spot, Spot::Flag { .. }))
    };
    let stopped: HashSet<usize> = found
        .iter()
        .filter(|hindered| hindered.stops() && flag(hindered.deed).is_some())
        .map(|hindered| hindered.deed)
        .collect();
    let flags = (0..course.deeds.len()).filter(|number| flag(*number).is_some());
    if stopped.is_empty() || stopped.len() * ONE_FLAG_IN > flags.count() {
        return;
    }
    let used: HashSet<Spot> = course.deeds.iter().flat_map(Deed::uses).collect();
    for hindered in found.iter_mut().filter(|hindered| hindered.stops()) {
        if flag(hindered.deed).is_some_and(|spot| !used.contains(&spot)) {
            hindered.loses = Loss::Flag;
        }
    }
}

/// The sentences of those that stop, or of those that want care: each thing in the way once for
/// what it hinders, since it hinders many flags alike.
pub(super) fn reasons(found: &[Hindered], stops: bool, site: &Site, ruler: &Ruler) -> Vec<String> {
    let mut said = Vec::new();
    let mut sentences: Vec<String> = Vec::new();
    for hindered in found.iter().filter(|hindered| hindered.stops() == stops) {
        let hindrance = &hindered.hindrance;
        let swung = (hindrance.deed == reach::Deed::Swing).then_some(&hindered.subject);
        let what = (hindrance.deed, hindrance.cause, hindered.loses, swung);
        if !said.contains(&what) {
            said.push(what);
            sentences.push(hindered.sentence(site, ruler));
        }
    }
    sentences
}

/// A flag so deep in a thing stands on its face, in metres: the edge of a path that ends at a wall
/// may run on into it by as much as a flag is thick. Common practice, no source.
const ON_THE_FACE: f64 = 0.05;

struct Survey<'a> {
    ground: &'a Ground<'a>,
    course: &'a Course,
    arc: Option<&'a Arc>,
    deed: usize,
    open: OpenGround,
    /// What was pulled between two spots already is not looked at again.
    pulled: HashSet<[Spot; 2]>,
    found: Vec<Hindered>,
}

impl Survey<'_> {
    fn deed(&mut self, deed: &Deed) {
        self.done(deed);
        if let Some((spot, at)) = deed.makes.and_then(|spot| Some((spot, self.at(spot)?))) {
            let mut standing = match self.open.is_free(at) {
                true => Vec::new(),
                false => self.ground.reach.stand(at),
            };
            self.stands(spot, &mut standing);
            let spots = &self.course.spots;
            self.found(standing, Loss::Course, || match spot {
                Spot::Swing(_) => "the swing point".to_owned(),
                spot => spots.name(spot),
            });
        }
        for check in &deed.checks {
            self.tape(check.from, check.to, Loss::Check);
        }
    }

    /// A flag or a mark is stuck among roots without harm, and where the path itself lies along a
    /// thing it stands on the face of it.
    fn stands(&self, spot: Spot, standing: &mut Vec<Hindrance>) {
        if let Spot::Flag { .. } = spot {
            standing.retain(|found| {
                !matches!(found.cause, Cause::Roots(_)) && found.deep > ON_THE_FACE
            });
        }
    }

    fn done(&mut self, deed: &Deed) {
        match &deed.does {
            Doing::Stretch { from, to, .. } => self.string(*from, *to),
            Doing::Along { from, .. } => {
                if let Some(spot) = deed.makes {
                    self.tape(*from, spot, Loss::Course);
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
                    self.line(start, foot, Loss::Course, |names| {
                        format!("the tape from {} on", names.name(*from))
                    });
                }
                if let Some((spot, at)) = deed.makes.and_then(|spot| Some((spot, self.at(spot)?))) {
                    self.line(foot, at, Loss::Course, |names| {
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
                    self.tape(from, spot, Loss::Course);
                }
                for scratch in scratches.iter().flatten() {
                    self.scratch(scratch, spot);
                }
            }
            Doing::Strike { radius, line, .. } => {
                if let Some(arc) = self.arc {
                    let swung = self.ground.reach.swing(arc, radius.exact);
                    self.found(swung, Loss::Course, || string_to(*line));
                }
            }
            Doing::Slide { from, over, to, .. } => {
                self.tape(*from, *over, Loss::Course);
                self.tape(*over, *to, Loss::Course);
            }
            Doing::Read => {}
        }
    }

    fn at(&self, spot: Spot) -> Option<Point> {
        self.course.spots.at(spot)
    }

    /// A pull from one spot to another.
    fn tape(&mut self, from: Spot, to: Spot, loses: Loss) {
        if !self.pulled.insert([from.min(to), from.max(to)]) {
            return;
        }
        if let (Some(start), Some(end)) = (self.at(from), self.at(to)) {
            self.line(start, end, loses, |spots| {
                format!("the tape from {} to {}", spots.name(from), spots.name(to))
            });
        }
    }

    /// A string, which is held up by pins: what lies under it is worth knowing of.
    fn string(&mut self, from: Spot, to: Spot) {
        if let (Some(start), Some(end)) = (self.at(from), self.at(to)) {
            let strung = self.ground.reach.tape(start, end);
            let spots = &self.course.spots;
            self.found(strung, Loss::Course, || {
                format!("the string from {} to {}", spots.name(from), spots.name(to))
            });
        }
    }

    fn line(&mut self, from: Point, to: Point, loses: Loss, subject: impl Fn(&Spots) -> String) {
        let is_short = from.distance(to) <= self.ground.plan.tape.length;
        if is_short && self.open.is_open(from, to) {
            return;
        }
        let mut pulled = self.ground.reach.tape(from, to);
        let to_go = |found: &Hindrance| from.distance(to) - found.along;
        pulled.retain(|found| {
            let on_a_face = found.deep > 0.0 && found.deep.max(to_go(found)) <= ON_THE_FACE;
            !on_a_face && !self.ground.is_buried(found)
        });
        let spots = &self.course.spots;
        self.found(pulled, loses, || subject(spots));
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
        self.found(scratched, Loss::Course, || {
            format!("the scratch about {}", spots.name(scratch.about))
        });
    }

    fn found(&mut self, hindrances: Vec<Hindrance>, loses: Loss, subject: impl Fn() -> String) {
        if hindrances.is_empty() {
            return;
        }
        let subject = subject();
        let deed = self.deed;
        self.found
            .extend(hindrances.into_iter().map(|hindrance| Hindered {
                deed,
                subject: subject.clone(),
                loses,
                hindrance,
            }));
    }
}

/// What is swung along a line of the path.
fn string_to(line: PathLine) -> String {
    format!("the string to the {}", line.name())
}
