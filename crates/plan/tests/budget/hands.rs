//! Hands that do what they are told with drawn errors, by trigonometry of their own.

use plan::budget::Taping;

use super::told::{Act, Angle, Told};

/// Numbers that look drawn, the same each time: Steele, Lea and Flood's `SplitMix64` (2014).
pub(crate) struct Dice(pub(crate) u64);

impl Dice {
    /// Evenly between −1 and 1.
    pub(crate) fn even(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        bits ^= bits >> 31;
        (bits >> 11) as f64 / (1_u64 << 52) as f64 - 1.0
    }

    /// Normal with deviation 1: Box and Muller (1958).
    pub(crate) fn normal(&mut self) -> f64 {
        let radius = (0.5 - 0.5 * self.even()).max(1e-300).ln() * -2.0;
        radius.sqrt() * (std::f64::consts::PI * self.even()).cos()
    }
}

/// What a job came to: where each spot stands, each line struck (about, radius, name), each reading.
pub(crate) struct Job {
    pub(crate) spots: Vec<(f64, f64)>,
    pub(crate) struck: Vec<(usize, f64, String)>,
    pub(crate) readings: Vec<f64>,
}

/// The tapes of one job, and how they are used.
pub(crate) struct Hands<'a> {
    pub(crate) taping: &'a Taping,
    pub(crate) dice: Dice,
    /// One; nothing for hands that never err.
    pub(crate) errs: f64,
    tapes: [f64; 2],
    stretch: f64,
}

impl<'a> Hands<'a> {
    pub(crate) fn new(taping: &'a Taping, seed: u64) -> Self {
        Self {
            taping,
            dice: Dice(seed),
            errs: 1.0,
            tapes: [0.0; 2],
            stretch: 0.0,
        }
    }

    /// Does every step from where the given spots stand.
    pub(crate) fn job(
        &mut self,
        told: &[Told],
        given: &[(usize, (f64, f64), f64)],
        spots: usize,
    ) -> Job {
        self.tapes = [self.dice.even(), self.dice.even()];
        self.stretch = self.taping.swung.stretch() * self.dice.normal();
        let mut job = Job {
            spots: vec![(f64::NAN, f64::NAN); spots],
            struck: Vec::new(),
            readings: Vec::new(),
        };
        for &(spot, (x, y), deviation) in given {
            job.spots[spot] = (
                x + self.errs * deviation * self.dice.normal(),
                y + self.errs * deviation * self.dice.normal(),
            );
        }
        for step in told {
            self.act(&step.act, &mut job);
            for [from, to] in &step.checks {
                let ((ax, ay), (bx, by)) = (job.spots[*from], job.spots[*to]);
                let true_length = (bx - ax).hypot(by - ay);
                job.readings
                    .push(true_length - self.error(true_length, 0, false));
            }
        }
        job
    }

    /// How much farther a pull ends than its figure: what a class III tape may be out, spread
    /// evenly, and what errs each time.
    fn error(&mut self, length: f64, tape: usize, swung: bool) -> f64 {
        let length = length.abs();
        let permitted = 0.001 * (0.6 + 0.4 * length.ceil());
        let half_division = 0.5 * self.taping.ruler.graduation.metres();
        let stretch = if swung { self.stretch * length } else { 0.0 };
        let errors = permitted * self.tapes[tape]
            + stretch
            + half_division * self.dice.even()
            + self.taping.pointing * self.dice.normal()
            + self.taping.per_metre * length * self.dice.normal();
        self.errs * errors
    }

    fn pull(&mut self, figure: f64, tape: usize, swung: bool) -> f64 {
        let error = self.error(figure, tape, swung);
        figure + error * figure.signum()
    }

    fn act(&mut self, act: &Act, job: &mut Job) {
        match *act {
            Act::Nothing => {}
            Act::Along { string, at, make } => {
                let (start, way) = bearing(job, string);
                job.spots[make] = from(start, way, self.pull(at, 0, false));
            }
            Act::Square {
                string,
                at,
                off,
                left,
                ref angle,
                make,
            } => {
                let (start, way) = bearing(job, string);
                let foot = from(start, way, self.pull(at, 0, false));
                let turn = self.right_angle(angle);
                let square = if left { way + turn } else { way - turn };
                job.spots[make] = from(foot, square, self.pull(off, 0, false));
            }
            Act::Cross {
                from: spots,
                pulls: [first, second],
                left,
                scratched,
                make,
            } => {
                let a = self.pull(first, 0, scratched);
                let b = self.pull(second, usize::from(!scratched), scratched);
                let (start, way) = bearing(job, spots);
                let end = job.spots[spots[1]];
                let apart = (end.0 - start.0).hypot(end.1 - start.1);
                // The law of cosines at the first spot.
                let at_start = ((a * a + apart * apart - b * b) / (2.0 * a * apart)).acos();
                let tape = if left { way + at_start } else { way - at_start };
                job.spots[make] = from(start, tape, a);
            }
            Act::Strike {
                about,
                radius,
                ref line,
            } => {
                let radius = self.pull(radius, 0, true);
                job.struck.push((about, radius, line.clone()));
            }
        }
    }

    /// The angle in radians that is made where a right one is wanted.
    fn right_angle(&mut self, angle: &Angle) -> f64 {
        let right = std::f64::consts::FRAC_PI_2;
        match *angle {
            Angle::Square => right + self.errs * self.taping.square * self.dice.normal(),
            Angle::Triangle { sides, back } => {
                let [a, b, c] = sides.map(|side| self.pull(side, 0, false));
                let made = ((a * a + b * b - c * c) / (2.0 * a * b)).acos();
                if back { 2.0 * right - made } else { made }
            }
            Angle::Pulls { each_way, pull } => {
                let marks = [-1.0, 1.0].map(|way| way * self.pull(each_way, 0, false));
                let [a, b] = [0, 1].map(|_| self.pull(pull, 0, false));
                let apart = marks[1] - marks[0];
                let along = (a * a - b * b + apart * apart) / (2.0 * apart);
                let up = (a * a - along * along).sqrt();
                up.atan2(marks[0] + along)
            }
        }
    }
}

/// Where a string starts, and its bearing in radians from east.
fn bearing(job: &Job, [start, end]: [usize; 2]) -> ((f64, f64), f64) {
    let ((ax, ay), (bx, by)) = (job.spots[start], job.spots[end]);
    ((ax, ay), (by - ay).atan2(bx - ax))
}

fn from((x, y): (f64, f64), bearing: f64, length: f64) -> (f64, f64) {
    (x + length * bearing.cos(), y + length * bearing.sin())
}
