//! The page in other languages: chosen by the browser or by the cook, whole, and never wider than the phone.

use crate::axe::PLACES;
use crate::cook::Cook;
use crate::eyes::{letters, measure, narrow};
use serde_json::json;

/// What is shown or read aloud and holds a word that only English has.
/// A citation stays in the language of what it cites; it is told by its year, or by the name of a law or a handbook.
const LEFTOVERS: &str = r"
    const english = /\b(the|and|with|your|what|from|this|that|is|are|type|weigh|cups?|tbsp|tsp|of|to|for)\b/i;
    const seen = (e) => e && e.checkVisibility() && !e.closest('[inert], [lang|=en]');
    const texts = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) if (seen(walker.currentNode.parentElement)) texts.push(walker.currentNode.data);
    for (const e of document.querySelectorAll('[aria-label]')) if (seen(e)) texts.push(e.getAttribute('aria-label'));
    const citation = /\b(19|20)\d\d\b|\bCFR\b|Handbook/;
    return texts.filter((text) => english.test(text) && !citation.test(text));
";

impl Cook {
    /// Chooses German under More, and waits until the page speaks it.
    async fn speak_german(&self) {
        self.go("#more").await;
        self.press("Deutsch").await;
        self.wait("document.documentElement.lang === 'de' && buttons('Rezeptur').length === 1")
            .await;
    }

    async fn leftovers(&self, place: &str) -> Vec<String> {
        let found = self.phone.ask(&format!("(() => {{ {LEFTOVERS} }})()")).await;
        let found = found.as_array().cloned().unwrap_or_default();
        found.iter().map(|text| format!("{place}: {text}")).collect()
    }
}

#[tokio::test]
async fn german_is_whole_and_fits_a_narrow_phone() {
    let cook = Cook::arrive().await;
    cook.speak_german().await;
    cook.wait("all('.toast').length === 0").await;
    narrow(&cook).await;
    let mut faults = Vec::new();
    for place in PLACES {
        cook.go(place).await;
        if place == "#rescue" {
            cook.touch("all('.choice .chip')[0]").await;
            cook.wait("all('.steps li').length > 0").await;
        }
        cook.look("all('details').map((fold) => (fold.open = true)).length")
            .await;
        cook.phone
            .ask("await new Promise((drawn) => requestAnimationFrame(() => setTimeout(() => drawn(1), 300)))")
            .await;
        faults.extend(cook.leftovers(place).await);
        for percent in [100, 200] {
            letters(&cook, percent).await;
            let found = measure(&cook, "misfits()").await;
            faults.extend(
                found
                    .iter()
                    .map(|fault| format!("{place}, letters of {percent} %: {fault}")),
            );
        }
        letters(&cook, 100).await;
    }
    assert!(faults.is_empty(), "{} faults:\n{}", faults.len(), faults.join("\n"));
    cook.check_well().await;
    cook.phone.put_down().await;
}

#[tokio::test]
async fn a_german_cook_writes_and_reads_as_at_home() {
    let cook = Cook::arrive().await;
    cook.speak_german().await;
    cook.go("#formula").await;
    cook.see("Ein Beispiel: erfundene Zahlen.").await;
    cook.press("Wegräumen").await;
    cook.press("Rezeptur anfangen").await;
    for line in [
        "1¾ Tassen Sojagranulat",
        "385,5 ml Wasser",
        "1 EL Methylcellulose",
        "1,5 TL Salz",
    ] {
        cook.write("Neue Zeile: Menge und Name", line).await;
        cook.press("Zeile hinzufügen").await;
    }
    cook.wait("all('.line__row').length === 4 && all('.line__grams--none').length === 0")
        .await;
    let shares = cook.words(".line__share").await;
    assert!(
        shares.iter().all(|share| share.contains(',') && !share.contains('.')),
        "{shares:?}"
    );
    cook.wait("all('.rule').length >= 3").await;

    // What a point and three digits mean is asked, not guessed.
    cook.press_one_line(1).await;
    cook.write("Menge", "1.234 ml").await;
    cook.see("lässt sich als zwei Zahlen lesen").await;
    cook.write("Menge", "380 ml").await;
    cook.see_saved_in_german().await;

    // The language is a choice like any other: it can be changed again, and what was typed stays as typed.
    cook.go("#more").await;
    cook.press("English (US)").await;
    cook.wait("document.documentElement.lang === 'en-US' && buttons('Formula').length === 1")
        .await;
    cook.go("#formula").await;
    cook.wait("all('.line__amount')[0].textContent.startsWith('1¾ Tassen')")
        .await;
    cook.check_well().await;
    cook.phone.put_down().await;
}

impl Cook {
    async fn see_saved_in_german(&self) {
        self.go("#more").await;
        self.see("Alles ist auf diesem Handy gespeichert.").await;
    }
}

#[tokio::test]
async fn a_german_browser_is_answered_in_german() {
    let cook = Cook::arrive().await;
    let agent = cook.phone.ask("navigator.userAgent").await;
    let wish = json!({ "userAgent": agent, "acceptLanguage": "de-AT" });
    cook.phone.tell("Emulation.setUserAgentOverride", wish).await;
    cook.phone.open(&cook.address).await;
    cook.wait("document.documentElement.lang === 'de' && buttons('Rezeptur').length === 1")
        .await;
    cook.check_well().await;
    cook.phone.put_down().await;
}

#[tokio::test]
async fn the_open_formula_and_the_guide_outlast_a_reload() {
    let cook = Cook::arrive().await;
    cook.press("Write your own").await;
    cook.press("Put in 1¾ cups soy granules").await;
    cook.see("Step 2 of 6").await;
    cook.see_it_saved().await;
    cook.go("#formula").await;
    cook.phone.open(&cook.address).await;
    cook.see("Step 2 of 6").await;
    cook.see("My first patty").await;
    cook.check_well().await;
    cook.phone.put_down().await;
}
