//! Paper sizes, the room that every office printer can ink, and rectangles on a page.

use crate::ink::Pos;

/// Free edge at the left, right and foot, millimetres: office printers leave up to about 6 mm
/// blank, and a sheet is still readable when it is fed a little askew (common practice, no source).
pub const MARGIN: f64 = 12.0;

/// Free edge at the head, millimetres: the jaw of a clipboard covers it (common practice, no source).
pub const HEAD: f64 = 16.0;

/// A size of paper that an office printer takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Paper {
    /// 210 × 297 mm (ISO 216).
    #[default]
    A4,
    /// 8 1/2 × 11 in, 215.9 × 279.4 mm (ANSI A).
    Letter,
    /// 297 × 420 mm (ISO 216).
    A3,
    /// 11 × 17 in, 279.4 × 431.8 mm (ANSI B).
    Tabloid,
}

/// Which way round the paper lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Orientation {
    /// Short edge at the foot.
    #[default]
    Portrait,
    /// Long edge at the foot.
    Landscape,
}

impl Paper {
    /// Every size, smallest first within each system.
    pub const ALL: [Self; 4] = [Self::A4, Self::Letter, Self::A3, Self::Tabloid];

    /// The whole paper, millimetres, with its corner at the origin.
    ///
    /// ```
    /// use sheet::{Orientation, Paper};
    /// let whole = Paper::Letter.whole(Orientation::Landscape);
    /// assert_eq!((whole.width, whole.height), (279.4, 215.9));
    /// ```
    #[must_use]
    pub const fn whole(self, orientation: Orientation) -> Frame {
        let (short, long) = match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
            Self::A3 => (297.0, 420.0),
            Self::Tabloid => (279.4, 431.8),
        };
        match orientation {
            Orientation::Portrait => Frame::new(Pos::ORIGIN, short, long),
            Orientation::Landscape => Frame::new(Pos::ORIGIN, long, short),
        }
    }

    /// The part of the paper to compose in, millimetres: free of [`MARGIN`] and [`HEAD`].
    #[must_use]
    pub const fn content(self, orientation: Orientation) -> Frame {
        let whole = self.whole(orientation);
        Frame::new(
            Pos::new(MARGIN, MARGIN),
            whole.width - 2.0 * MARGIN,
            whole.height - MARGIN - HEAD,
        )
    }

    /// The name people ask for it by.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "Letter",
            Self::A3 => "A3",
            Self::Tabloid => "Tabloid",
        }
    }

    /// The paper of that name, in capitals or not.
    ///
    /// ```
    /// use sheet::Paper;
    /// assert_eq!(Paper::from_name("a4"), Some(Paper::A4));
    /// assert_eq!(Paper::from_name("foolscap"), None);
    /// ```
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        Self::ALL
            .into_iter()
            .find(|paper| paper.name().eq_ignore_ascii_case(name.trim()))
    }
}

/// An upright rectangle on a page, millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Bottom-left corner.
    pub corner: Pos,
    /// Width; not negative.
    pub width: f64,
    /// Height; not negative.
    pub height: f64,
}

impl Frame {
    /// From its bottom-left corner and its sides.
    #[must_use]
    pub const fn new(corner: Pos, width: f64, height: f64) -> Self {
        Self {
            corner,
            width,
            height,
        }
    }

    /// The least frame that holds all the places; `None` when there are none.
    #[must_use]
    pub fn around(places: impl IntoIterator<Item = Pos>) -> Option<Self> {
        places
            .into_iter()
            .map(|at| Self::new(at, 0.0, 0.0))
            .reduce(Self::joined)
    }

    /// Left edge.
    #[must_use]
    pub const fn left(&self) -> f64 {
        self.corner.x
    }

    /// Right edge.
    #[must_use]
    pub const fn right(&self) -> f64 {
        self.corner.x + self.width
    }

    /// Lower edge.
    #[must_use]
    pub const fn foot(&self) -> f64 {
        self.corner.y
    }

    /// Upper edge.
    #[must_use]
    pub const fn head(&self) -> f64 {
        self.corner.y + self.height
    }

    /// Middle.
    #[must_use]
    pub const fn middle(&self) -> Pos {
        Pos::new(
            self.corner.x + self.width / 2.0,
            self.corner.y + self.height / 2.0,
        )
    }

    /// Top-left corner, where reading starts.
    #[must_use]
    pub const fn start(&self) -> Pos {
        Pos::new(self.left(), self.head())
    }

    /// Taken in by the same distance on every side; never less than nothing.
    #[must_use]
    pub fn inset(&self, by: f64) -> Self {
        Self::new(
            self.corner.shifted(by, by),
            (self.width - 2.0 * by).max(0.0),
            (self.height - 2.0 * by).max(0.0),
        )
    }

