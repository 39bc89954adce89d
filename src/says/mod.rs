//! Says who: what every figure on a screen is worked out from, whose formula it is, and how sure it is. One table, told in a
//! cook's words; a part of the app shows it. A number in it is that of the code which works the figure out, by its name.

mod classes;
mod cooking;
mod dishes;
mod figures;
mod phone;
mod yields;

pub use figures::{Says, of, rows};
