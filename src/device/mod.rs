//! The browser, one thin file a facility.
