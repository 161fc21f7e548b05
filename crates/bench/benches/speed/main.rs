//! How fast it is, beside general libraries doing the same work: every bench, then the table of `docs/speed.md`.
//!
//! `cargo bench -p pegbow-bench` runs all; with a name behind `--` only the benches of that name, and no table; with
//! `table` behind it only the table.

mod ground;
mod ours;
mod peers;
mod table;

fn main() {
    // Cargo itself adds one word; any other asks for something else than all.
    let words: Vec<String> = std::env::args()
        .skip(1)
        .filter(|word| word != "--bench")
        .collect();
    if words != ["table"] {
        divan::main();
    }
    if words.is_empty() || words == ["table"] {
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
    fn bend(bencher: Bencher<'_, '_>) {
        bencher.bench(ours::bend_length());
    }

    #[divan::bench]
    fn bend_kurbo(bencher: Bencher<'_, '_>) {
        bencher.bench(peers::kurbo_bend_length());
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

    #[divan::bench]
    fn bend(bencher: Bencher<'_, '_>) {
        bencher.bench(ours::bend_nearest_point());
    }

    #[divan::bench]
    fn bend_and_how_far_along(bencher: Bencher<'_, '_>) {
        bencher.bench(ours::bend_nearest());
    }

    #[divan::bench]
    fn bend_kurbo(bencher: Bencher<'_, '_>) {
        bencher.bench(peers::kurbo_bend_nearest());
    }

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

    #[divan::bench(args = [20, 200], sample_count = 10)]
    fn path_geo(bencher: Bencher<'_, '_>, legs: usize) {
        bencher.bench(peers::geo_edges(legs));
    }
}

#[divan::bench_group]
mod outline {
    use super::{ours, peers};
    use divan::Bencher;

    #[divan::bench(args = [200])]
    fn area(bencher: Bencher<'_, '_>, legs: usize) {
        bencher.bench(ours::area(legs));
    }

    #[divan::bench(args = [200])]
    fn area_kurbo(bencher: Bencher<'_, '_>, legs: usize) {
        bencher.bench(peers::kurbo_area(legs));
    }

    #[divan::bench(args = [200])]
    fn area_geo(bencher: Bencher<'_, '_>, legs: usize) {
        bencher.bench(peers::geo_area(legs));
    }

    #[divan::bench(args = [2_000])]
    fn crossings(bencher: Bencher<'_, '_>, legs: usize) {
        bencher.bench(ours::crossings(legs));
    }

    #[divan::bench(args = [2_000])]
    fn crossings_geo(bencher: Bencher<'_, '_>, legs: usize) {
        bencher.bench(peers::geo_crossings(legs));
    }
}

#[divan::bench_group]
mod obstacles {
    use super::{ground, peers};
    use bench::among;
    use divan::Bencher;

    #[divan::bench(args = [(20, 60), (200, 1_000)])]
    fn gaps(bencher: Bencher<'_, '_>, (legs, count): (usize, usize)) {
        bencher.bench(ground::gaps(legs, count));
    }

    #[divan::bench(args = [(20, 60), (200, 1_000)], sample_count = 3, sample_size = 1)]
    fn gaps_geo(bencher: Bencher<'_, '_>, (legs, count): (usize, usize)) {
        bencher.bench(peers::geo_gaps(legs, count));
    }

    #[divan::bench(args = [(20, 60), (2_000, 10_000)])]
    fn drag(bencher: Bencher<'_, '_>, (legs, count): (usize, usize)) {
        bencher.bench(ground::drag(among::eight_sided_ponds(legs, count), legs));
    }

    #[divan::bench(args = [(20, 60), (2_000, 10_000)])]
    fn afresh(bencher: Bencher<'_, '_>, (legs, count): (usize, usize)) {
        bencher.bench(ground::afresh(among::eight_sided_ponds(legs, count), legs));
    }

    #[divan::bench(args = [10, 100_000])]
    fn drag_among(bencher: Bencher<'_, '_>, count: usize) {
        bencher.bench(ground::drag(among::round_ponds(20, count), 20));
    }

    #[divan::bench(args = [(20, 60), (2_000, 10_000)])]
    fn room(bencher: Bencher<'_, '_>, (legs, count): (usize, usize)) {
        bencher.bench(ground::room(among::eight_sided_ponds(legs, count), legs));
    }

    #[divan::bench(args = [60, 10_000])]
    fn index(bencher: Bencher<'_, '_>, count: usize) {
        let patches = ground::patches(20, count);
        bencher
            .with_inputs(|| patches.clone())
            .bench_values(geometry::Ground::new);
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
