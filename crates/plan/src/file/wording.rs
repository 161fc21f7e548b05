//! What is wrong in a plan file, in words for whoever wrote it by hand.

use ron::Error;

/// What is wrong and what is expected instead, without a final stop.
pub(super) fn sentence(error: &Error) -> String {
    match error {
        Error::NoSuchStructField {
            expected, found, ..
        } => {
            format!(
                "there is no field `{found}` here: it may be {}",
                any_of(expected)
            )
        }
        Error::NoSuchEnumVariant {
            expected, found, ..
        } => {
            format!(
                "`{found}` is not one of the words for this: write {}",
                any_of(expected)
            )
        }
        Error::MissingStructField { field, .. } => {
            format!("the field `{field}` is missing from what ends here")
        }
        Error::DuplicateStructField { field, .. } => {
            format!("the field `{field}` is given twice: leave one of them")
        }
        Error::ExpectedFloat | Error::UnderscoreAtBeginning | Error::FloatUnderscore => {
            "a number is expected here, such as 1.2".into()
        }
        Error::ExpectedInteger => "a whole number is expected here, such as 1".into(),
        Error::IntegerOutOfBounds => {
            "this whole number cannot stand here: it is below 0 or too large".into()
        }
        Error::ExpectedBoolean => "true or false is expected here".into(),
        Error::ExpectedString => {
            "text between double quotes is expected here, such as \"Gate\"".into()
        }
        Error::ExpectedOption => "Some(…) around the value, or None, is expected here".into(),
        Error::ExpectedArray => "a list in square brackets is expected here: [ … ]".into(),
        Error::ExpectedComma => {
            "a comma is missing before this, or what stands before it is not as it should be".into()
        }
        Error::ExpectedMapColon => "a colon is missing between a field and its value".into(),
        Error::ExpectedDifferentLength { expected, found } => {
            // ron says `a tuple of size 2`
            let count = expected.rsplit(' ').next().unwrap_or(expected);
            format!("{count} values belong together here, not {found}")
        }
        Error::ExpectedNamedStructLike("Plan")
        | Error::ExpectedStructName(_)
        | Error::ExpectedDifferentStructName { .. } => {
            "this does not start as a plan does, with `(` and its fields".into()
        }
        Error::ExpectedStructLike | Error::ExpectedNamedStructLike(_) => {
            "`(` is expected here".into()
        }
        Error::ExpectedStructLikeEnd => "`)` is expected here".into(),
        Error::ExpectedIdentifier
        | Error::InvalidIdentifier(_)
        | Error::SuggestRawIdentifier(_) => {
            "a field's name is expected here; decimals are written with a point, not a comma".into()
        }
        Error::Eof => {
            "the file stops here, in the middle of the plan: the end of it is lost".into()
        }
        Error::ExpectedStringEnd => "the text that starts here has no closing quote".into(),
        Error::TrailingCharacters => "the plan has ended before this: take out what follows".into(),
        Error::UnclosedBlockComment => "a comment opened with /* is not closed with */".into(),
        Error::ExceededRecursionLimit => "brackets lie in brackets deeper than in any plan".into(),
        other => other.to_string(),
    }
}

fn any_of(words: &[&str]) -> String {
    let quoted: Vec<String> = words.iter().map(|word| format!("`{word}`")).collect();
    match quoted.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
        None => "nothing".into(),
    }
}
