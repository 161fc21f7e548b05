//! A circle that may flatten to a straight, and the one nearest to given places.

use crate::point::Vector;

/// A circle or a straight near `origin`: where `c z / 2 + e (n · v) + offset = 0`, with `v` from the
/// origin, `z = |v|²`, `n` the unit normal and `e = sqrt(1 + 2 c offset)`.
#[derive(Clone, Copy)]
pub(super) struct Curve {
    origin: Vector,
    /// One over the radius; negative with the centre on the side of the normal; 0 for a straight.
    pub(super) curvature: f64,
    /// Direction of the normal, radians.
    pub(super) normal: f64,
    pub(super) offset: f64,
}

impl Curve {
    /// The line through the middle of `places` along their greatest spread.
    pub(super) fn straight_through(places: &[Vector]) -> Self {
        let (xx, xy, yy) = places.iter().fold((0.0, 0.0, 0.0), |(xx, xy, yy), v| {
            (xx + v.x * v.x, xy + v.x * v.y, yy + v.y * v.y)
        });
        let along = (2.0 * xy).atan2(xx - yy) / 2.0;
        Self {
            origin: Vector::ZERO,
            curvature: 0.0,
            normal: along + std::f64::consts::FRAC_PI_2,
            offset: 0.0,
        }
    }

    /// Taubin's algebraic circle of centred `places`: the least root of its cubic by Newton's
    /// method from zero, which approaches it from one side.
    pub(super) fn taubin(places: &[Vector]) -> Self {
        let share = 1.0 / count(places.len());
        let (mut xx, mut xy, mut yy, mut xz, mut yz, mut zz) = (0.0, 0.0, 0.0, 0.0, 0.0, 0.0);
        for v in places {
            let z = v.dot(*v);
            xx += v.x * v.x * share;
            xy += v.x * v.y * share;
            yy += v.y * v.y * share;
            xz += v.x * z * share;
            yz += v.y * z * share;
            zz += z * z * share;
        }
        let z = xx + yy;
        let spread = xx * yy - xy * xy;
        let variance = zz - z * z;
        let a0 = xz * (xz * yy - yz * xy) + yz * (yz * xx - xz * xy) - variance * spread;
        let a1 = variance * z + 4.0 * spread * z - xz * xz - yz * yz;
        let a2 = -3.0 * z * z - zz;
        let a3 = 4.0 * z;
        let (mut root, mut value) = (0.0, a0);
        for _ in 0..MOST_STEPS {
            let next = root - value / (a1 + root * (2.0 * a2 + 3.0 * a3 * root));
            let next_value = a0 + next * (a1 + next * (a2 + next * a3));
            if next_value.abs() < value.abs() {
                (root, value) = (next, next_value);
            } else {
                break;
            }
        }
        let twice = 2.0 * (root * (root - z) + spread);
        let centre = Vector::new(
            (xz * (yy - root) - yz * xy) / twice,
            (yz * (xx - root) - xz * xy) / twice,
        );
        let radius = (centre.dot(centre) + z).sqrt();
        let inmost = places
            .iter()
            .copied()
            .min_by(|a, b| a.dot(*a).total_cmp(&b.dot(*b)))
            .unwrap_or_default();
        let outward = inmost - centre;
        let length = outward.length();
        if !(radius.is_finite() && length > 0.0) {
            return Self::straight_through(places);
        }
        Self {
            origin: centre + outward * (radius / length),
            curvature: 1.0 / radius,
            normal: outward.y.atan2(outward.x),
            offset: 0.0,
        }
    }

    /// The nearest curve to `places` reached from this one, and its sum of squares.
    pub(super) fn refined(self, places: &[Vector]) -> (Self, f64) {
        let mut best = (self, self.sum_of_squares(places));
        let mut equations = self.normal_equations(places);
        let mut damping = 1e-3;
        for _ in 0..MOST_STEPS {
            let (mut matrix, gradient) = equations;
            for (i, row) in matrix.iter_mut().enumerate() {
                row[i] *= 1.0 + damping;
            }
            let Some(step) = solved(&matrix, gradient) else {
                break;
            };
            let tried = Self {
                curvature: best.0.curvature - step[0],
                normal: best.0.normal - step[1],
                offset: best.0.offset - step[2],
                ..best.0
            };
            let squares = tried.sum_of_squares(places);
            let tried_equations = tried.normal_equations(places);
            // At the least sum its rounding hides half of the digits; the slope still shows them.
            let is_level = (squares - best.1).abs() <= LEVEL * best.1;
            let is_closer = if is_level {
                largest(tried_equations.1) < largest(gradient)
            } else {
                squares < best.1
            };
            if is_closer {
                best = (tried, squares);
                equations = tried_equations;
                damping *= 0.1;
            } else {
                damping = (damping * 10.0).max(1e-3);
            }
            let is_settled = largest(step) <= f64::EPSILON;
            if is_settled || is_level && !is_closer || damping > 1e12 {
                break;
            }
        }
        best
    }

