//! Whole numbers packed one after the other into five-bit symbols, most significant bit first.

/// Bits in one symbol.
pub const SYMBOL_BITS: u32 = 5;

/// A number needs more bits than its field has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooWide;

/// The symbols end before the field does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ended;

/// Packs numbers into symbols.
#[derive(Clone, Debug, Default)]
pub struct BitWriter {
    bits: Vec<bool>,
}

impl BitWriter {
    /// Appends the low `width` bits of `value` (`width` at most 32).
    ///
    /// # Errors
    /// [`TooWide`] when `value` does not fit; nothing is written then.
    pub fn put(&mut self, value: u32, width: u32) -> Result<(), TooWide> {
        if u64::from(value) >> width != 0 {
            return Err(TooWide);
        }
        self.bits
            .extend((0..width).rev().map(|place| value >> place & 1 == 1));
        Ok(())
    }

    /// Bits written so far.
    #[must_use]
    pub fn len(&self) -> usize {
        self.bits.len()
    }

    /// Whether nothing has been written.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.bits.is_empty()
    }

    /// The symbols (0 to 31 each), the last one filled up with zero bits.
    #[must_use]
    pub fn symbols(&self) -> Vec<u8> {
        self.bits
            .chunks(SYMBOL_BITS as usize)
            .map(|bits| {
                let filled = bits.iter().copied().chain(std::iter::repeat(false));
                filled
                    .take(SYMBOL_BITS as usize)
                    .fold(0, |symbol, bit| symbol << 1 | u8::from(bit))
            })
            .collect()
    }
}

/// Takes numbers out of symbols, in the order they were put in.
#[derive(Clone, Debug)]
pub struct BitReader<'a> {
    symbols: &'a [u8],
    at: usize,
}

impl<'a> BitReader<'a> {
    /// Reads from the first bit of `symbols` (0 to 31 each).
    #[must_use]
    pub fn new(symbols: &'a [u8]) -> Self {
        Self { symbols, at: 0 }
    }

    /// The next `width` bits as a number (`width` at most 32).
    ///
    /// # Errors
    /// [`Ended`] when fewer bits are left.
    pub fn take(&mut self, width: u32) -> Result<u32, Ended> {
        let mut value = 0u32;
        for _ in 0..width {
            value = value << 1 | u32::from(self.bit()?);
        }
        Ok(value)
    }

    fn bit(&mut self) -> Result<bool, Ended> {
        let width = SYMBOL_BITS as usize;
        let symbol = self.symbols.get(self.at / width).ok_or(Ended)?;
        let place = width - 1 - self.at % width;
        self.at += 1;
        Ok(symbol >> place & 1 == 1)
    }

    /// Bits not read yet.
    #[must_use]
    pub fn left(&self) -> usize {
        self.symbols.len() * SYMBOL_BITS as usize - self.at
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_come_back_in_order_and_no_number_is_cut() {
        let mut writer = BitWriter::default();
        let fields = [
            (1, 4),
            (0, 3),
            (131_071, 17),
            (5, 3),
            (u32::MAX, 32),
            (0, 0),
        ];
        for (value, width) in fields {
            writer.put(value, width).unwrap();
        }
        assert_eq!(writer.put(8, 3), Err(TooWide));
        assert_eq!(writer.len(), 59);
        let symbols = writer.symbols();
        assert_eq!(symbols.len(), 12);
        let mut reader = BitReader::new(&symbols);
        for (value, width) in fields {
            assert_eq!(reader.take(width), Ok(value));
        }
        assert_eq!(reader.left(), 1);
        assert_eq!(reader.take(1), Ok(0));
        assert_eq!(reader.take(1), Err(Ended));
    }
}
