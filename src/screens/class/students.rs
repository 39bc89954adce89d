//! Who has sent and who was answered; all feedback at once; the roster.

use leptos::prelude::*;

use super::desk::ClassDesk;
use crate::class::answer::{as_table, as_text};
use crate::class::cell::Separator;
use crate::class::class_list::letters;
use crate::class::lesson::{LessonAction, nicknames};
use crate::class::standing::{RosterLine, standing};
use crate::device::download;
use crate::device::send::{self, Sent};
use crate::parts::choice::{fault, one_of, tick};
use crate::parts::page::{Page, back_to};
use crate::place::ClassSide;

/// What is given out at once.
#[derive(Clone, Copy)]
struct Outbox {
    desk: ClassDesk,
    /// Also to those who were answered.
    all: RwSignal<bool>,
    by: RwSignal<Separator>,
    /// Whose results they are.
    rows: Memo<Vec<usize>>,
    /// What came of it, and the codes that count as answered since.
    came: RwSignal<Option<(&'static str, Vec<String>)>>,
}

/// The students of a class.
pub fn screen(desk: ClassDesk) -> AnyView {
    let lines = Memo::new(move |_| {
        desk.board
            .with(|board| desk.lesson.with(|lesson| standing(board, lesson)))
    });
    let all = RwSignal::new(false);
    let rows = Memo::new(move |_| {
        desk.board.with(|board| {
            let rows = board.rows().iter().enumerate();
            let due = |row| all.get() || desk.lesson.with(|lesson| !lesson.is_answered(row));
            rows.filter(|(_, row)| due(row))
                .map(|(nth, _)| nth)
                .collect()
        })
    });
    let outbox = Outbox {
        desk,
        all,
        by: RwSignal::new(Separator::Comma),
        rows,
        came: RwSignal::new(None),
    };
    let due = move || rows.with(|rows| !rows.is_empty());
    view! {
        <Page title="Students and feedback" above=desk.name dock=move || view! {
            {back_to(&desk.at(ClassSide::Board))}
            {move || due().then(|| view! {
                <button class="btn main tall next" on:click=move |_| outbox.give()>{move || outbox.words()}</button>
            })}
        }>
            {desk.progress()}
            <p role="status">{move || lines.with(|lines| counted(lines))}</p>
            {came(outbox)}
            {move || lines.with(|lines| listed(desk, "Not sent yet", lines, |line| line.rows.is_empty()))}
            {move || lines.with(|lines| listed(desk, "To be answered", lines, |line| line.unanswered > 0))}
            {move || lines.with(|lines| listed(desk, "Answered", lines, |line| !line.rows.is_empty() && line.unanswered == 0))}
            {given_out(outbox)}
            {roster(desk, lines)}
        </Page>
    }
    .into_any()
}

fn counted(lines: &[RosterLine]) -> String {
    let count = |is: &dyn Fn(&RosterLine) -> bool| lines.iter().filter(|line| is(line)).count();
    let sent = count(&|line| !line.rows.is_empty());
    let missing = count(&|line| line.rows.is_empty());
    let due = count(&|line| line.unanswered > 0);
    let mut said = match sent {
        1 => "1 student has sent".to_owned(),
        sent => format!("{sent} students have sent"),
    };
    match missing {
        0 => {}
        1 => said.push_str(", 1 has not"),
        missing => said.push_str(&format!(", {missing} have not")),
    }
    match due {
        0 => said.push('.'),
        due => said.push_str(&format!("; {due} to be answered.")),
    }
    said
}

fn listed(
    desk: ClassDesk,
    title: &'static str,
    lines: &[RosterLine],
    which: fn(&RosterLine) -> bool,
) -> AnyView {
    let some: Vec<&RosterLine> = lines.iter().filter(|line| which(line)).collect();
    if some.is_empty() {
        return ().into_any();
    }
    let names = some.iter().map(|line| {
        let name = match line.nickname.as_str() {
            "" => return view! { <li class="soft">{format!("{} without a nickname", line.rows.len())}</li> }.into_any(),
            name => name.to_owned(),
        };
        let place = desk.at(ClassSide::Student(name.clone())).to_string();
        let several = (line.rows.len() > 1).then(|| format!(" · {}", line.rows.len()));
        view! { <li><a class="btn plain" href=place>{name}{several}</a></li> }.into_any()
    });
    view! {
        <section class="sheet">
            <h2>{title}": "{some.len()}</h2>
            <ul class="names">{names.collect_view()}</ul>
        </section>
    }
    .into_any()
}

impl Outbox {
    fn words(self) -> String {
        let count = self.rows.with(Vec::len);
        let what = if count == 1 { "answer" } else { "answers" };
        if send::can_share() {
            format!("Share {count} {what}…")
        } else {
            format!("Copy {count} {what}")
        }
    }

