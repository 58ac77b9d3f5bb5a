//! Without a network: the server is stopped, not just said to be.

use e2e::{Folder, Phone, Server, dist};

#[tokio::test]
async fn one_visit_is_enough_at_the_root() {
    check_one_visit_is_enough("/").await;
}

#[tokio::test]
async fn one_visit_is_enough_in_a_sub_folder() {
    check_one_visit_is_enough("/kitchen/bowl/").await;
}

async fn check_one_visit_is_enough(under: &str) {
    let server = Server::start(&dist(), under, "127.0.0.1:0").unwrap();
    let address = format!("http://127.0.0.1:{}{under}", server.port());
    let profile = Folder::new();
    let phone = Phone::pick_up(&profile).await;
    phone.open(&address).await;
    phone.wait_until_told("pw-offline-ready").await;
    phone.check_quiet().await;

    drop(server);
    let look = format!("await fetch('{address}sw.js', {{ cache: 'no-store' }}).then(() => 'there', () => 'gone')");
    assert_eq!(
        phone.ask(&look).await,
        "gone",
        "the server has to be stopped for this test to mean anything"
    );
    phone.reload().await;
    phone.open(&format!("{address}?from=elsewhere#/weigh")).await;
    phone.open(&format!("{address}index.html")).await;
    // An address that is no page leads back to the one there is, and keeps what comes after the '#'.
    phone.open(&format!("{address}no/such/page#/cook")).await;
    assert_eq!(phone.ask("location.href").await, format!("{address}#/cook"));
    phone.check_nothing_left().await;
    phone.put_down().await;

    let again = Phone::pick_up(&profile).await;
    again.open(&address).await;
    again.check_nothing_left().await;
    again.put_down().await;
}
