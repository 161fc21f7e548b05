//! The strip of ground a vehicle sweeps when the middle of its front axle is kept on a chain.

mod ground;

use crate::trailing::HalfAngle;
use crate::{Chain, Point, SAME_PLACE, Towed, Trail, TrailError, Vector};
use ground::{Ground, ground, offset};

/// A vehicle from above: a rectangle on a wheelbase, and perhaps a trailer. All in metres.
///
/// Without a wheelbase it has one axle, which keeps square to the chain, as the wheel of a barrow or
/// the driven wheels of a chair.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rig {
    /// Its width.
    pub width: f64,
    /// From front axle to rear axle.
    pub wheelbase: f64,
    /// How far it reaches ahead of the front axle.
    pub front: f64,
    /// How far it reaches behind the rear axle.
    pub back: f64,
    /// What it draws.
    pub trailer: Option<Towing>,
}

/// A trailer from above, in metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Towing {
    /// From the rear axle back to the hitch.
    pub hitch: f64,
    /// From the hitch back to the trailer's axle.
    pub drawbar: f64,
    /// Its width.
    pub width: f64,
    /// How far it reaches ahead of its axle.
    pub front: f64,
    /// How far it reaches behind its axle.
    pub back: f64,
}

/// How far something reaches to both sides of the chain, in metres; both positive on their side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reach {
    /// The station on the chain.
    pub station: f64,
    /// To the left.
    pub left: f64,
    /// To the right.
    pub right: f64,
}

/// Where a vehicle reaches farthest to one side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Widest {
    /// How far from the chain, in metres.
    pub reach: f64,
    /// The station of the front axle when it does.
    pub station: f64,
}

/// A vehicle on its way along a chain.
#[derive(Clone, Debug)]
pub struct Swept<'a> {
    rig: Rig,
    drawn: Drawn<'a>,
    ground: Vec<Ground>,
    /// From the front axle ahead and back, as far as any of it may stand abreast of.
    span: [f64; 2],
}

