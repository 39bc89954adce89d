//! Everyone can use it: every screen read by three accessibility engines and two checkers of markup, in forced colours, and
//! with words in pictures that grow as others do.

use std::collections::BTreeSet;

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};
use crate::judged::{LOOKED_AT, by_html_validate, by_nu};

/// The least size of a word in a picture on a phone, in CSS pixels.
const LEAST_WORD: f64 = 11.5;

impl Bench {
    /// The words in the pictures of this screen: how many, the smallest in CSS pixels, the least contrast.
    #[track_caller]
    fn words_in_pictures(&self) -> (u64, f64, f64) {
        serde_json::from_value(self.run(include_str!("scripts/pictures.js"), &[])).unwrap()
    }
}

#[test]
fn every_screen_is_read_by_three_engines_and_two_checkers() {
    let bench = Bench::open(PHONE, Scheme::Light);
    let screens = bench.one_of_everything();
    let mut wrong = Vec::new();
    let mut looked_at = BTreeSet::new();
    let mut pages = Vec::new();
    for (nth, screen) in screens.iter().enumerate() {
        bench.go(screen);
        bench.started();
        bench.unfold();
        let name = format!("rendered-{nth}.html");
        bench.site.put(&name, bench.markup().as_bytes());
        pages.push(name);
        for line in bench.judged() {
            match LOOKED_AT
                .iter()
                .position(|(what, _)| line.starts_with(what))
            {
                Some(nth) => drop(looked_at.insert(nth)),
                None => wrong.push(format!("{screen}: {line}")),
            }
        }
    }
    // Its two pages as they are served; the sentence for what can't start is hidden until then.
    let served = String::from_utf8(bench.site.bytes("index.html")).unwrap();
    let (head, rest) = served.split_once("<main id=\"shell\">").unwrap();
    let (shell, aborted) = rest.split_once("<main id=\"aborted\" hidden>").unwrap();
    let (_, foot) = aborted.split_once("</main>").unwrap();
    bench.site.put(
        "served-start.html",
        format!("{head}<main id=\"shell\">{shell}{foot}").as_bytes(),
    );
    bench.site.put(
        "served-stopped.html",
        format!("{head}<main id=\"aborted\">{aborted}").as_bytes(),
    );
    let scopes: Vec<String> = ["served-start.html", "served-stopped.html", "404.html"]
        .map(str::to_owned)
        .into();
    pages.extend(scopes);
    let files: Vec<_> = pages
        .iter()
        .map(|page| bench.site.folder.join(page))
        .collect();
    wrong.extend(by_html_validate(&files));
    let mut addresses: Vec<String> = pages
        .iter()
        .map(|page| format!("{}{page}", bench.site.address()))
        .collect();
    addresses.push(bench.site.address());
    wrong.extend(by_nu(&addresses));
    println!(
        "{} screens by axe, IBM's engine and HTML_CodeSniffer, {} pages by html-validate and vnu: {} findings; {} kinds that a person is to look at, each with what was seen",
        screens.len(),
        addresses.len(),
        wrong.len(),
        looked_at.len()
    );
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    let unused: Vec<&str> = (0..LOOKED_AT.len())
        .filter(|nth| !looked_at.contains(nth))
        .map(|nth| LOOKED_AT[nth].0)
        .collect();
    assert!(unused.is_empty(), "nobody asks any more: {unused:?}");
    // A button outside a form sends nothing, so that none says what type it is of.
    assert!(
        files
            .iter()
            .all(|file| !std::fs::read_to_string(file).unwrap().contains("<form"))
    );
}

