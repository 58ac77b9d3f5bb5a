//! Two tabs on one phone: each sees what the other did, and neither writes over the other in silence.

use crate::cook::Cook;
use e2e::Tab;
use serde_json::json;

const LIST: &str = "100 g soy granules\n200 g water\n5 g salt";

/// Two tabs of one browser, one in front.
struct Tabs {
    cook: Cook,
    first: Tab,
    second: Tab,
}

impl Tabs {
    async fn open() -> Tabs {
        let cook = Cook::arrive().await;
        cook.start_with(LIST).await;
        cook.see_it_saved().await;
        let driver = cook.phone.driver();
        let first = driver.window().await.unwrap();
        let second = driver.new_tab().await.unwrap();
        driver.switch_to_window(second.clone()).await.unwrap();
        cook.phone.prepare_tab().await;
        cook.phone.open(&format!("{}#formula", cook.address)).await;
        cook.wait("all('.line__row').length === 3").await;
        Tabs { cook, first, second }
    }

    async fn turn_to(&self, tab: &Tab) {
        self.cook.phone.driver().switch_to_window(tab.clone()).await.unwrap();
    }

    /// Waits until the lines in front weigh this.
    async fn see_grams(&self, grams: [&str; 3]) {
        let wanted = json!(grams);
        self.cook
            .wait(&format!(
                "JSON.stringify(all('.line__grams').map((e) => e.textContent)) === JSON.stringify({wanted})"
            ))
            .await;
    }
}

impl Tabs {
    /// Wants both changes in the list of formulas of the tab in front.
    async fn check_both_kept(&self) {
        let cook = &self.cook;
        let mut kept = Vec::new();
        for which in 0..2 {
            cook.go("#formula/formulas").await;
            cook.wait("all('.list__one').length === 2").await;
            cook.touch(&format!("all('.list__one')[{which}]")).await;
            cook.wait("all('[role=dialog]').length === 0").await;
            kept.push(cook.words(".line__grams").await);
        }
        kept.sort();
        assert_eq!(kept, [["100 g", "222 g", "5.0 g"], ["111 g", "200 g", "5.0 g"]]);
    }
}

#[tokio::test]
async fn change_line_in_other_tab() {
    let tabs = Tabs::open().await;
    let cook = &tabs.cook;
    cook.press_one_line(1).await;
    cook.write("Amount", "250 g").await;

    tabs.turn_to(&tabs.first).await;
    cook.press("Formula").await;
    tabs.see_grams(["100 g", "250 g", "5.0 g"]).await;
    cook.press_one_line(2).await;
    cook.write("Amount", "7 g").await;

    tabs.turn_to(&tabs.second).await;
    tabs.see_grams(["100 g", "250 g", "7.0 g"]).await;
    cook.check_well().await;
    tabs.cook.phone.put_down().await;
}

/// The field of the line that is open, filled at one moment of the clock.
fn fill_at(moment: i64, text: &str) -> String {
    format!(
        "(setTimeout(() => {{ const field = fields('Amount')[0]; field.value = {}; field.dispatchEvent(new Event('input', {{ bubbles: true }})); }}, {moment} - Date.now()), 1)",
        json!(text)
    )
}

#[tokio::test]
async fn change_both_tabs_at_once() {
    let tabs = Tabs::open().await;
    let cook = &tabs.cook;
    cook.press_one_line(0).await;
    cook.read("Amount").await;
    tabs.turn_to(&tabs.first).await;
    cook.press("Formula").await;
    cook.press_one_line(1).await;
    cook.read("Amount").await;

    let moment = cook.look("Date.now() + 2000").await.as_i64().unwrap();
    cook.look(&fill_at(moment, "222 g")).await;
    tabs.turn_to(&tabs.second).await;
    cook.look(&fill_at(moment, "111 g")).await;
    let late = cook.look(&format!("Date.now() > {moment}")).await;
    assert_eq!(
        late, false,
        "both have to change at the same moment for this to mean anything"
    );
    cook.wait(&format!("Date.now() > {moment}")).await;
    // One formula keeps what the first to save did, and a copy beside it what the other did.
    for tab in [&tabs.first, &tabs.second] {
        tabs.turn_to(tab).await;
        tabs.check_both_kept().await;
    }
    cook.see_it_saved().await;
    cook.phone.reload().await;
    tabs.check_both_kept().await;
    cook.check_well().await;
    tabs.cook.phone.put_down().await;
}
