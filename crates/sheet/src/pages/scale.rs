//! Paper from plan: scales that rulers have, and the one place where metres become millimetres.

use geometry::{Arc, Chain, Piece, Point};
use plan::units::Units;

use crate::ink::{Ink, Pos, Step};
use crate::paper::Frame;
use crate::pen::Pen;

/// How much smaller the paper is than the ground.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Scale {
    /// Metres on the ground to a metre on paper.
    pub(super) ratio: f64,
    /// As it is written: `1:50`, `1 in = 4 ft`.
    pub(super) words: String,
}

const INCHES_TO_A_FOOT: f64 = 12.0;

/// Steps of the scales of plans (ISO 5455 and common practice; 1 in = … ft: common practice).
const METRIC: [f64; 5] = [10.0, 20.0, 25.0, 50.0, 100.0];
const FEET: [f64; 8] = [1.0, 2.0, 4.0, 5.0, 8.0, 10.0, 20.0, 50.0];

/// Steps of the scales of a drawing of one bend, which is not measured from: closer, to fill the paper.
const CLOSE: [f64; 9] = [1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 7.5];

impl Scale {
    fn metric(ratio: f64) -> Self {
        Self {
            ratio,
            words: format!("1:{ratio}"),
        }
    }

    fn feet(feet: f64) -> Self {
        let words = if feet < 1.0 {
            format!("1 in = {} in", feet * INCHES_TO_A_FOOT)
        } else {
            format!("1 in = {feet} ft")
        };
        Self {
            ratio: feet * INCHES_TO_A_FOOT,
            words,
        }
    }

    /// Scales of plans, largest drawing first.
    pub(super) fn of_plans(units: Units) -> impl Iterator<Item = Self> {
        let decades = |from: f64| {
            (0_u8..6)
                .flat_map(move |k| [1.0, 2.0, 5.0].map(|m| from * m * 10_f64.powi(i32::from(k))))
        };
        let list: Vec<Self> = match units {
            Units::Metric => {
                let steps = METRIC.into_iter().chain(decades(100.0).skip(1));
                steps.map(Self::metric).collect()
            }
            Units::FeetInches => FEET
                .into_iter()
                .chain(decades(100.0))
                .map(Self::feet)
                .collect(),
        };
        list.into_iter()
    }

    /// Scales of a drawing of one bend, largest drawing first.
    pub(super) fn of_bends(units: Units) -> impl Iterator<Item = Self> {
        let close = (0_u8..7).flat_map(|k| CLOSE.map(|m| m * 10_f64.powi(i32::from(k))));
        let list: Vec<Self> = match units {
            Units::Metric => close.map(Self::metric).collect(),
            Units::FeetInches => {
                let inches = [1.0, 2.0, 3.0, 4.0, 6.0].map(|inches| inches / INCHES_TO_A_FOOT);
                inches.into_iter().chain(close).map(Self::feet).collect()
            }
        };
        list.into_iter()
    }

    /// Millimetres on paper to a metre on the ground.
    pub(super) fn millimetres(&self) -> f64 {
        1000.0 / self.ratio
    }

    /// The first of the scales at which so many metres across and up fit in so much paper.
    pub(super) fn fitting(
        scales: impl Iterator<Item = Self>,
        (across, up): (f64, f64),
        room: &Frame,
    ) -> Self {
        let mut last = Self::metric(1.0);
        for scale in scales {
            let each = scale.millimetres();
            last = scale;
            if across * each <= room.width && up * each <= room.height {
                break;
            }
        }
        last
    }
}

/// How the ground lies on the paper.
#[derive(Clone, Debug)]
pub(super) struct View {
    /// How much smaller it is.
    pub(super) scale: Scale,
    /// A place on the ground, and where it lies on the paper.
    pub(super) middle: (Point, Pos),
    /// How far the ground is turned counter-clockwise, radians.
    pub(super) turn: f64,
}

/// An arc that leaves its chord by less than this on paper is drawn as its chord, millimetres: no
/// pen shows it, and the centre may lie farther off than a page's figures reach.
const FLAT: f64 = 0.005;

impl View {
    /// Where a place on the ground lies on the paper.
    pub(super) fn paper_from_plan(&self, at: Point) -> Pos {
        let (ground, paper) = self.middle;
        let each = self.scale.millimetres();
        let off = at - ground;
        paper
            .shifted(off.x * each, off.y * each)
            .turned(paper, self.turn)
    }

