//! A shelf that does everything a browser's may do to a text, at a chosen moment.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;

use scaleside::store::shelf::{Shelf, ShelfFault};

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mood {
    Kind,
    /// Room for so many UTF-16 units of keys and texts.
    Full(usize),
    /// No reading and no writing.
    Refuses,
    /// Reads, and refuses to write.
    ReadOnly,
    /// Keeps what is put, and then can't be read again.
    Blind,
    /// Says that it kept a text, and did not.
    Forgets,
    /// Says that it kept a text, and kept its first bytes.
    Cuts(usize),
    /// The tab is killed at its `write`th write from now (0 is the next), which keeps its first `bytes`.
    Dies {
        write: usize,
        bytes: usize,
    },
    Dead,
}

/// Something that happens once, right after a put.
type Meanwhile = Box<dyn FnOnce(&HostileShelf)>;

pub struct HostileShelf {
    pub texts: RefCell<BTreeMap<String, String>>,
    pub mood: Cell<Mood>,
    /// The keys that were written to or taken away, in order.
    pub touched: RefCell<Vec<String>>,
    pub meanwhile: RefCell<Option<Meanwhile>>,
}

impl HostileShelf {
    pub fn kind() -> Self {
        Self {
            texts: RefCell::default(),
            mood: Cell::new(Mood::Kind),
            touched: RefCell::default(),
            meanwhile: RefCell::default(),
        }
    }

    /// The same texts on a shelf that behaves: what the next start finds.
    pub fn at_next_start(&self) -> Self {
        let shelf = Self::kind();
        shelf.texts.replace(self.texts.borrow().clone());
        shelf
    }

    pub fn set(&self, key: &str, text: &str) {
        self.texts
            .borrow_mut()
            .insert(key.to_owned(), text.to_owned());
    }

    pub fn text(&self, key: &str) -> Option<String> {
        self.texts.borrow().get(key).cloned()
    }

    pub fn units(&self) -> usize {
        let units = |text: &String| text.encode_utf16().count();
        self.texts
            .borrow()
            .iter()
            .map(|(key, text)| units(key) + units(text))
            .sum()
    }

    fn reads(&self) -> Result<(), ShelfFault> {
        match self.mood.get() {
            Mood::Refuses | Mood::Dead => Err(ShelfFault::Refused("SecurityError".into())),
            _ => Ok(()),
        }
    }

    fn writes(&self, key: &str) -> Result<(), ShelfFault> {
        self.reads()?;
        self.touched.borrow_mut().push(key.to_owned());
        match self.mood.get() {
            Mood::ReadOnly => Err(ShelfFault::Refused("SecurityError".into())),
            _ => Ok(()),
        }
    }
}

fn head(text: &str, bytes: usize) -> &str {
    &text[..(0..=bytes.min(text.len()))
        .rev()
        .find(|&at| text.is_char_boundary(at))
        .unwrap()]
}

impl Shelf for HostileShelf {
    fn get(&self, key: &str) -> Result<Option<String>, ShelfFault> {
        self.reads()?;
        Ok(self.text(key))
    }

    fn put(&self, key: &str, value: &str) -> Result<(), ShelfFault> {
        self.writes(key)?;
        match self.mood.get() {
            Mood::Full(room) => {
                let before = self.text(key);
                self.set(key, value);
                if self.units() > room {
                    match before {
                        Some(before) => self.set(key, &before),
                        None => drop(self.texts.borrow_mut().remove(key)),
                    }
                    return Err(ShelfFault::Full);
                }
            }
            Mood::Forgets => {}
            Mood::Cuts(bytes) => self.set(key, head(value, bytes)),
            Mood::Dies { write: 0, bytes } => {
                self.set(key, head(value, bytes));
                self.mood.set(Mood::Dead);
                return Err(ShelfFault::Refused("killed".into()));
            }
            Mood::Dies { write, bytes } => {
                self.set(key, value);
                self.mood.set(Mood::Dies {
                    write: write - 1,
                    bytes,
                });
            }
            Mood::Blind => {
                self.set(key, value);
                self.mood.set(Mood::Refuses);
            }
            _ => self.set(key, value),
        }
        let meanwhile = self.meanwhile.take();
        if let Some(meanwhile) = meanwhile {
            meanwhile(self);
        }
        Ok(())
    }

    fn remove(&self, key: &str) -> Result<(), ShelfFault> {
        self.writes(key)?;
        match self.mood.get() {
            Mood::Forgets => {}
            Mood::Dies { write: 0, .. } => {
                self.mood.set(Mood::Dead);
                return Err(ShelfFault::Refused("killed".into()));
            }
            Mood::Dies { write, bytes } => {
                self.texts.borrow_mut().remove(key);
                self.mood.set(Mood::Dies {
                    write: write - 1,
                    bytes,
                });
            }
            _ => drop(self.texts.borrow_mut().remove(key)),
        }
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, ShelfFault> {
        self.reads()?;
        Ok(self.texts.borrow().keys().cloned().collect())
    }
}
