//! What other tabs and other builds do to the fish of this one.

use leptos::prelude::*;

use super::Bench;
use crate::device::storage::LocalShelf;
use crate::device::{build, clock, tabs};
use crate::fish::record::Fish;
use crate::store::keys;
use crate::store::outcome::Fault;
use crate::store::records::Store;
use crate::store::standing;
use crate::store::standing::{Newer, Standing};

impl Bench {
    /// Looks, in turn with the other tabs, whether every tap of this tab is in, and makes it again if not.
    pub(super) fn look_again(self, id: &str) {
        let fish = id.to_owned();
        tabs::in_turn(id, move || {
            let mended = self.held(&fish).and_then(|held| {
                let mend = |store: &mut Store<Fish>| store.mend(&LocalShelf, &held, clock::now());
                self.store.try_update_value(mend).flatten()
            });
            if let Some(outcome) = mended {
                // A tap that can no longer be made is told of.
                let _ = self.settle(outcome);
            }
        });
    }

    /// What another tab has just stored under `key`, and its text; all keys when it is absent.
    pub fn changed_elsewhere(self, key: Option<&str>, text: Option<&str>) {
        let Some(key) = key else {
            return;
        };
        if key == keys::BUILD {
            if let Ok(Standing::ReadOnly { why }) = standing::standing(&LocalShelf, build::number())
            {
                self.tell_fault(&Fault::ReadOnly(why));
            }
            return;
        }
        self.preferred_elsewhere(key, text);
        let found = self.store.try_update_value(|store| {
            let id = store.id_of(key)?.to_owned();
            store.hear(&id, text.unwrap_or_default());
            let newest = store.reread(&LocalShelf, &id).ok()?;
            Some((id, newest))
        });
        match found.flatten() {
            Some((id, Some(held))) => {
                let is_new = self.held(&id).is_none();
                self.put_in_hand(held);
                self.look_again(&id);
                if is_new {
                    self.sort_roll();
                }
            }
            Some((id, None)) => self.drop_from_hand(&id),
            None => {}
        }
    }

    /// Goes on with this older build, after the cook chose so.
    pub fn take_over(self) {
        if let Ok(Standing::ReadOnly {
            why: Newer::Build(seen),
        }) = standing::standing(&LocalShelf, build::number())
            && standing::take_over(&LocalShelf, build::number(), seen).is_ok()
        {
            self.notice.set(None);
        }
    }
}
