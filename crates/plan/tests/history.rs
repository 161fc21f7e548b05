//! Undo and redo give back the very same plan, and nothing anyone does breaks one.

mod common;

use std::sync::Arc;

use common::{drag, leg, peg, plan, plan_of, route, typed, waypoint};
use geometry::{Direction, Figure, Point};
use plan::document::{Heading, Pad, PadShape, Route, Shape, Side};
use plan::edit::{Edit, End, LegId, WaypointId};
use plan::price::{PriceLine, PriceList, Sold, Unit};
use plan::units::{Graduation, Units};
use plan::{History, Plan, count, example, figures, limits};
use proptest::prelude::*;
use rust_decimal::Decimal;

fn start() -> History {
    History::new(plan(
        &[(0., 0.), (4., 0.), (7., 2.)],
        vec![Shape::bend(0.7), Shape::Straight],
    ))
}

#[test]
fn undo_and_redo_give_the_very_same_plan() {
    let mut history = start();
    let first = Arc::clone(history.plan());
    history.commit(&drag(1, (4.0, 1.0))).unwrap();
    let second = Arc::clone(history.plan());
    history.commit(&typed(0, Figure::Radius, 6.0)).unwrap();
    let third = Arc::clone(history.plan());
    assert_eq!(history.undo_name(), Some("set the radius of leg 1"));
    assert!(history.undo());
    assert!(Arc::ptr_eq(history.plan(), &second));
    assert_eq!(history.undo_name(), Some("move waypoint 2"));
    assert_eq!(history.redo_name(), Some("set the radius of leg 1"));
    assert!(history.undo() && !history.undo());
    assert!(Arc::ptr_eq(history.plan(), &first));
    assert!(history.redo() && history.redo() && !history.redo());
    assert!(Arc::ptr_eq(history.plan(), &third));
}

#[test]
fn a_new_edit_after_undo_forgets_what_was_undone() {
    let mut history = start();
    history.commit(&drag(1, (4.0, 1.0))).unwrap();
    history.undo();
    history.commit(&drag(1, (4.0, 2.0))).unwrap();
    assert!(!history.redo());
    assert_eq!(history.redo_name(), None);
}

#[test]
fn a_drag_previews_from_where_it_was_pressed_and_is_one_step() {
    let mut history = start();
    let pressed = Arc::clone(history.settled());
    for i in 0..100 {
        history
            .preview(&drag(1, (4.0, 0.01 * f64::from(i))))
            .unwrap();
        assert!(Arc::ptr_eq(history.settled(), &pressed));
    }
    assert!(!Arc::ptr_eq(history.plan(), &pressed));
    history.commit(&drag(1, (4.0, 1.0))).unwrap();
    // A hundred previews later it is what one drag gives.
    assert_eq!(
        **history.plan(),
        pressed.with(&drag(1, (4.0, 1.0))).unwrap().plan
    );
    assert!(history.undo());
    assert!(Arc::ptr_eq(history.plan(), &pressed) && history.undo_name().is_none());
}

#[test]
fn a_cancelled_drag_costs_nothing() {
    let mut history = start();
    history.commit(&drag(1, (4.0, 1.0))).unwrap();
    history.undo();
    let before = Arc::clone(history.plan());
    history.preview(&drag(1, (4.0, 3.0))).unwrap();
    history.cancel();
    assert!(Arc::ptr_eq(history.plan(), &before));
    assert_eq!(history.undo_name(), None);
    assert_eq!(
        history.redo_name(),
        Some("move waypoint 2"),
        "redo is still there"
    );
    assert!(!history.is_unsaved());
}

#[test]
fn a_refused_edit_is_no_step() {
    let mut history = start();
    let before = Arc::clone(history.plan());
    let wrong = typed(1, Figure::Rise, 1.0);
    history.preview(&drag(1, (4.0, 1.0))).unwrap();
    let shown = Arc::clone(history.plan());
    assert!(history.preview(&wrong).is_err());
    assert!(Arc::ptr_eq(history.plan(), &shown), "the picture stays");
    assert!(history.commit(&wrong).is_err());
    assert!(Arc::ptr_eq(history.plan(), &before));
    assert!(!history.undo());
}

