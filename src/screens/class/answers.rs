//! What only the tutor can say: whether a second result of one student is a correction, another fish, or another student's.
//! An answer is kept with the class, and taken back with a tap.

use leptos::prelude::*;

use crate::class::board::Board;
use crate::class::class_list::{Class, ClassAction, letters};
use crate::class::settled::{Ruling, Settled};
use crate::code::opening::open;
use crate::parts::student;
use crate::parts::words::capital;
use crate::session::drawer::Drawer;

/// How many questions and corrections are shown at once.
const SHOWN: usize = 30;

/// Where the answers of a class go.
#[derive(Clone, Copy)]
pub struct Answering {
    classes: Drawer<Class>,
    id: StoredValue<String>,
    refused: RwSignal<Option<String>>,
}

impl Answering {
    /// Those of the class `id`.
    pub fn new(classes: Drawer<Class>, id: StoredValue<String>) -> Self {
        let refused = RwSignal::new(None);
        Self {
            classes,
            id,
            refused,
        }
    }

    fn act(self, action: ClassAction) {
        let done = self.classes.act(&self.id.get_value(), action);
        self.refused
            .set(done.err().map(|refusal| refusal.to_string()));
    }

    fn button(self, words: String, code: &str, is: Ruling) -> AnyView {
        let code = code.to_owned();
        let settled = StoredValue::new(Settled { code, is });
        let settle = move |_| self.act(ClassAction::Settle(settled.get_value()));
        view! { <button class="btn plain" on:click=settle>{words}</button> }.into_any()
    }
}

/// The questions, before everything that rests on their answers.
pub fn asked(desk: Answering, board: &Board) -> AnyView {
    let all = board.asked();
    let lines: Vec<AnyView> = all
        .iter()
        .take(SHOWN)
        .filter_map(|asked| {
            let row = board.rows().get(asked.row)?;
            let code = letters(&row.all().next()?.code);
            let several = asked.of.len() > 1;
            let earlier = asked.of.iter().filter_map(|nth| {
                let other = board.rows().get(*nth)?;
                let differs = board.differs(*nth, asked.row)?;
                let words = if several {
                    format!("A correction of {}", other.student())
                } else {
                    "A correction".to_owned()
                };
                let corrects = Ruling::Corrects(letters(&other.result.code));
                Some((
                    view! { <p class="small">{capital(&differs)}"."</p> },
                    desk.button(words, &code, corrects),
                ))
            });
            let (differs, buttons): (Vec<_>, Vec<_>) = earlier.unzip();
            let name = format!("{}, {}", row.result.student(), row.result.species().to_lowercase());
            Some(
                view! {
                    <li class="stack">
                        <p><b>{name}</b></p>
                        {differs}
                        <div class="row noprint">
                            {buttons}
                            {desk.button("Another fish".to_owned(), &code, Ruling::AnotherFish)}
                            {desk.button("These are two students".to_owned(), &code, Ruling::AnotherStudent)}
                        </div>
                    </li>
                }
                .into_any(),
            )
        })
        .collect();
    if lines.is_empty() {
        return ().into_any();
    }
    let more = all.len().saturating_sub(lines.len());
    view! {
        <section class="sheet">
            <h2>"A correction, or another fish?"</h2>
            <p class="soft small">"The same letters and number came again, with other weights or for another fish. Until you say, both count."</p>
            <ul class="rows" data-says="class">{lines}</ul>
            {(more > 0).then(|| view! { <p class="soft small">{format!("And {more} more.")}</p> })}
            {move || desk.refused.get().map(|sentence| view! { <p class="fault" role="alert">{sentence}</p> })}
        </section>
    }
    .into_any()
}

/// What was taken for a correction without a question, since two weights are the same, or on the tutor's word.
pub fn corrected(desk: Answering, board: &Board) -> AnyView {
    let corrected = board.rows().iter().filter(|row| !row.earlier.is_empty());
    let lines: Vec<AnyView> = corrected
        .map(|row| {
            let earlier: Vec<String> = row.earlier.iter().map(student::said_of).collect();
            let line = format!(
                "{}, {}: {} counts, before it {}",
                row.student(),
                row.result.species().to_lowercase(),
                student::said_of(&row.result),
                earlier.join("; ")
            );
            let part = row.joined.iter().take(SHOWN).map(|code| {
                view! {
                    <div class="row noprint">
                        {desk.button("Another fish".to_owned(), code, Ruling::AnotherFish)}
                        {desk.button("These are two students".to_owned(), code, Ruling::AnotherStudent)}
                    </div>
                }
            });
            view! { <li class="stack"><p>{line}</p>{part.collect_view()}</li> }.into_any()
        })
        .collect();
    if lines.is_empty() {
        return ().into_any();
    }
    let title = format!("Corrected by the student: {}", lines.len());
    view! {
        <section class="sheet"><h2>{title}</h2><ul class="plain-list small" data-says="class">{lines}</ul></section>
    }
    .into_any()
}

/// What the tutor said, each to be taken back.
pub fn given(desk: Answering, board: &Board) -> AnyView {
    let settled = desk
        .classes
        .with_untracked(&desk.id.get_value(), |class| class.settled.clone());
    let lines = settled
        .unwrap_or_default()
        .into_iter()
        .filter_map(|settled| {
            let row = board.row_of(&settled.code)?;
            let said = match settled.is {
                Ruling::Corrects(_) => "a correction",
                Ruling::AnotherFish => "another fish",
                Ruling::AnotherStudent => "another student",
            };
            let back = move |_| desk.act(ClassAction::Unsettle(settled.code.clone()));
            Some(
                view! {
                    <li class="row">
                        <span class="grow">{row.student()}": "{said}</span>
                        <button class="btn bare noprint" on:click=back>"Take back"</button>
                    </li>
                }
                .into_any(),
            )
        });
    let lines: Vec<AnyView> = lines.collect();
    if lines.is_empty() {
        return ().into_any();
    }
    view! {
        <section class="sheet">
            <h2>"Your answers"</h2>
            <ul class="rows" data-says="class">{lines}</ul>
        </section>
    }
    .into_any()
}

/// What was taken out of the class, each to be put back.
pub fn taken_out(desk: Answering) -> AnyView {
    let all = Memo::new(move |_| {
        let all = desk.classes.with(&desk.id.get_value(), |class| {
            let all = class.taken_out.iter().rev();
            all.map(|out| out.code.clone()).collect::<Vec<_>>()
        });
        all.unwrap_or_default()
    });
    let line = move |code: String| {
        let whose = open(&code).ok().and_then(|opened| {
            let student = opened.sheet.student?;
            Some(format!("{} {}: ", student.nickname, student.test))
        });
        view! {
            <li class="row">
                <span class="grow breaks">{whose}{code.clone()}</span>
                <button class="btn bare noprint" on:click=move |_| desk.act(ClassAction::PutBack(code.clone()))>"Put back"</button>
            </li>
        }
        .into_any()
    };
    view! {
        {move || all.with(|all| (!all.is_empty()).then(|| view! {
            <details class="sheet noprint">
                <summary>{format!("Taken out: {}", all.len())}</summary>
                <ul class="rows small">{all.iter().take(SHOWN).cloned().map(line).collect_view()}</ul>
            </details>
        }))}
    }
    .into_any()
}
