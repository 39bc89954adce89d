//! What every plan must keep, checked from the definition and sharing nothing with the solver.

use scaleside::service::plan::{Edge, Kitchen, Plan};

/// From, until, and how many places.
type Use = (i64, i64, i64);

/// Every rule that a plan breaks, in words. `overdue` links are left aside.
pub fn broken_rules(kitchen: &Kitchen, plan: &Plan) -> Vec<String> {
    let mut broken = Vec::new();
    let times = |id: &str| {
        let slot = plan.slot(id).unwrap();
        (slot.start, slot.end)
    };
    for (k, link) in kitchen.links.iter().enumerate() {
        let edge = |id: &str, edge| {
            if edge == Edge::Start {
                times(id).0
            } else {
                times(id).1
            }
        };
        let gap = edge(&link.to, link.to_edge) - edge(&link.from, link.from_edge);
        let kept = gap >= link.least && link.greatest.is_none_or(|g| gap <= g);
        if !kept && !plan.overdue.contains(&k) {
            broken.push(format!("link {k} has a gap of {gap}"));
        }
    }
    let plating = times(&kitchen.plating);
    if plating.0 != plan.plating {
        broken.push("plating is not when it is said to be".to_owned());
    }
    let mut uses = vec![(
        "hands".to_owned(),
        i64::from(kitchen.cooks),
        Vec::<Use>::new(),
    )];
    for station in &kitchen.stations {
        uses.push((station.id.clone(), station.places.into(), vec![]));
    }
    let mut holding = 0;
    for task in &kitchen.tasks {
        let (start, end) = times(&task.id);
        if task.id != kitchen.plating {
            holding += i64::from(task.held) * (plating.0 - end);
            if end > plating.0 {
                broken.push(format!("{} ends after plating starts", task.id));
            }
        }
        if task.hands_first + task.hands_last == end - start {
            uses[0].2.push((start, end, 1));
        } else {
            uses[0].2.push((start, start + task.hands_first, 1));
            uses[0].2.push((end - task.hands_last, end, 1));
        }
        for need in &task.needs {
            let station = uses
                .iter_mut()
                .skip(1)
                .find(|u| u.0 == need.station)
                .unwrap();
            let ready = kitchen.stations.iter().find(|s| s.id == need.station);
            // Nothing is made ready for plating.
            let ready = ready.filter(|_| task.id != kitchen.plating);
            let from = start - ready.map_or(0, |station| station.ready);
            station.2.push((from, end, need.places.into()));
        }
    }
    if holding != plan.holding {
        broken.push(format!("holding is {holding}, not {}", plan.holding));
    }
    for (name, places, uses) in uses {
        for &(at, end, _) in &uses {
            let there = uses.iter().filter(|u| u.0 <= at && at < u.1);
            let taken: i64 = there.map(|u| u.2).sum();
            if at < end && taken > places {
                broken.push(format!("{name} has {taken} at {at}"));
            }
        }
    }
    broken
}
