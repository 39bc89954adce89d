//! The lesson around a class: who has sent, what goes back, marks, one student over time, the wall, the sheet.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme, Size};
use crate::class::{THIRTY, class_with, texts};

/// A class of thirty codes on its board.
fn class_of_thirty(bench: &Bench) -> String {
    class_with(bench, THIRTY);
    bench.see("25 results");
    let place = bench.run("return location.hash", &[]);
    place.as_str().unwrap().to_owned()
}

/// Every answer to thirty codes in three taps; who was answered is known after a reload, and taken back.
#[test]
fn all_students_are_answered_at_once() {
    for scheme in Scheme::BOTH {
        let bench = Bench::open(PHONE, scheme);
        let class = class_of_thirty(&bench);
        bench.tap("Students and feedback");
        bench.see("24 students have sent; 24 to be answered.");
        bench.fill("#nicknames", "zeal, tern longname");
        bench.tap("Add to the roster");
        bench.see("These are left: a nickname has one to four letters");
        bench.see("24 students have sent, 1 has not; 24 to be answered.");
        bench.is_sound();
        bench.run("scrollTo(0, 0)", &[]);
        bench.shot("lesson_students");
        bench.tap("Save as text");
        bench.see("27 count as answered now.");
        bench.reload();
        bench.see("24 students have sent, 1 has not.");
        bench.go(&class);
        bench.tap("Students and feedback");
        bench.tap("Also to those who were answered");
        bench.tap("Save as a table (CSV)");
        bench.is_sound();
    }
}

/// A criterion, points, a mark and words; they stand on the student's page after a reload, and go into the answer.
#[test]
fn marks_are_given_and_kept() {
    for scheme in Scheme::BOTH {
        let bench = Bench::open(PHONE, scheme);
        let class = class_of_thirty(&bench);
        bench.tap("Marks");
        bench.fill("#criterion", "Clean frame");
        bench.tap("Add the criterion");
        bench.see("What you mark: 1");
        bench.is_sound();
        bench.shot("lesson_marks");
        bench.go(&format!("{class}/student/SWAN"));
        bench.see("Gilthead bream, gutted and scaled");
        bench.see("A trend takes 5 fish.");
        bench.is_sound();
        bench.shot("lesson_student");
        let first = "return document.querySelector('input[id^=points]').id";
        let id = bench.run(first, &[]);
        let field = format!("#{}", id.as_str().unwrap());
        let put = "const field = document.querySelector(arguments[0]);
            field.value = arguments[1];
            field.dispatchEvent(new Event('change', { bubbles: true }))";
        bench.run(put, &[json!(field), json!("12")]);
        bench.see("Give 0 to 10 points.");
        bench.run(put, &[json!(field), json!("7,5")]);
        bench.see("Together 7.5 of 10.");
        bench.reload();
        bench.see("Together 7.5 of 10.");
        bench.tap("Next: TEAL");
        bench.see("TEAL");
        bench.go(&format!("{class}/criteria"));
        bench.see("7.5 of 10");
        bench.tap("What you mark: 1");
        bench.tap("Take off");
        bench.see("Taken off: tap to put back, with its points");
        bench.tap("Clean frame");
        bench.see("What you mark: 1");
    }
}

/// No name on the wall; the question follows from the class, and the next is a tap away.
#[test]
fn the_wall_names_nobody() {
    for (scheme, size) in [(Scheme::Light, PHONE), (Scheme::Dark, Size(1280, 800))] {
        let bench = Bench::open(size, scheme);
        class_of_thirty(&bench);
        bench.shot("lesson_board");
        bench.tap("On the wall");
        bench.see("points apart");
        let words = texts(&bench, "main").join(" ");
        for student in THIRTY.lines().filter_map(|line| line.split_once(": ")) {
            assert!(!words.contains(student.0), "{}", student.0);
        }
        let dots = "return document.querySelectorAll('.wall circle').length";
        assert_eq!(bench.run(dots, &[]), json!(24), "COOT has no yield");
        bench.is_sound();
        bench.shot("lesson_wall");
        let before = texts(&bench, ".question");
        bench.tap("Another question");
        assert_ne!(texts(&bench, ".question"), before);
    }
}

/// What is taken out stands below, and goes back.
#[test]
fn a_code_taken_out_is_put_back() {
    let bench = Bench::open(PHONE, Scheme::Light);
    let class = class_of_thirty(&bench);
    bench.tap("COOT 1");
    bench.tap("Take this code out of the class");
    bench.see("24 results");
    bench.tap("Taken out: 1");
    bench.is_sound();
    bench.tap("Put back");
    bench.see("25 results");
    bench.go(&format!("{class}/sheet"));
    bench.see("As a table");
    bench.is_sound();
    bench.shot("lesson_sheet");
}

/// As a laptop shows it, and as paper does.
#[test]
fn two_columns_on_a_laptop() {
    let bench = Bench::open(Size(1280, 800), Scheme::Light);
    class_of_thirty(&bench);
    let columns = "const [one, other] = document.querySelectorAll('.two > *');
        return one.getBoundingClientRect().right <= other.getBoundingClientRect().left";
    assert_eq!(bench.run(columns, &[]), json!(true));
    bench.resize(Size(819, 800));
    assert_eq!(bench.run(columns, &[]), json!(false));
    bench.is_sound();
}
