//! The map of the house: the arrows between rooms, read from the code, are those of the table in DEVELOPERS.md, and none
//! goes up. One word is one thing: no two types that files share have the same name.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use proc_macro2::{TokenStream, TokenTree};
use quote::ToTokens;
use syn::{Attribute, Ident, Item, UseTree, Visibility};

type Rooms = Vec<String>;
type Arrows = BTreeMap<String, BTreeSet<String>>;

fn house() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Every file of `src` with the path of its module, the root of the crate left out.
fn modules() -> Vec<(Vec<String>, PathBuf)> {
    let mut found = Vec::new();
    let mut folders = vec![(Vec::new(), house().join("src"))];
    while let Some((path, folder)) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let file = entry.unwrap().path();
            let name = file.file_stem().unwrap().to_str().unwrap().to_owned();
            let mut module: Vec<String> = path.clone();
            if name != "mod" {
                module.push(name);
            }
            if file.is_dir() {
                folders.push((module, file));
            } else if file.extension().is_some_and(|ending| ending == "rs") && !module.is_empty() {
                found.push((module, file));
            }
        }
    }
    found.retain(|(module, _)| !matches!(module[0].as_str(), "lib" | "main"));
    found
}

/// The modules that a file declares for tests alone and keeps in files of their own.
fn test_files((module, file): &(Vec<String>, PathBuf)) -> Vec<Vec<String>> {
    let items = syn::parse_file(&fs::read_to_string(file).unwrap())
        .unwrap()
        .items;
    let named = items.iter().filter_map(|item| match item {
        Item::Mod(item) if item.content.is_none() && is_for_tests(&item.attrs) => Some(
            module
                .iter()
                .cloned()
                .chain([item.ident.to_string()])
                .collect(),
        ),
        _ => None,
    });
    named.collect()
}

/// What a file asks for, as paths from the root of the crate. What only tests ask for is no arrow.
#[derive(Default)]
struct Asked {
    paths: BTreeSet<Vec<String>>,
    /// The modules that the file itself declares, which it may name without saying where they are.
    declared: BTreeSet<String>,
}

impl Asked {
    fn items(&mut self, items: &[Item], module: &[String]) {
        for item in items {
            if is_for_tests(attributes(item)) {
                continue;
            }
            match item {
                Item::Use(item) => self.tree(&item.tree, Vec::new(), module),
                Item::Mod(item) => {
                    self.declared.insert(item.ident.to_string());
                    if let Some((_, items)) = &item.content {
                        let inner: Vec<String> = module
                            .iter()
                            .cloned()
                            .chain([item.ident.to_string()])
                            .collect();
                        self.items(items, &inner);
                    }
                }
                other => self.tokens(other.to_token_stream(), module),
            }
        }
    }

    fn tree(&mut self, tree: &UseTree, mut before: Vec<String>, module: &[String]) {
        match tree {
            UseTree::Path(path) => {
                before.push(path.ident.to_string());
                self.tree(&path.tree, before, module);
            }
            UseTree::Group(group) => {
                for tree in &group.items {
                    self.tree(tree, before.clone(), module);
                }
            }
            UseTree::Name(name) => {
                before.push(name.ident.to_string());
                self.path(&before, module);
            }
            UseTree::Rename(name) => {
                before.push(name.ident.to_string());
                self.path(&before, module);
            }
            UseTree::Glob(_) => self.path(&before, module),
        }
    }

    /// Paths within code, also within what a macro is given.
    fn tokens(&mut self, tokens: TokenStream, module: &[String]) {
        let mut path: Vec<String> = Vec::new();
        let mut colons = 0;
        for token in tokens {
            match token {
                TokenTree::Ident(name) => {
                    if colons != 2 {
                        self.path(&path, module);
                        path.clear();
                    }
                    path.push(name.to_string());
                    colons = 0;
                }
                TokenTree::Punct(mark) if mark.as_char() == ':' => colons += 1,
                TokenTree::Group(group) => self.tokens(group.stream(), module),
                _ => colons = 0,
            }
        }
        self.path(&path, module);
    }

