//! A short mark of a plan's content, printed on its sheets so that each can be matched to its file.

use crate::document::Plan;
use crate::file;

/// The fingerprint of a plan: sixteen hexadecimal figures in groups of four, such as
/// `0f3a-91c2-77de-4b05`. The same plan always has the same one; a plan with any change has, but
/// for a chance of one in 10¹⁹, another. It guards against mix-ups, not against forgery.
#[must_use]
pub fn fingerprint(plan: &Plan) -> String {
    let hash = fnv1a(file::write(plan).as_bytes());
    let group = |shift: u32| format!("{:04x}", (hash >> shift) & 0xffff);
    [48, 32, 16, 0].map(group).join("-")
}

/// FNV-1a, 64 bits. Source: RFC 9923, FNV Non-Cryptographic Hash Algorithm; from memory.
fn fnv1a(bytes: &[u8]) -> u64 {
    const BASIS: u64 = 0xcbf2_9ce4_8422_2325;
    const PRIME: u64 = 0x0000_0100_0000_01b3;
    bytes.iter().fold(BASIS, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(PRIME)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Units;

    /// Source: the test vectors published with FNV (Landon Curt Noll); from memory.
    #[test]
    fn hashes_as_published() {
        let check =
            |text: &str, expected: u64| assert_eq!(fnv1a(text.as_bytes()), expected, "{text}");
        check("", 0xcbf2_9ce4_8422_2325);
        check("a", 0xaf63_dc4c_8601_ec8c);
        check("foobar", 0x8594_4171_f739_67e8);
    }

    #[test]
    fn any_change_changes_it() {
        let plan = Plan::empty(Units::Metric);
        let print = fingerprint(&plan);
        assert_eq!(print, fingerprint(&plan.clone()));
        assert_eq!((print.len(), print.matches('-').count()), (19, 3));
        let mut other = plan;
        other.north = 1e-9;
        assert_ne!(print, fingerprint(&other));
    }
}
