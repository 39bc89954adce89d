//! One class as all its screens know it: worked out once, kept worked out while it changes.

use std::cell::RefCell;
use std::collections::HashMap;
use std::sync::Arc;

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use crate::base::refusal::Refusal;
use crate::class::board::Board;
use crate::class::class_list::{Class, ClassAction};
use crate::class::lesson::{Lesson, LessonAction};
use crate::class::settled::Settled;
use crate::device::turns::{Turn, rest};
use crate::parts::intake::Notes;
use crate::place::{ClassSide, Place};
use crate::session::drawer::Drawer;

thread_local! {
    /// The class that was worked out last: from one of its screens to the next nothing is opened again.
    static LAST: RefCell<Option<(Kept, Arc<Board>)>> = const { RefCell::new(None) };
}

/// What a board is worked out from.
type Kept = (Vec<String>, Vec<Settled>);

/// A class on one of its screens. Copied freely: it holds only handles.
#[derive(Clone, Copy)]
pub struct ClassDesk {
    pub classes: Drawer<Class>,
    pub id: StoredValue<String>,
    pub board: RwSignal<Arc<Board>>,
    /// How many codes have been opened, of how many; nothing once all are.
    pub opening: RwSignal<Option<(usize, usize)>>,
    pub notes: Notes,
    /// What the tutor keeps beside the codes.
    pub lesson: Memo<Lesson>,
    /// What the class is called.
    pub name: Memo<String>,
}

impl ClassDesk {
    /// The class `id`; nothing where it is not on this phone.
    pub fn of(classes: Drawer<Class>, id: &str) -> Option<Self> {
        classes.with_untracked(id, |_| ())?;
        let id = StoredValue::new(id.to_owned());
        let kept = move || {
            let kept = classes.with(&id.get_value(), |class| {
                (class.codes.clone(), class.settled.clone())
            });
            kept.unwrap_or_default()
        };
        let known = LAST.with_borrow(|last| {
            let (of, board) = last.as_ref()?;
            (*of == untrack(kept)).then(|| Arc::clone(board))
        });
        let desk = Self {
            classes,
            id,
            board: RwSignal::new(known.clone().unwrap_or_default()),
            opening: RwSignal::new(None),
            notes: RwSignal::new(HashMap::new()),
            lesson: Memo::new(move |_| {
                let lesson = classes.with(&id.get_value(), |class| class.lesson.clone());
                lesson.unwrap_or_default()
            }),
            name: Memo::new(move |_| {
                let name = classes.with(&id.get_value(), |class| class.name.clone());
                name.unwrap_or_default()
            }),
        };
        desk.keep_worked_out(Memo::new(move |_| kept()), known.is_some());
        Some(desk)
    }

    /// Another side of this class.
    pub fn at(self, side: ClassSide) -> Place {
        Place::Class(self.id.get_value(), side)
    }

    /// Does something to the class.
    pub fn act(self, action: ClassAction) -> Result<(), Refusal> {
        self.classes.act(&self.id.get_value(), action)
    }

    /// Does something beside the codes.
    pub fn say(self, action: LessonAction) -> Result<(), Refusal> {
        self.act(ClassAction::Lesson(action))
    }

    /// How far the opening of the codes has come.
    pub fn progress(self) -> impl IntoView {
        move || {
            self.opening.get().map(|(done, of)| {
                view! { <p class="soft" role="status">{format!("Opening {done} of {of} codes…")}</p> }
            })
        }
    }

    /// Opens the codes of the class again whenever they or the tutor's answers change, a few in each turn.
    fn keep_worked_out(self, kept: Memo<Kept>, is_known: bool) {
        let round = StoredValue::new(0_u32);
        Effect::new(move |before: Option<()>| {
            let (codes, settled) = kept.get();
            if before.is_none() && is_known {
                return;
            }
            let this = round.get_value().wrapping_add(1);
            round.set_value(this);
            spawn_local(async move {
                // A newer list, or another screen, makes this work of no use.
                let wanted = || round.try_get_value() == Some(this);
                let (mut board, mut turn) = (Board::begin(settled.clone()), Turn::begin());
                for (nth, code) in (1..).zip(&codes) {
                    board.take(nth, code);
                    if turn.pause().await {
                        if !wanted() {
                            return;
                        }
                        self.opening.set(Some((nth, codes.len())));
                    }
                }
                rest().await;
                if wanted() {
                    board.judge();
                    let board = Arc::new(board);
                    self.opening.set(None);
                    self.board.set(Arc::clone(&board));
                    LAST.set(Some(((codes, settled), board)));
                }
            });
        });
    }
}
