//! What undo calls each edit.

use geometry::{Bend, Direction, Figure, Point, Vector};
use plan::document::{Heading, Pad, PadShape, Route, Shape, Side};
use plan::edit::{Edit, End};
use plan::units::{Graduation, Units};

use super::common::{drag, leg, peg, typed};

#[test]
fn each_edit_has_its_name() {
    let (scheme, route) = (0, 1);
    let (here, by) = (Point::ORIGIN, Vector::ZERO);
    let laid = |name: &str| Edit::AddRoute {
        scheme,
        route: Box::new(Route {
            name: name.into(),
            ..Route::default()
        }),
    };
    let pad = Pad {
        name: String::new(),
        station: 1.0,
        shape: PadShape::Circle { diameter: 2.0 },
    };
    let set_pad = |to| Edit::SetPad {
        scheme,
        route,
        pad: 0,
        to,
    };
    let heading = |end| Edit::SetHeading {
        scheme,
        route,
        end,
        heading: Some(Heading::Angle(0.0)),
    };
    let bend = Bend::from_chord_and_rise(4.0, 1.0).unwrap();
    let name = String::from("x");
    let lock = |locked| Edit::LockScheme { scheme, locked };
    for (edit, expected) in [
        (drag(0, (1., 1.)), "move waypoint 1"),
        (
            Edit::SetRise {
                id: leg(1),
                rise: 1.0,
            },
            "move the apex of leg 2",
        ),
        (
            typed(0, Figure::TangentLength, 1.0),
            "set the tangent length of leg 1",
        ),
        (
            Edit::ChooseBend { id: leg(0), bend },
            "take the other bend for leg 1",
        ),
        (Edit::LetGo { id: leg(4) }, "let go of leg 5"),
        (
            Edit::SetShape {
                id: leg(2),
                shape: Shape::TwoBends,
            },
            "reshape leg 3",
        ),
        (
            Edit::SetRounding {
                id: peg(2),
                radius: None,
            },
            "round corner 3",
        ),
        (laid("Gate to shed"), "lay “Gate to shed”"),
        (laid("  "), "lay a path"),
        (Edit::RemoveRoute { scheme, route }, "take path 2 away"),
        (
            Edit::RenameRoute {
                scheme,
                route,
                name: name.clone(),
            },
            "rename path 2",
        ),
        (
            Edit::LeadOn {
                scheme,
                route,
                end: End::End,
                at: here,
                shape: Shape::Straight,
            },
            "lead the path on",
        ),
        (
            Edit::InsertWaypoint {
                id: leg(0),
                near: here,
            },
            "put a peg on leg 1",
        ),
        (Edit::RemoveWaypoint { id: peg(3) }, "take waypoint 4 out"),
        (Edit::TurnRound { scheme, route }, "turn the path round"),
        (Edit::Close { scheme, route }, "close the path"),
        (Edit::Split { id: peg(1) }, "part the path at waypoint 2"),
        (
            Edit::Join {
                scheme,
                first: 0,
                second: 1,
            },
            "join two paths",
        ),
        (
            Edit::Branch {
                scheme,
                host: 0,
                side: Side::Left,
                near: here,
                to: here,
            },
            "begin a path at an edge",
        ),
        (heading(End::Start), "set the start direction"),
        (heading(End::End), "set the end direction"),
        (
            Edit::MoveTogether {
                scheme,
                waypoints: vec![(0, 0), (0, 1), (1, 0)],
                by,
            },
            "move 3 pegs",
        ),
        (
            Edit::Mirror {
                scheme,
                route,
                through: here,
                along: Direction::EAST,
            },
            "mirror the path",
        ),
        (
            Edit::CopyRoute {
                scheme,
                route,
                to: 0,
                by,
            },
            "copy the path",
        ),
        (
            Edit::MirrorPegs {
                scheme,
                route,
                waypoints: vec![1, 2, 4],
            },
            "mirror 3 pegs",
        ),
        (
            Edit::CopyPegs {
                scheme,
                route,
                waypoints: vec![3, 1],
                by,
            },
            "copy 2 pegs",
        ),
        (set_pad(Some(pad)), "lay a landing"),
        (set_pad(None), "take a landing away"),
        (Edit::AddScheme { copy_of: None }, "add an option"),
        (Edit::AddScheme { copy_of: Some(1) }, "copy option B"),
        (Edit::RemoveScheme { scheme }, "take an option away"),
        (Edit::MoveScheme { scheme: 2, to: 0 }, "move option C"),
        (lock(true), "lock option A"),
        (lock(false), "unlock option A"),
        (
            Edit::SetSchemeNotes {
                scheme,
                notes: "x".into(),
            },
            "write notes of option A",
        ),
        (Edit::RenameScheme { scheme, name }, "rename the option"),
        (
            Edit::SetWidth {
                scheme,
                route,
                width: 1.0,
            },
            "set the width",
        ),
        (
            Edit::SetUnits {
                units: Units::Metric,
                graduation: Graduation::Millimetre,
            },
            "change the units",
        ),
        (Edit::SetTitle("x".into()), "rename the plan"),
    ] {
        assert_eq!(edit.name(), expected);
    }
}
