//! What became of a batch's jars.

/// An end that a jar can come to.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Fate {
    /// Sealed and on the shelf.
    Sealed,
    /// In the refrigerator.
    Refrigerated,
    /// In the freezer.
    Frozen,
    /// Eaten before it was ever shelved.
    Eaten,
    /// Given away before it was ever shelved.
    Given,
    /// Thrown away.
    Tossed,
    /// Broken, in the canner or after it.
    Broken,
}

/// How many jars came to which end.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
#[allow(missing_docs)] // as the variants of `Fate`
pub struct Ends {
    pub sealed: u32,
    pub refrigerated: u32,
    pub frozen: u32,
    pub eaten: u32,
    pub given: u32,
    pub tossed: u32,
    pub broken: u32,
}

impl Ends {
    /// All of them.
    pub fn sum(&self) -> u32 {
        self.sealed + self.gone()
    }

    /// Those that did not seal.
    pub fn gone(&self) -> u32 {
        self.refrigerated + self.frozen + self.eaten + self.given + self.tossed + self.broken
    }

    /// How many came to this end.
    pub fn of(&self, fate: Fate) -> u32 {
        let mut copy = *self;
        *copy.count(fate)
    }

    pub(super) fn count(&mut self, fate: Fate) -> &mut u32 {
        match fate {
            Fate::Sealed => &mut self.sealed,
            Fate::Refrigerated => &mut self.refrigerated,
            Fate::Frozen => &mut self.frozen,
            Fate::Eaten => &mut self.eaten,
            Fate::Given => &mut self.given,
            Fate::Tossed => &mut self.tossed,
            Fate::Broken => &mut self.broken,
        }
    }
}

/// How many of the batch's jars went which way. A jar that goes through again has its end in `again`, once it is known.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Fates {
    /// Ends after the first time through.
    pub first: Ends,
    /// Found unsealed, all in all.
    pub unsealed: u32,
    /// Of those, the ones of which nothing more is known.
    pub open: u32,
    /// Sealed, and kept off the shelf until it is known that their acid was in; their end is not known yet.
    pub held: u32,
    /// Put through the canner again.
    pub reprocessed: u32,
    /// Ends of those that went through again.
    pub again: Ends,
    /// Of those, found unsealed once more and of which nothing more is known.
    pub open_again: u32,
}

impl Fates {
    /// How many came to this end, the first time or the second.
    pub fn of(&self, fate: Fate) -> u32 {
        self.first.of(fate) + self.again.of(fate)
    }

    /// Sealed in the end.
    pub fn sealed(&self) -> u32 {
        self.of(Fate::Sealed)
    }

    /// Jars of which it is known which way they went, as far as the first time through goes.
    pub fn known(&self) -> u32 {
        self.first.sum() + self.reprocessed
    }
}
