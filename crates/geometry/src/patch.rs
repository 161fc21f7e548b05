//! Patches of ground that a path keeps off: trees, pipes, beds, and all that lies beyond a boundary.

use std::fmt;

use crate::depth::{Sounding, deepest};
use crate::runs::Runs;
use crate::{Bounds, Chain, Gap, Piece, Point, SAME_PLACE, Vector};

/// Ground that a path keeps off: all that lies within `grown` of a core.
///
/// Its *signed distance* is the distance to the core less `grown`, and inside an area minus the
/// depth less `grown`: above zero outside, zero on the border, below zero inside. The border is the
/// core's moved by `grown`.
#[derive(Clone, Debug)]
pub struct Patch {
    core: Core,
    grown: f64,
    /// The core's line or outline; a point has none.
    border: Option<Runs>,
}

/// What a patch is about.
#[derive(Clone, Debug, PartialEq)]
pub enum Core {
    /// A place: a stem or a round pond, once grown by its radius.
    Point(Point),
    /// A line, open or closed: a pipe, grown by how unsure its place is.
    Line(Chain),
    /// What a closed chain holds, walked either way round.
    Area(Chain),
    /// All that lies outside a closed chain: a boundary.
    Beyond(Chain),
}

/// Why there is no patch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PatchError {
    /// A number is not finite.
    NotFinite,
    /// The patch is grown by less than nothing: the figure.
    Shrunk(f64),
    /// The outline of an area or a boundary does not end where it starts.
    Open,
    /// The outline of an area or a boundary crosses or touches itself: here first.
    CrossesItself(Point),
}

impl fmt::Display for PatchError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotFinite => f.write_str("a number of the ground is not finite"),
            Self::Shrunk(grown) => write!(
                f,
                "ground can be grown by nothing or more, not by {grown} m: move its outline instead"
            ),
            Self::Open => f.write_str(
                "the outline does not end where it starts: close it, or take it as a line",
            ),
            Self::CrossesItself(at) => write!(
                f,
                "the outline crosses or touches itself at {} m east, {} m north: move a corner, or make two of it",
                at.x, at.y
            ),
        }
    }
}

impl std::error::Error for PatchError {}

impl Patch {
    /// The ground within `grown` metres of `core`.
    ///
    /// # Errors
    /// * [`PatchError::NotFinite`] unless all numbers are finite;
    /// * [`PatchError::Shrunk`] if `grown` is below zero;
    /// * [`PatchError::Open`] if an area or a boundary is not closed;
    /// * [`PatchError::CrossesItself`] if its outline crosses or touches itself.
    ///
    /// ```
    /// use geometry::{Core, Patch, PatchError, Point};
    /// let stem = Patch::new(Core::Point(Point::new(3.0, 4.0)), 0.5)?;
    /// let gap = stem.signed_distance(Point::ORIGIN);
    /// assert!((gap.distance - 4.5).abs() < 1e-12);
    /// assert!(gap.to.distance(Point::new(2.7, 3.6)) < 1e-12);
    /// assert!(stem.contains(Point::new(3.0, 3.6)));
    /// assert_eq!(
    ///     Patch::new(Core::Point(Point::ORIGIN), -0.5).err(),
    ///     Some(PatchError::Shrunk(-0.5))
    /// );
    /// # Ok::<(), PatchError>(())
    /// ```
    pub fn new(core: Core, grown: f64) -> Result<Self, PatchError> {
        if !grown.is_finite() {
            return Err(PatchError::NotFinite);
        }
        if grown < 0.0 {
            return Err(PatchError::Shrunk(grown));
        }
        let border = match &core {
            Core::Point(point) if !point.is_finite() => return Err(PatchError::NotFinite),
            Core::Point(_) => None,
            Core::Line(chain) => Some(Runs::of(chain.pieces())),
            Core::Area(outline) | Core::Beyond(outline) => {
                if !outline.is_closed() {
                    return Err(PatchError::Open);
                }
                if let Some(crossing) = outline.self_crossings().first() {
                    return Err(PatchError::CrossesItself(crossing.point));
                }
                Some(Runs::of(outline.pieces()))
            }
        };
        Ok(Self {
            core,
            grown,
            border,
        })
    }

    /// What it is about.
    #[must_use]
    pub fn core(&self) -> &Core {
        &self.core
    }

    /// How far it reaches from its core, metres, never negative.
    #[must_use]
    pub fn grown(&self) -> f64 {
        self.grown
    }

    /// The smallest upright box round it; `None` for what lies beyond a boundary, which has no end.
    #[must_use]
    pub fn bounds(&self) -> Option<Bounds> {
        let core = match (&self.core, &self.border) {
            (Core::Beyond(_), _) => return None,
            (Core::Point(point), _) => Bounds::of(*point),
            (_, border) => border.as_ref()?.bounds(),
        };
        Some(core.grown(self.grown))
    }

    /// Whether a point lies in it, its border included (within [`SAME_PLACE`]).
    #[must_use]
    pub fn contains(&self, point: Point) -> bool {
        let near = |bounds: Bounds| bounds.grown(SAME_PLACE).holds(point);
        self.bounds().is_none_or(near) && self.signed_distance(point).distance <= SAME_PLACE
    }

