//! What a process holds only with, for the foods where the guide prints more than a time: said with the time, since a
//! time alone would be taken for food that it was not tested for.

use super::ProductInfo;

/// The condition, as one or two plain sentences; `None` where the recipe says all there is to say.
///
/// USDA AIB 539 (2015): Guide 2, the pie fillings; Guide 4, Soups, Beans or peas, shelled, dried, Mushrooms, Pumpkin;
/// Guide 5, by product.
pub fn condition(product: &ProductInfo) -> Option<&'static str> {
    Some(match product.id {
        "soup" | "soup-seafood" => {
            "Fill jars half with solids, then liquid, and put in no pasta, rice, flour, cream, milk or other thickener."
        }
        "chicken-rabbit-bone-in" => "Only with the bones in; without them, or if you don't know, it takes longer.",
        "meat-ground" => "Packed hot only: browned, and drained of fat.",
        "meat-chunks" => "No flour or other thickener in the jars.",
        "meat-stock" | "chicken-stock" => "For broth with no solids in it; with solids it is soup, which takes longer.",
        "chile-con-carne" => "In pints only, and not thickened.",
        "crab" => "King and Dungeness crab only, with the guide's lemon juice or citric acid in each jar.",
        "fish-pints" => "In pints only, and packed raw with no liquid.",
        "smoked-fish" => {
            "In pints only, with no liquid, in a canner of 16 quarts or more: \
             pour in 4 quarts of cool tap water, and do not heat it before the jars go in."
        }
        "mushrooms" => "Domestic mushrooms only: wild ones have no process.",
        "beans-dried" => "Beans soaked 12 to 18 h, or boiled 2 min and soaked 1 h, then boiled 30 min: never dry.",
        "pumpkin-cubed" => "In cubes only, never mashed or pureed.",
        "apple-pie-filling"
        | "blueberry-pie-filling"
        | "cherry-pie-filling"
        | "peach-pie-filling"
        | "green-tomato-pie-filling" => {
            "Only with the modified starch that the recipe names, no other, and all of its lemon juice or vinegar."
        }
        "mincemeat-pie-filling" => "In quarts only.",
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::super::{Acidity, product, products};
    use super::*;

    #[test]
    fn what_is_special_about_a_process_is_said_of_products_that_there_are() {
        let said: Vec<_> = products().iter().filter_map(|info| condition(info).map(|said| (info, said))).collect();
        assert_eq!(said.len(), 20);
        // Acid keeps no meat or fish: whatever is said of them, they are for pressure.
        assert!(said.iter().all(|(info, _)| info.id.ends_with("pie-filling") || info.acidity == Acidity::LowAcid));
        assert!(product("soup").and_then(condition).is_some_and(|said| said.contains("half") && said.contains("rice")));
    }
}
