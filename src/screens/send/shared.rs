//! What a share sheet of the phone gave to this app: the code in it is opened.

use std::time::Duration;

use leptos::prelude::*;

use crate::class::class_list::letters;
use crate::code::find::find;
use crate::device::address;
use crate::parts::page::{Page, back_to};
use crate::place::Place;

/// How many letters of a message are looked through: a code or two, and what was written around them.
const LOOKED_AT: usize = 20_000;
/// How many of them are shown.
const SHOWN: usize = 300;

/// Goes on to the code, or says why not.
pub fn screen() -> AnyView {
    let text = address::shared();
    let findings = find(&text.chars().take(LOOKED_AT).collect::<String>());
    let (title, said) = match findings.found.as_slice() {
        [one] => {
            let code = Place::Code(letters(&one.opened.code));
            // The place of this screen is not changed while it is built.
            set_timeout(move || address::replace_shared(&code), Duration::ZERO);
            return view! { <Page title="One moment" above="Result code">""</Page> }.into_any();
        }
        [] => {
            let why = findings
                .refused
                .first()
                .map(|refused| refused.why.to_string());
            let none = "Nothing in it is a result code.".to_owned();
            ("No code in this message", why.unwrap_or(none))
        }
        several => {
            let said = format!(
                "There are {} codes in it. Copy the message and paste it in a class: all of them are taken at once.",
                several.len()
            );
            ("More than one code", said)
        }
    };
    let shown: String = text.chars().take(SHOWN).collect();
    view! {
        <Page title=title above="Result code" dock=|| back_to(&Place::Home)>
            <p class="fault" role="alert">{said}</p>
            <p class="breaks">{shown}</p>
            <a class="btn plain" href=Place::Classes.to_string()>"Go to the classes"</a>
        </Page>
    }
    .into_any()
}
