//! The weighing at the widths of the commonest phones: nothing beside the screen, and each unit is hit where it is drawn.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};
use crate::cook::SNAPPER;

const WIDTHS: [u32; 8] = [320, 360, 375, 393, 412, 430, 600, 820];

/// The choices that are cut, lie over each other, or take a tap that was meant for another, one line each.
const MISSED: &str = "const faults = [];
    const choices = [...document.querySelectorAll('.choice')];
    for (const choice of choices) {
        choice.scrollIntoView({ block: 'center' });
        const name = choice.innerText;
        const { left, right, top, bottom } = choice.getBoundingClientRect();
        const words = choice.querySelector('span');
        if (words.scrollWidth > words.clientWidth) faults.push(`${name}: its words are cut`);
        for (const x of [left + 4, (left + right) / 2, right - 4])
            for (const y of [top + 4, bottom - 4])
                if (document.elementFromPoint(x, y)?.closest('.choice') !== choice)
                    faults.push(`${name}: a tap at ${Math.round(x)}, ${Math.round(y)} is not its own`);
    }
    return faults";

#[test]
fn each_unit_is_hit_where_it_is_drawn_at_every_width() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.start_fish(&SNAPPER);
    bench.tap("Weigh it whole");
    bench.at_stage("weigh-whole");
    let mut faults = Vec::new();
    for width in WIDTHS {
        let metrics =
            json!({ "width": width, "height": 740, "deviceScaleFactor": 1, "mobile": true });
        bench.command("Emulation.setDeviceMetricsOverride", metrics);
        let missed: Vec<String> = serde_json::from_value(bench.run(MISSED, &[])).unwrap();
        let across = bench.run(include_str!("scripts/across.js"), &[]);
        let across = across.as_str().map(str::to_owned);
        faults.extend(
            missed
                .into_iter()
                .chain(across)
                .map(|fault| format!("{width}: {fault}")),
        );
    }
    assert_eq!(faults, [""; 0]);
}
