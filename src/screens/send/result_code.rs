//! The result of one fish as a code: to read aloud, copy, share, or show to another phone.

use leptos::prelude::*;

use super::whose::Whose;
use crate::code::letters::Code;
use crate::device::address;
use crate::parts::page::{Page, back_to};
use crate::parts::parcel::{self, Parcel};
use crate::parts::qr;
use crate::parts::whole;
use crate::place::Stage;
use crate::session::hand::Hand;

/// The result code.
pub fn screen(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let whose = Whose::of(hand);
    let code = whose.code();
    let ready =
        Memo::new(move |_| code.with(|code| Some(Ready::of(code.as_ref()?.as_ref().ok()?))));
    view! {
        <Page
            title="Result code"
            above=hand.name()
            demo=hand.demo()
            dock=move || view! {
                {back_to(&hand.at(Stage::Summary))}
                {move || ready.get().map(|ready| view! {
                    <button class="btn main tall next" on:click=move |_| ready.code.send()>{parcel::send_words()}</button>
                })}
            }
        >
            <p class="soft">"The code carries your readings. Your tutor's phone works everything out from them again; nothing is sent until you send it."</p>
            {whose.fields()}
            {move || code.with(|code| match (code, ready.get()) {
                (None, _) => whole::reading(),
                (Some(Ok(code)), Some(ready)) => shown(code, ready),
                (Some(Err(refusal)), _) => view! { <p class="fault">{refusal.to_string()}</p> }.into_any(),
                (Some(Ok(_)), None) => ().into_any(),
            })}
            {move || fish.with(|fish| fish.one_fillet).then(|| view! {
                <p class="care">"A code can't say that only one fillet was weighed: tell your tutor, or the yield looks like a slip."</p>
            })}
            {move || fish.with(|fish| !fish.kept.is_empty()).then(|| view! {
                <p class="soft small">"Parts kept for another dish stay out of the code: your tutor sees the cost before they are taken off."</p>
            })}
        </Page>
    }
    .into_any()
}

/// A code ready to go: written, with its link.
#[derive(Clone, Copy, PartialEq)]
struct Ready {
    code: Parcel,
    link: Parcel,
}

impl Ready {
    fn of(code: &Code) -> Self {
        let link = link(code);
        Self {
            code: Parcel::new(code.to_string(), Some(link.clone())),
            link: Parcel::new(link, None),
        }
    }
}

/// The link that opens a code in this app.
pub(super) fn link(code: &Code) -> String {
    format!("{}{}", address::app(), code.link())
}

fn shown(code: &Code, ready: Ready) -> AnyView {
    let (written, link) = (code.to_string(), link(code));
    let href = link.clone();
    view! {
        <section class="sheet">
            <h2>"Read it out"</h2>
            <ol class="groups">
                {written.split('-').zip(code.spoken()).map(|(letters, words)| view! {
                    <li><b>{letters.to_owned()}</b><small>{words}</small></li>
                }).collect_view()}
            </ol>
            {ready.code.beside_dock("Copy the code")}
        </section>
        <section class="sheet">
            <h2>"Show it, or send the link"</h2>
            {qr::picture(&link, "QR code of the link to this result")}
            <p class="small"><a class="link" href=href>{link}</a></p>
            {ready.link.buttons("Copy the link")}
            <p class="soft small">"The link opens Scaleside with this result, without a signal where it is installed. What stands after # is never sent to the host."</p>
        </section>
    }
    .into_any()
}