    /// The signed distance of a point: `from` is the point, `to` the nearest place on the border.
    /// The point must be finite.
    #[must_use]
    pub fn signed_distance(&self, point: Point) -> Gap {
        let sounding = match &self.border {
            Some(border) => self.sound(border, point),
            None => None,
        };
        self.found(sounding.unwrap_or_else(|| Sounding {
            depth: -self.centre().distance(point),
            at: point,
            foot: self.centre(),
            side: 0,
        }))
    }

    /// The least signed distance of a piece: outside, the plain least distance; where the piece lies
    /// in the patch, minus the depth of its deepest point. `from` is on the piece, `to` on the border.
    ///
    /// Exact, except that inside an area or beyond a boundary the depth is found by subdividing and
    /// may fall short of the deepest by a tenth of a millimetre, never exceed it.
    #[must_use]
    pub fn gap(&self, piece: &Piece) -> Gap {
        let path = Runs::of(std::slice::from_ref(piece));
        self.least(&path).1
    }

    /// As [`Self::gap`] for a whole path, with the piece of it that `from` lies on.
    pub(crate) fn least(&self, path: &Runs) -> (usize, Gap) {
        self.within(path, f64::INFINITY).unwrap_or_else(|| {
            // So far off that its square is no number any more.
            let from = path.frames()[0].start;
            let distance = f64::INFINITY;
            let to = self.centre();
            (0, Gap { distance, from, to })
        })
    }

    /// As [`Self::least`], if it is at most `reach`.
    pub(crate) fn within(&self, path: &Runs, reach: f64) -> Option<(usize, Gap)> {
        let core_reach = (reach + self.grown).max(0.0) + SAME_PLACE;
        let limit = core_reach * core_reach;
        let (piece, sounding) = match &self.border {
            None => {
                let centre = self.centre();
                let foot = path.nearest(centre, limit)?;
                let sounding = Sounding {
                    depth: -foot.square.sqrt(),
                    at: foot.point,
                    foot: centre,
                    side: 0,
                };
                (foot.piece, sounding)
            }
            Some(border) => self.lowest(border, path, limit)?,
        };
        let gap = self.found(sounding);
        (gap.distance <= reach).then_some((piece, gap))
    }

    /// The deepest sounding of a path, if it is in the ground of the core or less than the root of
    /// `limit` away.
    fn lowest(&self, border: &Runs, path: &Runs, limit: f64) -> Option<(usize, Sounding)> {
        let nearest = path.closest(border, limit).map(|closest| {
            let sounding = Sounding {
                depth: -closest.span.square.sqrt(),
                at: closest.span.from,
                foot: closest.span.to,
                side: closest.to_piece,
            };
            (closest.from_piece, sounding)
        });
        if matches!(self.core, Core::Line(_)) {
            return nearest;
        }
        // A path that keeps off the border lies on one side of it.
        let touches = nearest.is_some_and(|(_, sounding)| sounding.depth > -SAME_PLACE);
        if !touches && !self.core_holds(border, path.frames()[0].start) {
            return nearest;
        }
        let hull = border.bounds();
        let bounded = matches!(self.core, Core::Area(_));
        let inside = deepest(
            path,
            border,
            |bounds| !bounded || bounds.meets(hull),
            |point| self.sound(border, point),
        );
        match (nearest, inside) {
            (Some(touching), Some(deep)) if deep.1.depth < touching.1.depth => Some(touching),
            (touching, deep) => deep.or(touching),
        }
    }

    fn sound(&self, border: &Runs, point: Point) -> Option<Sounding> {
        let foot = border.nearest(point, f64::INFINITY)?;
        let distance = foot.square.sqrt();
        let inside = self.core_holds(border, point);
        Some(Sounding {
            depth: if inside { distance } else { -distance },
            at: point,
            foot: foot.point,
            side: foot.piece,
        })
    }

    /// Whether the ground of the core holds a point; a line has none.
    fn core_holds(&self, border: &Runs, point: Point) -> bool {
        match self.core {
            Core::Point(_) | Core::Line(_) => false,
            Core::Area(_) => border.holds(point),
            Core::Beyond(_) => !border.holds(point),
        }
    }

    /// The core's line or outline; a point has none.
    pub(crate) fn border(&self) -> Option<&Runs> {
        self.border.as_ref()
    }

    /// A place of the core: of a point the point.
    pub(crate) fn centre(&self) -> Point {
        match &self.core {
            Core::Point(point) => *point,
            Core::Line(chain) | Core::Area(chain) | Core::Beyond(chain) => chain.start(),
        }
    }

    /// The gap for a sounding of the core: its foot is moved out to the border.
    fn found(&self, sounding: Sounding) -> Gap {
        let Sounding {
            depth,
            at,
            foot,
            side,
        } = sounding;
        let way = if depth > 0.0 { foot - at } else { at - foot };
        let length = way.square().sqrt();
        let to = if self.grown <= 0.0 {
            foot
        } else if length > SAME_PLACE {
            foot + way * (self.grown / length)
        } else {
            foot + self.way_out(foot, side) * self.grown
        };
        Gap {
            distance: -depth - self.grown,
            from: at,
            to,
        }
    }

    /// The way out of the ground from a point on the border of the core, length one; from a point
    /// or a line any way square to it is.
    fn way_out(&self, foot: Point, side: usize) -> Vector {
        let Some(border) = &self.border else {
            return Vector::new(1.0, 0.0);
        };
        let normal = border.frames()[side].normal_at(foot);
        if self.core_holds(border, foot + normal * (10.0 * SAME_PLACE)) {
            -normal
        } else {
            normal
        }
    }
}
