//! One clove, two cloves: names of things in singular and plural, English ones and a few German ones.
//!
//! A handful of endings cover what lies on a chopping board; a name they do not fit is left as it is.

/// Plurals that no ending explains.
const IRREGULAR: [(&str, &str); 17] = [
    ("leaf", "leaves"),
    ("half", "halves"),
    ("loaf", "loaves"),
    ("knife", "knives"),
    ("cookie", "cookies"),
    ("brownie", "brownies"),
    ("smoothie", "smoothies"),
    ("veggie", "veggies"),
    ("pie", "pies"),
    ("zehe", "zehen"),
    ("knoblauchzehe", "knoblauchzehen"),
    ("scheibe", "scheiben"),
    ("blatt", "blätter"),
    ("zwiebel", "zwiebeln"),
    ("tomate", "tomaten"),
    ("brötchen", "brötchen"),
    ("ansatz", "ansätze"),
];

/// Returns the singular of a name; only its last word changes, and a singular stays as it is.
pub(super) fn singular(name: &str) -> String {
    change_last_word(name, |word| {
        if let Some((one, _)) = IRREGULAR.iter().find(|(_, many)| *many == word) {
            return (*one).to_string();
        }
        let same = ["ss", "us", "is"].iter().any(|ending| word.ends_with(ending));
        if word.len() < 3 || same {
            return word.to_string();
        }
        if let Some(stem) = word.strip_suffix("ies") {
            return stem.to_string() + "y";
        }
        if let Some(stem) = word.strip_suffix("es")
            && ["ch", "sh", "x", "ss", "o"].iter().any(|ending| stem.ends_with(ending))
        {
            return stem.to_string();
        }
        word.strip_suffix('s').unwrap_or(word).to_string()
    })
}

/// Returns a plural that [`singular`] takes back, or the name itself when there is none.
pub(super) fn plural(name: &str) -> String {
    let many = change_last_word(name, |word| {
        if let Some((_, many)) = IRREGULAR.iter().find(|(one, _)| *one == word) {
            return (*many).to_string();
        }
        match word.strip_suffix('y') {
            Some(stem) if !stem.ends_with(['a', 'e', 'o', 'u']) => stem.to_string() + "ies",
            _ if ["ch", "sh", "x", "s", "o"].iter().any(|ending| word.ends_with(ending)) => word.to_string() + "es",
            _ => word.to_string() + "s",
        }
    });
    if singular(&many) == name {
        many
    } else {
        name.to_string()
    }
}

fn change_last_word(name: &str, change: impl Fn(&str) -> String) -> String {
    let start = name.rfind([' ', '-']).map_or(0, |at| at + 1);
    let (before, word) = name.split_at(start);
    before.to_string() + &change(word)
}
