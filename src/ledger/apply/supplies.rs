//! Supplies, recipes, timers and settings.

use super::{Apply, Mode};
use crate::ledger::effect::Effect;
use crate::ledger::state::{Capacity, Quiet, Stocked, SupplyKey, Timer, Units};
use crate::processes;
use crate::statement::{Bought, Recipe, Set, TimerStart, TimerStop};
use crate::vocabulary::{Acid, Jar, Product, SettingKey, Supply};
use crate::zone::Zone;
use chrono::{Duration, NaiveTime};

impl Apply<'_> {
    pub(super) fn bought(&mut self, bought: &Bought) -> Effect {
        let Some(supply) = bought.supply else { return Effect::default() };
        let jar = bought.jar.filter(|_| supply == Supply::Jars);
        let more = Stocked {
            count: bought.count.unwrap_or(0),
            mass: bought.mass.unwrap_or_default(),
            volume: bought.volume.unwrap_or_default(),
        };
        let key = SupplyKey(supply, jar);
        self.state.supplies.add(key, more);
        Effect { used: vec![key], ..Effect::default() }
    }

    /// Counts down what jars take: a lid each, and acid by dose. Which acid: the one said with the batch, else the one in
    /// stock, citric acid first.
    pub(super) fn use_supplies(
        &mut self,
        product: &Product,
        jar: Jar,
        jars: u32,
        said: Option<Acid>,
    ) -> Vec<SupplyKey> {
        let lids = SupplyKey(Supply::Lids, None);
        let mut used = vec![(lids, Stocked { count: jars, ..Stocked::default() })];
        if let Some((key, needed)) = self.state.acid_needed(product, jar, jars, said) {
            used.push((key, needed));
        }
        for (key, amount) in &used {
            self.state.supplies.use_up(*key, *amount);
        }
        used.into_iter().map(|(key, _)| key).filter(|key| self.state.supplies.get(key.0).is_some()).collect()
    }

    pub(super) fn recipe(&mut self, recipe: &Recipe) -> Effect {
        self.state.recipes.insert(recipe.name.clone(), recipe.clone());
        Effect::default()
    }

    pub(super) fn timer_start(&mut self, timer: &TimerStart) -> Effect {
        let ends = self.at + Duration::seconds(i64::from(timer.seconds.unwrap_or(0)));
        self.state.timers.push(Timer { label: timer.label.clone(), ends });
        Effect::default()
    }

    pub(super) fn timer_stop(&mut self, stop: &TimerStop) -> Effect {
        let running = |timer: &Timer| timer.ends > self.at;
        let meant = |timer: &Timer| stop.label.is_none() || timer.label == stop.label;
        if let Some(place) = self.state.timers.iter().rposition(|timer| running(timer) && meant(timer)) {
            self.state.timers.remove(place);
            return Effect::default();
        }
        Effect { not_running: true, ..Effect::default() }
    }

    pub(super) fn set(&mut self, set: &Set) -> Effect {
        if let (SettingKey::Usual, Some(named), Mode::Decide) = (set.key, &set.product, self.mode)
            && let Err(refusal) = super::made(self.state, Some(named))
        {
            return Effect::refused(refusal);
        }
        let settings = &mut self.state.settings;
        match set.key {
            SettingKey::Altitude => settings.altitude = set.length.or(settings.altitude),
            SettingKey::Canner => settings.canner = set.canner.or(settings.canner),
            SettingKey::Capacity => {
                if let Some(jars) = set.jars.filter(|jars| *jars > 0) {
                    let capacity = Capacity { canner: set.canner, jar: set.jar, jars };
                    settings.capacities.retain(|old| (old.canner, old.jar) != (capacity.canner, capacity.jar));
                    settings.capacities.push(capacity);
                }
            }
            SettingKey::Units => {
                let metric = set.word.as_deref() == Some("metric");
                settings.units = if metric { Units::Metric } else { Units::Customary };
            }
            SettingKey::Bag => settings.bag = set.mass.or(settings.bag),
            SettingKey::Usual => {
                if let Some(product) = &set.product {
                    settings.product = product.clone();
                }
                settings.jar = set.jar.unwrap_or(settings.jar);
            }
            SettingKey::Timezone => {
                settings.zone = set.word.as_deref().and_then(Zone::parse).unwrap_or(settings.zone);
            }
            SettingKey::Quiet => {
                let time = |text: &Option<String>| {
                    text.as_deref().and_then(|text| NaiveTime::parse_from_str(text, "%H:%M").ok())
                };
                settings.quiet = time(&set.from).zip(time(&set.to)).map(|(from, until)| Quiet { from, until });
            }
            SettingKey::Low => {
                if let Some(supply) = set.supply {
                    let line = Stocked {
                        count: set.count.unwrap_or(0),
                        mass: set.mass.unwrap_or_default(),
                        volume: set.volume.unwrap_or_default(),
                    };
                    settings.low.insert(supply, line);
                }
            }
            SettingKey::Room => settings.room = set.temp.or(settings.room),
        }
        Effect::default()
    }
}

impl crate::ledger::state::State {
    /// How much of which acid so many jars take; `None` where the product takes none, or no dose is published.
    pub fn acid_needed(
        &self,
        product: &Product,
        jar: Jar,
        jars: u32,
        said: Option<Acid>,
    ) -> Option<(SupplyKey, Stocked)> {
        let acid = said.unwrap_or_else(|| self.acid_in_stock());
        let dose = processes::dose(processes::product(product.as_str())?, jar, acid)?;
        let needed = match dose.mass {
            Some(_) => Stocked { mass: dose.mass_for_jars(jars)?, ..Stocked::default() },
            None => Stocked { volume: dose.for_jars(jars)?, ..Stocked::default() },
        };
        Some((SupplyKey(acid.supply(), None), needed))
    }

    /// The acid in stock, citric acid first; lemon juice where none was ever entered.
    pub fn acid_in_stock(&self) -> Acid {
        let there = |acid: &Acid| self.supplies.get(acid.supply()).is_some_and(|stocked| stocked != Stocked::default());
        [Acid::CitricAcid, Acid::LemonJuice, Acid::Vinegar].into_iter().find(there).unwrap_or(Acid::LemonJuice)
    }
}
