//! Printed sheets: from figures, pictures and words to PDF bytes, through typst.
//!
//! In: [`Order`]. Out: the bytes of one PDF, the same for the same input.
//! Never here: files; the templates come from the theme, the words from `content/` and the wording.
//! Rule: handbook, "The sheets".
