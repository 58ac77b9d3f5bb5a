//! The whole job: from a list on paper to a mended bowl, with the network gone at the end.

use crate::cook::{Cook, PASTE, grams};

/// Our own list, written as people write; short of binder, so that there is something to mend.
const LIST: &str = "1¾ cups soy granules (coarse)
• half a cup pea protein
1 tsp methylcellulose
400 ml ice cold water
1 tsp salt
60 g coconut oil";

#[tokio::test]
async fn do_whole_job() {
    let mut cook = Cook::arrive().await;
    paste_list(&cook).await;
    read_formula(&cook).await;
    weigh_patties(&cook).await;
    rescue_bowl(&cook).await;
    undo_and_redo(&cook).await;

    cook.see_it_saved().await;
    cook.check_well().await;
    let kept = formula(&cook).await;
    cook.lose_the_network().await;
    cook.phone.reload().await;
    assert_eq!(formula(&cook).await, kept);
    let log = cook.words("summary").await;
    assert!(log.iter().any(|fold| fold == "Added after mixing: 1"), "{log:?}");

    cook.write("Add a line: amount and name", "1 tsp smoked paprika").await;
    cook.press("Add line").await;
    cook.see("Smoked paprika").await;
    cook.press("Undo").await;
    cook.wait("!document.body.innerText.includes('Smoked paprika')").await;
    assert_eq!(formula(&cook).await, kept);
    cook.phone.check_nothing_left().await;
    cook.phone.put_down().await;
}

async fn paste_list(cook: &Cook) {
    cook.see("A demonstration").await;
    cook.press("Clear it").await;
    cook.see("Write your first formula").await;
    cook.press("Paste a list").await;
    cook.write(PASTE, LIST).await;
    cook.wait("all('[role=dialog] li').length === 6").await;
    for (line, read) in LIST.lines().zip(cook.words("[role=dialog] li").await) {
        assert!(read.starts_with(line) && read.ends_with("✓ understood"), "{read}");
    }
    cook.press("Make a new formula").await;
    cook.wait("all('.line__row').length === 6").await;
}

async fn read_formula(cook: &Cook) {
    let (total, lines) = formula(cook).await;
    let each: f64 = lines.iter().map(|line| grams(line)).sum();
    assert!(
        (grams(&total) - each).abs() <= 3.0,
        "{total} is not the sum of {lines:?}"
    );
    // 400 ml of water near 0 °C weigh 399.9 g. Source: IAPWS R6-95: 999.84 kg/m³ at 0 °C.
    assert!(lines.iter().any(|line| line == "400 g"), "{lines:?}");
    assert!(lines.iter().any(|line| line == "60 g"), "{lines:?}");

    let spreads = cook.words("[aria-label=Readings] .rule__spread").await;
    assert!(spreads.iter().any(|spread| spread.starts_with("± ")), "{spreads:?}");
    let shares = cook.words(".line__share").await;
    assert!(
        shares.len() == 6 && shares.iter().all(|share| share.ends_with(" %")),
        "{shares:?}"
    );
}

async fn weigh_patties(cook: &Cook) {
    cook.press("Weigh").await;
    cook.press("for patties").await;
    cook.write_one("How many", 0, "4").await;
    cook.write_one("Each, grams", 0, "90").await;
    cook.press("Add another weight").await;
    cook.write_one("How many", 1, "6").await;
    cook.write_one("Each, grams", 1, "45").await;
    cook.write("Stays on bowl and hands, percent", "3").await;
    // 4 × 90 g and 6 × 45 g are 630 g, and 3 of every 100 g stay behind: 630 ÷ 0.97.
    cook.see("649 g of mix, ").await;

    let names = cook.words(".pour .line__name").await;
    let planned = cook.words(".pour__grams").await;
    cook.press(&format!("{} is in the bowl", names[0])).await;
    cook.wait("all('.pour__tick')[0].ariaPressed === 'true'").await;

    let poured = grams(&planned[1]) * 1.2;
    cook.press_one("Something else went in", 1).await;
    cook.write("What went in, grams", &format!("{poured:.0}")).await;
    cook.press("That is in the bowl").await;
    cook.see("Scale the rest to it, or keep the plan?").await;
    cook.press("Scale the rest").await;
    cook.wait("all('.pour__grams')[0].textContent.endsWith(' more')").await;
    let scaled = cook.words(".pour__grams").await;
    for (before, after) in planned.iter().zip(&scaled).skip(1) {
        let (before, after) = (grams(before), grams(after));
        assert!(
            (after - 1.2 * before).abs() <= 0.02 * after + 1.0,
            "{before} became {after}: {planned:?}, {scaled:?}"
        );
    }
}

async fn rescue_bowl(cook: &Cook) {
    cook.press("Rescue").await;
    cook.write("Left in the bowl, grams", "400").await;
    cook.press("While I form it").await;
    cook.wait("all('.add__grams').length > 0 && all('.steps li').length > 0")
        .await;
    let added: f64 = cook.words(".add__grams").await.iter().map(|row| grams(row)).sum();
    assert!(added > 0.0, "{added} g to add");
    cook.press("I have added it").await;
    cook.see("The formula is now what is in the bowl.").await;
    let (total, _) = formula(cook).await;
    assert!(
        (grams(&total) - 400.0 - added).abs() <= 3.0,
        "400 g and {added} g are {total}"
    );
}

async fn undo_and_redo(cook: &Cook) {
    let mended = formula(cook).await;
    cook.press("Undo").await;
    cook.wait("!all('summary').some((e) => e.textContent.startsWith('Added after mixing'))")
        .await;
    assert_ne!(formula(cook).await, mended);
    cook.press("Redo").await;
    cook.wait("all('summary').some((e) => e.textContent.startsWith('Added after mixing'))")
        .await;
    assert_eq!(formula(cook).await, mended);
}

/// Returns the total and the grams of each line, from the Formula room.
async fn formula(cook: &Cook) -> (String, Vec<String>) {
    cook.press("Formula").await;
    cook.wait("all('[aria-label=\"The mix\"] .big').length === 1").await;
    let total = cook.words("[aria-label=\"The mix\"] .big").await.remove(0);
    (total, cook.words(".line__grams").await)
}
