//! The table of figures and their sources.

use std::borrow::Cow;

use super::{classes, cooking, dishes, phone, yields};

/// What stands behind one kind of figure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Says {
    /// What a screen marks such figures with.
    pub key: &'static str,
    /// What the figure is called.
    pub name: &'static str,
    /// How it is worked out.
    pub formula: Cow<'static, str>,
    /// What goes into it.
    pub inputs: Cow<'static, str>,
    /// Whose formula or value it is; `Common practice, no source.` or `Our choice.` where it is nobody's.
    pub source: Cow<'static, str>,
    /// How sure it is: what its band, its range or its rounding covers, and what it does not.
    pub covers: Cow<'static, str>,
}

/// Every row, in the order of the job.
#[must_use]
pub fn rows() -> Vec<Says> {
    let mut rows = yields::rows();
    rows.extend(classes::rows());
    rows.extend(dishes::rows());
    rows.extend(cooking::rows());
    rows.push(phone::kept());
    rows
}

/// The row of a key; `None` for one that the table does not have.
#[must_use]
pub fn of(key: &str) -> Option<Says> {
    rows().into_iter().find(|row| row.key == key)
}