#[derive(Clone, Debug)]
enum Drawn<'a> {
    Alone(Trail<'a>),
    With(Towed<'a>, Towing),
}

/// Neither side is swept farther than [`Swept::widest`] says by more than this: a millimetre, to which
/// nobody drives.
pub const WIDEST_WITHIN: f64 = 1e-3;

impl<'a> Swept<'a> {
    /// A vehicle going along a chain.
    ///
    /// # Errors
    /// * [`TrailError::Length`] unless all its lengths are finite and not below zero;
    /// * [`TrailError::Drawbar`] for a trailer without a drawbar.
    pub fn new(chain: &'a Chain, rig: Rig) -> Result<Self, TrailError> {
        for value in [rig.width, rig.front, rig.back] {
            crate::trailing::length(value)?;
        }
        let front = Trail::new(chain, rig.wheelbase)?;
        let (drawn, behind) = match rig.trailer {
            None => (Drawn::Alone(front), 0.0),
            Some(towing) => {
                for value in [towing.width, towing.front, towing.back] {
                    crate::trailing::length(value)?;
                }
                let towed = Towed::new(front, towing.hitch, towing.drawbar)?;
                let behind = towing.hitch + towing.drawbar + towing.back + 0.5 * towing.width;
                (Drawn::With(towed, towing), behind)
            }
        };
        let back = rig.wheelbase + rig.back.max(behind);
        let wide = 0.5 * rig.width;
        let span = [SLACK * (rig.front + wide), SLACK * (back + wide)];
        Ok(Self {
            rig,
            drawn,
            ground: ground(chain, span),
            span,
        })
    }

    fn front(&self) -> &Trail<'a> {
        match &self.drawn {
            Drawn::Alone(front) => front,
            Drawn::With(towed, _) => towed.front(),
        }
    }

    fn chain(&self) -> &'a Chain {
        self.front().chain()
    }

    /// The first station at which it jackknifes: see [`Trail::folds_at`].
    #[must_use]
    pub fn folds_at(&self) -> Option<f64> {
        match &self.drawn {
            Drawn::Alone(front) => front.folds_at(),
            Drawn::With(towed, _) => towed.folds_at(),
        }
    }

    /// The outlines of the vehicle, and of its trailer, when its front axle is at a station.
    #[must_use]
    pub fn outlines_at(&self, station: f64) -> (Outline, Option<Outline>) {
        let station = station.max(0.0).min(self.chain().length());
        self.outlines_on(self.ground_at(station), station)
    }

    /// The ground under the front axle.
    fn ground_at(&self, station: f64) -> usize {
        let after = self.ground.partition_point(|ground| ground.from <= station);
        // What runs on beyond the ends is not on the chain.
        let piece = |i: usize| self.ground[i].piece.is_some();
        let at = after.saturating_sub(1);
        if piece(at) { at } else { at.saturating_sub(1) }
    }

    fn outlines_on(&self, on: usize, station: f64) -> (Outline, Option<Outline>) {
        let ground = &self.ground[on];
        let (axle, ahead) = ground.at(station - ground.from);
        let half = ground.piece.map_or(HalfAngle::ALIGNED, |(piece, start)| {
            self.front().half_on(piece, station - start)
        });
        let way = half.back_from(ahead);
        let rig = &self.rig;
        let body = outline(axle, way, [rig.front, rig.wheelbase + rig.back], rig.width);
        let trailer = match &self.drawn {
            Drawn::Alone(_) => None,
            Drawn::With(towed, towing) => {
                let hitch = axle - way * (rig.wheelbase + towing.hitch);
                let way = towed.half_at(station).back_from(way);
                let axle = hitch - way * towing.drawbar;
                Some(outline(
                    axle,
                    way,
                    [towing.front, towing.back],
                    towing.width,
                ))
            }
        };
        (body, trailer)
    }

    /// How far it reaches to both sides of the chain when its front axle is at a station, whatever
    /// part of it that is.
    #[must_use]
    pub fn reach_at(&self, station: f64) -> Reach {
        let station = station.max(0.0).min(self.chain().length());
        self.reach_on(self.ground_at(station), station)
    }

    fn reach_on(&self, on: usize, station: f64) -> Reach {
        let mut reach = Reach {
            station,
            left: 0.0,
            right: 0.0,
        };
        let near = self.near(on, station);
        let (body, trailer) = self.outlines_on(on, station);
        for [left_front, left_back, right_back, right_front] in
            [Some(body), trailer].into_iter().flatten()
        {
            for side in [[left_front, left_back], [right_back, right_front]] {
                for point in side {
                    reach.take(offset(near, point).1);
                }
                for foot in near.iter().filter_map(|ground| ground.foot(side)) {
                    reach.take(offset(near, foot).1);
                }
            }
        }
        reach
    }

    /// The ground it may stand abreast of.
    fn near(&self, on: usize, station: f64) -> &[Ground] {
        let (from, to) = (station - self.span[1], station + self.span[0]);
        let (mut first, mut end) = (on, on + 1);
        while first > 0 && self.ground[first - 1].to > from {
            first -= 1;
        }
        while end < self.ground.len() && self.ground[end].from < to {
            end += 1;
        }
        &self.ground[first..end]
    }

    /// Where it reaches farthest to the left and to the right, to [`WIDEST_WITHIN`].
    #[must_use]
    pub fn widest(&self) -> [Widest; 2] {
        let stations = self.looks();
        let reaches: Vec<[f64; 2]> = stations
            .iter()
            .map(|(on, station)| self.reach_on(*on, *station).sides())
            .collect();
        [0, 1].map(|side| self.widest_to(side, &stations, &reaches))
    }

    fn widest_to(&self, side: usize, looks: &[(usize, f64)], reaches: &[[f64; 2]]) -> Widest {
        let at = |i: usize| reaches[i][side];
        let last = looks.len() - 1;
        let mut peaks: Vec<usize> = (0..=last)
            .filter(|i| at(*i) >= at(i.saturating_sub(1)) && at(*i) >= at((i + 1).min(last)))
            .collect();
        peaks.sort_by(|a, b| at(*b).total_cmp(&at(*a)));
        peaks.truncate(PEAKS);
        let mut widest = Widest {
            reach: 0.0,
            station: 0.0,
        };
        for peak in peaks {
            let between = [
                looks[peak.saturating_sub(1)].1,
                looks[(peak + 1).min(last)].1,
            ];
            for station in [looks[peak].1, self.peak(side, between)] {
                let reach = self.reach_at(station).sides()[side];
                if reach > widest.reach {
                    widest = Widest { reach, station };
                }
            }
        }
        widest
    }

    /// The station of the highest peak between two stations: by a comb, then by golden sections
    /// about its highest tooth.
    fn peak(&self, side: usize, [from, to]: [f64; 2]) -> f64 {
        let golden = 0.5 * (5.0_f64.sqrt() - 1.0);
        let reach = |station: f64| self.reach_at(station).sides()[side];
        let tooth = (to - from) / TEETH;
        let mut top = (from, reach(from));
        let mut station = from + tooth;
        while station <= to {
            let here = reach(station);
            if here > top.1 {
                top = (station, here);
            }
            station += tooth;
            if tooth <= 0.0 {
                break;
            }
        }
        let (mut low, mut high) = ((top.0 - tooth).max(from), (top.0 + tooth).min(to));
        let (mut a, mut b) = (high - golden * (high - low), low + golden * (high - low));
        let (mut at_a, mut at_b) = (reach(a), reach(b));
        while high - low > WIDEST_WITHIN {
            if at_a < at_b {
                (low, a, at_a) = (a, b, at_b);
                b = low + golden * (high - low);
                at_b = reach(b);
            } else {
                (high, b, at_b) = (b, a, at_a);
                a = high - golden * (high - low);
                at_a = reach(a);
            }
        }
        let middle = 0.5 * (low + high);
        if reach(middle) > top.1 { middle } else { top.0 }
    }

    /// The stations looked at before the peaks are closed in on, each with its ground.
    fn looks(&self) -> Vec<(usize, f64)> {
        let spacing =
            (LOOK * (self.span[0] + self.span[1])).max(self.chain().length() / MOST_LOOKS);
        let mut looks = Vec::new();
        for (on, ground) in self.ground.iter().enumerate() {
            if ground.piece.is_none()
                || ground.from < 0.0
                || ground.to > self.chain().length() + SAME_PLACE
            {
                continue;
            }
            // A vehicle and a few wheelbases on, everything has settled.
            let settled = ground.from + SETTLES * (self.span[0] + self.span[1]);
            let mut station = ground.from;
            while station < ground.to.min(settled) {
                looks.push((on, station));
                station += spacing;
            }
            looks.push((on, ground.to));
        }
        looks
    }

    /// The strip it sweeps, for drawing: how far any of it reaches as it passes, at stations `spacing`
    /// apart over the whole chain.
    #[must_use]
    pub fn strip(&self, spacing: f64) -> Vec<Reach> {
        let length = self.chain().length();
        let count = (length / spacing).ceil().clamp(1.0, MOST_LOOKS);
        let step = length / count;
        let mut strip = Vec::new();
        let mut station = 0.0;
        while station <= length + 0.5 * step {
            strip.push(Reach {
                station: station.min(length),
                left: 0.0,
                right: 0.0,
            });
            station += step;
        }
        for i in 0..strip.len() {
            let station = strip[i].station;
            let on = self.ground_at(station);
            let near = self.near(on, station);
            let (body, trailer) = self.outlines_on(on, station);
            for [lf, lb, rb, rf] in [Some(body), trailer].into_iter().flatten() {
                for [from, to] in [[lf, lb], [rb, rf]] {
                    let points = (from.distance(to) / step).ceil().clamp(1.0, MOST_ON_A_SIDE);
                    let mut at = 0.0;
                    while at <= points {
                        let (abreast, offset) = offset(near, from.towards(to, at / points));
                        if let Some(reach) = nearest_of(&mut strip, abreast, step) {
                            reach.take(offset);
                        }
                        at += 1.0;
                    }
                }
            }
        }
        strip
    }
}

