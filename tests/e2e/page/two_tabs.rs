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

impl Tabs {
    /// Types both texts into one line each, the second tab's first, at the same moment of the clock.
    async fn change_at_once(&self, first: (usize, &str), second: (usize, &str)) {
        let cook = &self.cook;
        cook.press_one_line(second.0).await;
        cook.read("Amount").await;
        self.turn_to(&self.first).await;
        cook.press("Formula").await;
        cook.press_one_line(first.0).await;
        cook.read("Amount").await;
        let moment = cook.look("Date.now() + 2000").await.as_i64().unwrap();
        cook.look(&fill_at(moment, first.1)).await;
        self.turn_to(&self.second).await;
        cook.look(&fill_at(moment, second.1)).await;
        let late = cook.look(&format!("Date.now() > {moment}")).await;
        assert_eq!(
            late, false,
            "both have to change at the same moment for this to mean anything"
        );
        cook.wait(&format!("Date.now() > {moment}")).await;
    }

    /// The formulas on the phone, each as the grams of its lines, sorted.
    async fn formulas(&self, count: usize) -> Vec<Vec<String>> {
        let cook = &self.cook;
        let mut kept = Vec::new();
        for which in 0..count {
            cook.go("#formula/formulas").await;
            cook.wait(&format!("all('.list__one').length === {count}")).await;
            cook.touch(&format!("all('.list__one')[{which}]")).await;
            cook.wait("all('[role=dialog]').length === 0").await;
            kept.push(cook.words(".line__grams").await);
        }
        kept.sort();
        kept
    }
}

#[tokio::test]
async fn different_lines_changed_at_once_go_into_one_formula() {
    let tabs = Tabs::open().await;
    tabs.change_at_once((1, "222 g"), (0, "111 g")).await;
    for tab in [&tabs.first, &tabs.second] {
        tabs.turn_to(tab).await;
        tabs.see_grams(["111 g", "222 g", "5.0 g"]).await;
    }
    let cook = &tabs.cook;
    cook.see_it_saved().await;
    cook.phone.reload().await;
    assert_eq!(tabs.formulas(1).await, [["111 g", "222 g", "5.0 g"]]);
    cook.check_well().await;
    tabs.cook.phone.put_down().await;
}

#[tokio::test]
async fn the_same_line_changed_at_once_is_kept_twice_and_stays_on_the_screen() {
    let tabs = Tabs::open().await;
    let cook = &tabs.cook;
    tabs.change_at_once((0, "222 g"), (0, "111 g")).await;
    // One of the two saved first; each goes on showing what was typed into it.
    for (tab, typed) in [(&tabs.second, "111 g"), (&tabs.first, "222 g")] {
        tabs.turn_to(tab).await;
        tabs.see_grams([typed, "200 g", "5.0 g"]).await;
    }
    let both = [["111 g", "200 g", "5.0 g"], ["222 g", "200 g", "5.0 g"]];
    for tab in [&tabs.first, &tabs.second] {
        tabs.turn_to(tab).await;
        assert_eq!(tabs.formulas(2).await, both);
    }
    cook.see_it_saved().await;
    cook.phone.reload().await;
    assert_eq!(tabs.formulas(2).await, both);
    cook.check_well().await;
    tabs.cook.phone.put_down().await;
}
