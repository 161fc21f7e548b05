//! A bar drawn along a chain by its front end: how a wheelbase or a drawbar cuts the inside of a bend.
//!
//! Low-speed geometry: nothing slips sideways, so the rear end moves along the bar (a tractrix). With
//! the angle θ from the bar to the path, θ' = κ − sin θ / L over the station. In sine and cosine of
//! θ/2 this is linear, so that it is solved in closed form on straights and arcs alike, and nothing is
//! integrated by steps. Source: closed form, derived; the equation is that of S. R. Dunbar, R. Bosman
//! and S. Nooij, *The Track of a Bicycle Back Tire*, Mathematics Magazine 74 (2001).

use std::f64::consts::FRAC_PI_2;
use std::fmt;

use crate::{Chain, Direction, Piece, Point, SAME_DIRECTION, Vector};

/// A bar drawn along a chain by its front end, which stays on the chain.
///
/// It starts in line with the chain; on a closed one as it does after a first time round.
///
/// ```
/// use geometry::{Arc, Chain, Piece, Point, Steady, Trail, steady};
/// // Three quarters round a circle of 4 m: a bar of 1.2 m settles at asin(1.2 / 4).
/// let arc = Arc::about(Point::new(0.0, 4.0), Point::ORIGIN, Point::new(-4.0, 4.0), true)?;
/// let chain = Chain::new(vec![Piece::Arc(arc)], false)?;
/// let trail = Trail::new(&chain, 1.2)?;
/// let settled = trail.angle_at(chain.length());
/// assert!((settled - 0.3_f64.asin()).abs() < 1e-6);
/// assert!(matches!(steady(1.2, 4.0), Steady::Follows { angle, .. } if (angle - settled).abs() < 1e-6));
/// assert_eq!(trail.folds_at(), None);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug)]
pub struct Trail<'a> {
    chain: &'a Chain,
    length: f64,
    /// The angle where each piece starts, past the corner there.
    starts: Vec<HalfAngle>,
    /// The curvature of each piece.
    turns: Vec<f64>,
    folds: Option<f64>,
}

/// Why nothing can be drawn along.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TrailError {
    /// A length is not finite, or below zero.
    Length(f64),
    /// A drawbar has no length.
    Drawbar(f64),
}

impl fmt::Display for TrailError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length(length) => write!(f, "a length must be 0 or more, it is {length}"),
            Self::Drawbar(length) => write!(f, "a drawbar must be longer than 0, it is {length}"),
        }
    }
}

impl std::error::Error for TrailError {}

pub(crate) fn length(value: f64) -> Result<f64, TrailError> {
    if value.is_finite() && value >= 0.0 {
        Ok(value)
    } else {
        Err(TrailError::Length(value))
    }
}

/// What becomes of a bar whose front end goes round a circle for long.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Steady {
    /// It settles.
    Follows {
        /// The angle between bar and circle in radians: sin θ = L / R.
        angle: f64,
        /// The radius of its rear end in metres: √(R² − L²).
        radius: f64,
        /// How far the rear end cuts in, in metres: R − √(R² − L²).
        off_tracking: f64,
    },
    /// The bar is not shorter than the radius: it turns in until it stands square to the circle, and
    /// is pushed backwards from there.
    Folds,
}

/// What becomes of a bar of `length` whose front end goes round a circle of `radius` for long.
///
/// For a trailer, the circle of its hitch is √(r² + h²) for a hitch h behind an axle on radius r.
/// Sources: T. D. Gillespie, *Fundamentals of Vehicle Dynamics*, low-speed turning, and the sum of
/// squares of the Society of Automotive Engineers, R − √(R² − ΣL²); both from memory.
#[must_use]
pub fn steady(length: f64, radius: f64) -> Steady {
    let square = (radius - length) * (radius + length);
    if length >= 0.0 && length < radius && square.is_finite() {
        let rear = square.sqrt();
        return Steady::Follows {
            angle: length.atan2(rear),
            radius: rear,
            off_tracking: length * (length / (radius + rear)),
        };
    }
    Steady::Folds
}

