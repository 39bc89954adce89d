//! What reads a screen and knows nothing of this app: axe, IBM's engine and HTML_CodeSniffer in the page; html-validate and
//! the checker of the Nu project (`vnu`) its markup.

use std::path::Path;
use std::process::Command;

use serde_json::{Value, json};

use crate::bench::{Bench, npm};

/// What an engine asks a person to look at, and what was seen. What is wrong by its own word is never among it.
pub const LOOKED_AT: [(&str, &str); 23] = [
    (
        "axe incomplete color-contrast imgNode",
        "words in a picture: scripts/pictures.js measures them",
    ),
    (
        "axe incomplete color-contrast bgOverlap",
        "words on the bars of a plan: scripts/pictures.js measures them",
    ),
    (
        "axe incomplete label-content-name-mismatch",
        "keys of the scale: a sign, such as a point, has its name",
    ),
    (
        "ibm POTENTIAL style_viewport_resizable",
        "text grows to 200 %: everyone.rs, widths.rs and stove.rs measure it",
    ),
    (
        "ibm POTENTIAL style_focus_visible",
        "an outline of 3 px in the colour of a link, seen at each stop of the Tab key in keyboard.rs",
    ),
    (
        "ibm POTENTIAL style_color_misuse",
        "what is chosen has a mark, what is over says so, a triangle stands for what is to be looked at",
    ),
    (
        "ibm MANUAL style_highcontrast_visible",
        "everyone.rs looks at it in forced colours",
    ),
    (
        "ibm POTENTIAL element_tabbable_unobscured",
        "a box lies under its own label; below the dock it scrolls into sight: keyboard.rs",
    ),
    (
        "ibm POTENTIAL input_fields_grouped",
        "fields of one kind that belong together have a group with a name; the others are no group",
    ),
    (
        "ibm POTENTIAL input_label_visible",
        "each has a label above it, but for a key of the scale, whose sign is its label",
    ),
    (
        "ibm POTENTIAL input_checkboxes_grouped",
        "under the heading of their section",
    ),
    (
        "ibm POTENTIAL list_structure_proper",
        "a dl whose pairs stand in a div each, as HTML allows (4.4.9)",
    ),
    (
        "ibm POTENTIAL list_markup_review",
        "the licences as their authors wrote them",
    ),
    (
        "ibm POTENTIAL select_options_grouped",
        "one list of fish or units, in the order a cook looks for them",
    ),
    (
        "ibm POTENTIAL text_block_heading",
        "bold words above a heading, or the name of a line",
    ),
    (
        "ibm POTENTIAL text_sensory_misuse",
        "“left” is what is left of a time, “small” a size of fish: none says where to look",
    ),
    (
        "htmlcs 1_4_3.G18.Abs",
        "words for the ear alone, or the dock on its own ground: axe measures the contrast",
    ),
    ("htmlcs 1_4_3.G145.Abs", "as above, in large text"),
    (
        "htmlcs 1_4_10",
        "the dock is fixed and no screen scrolls sideways: everyone.rs measures it",
    ),
    (
        "htmlcs 1_3_1.H85.2",
        "one list of fish or units, in the order a cook looks for them",
    ),
    (
        "htmlcs 1_3_1.H48",
        "two links side by side that go back and on",
    ),
    (
        "htmlcs 1_3_1.H39.3.NoCaption",
        "the heading of its section says what the table holds",
    ),
    (
        "htmlcs 4_1_2.H91.Select.Value",
        "a value is set as a property, which the engine does not read",
    ),
];

/// The engines by the name that each has in a page, and where they lie among the packages from npm.
const ENGINES: [(&str, &str); 3] = [
    ("axe", "axe-core/axe.min.js"),
    ("ace", "accessibility-checker-engine/ace.js"),
    ("HTMLCS", "html_codesniffer/build/HTMLCS.js"),
];

impl Bench {
    /// What three engines find on this screen, one line a kind: what is wrong, and what is to be looked at.
    #[track_caller]
    pub fn judged(&self) -> Vec<String> {
        for (name, path) in ENGINES {
            let here = format!("return Boolean(window.{name})");
            if self.run(&here, &[]) == json!(true) {
                continue;
            }
            let engine = npm(path);
            self.run(&format!("{engine}; window.{name} ??= {name};"), &[]);
        }
        let found = self.run(include_str!("scripts/judged.js"), &[]);
        serde_json::from_value(found).unwrap()
    }

    /// This screen as markup, without what is hidden.
    #[track_caller]
    pub fn markup(&self) -> String {
        let markup = "const page = document.documentElement.cloneNode(true);
            for (const hidden of page.querySelectorAll('[hidden]')) hidden.remove();
            return `<!DOCTYPE html>\n${page.outerHTML}`";
        self.run(markup, &[]).as_str().unwrap().to_owned()
    }
}

/// What html-validate finds in these files, one line each.
pub fn by_html_validate(files: &[std::path::PathBuf]) -> Vec<String> {
    let rules = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/tests/browser/scripts/html-validate.json"
    );
    let said = Command::new("html-validate")
        .args(["--config", rules, "--formatter", "json"])
        .args(files)
        .output()
        .expect("html-validate is not installed: run .ci/setup");
    let said: Value = serde_json::from_slice(&said.stdout)
        .unwrap_or_else(|why| panic!("{why}: {}", String::from_utf8_lossy(&said.stderr)));
    let mut found = Vec::new();
    for file in said.as_array().unwrap() {
        let name = Path::new(file["filePath"].as_str().unwrap());
        for fault in file["messages"].as_array().unwrap() {
            found.push(format!(
                "{}: {}: {} at {}",
                name.file_name().unwrap().to_string_lossy(),
                fault["ruleId"],
                fault["message"],
                fault["selector"]
            ));
        }
    }
    found
}

/// What the Nu checker finds in these pages as their host sends them, warnings included, one line each.
pub fn by_nu(pages: &[String]) -> Vec<String> {
    let npm = std::env::var("SCALESIDE_NPM").expect("run `source .ci/env` first");
    let said = Command::new("java")
        // It asks this machine only when told that it may.
        .arg("-Dnu.validator.servlet.allow-forbidden-hosts=true")
        .arg("-Dnu.validator.servlet.allowed-address-type=all")
        .args(["-jar", &format!("{npm}/vnu-jar/build/dist/vnu.jar")])
        .args(["--format", "json", "--exit-zero-always"])
        // It knows no hash of a style in a page; the browser does, and shows the page that says so of a wrong address.
        .args([
            "--filterpattern",
            "Inline style violates Content Security Policy.*",
        ])
        .args(pages)
        .output()
        .expect("java is not installed: run .ci/setup");
    // It reports on the other stream.
    let said: Value = serde_json::from_slice(&said.stderr)
        .unwrap_or_else(|why| panic!("{why}: {}", String::from_utf8_lossy(&said.stderr)));
    let found = said["messages"].as_array().unwrap().iter();
    found
        .map(|fault| {
            format!(
                "{}: {} {}",
                fault["url"], fault["message"], fault["extract"]
            )
        })
        .collect()
}
