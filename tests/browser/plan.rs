//! The plan and the heat of a service: measured, planned by the hour, cooked late, corrected by the probe.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};

const SKIN: &str = "Skin side down";

impl Bench {
    /// The demo with its fillet measured and its times taken from the estimate, at the mise en place.
    #[track_caller]
    pub fn demo_measured(&self) {
        self.demo_weighed();
        self.tap("Chill and prepare");
        self.at_stage("prepare");
        self.see("How thick is it?");
        self.tap("How the fillet cooks");
        self.at_stage("heat");
        self.see("How thick is it?");
        self.fill("#thickness", "19");
        self.see("Its middle gets to");
        self.tap("Cook it by this");
        self.at_stage("prepare");
        self.see("for this fillet");
    }

    /// Chooses a time of day, so many minutes from now on this bench's clock, and says which it is.
    #[track_caller]
    fn plate_in(&self, minutes: i64) -> String {
        let script = "const at = new Date(Date.now() + arguments[0] * 60000);
            const text = String(at.getHours()).padStart(2, '0') + ':' + String(at.getMinutes()).padStart(2, '0');
            const field = document.querySelector('#plate-at');
            field.value = text;
            field.dispatchEvent(new Event('change', { bubbles: true }));
            return text;";
        let text = self.run(script, &[json!(minutes)]);
        text.as_str().unwrap().to_owned()
    }

    /// What stands after “Plate about” on the service, in minutes of the day.
    fn plate_minute(&self) -> i64 {
        let text = self.run(
            "return document.querySelector('.clockline span:last-child b').innerText",
            &[],
        );
        let (hours, minutes) = text.as_str().unwrap().split_once(':').unwrap();
        hours.parse::<i64>().unwrap() * 60 + minutes.parse::<i64>().unwrap()
    }

    /// Waits until plating stands so many minutes later than `before`, a minute either way.
    #[track_caller]
    fn plates_later(&self, before: i64, minutes: i64) {
        let script = "const [hours, minutes] = document.querySelector('.clockline span:last-child b').innerText.split(':');
            const later = (Number(hours) * 60 + Number(minutes) - arguments[0] + 1440) % 1440;
            return Math.abs(later - arguments[1]) <= 1;";
        self.until(
            format!("the plate is not {minutes} minutes later"),
            script,
            &[json!(before), json!(minutes)],
        );
    }
}

#[test]
fn a_service_is_planned_by_the_hour_cooked_late_and_corrected_by_the_probe() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.demo_measured();
    bench.has_probe();
    bench.tap("Plan of the service");
    bench.at_stage("plan");
    bench.tap("At an hour");
    let hour = bench.plate_in(90);
    bench.see(&format!("Plate {hour}"));
    bench.see("the alarm rings when it is time to begin");
    // A reload in the middle loses neither the hour nor the times.
    bench.reload();
    bench.started();
    bench.see(&format!("Plate {hour}"));
    bench.tap("Back");
    bench.at_stage("prepare");
    bench.see(&format!("plate at {hour}"));
    bench.tap("Start the service");
    bench.tap("Start anyway");
    bench.at_stage("service");
    bench.see(&format!("Plate about {hour}"));
    bench.see("Next: Warm the plates");

    // At the hour of the start the alarm says so.
    bench.clock_ahead(90 * 60);
    bench.until(
        "the start was not announced",
        "return document.querySelector('[role=alert][aria-live=assertive]').innerText.includes('Time to begin the service.')",
        &[],
    );
    bench.all_steps();
    bench.on_step("Warm the plates", "Warming");
    bench.on_step("Heat the pan", "Shimmering");
    bench.on_step(SKIN, "Begin");
    bench.step_says(SKIN, "until");
    let before = bench.plate_minute();

    // The turn is late by five minutes past its time: what has not begun moves, the fish does not.
    let began = bench.until_minute(SKIN);
    let left = bench.left(SKIN);
    bench.clock_ahead(90 * 60 + left + 300);
    bench.announced(SKIN);
    bench.plates_later(before, 5);
    assert!(began > 0);
    bench.on_step(SKIN, "Turned, heat off");
    bench.step_says("Finish in the pan's own heat", "until");

    // The probe corrects the rest of it, and a reload keeps the reading.
    bench.see("Slide the probe in from the side");
    bench.fill("#probe", "none");
    bench.tap("It shows this");
    bench.see("“none” is no figure");
    bench.until(
        "the refusal is hidden under the dock",
        "return document.querySelector('#probe-fault').getBoundingClientRect().bottom
            <= document.querySelector('.dock').getBoundingClientRect().top",
        &[],
    );
    bench.fill("#probe", "62,5");
    bench.tap("It shows this");
    bench.see("Read: 62,5 °C at");
    bench.see("Middle, by estimate:");
    bench.see("Corrected by the probe");
    bench.reload();
    bench.started();
    bench.see("Read: 62,5 °C at");
    bench.see("Middle, by estimate:");
    bench.see("Corrected by the probe");
    bench.step_says("Finish in the pan's own heat", "until");
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn what_does_not_fit_is_said_with_two_ways_out() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.demo_weighed();
    let fish = bench.fish_place();
    bench.go(&format!("{fish}/plan"));
    bench.see("Nothing waits for the plate.");
    bench.fill("#at-once", "1");
    bench.see("This does not fit");
    bench.see("Let the fish wait");
    bench.tap("Use a second pan.");
    bench.not_see("This does not fit");
    bench.see_unfolded("Skin side down, batch 2");
    bench.see("proven to be the least there can be");
    // A third panful, and a third pan.
    bench.go(&format!("{fish}/delivery"));
    bench.fill("#portions", "3");
    bench.go(&format!("{fish}/plan"));
    bench.see("This does not fit");
    bench.tap("Use a third pan.");
    bench.not_see("This does not fit");
    bench.see_unfolded("Skin side down, batch 3");
}

