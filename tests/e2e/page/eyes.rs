//! What can be read and hit beside a stove: narrow phones, large letters, wet thumbs, dim light.

use crate::axe::{PLACES, arrive_at};
use crate::cook::Cook;
use serde_json::{Value, json};

/// What is measured, in the page itself.
const MEASURE: &str = include_str!("eyes.js");

pub async fn measure(cook: &Cook, what: &str) -> Vec<Value> {
    let found = cook
        .phone
        .ask(&format!("(() => {{ {MEASURE}\n return {what}; }})()"))
        .await;
    found.as_array().cloned().unwrap_or_default()
}

pub async fn letters(cook: &Cook, percent: u32) {
    let grow = format!("(document.documentElement.style.fontSize = '{percent}%', 1)");
    cook.phone.ask(&grow).await;
}

pub async fn narrow(cook: &Cook) {
    let size = json!({ "width": 320, "height": 640, "deviceScaleFactor": 2, "mobile": true });
    cook.phone.tell("Emulation.setDeviceMetricsOverride", size).await;
}

/// Every room and sheet with everything opened that can be.
///
/// - 320 CSS px wide, nothing scrolls sideways. Source: WCAG 2.2, 1.4.10 Reflow.
/// - Letters twice as large, and at that width too, which is more than asked. Source: WCAG 2.2, 1.4.4 Resize Text.
/// - Targets of 48 px, 56 px for what is pressed in a hurry: our own, above the 24 px of WCAG 2.2, 2.5.8.
/// - Results of 28 px: our own. Contrast of 7. Source: WCAG 2.2, 1.4.6 Contrast (Enhanced).
#[tokio::test]
async fn measure_everywhere_on_a_narrow_phone() {
    let cook = Cook::arrive().await;
    cook.wait("all('.toast').length === 0").await;
    narrow(&cook).await;
    let mut faults = Vec::new();
    let mut read = 0;
    for place in PLACES {
        arrive_at(&cook, place).await;
        open_up(&cook, place).await;
        for what in ["misfits()", "smallTargets()"] {
            let found = measure(&cook, what).await;
            faults.extend(found.iter().map(|fault| format!("{place}: {fault}")));
        }
        for light in ["light", "dark"] {
            cook.phone.prefer(&[("prefers-color-scheme", light)]).await;
            for result in measure(&cook, "results()").await {
                let (px, contrast) = (result["px"].as_f64().unwrap(), result["contrast"].as_f64().unwrap());
                read += 1;
                if px < 28.0 || contrast < 7.0 {
                    faults.push(format!("{place}, {light}: {result}"));
                }
            }
        }
        letters(&cook, 200).await;
        let found = measure(&cook, "misfits()").await;
        faults.extend(
            found
                .iter()
                .map(|fault| format!("{place}, letters twice as large: {fault}")),
        );
        letters(&cook, 100).await;
    }
    assert!(faults.is_empty(), "{} faults:\n{}", faults.len(), faults.join("\n"));
    // At the least: a total, pours and the scale, additions, three answers and a clock, in the light and in the dark.
    assert!(read >= 2 * (1 + 11 + 1 + 1 + 3 + 1), "only {read} results were read");
    cook.check_well().await;
    cook.phone.put_down().await;
}

async fn open_up(cook: &Cook, place: &str) {
    cook.look("all('details').map((fold) => (fold.open = true)).length")
        .await;
    match place {
        "#formula" => {
            cook.press("All readings").await;
            cook.touch("all('.rule')[1]").await;
        }
        "#weigh" => {
            cook.touch("all('.pour__tick')[0]").await;
            cook.see("On the scale:").await;
            cook.press_one("Something else went in", 0).await;
        }
        "#cook" => {
            cook.press("Add another size").await;
            cook.press("It is in now").await;
            cook.wait("all('.timer').length === 1 && all('.answer__figure').length === 3")
                .await;
        }
        _ => {}
    }
    cook.look("all('details').map((fold) => (fold.open = true)).length")
        .await;
    cook.phone
        .ask("await new Promise((drawn) => requestAnimationFrame(() => setTimeout(() => drawn(1))))")
        .await;
}

