//! A value inside a record that stays as its text until somebody asks for it: whoever only reads and writes the record
//! needs nothing of what the value can do. In JSON it is the value itself.

use std::fmt;
use std::sync::{Arc, OnceLock};

use serde::de::{Deserialize, DeserializeOwned, Deserializer};
use serde::ser::{Serialize, Serializer};
use serde_json::Error;
use serde_json::value::RawValue;

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

impl<T: DeserializeOwned> Folded<T> {
    /// The value, read when it is first asked for.
    ///
    /// # Errors
    /// A text that is no such value.
    pub fn open(&self) -> Result<&T, Error> {
        if let Some(open) = self.open.get() {
            return Ok(open);
        }
        let value = serde_json::from_str(self.text.get())?;
        Ok(self.open.get_or_init(|| Arc::new(value)))
    }
}

/// A value to be changed, as it is or as a new one begins.
///
/// # Errors
/// A text that is no such value: a change would write over it.
pub fn to_change<T: DeserializeOwned + Clone + Default>(
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
    fn what_is_no_such_value_is_told_when_asked_for() {
        let read: Folded<Vec<u8>> = serde_json::from_str(r#"{"a":1}"#).unwrap();
        assert!(read.open().is_err());
        assert!(serde_json::from_str::<Folded<Vec<u8>>>("[1,").is_err());
    }
}