/// At the stove what runs comes first, and what quarrels is still in sight below it.
#[test]
fn a_quarrel_stands_below_what_runs_and_its_way_out_is_taken_while_cooking() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.demo_weighed();
    let fish = bench.fish_place();
    bench.go(&format!("{fish}/plan"));
    bench.fill("#at-once", "1");
    bench.see("This does not fit");
    bench.go(&format!("{fish}/prepare"));
    bench.tap("Start the service");
    bench.tap("Start anyway");
    bench.at_stage("service");
    bench.all_steps();
    bench.on_step("Warm the plates", "Warming");
    bench.on_step("Heat the pan, batch 1", "Shimmering");
    bench.on_step("Skin side down, batch 1", "Begin");
    bench.step_says("Skin side down, batch 1", "until");
    bench.see("This does not fit");
    let below = "const card = document.querySelector('article.runs').getBoundingClientRect();
        const quarrel = document.querySelector('main .doubt').getBoundingClientRect();
        return card.bottom <= quarrel.top;";
    bench.until("the quarrel stands above what runs", below, &[]);
    bench.see("Let the fish wait");
    bench.tap_css("main .doubt button");
    bench.not_see("This does not fit");
    bench.step_says("Skin side down, batch 1", "until");
}

#[test]
fn a_fish_follows_the_card_of_its_dish_until_it_is_cooked() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.demo_weighed();
    let fish = bench.fish_place();
    bench.go(&format!("{fish}/steps"));
    bench.tap("Keep as a dish of my own");
    bench.see("is kept among your dishes");
    bench.go(&format!("{fish}/prepare"));
    let find = "return [...document.querySelectorAll('#which-dish option')]
        .map((option) => option.value).find((value) => !['bream', 'fillet', 'changed'].includes(value)) ?? null;";
    bench.until(
        "the dish is not offered",
        &find.replace("?? null", "!== undefined"),
        &[],
    );
    let card = bench.run(find, &[]);
    let card = card.as_str().unwrap();
    bench.pick("#which-dish", card);
    // The card is changed after it was chosen.
    bench.go(&format!("#/dish/{card}/steps"));
    bench.tap("Leeks into the same pan");
    bench.fill("#leeks-Secs", "5:00");
    bench.tap("Keep the step");
    bench.see("Kept.");
    bench.go(&format!("{fish}/prepare"));
    bench.see("Worked out ahead");
    bench.go(&format!("{fish}/steps"));
    bench.see("5 min · pan");
    // The service has it, and what the card says from now on is for the next one.
    bench.go(&format!("{fish}/prepare"));
    bench.tap("Start the service");
    bench.tap("Start anyway");
    bench.at_stage("service");
    bench.all_steps();
    bench.tap("The plan as a list");
    bench.see("5 min · pan");
}

