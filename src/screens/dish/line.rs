//! One line of a dish: what it is, how much, what is left of it, what it costs.

use leptos::prelude::*;

use crate::base::part;
use crate::cards::ingredient::{Ingredient, Origin};
use crate::cards::larder::{CardField, LineField};
use crate::cards::recipe::{RecipeAction, Serves};
use crate::device::address;
use crate::parts::choice::one_of;
use crate::parts::entry_field::{TextEntry, list};
use crate::parts::page::{Page, back_to};
use crate::place::DishSide;
use crate::screens::dish::card::units;
use crate::screens::dish::fish;
use crate::screens::dish::price;
use crate::session::desk::Desk;
use crate::trade::money::Money;
use crate::trade::plate::line::LineGroup;
use crate::trade::plate::trims::trim_for;
use crate::trade::plate::units::Dimension;
use rust_decimal::Decimal;

/// One line on its desk.
#[derive(Clone, Copy)]
pub struct LineDesk {
    /// The card it stands on.
    pub desk: Desk,
    /// Its identity on the card.
    id: StoredValue<String>,
    /// Whether the cook has tried to be done with it: then every open field says so.
    tried: RwSignal<bool>,
}

impl LineDesk {
    /// Reads the line and follows its changes.
    pub fn get<T: Default>(self, read: impl FnOnce(&Ingredient) -> T) -> T {
        self.find(read).unwrap_or_default()
    }

    fn find<T>(self, read: impl FnOnce(&Ingredient) -> T) -> Option<T> {
        self.id.with_value(|id| {
            self.desk
                .get(|card| card.lines.iter().find(|line| line.id == *id).map(read))
        })
    }

    /// Where it stands now, from nought.
    fn place(self) -> Option<usize> {
        self.id
            .with_value(|id| self.desk.get(|card| part::place_of(&card.lines, id)))
    }

    /// Changes the line.
    pub fn edit(self, change: impl FnOnce(&mut Ingredient)) {
        let was = untrack(|| self.get(Clone::clone));
        let mut is = was.clone();
        change(&mut is);
        let id = self.id.get_value();
        let (was, is) = (Box::new(was), Box::new(is));
        self.desk.send(RecipeAction::Line { id, was, is });
    }

    /// The sentence beside a field, once something is typed there or the cook has tried to be done.
    pub fn said(self, field: LineField, typed: fn(&Ingredient) -> bool) -> Signal<Option<String>> {
        Signal::derive(move || {
            let shown = self.tried.get() || self.get(typed);
            shown
                .then(|| self.desk.said(CardField::Line(self.place()?, field)))
                .flatten()
        })
    }

    /// A text of the line as a field.
    pub fn entry(
        self,
        id: &str,
        label: &str,
        read: fn(&Ingredient) -> String,
        write: fn(&mut Ingredient, String),
    ) -> TextEntry {
        TextEntry::figure(
            id,
            label,
            Signal::derive(move || self.get(read)),
            Callback::new(move |text| self.edit(move |line| write(line, text))),
        )
    }
}

/// What a line can be.
#[derive(Clone, Copy, PartialEq, Eq)]
enum What {
    Bought,
    Fish,
    Part,
}

fn what(origin: &Origin) -> What {
    match origin {
        Origin::Bought => What::Bought,
        Origin::Part(_) => What::Part,
        _ => What::Fish,
    }
}

/// One line of a dish.
pub fn screen(desk: Desk, id: &str) -> AnyView {
    let line = LineDesk {
        desk,
        id: StoredValue::new(id.to_owned()),
        tried: RwSignal::new(false),
    };
    let is_there = Memo::new(move |_| line.place().is_some());
    view! {
        {move || if is_there.get() { untrack(|| shown(line)) } else { untrack(|| gone(desk)) }}
    }
    .into_any()
}

fn gone(desk: Desk) -> AnyView {
    view! {
        <Page title="This line is not on the card" above=desk.title() dock=move || back_to(&desk.at(DishSide::Card))>
            <p>"It may have been taken out, here or in another tab. The others are on the card."</p>
        </Page>
    }
    .into_any()
}

