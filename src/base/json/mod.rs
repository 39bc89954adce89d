//! Reads a value out of its JSON text, as `serde_json` does, which writes it.
//!
//! Of a text that is no such value, `serde_json` says what it found and what it had looked for, in a sentence that no cook is
//! shown; with what reads and writes fractions for it, and what reads an object that came as a list, that is a fifteenth of
//! the module that every first visit waits for. Here a fault only tells a text that was cut off from one that is wrong.

mod scan;

use std::borrow::Cow;
use std::fmt::{self, Display};
use std::iter;

use serde::de::value::{BorrowedStrDeserializer, MapDeserializer};
use serde::de::{
    self, DeserializeSeed, Deserializer, EnumAccess, IntoDeserializer, MapAccess, SeqAccess,
    Unexpected, VariantAccess, Visitor,
};

use self::scan::Scan;

/// Why a text is no such value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Misread {
    /// It stops before its end.
    Ended,
    /// It is no JSON, or another value.
    Wrong,
}

/// What `serde_json` calls a value that is kept as its text ([`serde_json::value::RawValue`]) begins with this, and no
/// name of a type does. It is asked for under the whole name, and given under it.
const KEPT_AS_TEXT: &str = "$serde_json::";

/// The value that a text is.
///
/// # Errors
/// [`Misread`] when it is none, or more than one.
pub fn read<'de, T: de::Deserialize<'de>>(text: &'de str) -> Result<T, Misread> {
    let mut scan = Scan::of(text);
    let value = T::deserialize(&mut scan)?;
    scan.end()?;
    Ok(value)
}

impl Display for Misread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Ended => "cut off",
            Self::Wrong => "another value",
        })
    }
}

impl std::error::Error for Misread {}

/// Each of these would word a sentence by itself.
impl de::Error for Misread {
    fn custom<T: Display>(_: T) -> Self {
        Self::Wrong
    }

    fn invalid_type(_: Unexpected<'_>, _: &dyn de::Expected) -> Self {
        Self::Wrong
    }

    fn invalid_value(_: Unexpected<'_>, _: &dyn de::Expected) -> Self {
        Self::Wrong
    }

    fn invalid_length(_: usize, _: &dyn de::Expected) -> Self {
        Self::Wrong
    }

    fn unknown_variant(_: &str, _: &'static [&'static str]) -> Self {
        Self::Wrong
    }

    fn unknown_field(_: &str, _: &'static [&'static str]) -> Self {
        Self::Wrong
    }

    fn missing_field(_: &'static str) -> Self {
        Self::Wrong
    }

    fn duplicate_field(_: &'static str) -> Self {
        Self::Wrong
    }
}

impl Scan<'_> {
    fn word(&mut self, word: &str) -> Result<(), Misread> {
        if self.bare()? == word {
            Ok(())
        } else {
            Err(Misread::Wrong)
        }
    }

    fn bool(&mut self) -> Result<bool, Misread> {
        self.bare()?.parse().map_err(|_| Misread::Wrong)
    }

    fn signed(&mut self) -> Result<i64, Misread> {
        self.bare()?.parse().map_err(|_| Misread::Wrong)
    }

    fn unsigned(&mut self) -> Result<u64, Misread> {
        self.bare()?.parse().map_err(|_| Misread::Wrong)
    }

    fn fraction(&mut self) -> Result<f64, Misread> {
        fraction(self.bare()?)
    }
}

fn fraction(bare: &str) -> Result<f64, Misread> {
    let read = bare.parse().ok();
    read.filter(|read: &f64| read.is_finite())
        .ok_or(Misread::Wrong)
}

macro_rules! reads {
    ($($deserialize:ident: $read:ident, $visit:ident;)*) => {$(
        fn $deserialize<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misread> {
            visitor.$visit(self.$read()?)
        }
    )*};
}

