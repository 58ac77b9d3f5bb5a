//! Small and capital letters of the alphabets a cook's names are written in: Latin, Greek, Cyrillic.
//!
//! The standard library knows all letters there are, from tables of 12 KB compressed; kitchens here need no more than
//! these.

/// A text in small letters; what is of no alphabet known here stays.
///
/// # Example
/// ```
/// assert_eq!(pattywright::words::small("Öl, ŁÓJ, ΛΆΔΙ, МАСЛО"), "öl, łój, λάδι, масло");
/// ```
pub fn small(text: &str) -> String {
    text.chars().map(small_letter).collect()
}

/// A text with its first letter a capital, where it is of the alphabet of English and German.
///
/// # Example
/// ```
/// assert_eq!(pattywright::words::capital("übrig"), "Übrig");
/// ```
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| {
        std::iter::once(capital_letter(first)).chain(letters).collect()
    })
}

fn capital_letter(letter: char) -> char {
    match letter {
        'à'..='ö' | 'ø'..='þ' => moved(letter, -32),
        _ => letter.to_ascii_uppercase(),
    }
}

fn small_letter(letter: char) -> char {
    let odd = letter as u32 % 2 == 1;
    match letter {
        'À'..='Ö' | 'Ø'..='Þ' | 'Α'..='Ρ' | 'Σ'..='Ϋ' | 'А'..='Я' => moved(letter, 32),
        'Ā'..='į' | 'Ĳ'..='ķ' | 'Ŋ'..='ŷ' if !odd => moved(letter, 1),
        'Ĺ'..='ň' | 'Ź'..='ž' if odd => moved(letter, 1),
        'Ÿ' => 'ÿ',
        'Ά' => 'ά',
        'Έ'..='Ί' => moved(letter, 37),
        'Ό' => 'ό',
        'Ύ' | 'Ώ' => moved(letter, 63),
        'Ѐ'..='Џ' => moved(letter, 80),
        'ẞ' => 'ß',
        _ => letter.to_ascii_lowercase(),
    }
}

fn moved(letter: char, by: i32) -> char {
    let moved = (letter as u32).checked_add_signed(by).and_then(char::from_u32);
    moved.unwrap_or(letter)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Held to the tables of Unicode in the standard library, over Latin, Greek and Cyrillic.
    #[test]
    fn letters_are_those_of_unicode() {
        let known = ('\0'..='ſ').chain('\u{370}'..='Ͽ').chain('\u{400}'..='џ').chain(['ẞ']);
        // A letter that becomes two, and Greek and Coptic letters that are no part of a Greek name.
        let left = |letter: char| letter == 'İ' || matches!(letter, 'Ͱ'..='Ϳ' | 'Ϗ'..='Ͽ');
        for letter in known.filter(|letter| !left(*letter)) {
            assert!(
                letter.to_lowercase().eq([small_letter(letter)]),
                "{letter} {:x}",
                letter as u32
            );
        }
        for letter in ('\0'..='ÿ').filter(|letter| !"ßµÿ".contains(*letter)) {
            assert!(letter.to_uppercase().eq([capital_letter(letter)]), "{letter}");
        }
    }
}
