//! The page around the app: what is painted before the module arrives, its policy, its manifest.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};
use crate::site::Site;

#[test]
fn the_page_paints_before_any_script() {
    let site = Site::new();
    site.edit("index.html", |page| {
        page.replace("<script", "<template")
            .replace("</script>", "</template>")
    });
    let bench = Bench::open_at(site, PHONE, Scheme::Light);
    bench.see("Scaleside");
    bench.see("Buy one whole fish, weigh it, fillet it");
    bench.shot("shell");
    assert_eq!(bench.axe(), [""; 0]);
}

#[test]
fn the_app_starts_with_nothing_on_the_console() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    assert_eq!(bench.console_errors(), [""; 0]);
    assert_eq!(bench.small_targets(), [""; 0]);
    assert_eq!(bench.axe(), [""; 0]);
}

#[test]
fn nothing_is_asked_of_another_host() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    let elsewhere = "return performance.getEntriesByType('resource').map((entry) => entry.name)
        .filter((name) => !name.startsWith(location.origin + '/'))";
    assert_eq!(bench.run(elsewhere, &[]), json!([]));

    let elsewhere = Site::new();
    let refused = "return fetch(arguments[0], { mode: 'no-cors' }).then(() => false, () => true)";
    assert_eq!(
        bench.run(refused, &[json!(elsewhere.address())]),
        json!(true)
    );
    assert_eq!(
        bench.run(refused, &[json!(bench.site.address())]),
        json!(false)
    );
}

#[test]
fn a_script_or_style_that_is_not_of_the_build_does_nothing() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    let script = "const script = document.createElement('script');
        script.textContent = 'window.foreign = true';
        document.head.append(script);
        const style = document.createElement('style');
        style.textContent = 'body { outline: 7px solid red }';
        document.head.append(style);
        return [window.foreign ?? false, getComputedStyle(document.body).outlineStyle]";
    assert_eq!(bench.run(script, &[]), json!([false, "none"]));
}

#[test]
fn the_app_can_go_on_the_home_screen() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    assert_eq!(bench.install_errors(), json!([]));
}
