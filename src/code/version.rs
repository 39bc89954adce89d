//! The versions of the layout, and what is different between them.

use super::sheet::{MOST_TESTS, Sheet, Technique};

/// The latest version of the layout.
pub const VERSION: u8 = 4;

/// What is different between the versions.
#[derive(Clone, Copy)]
pub(super) struct Variant {
    /// How many tests of a species a student has a number for.
    pub(super) tests: u8,
    /// The bits of a student.
    pub(super) student: u32,
    /// Whether the cook said how the fillets were made; the currency then goes by its short number.
    pub(super) told: bool,
}

/// Each version.
pub(super) const VARIANTS: [Variant; VERSION as usize] = [
    Variant {
        tests: 8,
        student: 22,
        told: false,
    },
    Variant {
        tests: MOST_TESTS,
        student: 24,
        told: false,
    },
    Variant {
        tests: 8,
        student: 22,
        told: true,
    },
    Variant {
        tests: MOST_TESTS,
        student: 24,
        told: true,
    },
];

/// The first version that has room for what was told and for the student's test.
pub(super) fn version(sheet: &Sheet) -> Option<(u8, Variant)> {
    let test = sheet.student.map_or(0, |student| student.test);
    let told = matches!(sheet.technique, Technique::Told(_));
    let mut versions = (1..).zip(VARIANTS);
    versions.find(|(_, variant)| variant.told == told && test <= variant.tests)
}
