//! Anything done to a yard with everything in it: never a panic, always drawn, saved and undone.

use geometry::{Direction, Figure, Point, Vector};
use plan::document::{Heading, Junction, Pad, PadShape, Reference, Route, Shape, Side};
use plan::edit::{Edit, End, LegId, WaypointId};
use plan::units::{Graduation, Units};
use plan::{History, Plan, example, figures, file, limits};
use proptest::prelude::*;

use super::common::{plan_of, route};
use super::kinds::every_kind;

/// The example or a path of any kind, a path from its edge, one from that one, landings.
pub(super) fn yards() -> Vec<Plan> {
    let mut plans: Vec<Plan> = every_kind().into_iter().map(|(_, plan)| plan).collect();
    plans.extend(example::plan());
    plans.push(Plan::empty(Units::FeetInches));
    plans.push(plan_of(route(&[(1., 1.), (1., 1.)], vec![Shape::TwoBends])));
    for plan in &mut plans {
        if plan.schemes[0].routes.is_empty() {
            continue;
        }
        for host in [0, plan.schemes[0].routes.len()] {
            let near = Point::new(6.0, 2.0);
            let branch = Edit::Branch {
                scheme: 0,
                host,
                side: Side::Left,
                near,
                to: near + Vector::new(-3.0, 7.0),
            };
            if let Ok(edited) = plan.with(&branch) {
                *plan = edited.plan;
            }
        }
        let pad = |station, shape| Pad {
            name: "landing".into(),
            station,
            shape,
        };
        plan.schemes[0].routes[0].pads = vec![
            pad(2.0, PadShape::Circle { diameter: 2.0 }),
            pad(
                11.0,
                PadShape::Rectangle {
                    along: 3.0,
                    across: 2.0,
                },
            ),
        ];
    }
    plans
}

fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        8 => -20.0..20.0_f64,
        1 => -2e5..2e5_f64,
        1 => prop::sample::select(vec![
            0.0, -0.0, 1e-9, 1e-4, 1e5, -1e5, 1e300, -1e300, f64::MAX,
            f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MIN_POSITIVE,
        ]),
    ]
}

fn place() -> impl Strategy<Value = Point> {
    prop_oneof![
        8 => (-20.0..20.0_f64, -20.0..20.0_f64).prop_map(|(x, y)| Point::new(x, y)),
        1 => (number(), number()).prop_map(|(x, y)| Point::new(x, y)),
    ]
}

fn way() -> impl Strategy<Value = Vector> {
    place().prop_map(|to| to - Point::ORIGIN)
}

/// An index that is mostly there.
fn index(most: usize) -> impl Strategy<Value = usize> {
    prop_oneof![20 => 0..most, 1 => Just(usize::MAX), 1 => 0..40_usize]
}

fn text() -> impl Strategy<Value = String> {
    prop_oneof![
        4 => ".{0,12}",
        1 => prop::sample::select(vec![
            "", "\u{0}", "“”\\\"\n", "🪨\u{301}\u{202e}", "nan", "r#\"\"#",
        ]).prop_map(String::from),
        1 => Just("x".repeat(250)),
    ]
}

fn shape() -> impl Strategy<Value = Shape> {
    let figure = prop::sample::select(Figure::ALL.to_vec());
    prop_oneof![
        Just(Shape::Straight),
        Just(Shape::Onward),
        Just(Shape::TwoBends),
        (number(), prop::collection::vec(figure, 0..=2))
            .prop_map(|(rise, holds)| Shape::Bend { rise, holds }),
    ]
}

fn heading() -> impl Strategy<Value = Heading> {
    let reference = prop_oneof![
        (text(), index(5)).prop_map(|(name, side)| Reference::Wall { name, side }),
        index(5).prop_map(|side| Reference::Wall {
            name: "potting shed".into(),
            side,
        }),
        Just(Reference::Marks(
            "west gate post".into(),
            "east gate post".into()
        )),
    ];
    (reference, number(), 0..5_u8).prop_map(|(reference, angle, kind)| match kind {
        0 => Heading::Along(reference),
        1 => Heading::Against(reference),
        2 => Heading::Square(reference),
        3 => Heading::SquareRight(reference),
        _ => Heading::Angle(angle),
    })
}

fn side() -> impl Strategy<Value = Side> {
    prop::sample::select(vec![Side::Left, Side::Right])
}

fn pad() -> impl Strategy<Value = Pad> {
    let shape = prop_oneof![
        (number(), number()).prop_map(|(along, across)| PadShape::Rectangle { along, across }),
        number().prop_map(|diameter| PadShape::Circle { diameter }),
    ];
    (text(), number(), shape).prop_map(|(name, station, shape)| Pad {
        name,
        station,
        shape,
    })
}

