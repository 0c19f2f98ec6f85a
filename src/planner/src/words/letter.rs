//! What findings go by.

/// What a finding goes by on drawings and lists: A to Z, then AA, AB ... Floor marks have numbers, so findings have not.
/// `number` counts from 1.
pub fn letter(number: usize) -> String {
    let mut letters = Vec::new();
    let mut rest = number;
    while rest > 0 {
        rest -= 1;
        letters.push(char::from(b'A' + u8::try_from(rest % 26).unwrap_or(0)));
        rest /= 26;
    }
    letters.iter().rev().collect()
}

#[cfg(test)]
mod tests {
    use super::letter;

    #[test]
    fn letters_go_on_after_z() {
        let told: Vec<String> = [1, 2, 26, 27, 52, 53, 702, 703].map(letter).to_vec();
        assert_eq!(told, ["A", "B", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]);
    }
}
