//! The service at a glance, for a phone that stands beside the stove: it never scrolls. The timer that presses most is
//! large, the others beside it, one sentence says what to do now, the tap that is due is in the dock.

use std::sync::Arc;

use leptos::prelude::*;

use super::due::DueDock;
use super::taps::Taps;
use super::{drawn, faces, follows, hours, large, mute_line, probe};
use crate::base::text::first_sentence;
use crate::device::{touch, width};
use crate::parts::estimated::{self, Told};
use crate::parts::page::Page;
use crate::parts::planned::{self, ShownPlan};
use crate::parts::{timer, words};
use crate::place::Stage;
use crate::service::dish::step::{OfFish, Step};
use crate::service::run::Tap;
use crate::service::timetable::face::Face;
use crate::service::timetable::glance::{Glance, sentence};
use crate::session::hand::Hand;

/// The step of the shipped dishes that is drawn as a plate.
const PLATING: &str = "plate";

/// What stands below the timers.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Below {
    /// One sentence, and what comes.
    Brief,
    /// All that is written of the step.
    Whole,
    Probe,
}

/// What is said in words of what is to be done now.
#[derive(Clone, PartialEq, Eq)]
enum Says {
    /// What follows for the fish says it all.
    Nothing,
    Step(String),
    Over,
    Wait,
}

/// One screen of a service. Copied freely: it holds only handles.
#[derive(Clone, Copy)]
struct Stove {
    taps: Taps,
    planned: ShownPlan,
    faces: Memo<Vec<Face>>,
    glance: Memo<Glance>,
    /// The timer that the cook wants large.
    chosen: RwSignal<Option<String>>,
    below: RwSignal<Below>,
    /// What the estimate says of the fish in hand.
    told: RwSignal<Told>,
}

/// What of the service comes with the screens around it, when it is first asked for.
#[derive(Clone, Copy)]
pub struct Around {
    /// The probe, in words and figures.
    pub probe: fn(Hand, RwSignal<Told>) -> AnyView,
    /// What is to come, beside the timers of a wide screen.
    pub to_come: fn(Hand, ShownPlan) -> AnyView,
}

/// The service.
pub fn screen(hand: Hand, around: Around) -> AnyView {
    let fish = hand.fish;
    if let Some(other) = super::not_cooking(hand) {
        return other;
    }
    let planned = planned::of_fish(hand);
    let faces = faces(hand, planned);
    let chosen = RwSignal::new(None::<String>);
    let glance = Memo::new(move |_| {
        let now = hand.bench.now.get();
        faces.with(|faces| chosen.with(|chosen| Glance::of(faces, chosen.as_deref(), now)))
    });
    let stove = Stove {
        taps: Taps::of(hand),
        planned,
        faces,
        glance,
        chosen,
        below: RwSignal::new(Below::Brief),
        told: estimated::of_fish_in_hand(fish, hand.bench.now),
    };
    let over = Memo::new(move |_| fish.with(crate::fish::record::Fish::is_over));
    let due = DueDock::of(stove.taps, faces, over);
    let by_knuckle = touch::on_double(move || due.without_aiming());
    on_cleanup(move || by_knuckle.remove());
    view! {
        <Page
            title=Stage::Service.name()
            above=hand.name()
            at=Stage::Service
            demo=hand.demo()
            dock=move || due.view(Stage::Prepare)
        >
            <div class="stove" data-says="plan step heat">
                {stove.hours()}
                <div class="timers">
                    {stove.large()}
                    {stove.others()}
                </div>
                <div class="below">
                    {stove.taps.fault()}
                    {move || match stove.below.get() {
                        Below::Brief => stove.brief(over),
                        Below::Whole => stove.whole(),
                        Below::Probe => stove.folded((around.probe)(hand, stove.told)),
                    }}
                </div>
                {width::is_wide().then(|| (around.to_come)(hand, planned))}
            </div>
        </Page>
    }
    .into_any()
}

