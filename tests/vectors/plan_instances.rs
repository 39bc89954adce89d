//! The committed kitchens, read: what the scripts beside this file wrote.

use scaleside::service::plan::{Edge, Kitchen, Need, PlanLink, PlanStation, Task};
use serde_json::Value;

/// A kitchen, and the optimum that was proven for it.
pub struct Case {
    pub name: String,
    pub kitchen: Kitchen,
    /// Holding and lead; none where nothing fits.
    pub optimum: Option<(i64, i64)>,
}

/// Every kitchen of a file.
pub fn cases(json: &str) -> Vec<Case> {
    let file: Value = serde_json::from_str(json).unwrap();
    file["kitchens"]
        .as_array()
        .unwrap()
        .iter()
        .map(case)
        .collect()
}

fn case(k: &Value) -> Case {
    let list = |v: &Value| v.as_array().unwrap().clone();
    let int = |v: &Value| v.as_i64().unwrap();
    let count = |v: &Value| u32::try_from(int(v)).unwrap();
    let edge = |v: &Value| match v.as_str().unwrap() {
        "s" => Edge::Start,
        "e" => Edge::End,
        other => panic!("no edge is called {other}"),
    };
    let tasks = list(&k["tasks"]);
    Case {
        name: format!("{}{}", k["name"], k["seed"]),
        optimum: k["optimum"].as_array().map(|o| (int(&o[0]), int(&o[1]))),
        kitchen: Kitchen {
            cooks: count(&k["cooks"]),
            stations: (list(&k["stations"]).iter().enumerate())
                .map(|(id, places)| PlanStation {
                    id: id.to_string(),
                    name: format!("station {id}"),
                    places: count(places),
                    ready: k["ready"][id].as_i64().unwrap_or(0),
                })
                .collect(),
            plating: (tasks.len() - 1).to_string(),
            tasks: (tasks.iter().enumerate())
                .map(|(id, t)| Task {
                    id: id.to_string(),
                    name: format!("step {id}"),
                    secs: int(&t[0]),
                    hands_first: int(&t[1]),
                    hands_last: int(&t[2]),
                    held: count(&t[3]),
                    needs: (list(&t[4]).iter())
                        .map(|n| Need {
                            station: n[0].to_string(),
                            places: count(&n[1]),
                        })
                        .collect(),
                })
                .collect(),
            links: (list(&k["links"]).iter())
                .map(|l| PlanLink {
                    from: l[0].to_string(),
                    from_edge: edge(&l[1]),
                    to: l[2].to_string(),
                    to_edge: edge(&l[3]),
                    least: int(&l[4]),
                    greatest: l[5].as_i64(),
                })
                .collect(),
        },
    }
}
