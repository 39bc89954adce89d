//! More covers than the pan holds fillets: the fish steps are done over in batches.

use super::Edge;
use super::check::{Checked, refuse_if, task_at};
use super::kitchen::{Kitchen, Link, Task};
use crate::refusal::Refusal;

impl Kitchen {
    /// The kitchen with `steps` done once a batch, when `covers` fillets go into a pan that holds `at_once`.
    ///
    /// Each batch keeps the links among its own steps, and each link to another step: all of them rest, and all of
    /// them meet at plating. The first of `steps` is started in the order of the batches, which loses nothing, as
    /// batches are alike. The copies are called `id/1`, `id/2` and so on. With one batch nothing changes.
    ///
    /// Refuses a kitchen that makes no sense, no covers, a pan that holds nothing, more than 20 batches, and
    /// plating among the steps.
    pub fn in_batches(&self, steps: &[&str], covers: u32, at_once: u32) -> Result<Self, Refusal> {
        Checked::new(self)?;
        for step in steps {
            task_at(self, step)?;
            refuse_if(*step == self.plating, || {
                "Plating is done once, for all covers.".to_owned()
            })?;
        }
        refuse_if(covers == 0, || "How many covers?".to_owned())?;
        refuse_if(at_once == 0, || {
            "The pan must hold at least one fillet.".to_owned()
        })?;
        let batches = covers.div_ceil(at_once);
        refuse_if(batches > 20, || {
            "That is more than 20 batches: use another pan.".to_owned()
        })?;
        if batches == 1 || steps.is_empty() {
            return Ok(self.clone());
        }
        let copied = |id: &str| steps.contains(&id);
        let copy = |id: &str, batch: u32| {
            if copied(id) {
                format!("{id}/{batch}")
            } else {
                id.to_owned()
            }
        };
        let mut tasks = Vec::new();
        for task in &self.tasks {
            if !copied(&task.id) {
                tasks.push(task.clone());
                continue;
            }
            tasks.extend((1..=batches).map(|batch| Task {
                id: copy(&task.id, batch),
                name: format!("{}, batch {batch}", task.name),
                ..task.clone()
            }));
        }
        let mut links = Vec::new();
        for link in &self.links {
            let times = if copied(&link.from) || copied(&link.to) {
                batches
            } else {
                1
            };
            links.extend((1..=times).map(|batch| Link {
                from: copy(&link.from, batch),
                to: copy(&link.to, batch),
                ..link.clone()
            }));
        }
        if let Some(first) = steps.first() {
            links.extend((1..batches).map(|batch| Link {
                from_edge: Edge::Start,
                ..Link::after(&copy(first, batch), &copy(first, batch + 1))
            }));
        }
        Ok(Self {
            tasks,
            links,
            ..self.clone()
        })
    }
}
