//! The build-ups that come with the program.

use plan::count::build_up::{Source, built_in};
use plan::count::{Measure, Part, read_build_up, write_build_up};

use crate::plans::{bent_path, counted};

const FILES: [&str; 7] = [
    include_str!("../../../../assets/build-ups/compacted-gravel.ron"),
    include_str!("../../../../assets/build-ups/self-binding-gravel.ron"),
    include_str!("../../../../assets/build-ups/bark.ron"),
    include_str!("../../../../assets/build-ups/pavers-on-sand.ron"),
    include_str!("../../../../assets/build-ups/flags-on-mortar.ron"),
    include_str!("../../../../assets/build-ups/poured-concrete.ron"),
    include_str!("../../../../assets/build-ups/stepping-stones.ron"),
];

#[test]
fn each_file_is_read_and_keeps_its_meaning() {
    for (i, text) in FILES.iter().enumerate() {
        let read = read_build_up(text).unwrap_or_else(|error| panic!("file {}: {error}", i + 1));
        assert_eq!(built_in().get(i), Some(&read));
        let written = write_build_up(&read);
        assert_eq!(read_build_up(&written).as_ref(), Ok(&read));
        assert_eq!(write_build_up(&read_build_up(&written).unwrap()), written);
    }
    assert_eq!(built_in().len(), FILES.len());
}

#[test]
fn every_figure_says_where_it_comes_from() {
    for (text, up) in FILES.iter().zip(built_in()) {
        assert!(!text.contains("Own"), "{}", up.name);
        let (values, sources) = (
            text.matches("value: ").count(),
            text.matches("source: ").count(),
        );
        assert_eq!(values, sources, "{}", up.name);
        assert_eq!(format!("{up:?}").matches("source: Own").count(), 0);
    }
    assert_eq!(
        Source::CommonPractice.to_string(),
        "common practice, no source"
    );
    assert_eq!(Source::FromMemory.to_string(), "from memory");
}

#[test]
fn the_needs_stand_in_the_order_of_work() {
    for up in built_in() {
        let found = counted(&bent_path(), up.clone());
        assert!(found.needs.len() >= 3, "{}: {:#?}", up.name, found.needs);
        assert!(
            found.needs.is_sorted_by_key(|need| need.part),
            "{}",
            up.name
        );
        assert_eq!(found.needs[0].key, "dig");
        let surface = found.needs.iter().find(|need| need.key == up.layers[0].key);
        assert_eq!(surface.unwrap().part, Part::Surface);
        for need in &found.needs {
            assert!(need.amount > 0.0 && need.amount.is_finite(), "{need:?}");
            assert!(!need.because.is_empty(), "{need:?}");
            if let Some([low, high]) = need.range {
                assert!(low <= need.amount && need.amount <= high, "{need:?}");
            }
        }
    }
}

#[test]
fn hours_are_counted_when_they_are_wanted() {
    let mut plan = bent_path();
    let up = built_in()[0].clone();
    let hours = |plan: &plan::Plan| {
        let found = counted(plan, up.clone());
        let work = found
            .needs
            .into_iter()
            .filter(|need| need.part == Part::Work);
        work.inspect(|need| assert_eq!(need.measure, Measure::Hours))
            .count()
    };
    assert_eq!(hours(&plan), 0);
    plan.count.labour = true;
    assert_eq!(hours(&plan), 6);
}
