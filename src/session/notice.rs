//! What the cook has to know whatever the screen, as a plain value.

/// What the cook has to know whatever the screen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Notice {
    /// Something could not be written: why, and that it is kept in memory.
    NotKept(String),
    /// A newer build has written here.
    OlderBuild(String),
    /// Something was removed: what is said of it, and the name of the copy in the bin.
    Undo {
        /// The sentence.
        sentence: String,
        /// The name of the copy in the bin.
        copy: String,
    },
    /// Something the cook reads once.
    Told(String),
}