impl Stove {
    fn hand(self) -> Hand {
        self.taps.hand
    }

    /// The step `id` as the dish has it.
    fn step(self, id: &str) -> Option<Arc<Step>> {
        self.hand()
            .fish
            .with_untracked(|fish| Some(Arc::new(fish.dish().ok()?.step(id)?.clone())))
    }

    fn face(self, id: String) -> Memo<Option<Face>> {
        Memo::new(move |_| {
            (self.faces).with(|faces| faces.iter().find(|face| face.id == id).cloned())
        })
    }

    /// The hour, the hour of the plate, and what keeps an alarm from being heard.
    fn hours(self) -> AnyView {
        let hand = self.hand();
        view! {
            <div class="hours">
                {hours::line(hand, self.planned)}
                {mute_line(hand.bench)}
            </div>
        }
        .into_any()
    }

    /// The large timer; where none runs, the time until the plate.
    fn large(self) -> AnyView {
        let id = Memo::new(move |_| self.glance.with(|glance| glance.large.clone()));
        let now = self.hand().bench.now;
        let left = Memo::new(move |_| {
            let plate = hours::plate_at(self.hand(), self.planned)?;
            Some(plate.ms_since(now.get()))
        });
        view! {
            {move || {
                let found = id.get().and_then(|id| Some((self.step(&id)?, id)));
                match found {
                    Some((step, id)) => large::timer(self.taps, step, self.face(id)),
                    None => large::until_plate(left),
                }
            }}
        }
        .into_any()
    }

    fn others(self) -> AnyView {
        let ids = Memo::new(move |_| self.glance.with(|glance| glance.small.clone()));
        large::others(self.taps, ids, self.faces, self.chosen)
    }

    /// What to do now in one sentence, and what comes.
    fn brief(self, over: Memo<bool>) -> AnyView {
        let hand = self.hand();
        let about =
            Memo::new(move |_| (self.glance).with(|glance| glance.about().map(str::to_owned)));
        let follows = follows::of_fish(hand, self.told);
        // What the fish needs stands for what its step says; beside what else is due, above it. One memo for the view
        // that reads it.
        let says = Memo::new(move |_| {
            let id = about.get();
            let step = id.as_ref().and_then(|id| self.step(id));
            let is_in_hand = step.is_some_and(|step| step.of_fish.is_some_and(OfFish::has_fish));
            match (id, over.get()) {
                (Some(_), _) if is_in_hand && follows.with(|follows| !follows.is_empty()) => {
                    Says::Nothing
                }
                (Some(id), _) => Says::Step(id),
                (None, true) => Says::Over,
                (None, false) => Says::Wait,
            }
        });
        view! {
            {move || follows::all(hand, follows.get(), self.taps.refused)}
            {move || match says.get() {
                Says::Nothing => ().into_any(),
                Says::Step(id) => self.about(&id),
                Says::Over => view! { <p class="say">"All is done. Check the plate before it goes."</p> }.into_any(),
                Says::Wait => view! { <p class="say">"Nothing to do until the next step."</p> }.into_any(),
            }}
            <div class="foot">
            <div class="ways">
                {move || about.get().map(|_| view! { <button class="btn plain" on:click=move |_| self.below.set(Below::Whole)>"How, why"</button> })}
                {self.probe_way()}
                <a class="btn plain all" href=hand.at(Stage::AllSteps).to_string()>{Stage::AllSteps.name()}</a>
            </div>
            <div class="comes">
                {self.next()}
                {planned::age(self.planned)}
            </div>
            </div>
        }
        .into_any()
    }

