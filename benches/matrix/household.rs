//! Many people in a room with one bot, and the program started for them.

use crate::bot::Bot;
use crate::person::Person;
use crate::synapse::Synapse;

/// So many people that none of them writes more than the program answers one person in a minute.
pub const PEOPLE: usize = 40;

/// Many people.
pub fn people(server: &Synapse) -> Vec<Person> {
    (0..PEOPLE).map(|n| server.register(&format!("person{n}"))).collect()
}

/// A room of the first of them with all of them and a bot in it.
pub fn gather(people: &[Person], bot: &str) -> String {
    let others: Vec<&str> = people.iter().skip(1).map(|person| person.id.as_str()).chain([bot]).collect();
    let room = people[0].room("12", &others);
    people.iter().skip(1).for_each(|person| person.join(&room));
    people[0].wait_member(&room, bot, "join");
    room
}

/// The program, started, allowed for everybody.
pub fn program(server: &Synapse) -> Bot {
    let mut program = Bot::new(server);
    program.set("RACKFUL_ALLOW", "home.test");
    program.start();
    program
}
