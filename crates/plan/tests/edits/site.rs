//! Edits of the site: the hand changes one thing, and the paths that are held to it keep their way.

use std::f64::consts::FRAC_PI_2;

use geometry::{Point, Vector};
use plan::document::{
    Corner, Extent, Heading, Mark, Obstacle, ObstacleKind, Reference, RootRule, Side, Swing,
};
use plan::edit::{Edit, SiteEdit};
use plan::{History, Plan};

use super::common::{path, plan};

fn at(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

fn places(all: &[(f64, f64)]) -> Vec<Point> {
    all.iter().map(|(x, y)| at(*x, *y)).collect()
}

const HOUSE: usize = 0;
const WALL: usize = 1;
const POND: usize = 2;

/// A house with five sides, a wall, a round pond, two marks; a path along side 3 of the house.
fn start() -> Plan {
    let straight = vec![plan::document::Shape::Straight];
    let mut plan = plan(&[(0.0, -5.0), (4.0, -5.0)], straight);
    let house = [(0., 0.), (6., 0.), (6., 3.), (4., 5.), (0., 5.)];
    let things = [
        (
            "house",
            ObstacleKind::Building,
            Extent::Area(places(&house)),
        ),
        (
            "wall",
            ObstacleKind::Wall,
            Extent::Line(places(&[(10., 0.), (14., 0.), (14., 4.)])),
        ),
        (
            "pond",
            ObstacleKind::Pond,
            Extent::Round {
                centre: at(20., 0.),
                radius: 1.0,
            },
        ),
    ];
    for (name, kind, extent) in things {
        let obstacle = Obstacle::new(name, kind, extent);
        plan.site_mut().obstacles.push(obstacle);
    }
    for (name, x) in [("nail", 0.0), ("post", 3.0)] {
        let name = name.into();
        plan.site_mut().marks.push(Mark {
            name,
            at: at(x, -1.0),
        });
    }
    let house = Reference::Wall {
        name: "house".into(),
        side: 3,
    };
    plan.schemes[0].routes[0].start_direction = Some(Heading::Along(house));
    let marks = Reference::Marks("nail".into(), "post".into());
    plan.schemes[0].routes[0].end_direction = Some(Heading::Square(marks));
    plan
}

fn with(plan: &Plan, edit: SiteEdit) -> Plan {
    let edit = Edit::Site(edit);
    match plan.with(&edit) {
        Ok(edited) => edited.plan,
        Err(why) => panic!("{edit:?}: {why}"),
    }
}

/// The ways in which the path leaves and arrives, as angles.
#[track_caller]
fn ways(plan: &Plan) -> [f64; 2] {
    let route = path(plan);
    [&route.start_direction, &route.end_direction].map(|heading| {
        let way = heading.as_ref().and_then(|h| h.direction(&plan.site));
        way.map_or_else(|| panic!("{heading:?} is lost"), geometry::Direction::angle)
    })
}

#[track_caller]
fn keeps_ways(before: &Plan, after: &Plan) {
    for (was, is) in ways(before).into_iter().zip(ways(after)) {
        assert!((was - is).abs() < 1e-12, "{was} became {is}");
    }
}

fn corners(plan: &Plan, obstacle: usize) -> Vec<(f64, f64)> {
    let corners = plan.site.obstacles[obstacle].extent.corners();
    corners.iter().map(|p| (p.x, p.y)).collect()
}

fn every_edit() -> Vec<SiteEdit> {
    let bed = Obstacle::new(
        "bed",
        ObstacleKind::Bed,
        Extent::Area(places(&[(0., 9.), (4., 9.), (4., 11.)])),
    );
    let mut renamed = start().site.obstacles[HOUSE].clone();
    renamed.name = "cottage".into();
    renamed.clearance = Some(0.9);
    renamed.still = true;
    let mark = |name: &str| Mark {
        name: name.into(),
        at: at(1.0, -2.0),
    };
    vec![
        SiteEdit::AddObstacle(Box::new(bed)),
        SiteEdit::SetObstacle {
            obstacle: HOUSE,
            to: Box::new(renamed),
        },
        SiteEdit::RemoveObstacle { obstacle: HOUSE },
        SiteEdit::MoveObstacle {
            obstacle: POND,
            by: Vector::new(1.0, -2.0),
        },
        SiteEdit::MoveCorner {
            obstacle: WALL,
            corner: 1,
            to: at(15.0, 1.0),
        },
        SiteEdit::BendSide {
            obstacle: HOUSE,
            corner: 0,
            rise: -0.5,
        },
        SiteEdit::InsertCorner {
            obstacle: WALL,
            after: 0,
            at: at(12.0, 1.0),
        },
        SiteEdit::RemoveCorner {
            obstacle: HOUSE,
            corner: 0,
        },
        SiteEdit::AddMark(mark("tap")),
        SiteEdit::SetMark {
            mark: 0,
            to: mark("screw"),
        },
        SiteEdit::RemoveMark { mark: 1 },
        SiteEdit::SetRoots(RootRule::FootAnInch),
    ]
}

#[test]
fn undo_and_redo_give_the_very_same_plan() {
    for edit in every_edit() {
        let edit = Edit::Site(edit);
        let before = start();
        let mut history = History::new(before.clone());
        history.commit(&edit).unwrap();
        let after = (**history.settled()).clone();
        assert_ne!(after, before, "{edit:?} changes nothing");
        assert_eq!(history.undo_name(), Some(edit.name().as_str()));
        assert!(history.undo());
        assert_eq!(**history.settled(), before, "{edit:?}");
        assert!(history.redo());
        assert_eq!(**history.settled(), after, "{edit:?}");
    }
}

#[test]
fn nothing_but_the_site_and_what_refers_to_it_changes() {
    for edit in every_edit() {
        let before = start();
        let mut after = with(&before, edit.clone());
        after.site = before.site.clone();
        let (route, was) = (&mut after.schemes[0].routes[0], path(&before));
        route.start_direction.clone_from(&was.start_direction);
        route.end_direction.clone_from(&was.end_direction);
        assert_eq!(after, before, "{edit:?}");
    }
}

#[test]
fn a_path_keeps_its_way_whatever_becomes_of_the_name_or_another_corner() {
    let before = start();
    let mut renamed = before.site.obstacles[HOUSE].clone();
    renamed.name = "cottage".into();
    let rename = SiteEdit::SetObstacle {
        obstacle: HOUSE,
        to: Box::new(renamed),
    };
    let after = with(&before, rename);
    keeps_ways(&before, &after);
    assert!(
        matches!(&path(&after).start_direction, Some(Heading::Along(Reference::Wall { name, side: 3 })) if name == "cottage"),
        "it still follows the side: {:?}",
        path(&after).start_direction
    );
    // A corner before the side, a corner of the side, a corner after it.
    for (corner, follows) in [
        (0, Some(2)),
        (1, Some(2)),
        (2, None),
        (3, None),
        (4, Some(3)),
    ] {
        let after = with(
            &before,
            SiteEdit::RemoveCorner {
                obstacle: HOUSE,
                corner,
            },
        );
        keeps_ways(&before, &after);
        let side = match &path(&after).start_direction {
            Some(Heading::Along(Reference::Wall { side, .. })) => Some(*side),
            _ => None,
        };
        assert_eq!(side, follows, "corner {corner}");
    }
    for after in 0..5 {
        let (from, to) = before.site.obstacles[HOUSE].extent.side(after).unwrap();
        let insert = SiteEdit::InsertCorner {
            obstacle: HOUSE,
            after,
            at: from.middle(to),
        };
        keeps_ways(&before, &with(&before, insert));
    }
}

#[test]
fn a_path_keeps_its_way_when_the_side_it_follows_is_bent() {
    let before = start();
    for (corner, follows) in [(1, true), (2, false), (3, true)] {
        let obstacle = HOUSE;
        for rise in [-0.5, 0.5] {
            let bend = SiteEdit::BendSide {
                obstacle,
                corner,
                rise,
            };
            let after = with(&before, bend);
            keeps_ways(&before, &after);
            let heading = &path(&after).start_direction;
            assert_eq!(matches!(heading, Some(Heading::Along(_))), follows);
        }
    }
}

#[test]
fn a_path_keeps_its_way_when_what_it_is_held_to_goes_away() {
    let before = start();
    let after = with(&before, SiteEdit::RemoveObstacle { obstacle: HOUSE });
    keeps_ways(&before, &after);
    assert!(matches!(
        path(&after).start_direction,
        Some(Heading::Angle(_))
    ));
    for mark in 0..2 {
        let after = with(&before, SiteEdit::RemoveMark { mark });
        keeps_ways(&before, &after);
    }
    let renamed = SiteEdit::SetMark {
        mark: 1,
        to: Mark {
            name: "stake".into(),
            at: at(3.0, -1.0),
        },
    };
    keeps_ways(&before, &with(&before, renamed));
}

#[test]
fn a_side_that_is_held_to_turns_the_path_with_it() {
    let before = start();
    let moved = SiteEdit::MoveCorner {
        obstacle: HOUSE,
        corner: 2,
        to: at(6.0, 5.0),
    };
    let [way, _] = ways(&with(&before, moved));
    // From (6, 5) to (4, 5): due west.
    assert!((way.abs() - std::f64::consts::PI).abs() < 1e-12, "{way}");
}

#[test]
fn moving_changes_the_place_and_nothing_else() {
    let before = start();
    let by = Vector::new(1.5, -2.0);
    for obstacle in [HOUSE, WALL, POND] {
        let after = with(&before, SiteEdit::MoveObstacle { obstacle, by });
        let (was, is) = (&before.site.obstacles, &after.site.obstacles);
        let lengths = |o: &Obstacle| -> Vec<f64> { o.extent.sides().map(|s| s.length()).collect() };
        for (was, is) in lengths(&was[obstacle]).iter().zip(lengths(&is[obstacle])) {
            assert!((was - is).abs() < 1e-12);
        }
        for other in [HOUSE, WALL, POND] {
            assert_eq!(was[other] == is[other], other != obstacle);
        }
    }
}

#[test]
fn a_corner_moves_alone() {
    let to = at(15.0, 1.0);
    let after = with(
        &start(),
        SiteEdit::MoveCorner {
            obstacle: WALL,
            corner: 1,
            to,
        },
    );
    assert_eq!(corners(&after, WALL), [(10., 0.), (15., 1.), (14., 4.)]);
}

fn bent(rise: f64) -> Plan {
    with(
        &start(),
        SiteEdit::BendSide {
            obstacle: HOUSE,
            corner: 1,
            rise,
        },
    )
}

#[test]
fn a_side_is_bent_and_made_straight_again_and_its_corners_stay() {
    let before = start();
    let after = bent(-0.5);
    assert_eq!(corners(&after, HOUSE), corners(&before, HOUSE));
    let Extent::Curved(bent_corners) = &after.site.obstacles[HOUSE].extent else {
        panic!("it has a bent side")
    };
    let rises: Vec<f64> = bent_corners.iter().map(|c| c.rise).collect();
    assert_eq!(rises, [0.0, -0.5, 0.0, 0.0, 0.0]);
    // To the right of a side walked with the ground on the left: outward, more ground.
    let area = |plan: &Plan| plan.site.obstacles[HOUSE].extent.area().unwrap();
    assert!(area(&after) > area(&before));
    let straight = with(
        &after,
        SiteEdit::BendSide {
            obstacle: HOUSE,
            corner: 1,
            rise: 0.0,
        },
    );
    assert!((area(&straight) - area(&before)).abs() < 1e-12);
    keeps_ways(&before, &straight);
}

#[test]
fn a_corner_put_on_a_bent_side_leaves_its_circle() {
    for rise in [-0.5, 0.2, 1.5, -2.4] {
        let before = bent(rise);
        let side = |plan: &Plan, nth: usize| plan.site.obstacles[HOUSE].extent.sides().nth(nth);
        let whole = *side(&before, 1).unwrap().arc().unwrap();
        for share in [0.1, 0.5, 0.8] {
            let on = whole.point_at(share * whole.length());
            let insert = SiteEdit::InsertCorner {
                obstacle: HOUSE,
                after: 1,
                at: on,
            };
            let after = with(&before, insert);
            let mut length = 0.0;
            for nth in [1, 2] {
                let part = *side(&after, nth).unwrap().arc().unwrap();
                assert!(part.centre().distance(whole.centre()) < 1e-9, "{rise}");
                assert!((part.radius() - whole.radius()).abs() < 1e-9);
                assert_eq!(part.turns_left(), whole.turns_left());
                length += part.length();
            }
            assert!((length - whole.length()).abs() < 1e-9);
            assert_eq!(after.site.obstacles[HOUSE].extent.count(), 6);
        }
    }
}

#[test]
fn what_is_set_is_all_of_it() {
    let mut to = Obstacle::new(
        "side gate",
        ObstacleKind::Gate,
        Extent::Line(places(&[(0., 0.), (1., 0.)])),
    );
    to.swing = Some(Swing {
        to: Side::Right,
        angle: FRAC_PI_2,
    });
    to.clearance = Some(0.2);
    let set = SiteEdit::SetObstacle {
        obstacle: WALL,
        to: Box::new(to.clone()),
    };
    assert_eq!(with(&start(), set).site.obstacles[WALL], to);
}

#[track_caller]
fn check(edit: SiteEdit, expected: &str) {
    let edit = Edit::Site(edit);
    match start().with(&edit) {
        Ok(_) => panic!("{edit:?} is not refused"),
        Err(why) => assert_eq!(why.to_string(), expected, "{edit:?}"),
    }
}

#[test]
fn what_cannot_be_done_is_refused_in_words() {
    let gone = "that part of the plan is no longer there";
    let by = Vector::new(1.0, 0.0);
    let to = at(0.0, 0.0);
    let mark = |name: &str| Mark {
        name: name.into(),
        at: to,
    };
    check(SiteEdit::RemoveObstacle { obstacle: 3 }, gone);
    check(SiteEdit::MoveObstacle { obstacle: 9, by }, gone);
    check(SiteEdit::RemoveMark { mark: 2 }, gone);
    check(
        SiteEdit::SetMark {
            mark: 2,
            to: mark("tap"),
        },
        gone,
    );
    for (obstacle, corner) in [(HOUSE, 5), (WALL, 3), (POND, 0), (7, 0)] {
        check(
            SiteEdit::MoveCorner {
                obstacle,
                corner,
                to,
            },
            gone,
        );
        check(SiteEdit::RemoveCorner { obstacle, corner }, gone);
    }
    let lines = "only the sides of an area can be bent or parted: draw it as an area first";
    for obstacle in [WALL, POND] {
        let corner = 0;
        let rise = 0.3;
        check(
            SiteEdit::BendSide {
                obstacle,
                corner,
                rise,
            },
            lines,
        );
    }
    check(
        SiteEdit::AddMark(mark("nail")),
        "mark 3: two marks are called “nail”: give each its own name",
    );
    check(
        SiteEdit::MoveCorner {
            obstacle: HOUSE,
            corner: 0,
            to: at(f64::NAN, 0.0),
        },
        "obstacle 1 “house”: its first coordinate in metres must lie between -100000 and 100000, it is NaN",
    );
    let mut thick = start().site.obstacles[WALL].clone();
    thick.thickness = Some(-0.2);
    check(
        SiteEdit::SetObstacle {
            obstacle: WALL,
            to: Box::new(thick),
        },
        "obstacle 2 “wall”: its thickness in metres must lie between 0.0001 and 100, it is -0.2",
    );
    let mut gate = start().site.obstacles[WALL].clone();
    gate.kind = ObstacleKind::Gate;
    check(
        SiteEdit::SetObstacle {
            obstacle: WALL,
            to: Box::new(gate),
        },
        "obstacle 2 “wall”: a gate is a line of two corners: its hinge post and its latch post",
    );
}

#[test]
fn the_last_corners_stay() {
    let last = "a line needs two corners, and an area three: take the whole of it away instead";
    let mut plan = with(
        &start(),
        SiteEdit::RemoveCorner {
            obstacle: WALL,
            corner: 0,
        },
    );
    for _ in 0..2 {
        plan = with(
            &plan,
            SiteEdit::RemoveCorner {
                obstacle: HOUSE,
                corner: 0,
            },
        );
    }
    for obstacle in [WALL, HOUSE] {
        let edit = Edit::Site(SiteEdit::RemoveCorner {
            obstacle,
            corner: 0,
        });
        assert_eq!(plan.with(&edit).unwrap_err().to_string(), last);
    }
}

#[test]
fn a_corner_out_of_a_bent_outline_leaves_a_straight_side() {
    let plan = bent(-0.5);
    let after = with(
        &plan,
        SiteEdit::RemoveCorner {
            obstacle: HOUSE,
            corner: 2,
        },
    );
    let Extent::Curved(corners) = &after.site.obstacles[HOUSE].extent else {
        panic!("it has become a curved one")
    };
    let expected = Corner {
        at: at(6., 0.),
        rise: 0.0,
    };
    assert_eq!(corners[1], expected);
    assert_eq!(corners.len(), 4);
}