fn laid() -> impl Strategy<Value = Route> {
    let junction = (index(4), side(), number()).prop_map(|(route, side, station)| Junction {
        route,
        side,
        station,
    });
    let legs = prop::collection::vec((place(), shape()), 0..5);
    let start_on = prop::option::of(junction);
    let pads = prop::collection::vec(pad(), 0..2);
    let direction = prop::option::of(heading());
    (legs, any::<bool>(), start_on, pads, direction).prop_map(
        |(parts, closed, start_on, pads, end_direction)| {
            let count = parts.len() - usize::from(!closed && !parts.is_empty());
            let shapes = parts.iter().map(|(_, shape)| shape.clone());
            let points: Vec<(f64, f64)> = parts.iter().map(|(at, _)| (at.x, at.y)).collect();
            Route {
                closed,
                start_on,
                pads,
                end_direction,
                ..route(&points, shapes.take(count).collect())
            }
        },
    )
}

pub(super) fn edit() -> impl Strategy<Value = Edit> {
    let path = || (index(2), index(4));
    let peg = || {
        (path(), index(6)).prop_map(|((scheme, route), waypoint)| WaypointId {
            scheme,
            route,
            waypoint,
        })
    };
    let leg = || (path(), index(6)).prop_map(|((scheme, route), leg)| LegId { scheme, route, leg });
    let end = || prop::sample::select(vec![End::Start, End::End]);
    let figure = prop::sample::select(Figure::ALL.to_vec());
    let option = || index(2);
    let of_pegs_and_legs = prop_oneof![
        (peg(), place()).prop_map(|(id, to)| Edit::MoveWaypoint { id, to }),
        (leg(), number()).prop_map(|(id, rise)| Edit::SetRise { id, rise }),
        (leg(), figure, number()).prop_map(|(id, figure, value)| Edit::SetFigure {
            id,
            figure,
            value
        }),
        (leg(), 0.1..20.0_f64, 0.01..10.0_f64).prop_filter_map("no bend", |(id, chord, rise)| {
            let bend = geometry::Bend::from_chord_and_rise(chord, rise).ok()?;
            Some(Edit::ChooseBend { id, bend })
        }),
        leg().prop_map(|id| Edit::LetGo { id }),
        (leg(), shape()).prop_map(|(id, shape)| Edit::SetShape { id, shape }),
        (peg(), prop::option::of(number()))
            .prop_map(|(id, radius)| Edit::SetRounding { id, radius }),
        (leg(), place()).prop_map(|(id, near)| Edit::InsertWaypoint { id, near }),
        peg().prop_map(|id| Edit::RemoveWaypoint { id }),
        peg().prop_map(|id| Edit::Split { id }),
    ];
    let of_paths = prop_oneof![
        (option(), laid()).prop_map(|(scheme, route)| Edit::AddRoute {
            scheme,
            route: Box::new(route)
        }),
        path().prop_map(|(scheme, route)| Edit::RemoveRoute { scheme, route }),
        (path(), text()).prop_map(|((scheme, route), name)| Edit::RenameRoute {
            scheme,
            route,
            name
        }),
        (path(), end(), place(), shape()).prop_map(|((scheme, route), end, at, shape)| {
            Edit::LeadOn {
                scheme,
                route,
                end,
                at,
                shape,
            }
        }),
        path().prop_map(|(scheme, route)| Edit::TurnRound { scheme, route }),
        path().prop_map(|(scheme, route)| Edit::Close { scheme, route }),
        (path(), index(4)).prop_map(|((scheme, first), second)| Edit::Join {
            scheme,
            first,
            second
        }),
        (path(), side(), place(), place()).prop_map(|((scheme, host), side, near, to)| {
            Edit::Branch {
                scheme,
                host,
                side,
                near,
                to,
            }
        }),
        (path(), end(), prop::option::of(heading())).prop_map(|((scheme, route), end, heading)| {
            Edit::SetHeading {
                scheme,
                route,
                end,
                heading,
            }
        }),
        (
            option(),
            prop::collection::vec((0..3_usize, 0..5_usize), 0..6),
            way()
        )
            .prop_map(|(scheme, waypoints, by)| Edit::MoveTogether {
                scheme,
                waypoints,
                by
            }),
        (path(), place(), -4.0..4.0_f64).prop_map(|((scheme, route), through, angle)| {
            Edit::Mirror {
                scheme,
                route,
                through,
                along: Direction::EAST.turned(angle),
            }
        }),
        (path(), prop::collection::vec(0..7_usize, 0..6)).prop_map(
            |((scheme, route), waypoints)| {
                Edit::MirrorPegs {
                    scheme,
                    route,
                    waypoints,
                }
            }
        ),
        (path(), prop::collection::vec(0..7_usize, 0..6), way()).prop_map(
            |((scheme, route), waypoints, by)| Edit::CopyPegs {
                scheme,
                route,
                waypoints,
                by,
            }
        ),
        (path(), option(), way()).prop_map(|((scheme, route), to, by)| Edit::CopyRoute {
            scheme,
            route,
            to,
            by
        }),
        (path(), index(3), prop::option::of(pad())).prop_map(|((scheme, route), pad, to)| {
            Edit::SetPad {
                scheme,
                route,
                pad,
                to,
            }
        }),
        (path(), number()).prop_map(|((scheme, route), width)| Edit::SetWidth {
            scheme,
            route,
            width
        }),
    ];
    let of_plans = prop_oneof![
        prop::option::of(option()).prop_map(|copy_of| Edit::AddScheme { copy_of }),
        option().prop_map(|scheme| Edit::RemoveScheme { scheme }),
        (option(), text()).prop_map(|(scheme, name)| Edit::RenameScheme { scheme, name }),
        (option(), option()).prop_map(|(scheme, to)| Edit::MoveScheme { scheme, to }),
        (option(), any::<bool>()).prop_map(|(scheme, locked)| Edit::LockScheme { scheme, locked }),
        (option(), text()).prop_map(|(scheme, notes)| Edit::SetSchemeNotes { scheme, notes }),
        text().prop_map(Edit::SetTitle),
        prop::sample::select(Graduation::ALL.to_vec()).prop_map(|graduation| Edit::SetUnits {
            units: graduation.units(),
            graduation
        }),
    ];
    prop_oneof![5 => of_pegs_and_legs, 5 => of_paths, 1 => of_plans]
}