#[test]
fn an_edit_that_changes_nothing_is_no_step() {
    for edit in [
        drag(1, (4.0, 0.0)),
        Edit::SetRise {
            id: leg(0),
            rise: 0.7,
        },
        Edit::SetShape {
            id: leg(1),
            shape: Shape::Straight,
        },
        Edit::SetWidth {
            scheme: 0,
            route: 0,
            width: 1.2,
        },
        Edit::LetGo { id: leg(0) },
        Edit::SetRounding {
            id: peg(1),
            radius: None,
        },
        Edit::SetTitle(String::new()),
        Edit::SetPrices(Arc::default()),
    ] {
        let mut history = start();
        history.commit(&edit).unwrap();
        assert_eq!(history.undo_name(), None, "{edit:?}");
    }
}

#[test]
fn unsaved_is_what_differs_from_the_file() {
    let mut history = start();
    assert!(!history.is_unsaved());
    history.commit(&drag(1, (4.0, 1.0))).unwrap();
    assert!(history.is_unsaved());
    let written = Arc::clone(history.settled());
    history.mark_saved(&written);
    assert!(!history.is_unsaved());
    history.undo();
    assert!(history.is_unsaved(), "the file holds the later plan");
    history.redo();
    assert!(!history.is_unsaved());
    // Back to the same plan by another way is the same plan.
    history.commit(&Edit::SetTitle("x".into())).unwrap();
    history.commit(&Edit::SetTitle(String::new())).unwrap();
    assert!(!history.is_unsaved());
    // What is only previewed is not unsaved.
    history.preview(&drag(1, (9.0, 9.0))).unwrap();
    assert!(!history.is_unsaved());
}

/// Numbers a hand can drag and a person can type, and some that no one should.
fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        6 => -20.0..20.0_f64,
        2 => -0.01..0.01_f64,
        1 => -2e5..2e5_f64,
        1 => prop::sample::select(vec![
            0.0, -0.0, 1e-9, 1e-4, 5e-5, 2.0, 1e5, -1e5, 1e300, -1e300,
            f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MIN_POSITIVE,
        ]),
    ]
}

fn figure() -> impl Strategy<Value = Figure> {
    prop::sample::select(Figure::ALL.to_vec())
}

fn shape() -> impl Strategy<Value = Shape> {
    prop_oneof![
        Just(Shape::Straight),
        Just(Shape::Onward),
        Just(Shape::TwoBends),
        (number(), prop::collection::vec(figure(), 0..=2))
            .prop_map(|(rise, holds)| Shape::Bend { rise, holds }),
    ]
}

/// Edits of the first path of the first option; a few of parts that are not there.
fn edit() -> impl Strategy<Value = Edit> {
    let part = || 0_usize..7;
    prop_oneof![
        4 => (part(), number(), number())
            .prop_map(|(i, x, y)| Edit::MoveWaypoint { id: peg(i), to: Point::new(x, y) }),
        2 => (part(), number()).prop_map(|(i, rise)| Edit::SetRise { id: leg(i), rise }),
        4 => (part(), figure(), number()).prop_map(|(i, figure, value)| typed(i, figure, value)),
        1 => part().prop_map(|i| Edit::LetGo { id: leg(i) }),
        2 => (part(), shape()).prop_map(|(i, shape)| Edit::SetShape { id: leg(i), shape }),
        2 => (part(), prop::option::of(number()))
            .prop_map(|(i, radius)| Edit::SetRounding { id: peg(i), radius }),
        1 => number().prop_map(|width| Edit::SetWidth { scheme: 0, route: 0, width }),
        1 => prop::sample::select(Graduation::ALL.to_vec())
            .prop_map(|graduation| Edit::SetUnits { units: graduation.units(), graduation }),
        1 => ".{0,8}".prop_map(Edit::SetTitle),
        1 => prices().prop_map(|prices| Edit::SetPrices(Arc::new(prices))),
        1 => prop::option::of(prop::sample::select(count::built_in().to_vec()))
            .prop_map(|up| Edit::SetBuildUp { scheme: 0, build_up: up.map(Arc::new) }),
        1 => (number(), number(), any::<bool>()).prop_map(|(distance, bulking, labour)| {
            let soil = count::Soil::Other { bulking, density: 1500.0 };
            Edit::SetCount(count::CountSettings {
                soil,
                distance,
                labour,
                ..count::CountSettings::default()
            })
        }),
        8 => whole_path(),
    ]
}