/// The measurements would be worth nothing if they could not fail.
#[tokio::test]
async fn a_bad_page_is_noticed() {
    let cook = Cook::arrive().await;
    cook.wait("all('.toast').length === 0").await;
    for (harm, what, says) in [
        ("all('.sum')[0].style.width = '500px'", "misfits()", "scrolls sideways"),
        (
            "(all('.sum')[0].style.width = '', all('.line__name')[0].style.cssText = 'height: 8px; overflow: hidden; display: block')",
            "misfits()",
            "cut off",
        ),
        (
            "all('.line__amount')[1].style.cssText = 'position: relative; top: -20px'",
            "misfits()",
            "over each other",
        ),
        (
            "all('.line__row')[0].style.minHeight = all('.line__row')[0].style.height = '40px'",
            "smallTargets()",
            "wants 48",
        ),
        (
            "all('.door')[0].style.minHeight = all('.door')[0].style.height = '50px'",
            "smallTargets()",
            "wants 56",
        ),
    ] {
        assert!(
            !measure(&cook, what)
                .await
                .iter()
                .any(|fault| fault.to_string().contains(says))
        );
        cook.look(harm).await;
        let found = measure(&cook, what).await;
        assert!(
            found.iter().any(|fault| fault.to_string().contains(says)),
            "{harm}: {found:?}"
        );
    }
    // Black on white is 21, and #777 on white 4.48. Source: WebAIM's and W3C's well-known pair, from memory.
    for (colour, contrast) in [("#000", 21.0), ("#777", 4.48)] {
        cook.look(&format!(
            "(all('.sum')[0].style.background = '#fff', all('.sum .big')[0].style.color = '{colour}')"
        ))
        .await;
        let found = measure(&cook, "results()").await;
        assert!(
            (found[0]["contrast"].as_f64().unwrap() - contrast).abs() < 0.01,
            "{found:?}"
        );
    }
    cook.phone.put_down().await;
}

/// Nothing moves for a cook who wants nothing to move. Source: Media Queries Level 5, prefers-reduced-motion.
#[tokio::test]
async fn keep_still_when_asked() {
    let cook = Cook::arrive().await;
    cook.wait("all('.toast').length === 0").await;
    let moving = "[...document.querySelectorAll('*')].filter((e) => { const s = getComputedStyle(e); return s.animationName !== 'none' || !/^0s(, 0s)*$/.test(s.transitionDuration) || s.scrollBehavior === 'smooth'; }).length";
    cook.go("#formula/formulas").await;
    assert!(
        cook.phone.ask(moving).await.as_u64() > Some(0),
        "a sheet rises for everybody else"
    );
    cook.phone.prefer(&[("prefers-reduced-motion", "reduce")]).await;
    for place in PLACES {
        cook.go(place).await;
        assert_eq!(cook.phone.ask(moving).await, 0, "{place}");
        assert_eq!(cook.phone.ask("document.getAnimations().length").await, 0, "{place}");
    }
    cook.go("#formula").await;
    cook.press("Clear it").await;
    cook.see("The demonstration is cleared.").await;
    assert_eq!(cook.phone.ask(moving).await, 0);
    cook.phone.put_down().await;
}

/// Nothing is told by colour alone: every role has a pattern of its own, and its name beside it.
#[tokio::test]
async fn tell_roles_apart_without_colour() {
    let cook = Cook::arrive().await;
    let patterns = "(() => {
        const box = document.body.appendChild(document.createElement('i'));
        const of = (role) => (box.className = `role--${role}`, getComputedStyle(box).backgroundImage.replace(/rgba?\\([^)]*\\)/g, ''));
        return ['textured', 'powder', 'binder', 'liquid', 'fat', 'seasoning', 'colour', 'filler'].map(of);
    })()";
    let patterns: Vec<String> = serde_json::from_value(cook.phone.ask(patterns).await).unwrap();
    for (at, pattern) in patterns.iter().enumerate() {
        assert!(!patterns[at + 1..].contains(pattern), "two roles share {pattern}");
    }
    let words = cook.words(".key__one").await;
    assert!(
        words.len() > 5
            && words
                .iter()
                .all(|one| one.chars().next().is_some_and(char::is_alphabetic)),
        "{words:?}"
    );
    // A reading out of its range says so with a mark as well.
    let marks = cook
        .words(".rule--below .rule__figure, .rule--above .rule__figure")
        .await;
    assert!(
        !marks.is_empty() && marks.iter().all(|figure| figure.starts_with(['▾', '▴'])),
        "{marks:?}"
    );
    for deficiency in ["achromatopsia", "deuteranopia", "protanopia", "tritanopia"] {
        cook.phone
            .tell("Emulation.setEmulatedVisionDeficiency", json!({ "type": deficiency }))
            .await;
        cook.phone.picture(&format!("formula-{deficiency}")).await;
    }
    cook.phone.put_down().await;
}
