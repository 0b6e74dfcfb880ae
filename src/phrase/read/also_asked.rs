//! One question about several foods.

use super::{Reader, State};
use crate::phrase::{build, facts::Facts, token::says};
use crate::{
    statement::{Ask, Statement},
    vocabulary::Subject,
};

impl<'t> Reader<'t, '_, '_> {
    /// `how long for peaches and pears in pints?`: the same of each further food.
    pub(super) fn also_asked(
        &self,
        said: &Statement,
        facts: &Facts<'t>,
        at: usize,
        state: &State<'t, '_>,
    ) -> Vec<Statement> {
        let Statement::Ask(ask) = said else { return Vec::new() };
        if !matches!(ask.about, Subject::Process | Subject::Acid) || ask.product.is_none() || says!(facts, "with" | "w")
        {
            return Vec::new();
        }
        let clauses = state.clauses.get(at..).unwrap_or_default().iter().take(4);
        clauses
            .map_while(|(from, to)| {
                let other = self.gather(state.chunks.get(*from..*to)?);
                let plain =
                    other.clean() && other.verb.is_none() && !other.has_quantity() && !says!(&other, "with" | "w");
                let product = build::product(&other, &self.carry)
                    .filter(|_| plain && (other.product.is_some() || other.crop.is_some()))?;
                let jar = other.jar().or(ask.jar);
                Some(Statement::Ask(Ask { product: Some(product), jar, pack: other.pack.or(ask.pack), ..ask.clone() }))
            })
            .collect()
    }

    /// A jar said with the last of several foods is that of all.
    pub(super) fn share_jar(&mut self) {
        let Some(Statement::Ask(Ask { jar: Some(jar), about, .. })) = self.out.last() else { return };
        let (jar, about) = (*jar, *about);
        for said in self.out.iter_mut().rev().skip(1).take(4) {
            match said {
                Statement::Ask(ask) if ask.about == about && ask.jar.is_none() && ask.product.is_some() => {
                    ask.jar = Some(jar)
                }
                _ => break,
            }
        }
    }
}
