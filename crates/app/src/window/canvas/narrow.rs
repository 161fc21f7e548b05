//! A path too narrow for its three lines: one band of few corners, so that thousands of legs cost little.

use egui::{Color32, ColorImage, Id, Mesh, Painter, Pos2, Shape, TextureHandle, TextureOptions};
use egui::{Vec2, epaint::Vertex, pos2};
use geometry::Chain;

use super::curves;
use crate::window::theme::Palette;
use crate::window::view::View;

/// How far the drawn line may leave the traced one, in screen points: less than half of one, which
/// the soft rim of the band hides.
const ROUGH: f32 = 0.45;
/// So many corners are left out at most between two that are kept: each of them is looked at again.
const MOST_LEFT_OUT: usize = 12;
/// Less than this between the edges is not seen, in screen points.
const SEEN: f32 = 1.0;
/// So many colours across the band: several a pixel.
const COLOURS: usize = 64;

/// What is between the edges of a path, and the edges round it.
pub(super) fn draw(
    painter: &Painter,
    view: &View,
    palette: &Palette,
    chain: &Chain,
    (wide, edge): (f32, f32),
) {
    let across = Across {
        wide,
        edge,
        soft: 1.0 / painter.ctx().pixels_per_point(),
        colours: [palette.ink, palette.path],
    };
    let mut mesh = Mesh::with_texture(across.texture(painter).id());
    for run in view.trace(&curves(chain)) {
        add_band(&mut mesh, &simplified(&run.points), across.half());
    }
    painter.add(Shape::mesh(mesh));
}

/// What a band looks like across, lengths in screen points.
#[derive(Clone, PartialEq)]
struct Across {
    /// From edge to edge.
    wide: f32,
    /// The width of an edge's line.
    edge: f32,
    /// The width of the soft rim.
    soft: f32,
    /// Of the edges, and of what is between them.
    colours: [Color32; 2],
}

impl Across {
    /// From the middle to where nothing of the rim is left.
    fn half(&self) -> f32 {
        0.5 * (self.wide.max(self.edge) + self.edge + self.soft)
    }

    /// The colour so far from the middle.
    fn colour(&self, off: f32) -> Color32 {
        let [ink, path] = self.colours;
        // How much of a pixel there lies this side of a border.
        let within = |border: f32| ((border - off) / self.soft + 0.5).clamp(0.0, 1.0);
        let inner = 0.5 * (self.wide - self.edge);
        let between = if SEEN < 2.0 * inner {
            within(inner)
        } else {
            0.0
        };
        let outer = within(self.half() - 0.5 * self.soft);
        ink.lerp_to_gamma(path, between).gamma_multiply(outer)
    }

    /// The colours across as a picture one pixel long: two corners of the band stand where there would be one for
    /// each border. It is painted anew only when it changes.
    fn texture(&self, painter: &Painter) -> TextureHandle {
        let id = Id::unique("narrow path").with(self.edge.to_bits());
        let kept: Option<(Self, TextureHandle)> = painter.ctx().data(|data| data.get_temp(id));
        if let Some((of, texture)) = &kept
            && of == self
        {
            return texture.clone();
        }
        let colours: Vec<_> = (0..COLOURS)
            .map(|nth| self.colour(self.half() * (2.0 * share(nth) - 1.0).abs()))
            .collect();
        let image = ColorImage::new([1, COLOURS], colours);
        let texture = match kept {
            Some((_, mut texture)) => {
                texture.set(image, TextureOptions::LINEAR);
                texture
            }
            None => painter
                .ctx()
                .load_texture("narrow path", image, TextureOptions::LINEAR),
        };
        let keep = (self.clone(), texture.clone());
        painter.ctx().data_mut(|data| data.insert_temp(id, keep));
        texture
    }
}

/// Where the middle of a colour lies across the band.
#[expect(clippy::cast_precision_loss, reason = "a few dozen")]
fn share(nth: usize) -> f32 {
    (nth as f32 + 0.5) / COLOURS as f32
}

/// Adds a band along a line, so wide to either side.
fn add_band(mesh: &mut Mesh, line: &[Pos2], half: f32) {
    let mut crossed = false;
    let mut add = |mesh: &mut Mesh, at: Pos2, left: Vec2| {
        let first = u32::try_from(mesh.vertices.len()).unwrap_or(u32::MAX - 2);
        for (side, v) in [(half, 0.0), (-half, 1.0)] {
            mesh.vertices.push(Vertex {
                pos: at + left * side,
                uv: pos2(0.5, v),
                color: Color32::WHITE,
            });
        }
        if crossed {
            mesh.add_triangle(first - 2, first - 1, first);
            mesh.add_triangle(first - 1, first, first + 1);
        }
        crossed = true;
    };
    let mut before: Option<Vec2> = None;
    for (nth, at) in line.iter().enumerate() {
        let after = line
            .get(nth + 1)
            .map(|next| (*next - *at).normalized().rot90());
        match (before, after) {
            (Some(one), Some(other)) => {
                let middle = 0.5 * (one + other);
                let size = middle.length_sq();
                if size < SHARP_TURN {
                    // A mitre would run far out: the corner is cut off.
                    add(mesh, *at, one);
                    add(mesh, *at, other);
                } else {
                    add(mesh, *at, middle / size);
                }
            }
            (Some(left), None) | (None, Some(left)) => add(mesh, *at, left),
            (None, None) => {}
        }
        before = after;
    }
}