#[test]
fn words_in_pictures_are_large_enough_follow_the_text_and_stand_out() {
    let mut bench = Bench::open(PHONE, Scheme::Light);
    let screens = bench.one_of_everything();
    let (mut words, mut smallest, mut least) = (0, f64::MAX, f64::MAX);
    let mut grown = 0;
    for screen in &screens {
        bench.go(screen);
        bench.started();
        bench.unfold();
        let (count, size, contrast) = bench.words_in_pictures();
        if count == 0 {
            continue;
        }
        bench.show_in(Scheme::Dark);
        let (_, _, in_the_dark) = bench.words_in_pictures();
        bench.show_in(Scheme::Light);
        assert!(
            contrast.min(in_the_dark) >= 4.5,
            "{screen}: {contrast:.2}, {in_the_dark:.2}"
        );
        assert!(size >= LEAST_WORD, "{screen}: {size:.1} px");
        words += count;
        smallest = smallest.min(size);
        least = least.min(contrast).min(in_the_dark);
        // Drawn again in larger text.
        bench.go("#/about");
        bench.see("Cautions");
        bench.text_at(130);
        bench.go(screen);
        bench.started();
        bench.unfold();
        let (again, larger, _) = bench.words_in_pictures();
        bench.run(
            "document.querySelector('.page svg:has(text)')?.scrollIntoView({ block: 'center' })",
            &[],
        );
        bench.shot(&format!("words-{}", screen.rsplit('/').next().unwrap()));
        bench.text_at(100);
        // The stove has its own measure: stove.rs.
        if again > 0 && !screen.ends_with("/service") && screen != "#/cooking" {
            assert!(
                larger >= size * 1.2,
                "{screen}: {size:.1} px, then {larger:.1} px in text of 130 %"
            );
            grown += 1;
        }
    }
    println!(
        "{words} words in pictures: the smallest {smallest:.1} px, the least contrast {least:.2}; {grown} pictures grow with the text"
    );
    assert!(words > 40 && grown >= 5);
}

#[test]
fn what_is_chosen_is_seen_in_forced_colours() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    let fish = bench.fish_place();
    let forced = json!({ "features": [{ "name": "forced-colors", "value": "active" }] });
    bench.command("Emulation.setEmulatedMedia", forced);
    // A choice and its neighbour that is not chosen, as the browser draws them: outline, border, and the mark before.
    let drawn = "return [...document.querySelectorAll('.page .choice input')].map((input) => {
        const span = input.nextElementSibling;
        const [words, mark] = [getComputedStyle(span), getComputedStyle(span, '::before')];
        return [input.checked, `${words.outlineStyle} ${words.borderTopColor} ${mark.backgroundColor}`];
    })";
    let mut choices = 0;
    for place in [
        format!("{fish}/delivery"),
        format!("{fish}/weigh-ready"),
        format!("{fish}/prepare"),
        "#/settings".to_owned(),
    ] {
        bench.go(&place);
        bench.started();
        bench.unfold();
        assert_eq!(
            bench.run("return matchMedia('(forced-colors: active)').matches", &[]),
            json!(true)
        );
        let looks: Vec<(bool, String)> = serde_json::from_value(bench.run(drawn, &[])).unwrap();
        let of = |chosen| -> BTreeSet<&String> {
            looks
                .iter()
                .filter(|(is, _)| *is == chosen)
                .map(|(_, look)| look)
                .collect()
        };
        assert!(of(true).is_disjoint(&of(false)), "{place}: {looks:?}");
        choices += looks.len();
        bench.shot(&format!("forced-{}", place.rsplit('/').next().unwrap()));
    }
    println!(
        "{choices} choices in forced colours: what is chosen looks another way than what is not"
    );
    assert!(choices > 20);
}

#[test]
fn hints_are_tied_to_their_fields_and_sentences_stand_beside_them() {
    let bench = Bench::open(PHONE, Scheme::Light);
    let screens = bench.one_of_everything();
    let loose = "return [...document.querySelectorAll('.page .field .hint')]
        .filter((hint) => hint.checkVisibility() && hint.parentElement.closest('.field')?.querySelector('input, select, textarea'))
        .filter((hint) => !document.querySelector(`[aria-describedby~='${hint.closest('[id]')?.id}']`))
        .map((hint) => hint.innerText)";
    let mut faults = Vec::new();
    for screen in &screens {
        bench.go(screen);
        bench.started();
        bench.unfold();
        let found: Vec<String> = serde_json::from_value(bench.run(loose, &[])).unwrap();
        faults.extend(found.into_iter().map(|hint| format!("{screen}: {hint}")));
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    let heat = screens
        .iter()
        .find(|screen| screen.ends_with("/heat"))
        .unwrap();
    bench.go(heat);
    bench.started();
    bench.fill("#thickness", "900");
    let apart = "const field = document.querySelector('#thickness').getBoundingClientRect();
        const said = [...document.querySelectorAll('.page .fault')].find((said) => said.checkVisibility());
        if (!said) return -1;
        const { top } = said.getBoundingClientRect();
        return Math.round(Math.abs(top - field.bottom))";
    bench.until(
        "nothing is said",
        &format!("return (() => {{ {apart} }})() >= 0"),
        &[],
    );
    let apart = bench.run(apart, &[]).as_i64().unwrap();
    println!("the sentence stands {apart} px from its field");
    assert!(apart < 100, "{apart}");
}