/// Price lists, some of which no one should type.
fn prices() -> impl Strategy<Value = PriceList> {
    let line = (".{0,4}", ".{0,4}", -9_i64..99_999, 0_u32..6).prop_map(
        |(key, supplier, figure, scale)| PriceLine {
            key,
            name: String::new(),
            supplier,
            sold: Sold::Per(Unit::Tonne),
            price: Decimal::new(figure, scale),
            least_order: None,
            delivery: Decimal::ZERO,
            tax: None,
        },
    );
    prop::collection::vec(line, 0..3).prop_map(|lines| PriceList {
        lines,
        ..PriceList::default()
    })
}

fn spot() -> impl Strategy<Value = Point> {
    prop_oneof![
        6 => (-20.0..20.0_f64, -20.0..20.0_f64).prop_map(|(x, y)| Point::new(x, y)),
        1 => (number(), number()).prop_map(|(x, y)| Point::new(x, y)),
    ]
}

fn pad() -> impl Strategy<Value = Pad> {
    let shape = prop_oneof![
        (number(), number()).prop_map(|(along, across)| PadShape::Rectangle { along, across }),
        number().prop_map(|diameter| PadShape::Circle { diameter }),
    ];
    (".{0,3}", number(), shape).prop_map(|(name, station, shape)| Pad {
        name,
        station,
        shape,
    })
}

/// Edits of whole paths and options.
fn whole_path() -> impl Strategy<Value = Edit> {
    let scheme = || prop_oneof![5 => Just(0_usize), 1 => 0..3_usize];
    let path = || prop_oneof![3 => Just(0_usize), 2 => 0..4_usize];
    let end = || prop::sample::select(vec![End::Start, End::End]);
    let side = || prop::sample::select(vec![Side::Left, Side::Right]);
    let way = || spot().prop_map(|to| to - Point::ORIGIN);
    let both = || (scheme(), path());
    prop_oneof![
        (scheme(), any_route()).prop_map(|(scheme, route)| Edit::AddRoute {
            scheme,
            route: Box::new(route)
        }),
        both().prop_map(|(scheme, route)| Edit::RemoveRoute { scheme, route }),
        (both(), end(), spot(), shape()).prop_map(|((scheme, route), end, at, shape)| {
            Edit::LeadOn {
                scheme,
                route,
                end,
                at,
                shape,
            }
        }),
        (both(), 0..7_usize, spot()).prop_map(|((scheme, route), leg, near)| {
            Edit::InsertWaypoint {
                id: LegId { scheme, route, leg },
                near,
            }
        }),
        (both(), 0..7_usize).prop_map(|((scheme, route), waypoint)| {
            Edit::RemoveWaypoint {
                id: WaypointId {
                    scheme,
                    route,
                    waypoint,
                },
            }
        }),
        both().prop_map(|(scheme, route)| Edit::TurnRound { scheme, route }),
        both().prop_map(|(scheme, route)| Edit::Close { scheme, route }),
        (both(), 0..7_usize).prop_map(|((scheme, route), waypoint)| {
            Edit::Split {
                id: WaypointId {
                    scheme,
                    route,
                    waypoint,
                },
            }
        }),
        (scheme(), path(), path()).prop_map(|(scheme, first, second)| Edit::Join {
            scheme,
            first,
            second
        }),
        (both(), side(), spot(), spot()).prop_map(|((scheme, host), side, near, to)| {
            Edit::Branch {
                scheme,
                host,
                side,
                near,
                to,
            }
        }),
        (both(), end(), prop::option::of(number())).prop_map(|((scheme, route), end, angle)| {
            Edit::SetHeading {
                scheme,
                route,
                end,
                heading: angle.map(Heading::Angle),
            }
        }),
        (
            scheme(),
            prop::collection::vec((path(), 0..7_usize), 0..5),
            way()
        )
            .prop_map(|(scheme, waypoints, by)| Edit::MoveTogether {
                scheme,
                waypoints,
                by
            }),
        (both(), spot(), -4.0..4.0_f64).prop_map(|((scheme, route), through, angle)| {
            let along = Direction::EAST.turned(angle);
            Edit::Mirror {
                scheme,
                route,
                through,
                along,
            }
        }),
        (both(), prop::collection::vec(0..7_usize, 0..6)).prop_map(
            |((scheme, route), waypoints)| {
                Edit::MirrorPegs {
                    scheme,
                    route,
                    waypoints,
                }
            }
        ),
        (both(), prop::collection::vec(0..7_usize, 0..6), way()).prop_map(
            |((scheme, route), waypoints, by)| Edit::CopyPegs {
                scheme,
                route,
                waypoints,
                by,
            }
        ),
        (both(), scheme(), way()).prop_map(|((scheme, route), to, by)| Edit::CopyRoute {
            scheme,
            route,
            to,
            by
        }),
        (both(), 0..3_usize, prop::option::of(pad())).prop_map(|((scheme, route), pad, to)| {
            Edit::SetPad {
                scheme,
                route,
                pad,
                to,
            }
        }),
        prop::option::of(scheme()).prop_map(|copy_of| Edit::AddScheme { copy_of }),
        scheme().prop_map(|scheme| Edit::RemoveScheme { scheme }),
        (scheme(), scheme()).prop_map(|(scheme, to)| Edit::MoveScheme { scheme, to }),
        (scheme(), any::<bool>()).prop_map(|(scheme, locked)| Edit::LockScheme { scheme, locked }),
        (scheme(), ".{0,9}").prop_map(|(scheme, notes)| Edit::SetSchemeNotes { scheme, notes }),
    ]
}

