//! The steps of a dish, each to be opened and changed: what is refused is said beside its field.

use leptos::prelude::*;

use super::choice::tick;
use crate::base::stretch::stretch;
use crate::service::dish::Dish;
use crate::service::dish::step::{Edge, OfFish, Station, Step};
use crate::service::menu::draft::{LinkDraft, StepDraft};
use crate::service::menu::edit::Edit;
use crate::service::menu::field::{EditFault, Field};

/// The dish that is changed, and how: an edit comes back with its fault, or with none once it is kept.
#[derive(Clone, Copy)]
pub struct Editor {
    /// The dish as it stands.
    pub dish: Signal<Option<Dish>>,
    /// Makes a change.
    pub edit: Callback<Edit, Option<EditFault>>,
}

/// One step that is being changed.
#[derive(Clone, Copy)]
struct Open {
    editor: Editor,
    id: StoredValue<String>,
    draft: RwSignal<StepDraft>,
    fault: RwSignal<Option<EditFault>>,
    /// Said once a change is kept.
    kept: RwSignal<bool>,
}

impl Editor {
    /// The name of the dish and all its steps.
    pub fn view(self) -> AnyView {
        let fault = RwSignal::new(None::<EditFault>);
        let send = move |edit: Edit| fault.set(self.edit.run(edit));
        let ids = Memo::new(move |_| {
            self.dish.with(|dish| {
                let steps = dish.iter().flat_map(|dish| &dish.steps);
                steps.map(|step| step.id.clone()).collect::<Vec<_>>()
            })
        });
        view! {
            <div class="field">
                <label for="dish-called">"The dish is called"</label>
                <input id="dish-called" type="text" autocomplete="off"
                    prop:value=move || self.dish.with(|dish| dish.as_ref().map(|dish| dish.name.clone()).unwrap_or_default())
                    on:change:target=move |event| send(Edit::Name(event.target().value()))/>
                {move || fault.get().map(|fault| view! { <p class="fault" role="alert">{fault.refusal.to_string()}</p> })}
            </div>
            <div class="stack">
                <For each=move || ids.get() key=Clone::clone let:id>{self.step(&id)}</For>
            </div>
            <button class="btn" on:click=move |_| send(Edit::Add)>"Add a step"</button>
            {self.oven()}
        }
        .into_any()
    }

    /// How the oven is shared, once a step says how hot it is.
    fn oven(self) -> AnyView {
        let hot = Memo::new(move |_| {
            self.dish.with(|dish| {
                let mut steps = dish.iter().flat_map(|dish| &dish.steps);
                steps.any(|step| step.oven_c.is_some())
            })
        });
        let now = move || {
            self.dish.with(|dish| {
                let dish = dish.as_ref();
                dish.map_or((0, 0), |dish| {
                    (dish.oven_within_c, dish.oven_change_secs / 60)
                })
            })
        };
        let fault = RwSignal::new(None::<EditFault>);
        let send = move |within: String, minutes: String| {
            fault.set(self.edit.run(Edit::Oven(within, minutes)));
        };
        view! {
            {move || hot.get().then(|| view! {
                <div class="field">
                    <label for="oven-within">"Together in the oven up to (°C apart)"</label>
                    <input id="oven-within" type="text" inputmode="numeric" autocomplete="off" prop:value=move || now().0.to_string()
                        on:change:target=move |event| send(event.target().value(), untrack(now).1.to_string())/>
                </div>
                <div class="field">
                    <label for="oven-change">"The oven changes its heat in (minutes)"</label>
                    <input id="oven-change" type="text" inputmode="numeric" autocomplete="off" prop:value=move || now().1.to_string()
                        on:change:target=move |event| send(untrack(now).0.to_string(), event.target().value())/>
                    {move || fault.get().map(|fault| view! { <p class="fault" role="alert">{fault.refusal.to_string()}</p> })}
                </div>
            })}
        }
        .into_any()
    }

    fn read<T>(self, id: &str, read: impl FnOnce(&Step) -> T) -> Option<T> {
        self.dish.with(|dish| dish.as_ref()?.step(id).map(read))
    }

    fn step(self, id: &str) -> Option<AnyView> {
        let draft = untrack(|| self.read(id, StepDraft::of))?;
        let open = Open {
            editor: self,
            id: StoredValue::new(id.to_owned()),
            draft: RwSignal::new(draft),
            fault: RwSignal::new(None),
            kept: RwSignal::new(false),
        };
        let said = move || {
            let id = open.id.get_value();
            let said = self.read(&id, |step| {
                let secs = stretch(i64::from(step.lasts.unwrap_or(step.takes)));
                let place = step.station.map_or("", Station::name);
                format!("{secs} · {place}")
            });
            said.unwrap_or_default()
        };
        let title = move || {
            let id = open.id.get_value();
            self.read(&id, |step| step.title.clone())
        };
        // Built when it is first opened: a dish has many steps, and few are changed.
        let shown = RwSignal::new(false);
        Some(
            view! {
                <details class="sheet" on:toggle=move |_| shown.set(true)>
                    <summary><span class="grow">{title}<small class="soft" data-says="step">" "{said}</small></span></summary>
                    {move || shown.get().then(|| open.form())}
                </details>
            }
            .into_any(),
        )
    }
}

