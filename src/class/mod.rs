//! Many results side by side: what a class tells, and what a tutor says back. Pure.
