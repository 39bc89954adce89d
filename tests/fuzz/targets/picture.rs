//! Any file that is said to be a picture, and any grey values: its size is told or not, and what is read of it is text.
#![no_main]

use libfuzzer_sys::fuzz_target;
use scaleside::code::picture::{GreyPicture, points};

fuzz_target!(|bytes: &[u8]| {
    let _ = points(bytes);
    let Some((wide, light)) = bytes.split_first() else {
        return;
    };
    let wide = usize::from(*wide).max(1);
    let high = light.len() / wide;
    let light = light.iter().take(wide * high).copied().collect();
    if let Some(picture) = GreyPicture::new(wide, high, light) {
        let _ = picture.texts();
    }
});
