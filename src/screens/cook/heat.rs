//! How the fillet cooks: its thickness, and at once when to turn it and when to lift it; the rest is folded.

use leptos::prelude::*;

use super::by_eye;
use super::timing::Timing;
use crate::cards::pan::KeptPan;
use crate::fish::action::Action;
use crate::fish::heat_card::{Flame, HeatField, HeatTap, PanCard};
use crate::heat::advice::BY_EYE_MM;
use crate::heat::pan::{Material, Surface};
use crate::heat::safety::Rule;
use crate::parts::choice::{fault, one_of};
use crate::parts::estimated::{self, Told};
use crate::parts::later::later;
use crate::parts::page::{Page, back_to};
use crate::parts::words;
use crate::place::Stage;
use crate::session::drawer::Drawer;
use crate::session::hand::Hand;

/// The heat card.
pub fn screen(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let refused = RwSignal::new(None);
    let tap = Callback::new(move |tap: HeatTap| {
        hand.send(Action::Heat(tap), refused);
    });
    let told = estimated::of_fish(fish, hand.bench.now);
    let timing = Timing::of(hand, told, refused);
    view! {
        <Page
            title="How the fillet cooks"
            above=hand.name()
            at=Stage::Prepare
            demo=hand.demo()
            dock=move || view! {
                {back_to(&hand.at(Stage::Prepare))}
                {timing.due()}
            }
        >
            {thickness(hand, tap, told)}
            {estimated::brief(told, move |refusal| fish.with_untracked(|fish| !fish.heat().is_measured() || HeatField::Thickness.is_refused(fish.heat(), refusal)))}
            {timing.or_the_dish()}
            {later(move || view! {
                {pan(hand, tap, told)}
                {wanted(hand, tap, told)}
                <details>
                    <summary>"Why, and how sure"</summary>
                    <div class="stack">{estimated::answers(fish, told)}</div>
                </details>
            }.into_any())}
            {fault("heat-fault", move || refused.get())}
        </Page>
    }
    .into_any()
}

fn field(
    (hand, tap, told): (Hand, Callback<HeatTap>, RwSignal<Told>),
    id: &'static str,
    of: HeatField,
    label: &'static str,
    hint: &'static str,
) -> AnyView {
    let fish = hand.fish;
    let refused = move || {
        told.with(|told| match told {
            Told::Refused(refusal)
                if fish.with_untracked(|fish| of.is_refused(fish.heat(), refusal)) =>
            {
                Some(refusal.to_string())
            }
            _ => None,
        })
    };
    let hinted = (!hint.is_empty()).then(|| format!("{id}-hint "));
    view! {
        <div class="field">
            <label for=id>{label}</label>
            {(!hint.is_empty()).then(|| view! { <p class="hint" id=format!("{id}-hint")>{hint}</p> })}
            <input id=id type="text" inputmode="decimal" autocomplete="off"
                aria-describedby=format!("{}{id}-fault", hinted.unwrap_or_default())
                prop:value=move || fish.with(|fish| fish.heat().field(of).to_owned())
                on:input:target=move |event| tap.run(HeatTap::Typed(of, event.target().value()))/>
            <div id=format!("{id}-fault") aria-live="polite">
                {move || refused().map(|sentence| view! { <p class="fault">{sentence}</p> })}
            </div>
        </div>
    }
    .into_any()
}

/// The one thing that must be known.
fn thickness(hand: Hand, tap: Callback<HeatTap>, told: RwSignal<Told>) -> AnyView {
    let fish = hand.fish;
    let unmeasured = Memo::new(move |_| fish.with(|fish| !fish.heat().is_measured()));
    let is_by_eye = Memo::new(move |_| fish.with(|fish| fish.heat().by_eye));
    view! {
        <section>
            // The field says it as well.
            <h2 class:unseen=move || !unmeasured.get()>"How thick is it?"</h2>
            {move || unmeasured.get().then(|| by_eye::choices(tap))}
            {field((hand, tap, told), "thickness", HeatField::Thickness, "Thickest part, mm", "")}
            {move || is_by_eye.get().then(|| view! { <p class="soft small" data-says="heat">{format!("By eye: ± {BY_EYE_MM} mm.")}</p> })}
        </section>
    }
    .into_any()
}

fn pan(hand: Hand, tap: Callback<HeatTap>, told: RwSignal<Told>) -> AnyView {
    let fish = hand.fish;
    let summary = move || {
        fish.with(|fish| {
            let pan = &fish.heat().pan;
            format!(
                "Pan: {}, {} heat",
                pan.material.name(),
                fish.heat().flame.name(),
            )
        })
    };
    view! {
        <div>
            <details>
                <summary>{summary}</summary>
                <div class="stack">
                    {kept_pans(hand, tap)}
                    {one_of("material", "Made of", "", Material::ALL.map(|m| (m, words::capital(m.name()))).into(), move || Some(fish.with(|fish| fish.heat().pan.material)), move |m| tap.run(HeatTap::Material(m)))}
                    {field((hand, tap, told), "pan-mass", HeatField::PanMass, "Its weight, in g", "Set it on the scale, without a lid.")}
                    {field((hand, tap, told), "pan-base", HeatField::PanBase, "Flat base across, in mm", "")}
                    {one_of("surface", "The skin lies on", "one", Surface::ALL.map(|s| (s, words::capital(s.name()))).into(), move || Some(fish.with(crate::fish::record::Fish::surface)), move |s| tap.run(HeatTap::Surface(s)))}
                    {one_of("flame", "Heat", "", Flame::ALL.map(|f| (f, words::capital(f.name()))).into(), move || Some(fish.with(|fish| fish.heat().flame)), move |f| tap.run(HeatTap::Flame(f)))}
                </div>
            </details>
        </div>
    }
    .into_any()
}