/// A path through points that often lie on each other or in a line.
fn any_route() -> impl Strategy<Value = Route> {
    let place = || prop_oneof![(-4_i32..4).prop_map(f64::from), -20.0..20.0_f64];
    let corner = (
        (place(), place()),
        prop::option::weighted(0.3, 0.01..9.0_f64),
    );
    let direction = prop::option::weighted(0.2, -7.0..7.0_f64);
    (
        prop::collection::vec((corner, shape()), 0..6),
        any::<bool>(),
        direction,
        0.05..3.0_f64,
    )
        .prop_map(|(parts, closed, angle, width)| {
            let count = if closed {
                parts.len()
            } else {
                parts.len().saturating_sub(1)
            };
            let legs = parts
                .iter()
                .take(count)
                .map(|(_, shape)| shape.clone())
                .collect();
            let corners = parts
                .iter()
                .map(|((at, rounding), _)| waypoint(*at, *rounding));
            Route {
                width,
                waypoints: corners.collect(),
                closed,
                start_direction: angle.map(Heading::Angle),
                end_direction: angle.map(Heading::Angle),
                ..route(&[], legs)
            }
        })
}

fn any_plan() -> impl Strategy<Value = Plan> {
    prop_oneof![
        1 => Just(()).prop_map(|()| example::plan().unwrap_or_else(|_| Plan::empty(Units::Metric))),
        3 => any_route()
            .prop_map(plan_of)
            .prop_filter("past a limit", |plan| limits::check(plan).is_ok()),
    ]
}

