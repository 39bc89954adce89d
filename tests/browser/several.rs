//! Several dishes in one service: taken in on the plan, for later guests, with cooks by name, and begun as one.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};

impl Bench {
    /// Takes a dish into the service; the list is at its beginning again afterwards.
    #[track_caller]
    fn take_in(&self, value: &str, dishes: &str) {
        let chosen = "const list = document.querySelector('#add-dish');
            for (let fold = list?.closest('details'); fold; fold = fold.parentElement.closest('details')) fold.open = true;
            if (![...(list?.options ?? [])].some((each) => each.value === arguments[0])) return false;
            list.value = arguments[0];
            list.dispatchEvent(new Event('change', { bubbles: true }));
            return list.value === ''";
        self.until("there is no such dish", chosen, &[json!(value)]);
        self.see(dishes);
    }

    /// The field of the dish that was taken in last.
    #[track_caller]
    fn field_of_last(&self, of: &str) -> String {
        let last =
            "return '#' + [...document.querySelectorAll(`input[id^=${arguments[0]}-]`)].at(-1).id";
        self.run(last, &[json!(of)]).as_str().unwrap().to_owned()
    }

    /// The hours of the headline, in minutes of the day: the start, then each wave of plates.
    #[track_caller]
    fn hours(&self) -> Vec<i64> {
        let hours = "return [...document.querySelectorAll('.page .clockline b')].map((hour) => {
            const [hours, minutes] = hour.innerText.split(':');
            return 60 * hours + Number(minutes);
        })";
        serde_json::from_value(self.run(hours, &[])).unwrap()
    }
}

#[test]
fn two_waves_of_a_dish_are_one_service() {
    let mut bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    let place = bench.fish_place();
    bench.go(&format!("{place}/plan"));
    bench.see("Step by step");
    assert_eq!(bench.hours().len(), 2);
    bench.tap("Another dish with it");
    bench.take_in("again", "2 dishes in this service");
    let later = bench.field_of_last("later");
    bench.fill(&later, "soon");
    bench.see("Minutes later are a whole number, such as 20.");
    bench.fill(&later, "20");
    bench.until(
        "the later plates have no hour",
        "return document.querySelectorAll('.page .clockline b').length === 3",
        &[],
    );
    let hours = bench.hours();
    assert_eq!((hours[2] - hours[1]).rem_euclid(24 * 60), 20, "{hours:?}");
    bench.unfold();
    bench.tap_css("label:has(input[name=cooks]):nth-of-type(2)");
    bench.fill("#cook-2", "Noor");
    bench.see_unfolded("Bream +20: Skin side down");
    bench.see_unfolded("Noor");
    // It is all there after a reload, and sound in usual text and in larger.
    bench.reload();
    bench.started();
    bench.see("2 dishes in this service");
    bench.until(
        "the later plates have no hour",
        "return document.querySelectorAll('.page .clockline b').length === 3",
        &[],
    );
    bench.unfold();
    bench.has(&later, "20");
    bench.has("#cook-2", "Noor");
    let mut faults = bench.every_fault("plan-several");
    bench.go(&format!("{place}/prepare"));
    bench.see("2 dishes in this service");
    bench.see("Two fillets (Bream +20)");
    faults.extend(bench.every_fault("prepare-several"));
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    bench.tap("Start the service");
    bench.tap("Start anyway");
    bench.at_stage("service");
    bench.see("Bream: Warm the plates");
    bench.all_steps();
    bench.see("Bream +20: Plate");
    // What has begun stays as it is.
    bench.go(&format!("{place}/plan"));
    bench.see("Back to the service");
    bench.not_see("dishes in this service");
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn a_counted_kitchen_holds_for_the_next_service() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    let place = bench.fish_place();
    bench.go(&format!("{place}/plan"));
    bench.see("Step by step");
    bench.tap("Cooks and pans");
    bench.tap_css("label:has(input[name=burners]):nth-of-type(2)");
    let burners = "return [...document.querySelectorAll('input[name=burners]')].findIndex((each) => each.checked)";
    bench.until(
        "one burner is not chosen",
        &format!("return (() => {{ {burners} }})() === 1"),
        &[],
    );
    bench.go("#/");
    bench.started();
    bench.demo_weighed();
    assert_ne!(bench.fish_place(), place);
    bench.go(&format!("{}/plan", bench.fish_place()));
    bench.see("Step by step");
    bench.unfold();
    assert_eq!(bench.run(burners, &[]), json!(1));
}