    /// A line of straights and bends as one stroke of the pen.
    pub(super) fn chain(&self, chain: &Chain, pen: Pen) -> Ink {
        Ink::Path {
            from: self.paper_from_plan(chain.start()),
            steps: chain
                .pieces()
                .iter()
                .map(|piece| self.step(piece))
                .collect(),
            closed: chain.is_closed(),
            pen: Some(pen),
            fill: None,
        }
    }

    /// One bend.
    pub(super) fn arc(&self, arc: &Arc, pen: Pen) -> Ink {
        Ink::Path {
            from: self.paper_from_plan(arc.start()),
            steps: vec![self.step(&Piece::Arc(*arc))],
            closed: false,
            pen: Some(pen),
            fill: None,
        }
    }

    fn step(&self, piece: &Piece) -> Step {
        match piece.arc() {
            Some(arc) if arc.rise().abs() * self.scale.millimetres() > FLAT => Step::Round {
                centre: self.paper_from_plan(arc.centre()),
                sweep: arc.sweep(),
            },
            _ => Step::To(self.paper_from_plan(piece.end())),
        }
    }
}

/// The part of a straight line that shows in a window.
pub(super) fn clipped(from: Pos, to: Pos, window: &Frame) -> Option<(Pos, Pos)> {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let (mut low, mut high) = (0.0_f64, 1.0_f64);
    for (step, room) in [
        (-dx, from.x - window.left()),
        (dx, window.right() - from.x),
        (-dy, from.y - window.foot()),
        (dy, window.head() - from.y),
    ] {
        if step < 0.0 {
            low = low.max(room / step);
        } else if step > 0.0 {
            high = high.min(room / step);
        } else if room < 0.0 {
            return None;
        }
    }
    let at = |share: f64| from.shifted(share * dx, share * dy);
    (low < high).then(|| (at(low), at(high)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scales_grow_and_are_written_as_rulers_have_them() {
        for units in Units::ALL {
            for scales in [
                Scale::of_plans(units).collect::<Vec<_>>(),
                Scale::of_bends(units).collect(),
            ] {
                assert!(
                    scales.windows(2).all(|pair| pair[0].ratio < pair[1].ratio),
                    "{scales:?}"
                );
            }
        }
        let words = |units| {
            Scale::of_plans(units)
                .map(|scale| scale.words)
                .take(11)
                .collect::<Vec<_>>()
        };
        assert_eq!(
            words(Units::Metric).join(" "),
            "1:10 1:20 1:25 1:50 1:100 1:200 1:500 1:1000 1:2000 1:5000 1:10000"
        );
        assert_eq!(
            words(Units::FeetInches).join(" ").replace("1 in = ", ""),
            "1 ft 2 ft 4 ft 5 ft 8 ft 10 ft 20 ft 50 ft 100 ft 200 ft 500 ft"
        );
        assert!((Scale::of_plans(Units::FeetInches).nth(2).unwrap().ratio - 48.0).abs() < 1e-9);
    }

    #[test]
    fn the_largest_that_fits() {
        let room = Frame::new(Pos::ORIGIN, 200.0, 100.0);
        let fit =
            |across, up| Scale::fitting(Scale::of_plans(Units::Metric), (across, up), &room).words;
        assert_eq!(fit(10.0, 5.0), "1:50");
        assert_eq!(fit(10.1, 5.0), "1:100");
        assert_eq!(fit(0.01, 0.01), "1:10");
        assert_eq!(fit(2000.0, 10.0), "1:10000");
    }

    #[test]
    fn lines_are_cut_at_the_window() {
        let window = Frame::new(Pos::ORIGIN, 10.0, 10.0);
        let cut = clipped(Pos::new(-5.0, 5.0), Pos::new(1e9, 5.0), &window).unwrap();
        assert!(
            cut.0.distance(Pos::new(0.0, 5.0)) < 1e-6 && cut.1.distance(Pos::new(10.0, 5.0)) < 1e-6
        );
        assert!(clipped(Pos::new(-5.0, 5.0), Pos::new(5.0, 20.0), &window).is_none());
        assert!(clipped(Pos::new(3.0, 20.0), Pos::new(3.0, 11.0), &window).is_none());
    }
}
