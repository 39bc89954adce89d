//! Mounts the app; nothing else.

#[cfg(target_arch = "wasm32")]
fn main() {
    scaleside::screens::mount();
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    eprintln!("Scaleside runs in a browser: start it with .ci/serve");
}
