//! Build-ups and settings in the plan: edits, undo, files, what is refused.

use std::sync::Arc;

use plan::count::{Barrow, CountSettings, Soil, built_in, quantities};
use plan::document::Side;
use plan::edging::Edging;
use plan::edit::Edit;
use plan::{History, file};

use crate::plans::bent_path;

fn set(nth: usize) -> Edit {
    Edit::SetBuildUp {
        scheme: 0,
        build_up: Some(Arc::new(built_in()[nth].clone())),
    }
}

#[test]
fn a_plan_keeps_the_whole_build_up() {
    let mut history = History::new(bent_path());
    let before = file::write(history.plan());
    assert!(!before.contains("build_up") && !before.contains("count:"));
    history.commit(&set(3)).unwrap();
    assert_eq!(history.undo_name(), Some("choose the build-up of option A"));
    let settings = CountSettings {
        soil: Soil::Clay,
        labour: true,
        ..CountSettings::default()
    };
    history.commit(&Edit::SetCount(settings.clone())).unwrap();
    assert_eq!(history.undo_name(), Some("set how quantities are counted"));
    let text = file::write(history.plan());
    let read = file::read(text.as_bytes()).unwrap();
    assert_eq!(&read, &**history.plan());
    assert_eq!(file::write(&read), text);
    assert_eq!(read.schemes[0].build_up.as_deref(), Some(&built_in()[3]));
    assert_eq!(read.count, settings);
    history.undo();
    history.undo();
    assert_eq!(file::write(history.plan()), before);
}

#[test]
fn one_edging_is_what_is_bought_and_what_is_judged() {
    let mut plan = bent_path();
    plan.schemes[0].edging = Some(Edging::TimberBoard);
    // A chosen edging is counted where the build-up names none.
    plan = plan.with(&set(6)).unwrap().plan;
    let keys = |plan: &plan::Plan| -> Vec<String> {
        let found = quantities(plan, &plan.solve(), 0).unwrap();
        found.needs.into_iter().map(|need| need.key).collect()
    };
    assert!(keys(&plan).contains(&"edging".to_owned()));
    // What the build-up names is what bends are held to.
    plan = plan.with(&set(0)).unwrap().plan;
    let edging = |plan: &plan::Plan| {
        let scheme = &plan.schemes[0];
        [scheme.edging_at(Side::Left), scheme.edging_at(Side::Right)]
    };
    assert_eq!(edging(&plan), [Some(Edging::SteelStrip); 2]);
    assert!(keys(&plan).contains(&"steel-edging".to_owned()));
    let tight = |plan: &plan::Plan| {
        let code = plan::finding::Code::EdgingRadius;
        plan.solve().findings.iter().any(|found| found.code == code)
    };
    assert!(!tight(&plan), "5.4 m inside, and steel follows 1 m");
    // Another choice changes both at once.
    let choose = |edging| Edit::SetEdging { scheme: 0, edging };
    plan = plan.with(&choose(Some(Edging::TimberBoard))).unwrap().plan;
    assert_eq!(edging(&plan), [Some(Edging::TimberBoard); 2]);
    assert!(!keys(&plan).contains(&"steel-edging".to_owned()));
    assert!(tight(&plan), "5.4 m inside, and timber follows 6 m");
    // On one side alone: the inside edge of a bend to the left is the left one.
    let build_up = plan.schemes[0].build_up.as_mut().unwrap();
    Arc::make_mut(build_up).left = built_in()[0].left.clone();
    assert!(!tight(&plan));
    plan = plan.with(&choose(None)).unwrap().plan;
    assert_eq!(edging(&plan), [None; 2]);
}

#[test]
fn what_is_past_a_limit_is_refused() {
    let plan = bent_path();
    let refused = |edit: &Edit| plan.with(edit).unwrap_err().to_string();
    let mut up = built_in()[0].clone();
    up.layers[1].thickness.value = -0.1;
    assert_eq!(
        refused(&Edit::SetBuildUp {
            scheme: 0,
            build_up: Some(Arc::new(up)),
        }),
        "option A, build-up, layer 2 “crushed stone, graded to dust”: its thickness in metres must lie between 0.001 and 2, it is -0.1: write how thick it lies when it is compacted"
    );
    let barrow = Barrow {
        volume: 0.0,
        payload: 150.0,
    };
    assert_eq!(
        refused(&Edit::SetCount(CountSettings {
            barrow,
            ..CountSettings::default()
        })),
        "counting: a barrow in cubic metres must lie between 0.001 and 10, it is 0"
    );
    let soil = Soil::Other {
        bulking: f64::NAN,
        density: 1500.0,
    };
    assert_eq!(
        refused(&Edit::SetCount(CountSettings {
            soil,
            ..CountSettings::default()
        })),
        "counting: the bulking of the soil must lie between 1 and 3, it is NaN"
    );
    assert_eq!(
        refused(&Edit::SetBuildUp {
            scheme: 3,
            build_up: None,
        }),
        "that part of the plan is no longer there"
    );
}
