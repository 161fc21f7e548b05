//! What a page says to whom.
