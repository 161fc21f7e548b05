//! x
#[test]
fn smoke() {
    let plan = plan::example::plan().unwrap();
    let solved = plan.solve();
    for (s, scheme) in solved.schemes.iter().enumerate() {
        for r in 0..scheme.routes.len() {
            let work = plan::setout::work(&plan, &solved, (s, r)).unwrap();
            println!("== {s} {r} order {:?}", work.order);
            for b in &work.bends {
                println!(
                    "bend {} {:?} chosen {:?} fallback {:?}",
                    b.bend.number,
                    b.of,
                    b.way().method,
                    b.second_way().map(|w| w.method)
                );
                for w in &b.ways {
                    println!("   {:?} {:?} {:?}", w.method, w.verdict, w.effort);
                }
            }
            for p in &work.pegs {
                println!(
                    "{} {:?} {:?}",
                    p.peg.name,
                    p.peg.ties.as_ref().map(|t| (
                        t.pair[0].anchor.name.clone(),
                        t.pair[1].anchor.name.clone(),
                        t.check.as_ref().map(|c| c.anchor.name.clone())
                    )),
                    p.offset.as_ref().map(|o| o.side)
                );
            }
            println!("{:#?}", work.tools);
            for d in &work.pegging.deeds {
                println!("{:?} {:?}", d.makes, d.does);
            }
        }
    }
    let start = std::time::Instant::now();
    for _ in 0..200 {
        for (s, scheme) in solved.schemes.iter().enumerate() {
            for r in 0..scheme.routes.len() {
                std::hint::black_box(plan::setout::work(&plan, &solved, (s, r)));
            }
        }
    }
    println!("{:?}", start.elapsed() / 200);
}
