//! A result code that came as a link: opened, worked out again, and added to a class.

use leptos::prelude::*;

use crate::class::class_list::{Class, ClassAction, letters};
use crate::class::result::ClassResult;
use crate::code::opening::OpenedCode;
use crate::code::reading::read_one;
use crate::device::{address, clock};
use crate::parts::page::{Page, back_to};
use crate::parts::result;
use crate::place::{ClassSide, Place};
use crate::session::drawer::Drawer;

/// How many letters of a code that does not open are shown.
const SHOWN: usize = 300;
/// How many classes stand there at once, the latest first: the result below is in sight.
const FIRST: usize = 1;

/// The name a class gets when the tutor gives none.
fn name_of_today() -> String {
    format!("Class of {}", clock::day(clock::now()))
}

/// A code from a link.
pub fn screen(classes: Drawer<Class>, typed: &str) -> AnyView {
    match read_one(typed) {
        Ok(opened) => opened_screen(classes, opened),
        Err(why) => {
            // A link made to confuse may be as long as it likes; to lay that out would stop the page.
            let typed: String = typed.chars().take(SHOWN).collect();
            view! {
                <Page title="This code does not open" above="Result code" dock=|| back_to(&Place::Home)>
                    <p class="fault">{why.to_string()}</p>
                    <p class="breaks">{typed}</p>
                    <a class="btn plain" href=Place::Classes.to_string()>"Type it again in a class"</a>
                </Page>
            }
            .into_any()
        }
    }
}

fn opened_screen(classes: Drawer<Class>, opened: OpenedCode) -> AnyView {
    let mending = opened.mending();
    let letters = StoredValue::new(letters(&opened.code));
    let result = ClassResult::of(opened);
    let title = match result.sheet.student {
        Some(_) => format!("{}: {}", result.student(), result.species().to_lowercase()),
        None => result.species().to_owned(),
    };
    view! {
        <Page title=title above="Result code" dock=|| back_to(&Place::Home)>
            {mending.map(|sentence| view! { <p class="care"><b>"Mended"</b>{sentence}" Compare it with what was sent."</p> })}
            {add(classes, letters)}
            {result::of(&result)}
        </Page>
    }
    .into_any()
}

fn add(classes: Drawer<Class>, letters: StoredValue<String>) -> AnyView {
    let refused = RwSignal::new(None::<String>);
    let add_to = move |id: &str| match classes.act(id, ClassAction::Add(vec![letters.get_value()]))
    {
        Ok(()) => address::go(&Place::Class(id.to_owned(), ClassSide::Board)),
        Err(refusal) => refused.set(Some(refusal.to_string())),
    };
    let add_to_new = move |_| match classes.begin(|now| Class::new(&name_of_today(), now)) {
        Ok(id) => add_to(&id),
        Err(refusal) => refused.set(Some(refusal.to_string())),
    };
    let class = move |id: String| {
        let named = classes.with(&id, |class| {
            (
                class.name.clone(),
                class.codes.contains(&letters.get_value()),
            )
        });
        let (name, there) = named.unwrap_or_default();
        view! {
            <li><button class="item" on:click=move |_| add_to(&id)>
                <span class="grow"><b>{name}</b>{there.then(|| view! { <small>"this code is there already"</small> })}</span>
            </button></li>
        }
    };
    view! {
        <section>
            <h2>"Add to a class"</h2>
            {move || refused.get().map(|sentence| view! { <p class="fault" role="alert">{sentence}</p> })}
            <ul class="rows">{move || classes.ids().into_iter().take(FIRST).map(&class).collect_view()}</ul>
            <button class="btn" on:click=add_to_new>"Add to a new class"</button>
            {move || {
                let more: Vec<String> = classes.ids().into_iter().skip(FIRST).collect();
                (!more.is_empty()).then(|| view! {
                    <details>
                        <summary>"Another class"</summary>
                        <ul class="rows">{more.into_iter().map(&class).collect_view()}</ul>
                    </details>
                })
            }}
        </section>
    }
    .into_any()
}
