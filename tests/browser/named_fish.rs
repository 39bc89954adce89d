//! A fish is found by what a cook calls it; what is never filleted is not for the job, and has its yield in a dish.

use crate::bench::{Bench, PHONE, Scheme, Size};

#[test]
fn a_fish_is_found_by_any_of_its_names() {
    let mut bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.tap("Start a fish");
    bench.at_stage("delivery");
    bench.pick("#species", "another");
    bench.fill("#species-name", "Branzino");
    bench.see("Take Sea bass from the list");
    bench.shot("named-fish");
    bench.tap("Take Sea bass from the list");
    let chosen = bench.run("return document.querySelector('#species').value", &[]);
    assert_eq!(chosen, "sea_bass");
    bench.not_see("Its name");
    bench.pick("#species", "another");
    bench.fill("#species-name", "moules");
    bench.see("Mussels: not filleted, so not for this job.");
    for scheme in Scheme::BOTH {
        bench.show_in(scheme);
        bench.resize(Size(320, 568));
        bench.shot("named-shellfish");
    }
    // No shellfish among what is filleted.
    let offered = bench.run(
        "return [...document.querySelectorAll('#species optgroup option')].map((one) => one.value)",
        &[],
    );
    let offered = offered.as_array().unwrap();
    assert!(offered.len() >= 40, "{}", offered.len());
    assert!(
        !offered
            .iter()
            .any(|one| one == "mussel" || one == "lobster")
    );
}

#[test]
fn a_dish_takes_the_published_yield_of_a_shellfish() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.go("#/dishes");
    bench.tap("Write a dish");
    bench.fill("#dish-name", "Moules");
    bench.tap("Add a line");
    bench.tap("Whole fish");
    bench.pick("#line-yield", "published");
    bench.pick("#line-species", "mussel");
    bench.see("Published for meat: 17.4 % to 26.7 %");
    bench.shot("mussels");
}