    pub(super) fn scale_of_normal(&self) -> f64 {
        (1.0 + 2.0 * self.curvature * self.offset).sqrt()
    }

    pub(super) fn centre(&self) -> Vector {
        let (sine, cosine) = self.normal.sin_cos();
        self.origin - Vector::new(cosine, sine) * (self.scale_of_normal() / self.curvature)
    }

    /// Signed distance of a place, with its derivatives by curvature, normal and offset.
    fn distance(&self, place: Vector) -> (f64, [f64; 3]) {
        let v = place - self.origin;
        let (sine, cosine) = self.normal.sin_cos();
        let (across, along) = (v.x * cosine + v.y * sine, v.y * cosine - v.x * sine);
        let scale = self.scale_of_normal();
        let z = v.dot(v);
        let p = self.curvature * z / 2.0 + scale * across + self.offset;
        let q = (1.0 + 2.0 * self.curvature * p).max(0.0).sqrt(); // distance from the centre over R
        let d = 2.0 * p / (1.0 + q);
        let per_p = 2.0 / (1.0 + q) * (1.0 - self.curvature * d / (2.0 * q));
        let by = [
            per_p * (z / 2.0 + self.offset / scale * across) - d * d / (2.0 * q),
            per_p * scale * along,
            per_p * (1.0 + self.curvature / scale * across),
        ];
        (d, by)
    }

    pub(super) fn sum_of_squares(&self, places: &[Vector]) -> f64 {
        places
            .iter()
            .map(|&place| self.distance(place).0.powi(2))
            .sum()
    }

    /// The symmetric matrix `JᵀJ` and the vector `Jᵀd`.
    pub(super) fn normal_equations(&self, places: &[Vector]) -> ([[f64; 3]; 3], [f64; 3]) {
        let (mut matrix, mut right) = ([[0.0; 3]; 3], [0.0; 3]);
        for &place in places {
            let (d, by) = self.distance(place);
            for i in 0..3 {
                right[i] += by[i] * d;
                for j in 0..3 {
                    matrix[i][j] += by[i] * by[j];
                }
            }
        }
        (matrix, right)
    }
}

/// Change of a sum of squares, in parts of it, that is no more than its rounding.
const LEVEL: f64 = 1e-13;

/// Far more than the few steps a fit takes.
const MOST_STEPS: usize = 200;

/// Solves a symmetric positive system of three by Cholesky; `None` if it is not positive.
pub(super) fn solved(matrix: &[[f64; 3]; 3], right: [f64; 3]) -> Option<[f64; 3]> {
    let mut lower = [[0.0; 3]; 3];
    for i in 0..3 {
        for j in 0..=i {
            let rest: f64 = matrix[i][j] - (0..j).map(|k| lower[i][k] * lower[j][k]).sum::<f64>();
            lower[i][j] = if i == j {
                if rest > 0.0 {
                    rest.sqrt()
                } else {
                    return None;
                }
            } else {
                rest / lower[j][j]
            };
        }
    }
    let mut solution = right;
    for i in 0..3 {
        let known: f64 = (0..i).map(|k| lower[i][k] * solution[k]).sum();
        solution[i] = (solution[i] - known) / lower[i][i];
    }
    for i in (0..3).rev() {
        let known: f64 = (i + 1..3).map(|k| lower[k][i] * solution[k]).sum();
        solution[i] = (solution[i] - known) / lower[i][i];
    }
    Some(solution)
}

fn largest(parts: [f64; 3]) -> f64 {
    parts
        .iter()
        .fold(0.0, |largest, part| part.abs().max(largest))
}

/// A count as a number to divide by.
pub(super) fn count(items: usize) -> f64 {
    items as f64 // exact below 2^53
}