impl<'a> Trail<'a> {
    /// A bar of `length` metres drawn along `chain`; with no length it is its front end, in line with
    /// the chain.
    ///
    /// # Errors
    /// [`TrailError::Length`] unless the length is finite and not below zero.
    pub fn new(chain: &'a Chain, length: f64) -> Result<Self, TrailError> {
        let mut trail = Self {
            chain,
            length: self::length(length)?,
            starts: Vec::with_capacity(chain.pieces().len()),
            turns: chain.pieces().iter().map(Piece::curvature).collect(),
            folds: None,
        };
        let mut end = trail.draw(HalfAngle::ALIGNED);
        if chain.is_closed() {
            end = trail.draw(end);
        }
        debug_assert!(end.sine.is_finite());
        Ok(trail)
    }

    /// Draws it over the whole chain from an angle before the first corner, and returns the last one.
    fn draw(&mut self, from: HalfAngle) -> HalfAngle {
        self.starts.clear();
        self.folds = None;
        let mut now = from;
        for (i, piece) in self.chain.pieces().iter().enumerate() {
            let corner = self.chain.corner(i);
            if self.length > 0.0 && corner != 0.0 {
                now = now.turned(corner);
            }
            let flow = self.flow(i);
            let fold = self.fold(now, &flow, piece.length());
            self.folds = self
                .folds
                .or(fold.map(|along| self.chain.station_of(i) + along));
            self.starts.push(now);
            if self.length > 0.0 {
                now = flow.over(piece.length(), now);
            }
        }
        now
    }

    /// How fast a piece turns, positive to the left.
    pub(crate) fn turn(&self, piece: usize) -> f64 {
        self.turns[piece]
    }

    pub(crate) fn flow(&self, piece: usize) -> Flow {
        Flow {
            turn: self.turns[piece],
            pull: 1.0 / self.length,
            swing: 0.0,
        }
    }

    /// How far along a piece the bar comes to stand square to it, or further round.
    fn fold(&self, start: HalfAngle, flow: &Flow, length: f64) -> Option<f64> {
        if start.cosine_of_whole() <= SAME_DIRECTION {
            return Some(0.0);
        }
        let excess = flow.turn.abs() - flow.pull;
        if excess.is_nan() || excess <= 0.0 {
            return None; // it is drawn straighter than the path turns it
        }
        // Sine and cosine of half the angle are equal where the whole is a right angle.
        let rate = 0.5 * ((flow.turn.abs() + flow.pull) * excess).sqrt();
        let ahead = start.sine * flow.turn.signum();
        let (less, more) = (start.cosine - ahead, start.cosine + ahead);
        let along = (2.0 * rate * less.abs()).atan2(excess * more.abs()) / rate;
        (along <= length).then_some(along)
    }

    /// The chain it is drawn along.
    #[must_use]
    pub fn chain(&self) -> &'a Chain {
        self.chain
    }

    /// Its length in metres.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.length
    }

    /// The angle in radians from the bar to the chain's direction at the station of its front end:
    /// positive where the chain turns left of the bar. Stations beyond the ends are the ends.
    #[must_use]
    pub fn angle_at(&self, station: f64) -> f64 {
        self.half_at(station).whole()
    }

    /// A station held to the chain.
    fn on(&self, station: f64) -> f64 {
        station.max(0.0).min(self.chain.length())
    }

    pub(crate) fn half_at(&self, station: f64) -> HalfAngle {
        let (piece, along) = self.chain.piece_at(self.on(station));
        self.half_on(piece, along)
    }

    /// The angle so far along a piece.
    pub(crate) fn half_on(&self, piece: usize, along: f64) -> HalfAngle {
        if self.length <= 0.0 {
            return HalfAngle::ALIGNED;
        }
        self.flow(piece).over(along, self.starts[piece])
    }

    /// The direction of the bar, from its rear end to its front, when its front end is at a station.
    #[must_use]
    pub fn direction_at(&self, station: f64) -> Direction {
        let half = self.half_at(station);
        self.chain
            .direction_at(self.on(station))
            .turned_by(half.cosine_of_whole(), -half.sine_of_whole())
    }

    /// Where its rear end is when its front end is at a station.
    #[must_use]
    pub fn rear_at(&self, station: f64) -> Point {
        self.chain.point_at(self.on(station)) - self.direction_at(station).unit() * self.length
    }

    /// The first station at which the bar stands square to the chain or further round, from where it
    /// would be pushed backwards: it jackknifes. `None` if it follows all along.
    #[must_use]
    pub fn folds_at(&self) -> Option<f64> {
        self.folds
    }
}

