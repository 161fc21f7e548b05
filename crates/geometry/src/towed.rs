//! A trailer: a drawbar drawn by a hitch behind the rear axle of a bar that is drawn along a chain.

use crate::trailing::{FOLDED, Flow, HalfAngle, length};
use crate::{Chain, Direction, Point, Trail, TrailError};

/// A trailer behind a wheelbase ([`Trail`]): its hitch stands behind the rear axle, its axle trails by
/// the drawbar.
///
/// With γ the angle from drawbar to wheelbase, γ' = w − (v sin γ − h w cos γ) / D over the station,
/// for the wheelbase's turn w = sin θ / L and the rear axle's speed v = cos θ. Where θ has settled it
/// is solved in closed form; where θ still changes no closed form is known to us, and it goes by the
/// Magnus method of the fourth order (S. Blanes, F. Casas, J. A. Oteo and J. Ros, *The Magnus
/// expansion and some of its applications*, Physics Reports 470 (2009); from memory), whose steps are
/// so short that the axle is right to 10⁻⁶ of the drawbar, far below any track in gravel.
#[derive(Clone, Debug)]
pub struct Towed<'a> {
    front: Trail<'a>,
    hitch: f64,
    drawbar: f64,
    /// The angle at the start of each step, and how the step goes on.
    steps: Vec<Step>,
    folds: Option<f64>,
}

#[derive(Clone, Copy, Debug)]
struct Step {
    station: f64,
    piece: usize,
    angle: HalfAngle,
}

/// A step is at most this share of the shortest of wheelbase, drawbar and radius: the error grows
/// with its fifth power, and a fifth leaves less than 10⁻⁶.
const STEP: f64 = 1.0 / 5.0;

/// Below this angle from where it would settle nothing more is seen to change: a nanometre on the
/// longest drawbar.
const SETTLED: f64 = 1e-10;

/// The most steps of one chain; past them, on tens of kilometres of bends, steps grow longer.
const MOST_STEPS: f64 = 1e5;

impl<'a> Towed<'a> {
    /// A trailer whose axle runs `drawbar` metres behind its hitch, which stands `hitch` metres behind
    /// the rear end of `front`.
    ///
    /// # Errors
    /// * [`TrailError::Length`] unless the hitch is finite and not before the axle;
    /// * [`TrailError::Drawbar`] unless the drawbar is longer than nothing.
    pub fn new(front: Trail<'a>, hitch: f64, drawbar: f64) -> Result<Self, TrailError> {
        if length(drawbar)? <= 0.0 {
            return Err(TrailError::Drawbar(drawbar));
        }
        let mut towed = Self {
            front,
            hitch: length(hitch)?,
            drawbar,
            steps: Vec::new(),
            folds: None,
        };
        let end = towed.draw(HalfAngle::ALIGNED);
        if towed.chain().is_closed() {
            towed.draw(end);
        }
        Ok(towed)
    }

    fn draw(&mut self, from: HalfAngle) -> HalfAngle {
        let chain = self.chain();
        self.steps.clear();
        self.folds = None;
        let mut now = from;
        for i in 0..chain.pieces().len() {
            let (start, end) = (chain.station_of(i), chain.station_of(i + 1));
            let step = self
                .longest_step(self.front.turn(i))
                .max(chain.length() / MOST_STEPS);
            if self.front.length() <= 0.0 {
                now = self.turned_at(chain.corner(i)).over(1.0, now);
            }
            let mut station = start;
            while station < end {
                if now.whole().abs() >= FOLDED {
                    self.folds = self.folds.or(Some(station));
                }
                self.steps.push(Step {
                    station,
                    piece: i,
                    angle: now,
                });
                let next = if end - station <= step || self.is_settled(i, station - start) {
                    end
                } else {
                    station + step
                };
                now = self.flow(i, [station, next]).over(1.0, now);
                station = next;
            }
        }
        if now.whole().abs() >= FOLDED {
            self.folds = self.folds.or(Some(chain.length()));
        }
        now
    }

    /// A corner turns what has no wheelbase on the spot, and its hitch swings.
    fn turned_at(&self, corner: f64) -> Flow {
        Flow {
            turn: corner,
            pull: 0.0,
            swing: self.hitch * corner / self.drawbar,
        }
    }

