//! Courses along a path: straight on straights, about the swing point on bends.

use geometry::{Chain, Piece};
use serde::Serialize;

use super::{Joints, Lay, Unit};

/// One course along the whole path.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LaidCourse {
    /// Its right and its left face, metres to the left of the centre line.
    pub faces: [f64; 2],
    /// How many units it takes, cut ones among them.
    pub units: usize,
    /// How many are cut: to a taper, to a mitre at a corner, lengthwise, or to close the course.
    pub cut: usize,
    /// How many of the cut ones are slivers.
    pub slivers: usize,
    /// The area of faces laid, in square metres.
    pub laid: f64,
    /// Its bends, in walking order.
    pub bends: Vec<CourseBend>,
}

/// A course on one bend.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct CourseBend {
    /// Which piece of the centre line, counted from 0.
    pub piece: usize,
    /// The radius of the face nearer to the swing point.
    pub inner_radius: f64,
    /// The least such radius at which whole units follow; infinite if joints have no play.
    pub least_radius: f64,
    /// How many units lie on it, parts of units included.
    pub units: f64,
    /// Whether whole units follow.
    #[serde(flatten)]
    pub fit: Fit,
}

/// How units follow a bend.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(tag = "fit", rename_all = "snake_case")]
pub enum Fit {
    /// Whole, with joints that open outward.
    Whole {
        /// The joint at the inner face.
        inner_joint: f64,
        /// The joint at the outer face.
        outer_joint: f64,
    },
    /// Cut to a taper, with even joints.
    Taper {
        /// The width that is left of a unit at the inner face.
        inner_width: f64,
    },
}

/// The least radius in metres of the inner face of a course that whole units follow: units `along`
/// and `across` the course in metres, joints from the narrowest inside to the widest outside.
/// Infinite if joints have no play.
///
/// The outer face is longer than the inner by the ratio of their radii:
/// (R + D) / R = (W + j outer) / (W + j inner). Source: geometry; it reproduces the published radii
/// of pavingexpert.com.
///
/// ```
/// use plan::count::paving::{Joints, least_inner_radius};
/// // 100 by 200 mm as soldiers, joints of 2 to 6 mm: 5.10 m.
/// let joints = Joints { least: 0.002, usual: 0.003, most: 0.006 };
/// assert!((least_inner_radius([0.1, 0.2], joints) - 5.1).abs() < 1e-12);
/// ```
#[must_use]
pub fn least_inner_radius([along, across]: [f64; 2], joints: Joints) -> f64 {
    let play = joints.most - joints.least;
    if play > 0.0 {
        across * (along + joints.least) / play
    } else {
        f64::INFINITY
    }
}

/// Joints are met to a nanometre: what rounding leaves.
const MET: f64 = 1e-9;

/// The faces of the courses across a width, from its right edge: as many as fit whole, with their
/// joints stretched or closed if that fills the width, else with the usual joint and a last course
/// cut lengthwise.
pub(super) fn across(width: f64, depth: f64, joints: Joints) -> Vec<[f64; 2]> {
    let usual = ((width + joints.usual) / (depth + joints.usual)).max(0.0);
    let filled = |count: f64| {
        let joint = (width - count * depth) / (count - 1.0).max(1.0);
        let (least, most) = match count {
            ..1.0 => return None,
            1.0..2.0 => (0.0, 0.0),
            _ => (joints.least, joints.most),
        };
        (least - MET <= joint && joint <= most + MET).then_some((count, joint.max(0.0)))
    };
    let (count, joint) = filled(usual.round())
        .or_else(|| filled(usual.floor()))
        .or_else(|| filled(usual.ceil()))
        .unwrap_or((usual.ceil(), joints.usual));
    let mut faces = Vec::new();
    let mut low = 0.0;
    while faces.len() as f64 + 0.5 < count && low < width - MET {
        faces.push([low, (low + depth).min(width)]);
        low += depth + joint;
    }
    faces
}

