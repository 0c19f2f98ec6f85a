//! See [`body`].
#![no_main]

#[path = "../bodies/record.rs"]
mod body;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    body::ask(bytes);
});
