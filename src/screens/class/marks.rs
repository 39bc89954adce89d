//! What the tutor says of one result: points, a mark, words; to be typed, and on paper.

use leptos::prelude::*;

use super::desk::ClassDesk;
use crate::class::answer::answer;
use crate::class::board::Board;
use crate::class::class_list::letters;
use crate::class::lesson::{Criterion, Judged, Lesson, LessonAction, TutorSays};
use crate::class::roll::RollRow;
use crate::parts::choice::fault;
use crate::trade::rounding;

/// One field: its name in the page, its label, what stands in it, and what a text in it says.
struct MarkField {
    id: String,
    label: String,
    text: fn(&Judged, &str) -> String,
    of: String,
    said: fn(&str, String) -> TutorSays,
    is_figure: bool,
}

/// The fields of the row `nth`; their names in the page begin with its place.
pub fn fields(desk: ClassDesk, board: &Board, nth: usize) -> AnyView {
    let Some(row) = board.rows().get(nth) else {
        return ().into_any();
    };
    let row = StoredValue::new(row.clone());
    let criteria = Memo::new(move |_| {
        desk.lesson
            .with(|lesson| lesson.marked().cloned().collect::<Vec<Criterion>>())
    });
    let sum = move || {
        let sum = desk.lesson.with(|lesson| {
            let judged = row.with_value(|row| lesson.judged(row).cloned())?;
            judged.sum(lesson.marked())
        });
        sum.map(|(points, most)| format!("Together {} of {most}.", points.normalize()))
    };
    view! {
        <div class="stack">
            <div class="points">
                {move || criteria.get().into_iter().map(|criterion| field(desk, row, MarkField {
                    id: format!("points-{nth}-{}", criterion.id),
                    label: format!("{}, of {}", criterion.name, criterion.most),
                    text: |judged, id| judged.points.get(id).cloned().unwrap_or_default(),
                    of: criterion.id,
                    said: |id, typed| TutorSays::Points(id.to_owned(), typed),
                    is_figure: true,
                })).collect_view()}
            </div>
            {move || sum().map(|words| view! { <p class="soft small" data-says="points">{words}</p> })}
            {field(desk, row, MarkField {
                id: format!("mark-{nth}"),
                label: "Mark".to_owned(),
                text: |judged, _| judged.mark.clone(),
                of: String::new(),
                said: |_, typed| TutorSays::Whole(typed),
                is_figure: false,
            })}
            {words(desk, row, nth)}
        </div>
    }
    .into_any()
}

/// The code under which a row was judged, or that of the result that counts.
fn code_of(lesson: &Lesson, row: &RollRow) -> String {
    let judged = lesson.judged(row).map(|judged| judged.code.clone());
    judged.unwrap_or_else(|| letters(&row.result.code))
}

fn send(
    desk: ClassDesk,
    row: StoredValue<RollRow>,
    refused: RwSignal<Option<String>>,
    judgement: TutorSays,
) {
    let code = row.with_value(|row| desk.lesson.with_untracked(|lesson| code_of(lesson, row)));
    let done = desk.say(LessonAction::Judge(code, judgement));
    refused.set(done.err().map(|refusal| refusal.to_string()));
}

fn judged(desk: ClassDesk, row: StoredValue<RollRow>) -> Judged {
    desk.lesson.with(|lesson| {
        row.with_value(|row| lesson.judged(row).cloned())
            .unwrap_or_default()
    })
}

fn field(desk: ClassDesk, row: StoredValue<RollRow>, field: MarkField) -> AnyView {
    let refused = RwSignal::new(None::<String>);
    let MarkField {
        id,
        label,
        text,
        of,
        said,
        is_figure,
    } = field;
    let fault_id = format!("{id}-fault");
    let shown = of.clone();
    view! {
        <div class="field">
            <label for=id.clone()>{label}</label>
            <input id=id.clone() type="text" autocomplete="off" inputmode=if is_figure { "decimal" } else { "text" }
                aria-describedby=fault_id.clone() prop:value=move || text(&judged(desk, row), &shown)
                on:change:target=move |event| send(desk, row, refused, said(&of, event.target().value()))/>
            {fault(fault_id, move || refused.get())}
        </div>
    }
    .into_any()
}

fn words(desk: ClassDesk, row: StoredValue<RollRow>, nth: usize) -> AnyView {
    let refused = RwSignal::new(None::<String>);
    let (id, fault_id) = (format!("words-{nth}"), format!("words-{nth}-fault"));
    view! {
        <div class="field">
            <label for=id.clone()>"Words to the student"</label>
            <textarea id=id aria-describedby=fault_id.clone() prop:value=move || judged(desk, row).words
                on:change:target=move |event| send(desk, row, refused, TutorSays::Words(event.target().value()))></textarea>
            {fault(fault_id, move || refused.get())}
        </div>
    }
    .into_any()
}

/// What goes to the student on paper: the answer, each criterion with its points, room to sign.
pub fn on_paper(board: &Board, lesson: &Lesson, nth: usize) -> AnyView {
    let Some(row) = board.rows().get(nth) else {
        return ().into_any();
    };
    let judged = lesson.judged(row).cloned().unwrap_or_default();
    let figures = row.result.figures.as_ref().ok();
    let lines = figures.map(|figures| {
        let losses = figures
            .losses
            .iter()
            .map(|loss| (loss.name, rounding::percent(loss.share, 1)));
        let own = rounding::percent(figures.yield_ratio, figures.reading.percent_decimals());
        std::iter::once(("Yield", own))
            .chain(losses)
            .collect::<Vec<_>>()
    });
    let points: Vec<(String, String)> = lesson
        .marked()
        .map(|criterion| {
            let points = judged
                .points
                .get(&criterion.id)
                .cloned()
                .unwrap_or_default();
            (
                criterion.name.clone(),
                format!("{points} of {}", criterion.most),
            )
        })
        .collect();
    let sum = judged
        .sum(lesson.marked())
        .map(|(points, most)| format!("{} of {most}", points.normalize()));
    view! {
        <section class="paper one" data-says="yield losses points">
            <h2>{row.student()}": "{row.result.species().to_lowercase()}", "{row.result.sheet.form.name()}", "{row.result.sheet.day.to_string()}</h2>
            <p>{answer(board, &Lesson::default(), nth)}</p>
            <table>
                <tbody>
                    {lines.into_iter().flatten().map(|(name, value)| view! { <tr><th scope="row">{name}</th><td class="num">{value}</td></tr> }).collect_view()}
                    {points.into_iter().map(|(name, value)| view! { <tr><th scope="row">{name}</th><td class="num">{value}</td></tr> }).collect_view()}
                    {sum.map(|sum| view! { <tr><th scope="row">"Together"</th><td class="num">{sum}</td></tr> })}
                    {(!judged.mark.is_empty()).then(|| view! { <tr><th scope="row">"Mark"</th><td class="num">{judged.mark}</td></tr> })}
                </tbody>
            </table>
            <p class="lines">{judged.words}</p>
            <p class="sign">"Tutor"</p>
        </section>
    }
    .into_any()
}
