//! Drawings read whole.