fn shown(line: LineDesk) -> AnyView {
    let desk = line.desk;
    let done = move |_| {
        line.tried.set(true);
        let at = line.place();
        let open = desk.reading().is_some_and(|reading| {
            let of_line = |field: &CardField| matches!(field, CardField::Line(place, _) if Some(*place) == at);
            reading.faults.iter().any(|(field, _)| of_line(field))
        });
        if open {
            crate::device::focus::to_fault();
        } else {
            address::go(&desk.at(DishSide::Card));
        }
    };
    let title = Signal::derive(move || {
        format!("Line {}", line.place().map_or(1, |at| at.saturating_add(1)))
    });
    let kind = Memo::new(move |_| what(&line.get(|line| line.origin.clone())));
    let trimmed = Memo::new(move |_| line.get(|line| line.unit.kind() != Dimension::Pieces));
    view! {
        <Page title=title above=desk.title() demo=desk.demo() dock=move || view! {
            {back_to(&desk.at(DishSide::Card))}
            <button class="btn main tall next" on:click=done>"Done"</button>
        }>
            {move || {
                let came = line.get(|line| line.came_as.clone());
                (!came.is_empty()).then(|| view! { <p class="detour"><b>"It came as"</b>{came}</p> })
            }}
            {which(line, kind)}
            {move || {
                let kind = kind.get();
                untrack(|| match kind {
                    What::Bought => name(line),
                    What::Fish => fish::fields(line),
                    What::Part => part(line),
                })
            }}
            {quantity(line)}
            {move || (kind.get() == What::Bought && trimmed.get()).then(|| trim(line))}
            {move || (kind.get() != What::Part).then(|| price::fields(line, kind.get() == What::Fish))}
            {result(line)}
            {move || (kind.get() == What::Bought).then(|| supplier(line))}
            {move || desk.refused.get().map(|sentence| view! { <p class="fault" role="alert">{sentence}</p> })}
            {take_out(line)}
        </Page>
    }
    .into_any()
}

fn take_out(line: LineDesk) -> AnyView {
    let asked = RwSignal::new(false);
    let gone = move |_| {
        // The address first: the line's own screen has nothing more to show.
        address::replace(&line.desk.at(DishSide::Card));
        line.desk.send(RecipeAction::DropLine(line.id.get_value()));
    };
    view! {
        {move || if asked.get() {
            view! {
                <div class="doubt">
                    <p>"Take this line off the card?"</p>
                    <div class="row">
                        <button class="btn plain" aria-keyshortcuts="Escape" on:click=move |_| asked.set(false)>"Keep it"</button>
                        <button class="btn hot" on:click=gone>"Take it out"</button>
                    </div>
                </div>
            }.into_any()
        } else {
            view! { <button class="btn bare" on:click=move |_| asked.set(true)>"Take this line out"</button> }.into_any()
        }}
    }
    .into_any()
}

fn which(line: LineDesk, kind: Memo<What>) -> AnyView {
    one_of(
        "what",
        "What is it?",
        "three",
        vec![
            (What::Bought, "Bought".to_owned()),
            (What::Fish, "Whole fish".to_owned()),
            (What::Part, "Made ahead".to_owned()),
        ],
        move || Some(kind.get()),
        move |what| {
            line.edit(move |line| {
                line.origin = match what {
                    What::Bought => Origin::Bought,
                    What::Fish => Origin::TypedFish,
                    What::Part => Origin::Part(String::new()),
                };
            });
        },
    )
}

fn name(line: LineDesk) -> AnyView {
    TextEntry {
        keyboard: "text",
        fault: line.said(LineField::Name, |_| false),
        ..line.entry(
            "line-name",
            "Ingredient",
            |line| line.name.clone(),
            |line, text| line.name = text,
        )
    }
    .view()
}

fn part(line: LineDesk) -> AnyView {
    let desk = line.desk;
    let mut options = vec![(String::new(), "Choose the part".to_owned())];
    options.extend(desk.recipes.ids().into_iter().filter_map(|id| {
        let title = desk.recipes.with(&id, |card| {
            (card.serves == Serves::Amount).then(|| card.title())
        })??;
        Some((id, title))
    }));
    let none = options.len() == 1;
    let fault = line.said(LineField::Origin, |line| {
        line.origin != Origin::Part(String::new())
    });
    view! {
        <div class="field">
            <label for="line-part">"Which part"</label>
            <div id="line-part-hint">{none.then(|| view! { <p class="hint">"There is none yet: write it from the list of dishes, then choose it here."</p> })}</div>
            {list(
                "line-part",
                None,
                Some("line-part-hint"),
                options,
                Signal::derive(move || line.get(|line| match &line.origin {
                    Origin::Part(id) => id.clone(),
                    _ => String::new(),
                })),
                Callback::new(move |id| line.edit(move |line| line.origin = Origin::Part(id))),
            )}
            <div aria-live="polite">{move || fault.get().map(|sentence| view! { <p class="fault">{sentence}</p> })}</div>
        </div>
    }
    .into_any()
}