impl Open {
    fn send(self, edit: Edit) {
        self.fault.set(self.editor.edit.run(edit));
        self.kept.set(self.fault.with_untracked(Option::is_none));
    }

    fn said(self, of: Field) -> AnyView {
        view! {
            <div aria-live="polite">
                {move || self.fault.get().filter(|fault| fault.field == of).map(|fault| view! { <p class="fault">{fault.refusal.to_string()}</p> })}
            </div>
        }
        .into_any()
    }

    fn change(self, change: impl FnOnce(&mut StepDraft)) {
        self.kept.set(false);
        self.draft.update(change);
    }

    fn text(
        self,
        label: &'static str,
        of: Field,
        read: fn(&StepDraft) -> &String,
        write: fn(&mut StepDraft) -> &mut String,
    ) -> AnyView {
        let id = self.id.with_value(|id| format!("{id}-{}", of.key()));
        let long = matches!(of, Field::Say | Field::Caution);
        let value = move || self.draft.with(|draft| read(draft).clone());
        let named = id.clone();
        view! {
            <div class="field">
                <label for=named>{label}</label>
                {if long {
                    view! { <textarea id=id prop:value=value on:input:target=move |event| self.change(|draft| *write(draft) = event.target().value())></textarea> }.into_any()
                } else {
                    view! { <input id=id type="text" autocomplete="off" prop:value=value on:input:target=move |event| self.change(|draft| *write(draft) = event.target().value())/> }.into_any()
                }}
                {self.said(of)}
            </div>
        }
        .into_any()
    }

    fn form(self) -> AnyView {
        let id = move || self.id.get_value();
        let by_eye = Memo::new(move |_| self.draft.with(|d| !d.timed));
        let at_oven = Memo::new(move |_| self.draft.with(|d| d.station == Some(Station::Oven)));
        let save = move |_| {
            let draft = self.draft.get_untracked();
            self.send(Edit::Step(id(), Box::new(draft)));
        };
        view! {
            <div class="stack">
                {self.text("Name", Field::Title, |d| &d.title, |d| &mut d.title)}
                {self.text("What to do", Field::Say, |d| &d.say, |d| &mut d.say)}
                {self.text("Take care", Field::Caution, |d| &d.caution, |d| &mut d.caution)}
                {self.text("How long: seconds, or 1:30", Field::Secs, |d| &d.secs, |d| &mut d.secs)}
                {move || by_eye.get().then(|| self.text("For each cover past two, so many seconds more", Field::PerCover, |d| &d.per_cover, |d| &mut d.per_cover))}
                <div class="choices one">
                    {tick("On a timer that rings", move || self.draft.with(|d| d.timed), move |on| self.change(|d| d.timed = on))}
                    {tick("Hands needed all the while", move || self.draft.with(|d| d.hands), move |on| self.change(|d| d.hands = on))}
                    {tick("Begins by itself", move || self.draft.with(|d| d.at_once), move |on| self.change(|d| d.at_once = on))}
                </div>
                {self.text("Hands needed at its start, in seconds", Field::HandsFirst, |d| &d.hands_first, |d| &mut d.hands_first)}
                {self.place()}
                {move || at_oven.get().then(|| self.text("Oven at (°C)", Field::Oven, |d| &d.oven_c, |d| &mut d.oven_c))}
                {self.fish()}
                {self.links()}
                {self.said(Field::Whole)}
                <p class="small" role="status">{move || self.kept.get().then_some("Kept.")}</p>
                <div class="row">
                    <button class="btn main" on:click=save>"Keep the step"</button>
                </div>
                <div class="row">
                    <button class="btn plain" on:click=move |_| self.send(Edit::Up(id()))>"Earlier"</button>
                    <button class="btn plain" on:click=move |_| self.send(Edit::Down(id()))>"Later"</button>
                    <button class="btn plain" on:click=move |_| self.send(Edit::Remove(id()))>"Take out"</button>
                </div>
            </div>
        }
        .into_any()
    }

    fn place(self) -> AnyView {
        let value = move || {
            self.draft
                .with(|d| d.station.map(Station::name).unwrap_or_default())
        };
        let choose = move |name: String| {
            let found = Station::ALL.into_iter().find(|s| s.name() == name);
            self.change(|d| d.station = found);
        };
        self.pick(
            "Where",
            "place",
            std::iter::once((String::new(), "no place of its own".to_owned()))
                .chain(Station::ALL.map(|s| (s.name().to_owned(), s.name().to_owned())))
                .collect(),
            Signal::derive(move || value().to_owned()),
            Callback::new(choose),
        )
    }

