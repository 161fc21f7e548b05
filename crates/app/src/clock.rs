//! Today, as the wall calendar where the program runs says.

use sheet::Date;

/// Today's date.
#[must_use]
pub fn today() -> Option<Date> {
    let day = jiff::Zoned::now().date();
    let part = |part: i8| u8::try_from(part).ok();
    Date::new(
        u16::try_from(day.year()).ok()?,
        part(day.month())?,
        part(day.day())?,
    )
}
