//! The worst that can be typed: a sentence, never a stop; what was typed stays.

use crate::cook::{Cook, PASTE};

const LIST: &str = "1 cup soy granules\n200 ml water\n1 tsp salt";

#[tokio::test]
async fn type_bad_amounts() {
    let cook = Cook::arrive().await;
    cook.start_with(LIST).await;
    cook.press_one_line(1).await;
    let (digits, letters) = ("9".repeat(10_000), "a".repeat(10_000));
    let bad = [
        "",
        "-1 g",
        "0",
        "NaN",
        "1e999 g",
        &digits,
        &letters,
        "🍔",
        "<script>alert(1)</script>",
        "1/0 cup",
    ];
    for typed in bad {
        let short: String = typed.chars().take(40).collect();
        cook.write("Amount", typed).await;
        cook.wait("document.querySelector('.line--open [aria-invalid=true]') !== null || all('.line--open .line__grams')[0].textContent === '—'").await;
        check_sentence(&cook.said_below("Amount").await, &short);
        assert_eq!(cook.read("Amount").await, typed, "what was typed is kept: {short}");
        let total = cook.words("[aria-label=\"The mix\"] .big").await.remove(0);
        assert!(
            total.trim_end_matches(" g").parse::<f64>().is_ok_and(f64::is_finite),
            "{short}: {total}"
        );

        // The tab on top says when it is saved; then a reload finds the same text.
        cook.see_it_saved().await;
        cook.phone.reload().await;
        cook.press("Formula").await;
        cook.press_one_line(1).await;
        assert_eq!(
            cook.read("Amount").await,
            typed,
            "it is still there after a reload: {short}"
        );
        assert_eq!(cook.words(".line__row").await.len(), 3, "{short}");
    }
    cook.write("Amount", "250 ml").await;
    cook.wait("all('.line--open .line__grams')[0].textContent === '250 g'")
        .await;
    cook.check_well().await;
    cook.phone.put_down().await;
}

/// A sentence starts with a capital or quotes what was typed, and is no inside of the program.
#[track_caller]
fn check_sentence(said: &str, typed: &str) {
    let first = said.chars().next().unwrap_or_default();
    assert!(first.is_uppercase() || first == '“', "{typed}: “{said}”");
    assert!(said.split(' ').count() >= 3 && said.len() < 300, "{typed}: “{said}”");
    assert!(
        !["NaN", "inf", "Err("]
            .iter()
            .any(|word| said.replace(typed, "").contains(word)),
        "{typed}: “{said}”"
    );
}

#[tokio::test]
async fn paste_ten_thousand_lines() {
    let cook = Cook::arrive().await;
    cook.press("Clear it").await;
    cook.press("Paste a list").await;
    let list = vec!["1 cup soy granules"; 10_000].join("\n");
    // Handed over whole: the browser takes minutes to type so much.
    cook.wait(&format!("fields('{PASTE}').length === 1")).await;
    cook.look(&format!(
        "((box) => {{ box.value = {}; return box.dispatchEvent(new Event('input', {{ bubbles: true }})); }})(fields('{PASTE}')[0])",
        serde_json::json!(list)
    ))
    .await;
    cook.see("That is 10000 lines; a formula takes up to").await;
    assert_eq!(cook.read(PASTE).await, list);
    assert_eq!(cook.look("buttons('Make a new formula').length").await, 0);
    cook.write(PASTE, LIST).await;
    cook.press("Make a new formula").await;
    cook.wait("all('.line__row').length === 3").await;
    cook.check_well().await;
    cook.phone.put_down().await;
}

#[tokio::test]
async fn go_back_from_line() {
    let cook = Cook::arrive().await;
    cook.start_with(LIST).await;
    cook.press_one_line(1).await;
    cook.write("Amount", "333 ml").await;
    cook.phone.driver().back().await.unwrap();
    cook.wait("all('.line--open').length === 0").await;
    let lines = cook.words(".line__row").await;
    assert!(lines.len() == 3 && lines[1].contains("333 ml"), "{lines:?}");

    cook.see_it_saved().await;
    cook.phone.reload().await;
    cook.press("Formula").await;
    cook.wait("all('.line__row').length === 3").await;
    assert_eq!(cook.words(".line__row").await, lines);
    cook.check_well().await;
    cook.phone.put_down().await;
}
