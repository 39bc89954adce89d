//! The tutor's classes.

mod answers;
mod board;
mod criteria;
mod desk;
pub mod list;
mod lots;
mod marks;
mod over_time;
mod sheet;
mod students;
mod wall;

use leptos::prelude::*;

use crate::parts::page::{Page, back_to};
use crate::place::{ClassSide, Place};
use crate::session::drawer::Drawer;
use desk::ClassDesk;

/// One side of a class, or the list of them.
pub fn screen(place: &Place) -> AnyView {
    let classes = Drawer::here();
    let Place::Class(id, side) = place else {
        return list::screen(classes);
    };
    let Some(desk) = ClassDesk::of(classes, id) else {
        return not_found();
    };
    match side {
        ClassSide::Board => board::screen(desk),
        ClassSide::Students => students::screen(desk),
        ClassSide::Student(nickname) => over_time::screen(desk, nickname),
        ClassSide::Criteria => criteria::screen(desk),
        ClassSide::Wall => wall::screen(desk),
        ClassSide::Sheet => sheet::screen(desk),
    }
}

fn not_found() -> AnyView {
    view! {
        <Page title="This class is not here" above="Classes" dock=|| back_to(&Place::Classes)>
            <p>"It may have been removed, or kept on another phone."</p>
        </Page>
    }
    .into_any()
}
