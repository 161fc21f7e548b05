//! A path too narrow for its three lines: one band of few corners, so that thousands of legs cost little.

use egui::epaint::WHITE_UV;
use egui::{Color32, Mesh, Painter, Pos2, Shape, Vec2};
use geometry::Chain;

use super::curves;
use crate::window::theme::Palette;
use crate::window::view::View;

/// How far the drawn line may leave the traced one, in screen points: less than half of one, which
/// the soft rim of the band hides.
const ROUGH: f32 = 0.45;
/// So many corners are left out at most between two that are kept: each of them is looked at again.
const MOST_LEFT_OUT: usize = 12;
/// From this width on what is between the edges has sharp sides, in screen points.
const SHARP: f32 = 3.0;
/// Less than this between the edges is not seen, in screen points.
const SEEN: f32 = 1.0;

/// What is between the edges of a path, and the edges round it.
pub(super) fn draw(
    painter: &Painter,
    view: &View,
    palette: &Palette,
    chain: &Chain,
    (wide, edge): (f32, f32),
) {
    let profile = profile(
        palette,
        (wide, edge),
        1.0 / painter.ctx().pixels_per_point(),
    );
    let mut mesh = Mesh::default();
    for run in view.trace(&curves(chain)) {
        add_band(&mut mesh, &simplified(&run.points), &profile);
    }
    painter.add(Shape::mesh(mesh));
}

/// The colours across the band, from its left rim to its right one, and how far left of the middle
/// each is; `soft` is the width of the rim.
fn profile(palette: &Palette, (wide, edge): (f32, f32), soft: f32) -> Vec<(f32, Color32)> {
    let outer = 0.5 * (wide.max(edge) + edge);
    let inner = 0.5 * (wide - edge);
    let mut left = vec![
        (outer + 0.5 * soft, Color32::TRANSPARENT),
        (outer - 0.5 * soft, palette.ink),
    ];
    let sharp = SHARP <= 2.0 * inner;
    if sharp {
        left.push((inner + 0.5 * soft, palette.ink));
        left.push((inner - 0.5 * soft, palette.path));
    }
    let right: Vec<_> = left
        .iter()
        .rev()
        .map(|(at, colour)| (-at, *colour))
        .collect();
    if !sharp && SEEN < 2.0 * inner {
        left.push((0.0, palette.path));
    }
    left.extend(right);
    left
}

/// Adds a band along a line, at each corner a cross line of the profile's colours.
fn add_band(mesh: &mut Mesh, line: &[Pos2], profile: &[(f32, Color32)]) {
    let across = u32::try_from(profile.len()).unwrap_or(0);
    let mut crossed = false;
    let mut add = |mesh: &mut Mesh, at: Pos2, left: Vec2| {
        let first = u32::try_from(mesh.vertices.len()).unwrap_or(u32::MAX - across);
        mesh.vertices
            .extend(profile.iter().map(|(off, colour)| egui::epaint::Vertex {
                pos: at + left * *off,
                uv: WHITE_UV,
                color: *colour,
            }));
        if crossed {
            for here in first..(first + across).saturating_sub(1) {
                let before = here - across;
                mesh.add_triangle(before, before + 1, here);
                mesh.add_triangle(before + 1, here, here + 1);
            }
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

    #[test]
    fn a_band_is_as_wide_as_the_path_and_its_edges_and_fades_at_its_rim() {
        let palette = Look::Day.palette();
        for (wide, edge, across) in [(5.9, 2.0, 8), (3.9, 2.0, 5), (2.5, 2.0, 4), (0.1, 2.0, 4)] {
            let profile = profile(palette, (wide, edge), 1.0);
            assert_eq!(profile.len(), across);
            assert!(profile.windows(2).all(|pair| pair[1].0 < pair[0].0));
            let mut mesh = Mesh::default();
            add_band(
                &mut mesh,
                &line(&[(0.0, 0.0), (10.0, 0.0), (20.0, 0.0)]),
                &profile,
            );
            assert!(mesh.is_valid());
            assert_eq!(mesh.indices.len(), 2 * 6 * (across - 1));
            let height = mesh.calc_bounds().height();
            assert!((height - (wide.max(edge) + edge + 1.0)).abs() < 1e-5);
        }
    }

    #[test]
    fn a_sharp_turn_does_not_run_far_out() {
        let profile = [(2.0, Color32::RED), (-2.0, Color32::RED)];
        let mut mesh = Mesh::default();
        add_band(
            &mut mesh,
            &line(&[(0.0, 0.0), (10.0, 0.0), (0.0, 0.1)]),
            &profile,
        );
        assert!(mesh.calc_bounds().max.x <= 12.1);
        add_band(&mut mesh, &line(&[(3.0, 3.0), (3.0, 3.0)]), &profile);
        add_band(&mut mesh, &line(&[(3.0, 3.0)]), &profile);
        assert!(mesh.is_valid());
        assert!(
            mesh.vertices
                .iter()
                .all(|v| v.pos.x.is_finite() && v.pos.y.is_finite())
        );
    }
}