/// Four corners: left front, left back, right back, right front.
pub type Outline = [Point; 4];

/// Rounds up what a vehicle may stand abreast of: on the inside of a bend it spans more of the chain
/// than its length.
const SLACK: f64 = 1.5;
/// Between looks, as a share of all a vehicle may stand abreast of.
const LOOK: f64 = 1.0 / 12.0;
/// Teeth of the comb with which a peak is looked for between its neighbours.
const TEETH: f64 = 32.0;
/// After so many times that, everything has settled.
const SETTLES: f64 = 4.0;
/// About the most looks at one chain; past them, on ten kilometres of bends, they lie farther apart.
const MOST_LOOKS: f64 = 50_000.0;
/// The most points on a side when a strip is drawn.
const MOST_ON_A_SIDE: f64 = 64.0;
/// Peaks closed in on, the highest ones.
const PEAKS: usize = 8;

impl Reach {
    fn take(&mut self, offset: f64) {
        self.left = self.left.max(offset);
        self.right = self.right.max(-offset);
    }

    fn sides(&self) -> [f64; 2] {
        [self.left, self.right]
    }
}

fn nearest_of(strip: &mut [Reach], station: f64, step: f64) -> Option<&mut Reach> {
    let after = strip.partition_point(|reach| reach.station < station - 0.5 * step);
    let reach = strip.get_mut(after)?;
    ((reach.station - station).abs() <= step).then_some(reach)
}

fn outline(axle: Point, way: Vector, [ahead, behind]: [f64; 2], width: f64) -> Outline {
    let left = way.left() * (0.5 * width);
    let (front, back) = (axle + way * ahead, axle - way * behind);
    [front + left, back + left, back - left, front - left]
}
