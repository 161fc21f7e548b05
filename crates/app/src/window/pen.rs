//! How lines on the plan are drawn: each kind has its own pattern, so that it reads in black and white.

use egui::emath::GuiRounding as _;
use egui::{Color32, Mesh, Painter, Pos2, Rect, Shape, Stroke, Vec2};

use super::theme::Palette;
use super::view::Run;

/// A kind of line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pen {
    /// The edge of a path: continuous, wide.
    Edge,
    /// What stands there already: continuous.
    Outline,
    /// The centre line of a path: long dashes and dots.
    Centre,
    /// What lies under the ground: dashes.
    Buried,
    /// A string to be pulled: short dashes, in the string's own colour.
    String,
    /// A measured distance: continuous, thin.
    Measure,
    /// The boundary of the site: long dashes and pairs of dots.
    Boundary,
    /// How far roots are taken to reach: dashes, thin.
    Zone,
    /// The ground that a vehicle sweeps: dashes and dots, thin.
    Swept,
    /// Where something was, or will come along: dots.
    Ghost,
}

/// Lengths of the parts of a line in widths of the line. Source: ISO 128-2:2020 (from memory).
const LONG_DASH: f32 = 24.0;
const DASH: f32 = 12.0;
const SHORT_DASH: f32 = 6.0;
const GAP: f32 = 3.0;
/// The standard's dot is half a width long; on a screen it takes a whole one to be seen.
const DOT: f32 = 1.0;

/// A line so long that its pattern would come more often than this fills the picture, and is drawn continuous.
const MOST_PERIODS: f32 = 4000.0;

impl Pen {
    /// Draws the seen parts of a line.
    pub fn draw(self, painter: &Painter, runs: &[Run], palette: &Palette) {
        self.draw_in(painter, runs, palette, self.colour(palette));
    }

    /// Draws the seen parts of a line in another colour than the pen's own.
    pub fn draw_in(self, painter: &Painter, runs: &[Run], palette: &Palette, colour: Color32) {
        self.stroke(
            painter,
            runs,
            Stroke::new(self.width() * palette.weight, colour),
        );
    }

    /// Draws the seen parts of a line so many times as wide as usual.
    pub fn draw_wide(self, painter: &Painter, runs: &[Run], palette: &Palette, times: f32) {
        let width = times * self.width() * palette.weight;
        self.stroke(painter, runs, Stroke::new(width, self.colour(palette)));
    }

    fn stroke(self, painter: &Painter, runs: &[Run], stroke: Stroke) {
        let parts: Vec<f32> = self
            .pattern()
            .iter()
            .map(|part| part * stroke.width)
            .collect();
        let length: f32 = runs.iter().map(Run::length).sum();
        let dashed = !parts.is_empty() && length < MOST_PERIODS * parts.iter().sum::<f32>();
        for run in runs {
            if dashed {
                painter.extend(
                    dashes(run, &parts)
                        .into_iter()
                        .map(|dash| Shape::line(dash, stroke)),
                );
            } else {
                painter.add(Shape::line(run.points.clone(), stroke));
            }
        }
    }

    /// The colour it has when nothing is to be said about it.
    #[must_use]
    pub fn colour(self, palette: &Palette) -> Color32 {
        match self {
            Self::Edge | Self::Outline | Self::Centre | Self::Buried | Self::Boundary => {
                palette.ink
            }
            Self::String => palette.string,
            Self::Measure | Self::Ghost | Self::Zone | Self::Swept => palette.faint,
        }
    }

    /// Its width in screen points, indoors.
    #[must_use]
    pub fn width(self) -> f32 {
        match self {
            Self::Edge => 2.0,
            Self::Outline | Self::Buried | Self::String | Self::Boundary => 1.5,
            Self::Centre | Self::Ghost => 1.25,
            Self::Measure | Self::Zone | Self::Swept => 1.0,
        }
    }

    /// Dash, gap, dash, gap … in widths of the line; nothing for a continuous one.
    fn pattern(self) -> &'static [f32] {
        match self {
            Self::Edge | Self::Outline | Self::Measure => &[],
            Self::Centre => &[LONG_DASH, GAP, DOT, GAP],
            Self::Boundary => &[LONG_DASH, GAP, DOT, GAP, DOT, GAP],
            Self::Swept => &[DASH, GAP, DOT, GAP],
            Self::Buried | Self::Zone => &[DASH, GAP],
            Self::String => &[SHORT_DASH, GAP],
            Self::Ghost => &[DOT, GAP],
        }
    }
}

/// Fills bands between two edges, each given by its cross lines, without seams.
pub fn fill_bands(painter: &Painter, bands: &[Vec<[Pos2; 2]>], colour: Color32) {
    let mut mesh = Mesh::default();
    let mut corner = 0;
    for band in bands {
        for (nth, &[left, right]) in band.iter().enumerate() {
            mesh.colored_vertex(left, colour);
            mesh.colored_vertex(right, colour);
            if 0 < nth {
                mesh.add_triangle(corner - 2, corner - 1, corner);
                mesh.add_triangle(corner - 1, corner, corner + 1);
            }
            corner += 2;
        }
    }
    painter.add(Shape::mesh(mesh));
}