/// An angle as the sine and cosine of its half, which pass through a half turn without a jump.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct HalfAngle {
    sine: f64,
    cosine: f64,
}

impl HalfAngle {
    pub(crate) const ALIGNED: Self = Self {
        sine: 0.0,
        cosine: 1.0,
    };

    fn turned(self, turn: f64) -> Self {
        let (sine, cosine) = (0.5 * turn).sin_cos();
        Self {
            sine: self.sine * cosine + self.cosine * sine,
            cosine: self.cosine * cosine - self.sine * sine,
        }
    }

    pub(crate) fn whole(self) -> f64 {
        self.sine_of_whole().atan2(self.cosine_of_whole())
    }

    pub(crate) fn sine_of_whole(self) -> f64 {
        2.0 * self.sine * self.cosine
    }

    pub(crate) fn cosine_of_whole(self) -> f64 {
        (self.cosine - self.sine) * (self.cosine + self.sine)
    }

    /// A direction turned back (to the right) by it.
    pub(crate) fn back_from(self, way: Vector) -> Vector {
        way * self.cosine_of_whole() - way.left() * self.sine_of_whole()
    }

    /// Whether two angles are less than about `tolerance` apart.
    pub(crate) fn is_near(self, other: Self, tolerance: f64) -> bool {
        (self.sine * other.cosine - self.cosine * other.sine).abs() < tolerance
    }
}

/// How an angle x changes over a distance: x' = turn − pull · sin x + swing · cos x.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Flow {
    pub(crate) turn: f64,
    pub(crate) pull: f64,
    pub(crate) swing: f64,
}

impl Flow {
    /// The angle after a distance: exp of that distance times the matrix that turns sine and cosine
    /// of the half angle, ½ [−pull, turn + swing; swing − turn, pull].
    pub(crate) fn over(&self, distance: f64, from: HalfAngle) -> HalfAngle {
        let Self { turn, pull, swing } = *self;
        let square = 0.25 * (pull * pull + (swing - turn) * (swing + turn));
        let reach = square.abs().sqrt() * distance;
        // cosh and sinh/rate, both times e^(−reach) so that neither overflows; or cos and sin/rate.
        let (even, odd) = if reach == 0.0 {
            (1.0, distance)
        } else if square > 0.0 {
            let lost = -(-2.0 * reach).exp_m1();
            (1.0 - 0.5 * lost, distance * (0.5 * lost / reach))
        } else {
            (reach.cos(), distance * (reach.sin() / reach))
        };
        let HalfAngle { sine, cosine } = from;
        let next = HalfAngle {
            sine: even * sine + 0.5 * odd * ((turn + swing) * cosine - pull * sine),
            cosine: even * cosine + 0.5 * odd * ((swing - turn) * sine + pull * cosine),
        };
        let size = next.sine.hypot(next.cosine);
        if size > 0.0 {
            HalfAngle {
                sine: next.sine / size,
                cosine: next.cosine / size,
            }
        } else {
            from // straight against the pull, from where nothing turns it
        }
    }

    /// The angle at which nothing changes any more; `None` if there is none.
    pub(crate) fn settled(&self) -> Option<HalfAngle> {
        let Self { turn, pull, swing } = *self;
        let square = pull * pull + (swing - turn) * (swing + turn);
        let cosine = pull + square.max(0.0).sqrt();
        let sine = turn + swing;
        let size = sine.hypot(cosine);
        (square > 0.0 && size > 0.0).then(|| HalfAngle {
            sine: sine / size,
            cosine: cosine / size,
        })
    }
}

/// A right angle, at which a bar or a drawbar folds.
pub(crate) const FOLDED: f64 = FRAC_PI_2;
