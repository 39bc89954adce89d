//! What is worked out beside the page; nothing else.

#[cfg(target_arch = "wasm32")]
fn main() {
    scaleside::errand::beside::hear(scaleside::errand::run);
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    eprintln!("This part of Scaleside runs in a browser, beside its page");
}