    fn text(self) -> String {
        let rows = self.rows.get_untracked();
        self.desk.board.with_untracked(|board| {
            self.desk
                .lesson
                .with_untracked(|lesson| as_text(board, lesson, &rows))
        })
    }

    fn codes(self) -> Vec<String> {
        self.desk.board.with_untracked(|board| {
            let rows = self.rows.get_untracked();
            let results = board.results(&rows);
            results.map(|result| letters(&result.code)).collect()
        })
    }

    /// Hands all of them on, by the share sheet or the clipboard. Works only inside a tap.
    fn give(self) {
        if send::can_share() {
            let report = self.report();
            send::share(&self.text(), None, report);
        } else {
            self.copy();
        }
    }

    fn copy(self) {
        let report = self.report();
        send::copy(&self.text(), report);
    }

    fn report(self) -> impl Fn(Sent) + 'static {
        let codes = self.codes();
        move |sent| match sent {
            Sent::Copied => self.answered("Copied: paste it where your students read it.", &codes),
            Sent::Shared => self.answered("Handed on.", &codes),
            Sent::Refused => {
                // The answer may come after the screen has gone.
                let _ = self.came.try_set(Some((
                    "The browser did not take it: save it as a file.",
                    Vec::new(),
                )));
            }
        }
    }

    fn save_text(self) {
        let saved = download::text(&self.file("txt"), "text/plain;charset=utf-8", &self.text());
        self.saved(saved);
    }

    fn save_table(self) {
        let rows = self.rows.get_untracked();
        let by = self.by.get_untracked();
        let table = self.desk.board.with_untracked(|board| {
            self.desk
                .lesson
                .with_untracked(|lesson| as_table(board, lesson, &rows, by))
        });
        let saved = table.is_ok_and(|table| download::table(&self.file("csv"), &table));
        self.saved(saved);
    }

    fn file(self, kind: &str) -> String {
        let name = self.desk.name.get_untracked();
        super::sheet::file_name(&format!("{name} feedback"), kind)
    }

    fn saved(self, saved: bool) {
        if saved {
            self.answered("Saved as a file.", &self.codes());
        } else {
            self.came
                .set(Some(("The browser did not take the file.", Vec::new())));
        }
    }

    fn answered(self, said: &'static str, codes: &[String]) {
        let fresh = self.desk.lesson.try_with_untracked(|lesson| {
            let fresh = codes.iter().filter(|code| !lesson.answered.contains(code));
            fresh.cloned().collect::<Vec<_>>()
        });
        // The screen may have gone meanwhile.
        let Some(fresh) = fresh else { return };
        // What can't be kept is told by the drawer.
        let _ = self.desk.say(LessonAction::Answer(fresh.clone()));
        self.came.set(Some((said, fresh)));
    }
}

/// What came of giving out, and the way back.
fn came(outbox: Outbox) -> AnyView {
    let undo = move |_| {
        if let Some((_, codes)) = outbox.came.get_untracked() {
            let _ = outbox.desk.say(LessonAction::Unanswer(codes));
            outbox.came.set(None);
        }
    };
    view! {
        <div role="status">
            {move || outbox.came.get().map(|(said, codes)| view! {
                <div class="notice">
                    <p>{said}{(!codes.is_empty()).then(|| format!(" {} count as answered now.", codes.len()))}</p>
                    {(!codes.is_empty()).then(|| view! { <button class="btn plain" on:click=undo>"Not answered after all"</button> })}
                </div>
            })}
        </div>
    }
    .into_any()
}