    /// Cut across: the upper part of the given height, and the rest below it.
    #[must_use]
    pub fn cut_below(&self, height: f64) -> (Self, Self) {
        let rest = (self.height - height).max(0.0);
        (
            Self::new(
                self.corner.shifted(0.0, rest),
                self.width,
                self.height - rest,
            ),
            Self::new(self.corner, self.width, rest),
        )
    }

    /// Cut down: the left part of the given width, and the rest to the right of it.
    #[must_use]
    pub fn cut_right(&self, width: f64) -> (Self, Self) {
        let rest = (self.width - width).max(0.0);
        let left = self.width - rest;
        (
            Self::new(self.corner, left, self.height),
            Self::new(self.corner.shifted(left, 0.0), rest, self.height),
        )
    }

    /// The least frame that holds both.
    #[must_use]
    pub fn joined(self, other: Self) -> Self {
        let left = self.left().min(other.left());
        let foot = self.foot().min(other.foot());
        Self::new(
            Pos::new(left, foot),
            self.right().max(other.right()) - left,
            self.head().max(other.head()) - foot,
        )
    }

    /// What both cover; `None` when they do not even touch.
    #[must_use]
    pub fn shared(&self, other: &Self) -> Option<Self> {
        let left = self.left().max(other.left());
        let foot = self.foot().max(other.foot());
        let width = self.right().min(other.right()) - left;
        let height = self.head().min(other.head()) - foot;
        (width >= 0.0 && height >= 0.0).then(|| Self::new(Pos::new(left, foot), width, height))
    }

    /// Whether the other lies wholly inside; edges may touch, and `slack` millimetres are let pass.
    #[must_use]
    pub fn holds(&self, other: &Self, slack: f64) -> bool {
        other.left() >= self.left() - slack
            && other.foot() >= self.foot() - slack
            && other.right() <= self.right() + slack
            && other.head() <= self.head() + slack
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Sizes. Source: ISO 216 (A4, A3); ANSI/ASME Y14.1 sizes A and B in inches times 25.4 mm.
    #[test]
    fn sizes() {
        let check = |paper: Paper, expected: (f64, f64)| {
            let whole = paper.whole(Orientation::Portrait);
            approx::assert_abs_diff_eq!(whole.width, expected.0, epsilon = 1e-9);
            approx::assert_abs_diff_eq!(whole.height, expected.1, epsilon = 1e-9);
            let turned = paper.whole(Orientation::Landscape);
            approx::assert_abs_diff_eq!(turned.width, expected.1, epsilon = 1e-9);
            approx::assert_abs_diff_eq!(turned.height, expected.0, epsilon = 1e-9);
        };
        check(Paper::A4, (210.0, 297.0));
        check(Paper::A3, (297.0, 420.0));
        check(Paper::Letter, (8.5 * 25.4, 11.0 * 25.4));
        check(Paper::Tabloid, (11.0 * 25.4, 17.0 * 25.4));
    }

    /// Every printer keeps at least 10 mm free, whichever way the paper lies.
    #[test]
    fn content_keeps_off_the_edge() {
        for paper in Paper::ALL {
            for orientation in [Orientation::Portrait, Orientation::Landscape] {
                let safe = paper.whole(orientation).inset(10.0);
                assert!(
                    safe.holds(&paper.content(orientation), 0.0),
                    "{paper:?} {orientation:?}"
                );
            }
            assert_eq!(Paper::from_name(&paper.name().to_uppercase()), Some(paper));
        }
    }

    /// Cutting loses nothing: the two parts meet and together make the whole.
    #[test]
    fn cuts_make_the_whole() {
        let whole = Frame::new(Pos::new(3.0, 5.0), 40.0, 30.0);
        for cut in [0.0, 12.5, 30.0, 99.0] {
            let (upper, lower) = whole.cut_below(cut);
            approx::assert_abs_diff_eq!(upper.foot(), lower.head(), epsilon = 1e-12);
            assert_eq!(upper.joined(lower), whole, "{cut}");
            let (left, right) = whole.cut_right(cut);
            approx::assert_abs_diff_eq!(left.right(), right.left(), epsilon = 1e-12);
            assert_eq!(left.joined(right), whole, "{cut}");
        }
    }

    #[test]
    fn shared_and_held() {
        let a = Frame::new(Pos::new(0.0, 0.0), 10.0, 10.0);
        let b = Frame::new(Pos::new(4.0, 6.0), 10.0, 10.0);
        let both = a.shared(&b).unwrap();
        assert_eq!(both, Frame::new(Pos::new(4.0, 6.0), 6.0, 4.0));
        assert!(a.holds(&both, 0.0) && b.holds(&both, 0.0));
        assert!(
            a.shared(&Frame::new(Pos::new(11.0, 0.0), 1.0, 1.0))
                .is_none()
        );
        assert!(!a.holds(&b, 3.0) && a.holds(&b, 6.0));
    }
}