/// Sees to it that every figure of a plan is a number.
fn look_at_figures(plan: &Plan) {
    let solved = plan.solve();
    let text = serde_json::to_string(&figures::figures(plan, &solved)).unwrap_or_default();
    assert!(!text.is_empty());
    // serde_json writes what is no number as null: only what may be missing may be null.
    let places = text.match_indices("null").map(|(at, _)| &text[..at]);
    for before in places {
        let allowed = [
            "\"tangent_length\":",
            "\"external_distance\":",
            "\"value\":",
            "\"limit\":",
            "\"centre_line\":",
            "\"left_edge\":",
            "\"right_edge\":",
            "\"feel\":",
            "\"tightest\":",
            "\"longest_view\":",
            "\"turn_that_hides\":",
            "\"hides_what_is_beyond\":",
            "\"folds_at\":",
            "\"comes_by\":",
            "\"set_out\":",
            "\"at\":",
            "\"battens\":",
            "\"right_angle\":",
            "\"look_again\":",
            "\"stops\":",
            "\"change\":",
            "\"centre\":",
            "\"check\":",
            "\"check_room\":",
            "\"course\":",
            "\"effort\":",
            "\"error\":",
            "\"fallback\":",
            "\"foreman\":",
            "\"inner\":",
            "\"line\":",
            "\"makes\":",
            "\"no_offset_peg\":",
            "\"no_ties\":",
            "\"nth\":",
            "\"offset_peg\":",
            "\"outer\":",
            "\"side\":",
            "\"swing_point\":",
            "\"ties\":",
            "\"root_zone\":",
            "\"quantities\":",
            "\"range\":",
            "\"stones\":",
            "\"paving\":",
            "\"loose\":",
            "\"mass\":",
            "\"trips\":",
            "\"pieces\":",
            "\"pins\":",
            "\"set_out\":",
            "\"ties\":",
            "\"no_ties\":",
            "\"check\":",
            "\"check_room\":",
            "\"offset_peg\":",
            "\"no_offset_peg\":",
            "\"swing_point\":",
            "\"inner\":",
            "\"outer\":",
            "\"centre\":",
            "\"fallback\":",
            "\"error\":",
            "\"effort\":",
            "\"course\":",
            "\"foreman\":",
            "\"makes\":",
            "\"at\":",
            "\"side\":",
            "\"line\":",
            "\"nth\":",
            "\"battens\":",
            "\"tightest_inside\":",
            "\"nearest\":",
            "\"right_angle\":",
            "\"look_again\":",
        ];
        assert!(
            allowed.iter().any(|name| before.ends_with(name)),
            "{}null",
            &before[before.len().saturating_sub(60)..]
        );
    }
}

/// Solves a plan, and sees to it that every number of its findings is one, and that it is kept.
fn look_through(plan: &Plan) {
    let solved = plan.solve();
    for finding in &solved.findings {
        assert!(finding.place.at.is_finite(), "{finding:?}");
        assert!(finding.value.is_none_or(f64::is_finite), "{finding:?}");
        assert!(!finding.sentence.is_empty() && !finding.sentence.contains("NaN"));
    }
    for route in solved.schemes.iter().flat_map(|scheme| &scheme.routes) {
        let _ = plan::setout::set_out(plan, route);
    }
    let written = plan::file::write(plan);
    assert_eq!(plan::file::read(written.as_bytes()).as_ref(), Ok(plan));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]

    #[test]
    fn whatever_is_done_can_be_drawn_saved_and_undone(
        plan in any_plan(),
        edits in prop::collection::vec(edit(), 1..12),
    ) {
        let mut history = History::new(plan.clone());
        look_through(&plan);
        for edit in &edits {
            let before = Arc::clone(history.settled());
            let previewed = history.preview(edit);
            let committed = history.commit(edit);
            prop_assert_eq!(format!("{previewed:?}"), format!("{committed:?}"));
            if committed.is_err() {
                prop_assert!(Arc::ptr_eq(history.plan(), &before));
            }
            look_through(history.plan());
        }
        // Any plan is the last of some run; its figures are as much work as all the rest.
        look_at_figures(history.plan());
        let last = Arc::clone(history.plan());
        let mut steps = 0;
        while history.undo() {
            steps += 1;
        }
        prop_assert!(steps <= edits.len());
        prop_assert_eq!(&**history.plan(), &plan);
        while history.redo() {}
        prop_assert!(Arc::ptr_eq(history.plan(), &last));
    }
}