impl<'de> Deserializer<'de> for &mut Scan<'de> {
    type Error = Misread;

    reads! {
        deserialize_bool: bool, visit_bool;
        deserialize_i8: signed, visit_i64;
        deserialize_i16: signed, visit_i64;
        deserialize_i32: signed, visit_i64;
        deserialize_i64: signed, visit_i64;
        deserialize_u8: unsigned, visit_u64;
        deserialize_u16: unsigned, visit_u64;
        deserialize_u32: unsigned, visit_u64;
        deserialize_u64: unsigned, visit_u64;
        deserialize_f32: fraction, visit_f64;
        deserialize_f64: fraction, visit_f64;
    }

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misread> {
        match self.peek()? {
            b'"' => self.deserialize_str(visitor),
            b'{' => self.deserialize_map(visitor),
            b'[' => self.deserialize_seq(visitor),
            b'n' => self.deserialize_unit(visitor),
            b't' | b'f' => self.deserialize_bool(visitor),
            _ => {
                let bare = self.bare()?;
                if let Ok(whole) = bare.parse() {
                    visitor.visit_u64(whole)
                } else if let Ok(whole) = bare.parse() {
                    visitor.visit_i64(whole)
                } else {
                    visitor.visit_f64(fraction(bare)?)
                }
            }
        }
    }

    serde::forward_to_deserialize_any! { bytes byte_buf }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misread> {
        match self.string()? {
            Cow::Borrowed(text) => visitor.visit_borrowed_str(text),
            Cow::Owned(text) => visitor.visit_str(&text),
        }
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misread> {
        self.deserialize_str(visitor)
    }

    fn deserialize_char<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misread> {
        self.deserialize_str(visitor)
    }

    fn deserialize_identifier<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misread> {
        self.deserialize_str(visitor)
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misread> {
        if self.peek()? == b'n' {
            self.word("null")?;
            visitor.visit_none()
        } else {
            visitor.visit_some(self)
        }
    }

    fn deserialize_unit<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misread> {
        self.word("null")?;
        visitor.visit_unit()
    }

    fn deserialize_unit_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        visitor: V,
    ) -> Result<V::Value, Misread> {
        self.deserialize_unit(visitor)
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        visitor: V,
    ) -> Result<V::Value, Misread> {
        if !name.starts_with(KEPT_AS_TEXT) {
            return visitor.visit_newtype_struct(self);
        }
        let text = BorrowedStrDeserializer::new(self.value()?);
        visitor.visit_map(MapDeserializer::new(iter::once((name, text))))
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misread> {
        self.take(b'[')?;
        let read = visitor.visit_seq(Items::of(self))?;
        self.take(b']')?;
        Ok(read)
    }

    fn deserialize_tuple<V: Visitor<'de>>(self, _: usize, visitor: V) -> Result<V::Value, Misread> {
        self.deserialize_seq(visitor)
    }

    fn deserialize_tuple_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: usize,
        visitor: V,
    ) -> Result<V::Value, Misread> {
        self.deserialize_seq(visitor)
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misread> {
        self.take(b'{')?;
        let read = visitor.visit_map(Items::of(self))?;
        self.take(b'}')?;
        Ok(read)
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Misread> {
        self.deserialize_map(visitor)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Misread> {
        if self.peek()? == b'"' {
            return visitor.visit_enum(self.string()?.into_deserializer());
        }
        self.take(b'{')?;
        let read = visitor.visit_enum(&mut *self)?;
        self.take(b'}')?;
        Ok(read)
    }

    fn deserialize_ignored_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misread> {
        self.value()?;
        visitor.visit_unit()
    }
}

/// What stands in a list or an object.
struct Items<'a, 'de> {
    scan: &'a mut Scan<'de>,
    is_first: bool,
}

impl<'a, 'de> Items<'a, 'de> {
    fn of(scan: &'a mut Scan<'de>) -> Self {
        Self {
            scan,
            is_first: true,
        }
    }

    fn goes_on(&mut self, end: u8) -> Result<bool, Misread> {
        let is_first = std::mem::take(&mut self.is_first);
        self.scan.goes_on(is_first, end)
    }
}

impl<'de> SeqAccess<'de> for Items<'_, 'de> {
    type Error = Misread;

    fn next_element_seed<T: DeserializeSeed<'de>>(
        &mut self,
        seed: T,
    ) -> Result<Option<T::Value>, Misread> {
        if self.goes_on(b']')? {
            seed.deserialize(&mut *self.scan).map(Some)
        } else {
            Ok(None)
        }
    }
}

impl<'de> MapAccess<'de> for Items<'_, 'de> {
    type Error = Misread;

    fn next_key_seed<K: DeserializeSeed<'de>>(
        &mut self,
        seed: K,
    ) -> Result<Option<K::Value>, Misread> {
        if !self.goes_on(b'}')? {
            return Ok(None);
        }
        if self.scan.peek()? != b'"' {
            return Err(Misread::Wrong);
        }
        seed.deserialize(&mut *self.scan).map(Some)
    }

    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, Misread> {
        self.scan.take(b':')?;
        seed.deserialize(&mut *self.scan)
    }
}

/// A variant that holds something stands as the one entry of an object.
impl<'de> EnumAccess<'de> for &mut Scan<'de> {
    type Error = Misread;
    type Variant = Self;

    fn variant_seed<V: DeserializeSeed<'de>>(
        self,
        seed: V,
    ) -> Result<(V::Value, Self::Variant), Misread> {
        let variant = seed.deserialize(&mut *self)?;
        self.take(b':')?;
        Ok((variant, self))
    }
}

impl<'de> VariantAccess<'de> for &mut Scan<'de> {
    type Error = Misread;

    fn unit_variant(self) -> Result<(), Misread> {
        self.word("null")
    }

    fn newtype_variant_seed<T: DeserializeSeed<'de>>(self, seed: T) -> Result<T::Value, Misread> {
        seed.deserialize(self)
    }

    fn tuple_variant<V: Visitor<'de>>(self, _: usize, visitor: V) -> Result<V::Value, Misread> {
        self.deserialize_seq(visitor)
    }

    fn struct_variant<V: Visitor<'de>>(
        self,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Misread> {
        self.deserialize_map(visitor)
    }
}
