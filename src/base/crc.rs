//! The checksum of what is kept: CRC-32 (ISO-HDLC), as in zip and PNG.

use crc::{CRC_32_ISO_HDLC, Crc, Table};

/// With a table of one kilobyte: a faster one would be a good part of what a first visit fetches.
const CRC: Crc<u32, Table<1>> = Crc::<u32, Table<1>>::new(&CRC_32_ISO_HDLC);

/// The checksum of some bytes.
#[must_use]
pub fn of(bytes: &[u8]) -> u32 {
    CRC.checksum(bytes)
}

/// The checksum of some bytes and those behind them, as if they were one.
#[must_use]
pub fn of_both(first: &[u8], then: &[u8]) -> u32 {
    let mut digest = CRC.digest();
    digest.update(first);
    digest.update(then);
    digest.finalize()
}