/// Lays one course between two faces, metres to the left of the centre line.
pub(super) fn lay(
    centre: &Chain,
    faces: [f64; 2],
    unit: Unit,
    lay: Lay,
    joints: Joints,
) -> LaidCourse {
    let [along, whole_depth] = unit.laid(lay);
    let depth = faces[1] - faces[0];
    let is_split = depth < whole_depth - MET;
    let mut course = LaidCourse {
        faces,
        units: 0,
        cut: 0,
        slivers: 0,
        laid: 0.0,
        bends: Vec::new(),
    };
    // How many units with the widest, the usual and the narrowest joints.
    let mut units = [0.0; 3];
    let mut lost = 0.0;
    for (i, piece) in centre.pieces().iter().enumerate() {
        let stretch = Stretch::of(centre, i, faces);
        let modules = match stretch.on(piece, [along, depth], joints) {
            None => [joints.most, joints.usual, joints.least].map(|joint| along + joint),
            Some((bend, modules)) => {
                if let Fit::Taper { inner_width } = bend.fit {
                    let count = bend.units.ceil();
                    lost += count * 0.5 * depth * (along - inner_width);
                    course.cut += whole(count);
                    if unit.is_sliver(0.5 * (1.0 + inner_width / along), inner_width) {
                        course.slivers += whole(count);
                    }
                }
                course.bends.push(bend);
                modules
            }
        };
        for (units, module) in units.iter_mut().zip(modules) {
            *units += stretch.inner / module;
        }
        let corner = centre.corner(i).abs();
        // A corner that opens a joint no further than its limits is taken up by it.
        if corner * depth > (joints.most - joints.least).max(MET) {
            course.cut += 2;
            let off = 0.5 * depth * depth * (0.5 * corner).tan().min(STEEPEST_MITRE);
            lost += 2.0 * off.min(along * depth);
        }
    }
    if !centre.is_closed() {
        // The last unit needs no joint.
        for (units, joint) in units
            .iter_mut()
            .zip([joints.most, joints.usual, joints.least])
        {
            *units += joint / (along + joint);
        }
    }
    let [fewest, usual, most] = units;
    // The number nearest to the usual joints that the limits of the joints allow.
    let (fewest, most) = ((fewest - MET).ceil(), (most + MET).floor());
    let closes = fewest <= most;
    course.units = whole(if closes {
        usual.round().max(fewest).min(most)
    } else {
        usual.ceil()
    });
    if !closes {
        let last = usual.fract();
        course.cut += 1;
        course.slivers += usize::from(unit.is_sliver(last, last * along));
        lost += (1.0 - last) * along * depth;
    }
    course.cut = course.cut.min(course.units);
    course.laid = (course.units as f64 * along * depth - lost).max(0.0);
    if is_split {
        course.cut = course.units;
        if unit.is_sliver(depth / whole_depth, depth) {
            course.slivers = course.units;
        }
    }
    course.slivers = course.slivers.min(course.cut);
    course
}

/// A mitre is not drawn out further than this many times the depth: that of edges themselves.
const STEEPEST_MITRE: f64 = geometry::MITRE_REACH;

/// One piece of the centre line beside a course.
struct Stretch {
    piece: usize,
    /// The length of its inner face, mitres included.
    inner: f64,
    /// The radius of the face nearer to the swing point, and how much longer the outer face is.
    bend: Option<(f64, f64)>,
}

impl Stretch {
    fn of(centre: &Chain, piece: usize, faces: [f64; 2]) -> Self {
        let pieces = centre.pieces();
        let curvature = pieces[piece].curvature();
        let next = if centre.is_closed() {
            (piece + 1) % pieces.len()
        } else {
            piece + 1
        };
        // A corner to the left makes what lies left of the centre line shorter.
        let tangent = |corner: usize| {
            let turn = 0.5 * centre.corner(corner);
            turn.tan().clamp(-STEEPEST_MITRE, STEEPEST_MITRE)
        };
        let ends = tangent(piece) + tangent(next);
        let longest = faces.map(|face| -face * ends);
        let scale = faces.map(|face| (1.0 - curvature * face).max(0.0));
        let (inner, outer) = (scale[0].min(scale[1]), scale[0].max(scale[1]));
        Self {
            piece,
            inner: (inner * pieces[piece].length() + longest[0].max(longest[1])).max(0.0),
            bend: pieces[piece]
                .arc()
                .map(|_| (inner / curvature.abs(), outer / inner)),
        }
    }

    /// The units on a bend, and their modules at the inner face with the widest, the usual and the
    /// narrowest joints; nothing on a straight.
    fn on(
        &self,
        piece: &Piece,
        [along, depth]: [f64; 2],
        joints: Joints,
    ) -> Option<(CourseBend, [f64; 3])> {
        piece.arc()?;
        let (inner_radius, longer) = self.bend?;
        let widest = (along + joints.most) / longer - along;
        let (fit, modules) = if widest >= joints.least - MET {
            // The usual joint in the middle of the course, as far as the limits let it.
            let middle = 2.0 * (along + joints.usual) / (1.0 + longer) - along;
            let inner_joint = middle.min(widest).max(joints.least);
            let outer_joint = longer * (along + inner_joint) - along;
            let fit = Fit::Whole {
                inner_joint,
                outer_joint,
            };
            (
                fit,
                [widest, inner_joint, joints.least].map(|joint| along + joint),
            )
        } else {
            let module = (along + joints.usual) / longer;
            let inner_width = (module - joints.usual).max(0.0);
            (Fit::Taper { inner_width }, [module; 3])
        };
        let units = if self.inner > 0.0 {
            self.inner / modules[1]
        } else {
            0.0
        };
        let bend = CourseBend {
            piece: self.piece,
            inner_radius,
            least_radius: least_inner_radius([along, depth], joints),
            units,
            fit,
        };
        Some((bend, modules))
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a whole number, never negative; past usize it saturates"
)]
pub(super) fn whole(number: f64) -> usize {
    number as usize
}
