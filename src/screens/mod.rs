//! One file a screen: reads a record, shows it, sends what was tapped.