/// The squared cosine of half a right angle: where a line turns by more, its corner is cut off.
const SHARP_TURN: f32 = 0.5;

/// A line with fewer corners, and nowhere farther off than [`ROUGH`].
fn simplified(points: &[Pos2]) -> Vec<Pos2> {
    let mut kept: Vec<Pos2> = points.first().copied().into_iter().collect();
    let mut last = 0;
    for next in 2..points.len() {
        let left_out = &points[last + 1..next];
        let rough = |at: &Pos2| ROUGH < distance(*at, points[last], points[next]);
        if MOST_LEFT_OUT < left_out.len() || left_out.iter().any(rough) {
            last = next - 1;
            kept.push(points[last]);
        }
    }
    if 1 < points.len() {
        kept.extend(points.last());
    }
    kept
}

fn distance(at: Pos2, from: Pos2, to: Pos2) -> f32 {
    let (way, off) = (to - from, at - from);
    let size = way.length_sq();
    let share = if size > 0.0 {
        (off.dot(way) / size).clamp(0.0, 1.0)
    } else {
        0.0
    };
    (off - way * share).length()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::window::theme::Look;

    fn line(points: &[(f32, f32)]) -> Vec<Pos2> {
        points.iter().map(|(x, y)| Pos2::new(*x, *y)).collect()
    }

    #[test]
    fn corners_that_are_not_seen_are_left_out_and_the_ends_stay() {
        let nearly = line(&[(0.0, 0.0), (3.0, 0.3), (6.0, -0.3), (9.0, 0.0)]);
        assert_eq!(simplified(&nearly), [nearly[0], nearly[3]]);
        let corner = line(&[(0.0, 0.0), (5.0, 0.0), (5.0, 5.0)]);
        assert_eq!(simplified(&corner), corner);
        assert_eq!(simplified(&corner[..1]), corner[..1]);
        assert_eq!(simplified(&[]), []);
    }

    #[test]
    fn a_simplified_line_is_nowhere_far_from_the_one_traced() {
        let wave: Vec<Pos2> = (0..400u16)
            .map(|i| Pos2::new(f32::from(i), 6.0 * (0.13 * f32::from(i)).sin()))
            .collect();
        let kept = simplified(&wave);
        assert!(kept.len() < wave.len() / 3, "{}", kept.len());
        for at in &wave {
            let off = kept
                .windows(2)
                .map(|pair| distance(*at, pair[0], pair[1]))
                .fold(f32::INFINITY, f32::min);
            assert!(off <= ROUGH, "{at}: {off}");
        }
    }

    fn across(wide: f32) -> Across {
        let palette = Look::Day.palette();
        Across {
            wide,
            edge: 2.0,
            soft: 1.0,
            colours: [palette.ink, palette.path],
        }
    }

    #[test]
    fn a_band_is_as_wide_as_the_path_and_its_edges_and_fades_at_its_rim() {
        for (wide, half, seen) in [
            (5.9, 4.45, true),
            (3.9, 3.45, true),
            (2.5, 2.75, false),
            (0.1, 2.5, false),
        ] {
            let across = across(wide);
            let [ink, path] = across.colours;
            assert!((across.half() - half).abs() < 1e-6);
            assert_eq!(across.colour(half), Color32::TRANSPARENT);
            assert_eq!(across.colour(0.5 * wide), ink);
            assert_eq!(across.colour(0.0), if seen { path } else { ink });
            let mut mesh = Mesh::default();
            add_band(
                &mut mesh,
                &line(&[(0.0, 0.0), (10.0, 0.0), (20.0, 0.0)]),
                half,
            );
            assert!(mesh.is_valid());
            assert_eq!(mesh.indices.len(), 2 * 6);
            assert!((mesh.calc_bounds().height() - 2.0 * half).abs() < 1e-6);
        }
    }

    #[test]
    fn a_sharp_turn_does_not_run_far_out() {
        let mut mesh = Mesh::default();
        add_band(
            &mut mesh,
            &line(&[(0.0, 0.0), (10.0, 0.0), (0.0, 0.1)]),
            2.0,
        );
        assert!(mesh.calc_bounds().max.x <= 12.1);
        add_band(&mut mesh, &line(&[(3.0, 3.0), (3.0, 3.0)]), 2.0);
        add_band(&mut mesh, &line(&[(3.0, 3.0)]), 2.0);
        assert!(mesh.is_valid());
        assert!(
            mesh.vertices
                .iter()
                .all(|v| v.pos.x.is_finite() && v.pos.y.is_finite())
        );
    }
}