    fn fish(self) -> AnyView {
        let choose = move |name: String| {
            let found = OfFish::ALL.into_iter().find(|part| part.name() == name);
            self.change(|d| d.of_fish = found);
        };
        self.pick(
            "Done again for each panful of fish",
            "fish",
            std::iter::once((String::new(), "no".to_owned()))
                .chain(OfFish::ALL.map(|p| (p.name().to_owned(), format!("yes: {}", p.name()))))
                .collect(),
            Signal::derive(move || {
                self.draft
                    .with(|d| d.of_fish.map(OfFish::name).unwrap_or_default().to_owned())
            }),
            Callback::new(choose),
        )
    }

    fn pick(
        self,
        label: &'static str,
        part: &str,
        options: Vec<(String, String)>,
        chosen: Signal<String>,
        choose: Callback<String>,
    ) -> AnyView {
        let id = self.id.with_value(|id| format!("{id}-{part}"));
        let named = id.clone();
        view! {
            <div class="field">
                <label for=named>{label}</label>
                <select id=id on:change:target=move |event| choose.run(event.target().value())>
                    {options.into_iter().map(|(value, words)| {
                        let own = value.clone();
                        view! { <option value=value selected=move || chosen.get() == own>{words}</option> }
                    }).collect_view()}
                </select>
            </div>
        }
        .into_any()
    }

    /// What the step waits for, with the least and the greatest gap.
    fn links(self) -> AnyView {
        let count = Memo::new(move |_| self.draft.with(|d| d.links.len()));
        let others = move || {
            let id = self.id.get_value();
            self.editor.dish.with_untracked(|dish| {
                let steps = dish.iter().flat_map(|dish| &dish.steps);
                let others = steps.filter(|step| step.id != id);
                others
                    .map(|step| (step.id.clone(), step.title.clone()))
                    .collect::<Vec<_>>()
            })
        };
        let add = move |_| {
            let first = others().into_iter().next();
            self.change(|d| {
                d.links.extend(first.map(|(to, _)| LinkDraft {
                    to,
                    edge: Edge::End,
                    least: String::new(),
                    most: String::new(),
                }));
            });
        };
        view! {
            <fieldset class="field">
                <legend>"Waits for"<span class="unseen">", "{move || self.draft.with(|d| d.title.clone())}</span></legend>
                {move || (0..count.get()).map(|nth| self.link(nth, others())).collect_view()}
                <button class="btn plain" on:click=add>"Wait for another step"</button>
            </fieldset>
        }
        .into_any()
    }

    fn link(self, nth: usize, others: Vec<(String, String)>) -> AnyView {
        let of = move |read: fn(&LinkDraft) -> String| {
            self.draft
                .with(|d| d.links.get(nth).map(read).unwrap_or_default())
        };
        let change = move |change: &dyn Fn(&mut LinkDraft)| {
            self.change(|d| {
                if let Some(link) = d.links.get_mut(nth) {
                    change(link);
                }
            });
        };
        let drop = move |_| {
            self.change(|d| {
                if nth < d.links.len() {
                    d.links.remove(nth);
                }
            });
        };
        let edges = [(Edge::End, "is done"), (Edge::Start, "begins")];
        view! {
            <div class="gap">
                <select aria-label="The step it waits for" on:change:target=move |event| { let to = event.target().value(); change(&|link| link.to.clone_from(&to)); }>
                    {others.into_iter().map(|(id, title)| {
                        let own = id.clone();
                        view! { <option value=id selected=move || of(|link| link.to.clone()) == own>{title}</option> }
                    }).collect_view()}
                </select>
                <select aria-label="From when" on:change:target=move |event| {
                    let edge = if event.target().value() == "begins" { Edge::Start } else { Edge::End };
                    change(&|link| link.edge = edge);
                }>
                    {edges.into_iter().map(|(edge, words)| view! {
                        <option value=words selected=move || self.draft.with(|d| d.links.get(nth).is_some_and(|link| link.edge == edge))>{words}</option>
                    }).collect_view()}
                </select>
                <input type="text" inputmode="numeric" aria-label="Least gap" placeholder="at least" prop:value=move || of(|link| link.least.clone())
                    on:input:target=move |event| { let text = event.target().value(); change(&|link| link.least.clone_from(&text)); }/>
                <input type="text" inputmode="numeric" aria-label="Greatest gap" placeholder="at most" prop:value=move || of(|link| link.most.clone())
                    on:input:target=move |event| { let text = event.target().value(); change(&|link| link.most.clone_from(&text)); }/>
                <button class="btn plain" on:click=drop>"Don't wait for it"</button>
                {self.said(Field::Gap(nth))}
            </div>
        }
        .into_any()
    }
}