    fn path(&mut self, path: &[String], module: &[String]) {
        let supers = path.iter().take_while(|part| *part == "super").count();
        let from = match path.first().map(String::as_str) {
            Some("crate") => Vec::new(),
            Some("super") => module[..module.len() - supers].to_vec(),
            Some(name) if self.declared.contains(name) => {
                let inner = module.iter().chain(path).cloned();
                self.paths.insert(inner.collect());
                return;
            }
            _ => return,
        };
        let rest = path.iter().skip(supers.max(1)).cloned();
        self.paths.insert(from.into_iter().chain(rest).collect());
    }
}

fn attributes(item: &Item) -> &[Attribute] {
    match item {
        Item::Mod(item) => &item.attrs,
        Item::Fn(item) => &item.attrs,
        Item::Use(item) => &item.attrs,
        Item::Impl(item) => &item.attrs,
        Item::Const(item) => &item.attrs,
        _ => &[],
    }
}

/// The types and traits that other files may name, however far they may.
fn shared(items: &[Item]) -> Vec<String> {
    let type_of = |item: &Item| -> Option<(Visibility, Ident)> {
        match item {
            Item::Struct(item) => Some((item.vis.clone(), item.ident.clone())),
            Item::Enum(item) => Some((item.vis.clone(), item.ident.clone())),
            Item::Trait(item) => Some((item.vis.clone(), item.ident.clone())),
            Item::Type(item) => Some((item.vis.clone(), item.ident.clone())),
            _ => None,
        }
    };
    let mut names = Vec::new();
    for item in items.iter().filter(|item| !is_for_tests(attributes(item))) {
        match item {
            Item::Mod(module) => {
                names.extend(shared(
                    module.content.as_ref().map_or(&[], |(_, items)| items),
                ));
            }
            other => names.extend(
                type_of(other)
                    .filter(|(seen, _)| !matches!(seen, Visibility::Inherited))
                    .map(|(_, name)| name.to_string()),
            ),
        }
    }
    names
}

fn is_for_tests(attributes: &[Attribute]) -> bool {
    attributes.iter().any(|attribute| {
        attribute.path().is_ident("cfg") && attribute.to_token_stream().to_string().contains("test")
    })
}

fn asked(text: &str, module: &[&str]) -> BTreeSet<Vec<String>> {
    let module: Vec<String> = module.iter().map(|part| (*part).to_owned()).collect();
    let mut asked = Asked::default();
    asked.items(&syn::parse_file(text).unwrap().items, &module);
    asked.paths
}

/// The room a path leads into: the one with the longest name that it begins with.
fn room<'a>(rooms: &'a Rooms, path: &[String]) -> Option<&'a String> {
    let path = format!("{}/", path.join("/"));
    let into = rooms
        .iter()
        .filter(|room| path.starts_with(&format!("{room}/")));
    into.max_by_key(|room| room.len())
}

/// The arrows between rooms, from the code.
fn drawn(rooms: &Rooms) -> Arrows {
    let mut arrows: Arrows = rooms
        .iter()
        .map(|room| (room.clone(), BTreeSet::new()))
        .collect();
    let modules = modules();
    let for_tests: BTreeSet<Vec<String>> = modules.iter().flat_map(test_files).collect();
    for (module, file) in modules {
        if for_tests.contains(&module) {
            continue;
        }
        let parts: Vec<&str> = module.iter().map(String::as_str).collect();
        for path in asked(&fs::read_to_string(&file).unwrap(), &parts) {
            // A file that only declares others may stand between the rooms.
            let here = room(rooms, &module)
                .unwrap_or_else(|| panic!("{} is in no room of the map", file.display()));
            match room(rooms, &path) {
                Some(there) if there != here => {
                    arrows.get_mut(here).unwrap().insert(there.clone());
                }
                _ => {}
            }
        }
    }
    arrows
}