fn given_out(outbox: Outbox) -> AnyView {
    let by = outbox.by;
    let options = Separator::ALL.map(|by| (by, by.name().to_owned())).to_vec();
    let opened = RwSignal::new(false);
    let preview = move || {
        outbox.desk.board.with(|board| {
            let rows = outbox.rows.get();
            outbox
                .desk
                .lesson
                .with(|lesson| as_text(board, lesson, &rows))
        })
    };
    let filled = move || outbox.desk.board.with(|board| !board.rows().is_empty());
    view! {
        {move || filled().then(|| view! {
            <section class="sheet">
                <h2>"All feedback at once"</h2>
                {tick("Also to those who were answered", move || outbox.all.get(), move |all| outbox.all.set(all))}
                <details on:toggle=move |_| opened.set(true)>
                    <summary>"Read it first"</summary>
                    <p class="quote lines small" data-says="yield losses cost flag">{move || opened.get().then(preview)}</p>
                </details>
                <div class="row">
                    <button class="btn" on:click=move |_| outbox.copy()>"Copy it"</button>
                    <button class="btn" on:click=move |_| outbox.save_text()>"Save as text"</button>
                </div>
                {one_of("feedback-by", "Table: between the cells", "one", options.clone(), move || Some(by.get()), move |one| by.set(one))}
                <button class="btn" on:click=move |_| outbox.save_table()>"Save as a table (CSV)"</button>
            </section>
        })}
    }
    .into_any()
}

/// The nicknames that are expected: added, taken off, put back.
fn roster(desk: ClassDesk, lines: Memo<Vec<RosterLine>>) -> AnyView {
    let typed = RwSignal::new(String::new());
    let refused = RwSignal::new(None::<String>);
    let expect = move |nicknames: Vec<String>| {
        let done = desk.say(LessonAction::Expect(nicknames));
        refused.set(done.as_ref().err().map(ToString::to_string));
        done.is_ok()
    };
    let add = move |_| {
        let (good, bad) = typed.with_untracked(|text| nicknames(text));
        if good.is_empty() && bad.is_empty() {
            return refused.set(Some(
                "Type the nicknames, with spaces between them.".to_owned(),
            ));
        }
        if expect(good) {
            typed.set(bad.join(" "));
            if !bad.is_empty() {
                refused.set(Some(
                    "These are left: a nickname has one to four letters, A to Z.".to_owned(),
                ));
            }
        }
    };
    let sent = move || {
        lines.with(|lines| {
            let sent = lines
                .iter()
                .filter(|line| !line.is_expected && !line.nickname.is_empty());
            // Two students of one nickname are told apart on the board alone.
            let plain = sent.filter(|line| !line.nickname.contains(' '));
            plain.map(|line| line.nickname.clone()).collect::<Vec<_>>()
        })
    };
    let of = move |gone: bool| {
        desk.lesson.with(|lesson| {
            let some = lesson.expected.iter().filter(|one| one.gone == gone);
            some.map(|one| one.nickname.clone()).collect::<Vec<_>>()
        })
    };
    let take_off = move |nickname: String| {
        let _ = desk.say(LessonAction::Unexpect(nickname));
    };
    view! {
        <section class="sheet">
            <h2>"Roster"</h2>
            <div class="field">
                <label for="nicknames">"Nicknames of the class"</label>
                <p class="hint" id="nicknames-hint">"Up to four letters each, and no names: whoever is here and has not sent is listed above."</p>
                <textarea id="nicknames" autocomplete="off" autocapitalize="characters" spellcheck="false" aria-describedby="nicknames-hint nicknames-fault"
                    prop:value=move || typed.get() on:input:target=move |event| typed.set(event.target().value())></textarea>
                {fault("nicknames-fault", move || refused.get())}
            </div>
            <div class="row">
                <button class="btn" on:click=add>"Add to the roster"</button>
                {move || match sent() {
                    sent if sent.is_empty() => ().into_any(),
                    sent => view! {
                        <button class="btn plain" on:click=move |_| { expect(sent.clone()); }>{format!("Add the {} who have sent", sent.len())}</button>
                    }.into_any(),
                }}
            </div>
            {move || match of(false) {
                names if names.is_empty() => ().into_any(),
                names => view! {
                    <details>
                        <summary>{format!("On the roster: {}", names.len())}</summary>
                        <ul class="names">{names.into_iter().map(|name| {
 let label = format!("Take {name} off the roster");
 let shown = name.clone();
 view! { <li><button class="btn plain" aria-label=label on:click=move |_| take_off(name.clone())>{shown}" ×"</button></li> }
 }).collect_view()}</ul>
                    </details>
                }.into_any(),
            }}
            {move || match of(true) {
                names if names.is_empty() => ().into_any(),
                names => view! {
                    <div>
                        <h3>"Taken off: tap to put back"</h3>
                        <ul class="names">{names.into_iter().map(|name| {
 let label = format!("Put {name} back on the roster");
 let shown = name.clone();
 view! { <li><button class="btn plain" aria-label=label on:click=move |_| { expect(vec![name.clone()]); }>{shown}</button></li> }
 }).collect_view()}</ul>
                    </div>
                }.into_any(),
            }}
        </section>
    }
    .into_any()
}
