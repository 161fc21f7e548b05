//! Scratch.
#[allow(dead_code)]
#[path = "../../../tests/tests/sheets/plans.rs"]
mod plans;
use sheet::*;
fn main() {
    let dir = std::env::args().nth(1).unwrap();
    let only = std::env::args().nth(2).unwrap_or_default();
    for case in plans::all() {
        if !case.name.contains(&only) { continue; }
        for paper in [Paper::A4, Paper::Letter] {
            let request = Request { scheme: case.scheme, paper, both_units: case.both, date: Date::new(2026, 11, 25) };
            let solved = case.plan.solve();
            let t = std::time::Instant::now();
            let s = compose(&case.plan, &solved, &request);
            let tc = t.elapsed();
            match pdf(&s) {
                Ok(bytes) => {
                    println!("{} {} pages {} {} kB compose {:?} all {:?}", case.name, paper.name(), s.pages.len(), bytes.len()/1000, tc, t.elapsed());
                    std::fs::write(format!("{dir}/{}-{}.pdf", case.name, paper.name()), bytes).unwrap();
                }
                Err(e) => println!("{} {e}", case.name),
            }
        }
    }
}
