//! The built-in example opens, solves cleanly and keeps its bytes.

use plan::{example, file};

#[test]
fn it_reads_back_byte_for_byte() {
    let plan = example::plan().unwrap();
    let text = file::write(&plan);
    let again = file::read(text.as_bytes()).unwrap();
    assert_eq!(again, plan);
    assert_eq!(file::write(&again), text);
    println!("{text}");
}

#[test]
fn it_can_be_built_as_drawn() {
    let plan = example::plan().unwrap();
    let solved = plan.solve();
    for finding in &solved.findings {
        println!("{} {} {}: {}", finding.severity, finding.code.name(), finding.place, finding.sentence);
    }
    assert!(solved.findings.iter().all(|f| f.severity != plan::finding::Severity::Stop));
    for scheme in &solved.schemes {
        for route in &scheme.routes {
            let voice = plan::setout::Voice { ruler: plan.ruler(), both: false };
            let set_out = plan::setout::set_out(&plan, route).unwrap();
            println!("{} {:.3} {:.3}", scheme.letter, route.centre_line.as_ref().unwrap().length(), route.area);
            for bend in &set_out.bends {
                println!("R {:.3} t {:.1} {:?}", bend.bend.radius(), geometry::angle::to_degrees(bend.bend.sweep()), bend.swing);
                for step in bend.swing_steps(&voice) { println!("  {} [{:?}]", step.text, step.check); }
                for step in bend.offset_steps(&voice) { println!("  - {} [{:?}]", step.text, step.check); }
                println!("{}", bend.rounding_words());
                for row in &bend.offsets[0].rows { println!("   {:.3} {:.3}", row.along.tape, row.centre.tape); }
            }
        }
    }
}
