//! What is measured of the paths of an option: ground, edges, stones, each spot once.

use geometry::Chain;

use super::super::build_up::{BuildUp, LayerWidth};
use super::super::ground::{self, Along, Part, Region};
use super::{EdgeQuantity, RouteQuantity};
use crate::document::Side;
use crate::solve::SolvedRoute;

/// What is measured of the paths of an option.
pub(super) struct Measured {
    pub(super) length: f64,
    pub(super) area: f64,
    pub(super) dug_area: f64,
    pub(super) curved_share: f64,
    left: EdgeQuantity,
    right: EdgeQuantity,
    pub(super) stones: Option<u64>,
    pub(super) paths: Vec<RouteQuantity>,
    pub(super) not_counted: Vec<usize>,
    /// How wide the ground of each path is opened, and how long: in the order of `paths`.
    pub(super) trenches: Vec<Trench>,
    /// The ground that each layer covers, in the order of the build-up.
    pub(super) layers: Vec<f64>,
}

/// The ground opened for one path, landings apart.
pub(super) struct Trench {
    pub(super) length: f64,
    /// The width of the path itself.
    pub(super) path: f64,
    /// The width that is opened.
    pub(super) width: f64,
    pub(super) closed: bool,
}

impl Measured {
    pub(super) fn of(build_up: &BuildUp, routes: &[SolvedRoute]) -> Self {
        let stone = build_up.cover.stone();
        let dug = build_up.dug_beyond();
        let (counted, not_counted): (Vec<_>, Vec<_>) = routes
            .iter()
            .enumerate()
            .partition(|(_, route)| Region::strip(route, [0.0, 0.0]).is_some());
        let grounds = Grounds::of(&counted, [0.0, 0.0]);
        let border = ground::border(&grounds.regions);
        let trench = |route: &SolvedRoute| Trench {
            length: route.centre_line.as_ref().map_or(0.0, Chain::length),
            path: route.width,
            width: route.width + dug[0] + dug[1],
            closed: route.centre_line.as_ref().is_some_and(Chain::is_closed),
        };
        let trenches: Vec<Trench> = counted.iter().map(|(_, route)| trench(route)).collect();
        let share = |beyond: [f64; 2]| -> Vec<f64> {
            match stone {
                Some([spacing, along, across]) => trenches
                    .iter()
                    .map(|trench| {
                        let count = stones(trench, spacing) as f64;
                        count * along * (across + beyond[0] + beyond[1])
                    })
                    .collect(),
                None => Grounds::of(&counted, beyond).shares(&counted, beyond),
            }
        };
        let (path_shares, dug_shares) = (share([0.0, 0.0]), share(dug));
        let sum = |shares: &[f64]| shares.iter().sum::<f64>();
        let layers = build_up
            .layers
            .iter()
            .map(|layer| match layer.width {
                LayerWidth::Path => sum(&path_shares),
                LayerWidth::Dig => sum(&dug_shares),
                LayerWidth::BeyondEdging => sum(&share(build_up.beyond(layer))),
            })
            .collect();
        let paths: Vec<RouteQuantity> = counted
            .iter()
            .enumerate()
            .map(|(nth, (index, route))| {
                let own = |side| {
                    let parts = border
                        .iter()
                        .filter(|part| grounds.path[part.region] == nth);
                    edge(parts, side).length
                };
                RouteQuantity {
                    name: route.name.clone(),
                    path: index + 1,
                    length: trenches[nth].length,
                    area: path_shares[nth],
                    dug_area: dug_shares[nth],
                    left: own(Side::Left),
                    right: own(Side::Right),
                }
            })
            .collect();
        let (left, right) = (
            edge(border.iter(), Side::Left),
            edge(border.iter(), Side::Right),
        );
        let both = EdgeQuantity {
            length: left.length + right.length,
            curved: left.curved + right.curved,
            ..EdgeQuantity::default()
        };
        Self {
            length: trenches.iter().map(|trench| trench.length).sum(),
            area: sum(&path_shares),
            dug_area: sum(&dug_shares),
            curved_share: both.curved_share(),
            left,
            right,
            stones: stone
                .map(|[spacing, ..]| trenches.iter().map(|trench| stones(trench, spacing)).sum()),
            paths,
            not_counted: not_counted.iter().map(|(index, _)| index + 1).collect(),
            trenches,
            layers,
        }
    }

    pub(super) fn edge(&self, side: Side) -> EdgeQuantity {
        match side {
            Side::Left => self.left,
            Side::Right => self.right,
        }
    }
}

/// The ground of all paths and their landings.
struct Grounds {
    regions: Vec<Region>,
    /// Which of the counted paths each region is of.
    path: Vec<usize>,
}

impl Grounds {
    fn of(routes: &[(usize, &SolvedRoute)], beyond: [f64; 2]) -> Self {
        let (mut regions, mut path) = (Vec::new(), Vec::new());
        for (nth, (_, route)) in routes.iter().enumerate() {
            let strip = Region::strip(route, beyond);
            let landings = route
                .pads
                .iter()
                .filter_map(|pad| Region::landing(route, pad, beyond));
            for region in strip.into_iter().chain(landings) {
                regions.push(region);
                path.push(nth);
            }
        }
        Self { regions, path }
    }

    /// What each path takes up that no path before it does. Where a bend is so tight that the wider
    /// strip has no inner edge left, its edges' lengths times what is beyond stand for the rest.
    fn shares(&self, routes: &[(usize, &SolvedRoute)], beyond: [f64; 2]) -> Vec<f64> {
        let touching = |nth: usize| {
            let own = |region: &usize| self.path[*region] == nth;
            let all = 0..self.regions.len();
            let owned: Vec<usize> = all.clone().filter(own).collect();
            let meets = |other: &usize| {
                owned
                    .iter()
                    .any(|region| self.regions[*region].is_near(&self.regions[*other]))
            };
            let earlier = all.filter(|region| self.path[*region] < nth).filter(meets);
            (earlier.collect::<Vec<usize>>(), owned)
        };
        let taken = |regions: &[usize]| {
            let regions: Vec<Region> = regions.iter().map(|i| self.regions[*i].clone()).collect();
            ground::area(&ground::border(&regions))
        };
        (0..routes.len())
            .map(|nth| {
                let (earlier, owned) = touching(nth);
                let together: Vec<usize> = earlier.iter().chain(&owned).copied().collect();
                let own = taken(&together) - taken(&earlier);
                let (_, route) = routes[nth];
                if Region::strip(route, beyond).is_some() {
                    return own.max(0.0);
                }
                let edge = |side| route.edge(side).map_or(0.0, Chain::length);
                own + route.area + beyond[0] * edge(Side::Left) + beyond[1] * edge(Side::Right)
            })
            .collect()
    }
}

fn edge<'a>(border: impl Iterator<Item = &'a Part>, side: Side) -> EdgeQuantity {
    let mut sum = EdgeQuantity::default();
    for part in border {
        // What goes across is held half from the left and half from the right.
        let length = match part.along {
            Along::Edge(on) if on == side => part.piece.length(),
            Along::Across => 0.5 * part.piece.length(),
            Along::Edge(_) | Along::End => continue,
        };
        sum.length += length;
        if part.piece.arc().is_some() {
            sum.curved += length;
        }
    }
    sum
}

/// How many stones stand along a path: the first half a spacing from its start, as many as are
/// nearest to their spacing.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "whole and not negative; the cast stops at the ends of the range"
)]
fn stones(trench: &Trench, spacing: f64) -> u64 {
    (trench.length / spacing).round().max(1.0) as u64
}
