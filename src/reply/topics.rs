//! What can be said, by topic: the tasks of the reader, put where a household looks for them. Help and the kitchen card
//! show them.

use crate::phrase::{Task, tasks};
use crate::vocabulary::{Kind, Subject};

/// Where in a household's year something is said.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Topic {
    /// Beds and harvest.
    Garden,
    /// Bags and the dryer.
    Freezer,
    /// Jars and supplies.
    Shelf,
    /// A batch, from its plan to its jars.
    Canning,
    /// What went otherwise.
    Mishaps,
    /// What was said wrongly, and words that are not known yet.
    Slips,
    /// Questions.
    Questions,
    /// Pictures, papers, the log and help.
    Looking,
    /// Settings.
    Settings,
}

impl Topic {
    /// In the order in which they are shown.
    pub const ALL: [Self; 9] = [
        Self::Garden,
        Self::Freezer,
        Self::Shelf,
        Self::Canning,
        Self::Mishaps,
        Self::Slips,
        Self::Questions,
        Self::Looking,
        Self::Settings,
    ];

    /// In one word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Garden => "garden",
            Self::Freezer => "freezer",
            Self::Canning => "canning",
            Self::Mishaps => "trouble",
            Self::Shelf => "shelf",
            Self::Questions => "ask",
            Self::Looking => "look",
            Self::Settings => "settings",
            Self::Slips => "slips",
        }
    }

    /// As a heading.
    pub const fn heading(self) -> &'static str {
        match self {
            Self::Garden => "Garden",
            Self::Freezer => "Freezer and dryer",
            Self::Canning => "Canning day",
            Self::Mishaps => "Not as planned",
            Self::Shelf => "Shelf and supplies",
            Self::Questions => "Questions",
            Self::Looking => "To look at",
            Self::Settings => "Settings",
            Self::Slips => "Mending slips",
        }
    }

    /// Where a kind of statement belongs. Every kind is named, so that a new one has to be given its place.
    const fn of(kind: Kind, about: Option<Subject>) -> Self {
        match kind {
            Kind::Picked | Kind::Planted => Self::Garden,
            Kind::Froze | Kind::Thawed | Kind::Ate | Kind::Gave | Kind::Tossed | Kind::Counted => Self::Freezer,
            Kind::Dried | Kind::Dry | Kind::Powdered => Self::Freezer,
            Kind::Began | Kind::Named | Kind::Drained | Kind::CookedDown | Kind::Filled => Self::Canning,
            Kind::AcidAdded | Kind::Venting | Kind::AtHeat | Kind::LostHeat | Kind::HeatOff => Self::Canning,
            Kind::AcidMissing => Self::Canning,
            Kind::PressureDown | Kind::Lifted | Kind::Sealed | Kind::Unsealed => Self::Canning,
            Kind::Planned | Kind::CalledOff | Kind::TimerStart | Kind::TimerStop => Self::Canning,
            Kind::Reprocessed | Kind::Refrigerated => Self::Canning,
            Kind::Broke | Kind::Siphoned | Kind::Mishap | Kind::Stopped | Kind::Resumed => Self::Mishaps,
            Kind::Spoiled => Self::Mishaps,
            Kind::PutUp | Kind::Opened | Kind::Bought | Kind::Recipe => Self::Shelf,
            Kind::Ask => match about {
                Some(Subject::Chart | Subject::Labels | Subject::Calendar | Subject::Table) => Self::Looking,
                Some(Subject::Log | Subject::Help) => Self::Looking,
                _ => Self::Questions,
            },
            Kind::Set => Self::Settings,
            Kind::Undo | Kind::Correct | Kind::Teach | Kind::Propose | Kind::Clarify => Self::Slips,
        }
    }
}

/// Every topic with its tasks; a task stands where its first phrase belongs.
pub fn topics() -> Vec<(Topic, Vec<Task>)> {
    let mut topics: Vec<(Topic, Vec<Task>)> = Topic::ALL.map(|topic| (topic, Vec::new())).to_vec();
    for task in tasks() {
        let Some(topic) = task.examples.first().map(|first| Topic::of(first.kind, first.about)) else { continue };
        if let Some((_, tasks)) = topics.iter_mut().find(|(known, _)| *known == topic) {
            tasks.push(task);
        }
    }
    topics.retain(|(_, tasks)| !tasks.is_empty());
    topics
}