/// The pans kept on this phone, with what their own readings say of them.
fn kept_pans(hand: Hand, tap: Callback<HeatTap>) -> AnyView {
    let fish = hand.fish;
    let pans = Drawer::<KeptPan>::here();
    let name = RwSignal::new(String::new());
    let refused = RwSignal::new(None::<String>);
    let choose = move |id: String| {
        let surface = fish.with_untracked(crate::fish::record::Fish::surface);
        let card = pans.with_untracked(&id, |pan| PanCard {
            contact_w_per_m2_k: pan
                .contact(surface)
                .map(|contact| contact.conductance_w_per_m2_k),
            ..pan.card.clone()
        });
        tap.run(HeatTap::Pan(match card {
            Some(card) => PanCard {
                kept: Some(id),
                ..card
            },
            None => PanCard::default(),
        }));
    };
    let keep = move |_| {
        let card = fish.with_untracked(|fish| fish.heat().pan.clone());
        match pans.begin(|now| KeptPan::named(&name.get_untracked(), &card, now)) {
            Ok(id) => {
                refused.set(None);
                name.set(String::new());
                choose(id);
            }
            Err(refusal) => refused.set(Some(refusal.to_string())),
        }
    };
    let chosen =
        Memo::new(move |_| fish.with(|fish| fish.heat().pan.kept.clone().unwrap_or_default()));
    let fitted = move || {
        let surface = fish.with(crate::fish::record::Fish::surface);
        let contact = pans
            .with(&chosen.get(), |pan| pan.contact(surface))
            .flatten()?;
        Some(view! {
            <p class="soft small">{format!(
                "Fitted to this pan's own {}: {} W/m²K to the fish, within a factor of {:.1}.",
                match contact.readings { 1 => "reading".to_owned(), n => format!("{n} readings") },
                contact.conductance_w_per_m2_k,
                f64::from(contact.factor_percent) / 100.0
            )}</p>
        })
    };
    view! {
        {move || (!pans.ids().is_empty()).then(|| view! {
            <div class="field">
                <label for="kept-pan">"A pan of this kitchen"</label>
                <select id="kept-pan" on:change:target=move |event| choose(event.target().value())>
                    <option value="" selected=move || chosen.get().is_empty()>"Another pan"</option>
                    {pans.ids().into_iter().map(|id| {
                        let named = pans.with(&id, |pan| pan.name.clone()).unwrap_or_default();
                        let value = id.clone();
                        view! { <option value=value selected=move || chosen.get() == id>{named}</option> }
                    }).collect_view()}
                </select>
            </div>
        })}
        {fitted}
        {move || chosen.get().is_empty().then(|| view! {
            <div class="field">
                <label for="pan-name">"Keep this pan as"</label>
                <p class="hint" id="pan-hint">"Then its own probe readings make the next estimate better."</p>
                <div class="row">
                    <input id="pan-name" type="text" autocomplete="off" aria-describedby="pan-hint pan-fault" prop:value=move || name.get()
                        on:input:target=move |event| name.set(event.target().value())/>
                    <button class="btn" aria-keyshortcuts="Enter" on:click=keep>"Keep"</button>
                </div>
                {fault("pan-fault", move || refused.get())}
            </div>
        })}
    }
    .into_any()
}

fn wanted(hand: Hand, tap: Callback<HeatTap>, told: RwSignal<Told>) -> AnyView {
    let fish = hand.fish;
    let core = move || fish.with(|fish| format!("Middle wanted: {} °C", fish.heat().core.trim()));
    view! {
        <div data-typed="">
            <details>
                <summary>{core}</summary>
                <div class="stack">
                    {one_of("rule", "Your local rule", "one", Rule::ALL.map(|rule| (rule, words::capital(rule.name()))).into(), move || Some(fish.with(|fish| fish.heat().rule)), move |rule| tap.run(HeatTap::Rule(rule)))}
                    <p class="soft small">{move || fish.with(|fish| format!("{}. Your local code decides which rule is yours.", fish.heat().rule.source()))}</p>
                    {field((hand, tap, told), "core", HeatField::Core, "Middle at its hottest, in °C", "The middle of the thickest part: cooks call it the core.")}
                    {field((hand, tap, told), "thin-end", HeatField::ThinEnd, "Thin end, in mm", "If it is much thinner. It may be left empty.")}
                    {field((hand, tap, told), "start", HeatField::Start, "When it goes in, in °C", "Straight from the fridge: about 5.")}
                </div>
            </details>
        </div>
    }
    .into_any()
}
