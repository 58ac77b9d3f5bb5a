//! A newcomer's first minute: a formula that works, one of their own step by step, one figure changed.

use crate::cook::Cook;

#[tokio::test]
async fn write_a_first_formula_step_by_step() {
    let cook = Cook::arrive().await;
    cook.press("Write your own").await;
    for (lines, example) in [
        "1¾ cups soy granules",
        "⅓ cup pea protein isolate",
        "385 ml water",
        "1 tbsp methylcellulose",
        "60 g coconut oil",
        "1¼ tsp salt",
    ]
    .into_iter()
    .enumerate()
    {
        cook.see(&format!("Step {} of 6", lines + 1)).await;
        cook.press(&format!("Put in {example}")).await;
        cook.wait(&format!("all('.line__row').length === {}", lines + 1)).await;
    }
    cook.see("That is a formula.").await;
    cook.wait("all('.rule').length >= 3 && all('.rule--below, .rule--above').length === 0")
        .await;
    cook.check_well().await;

    cook.press("Stay here").await;
    cook.wait("!document.body.innerText.includes('That is a formula.')")
        .await;
    cook.press_one_line(2).await;
    cook.write("Amount", "200 ml").await;
    cook.wait("all('.rule--below').some((rule) => rule.textContent.includes('Hydration'))")
        .await;
    cook.phone.put_down().await;
}

#[tokio::test]
async fn the_guide_can_be_left_at_any_step() {
    let cook = Cook::arrive().await;
    cook.press("Clear it").await;
    cook.press("Step by step").await;
    cook.press("Put in 1¾ cups soy granules").await;
    cook.press("Go on alone").await;
    cook.wait("all('[aria-label=\"Step by step\"]').length === 0 && all('.line__row').length === 1")
        .await;
    cook.phone.put_down().await;
}