/// A peg as it is seen from above.
pub fn peg(painter: &Painter, at: Pos2, size: f32, fill: Color32, palette: &Palette) {
    let line = 2.0 * palette.weight;
    let square = |side: f32| Rect::from_center_size(at, Vec2::splat(side));
    fill_rect(painter, square(size + line), palette.ink);
    fill_rect(painter, square(size - line), fill);
}

/// Fills a rectangle whose sides lie on whole pixels: two triangles, where one with soft sides takes ten.
pub fn fill_rect(painter: &Painter, rect: Rect, colour: Color32) {
    let mut mesh = Mesh::default();
    mesh.add_colored_rect(
        rect.round_to_pixels(painter.ctx().pixels_per_point()),
        colour,
    );
    painter.add(Shape::mesh(mesh));
}

/// The drawn pieces of a run cut by a pattern of dash, gap, dash, gap … in screen points, each piece along all its corners.
fn dashes(run: &Run, parts: &[f32]) -> Vec<Vec<Pos2>> {
    let period: f32 = parts.iter().sum();
    if !(period.is_finite() && 0.0 < period) {
        return vec![run.points.clone()];
    }
    // Where in the pattern the run begins: the part it is in, and how much of that part is left.
    let (mut part, mut left) = (0, begun(run.from, period));
    while parts[part] <= left {
        left -= parts[part];
        part = (part + 1) % parts.len();
    }
    left = parts[part] - left;

    let mut all: Vec<Vec<Pos2>> = Vec::new();
    let mut piece: Vec<Pos2> = run.points.first().copied().into_iter().collect();
    for pair in run.points.windows(2) {
        let (mut at, end) = (pair[0], pair[1]);
        loop {
            let way: Vec2 = end - at;
            let length = way.length();
            if length <= left {
                left -= length;
                piece.push(end);
                break;
            }
            at += way * (left / length);
            piece.push(at);
            let drawn = std::mem::replace(&mut piece, vec![at]);
            if part % 2 == 0 {
                all.push(drawn);
            }
            part = (part + 1) % parts.len();
            left = parts[part];
        }
    }
    if part % 2 == 0 && 1 < piece.len() {
        all.push(piece);
    }
    all
}

/// How far into a pattern a run begins that lies `from` screen points along its line.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a rest of less than one period of a pattern; no place is computed from it"
)]
fn begun(from: f64, period: f32) -> f32 {
    let rest = from.rem_euclid(f64::from(period)) as f32;
    if rest.is_finite() && rest < period {
        rest
    } else {
        0.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn run(from: f64, xs: &[f32]) -> Run {
        Run {
            points: xs.iter().map(|&x| Pos2::new(x, 0.0)).collect(),
            from,
        }
    }

    #[track_caller]
    fn check(from: f64, xs: &[f32], parts: &[f32], expected: &[(f32, f32)]) {
        let ends: Vec<_> = dashes(&run(from, xs), parts)
            .iter()
            .map(|dash| (dash[0].x, dash[dash.len() - 1].x))
            .collect();
        assert_eq!(ends, expected);
    }

    #[test]
    fn dashes_follow_the_pattern() {
        check(0.0, &[0.0, 10.0], &[4.0, 2.0], &[(0.0, 4.0), (6.0, 10.0)]);
        check(
            0.0,
            &[0.0, 3.0, 10.0],
            &[4.0, 2.0],
            &[(0.0, 4.0), (6.0, 10.0)],
        );
        check(5.0, &[0.0, 10.0], &[4.0, 2.0], &[(1.0, 5.0), (7.0, 10.0)]);
        check(
            3.0,
            &[0.0, 10.0],
            &[4.0, 2.0],
            &[(0.0, 1.0), (3.0, 7.0), (9.0, 10.0)],
        );
        check(
            0.0,
            &[0.0, 20.0],
            &[8.0, 1.0, 1.0, 1.0],
            &[(0.0, 8.0), (9.0, 10.0), (11.0, 19.0)],
        );
    }

    #[test]
    fn a_moved_window_moves_no_dash() {
        // The same line, seen from 0 and from 1 000 000 m along: a dash begins at each multiple of the period.
        let seen = dashes(&run(6.0e6, &[0.0, 12.0]), &[4.0, 2.0]);
        assert_eq!(seen, dashes(&run(0.0, &[0.0, 12.0]), &[4.0, 2.0]));
    }

    #[test]
    fn nonsense_ends() {
        for from in [f64::NAN, f64::INFINITY, -1.0] {
            assert!(!dashes(&run(from, &[0.0, 10.0]), &[4.0, 2.0]).is_empty());
        }
        assert!(dashes(&run(0.0, &[]), &[4.0, 2.0]).is_empty());
        assert_eq!(dashes(&run(0.0, &[0.0, 10.0]), &[]).len(), 1);
    }

    #[test]
    fn a_dash_goes_round_a_corner_in_one_piece() {
        let points = [(0.0, 0.0), (3.0, 0.0), (3.0, 3.0)].map(|(x, y)| Pos2::new(x, y));
        let bent = Run {
            points: points.to_vec(),
            from: 0.0,
        };
        assert_eq!(dashes(&bent, &[6.0, 2.0]), vec![points.to_vec()]);
    }
}
