//! What a guest may react to in a dish: gathered on top, then line by line, to be confirmed.

use leptos::prelude::*;

use crate::base::part::Part;
use crate::cards::ingredient::{Ingredient, Origin};
use crate::cards::recipe::RecipeAction;
use crate::device::download;
use crate::fish::settings::Preference;
use crate::parts::choice::{one_of, tick};
use crate::parts::page::{Page, back_to};
use crate::place::{DishSide, Place};
use crate::session::desk::Desk;
use crate::trade::plate::allergens::{Allergen, AllergenList, Gathered, LineAllergens};

/// The allergens of a dish, or of a part made ahead.
pub fn screen(desk: Desk) -> AnyView {
    let ids = Memo::new(move |_| {
        desk.get(|card| {
            let lines = card.lines.iter();
            lines.map(|line| line.id.clone()).collect::<Vec<_>>()
        })
    });
    view! {
        <Page title="Allergens" above=desk.title() demo=desk.demo() dock=move || back_to(&desk.at(DishSide::Card))>
            <div class="sheet" aria-live="polite">{move || gathered(desk)}</div>
            {whose_list(desk)}
            <div class="stack noprint">
                <For each=move || ids.get() key=Clone::clone let:id>{line(desk, id)}</For>
            </div>
            <p class="care"><b>"Read the label"</b>"A name only proposes. The label of what you bought and your local list decide; the person who supervises you says what the guest is told. The same knife, oil or pan carries allergens along."</p>
            {move || desk.refused.get().map(|sentence| view! { <p class="fault" role="alert">{sentence}</p> })}
            <button class="btn plain noprint" on:click=|_| download::print()>"Print"</button>
        </Page>
    }
    .into_any()
}

/// What all lines come to.
fn told(desk: Desk) -> Gathered {
    desk.with_larder(|larder| desk.get(|card| card.allergens(larder)))
}

/// The same as it is shown and printed, here and below the lines of a card.
pub fn gathered(desk: Desk) -> AnyView {
    let list = desk.bench.settings.with(|settings| settings.allergens);
    let Gathered {
        confirmed,
        proposed,
        open,
    } = told(desk);
    if desk.get(|card| card.lines.is_empty()) {
        return view! { <p class="soft">"No lines yet: nothing can be said."</p> }.into_any();
    }
    let row = |(allergen, names): (Allergen, Vec<String>)| {
        view! { <li><b>{allergen.name()}</b>": "{names.join(", ")}</li> }
    };
    let none = confirmed.is_empty() && open.is_empty();
    view! {
        {(!confirmed.is_empty()).then(|| view! {
            <h2>"Contains"</h2>
            <ul class="plain-list">{confirmed.into_iter().map(row).collect_view()}</ul>
        })}
        {(!proposed.is_empty()).then(|| view! {
            <h2>"By their names, not confirmed"</h2>
            <ul class="plain-list">{proposed.into_iter().map(row).collect_view()}</ul>
        })}
        {(!open.is_empty()).then(|| view! {
            <p class="doubt"><b>"Not confirmed yet: "</b>{open.join(", ")}". There may be more in them."</p>
        })}
        {none.then(|| view! { <p>"You have confirmed that no line holds any of the list."</p> })}
        <p class="soft small">{format!("By {}.", list.source())}</p>
    }
    .into_any()
}

fn whose_list(desk: Desk) -> AnyView {
    let bench = desk.bench;
    let lists = AllergenList::ALL.map(|list| (list, list.name().to_owned()));
    view! {
        <div class="noprint">
            {one_of(
                "allergen-list",
                "List",
                "",
                lists.to_vec(),
                move || Some(bench.settings.with(|settings| settings.allergens)),
                move |list| bench.prefer(Preference::Allergens(list)),
            )}
        </div>
    }
    .into_any()
}

