//! The tutor's classes, and where a new one begins.

use leptos::prelude::*;

use crate::class::class_list::Class;
use crate::device::{address, clock};
use crate::parts::choice::fault;
use crate::parts::page::{Page, back_to};
use crate::place::{ClassSide, Place};
use crate::session::drawer::Drawer;

/// The list of classes.
pub fn screen(classes: Drawer<Class>) -> AnyView {
    let name = RwSignal::new(String::new());
    let refused = RwSignal::new(None::<String>);
    let begin =
        move |_| match name.with_untracked(|name| classes.begin(|now| Class::new(name, now))) {
            Ok(id) => address::go(&Place::Class(id, ClassSide::Board)),
            Err(refusal) => refused.set(Some(refusal.to_string())),
        };
    view! {
        <Page title="Classes" above="For tutors" dock=move || view! {
            {back_to(&Place::Home)}
            <button class="btn main tall next" on:click=begin>"Start the class"</button>
        }>
            <p class="soft">"Put the result codes of your students side by side. Everything is worked out again on this phone, and stays on it."</p>
            <ul class="rows">
                {move || classes.ids().into_iter().map(|id| row(classes, &id)).collect_view()}
            </ul>
            <div class="field">
                <label for="class-name">"Name of a new class"</label>
                <input id="class-name" type="text" autocomplete="off" aria-describedby="class-name-fault"
                    prop:value=move || name.get()
                    on:input:target=move |event| { refused.set(None); name.set(event.target().value()); }/>
                {fault("class-name-fault", move || refused.get())}
            </div>
        </Page>
    }
    .into_any()
}

fn row(classes: Drawer<Class>, id: &str) -> AnyView {
    let said = classes.with(id, |class| {
        let codes = match class.codes.len() {
            0 => "no codes yet".to_owned(),
            1 => "1 code".to_owned(),
            count => format!("{count} codes"),
        };
        (
            class.name.clone(),
            format!("{} · {codes}", clock::day(class.begun)),
        )
    });
    let Some((name, line)) = said else {
        return ().into_any();
    };
    view! {
        <li><a class="item" href=Place::Class(id.to_owned(), ClassSide::Board).to_string()>
            <span class="grow"><b>{name}</b><small>{line}</small></span>
        </a></li>
    }
    .into_any()
}
