//! How a time grows with what is worked on.

use std::time::{Duration, Instant};

const RUNS: usize = 15;

/// The median time of `work`.
#[allow(clippy::disallowed_methods, reason = "a benchmark reads the clock")]
pub fn median(mut work: impl FnMut()) -> Duration {
    let mut times: Vec<Duration> = (0..RUNS)
        .map(|_| {
            let begun = Instant::now();
            work();
            begun.elapsed()
        })
        .collect();
    times.sort_unstable();
    times[RUNS / 2]
}

/// Prints the time for each size, and how much longer an item takes than at the first size.
pub fn print(name: &str, sizes: &[usize], mut work: impl FnMut(usize)) {
    let mut first = None;
    for &size in sizes {
        let time = median(|| work(size));
        let each = time.as_secs_f64() / size as f64;
        let ratio = each / *first.get_or_insert(each);
        println!("{name:<40}{size:>7}  {time:>12.3?}  {ratio:>6.2} an item");
    }
}

/// Prints how many times longer `other` takes than `base`.
pub fn beside(name: &str, base: Duration, other: Duration) {
    let ratio = other.as_secs_f64() / base.as_secs_f64();
    println!("{name:<40}{other:>12.3?}  {ratio:>6.2} times {base:.3?}");
}