/// One line: what is in it, to be ticked; or the way to the part that it is.
fn line(desk: Desk, id: String) -> AnyView {
    let id = StoredValue::new(id);
    let read = move |read: &dyn Fn(&Ingredient) -> AnyView| {
        let line = desk.get(|card| id.with_value(|id| find(&card.lines, id)));
        line.map(|line| read(&line))
    };
    let kind = Memo::new(move |_| {
        let line = desk.get(|card| id.with_value(|id| find(&card.lines, id)));
        line.map(|line| line.origin)
    });
    view! {
        {move || kind.get().map(|origin| match origin {
            Origin::Part(part) => untrack(|| read(&|line| of_part(desk, line, part.clone()))).into_any(),
            _ => untrack(|| Ticks { desk, id }.view()),
        })}
    }
    .into_any()
}

fn find(lines: &[Ingredient], id: &str) -> Option<Ingredient> {
    lines.iter().find(|line| line.id() == id).cloned()
}

fn of_part(desk: Desk, line: &Ingredient, part: String) -> AnyView {
    let title = desk.with_larder(|larder| line.title(larder));
    let href = Place::Dish(part, DishSide::Allergens).to_string();
    view! {
        <ul class="rows"><li><a class="item" href=href><span class="grow"><b>{title}</b><small>"Made ahead: its own lines say it"</small></span>"›"</a></li></ul>
    }
    .into_any()
}

/// The ticks of one line. Copied freely: it holds only handles.
#[derive(Clone, Copy)]
struct Ticks {
    desk: Desk,
    id: StoredValue<String>,
}

impl Ticks {
    fn line(self) -> Option<Ingredient> {
        (self.desk).get(|card| self.id.with_value(|id| find(&card.lines, id)))
    }

    /// What is said of it: its name, whether this is in it, whether that is confirmed.
    fn said(self) -> LineAllergens {
        let line = self.line();
        let said =
            line.and_then(|line| (self.desk).with_larder(|larder| line.allergens_said(larder)));
        said.unwrap_or_default()
    }

    fn change(self, change: impl FnOnce(&Ingredient) -> Option<Ingredient>) {
        let Some(was) = untrack(|| self.line()) else {
            return;
        };
        if let Some(is) = untrack(|| change(&was)) {
            let (was, is) = (Box::new(was), Box::new(is));
            let id = self.id.get_value();
            self.desk.send(RecipeAction::Line { id, was, is });
        }
    }

    fn view(self) -> AnyView {
        let said = Memo::new(move |_| self.said());
        let confirm = move |_| {
            self.change(|line| {
                (self.desk).with_larder(|larder| line.with_allergens_confirmed(larder))
            });
        };
        let state = move || {
            said.with(|said| {
                let names: Vec<&str> = said.contains.iter().map(|one| one.name()).collect();
                match (said.confirmed, names.is_empty()) {
                    (true, true) => "none: confirmed".to_owned(),
                    (true, false) => format!("{}: confirmed", names.join(", ")),
                    (false, true) => "nothing known by its name: not confirmed".to_owned(),
                    (false, false) => format!("{}? Not confirmed", names.join(", ")),
                }
            })
        };
        let open = RwSignal::new(false);
        view! {
            <details class="sheet" on:toggle=move |_| open.set(true)>
                <summary><span class="grow">{move || said.with(|said| said.name.clone())}<small class="soft">" "{state}</small></span></summary>
                {move || open.get().then(|| view! {
                    <div class="stack">
                        {move || {
                            let list = self.desk.bench.settings.with(|settings| settings.allergens);
                            view! { <div class="choices two">{list.all().map(|one| self.tick(said, one)).collect_view()}</div> }
                        }}
                    </div>
                })}
            </details>
            {move || (!said.with(|said| said.confirmed)).then(|| view! {
                <button class="btn plain" on:click=confirm>{move || said.with(|said| {
                    let names: Vec<&str> = said.contains.iter().map(|one| one.name()).collect();
                    match names.as_slice() {
                        [] => format!("Confirm: none in {}", said.name),
                        names => format!("Confirm for {}: {}, no other", said.name, names.join(", ")),
                    }
                })}</button>
            })}
        }
        .into_any()
    }

    fn tick(self, said: Memo<LineAllergens>, one: Allergen) -> AnyView {
        tick(
            one.name(),
            move || said.with(|said| said.contains.contains(&one)),
            move |is_in| {
                self.change(|line| {
                    (self.desk).with_larder(|larder| line.with_allergen(larder, one, is_in))
                });
            },
        )
        .into_any()
    }
}
