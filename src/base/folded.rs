//! A value inside a record that stays as its text until somebody asks for it: whoever only reads and writes the record
//! needs nothing of what the value can do. In JSON it is the value itself.

use std::any::Any;
use std::cell::RefCell;
use std::collections::VecDeque;
use std::fmt;
use std::sync::{Arc, OnceLock};

use serde::de::{Deserialize, DeserializeOwned, Deserializer};
use serde::ser::{Serialize, Serializer};
use serde_json::Error;
use serde_json::value::RawValue;

/// How many opened values are remembered, at most: those of the record at hand, before a tap and after it.
const MOST_OPEN: usize = 8;

/// A value that was opened, and the text it was opened from.
type Opened = (Box<RawValue>, Arc<dyn Any + Send + Sync>);

thread_local! {
    /// What was opened last, the latest last: a record is read anew with every tap, and what it holds folded is the same
    /// as before in most.
    static LAST: RefCell<VecDeque<Opened>> = const { RefCell::new(VecDeque::new()) };
}

/// A value as its text. Two are equal when their texts are.
pub struct Folded<T> {
    text: Box<RawValue>,
    open: OnceLock<Arc<T>>,
}

impl<T: Serialize> Folded<T> {
    /// Folds a value.
    ///
    /// # Errors
    /// A value that has no text.
    pub fn of(value: T) -> Result<Self, Error> {
        Ok(Self {
            text: serde_json::value::to_raw_value(&value)?,
            open: OnceLock::from(Arc::new(value)),
        })
    }
}

impl<T: DeserializeOwned + Send + Sync + 'static> Folded<T> {
    /// The value, read when its text is first asked for.
    ///
    /// # Errors
    /// A text that is no such value.
    pub fn open(&self) -> Result<&T, Error> {
        if let Some(open) = self.open.get() {
            return Ok(open);
        }
        let value = match self.recalled() {
            Some(value) => value,
            None => {
                let value = Arc::new(serde_json::from_str::<T>(self.text.get())?);
                remember((self.text.clone(), value.clone()));
                value
            }
        };
        Ok(self.open.get_or_init(|| value))
    }

    fn recalled(&self) -> Option<Arc<T>> {
        LAST.with_borrow(|last| {
            let same = last
                .iter()
                .rev()
                .filter(|(text, _)| text.get() == self.text.get());
            same.filter_map(|(_, value)| value.clone().downcast().ok())
                .next()
        })
    }
}

fn remember(opened: Opened) {
    LAST.with_borrow_mut(|last| {
        if last.len() >= MOST_OPEN {
            last.pop_front();
        }
        last.push_back(opened);
    });
}

/// A value to be changed, as it is or as a new one begins.
///
/// # Errors
/// A text that is no such value: a change would write over it.
pub fn to_change<T: DeserializeOwned + Clone + Default + Send + Sync + 'static>(
    folded: Option<&Folded<T>>,
) -> Result<T, Error> {
    folded.map_or_else(|| Ok(T::default()), |folded| folded.open().cloned())
}

impl<T> Clone for Folded<T> {
    fn clone(&self) -> Self {
        Self {
            text: self.text.clone(),
            open: self.open.clone(),
        }
    }
}

impl<T> PartialEq for Folded<T> {
    fn eq(&self, other: &Self) -> bool {
        self.text.get() == other.text.get()
    }
}

impl<T> Eq for Folded<T> {}

impl<T> fmt::Debug for Folded<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.text.get())
    }
}

impl<T> Serialize for Folded<T> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        self.text.serialize(to)
    }
}

impl<'de, T> Deserialize<'de> for Folded<T> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        Ok(Self {
            text: Box::<RawValue>::deserialize(from)?,
            open: OnceLock::new(),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_value_is_read_as_it_was_written_and_only_when_asked_for() {
        let folded = Folded::of(vec![1_u8, 2]).unwrap();
        let text = serde_json::to_string(&folded).unwrap();
        assert_eq!(text, "[1,2]");
        let read: Folded<Vec<u8>> = serde_json::from_str(&text).unwrap();
        assert_eq!(read, folded);
        assert!(read.open.get().is_none());
        assert_eq!(read.open().unwrap(), &[1, 2]);
        assert_eq!(read.clone().open().unwrap(), &[1, 2]);
    }

    #[test]
    fn the_same_text_is_read_once_and_each_kind_of_value_by_itself() {
        let text = "[3,4]";
        let first: Folded<Vec<u8>> = serde_json::from_str(text).unwrap();
        let again: Folded<Vec<u8>> = serde_json::from_str(text).unwrap();
        assert!(std::ptr::eq(first.open().unwrap(), again.open().unwrap()));
        let wide: Folded<Vec<u64>> = serde_json::from_str(text).unwrap();
        assert_eq!(wide.open().unwrap(), &[3, 4]);
        let other: Folded<Vec<u8>> = serde_json::from_str("[3,5]").unwrap();
        assert_eq!(other.open().unwrap(), &[3, 5]);
    }

    #[test]
    fn no_more_is_remembered_than_is_of_use() {
        for number in 0..100_u32 {
            let folded: Folded<u32> = serde_json::from_str(&number.to_string()).unwrap();
            assert_eq!(folded.open().unwrap(), &number);
        }
        assert!(LAST.with_borrow(|last| last.len() <= MOST_OPEN));
    }

    #[test]
    fn what_is_no_such_value_is_told_when_asked_for() {
        let read: Folded<Vec<u8>> = serde_json::from_str(r#"{"a":1}"#).unwrap();
        assert!(read.open().is_err());
        assert!(serde_json::from_str::<Folded<Vec<u8>>>("[1,").is_err());
    }
}
