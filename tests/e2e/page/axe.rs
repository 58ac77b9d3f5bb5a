//! Everyone can use every room: axe-core finds nothing in the light or in the dark.

use crate::cook::Cook;

/// Every room, and everything that lies over one.
pub const PLACES: [&str; 16] = [
    "#formula",
    "#formula/line/1",
    "#formula/line/11",
    "#formula/formulas",
    "#formula/paste",
    "#formula/aim",
    "#formula/swap",
    "#formula/convert/",
    "#formula/convert/table_salt",
    "#weigh",
    "#rescue",
    "#cook",
    "#pantry",
    "#pantry/card/table_salt",
    "#pantry/own/",
    "#more",
];

#[tokio::test]
async fn look_everywhere_in_the_light() {
    check_everywhere("light").await;
}

#[tokio::test]
async fn look_everywhere_in_the_dark() {
    check_everywhere("dark").await;
}

async fn check_everywhere(light: &str) {
    let cook = Cook::arrive().await;
    cook.phone.prefer(&[("prefers-color-scheme", light)]).await;
    cook.wait("all('.toast').length === 0").await;
    let mut faults = Vec::new();
    for place in PLACES {
        arrive_at(&cook, place).await;
        look(&cook, &format!("{place}, {light}"), &mut faults).await;
    }
    cook.go("#formula").await;
    cook.press("All readings").await;
    cook.press("What one more spoon does").await;
    cook.wait("all('.ladder li').length > 5").await;
    cook.touch("all('.rule')[1]").await;
    cook.wait("all('.evidence__plot').length === 4").await;
    look(&cook, &format!("published patties and levers, {light}"), &mut faults).await;
    cook.press("Clear it").await;
    cook.see("The demonstration is cleared.").await;
    look(&cook, &format!("the empty room with a message, {light}"), &mut faults).await;
    assert!(faults.is_empty(), "{} faults:\n{}", faults.len(), faults.join("\n"));
    cook.check_well().await;
    cook.phone.put_down().await;
}

/// Goes to a place, and asks it for what it shows only when asked.
pub async fn arrive_at(cook: &Cook, place: &str) {
    cook.go(place).await;
    if place == "#weigh" {
        cook.press("for patties").await;
        cook.press("Add another weight").await;
    }
    if place == "#rescue" {
        cook.press("While I form it").await;
        cook.wait("all('.steps li').length > 0").await;
    }
    if place == "#formula/aim" {
        cook.write("At least, %", "95").await;
        cook.see("Not with these ingredients").await;
    }
}

/// Looks from the top once everything has stopped moving: what is under the top bar can be scrolled out.
async fn look(cook: &Cook, place: &str, faults: &mut Vec<String>) {
    cook.wait("document.getAnimations().every((a) => a.playState !== 'running')")
        .await;
    cook.phone.ask("(scrollTo(0, 0), 1)").await;
    let found = cook.phone.faults().await;
    faults.extend(found.into_iter().map(|fault| format!("{place}: {fault}")));
}
