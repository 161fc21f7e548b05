//! Every computed figure as plain data for scripts: metres and radians at full precision.
//!
//! The names are frozen: later versions add, and never change these.

use geometry::{Bend, Chain, Piece, Point};
use serde::Serialize;

use crate::document::{Plan, Route, VERSION};
use crate::solve::{Solved, SolvedRoute};

/// All figures of a plan.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Figures {
    /// Version of the plan file these belong to.
    pub version: u32,
    /// The options in order.
    pub schemes: Vec<SchemeFigures>,
    /// What to put right or know.
    pub findings: Vec<FindingFigures>,
}

/// All figures of one option.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SchemeFigures {
    /// Its letter.
    pub letter: String,
    /// Its name.
    pub name: String,
    /// Its paths in order.
    pub routes: Vec<RouteFigures>,
}

/// All figures of one path.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RouteFigures {
    /// Its name.
    pub name: String,
    /// Its width.
    pub width: f64,
    /// Whether it is closed.
    pub closed: bool,
    /// The centre line; null when no leg can be drawn.
    pub centre_line: Option<LineFigures>,
    /// The left edge; null when nothing of it is left.
    pub left_edge: Option<LineFigures>,
    /// The right edge.
    pub right_edge: Option<LineFigures>,
    /// The area between the edges.
    pub area: f64,
    /// Landings and passing places.
    pub pads: Vec<PadFigures>,
}

/// A landing or passing place.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PadFigures {
    /// Its name.
    pub name: String,
    /// The station of its middle.
    pub station: f64,
    /// Its outline, walked counter-clockwise.
    pub outline: LineFigures,
    /// The area of its outline.
    pub area: f64,
}

/// A centre line or an edge.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LineFigures {
    /// Its length.
    pub length: f64,
    /// Its pieces in walking order.
    pub pieces: Vec<PieceFigures>,
}

/// One straight or bend.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PieceFigures {
    /// `straight` or `bend`.
    pub kind: &'static str,
    /// Where it starts: `[x, y]`.
    pub start: [f64; 2],
    /// Where it ends.
    pub end: [f64; 2],
    /// Its length.
    pub length: f64,
    /// For a bend, its figures.
    #[serde(flatten)]
    pub bend: Option<PlacedBend>,
}

/// The figures of a bend in its place.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PlacedBend {
    /// Its size.
    #[serde(flatten)]
    pub size: BendFigures,
    /// Its centre.
    pub swing_point: [f64; 2],
    /// `left` or `right`, as one turns in walking it.
    pub turns: &'static str,
}

/// The eight figures of a bend and the area between arc and chord.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct BendFigures {
    /// The straight distance between the end pegs.
    pub chord: f64,
    /// The greatest distance from chord to arc.
    pub rise: f64,
    /// The radius.
    pub radius: f64,
    /// The length along the arc.
    pub arc_length: f64,
    /// The angle turned through, in radians.
    pub sweep: f64,
    /// The distance from swing point to chord, negative past a half circle.
    pub apothem: f64,
    /// From an end peg to where the tangents meet; null from a half circle on.
    pub tangent_length: Option<f64>,
    /// From there to the apex; null from a half circle on.
    pub external_distance: Option<f64>,
    /// The area between arc and chord.
    pub segment_area: f64,
}

/// A finding.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FindingFigures {
    /// `stop`, `care` or `note`.
    pub severity: &'static str,
    /// What kind of thing it is.
    pub code: &'static str,
    /// Where it is, in words.
    pub place: String,
    /// What to put right or know.
    pub sentence: String,
    /// The figure.
    pub value: Option<f64>,
    /// The limit it is held against.
    pub limit: Option<f64>,
    /// Where the limit comes from.
    pub source: &'static str,
}

impl From<&Bend> for BendFigures {
    fn from(bend: &Bend) -> Self {
        Self {
            chord: bend.chord(),
            rise: bend.rise(),
            radius: bend.radius(),
            arc_length: bend.arc_length(),
            sweep: bend.sweep(),
            apothem: bend.apothem(),
            tangent_length: bend.tangent_length(),
            external_distance: bend.external_distance(),
            segment_area: bend.segment_area(),
        }
    }
}

/// The figures of a plan and what was solved from it.
#[must_use]
pub fn figures(plan: &Plan, solved: &Solved) -> Figures {
    let schemes = plan.schemes.iter().zip(&solved.schemes);
    Figures {
        version: VERSION,
        schemes: schemes
            .map(|(scheme, solved)| SchemeFigures {
                letter: solved.letter.clone(),
                name: solved.name.clone(),
                routes: scheme
                    .routes
                    .iter()
                    .zip(&solved.routes)
                    .map(|(route, solved)| route_figures(route, solved))
                    .collect(),
            })
            .collect(),
        findings: solved
            .findings
            .iter()
            .map(|finding| FindingFigures {
                severity: finding.severity.word(),
                code: finding.code.name(),
                place: finding.place.to_string(),
                sentence: finding.sentence.clone(),
                value: finding.value,
                limit: finding.limit,
                source: finding.source,
            })
            .collect(),
    }
}

fn route_figures(route: &Route, solved: &SolvedRoute) -> RouteFigures {
    RouteFigures {
        name: solved.name.clone(),
        width: solved.width,
        closed: route.closed,
        centre_line: solved.centre_line.as_ref().map(line_figures),
        left_edge: solved.left_edge.as_ref().map(line_figures),
        right_edge: solved.right_edge.as_ref().map(line_figures),
        area: solved.area,
        pads: route
            .pads
            .iter()
            .zip(&solved.pads)
            .map(|(pad, outline)| PadFigures {
                name: pad.name.clone(),
                station: pad.station,
                outline: line_figures(outline),
                area: outline.enclosed_area(),
            })
            .collect(),
    }
}

fn line_figures(chain: &Chain) -> LineFigures {
    LineFigures {
        length: chain.length(),
        pieces: chain.pieces().iter().map(piece_figures).collect(),
    }
}

fn piece_figures(piece: &Piece) -> PieceFigures {
    PieceFigures {
        kind: if piece.arc().is_some() {
            "bend"
        } else {
            "straight"
        },
        start: pair(piece.start()),
        end: pair(piece.end()),
        length: piece.length(),
        bend: piece.arc().map(|arc| PlacedBend {
            size: BendFigures::from(&arc.bend()),
            swing_point: pair(arc.centre()),
            turns: if arc.turns_left() { "left" } else { "right" },
        }),
    }
}

fn pair(point: Point) -> [f64; 2] {
    [point.x, point.y]
}
