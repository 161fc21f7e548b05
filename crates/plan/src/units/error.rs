//! What is wrong with a typed length or angle: the character, its place and the remedy.
