//! The ground that a vehicle sweeps as it goes along the chosen path.

use egui::Painter;
use geometry::Point;

use super::Scene;
use crate::window::pen::Pen;
use crate::window::pick::Stage;
use crate::window::view::{Curve, View};

/// Draws its two borders.
pub(super) fn draw(painter: &Painter, view: &View, scene: &Scene<'_>) {
    let (Some(vehicle), Stage::Draw) = (scene.sweep, scene.stage) else {
        return;
    };
    let chain = scene.route().and_then(|route| route.centre_line.as_ref());
    let (Some(chain), Some(strip)) = (chain, scene.derived.swept(vehicle)) else {
        return;
    };
    let mut borders = [const { Vec::<Point>::new() }; 2];
    for reach in strip.iter() {
        let at = chain.point_at(reach.station);
        let left = chain.direction_at(reach.station).left().unit();
        borders[0].push(at + left * reach.left);
        borders[1].push(at - left * reach.right);
    }
    for border in borders {
        let line: Vec<Curve> = border
            .windows(2)
            .map(|ends| Curve {
                start: ends[0],
                end: ends[1],
                rise: 0.0,
            })
            .collect();
        Pen::Swept.draw_in(
            painter,
            &view.trace(&line),
            scene.palette,
            scene.palette.ink,
        );
    }
}