fn quantity(line: LineDesk) -> AnyView {
    let unit = units(
        "line-unit",
        "Unit of the quantity",
        Signal::derive(move || line.get(|line| line.unit)),
        Callback::new(move |unit| line.edit(move |line| line.unit = unit)),
    );
    let hint = Signal::derive(move || {
        line.desk
            .get(|card| match (card.serves, card.covers.trim()) {
                (Serves::Amount, _) => "Ready to use, for all that the part makes.".to_owned(),
                (Serves::Covers, "1") => "Ready to use, for the one cover.".to_owned(),
                (Serves::Covers, covers) => {
                    format!("Ready to use, for {covers} covers together.")
                }
            })
    });
    TextEntry {
        hint,
        fault: line.said(LineField::Quantity, |line| !line.quantity.trim().is_empty()),
        beside: unit,
        ..line.entry(
            "line-quantity",
            "Quantity",
            |line| line.quantity.clone(),
            |line, text| line.quantity = text,
        )
    }
    .view()
}

fn trim(line: LineDesk) -> AnyView {
    let found = Memo::new(move |_| line.get(|line| trim_for(&line.name)));
    view! {
        {TextEntry {
            hint: Signal::stored("100 less what is trimmed off. Empty: nothing is trimmed off.".to_owned()),
            fault: line.said(LineField::Trim, |line| !line.trim.trim().is_empty()),
            ..line.entry(
                "line-trim",
                "Left after trimming (%)",
                |line| line.trim.clone(),
                |line, text| line.trim = text,
            )
        }.view()}
        {move || found.get().map(|trim| {
            let percent = (trim.left() * Decimal::ONE_HUNDRED).normalize().to_string();
            let used = percent.clone();
            let taken = Memo::new({
                let percent = percent.clone();
                move |_| line.get(|line| line.trim.trim() == percent)
            });
            view! {
                <div class="detour" data-says="trim">
                    <b>{format!("Published: {} of {}", trim.told(), trim.name.to_lowercase())}</b>
                    {move || if taken.get() {
                        view! { <p>"In use. Your own weighing is better: type over it."</p> }.into_any()
                    } else {
                        let used = used.clone();
                        view! { <button class="btn plain" on:click=move |_| { let used = used.clone(); line.edit(move |line| line.trim = used); }>{format!("Use {percent} %")}</button> }.into_any()
                    }}
                    <details><summary>"Where it is from"</summary><p class="small">{trim.sentence()}</p></details>
                </div>
            }
        })}
    }
    .into_any()
}

fn supplier(line: LineDesk) -> AnyView {
    view! {
        <div class="field">
            <label for="line-group">"On the shopping list under"</label>
            {list(
                "line-group",
                None,
                None,
                LineGroup::ALL.iter().map(|group| (group.name().to_owned(), group.name().to_owned())).collect(),
                Signal::derive(move || line.get(|line| line.group().name().to_owned())),
                Callback::new(move |name: String| line.edit(move |line| {
                    line.group = LineGroup::ALL.into_iter().find(|group| group.name() == name);
                })),
            )}
        </div>
    }
    .into_any()
}

/// What the line costs, and the sum behind it.
fn result(line: LineDesk) -> AnyView {
    let view = move || {
        let reading = line.desk.reading()?;
        let own = line.place()?;
        let place = reading.places.iter().position(|at| *at == own)?;
        let read = reading.preparation.lines.get(place)?;
        let covers = reading.preparation.covers();
        let currency = reading.preparation.currency;
        let cost = read.cost().ok()?;
        let one = Money {
            amount: cost / Decimal::from(covers),
            currency,
        };
        let all = Money {
            amount: cost,
            currency,
        };
        let per = if covers == 1 {
            "in all".to_owned()
        } else {
            "a cover".to_owned()
        };
        let all = if covers == 1 {
            String::new()
        } else {
            format!("{} for {covers} covers: ", all.show())
        };
        Some(view! {
            <dl class="figures" data-says="plate"><div class="figure wide">
                <dt>"This line costs"</dt>
                <dd>{format!("{} {per}", one.show())}<small>{format!("{all}{}.", read.sum())}</small></dd>
            </div></dl>
        })
    };
    view! { <div aria-live="polite">{view}</div> }.into_any()
}
