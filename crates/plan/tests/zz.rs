#[test] fn demo() {
    let plan = plan::file::read(plan::example::TEXT.as_bytes()).unwrap();
    for f in plan.solve().findings { println!("{} {} {}: {}", f.severity, f.code.name(), f.place, f.sentence); }
    for s in plan.solve().schemes { for r in s.routes { let feel = plan::feel::feel(&plan.walk, &r).unwrap(); println!("{feel:#?}"); } }
}
