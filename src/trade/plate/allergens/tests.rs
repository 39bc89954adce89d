//! What names propose, and what is gathered of them.

use super::*;

#[test]
fn every_row_means_something() {
    for row in include_str!("../allergens.csv").lines().skip(1) {
        let (words, key) = row.split_once(',').unwrap();
        assert!(!words.is_empty(), "{row}");
        assert!(key.is_empty() || Allergen::of_key(key).is_some(), "{row}");
    }
}

#[test]
fn a_longer_name_is_taken_before_a_word_in_it() {
    use Allergen::{Fish, Gluten, Milk, Nuts, Peanuts, Soybeans, Sulphites, Wheat};
    let cases: [(&str, &[Allergen]); 13] = [
        ("Coconut milk", &[]),
        ("Coconut milk, cream", &[Milk]),
        ("Peanut butter", &[Peanuts]),
        ("Butternut squash", &[]),
        ("Nutmeg", &[]),
        ("Oat milk", &[Gluten]),
        ("Almond milk", &[Nuts]),
        ("Soy sauce", &[Wheat, Soybeans]),
        ("CRÈME FRAÎCHE", &[Milk]),
        ("Anchovies", &[Fish]),
        ("Sea bass", &[Fish]),
        ("Eggplants", &[]),
        ("Sherry vinegar", &[Sulphites]),
    ];
    for (name, wanted) in cases {
        let wanted: BTreeSet<Allergen> = wanted.iter().copied().collect();
        assert_eq!(proposed(name), wanted, "{name}");
    }
}

#[test]
fn what_nobody_confirmed_is_never_told_as_absent() {
    let said = |name: &str, contains: &[Allergen], confirmed| LineAllergens {
        name: name.to_owned(),
        contains: contains.iter().copied().collect(),
        confirmed,
    };
    let all = [
        said("Bream", &[Allergen::Fish], true),
        said("Cream", &[Allergen::Milk], false),
        said("Leeks", &[], true),
        said("Powder", &[], false),
    ];
    let gathered = Gathered::of(&all, AllergenList::Europe);
    assert_eq!(gathered.open, ["Cream", "Powder"]);
    assert_eq!(
        gathered.sentences(),
        [
            "Fish (Bream)",
            "By its name, not confirmed: Milk (Cream)",
            "Not confirmed yet: Cream, Powder"
        ]
    );
}

#[test]
fn a_longer_run_of_words_is_taken_before_a_fish_or_shellfish_of_the_list_inside_it() {
    for name in ["crab apple", "oyster mushrooms"] {
        assert_eq!(proposed(name), BTreeSet::new(), "{name}");
    }
    assert_eq!(proposed("rainbow trout"), BTreeSet::from([Allergen::Fish]));
}
