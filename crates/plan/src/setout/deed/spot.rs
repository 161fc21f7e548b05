//! Spots: the named places on the ground that deeds start from and make.

use std::collections::BTreeMap;

use geometry::Point;

/// A place on the ground that one can tape from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Spot {
    /// A mark of the site, by its place in the list.
    Mark(usize),
    /// A peg of the centre line, by its number.
    Peg(usize),
    /// The swing point of a bend, by the bend's number: `S1`.
    Swing(usize),
    /// The apex of a bend: `A1`.
    Apex(usize),
    /// A flag on a line of the path: `C1.3` is the third on the centre line of bend 1, `IA1` the one
    /// of its inside edge beside the apex, `L2+3` the third on the left edge of the straight that
    /// starts from peg 2.
    Flag {
        /// What it stands on.
        of: Part,
        /// On which line.
        line: PathLine,
        /// Which one, in walking order.
        nth: usize,
    },
    /// An auxiliary nail of a bend, off the path: `N1.2`.
    Aim {
        /// The bend.
        bend: usize,
        /// Which one.
        nth: usize,
    },
}

/// The number of the one flag of an edge that stands beside the apex where the line itself is struck;
/// flags that are counted begin at the start of the bend with 0.
pub(in crate::setout) const BESIDE_THE_APEX: usize = usize::MAX;

/// A bend or a straight.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Part {
    /// A bend, by its number among the bends.
    Bend(usize),
    /// A straight, by the number of the peg it starts from.
    Straight(usize),
}

/// A line of the path that is set out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum PathLine {
    /// Its middle.
    Centre,
    /// The edge towards the swing point of a bend.
    Inside,
    /// The edge away from it.
    Outside,
    /// The left edge of a straight, as one walks.
    Left,
    /// The right edge of a straight.
    Right,
}

impl PathLine {
    /// The three lines of a bend.
    pub const OF_A_BEND: [Self; 3] = [Self::Centre, Self::Inside, Self::Outside];

    /// The three lines of a straight.
    pub const OF_A_STRAIGHT: [Self; 3] = [Self::Centre, Self::Left, Self::Right];

    /// What it is called: `centre line`, `inside edge`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Centre => "centre line",
            Self::Inside => "inside edge",
            Self::Outside => "outside edge",
            Self::Left => "left edge",
            Self::Right => "right edge",
        }
    }

    /// The letter its flags are named by.
    #[must_use]
    pub fn letter(self) -> char {
        match self {
            Self::Centre => 'C',
            Self::Inside => 'I',
            Self::Outside => 'O',
            Self::Left => 'L',
            Self::Right => 'R',
        }
    }

    /// How far it lies outside the centre line of a bend in a path of this width, in metres:
    /// negative inside. An edge of a straight lies on the centre line of no bend: zero.
    #[must_use]
    pub fn outside(self, width: f64) -> f64 {
        match self {
            Self::Inside => -0.5 * width,
            Self::Outside => 0.5 * width,
            Self::Centre | Self::Left | Self::Right => 0.0,
        }
    }
}

/// A spot and where it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SetSpot {
    /// Which one.
    pub spot: Spot,
    /// Where, in the plan.
    pub at: Point,
}

/// Spots in their places, and the names of the marks.
///
/// ```
/// use geometry::Point;
/// use plan::setout::{Spot, Spots};
/// let mut spots = Spots::new(vec!["gate post".into()]);
/// spots.put(Spot::Mark(0), Point::ORIGIN);
/// assert_eq!(spots.name(Spot::Mark(0)), "gate post");
/// assert_eq!(spots.name(Spot::Swing(2)), "S2");
/// assert_eq!(spots.at(Spot::Swing(2)), None);
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Spots {
    places: BTreeMap<Spot, Point>,
    marks: Vec<String>,
}

impl Spots {
    /// No spots yet, among marks of these names.
    #[must_use]
    pub fn new(marks: Vec<String>) -> Self {
        Self {
            places: BTreeMap::new(),
            marks,
        }
    }

    /// Where a spot is; `None` if it is not set.
    #[must_use]
    pub fn at(&self, spot: Spot) -> Option<Point> {
        self.places.get(&spot).copied()
    }

    /// Sets a spot, or moves it.
    pub fn put(&mut self, spot: Spot, at: Point) {
        self.places.insert(spot, at);
    }

    /// The same marks with these spots alone.
    #[must_use]
    pub fn only(&self, spots: &[Spot]) -> Self {
        let place = |&spot: &Spot| Some((spot, self.at(spot)?));
        Self {
            places: spots.iter().filter_map(place).collect(),
            marks: self.marks.clone(),
        }
    }

    /// All that are set.
    pub fn iter(&self) -> impl Iterator<Item = SetSpot> {
        self.places.iter().map(|(&spot, &at)| SetSpot { spot, at })
    }

    /// What a spot is called, the same everywhere: `peg 3`, `S1`, `C1.3`.
    #[must_use]
    pub fn name(&self, spot: Spot) -> String {
        match spot {
            Spot::Mark(index) => self
                .marks
                .get(index)
                .cloned()
                .unwrap_or_else(|| format!("mark {}", index + 1)),
            Spot::Peg(number) => format!("peg {number}"),
            Spot::Swing(bend) => format!("S{bend}"),
            Spot::Apex(bend) => format!("A{bend}"),
            Spot::Flag { of, line, nth } => match of {
                Part::Bend(bend) if nth == BESIDE_THE_APEX => format!("{}A{bend}", line.letter()),
                Part::Bend(bend) => format!("{}{bend}.{nth}", line.letter()),
                Part::Straight(peg) => format!("{}{peg}+{nth}", line.letter()),
            },
            Spot::Aim { bend, nth } => format!("N{bend}.{nth}"),
        }
    }
}