#[test]
fn a_changed_step_is_kept_with_the_dish_and_moves_no_running_service() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.demo_weighed();
    let fish = bench.fish_place();
    bench.go(&format!("{fish}/steps"));
    bench.tap("Leeks into the same pan");
    bench.fill("#leeks-Secs", "soon");
    bench.tap("Keep the step");
    bench.see("“soon” is no time");
    bench.fill("#leeks-Secs", "4:00");
    bench.tap("Keep the step");
    bench.see("Kept.");
    bench.tap("Keep as a dish of my own");
    bench.see("is kept among your dishes");
    bench.reload();
    bench.started();
    bench.see("4 min · pan");
    bench.go(&format!("{fish}/yield"));
    bench.start_anyway();
    bench.go(&format!("{fish}/steps"));
    bench.see("The service has begun: its steps stay as they are.");
}

#[test]
fn the_screens_of_the_plan_are_sound() {
    let mut bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.demo_measured();
    let fish = bench.fish_place();
    let mut faults = bench.faults("prepare-measured");
    bench.go(&format!("{fish}/heat"));
    bench.fill("#thin-end", "8");
    bench.see_unfolded("The thin end reaches about");
    faults.extend(bench.faults("heat"));
    bench.fill("#pan-name", "Black 24");
    bench.tap("Keep");
    bench.see("A pan of this kitchen");
    faults.extend(bench.faults("heat-pan"));
    bench.go(&format!("{fish}/plan"));
    bench.tap("At an hour");
    bench.plate_in(45);
    bench.see("Step by step");
    faults.extend(bench.faults("plan"));
    bench.fill("#at-once", "1");
    bench.see("This does not fit");
    faults.extend(bench.faults("plan-quarrel"));
    bench.fill("#at-once", "2");
    bench.see("Step by step");
    bench.go(&format!("{fish}/steps"));
    bench.tap("Leeks into the same pan");
    bench.fill("#leeks-Secs", "soon");
    bench.tap("Keep the step");
    bench.see("“soon” is no time");
    faults.extend(bench.faults("steps"));
    assert_eq!(bench.console_errors(), [""; 0]);
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// Printed, never asserted: how long a phone a sixth as fast is busy.
#[test]
fn how_long_forty_steps_and_one_advice_take_on_a_slow_phone() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.demo_weighed();
    let fish = bench.fish_place();
    bench.go(&format!("{fish}/steps"));
    for step in 1..=29 {
        bench.tap("Add a step");
        bench.until(
            format!("step {step} was not added"),
            "return document.querySelectorAll('details.sheet').length === arguments[0]",
            &[json!(11 + step)],
        );
    }
    bench.go(&format!("{fish}/plan"));
    bench.see("Step by step");
    bench.command("Emulation.setCPUThrottlingRate", json!({ "rate": 6 }));
    // From the tap to its frame, and to the frame that shows the new plan.
    let tap = "window.took = null; window.planned = null; const from = performance.now();
        const framed = (then) => requestAnimationFrame(() => setTimeout(() => then(performance.now() - from)));
        const list = document.querySelector('.planlist');
        const said = list.textContent, now = () => document.querySelector('.planlist');
        new MutationObserver((_, watch) => {
            if (now() === list && list.textContent === said) return;
            watch.disconnect();
            framed((took) => { window.planned = took; });
        }).observe(document.querySelector('.page main'), { childList: true, subtree: true, characterData: true });
        document.querySelector(`input[name=cooks]:not(:checked)`).click();
        framed((took) => { window.took = took; });";
    let (mut taps, mut plans) = (Vec::new(), Vec::new());
    for _ in 0..3 {
        bench.run(tap, &[]);
        let shown = "return window.took !== null && window.planned !== null";
        bench.until("no frame", shown, &[]);
        taps.push(bench.run("return window.took", &[]).as_f64().unwrap());
        plans.push(bench.run("return window.planned", &[]).as_f64().unwrap());
    }
    bench.go(&format!("{fish}/heat"));
    let watch = "window.busy = []; new PerformanceObserver((list) => {
        for (const task of list.getEntries()) window.busy.push(task.duration);
    }).observe({ entryTypes: ['longtask'] });";
    bench.run(watch, &[]);
    bench.fill("#thickness", "19");
    bench.see("Its middle gets to");
    let busy = bench.run("return Math.max(0, ...window.busy)", &[]);
    println!(
        "six times slowed down, forty steps: a tap is shown after {taps:.0?} ms, its plan after {plans:.0?} ms; one advice keeps it busy {:.0} ms at a time",
        busy.as_f64().unwrap()
    );
}