    fn longest_step(&self, curvature: f64) -> f64 {
        let wheelbase = self.front.length();
        let pace = if wheelbase > 0.0 {
            wheelbase.min(self.drawbar)
        } else {
            self.drawbar
        };
        STEP * pace.min(curvature.abs().recip())
    }

    /// Whether the wheelbase keeps its angle from here to the end of the piece.
    fn is_settled(&self, piece: usize, along: f64) -> bool {
        let now = self.front.half_on(piece, along);
        self.front.length() <= 0.0
            || self
                .front
                .flow(piece)
                .settled()
                .is_some_and(|settled| settled.is_near(now, SETTLED))
    }

    /// What turns the drawbar so far along a piece.
    fn flow_at(&self, piece: usize, along: f64) -> Flow {
        let wheelbase = self.front.length();
        let (speed, turn) = if wheelbase > 0.0 {
            let half = self.front.half_on(piece, along);
            (half.cosine_of_whole(), half.sine_of_whole() / wheelbase)
        } else {
            (1.0, self.front.turn(piece))
        };
        Flow {
            turn,
            pull: speed / self.drawbar,
            swing: self.hitch * turn / self.drawbar,
        }
    }

    /// The whole flow of a step, from those at its two Gauss points and their commutator.
    fn flow(&self, piece: usize, [from, to]: [f64; 2]) -> Flow {
        let start = self.chain().station_of(piece);
        let (middle, step) = (0.5 * (from + to) - start, to - from);
        let off = step * (3.0_f64.sqrt() / 6.0);
        let (a, b) = (
            self.flow_at(piece, middle - off),
            self.flow_at(piece, middle + off),
        );
        let (half, cross) = (0.5 * step, step * step * (3.0_f64.sqrt() / 12.0));
        Flow {
            turn: half * (a.turn + b.turn) + cross * (b.swing * a.pull - b.pull * a.swing),
            pull: half * (a.pull + b.pull) + cross * (b.swing * a.turn - b.turn * a.swing),
            swing: half * (a.swing + b.swing) + cross * (b.turn * a.pull - b.pull * a.turn),
        }
    }

    /// The chain the front end is drawn along.
    #[must_use]
    pub fn chain(&self) -> &'a Chain {
        self.front.chain()
    }

    /// The wheelbase that draws it.
    #[must_use]
    pub fn front(&self) -> &Trail<'a> {
        &self.front
    }

    pub(crate) fn half_at(&self, station: f64) -> HalfAngle {
        let station = station.max(0.0).min(self.chain().length());
        let after = self.steps.partition_point(|step| step.station <= station);
        self.steps
            .get(after.saturating_sub(1))
            .map_or(HalfAngle::ALIGNED, |step| {
                self.flow(step.piece, [step.station, station])
                    .over(1.0, step.angle)
            })
    }

    /// The angle in radians from the drawbar to the wheelbase when the front end is at a station:
    /// positive where the wheelbase turns left of the drawbar.
    #[must_use]
    pub fn angle_at(&self, station: f64) -> f64 {
        self.half_at(station).whole()
    }

    /// The direction of the drawbar, from the trailer's axle to its hitch.
    #[must_use]
    pub fn direction_at(&self, station: f64) -> Direction {
        let half = self.half_at(station);
        self.front
            .direction_at(station)
            .turned_by(half.cosine_of_whole(), -half.sine_of_whole())
    }

    /// Where the hitch is.
    #[must_use]
    pub fn hitch_at(&self, station: f64) -> Point {
        self.front.rear_at(station) - self.front.direction_at(station).unit() * self.hitch
    }

    /// Where the middle of the trailer's axle is.
    #[must_use]
    pub fn axle_at(&self, station: f64) -> Point {
        self.hitch_at(station) - self.direction_at(station).unit() * self.drawbar
    }

    /// The station, to a step, at which the drawbar first stands square to the wheelbase or the
    /// wheelbase to the chain: it jackknifes there. `None` if all follows all along.
    #[must_use]
    pub fn folds_at(&self) -> Option<f64> {
        match (self.folds, self.front.folds_at()) {
            (Some(a), Some(b)) => Some(a.min(b)),
            (a, b) => a.or(b),
        }
    }
}
