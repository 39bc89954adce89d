//! The class as a table for a spreadsheet: what each result says, what the tutor says, and who has not sent.

use super::board::Board;
use super::cell::{Separator, table};
use super::flags::Flag;
use super::lesson::{Judged, Lesson};
use super::roll::RollRow;
use super::standing::standing;
use crate::base::filleted::FilletQuestion;
use crate::base::kit::Kit;
use crate::base::refusal::Refusal;
use crate::trade::breakdown::Loss;
use crate::trade::mass::Mass;
use crate::trade::money::Money;
use crate::trade::rounding::{half_away, percent, written};

/// The first columns. Weights are in grams, yields and losses in percent of the delivered weight, costs in the
/// currency named, times in seconds.
const HEADING: [&str; 34] = [
    "nickname",
    "test",
    "date",
    "species",
    "form",
    "scale division",
    "fish",
    "delivered g",
    "off the bone g",
    "ready g",
    "yield %",
    "yield standard uncertainty %",
    "lost up to the bone %",
    "lost in trimming %",
    "currency",
    "price",
    "price per",
    "cost per usable kilo",
    "portions",
    "cost per portion",
    "kit missing",
    "skin",
    "pin bones",
    "knife",
    "fillets",
    "skin side s",
    "finish s",
    "rest s",
    "flags",
    "earlier tries",
    "earlier yields",
    "mark",
    "words",
    "code",
];

/// One line a row, in the order of the roll; then one for each nickname that is expected and has not sent. After the
/// columns that every class has stand the tutor's criteria, and their sum.
///
/// # Errors
/// A sentence if the table can't be put together.
pub fn sheet_csv(board: &Board, lesson: &Lesson, by: Separator) -> Result<String, Refusal> {
    let criteria: Vec<_> = lesson.marked().collect();
    let mut heading = HEADING.map(str::to_owned).to_vec();
    heading.extend(
        criteria
            .iter()
            .map(|criterion| format!("{} (of {})", criterion.name, criterion.most)),
    );
    if !criteria.is_empty() {
        heading.extend(["points", "points of"].map(str::to_owned));
    }
    let width = heading.len();
    let results = board.rows().iter().enumerate().map(|(nth, row)| {
        let judged = lesson.judged(row);
        let mut line = line(row, board.flags_of(nth), judged, by).to_vec();
        let points = criteria.iter().map(|criterion| {
            let points = judged.and_then(|judged| judged.points.get(&criterion.id));
            points.map_or_else(String::new, |points| by.figure(points))
        });
        line.extend(points);
        if !criteria.is_empty() {
            let sum = judged.and_then(|judged| judged.sum(criteria.iter().copied()));
            line.push(text(
                sum.map(|(points, _)| by.figure(&points.normalize().to_string())),
            ));
            line.push(text(sum.map(|(_, most)| most)));
        }
        line
    });
    let missing = standing(board, lesson);
    let missing = missing.into_iter().filter(|line| line.rows.is_empty());
    let missing = missing.map(|line| {
        let mut cells = vec![String::new(); width];
        if let Some(first) = cells.first_mut() {
            *first = line.nickname;
        }
        cells
    });
    table(std::iter::once(heading).chain(results).chain(missing), by)
}

fn line(row: &RollRow, flags: &[Flag], judged: Option<&Judged>, by: Separator) -> [String; 34] {
    let result = &row.result;
    let sheet = &result.sheet;
    let [nickname, test] = row.whose();
    let figures = result.figures.as_ref().ok();
    let cost = figures.and_then(|figures| figures.cost);
    let kit: Vec<&str> = sheet.missing.iter().copied().map(Kit::name).collect();
    let sentences: Vec<String> = flags.iter().map(Flag::sentence).collect();
    let share = |share: rust_decimal::Decimal| {
        by.figure(&written(share * rust_decimal::Decimal::ONE_HUNDRED, 2))
    };
    let lost = |nth: usize| match figures.map(|figures| figures.losses.as_slice()) {
        Some(losses @ [_, _]) => losses.get(nth).map(|loss: &Loss| share(loss.share)),
        _ => None,
    };
    let filleted = |question| text(result.filleted_told(question));
    let times = sheet.cooked.map(|cooked| cooked.secs());
    let time = |nth: usize| text(times.and_then(|times| times.get(nth).copied()));
    let earlier = row.earlier.iter().map(|earlier| match &earlier.figures {
        Ok(figures) => by.figure(&percent(
            figures.yield_ratio,
            figures.reading.percent_decimals(),
        )),
        Err(_) => "none".to_owned(),
    });
    [
        nickname,
        test,
        sheet.day.to_string(),
        result.species().to_owned(),
        sheet.form.name().to_owned(),
        sheet.scale.name(),
        sheet.count.to_string(),
        by.figure(&grams(sheet.weights.delivered)),
        text(sheet.weights.off_bone.map(|mass| by.figure(&grams(mass)))),
        by.figure(&grams(sheet.weights.ready)),
        text(figures.map(|f| share(f.yield_ratio))),
        text(figures.map(|f| by.figure(&format!("{:.3}", f.reading.standard * 100.0)))),
        text(lost(0)),
        text(lost(1)),
        text(sheet.price.map(|price| price.currency().code())),
        text(
            sheet
                .price
                .map(|price| by.figure(&price.amount().to_string())),
        ),
        text(sheet.price.map(|price| price.per().name())),
        text(cost.map(|cost| by.figure(&amount(cost.per_kilo)))),
        text(sheet.portions),
        text(
            cost.and_then(|cost| cost.per_portion)
                .map(|cost| by.figure(&amount(cost))),
        ),
        kit.join("; "),
        filleted(FilletQuestion::Skin),
        filleted(FilletQuestion::PinBones),
        filleted(FilletQuestion::Knife),
        filleted(FilletQuestion::Method),
        time(0),
        time(1),
        time(2),
        sentences.join(" "),
        row.earlier.len().to_string(),
        earlier.collect::<Vec<_>>().join("; "),
        text(judged.map(|judged| &judged.mark)),
        text(judged.map(|judged| &judged.words)),
        result.code.to_string(),
    ]
}

fn text(value: Option<impl ToString>) -> String {
    value.map_or_else(String::new, |value| value.to_string())
}

fn grams(mass: Mass) -> String {
    rust_decimal::Decimal::new(mass.mg(), 3)
        .normalize()
        .to_string()
}

/// Four decimals, as many as a price keeps.
fn amount(money: Money) -> String {
    half_away(money.amount, 4).normalize().to_string()
}
