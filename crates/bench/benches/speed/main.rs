//! How fast it is, beside general libraries doing the same work: every bench, then the table of `docs/speed.md`.
//!
//! `cargo bench -p pegbow-bench` runs all; with a name behind `--` only the benches of that name, and no table.

mod ours;
mod peers;
mod table;

fn main() {
    divan::main();
    // Cargo itself adds one word; any other asks for something else than all.
    if std::env::args().skip(1).all(|word| word == "--bench") {
        table::print();
    }
}

#[divan::bench_group]
mod bend {
    use super::ours;
    use divan::Bencher;
    use geometry::Figure;

    #[divan::bench]
    fn chord_and_rise() -> f64 {
        ours::bend_from_chord_and_rise()
    }

    #[divan::bench]
    fn any_two_closed_form(bencher: Bencher<'_, '_>) {
        bencher.bench(ours::any_two((Figure::Chord, 5.6), (Figure::Radius, 4.0)));
    }

    #[divan::bench]
    fn any_two_by_root(bencher: Bencher<'_, '_>) {
        bencher.bench(ours::any_two(
            (Figure::Chord, 5.6),
            (Figure::ArcLength, 6.1),
        ));
    }
}

#[divan::bench_group]
mod length {
    use super::{ours, peers};
    use divan::Bencher;

    #[divan::bench]
    fn arc() -> f64 {
        ours::arc_length()
    }

    #[divan::bench]
    fn arc_kurbo() -> f64 {
        peers::kurbo_arc_length()
    }

    #[divan::bench(args = [20, 2_000])]
    fn path(bencher: Bencher<'_, '_>, legs: usize) {
        bencher.bench(ours::length(legs));
    }

    #[divan::bench(args = [20, 2_000])]
    fn path_kurbo(bencher: Bencher<'_, '_>, legs: usize) {
        bencher.bench(peers::kurbo_length(legs));
    }

    #[divan::bench(args = [20, 2_000])]
    fn path_geo(bencher: Bencher<'_, '_>, legs: usize) {
        bencher.bench(peers::geo_length(legs));
    }
}

#[divan::bench_group]
mod nearest {
    use super::{ours, peers};
    use divan::Bencher;

    #[divan::bench(args = [20, 2_000])]
    fn path(bencher: Bencher<'_, '_>, legs: usize) {
        bencher.bench(ours::nearest(legs));
    }

    #[divan::bench(args = [20, 2_000])]
    fn path_kurbo(bencher: Bencher<'_, '_>, legs: usize) {
        bencher.bench(peers::kurbo_nearest(legs));
    }

    #[divan::bench(args = [20, 2_000])]
    fn path_geo(bencher: Bencher<'_, '_>, legs: usize) {
        bencher.bench(peers::geo_nearest(legs));
    }
}

#[divan::bench_group]
mod edges {
    use super::{ours, peers};
    use divan::Bencher;

    #[divan::bench(args = [20, 2_000])]
    fn path(bencher: Bencher<'_, '_>, legs: usize) {
        bencher.bench(ours::edges(legs));
    }

    #[divan::bench(args = [20, 2_000])]
    fn path_kurbo(bencher: Bencher<'_, '_>, legs: usize) {
        bencher.bench(peers::kurbo_edges(legs));
    }

    #[divan::bench(args = [20, 2_000])]
    fn path_geo(bencher: Bencher<'_, '_>, legs: usize) {
        bencher.bench(peers::geo_edges(legs));
    }
}

#[divan::bench_group]
mod whole {
    use super::ours;
    use divan::Bencher;

    #[divan::bench(args = [20, 2_000])]
    fn solve(bencher: Bencher<'_, '_>, legs: usize) {
        bencher.bench(ours::solve(legs));
    }

    #[divan::bench]
    fn drag_step(bencher: Bencher<'_, '_>) {
        bencher.bench(ours::drag_step());
    }

    #[divan::bench(args = [1_000])]
    fn read(bencher: Bencher<'_, '_>, legs: usize) {
        bencher.bench(ours::read(legs));
    }

    #[divan::bench]
    fn example_sheet(bencher: Bencher<'_, '_>) {
        bencher.bench(ours::example_sheet());
    }
}
