//! Changing a mix on the phone: a range aimed for, a clash explained, an ingredient swapped.

use crate::cook::{Cook, grams};

const LIST: &str = "150 g soy granules\n30 g pea protein\n385 g water\n9 g methylcellulose\n60 g coconut oil\n7 g salt";

#[tokio::test]
async fn aim_for_more_protein_and_swap_the_powder() {
    let cook = Cook::arrive().await;
    cook.start_with(LIST).await;
    let total = || async { cook.words("[aria-label='The mix'] .big").await[0].clone() };
    let before = grams(&total().await);

    cook.press("Aim for a range").await;
    cook.write("At least, %", "eighteen-ish").await;
    cook.see("Protein: type a number such as 18, or leave it empty").await;
    cook.write("At least, %", "18").await;
    cook.see("Change these lines").await;
    let moves = cook.words("[role=dialog] .add__grams").await;
    let sum: f64 = moves
        .iter()
        .map(|words| grams(&words.replace("− ", "-").replace("+ ", "")))
        .sum();
    assert!(sum.abs() <= 1.0, "the mix keeps its weight: {moves:?}");
    cook.press("Change the formula").await;
    cook.see("The formula is changed.").await;
    let after = grams(&total().await);
    assert!((after - before).abs() <= 1.0, "{before} g became {after} g");
    // What was aimed for is there, so asking again changes nothing.
    cook.press("Aim for a range").await;
    cook.write("At least, %", "17.9").await;
    cook.see("Nothing has to change").await;

    cook.write("At least, %", "95").await;
    cook.see("Not with these ingredients").await;
    cook.press("Close").await;

    cook.press("Swap an ingredient").await;
    cook.wait("fields('Goes out').length === 1").await;
    cook.look("(fieldsOf => (fieldsOf[0].value = 'pea_protein_isolate', fieldsOf[0].dispatchEvent(new Event('change', { bubbles: true })), 1))(fields('Goes out'))")
        .await;
    cook.write("Comes in", "wheat gluten").await;
    cook.touch("all('[role=dialog] .offers__one')[0]").await;
    cook.see("New allergen: wheat").await;
    cook.press("Change the formula").await;
    cook.wait("all('.line__name').some((e) => e.textContent === 'Wheat gluten')")
        .await;
    cook.press("Undo").await;
    cook.wait("all('.line__name').some((e) => e.textContent === 'Pea protein')")
        .await;
    cook.check_well().await;
    cook.phone.put_down().await;
}