/// Every number in the figures is one: only what may be missing is missing.
fn look_through(plan: &Plan) -> Result<(), TestCaseError> {
    prop_assert_eq!(limits::check(plan), Ok(()));
    let solved = plan.solve();
    for (scheme, drawn) in plan.schemes.iter().zip(&solved.schemes) {
        prop_assert_eq!(scheme.routes.len(), drawn.routes.len());
        for (route, drawn) in scheme.routes.iter().zip(&drawn.routes) {
            let chains = [&drawn.centre_line, &drawn.left_edge, &drawn.right_edge];
            for chain in chains.into_iter().flatten().chain(&drawn.pads) {
                prop_assert!(chain.length().is_finite());
                prop_assert!(chain.pieces().iter().all(|piece| piece.start().is_finite()
                    && piece.end().is_finite()
                    && piece.length().is_finite()));
            }
            prop_assert!(drawn.area.is_finite());
            prop_assert_eq!(drawn.legs.len(), route.legs.len());
            if drawn.centre_line.is_some() {
                prop_assert_eq!(drawn.pads.len(), route.pads.len());
            }
            let numbers = drawn.pegs_of_waypoints(route.waypoints.len());
            let pegs = drawn.pegs();
            for (waypoint, number) in route.waypoints.iter().zip(numbers) {
                if let Some(number) = number {
                    let off = pegs[number - 1].at.distance(waypoint.at);
                    prop_assert!(off < 1e-3, "peg {number} is {off} m off its waypoint");
                }
            }
        }
    }
    for finding in &solved.findings {
        prop_assert!(finding.place.at.is_finite(), "{finding:?}");
        prop_assert!(finding.value.is_none_or(f64::is_finite), "{finding:?}");
        prop_assert!(!finding.sentence.is_empty() && !finding.sentence.contains("NaN"));
    }
    prop_assert!(serde_json::to_string(&figures::figures(plan, &solved)).is_ok());
    let written = file::write(plan);
    let read = file::read(written.as_bytes());
    prop_assert_eq!(read.as_ref(), Ok(plan));
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn anything_can_be_done_drawn_saved_and_undone(
        plan in prop::sample::select(yards()),
        edits in prop::collection::vec(edit(), 1..14),
    ) {
        let mut history = History::new(plan.clone());
        look_through(&plan)?;
        for edit in &edits {
            let before = Plan::clone(history.plan());
            match history.commit(edit) {
                Ok(_) => look_through(history.plan())?,
                Err(why) => {
                    prop_assert_eq!(&**history.plan(), &before);
                    prop_assert!(!why.to_string().is_empty());
                }
            }
        }
        let last = Plan::clone(history.plan());
        while history.undo() {}
        prop_assert_eq!(&**history.plan(), &plan);
        while history.redo() {}
        prop_assert_eq!(&**history.plan(), &last);
    }
}
