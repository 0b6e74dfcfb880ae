//! Supplies, recipes, timers and settings.

use super::{Apply, Mode};
use crate::ledger::effect::{Effect, Refusal};
use crate::ledger::state::{Answers, Capacity, Digest, Quiet, Stocked, SupplyKey, Timer, Units, Yield};
use crate::processes;
use crate::statement::{Bought, Recipe, Set, TimerStart, TimerStop};
use crate::vocabulary::{Acid, CannerKind, Jar, Product, SettingKey, Supply};
use crate::zone::Zone;
use chrono::{Duration, NaiveTime, Weekday};

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

    /// Counts down what jars take: the empty jars of that size, a lid each, and acid by dose. Which acid: the one said
    /// with the batch, else the one in stock, citric acid first. Returns the supplies of which a stock is kept, and how
    /// much acid there was to take.
    pub(super) fn use_supplies(
        &mut self,
        product: &Product,
        jar: Jar,
        jars: u32,
        said: Option<Acid>,
    ) -> (Vec<SupplyKey>, Stocked) {
        let mut used = vec![SupplyKey(Supply::Lids, None), SupplyKey(Supply::Jars, Some(jar))];
        for key in &used {
            self.state.supplies.use_up(*key, Stocked { count: jars, ..Stocked::default() });
        }
        let mut of_acid = Stocked::default();
        if let Some((key, needed)) = self.state.acid_needed(product, jar, jars, said) {
            of_acid = self.state.supplies.use_up(key, needed);
            used.push(key);
        }
        used.retain(|key| self.state.supplies.of(*key).is_some());
        (used, of_acid)
    }

    /// The usual jar, or one that the usual product is made in where it is not made in that.
    fn fitting_jar(&self) -> Jar {
        let (product, jar) = (&self.state.settings.product, self.state.settings.jar);
        if let Some(recipe) = self.state.recipes.get(product.as_str()) {
            return recipe.jar.unwrap_or(jar);
        }
        match processes::product(product.as_str()).map(processes::ProductInfo::jars) {
            Some(tested) if !tested.contains(&jar) && !jar.is_metric() => tested.last().copied().unwrap_or(jar),
            _ => jar,
        }
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
            SettingKey::Altitude => {
                // A height that cannot be leaves none, so that no time is given for the one before.
                settings.altitude = set.length;
                return Effect { retimed: self.retime(), ..Effect::default() };
            }
            SettingKey::Canner => {
                if set.canner == Some(CannerKind::Pressure) && settings.pressure_canner().is_none() {
                    return Effect::refused(Refusal::WhichGauge);
                }
                let named = set.canner.filter(|canner| *canner != CannerKind::Pressure);
                settings.gauge = named.filter(|canner| canner.is_pressure()).or(settings.gauge);
                settings.canner = named.or_else(|| set.canner.and(settings.pressure_canner())).or(settings.canner);
            }
            SettingKey::Capacity => {
                if let Some(jars) = set.jars.filter(|jars| *jars > 0) {
                    // "Holds 7 quarts" is said of the canner that is used: another one has a size of its own.
                    let canner = set.canner.or(settings.canner).map(|canner| match canner {
                        CannerKind::Pressure => settings.pressure_canner().unwrap_or(canner),
                        named => named,
                    });
                    let capacity = Capacity { canner, jar: set.jar, jars };
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
                if set.jar.is_none() {
                    self.state.settings.jar = self.fitting_jar();
                }
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
            SettingKey::Yield => {
                let product = set.product.clone().unwrap_or_else(|| settings.product.clone());
                let own = set.word.as_deref() == Some("own");
                settings.yields.insert(product, if own { Yield::Own } else { Yield::Handbook });
            }
            SettingKey::Digest => {
                settings.digest = Some(digest(set));
                settings.digest_since = Some(self.at);
            }
            SettingKey::Season => settings.season_end = set.until.or(settings.season_end),
            SettingKey::Labels => settings.labels = set.word.clone().or(settings.labels.take()),
            SettingKey::Answers => {
                settings.answers = match set.word.as_deref() {
                    Some("silent") => Answers::Silent,
                    Some("brief") => Answers::Brief,
                    _ => Answers::Full,
                };
            }
            SettingKey::Pictures => settings.dark_pictures = set.word.as_deref() == Some("dark"),
            SettingKey::Room => {
                let today = settings.zone.day(self.at);
                if set.temp.is_some() && set.temp != settings.room {
                    // Told for the first time it was so before. Told twice on a day, only the last of it held; and no
                    // fruit lies for so long.
                    if settings.room.is_some() && settings.rooms.last().is_none_or(|(until, _)| *until < today) {
                        settings.rooms.push((today, settings.room));
                    }
                    settings.rooms.retain(|(until, _)| *until + ROOMS_KEPT >= today);
                    settings.room = set.temp;
                }
            }
        }
        Effect::default()
    }
}

/// Rooms of before are kept this long.
const ROOMS_KEPT: chrono::Days = chrono::Days::new(60);

/// The digest's day and time as set; Sunday at 18:00 where not said (a choice of this program).
fn digest(set: &Set) -> Digest {
    if set.word.as_deref() == Some("off") {
        return Digest::Off;
    }
    let evening = NaiveTime::from_hms_opt(18, 0, 0).unwrap_or_default();
    let at = set.from.as_deref().and_then(|text| NaiveTime::parse_from_str(text, "%H:%M").ok());
    let day = set.word.as_deref().and_then(|word| word.parse().ok());
    Digest::Weekly { day: day.unwrap_or(Weekday::Sun), at: at.unwrap_or(evening) }
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
        let acid = said.unwrap_or_else(|| self.acid_for(product, jar));
        let dose = processes::dose(processes::product(product.as_str())?, jar, acid)?;
        let needed = match dose.mass {
            Some(_) => Stocked { mass: dose.mass_for_jars(jars)?, ..Stocked::default() },
            None => Stocked { volume: dose.for_jars(jars)?, ..Stocked::default() },
        };
        Some((SupplyKey(acid.supply(), None), needed))
    }

    /// The acid for jars of a product: the one in stock, citric acid first; else one that was in stock; else lemon
    /// juice. Only an acid that has a published dose for the jar, where any has.
    pub fn acid_for(&self, product: &Product, jar: Jar) -> Acid {
        let has_dose = |acid: &Acid| {
            processes::product(product.as_str()).is_some_and(|info| processes::dose(info, jar, *acid).is_some())
        };
        let all = [Acid::CitricAcid, Acid::LemonJuice, Acid::Vinegar];
        let there =
            |acid: &&Acid| self.supplies.get(acid.supply()).is_some_and(|stocked| stocked != Stocked::default());
        let ever = |acid: &&Acid| self.supplies.get(acid.supply()).is_some();
        let dosed: Vec<Acid> = all.into_iter().filter(has_dose).collect();
        dosed.iter().find(there).or_else(|| dosed.iter().find(ever)).copied().unwrap_or(Acid::LemonJuice)
    }
}