/// The rooms from the top down, and what each calls, from the table whose head is `| room | calls |`.
fn written() -> (Rooms, Arrows) {
    let guide = fs::read_to_string(house().join("DEVELOPERS.md")).unwrap();
    let table = guide
        .split("| room | calls |\n")
        .nth(1)
        .expect("no table of arrows");
    let names = |cell: &str| -> Vec<String> {
        cell.split('`')
            .skip(1)
            .step_by(2)
            .map(str::to_owned)
            .collect()
    };
    let (mut rooms, mut arrows) = (Rooms::new(), Arrows::new());
    for row in table
        .lines()
        .skip(1)
        .take_while(|line| line.starts_with('|'))
    {
        let cells: Vec<&str> = row.split('|').collect();
        let room = names(cells[1]).remove(0);
        arrows.insert(room.clone(), names(cells[2]).into_iter().collect());
        rooms.push(room);
    }
    (rooms, arrows)
}

#[test]
fn an_arrow_is_read_from_every_way_to_write_a_path() {
    let text = "
        mod slot;
        fn look() { slot::look() }
        use crate::trade::{mass::Mass, money::{self, Price}};
        use super::slip::Slip as Bought;
        #[cfg(test)] use crate::never::Asked;
        fn work() -> crate::base::refusal::Refusal { view! { <p>{super::super::code::day::said(crate::heat::RULE)}</p> } }
        #[cfg(test)] mod tests { use crate::never::Asked; }
        mod inner { use super::super::weighing::Which; }
    ";
    let wanted: BTreeSet<Vec<String>> = [
        "trade/mass/Mass",
        "trade/money/self",
        "trade/money/Price",
        "fish/slip/Slip",
        "base/refusal/Refusal",
        "code/day/said",
        "heat/RULE",
        "fish/weighing/Which",
        "fish/record/slot/look",
    ]
    .iter()
    .map(|path| path.split('/').map(str::to_owned).collect())
    .collect();
    assert_eq!(asked(text, &["fish", "record"]), wanted);
}

#[test]
fn the_map_shows_the_arrows_of_the_code() {
    let (rooms, written) = written();
    let drawn = drawn(&rooms);
    let row = |room: &String| {
        let calls: Vec<String> = (rooms.iter())
            .filter(|other| drawn[room].contains(*other))
            .map(|other| format!("`{other}`"))
            .collect();
        format!("| `{room}` | {} |\n", calls.join(" "))
    };
    let table: String = rooms.iter().map(row).collect();
    assert!(
        drawn == written,
        "The table of arrows in DEVELOPERS.md should be:\n{table}"
    );
}

#[test]
fn no_arrow_goes_up() {
    let (rooms, _) = written();
    let place = |room: &String| rooms.iter().position(|other| other == room).unwrap();
    let up: Vec<String> = drawn(&rooms)
        .iter()
        .flat_map(|(from, to)| to.iter().map(move |to| (from.clone(), to.clone())))
        .filter(|(from, to)| place(to) <= place(from))
        .map(|(from, to)| format!("{from} calls {to}"))
        .collect();
    assert_eq!(
        up, [""; 0],
        "a room calls only those below it, so that there is no circle"
    );
}

#[test]
fn a_type_is_shared_however_it_is_written() {
    let text = "
        pub struct Line { of: Dots }
        pub(super) enum Side { A, Line }
        pub trait Entry { type Action; }
        pub(crate) type Change = dyn Fn(&str);
        struct Own;
        #[cfg(test)] mod tests { pub struct Sample; }
        mod inner { pub struct Within; }
        pub fn row() { struct Row; }
    ";
    let names = shared(&syn::parse_file(text).unwrap().items);
    assert_eq!(names, ["Line", "Side", "Entry", "Change", "Within"]);
}

#[test]
fn one_word_is_one_thing() {
    let modules = modules();
    let for_tests: BTreeSet<Vec<String>> = modules.iter().flat_map(test_files).collect();
    let mut homes: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for (module, file) in modules {
        if !for_tests.contains(&module) {
            let items = syn::parse_file(&fs::read_to_string(&file).unwrap()).unwrap();
            for name in shared(&items.items) {
                homes.entry(name).or_default().push(module.join("::"));
            }
        }
    }
    assert!(homes.contains_key("Fish"), "nothing was read");
    homes.retain(|_, homes| homes.len() > 1);
    assert!(
        homes.is_empty(),
        "two things of one name: tell them apart, by the trade's own words where it has them: {homes:#?}"
    );
}
