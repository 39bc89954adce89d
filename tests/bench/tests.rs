//! A cook's own tests: read from the shelf, taken together, drawn, and carried as a table.

use std::collections::BTreeMap;

use divan::counter::ItemsCount;
use divan::{Bencher, black_box};
use scaleside::base::instant::Instant;
use scaleside::class::dots::{self, Axis, DotLine};
use scaleside::compare::group::{TestSplit, groups};
use scaleside::compare::test::Test;
use scaleside::compare::{table, taken};
use scaleside::fish::demo;
use scaleside::fish::record::Fish;
use scaleside::fish::settings::Settings;
use scaleside::store::records::Store;
use scaleside::trade::breakdown::Breakdown;
use scaleside::trade::pooled::Pooled;

use crate::growth;
use crate::memory_shelf::Memory;

const SIZES: [usize; 3] = [10, 1_000, 10_000];
const NOW: Instant = Instant(1_773_065_112_250);

/// All invented: three species over the years, no two alike.
fn fish(count: usize) -> Vec<Fish> {
    (0..count)
        .map(|nth| {
            let begun = NOW.plus_secs(3_600 * i64::try_from(nth).unwrap());
            let make = demo::TESTED[nth % demo::TESTED.len()];
            let mut fish = make(format!("f{nth}"), begun, &Settings::default());
            fish.demo = false;
            fish.whole.typed = (400 + nth % 300).to_string();
            fish.ready.typed = (180 + nth % 90).to_string();
            fish
        })
        .collect()
}

fn tests(count: usize) -> Vec<Test> {
    let tests: Vec<Test> = fish(count)
        .iter()
        .filter_map(|fish| Test::of(fish, 60))
        .collect();
    assert_eq!(tests.len(), count);
    tests
}

fn shelf(count: usize) -> Memory {
    let shelf = Memory::default();
    let mut store = Store::new("fish", 1);
    for fish in fish(count) {
        let _ = store.create(&shelf, &fish.id.clone(), fish, NOW);
    }
    shelf
}

fn open_list(shelf: &Memory) -> usize {
    Store::<Fish>::new("fish", 1)
        .load_all(shelf, NOW)
        .records
        .len()
}

fn pool(tests: &[Test]) -> usize {
    groups(tests, TestSplit::Month)
        .iter()
        .filter(|group| group.pooled().is_some() && group.outlook().is_some())
        .count()
}

fn plot(tests: &[Test]) -> usize {
    let lines: Vec<DotLine> = groups(tests, TestSplit::FishAndForm)
        .iter()
        .flat_map(|group| group.lines())
        .collect();
    dots::draw(&lines, Axis::over(&lines).unwrap(), None, 360.0)
        .dots
        .len()
}

#[divan::bench(args = SIZES)]
fn list_opened(bencher: Bencher<'_, '_>, count: usize) {
    let shelf = shelf(count);
    bencher
        .counter(ItemsCount::new(count))
        .bench_local(|| open_list(black_box(&shelf)));
}

#[divan::bench(args = SIZES)]
fn taken_together(bencher: Bencher<'_, '_>, count: usize) {
    let tests = tests(count);
    bencher
        .counter(ItemsCount::new(count))
        .bench(|| pool(black_box(&tests)));
}

#[divan::bench(args = SIZES)]
fn plotted(bencher: Bencher<'_, '_>, count: usize) {
    let tests = tests(count);
    bencher
        .counter(ItemsCount::new(count))
        .bench(|| plot(black_box(&tests)));
}

pub fn ratios() {
    let shelves: BTreeMap<usize, Memory> = SIZES.iter().map(|size| (*size, shelf(*size))).collect();
    growth::print("list of tests opened", &SIZES, |count| {
        assert_eq!(black_box(open_list(&shelves[&count])), count);
    });
    let all = tests(10_000);
    let breakdowns: Vec<Breakdown> = all.iter().map(|test| test.breakdown).collect();
    growth::print("tests pooled as one", &SIZES, |count| {
        black_box(Pooled::of(&breakdowns[..count]));
    });
    growth::print("tests parted by month and foretold", &SIZES, |count| {
        black_box(pool(&all[..count]));
    });
    growth::print("tests plotted", &SIZES, |count| {
        black_box(plot(&all[..count]));
    });
    let fish = fish(10_000);
    growth::print("tests written as a table", &SIZES, |count| {
        black_box(table::write(&fish[..count]).unwrap());
    });
    let tables: BTreeMap<usize, String> = SIZES
        .iter()
        .map(|size| (*size, table::write(&fish[..*size]).unwrap()))
        .collect();
    growth::print("tests read from a table", &SIZES, |count| {
        let found = taken::read(&tables[&count], &Settings::default(), NOW).unwrap();
        assert_eq!(black_box(found).fish.len(), count);
    });
}
