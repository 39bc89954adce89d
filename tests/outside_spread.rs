//! Many fish together: the outlook for the next one, against printed tables, a textbook and scipy.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use scaleside::trade::outlook::{Confidence, Outlook, student_t};

fn near(found: f64, expected: f64, within: f64, what: &str) {
    assert!(
        (found - expected).abs() <= within,
        "{what}: {found} is not {expected}"
    );
}

/// Upper critical values as printed in the NIST/SEMATECH *e-Handbook of Statistical Methods*, read in a
/// copy of its table: probability of exceeding 0.10, 0.05 and 0.025.
#[test]
fn quantiles_are_those_of_the_printed_table() {
    for (freedom, printed) in [
        (1.0, [3.078, 6.314, 12.706]),
        (2.0, [1.886, 2.920, 4.303]),
        (3.0, [1.638, 2.353, 3.182]),
        (4.0, [1.533, 2.132, 2.776]),
        (5.0, [1.476, 2.015, 2.571]),
        (6.0, [1.440, 1.943, 2.447]),
        (9.0, [1.383, 1.833, 2.262]),
        (10.0, [1.372, 1.812, 2.228]),
        (20.0, [1.325, 1.725, 2.086]),
        (30.0, [1.310, 1.697, 2.042]),
        (60.0, [1.296, 1.671, 2.000]),
        (100.0, [1.290, 1.660, 1.984]),
    ] {
        for (exceeding, printed) in [0.10, 0.05, 0.025].into_iter().zip(printed) {
            let what = format!("{freedom} degrees of freedom, {exceeding}");
            near(student_t(freedom, 1.0 - exceeding), printed, 0.000_5, &what);
        }
    }
}

/// A worked example of a textbook of statistics for engineers, section 8-6, read in a copy: 22 specimens
/// with mean 13.71 and deviation 3.55 give 6.16 to 21.26 for the next one, 19 times in 20. (The title,
/// Montgomery and Runger, *Applied Statistics and Probability for Engineers*, is from memory, not verified.)
/// In hundredths, so that both ends are shares.
#[test]
fn the_next_one_is_where_a_textbook_expects_it() {
    let outlook = Outlook::of_moments(22, 0.1371, 0.0355);
    let (low, high) = outlook.between(Confidence::NineteenInTwenty);
    near(low, 0.0616, 0.000_05, "low");
    near(high, 0.2126, 0.000_05, "high");
}

/// Figures by the versions of scipy and numpy on the file's first line: see vectors/outlook_vectors.py.
#[test]
fn quantiles_and_outlooks_agree_with_scipy() {
    let mut rows = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_path("tests/vectors/outlooks.csv")
        .unwrap();
    let (mut quantiles, mut outlooks) = (0, 0);
    for row in rows.records().map(Result::unwrap) {
        let figure = |nth: usize| row[nth].parse::<f64>().unwrap();
        if &row[0] == "t" {
            // The inverse is good to a part in 10^8 at thousands of degrees of freedom: far below a gram.
            near(
                student_t(figure(1), figure(2)) / figure(3),
                1.0,
                1e-7,
                &row[1],
            );
            quantiles += 1;
            continue;
        }
        let yields: Vec<f64> = row[1]
            .split(' ')
            .map(|share| share.parse().unwrap())
            .collect();
        let outlook = Outlook::of_yields(&yields).unwrap();
        let confidence = Confidence::ALL
            .into_iter()
            .find(|confidence| confidence.share() == figure(2))
            .unwrap();
        let (low, high) = outlook.between(confidence);
        near(low, figure(3), 1e-9, "low");
        near(high, figure(4), 1e-9, "high");
        near(outlook.at_least(confidence), figure(5), 1e-9, "at least");
        outlooks += 1;
    }
    assert_eq!((quantiles, outlooks), (60, 30));
}