    fn about(self, id: &str) -> AnyView {
        let Some(step) = self.step(id) else {
            return ().into_any();
        };
        let hand = self.hand();
        let missing = hand.fish.with_untracked(|fish| fish.slip.missing.clone());
        let face = self.face(id.to_owned());
        let care = step
            .care(&missing)
            .map(|care| view! { <p class="care small">{first_sentence(care).to_owned()}</p> });
        let (title, id) = (step.title.clone(), id.to_owned());
        // The large timer says its name itself.
        let is_other =
            Memo::new(move |_| (self.glance).with(|glance| glance.large.as_ref() != Some(&id)));
        let said = Memo::new(move |_| {
            let now = hand.bench.now.get();
            face.with(|face| {
                face.as_ref()
                    .map(|face| sentence(&step, &face.state, &missing, now))
            })
        });
        let warning = Memo::new(move |_| face.with(|face| face.as_ref()?.warning.clone()));
        view! {
            <p class="say">
                {move || is_other.get().then(|| view! { <b>{title.clone()}": "</b> })}
                {move || said.get()}
            </p>
            {move || warning.get().map(|warning| view! { <p class="fault small">{warning}</p> })}
            {care}
        }
        .into_any()
    }

    fn probe_way(self) -> AnyView {
        let in_hand = probe::is_in_hand(self.hand());
        view! {
            {move || in_hand.get().then(|| view! { <button class="btn plain" on:click=move |_| self.below.set(Below::Probe)>"Probe"</button> })}
        }
        .into_any()
    }

    /// What comes next, and how long until then, as a way to all steps; it can be begun early where nothing is in its way.
    /// Where the plan does not fit, that: the ways out stand there.
    fn next(self) -> AnyView {
        let next = Memo::new(move |_| self.glance.with(|glance| glance.next.clone()));
        let now = self.hand().bench.now;
        let all = self.hand().at(Stage::AllSteps).to_string();
        let stuck =
            Memo::new(move |_| self.planned.with(|planned| matches!(planned, Some(Err(_)))));
        let no_fit = all.clone();
        view! {
            {move || stuck.get().then(|| view! {
                <a class="nextline stuck" href=no_fit.clone()>"Does not fit: ways out"</a>
            })}
            {move || next.get().filter(|_| !stuck.get()).and_then(|(id, can_begin)| {
                let (step, face) = (self.step(&id)?, self.face(id.clone()));
                let left = move || {
                    let begins = face.with(|face| face.as_ref()?.span.map(|(start, _)| start));
                    begins.map_or_else(|| "…".to_owned(), |begins| words::face(begins.ms_since(now.get())))
                };
                Some(view! {
                    <a class="nextline" href=all.clone()><span>"Next: "<b>{step.short_title()}</b></span><b class="num">{left}</b></a>
                    {can_begin.then(|| view! {
                        <button class="btn plain early" on:click=move |_| self.taps.send(Tap::Begin(id.clone()))>"Begin early"</button>
                    })}
                })
            })}
        }
        .into_any()
    }

    /// All that is written of the step in hand.
    fn whole(self) -> AnyView {
        let fish = self.hand().fish;
        let about = self
            .glance
            .with_untracked(|glance| glance.about().map(str::to_owned));
        let step = about.and_then(|id| self.step(&id));
        let is_shipped = fish.with_untracked(|fish| fish.own_dish.is_none());
        let said = step.map(|step| {
            view! {
                <h2>{step.title.clone()}</h2>
                {(is_shipped && step.id == PLATING).then(drawn::plate)}
                {timer::said(fish, &step)}
                <p class="soft small">"With wet hands: tap twice beside the buttons, and what is due is done. “Undo” takes it back."</p>
                {step.note.clone().map(|note| view! { <p class="soft small">{note}</p> })}
            }
        });
        self.folded(view! { <section class="sheet">{said}</section> }.into_any())
    }

    /// Something longer, which scrolls by itself below the timers, and the way back from it.
    fn folded(self, what: AnyView) -> AnyView {
        view! {
            <div class="longer">{what}</div>
            <button class="btn plain" on:click=move |_| self.below.set(Below::Brief)>"Close"</button>
        }
        .into_any()
    }
}
