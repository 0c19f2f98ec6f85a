//! The one dispatch: from the language in use to its room. A language that lacks a sentence or a text does not compile.
//!
//! A room has one file for each table of texts, with the texts and a function for each sentence, and `About`, which makes the
//! sentences about an arrangement. A further language is one more arm in [`said`] and in [`texts_of`].

/// What the language in use says: `said!(language, screen::saved(path))`.
macro_rules! said {
    ($language:expr, $($sentence:tt)+) => {
        match $language {
            $crate::words::Language::English => $crate::words::english::$($sentence)+,
            $crate::words::Language::German => $crate::words::german::$($sentence)+,
            $crate::words::Language::Bracketed => {
                $crate::words::bracketed::Bracket::bracketed($crate::words::english::$($sentence)+)
            }
        }
    };
}

/// The table of texts of the language in use: `texts_of!(language, Screen, screen)`.
macro_rules! texts_of {
    ($language:expr, $table:ty, $room:ident) => {{
        static BRACKETED: std::sync::LazyLock<$table> = std::sync::LazyLock::new(|| {
            $crate::words::bracketed::Bracket::bracketed($crate::words::english::$room::TEXTS)
        });
        match $language {
            $crate::words::Language::English => &$crate::words::english::$room::TEXTS,
            $crate::words::Language::German => &$crate::words::german::$room::TEXTS,
            $crate::words::Language::Bracketed => &BRACKETED,
        }
    }};
}

/// A list of sentences, each with what it is made from: one method for each, which asks the language in use. `about` makes them
/// by the room's `About`, any other word by the functions of that file of the room.
macro_rules! sentences {
    (about: $($(#[$about:meta])* $name:ident($($given:ident: $kind:ty),*) -> $said:ty;)*) => {$(
        $(#[$about])*
        pub fn $name(&self, $($given: $kind),*) -> $said {
            said!(self.locale.language, About::of(self).$name($($given),*))
        }
    )*};
    ($room:ident: $($(#[$about:meta])* $name:ident($($given:ident: $kind:ty),*) -> $said:ty;)*) => {$(
        $(#[$about])*
        pub fn $name(&self, $($given: $kind),*) -> $said {
            said!(self.language, $room::$name($($given),*))
        }
    )*};
}

/// A table of fixed texts: a struct with a field for each, which every language fills in its room.
macro_rules! texts {
    ($room:ident: $table:ident, $about:literal; $($name:ident, $what:literal;)*) => {
        #[doc = $about]
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub struct $table {
            pub(super) language: $crate::words::Language,
            $(#[doc = $what] pub $name: &'static str,)*
        }

        impl $crate::words::Language {
            #[doc = $about]
            pub fn $room(self) -> &'static $table {
                texts_of!(self, $table, $room)
            }
        }

        impl $crate::words::bracketed::Bracket for $table {
            fn bracketed(self) -> Self {
                Self {
                    language: $crate::words::Language::Bracketed,
                    $($name: $crate::words::bracketed::Bracket::bracketed(self.$name),)*
                }
            }
        }
    };
}
