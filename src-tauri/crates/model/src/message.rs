//! What people are shown, without the words: the id of a message of the catalogue and its typed arguments.
//!
//! Each module that has something to say declares its messages with [`declare_messages!`](crate::declare_messages), which makes
//! one function per message. The sentences stand in the catalogue of `present::messages`; a test there checks that every declared
//! message has a sentence with exactly these arguments.

use chrono::NaiveDate;

/// A message of the catalogue, with its arguments.
#[derive(Clone, Debug, PartialEq)]
pub struct Message {
    id: &'static str,
    arguments: Vec<(&'static str, MessageValue)>,
}

/// An argument of a message. How it is written depends on the reader's [`DisplayFormat`](crate::display_format::DisplayFormat).
#[derive(Clone, Debug, PartialEq)]
pub enum MessageValue {
    /// Text as it stands: a name, or what was typed.
    Text(String),
    /// A whole number, by which a sentence may choose its words.
    Count(i64),
    /// A figure, shown with at most one decimal.
    Number(f64),
    /// A figure, shown as a whole number.
    Whole(f64),
    /// A share from 0 to 1, shown as a whole percentage.
    Percent(f64),
    /// A chance from 0 to 1, shown as a percentage that never says "sure" or "impossible".
    Chance(f64),
    /// A factor, shown with at most three decimals.
    Factor(f64),
    /// A length of cloth or warp, in millimetres, rounded as a tape is read.
    LengthMm(f64),
    /// A length of cloth or warp within a sum, in millimetres: rounded to the millimetre, so that the sum adds up.
    ExactLengthMm(f64),
    /// A length of yarn, in metres.
    YarnM(f64),
    /// A weight, in grams.
    MassG(f64),
    /// A time at the loom, in minutes.
    Minutes(f64),
    /// A number of picks or ends per 10 cm, in the reader's units.
    Per10Cm(f64),
    /// A day, shown as year, month and day.
    IsoDate(NaiveDate),
    /// A day in figures, in the order of the reader's locale.
    NumericDate(NaiveDate),
    /// A day and today: the day and its month in words, with the year when it is not today's.
    Day((NaiveDate, NaiveDate)),
    /// The same, with the day of the week.
    WeekdayDay((NaiveDate, NaiveDate)),
    /// A day and today, as people speak of it: today, yesterday, tomorrow, else with the day of the week.
    SpokenDay((NaiveDate, NaiveDate)),
    /// A day of the week in words.
    Weekday(chrono::Weekday),
    /// Words to choose from.
    List(Vec<String>),
    /// Names that are all meant: "a, b and c".
    And(Vec<String>),
    /// Messages that are all meant: "a, b and c".
    AndMessages(Vec<Message>),
    /// A word that chooses among the cases of the sentence and is not shown.
    Choice(&'static str),
    /// A column of a table: the names of its list and of its field.
    Column((&'static str, &'static str)),
    /// Another message: a part of the sentence, such as the name of a field.
    Message(Box<Message>),
}

/// A message as it is declared: what the catalogue is checked against.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DeclaredMessage {
    /// The id in the catalogue.
    pub id: &'static str,
    /// Names of the arguments.
    pub arguments: &'static [&'static str],
}

impl Message {
    /// A message; made by the functions of [`declare_messages!`](crate::declare_messages).
    #[doc(hidden)]
    #[must_use]
    pub fn declared(id: &'static str, arguments: Vec<(&'static str, MessageValue)>) -> Self {
        Self { id, arguments }
    }

    /// The id in the catalogue.
    #[must_use]
    pub fn id(&self) -> &'static str {
        self.id
    }

    /// The arguments by name.
    #[must_use]
    pub fn arguments(&self) -> &[(&'static str, MessageValue)] {
        &self.arguments
    }
}

/// For developers and logs: the id and the arguments. People read the sentence that `present::messages` makes.
impl std::fmt::Display for Message {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}", self.id)?;
        for (name, value) in &self.arguments {
            write!(f, " {name}={value:?}")?;
        }
        Ok(())
    }
}

/// Declares messages: for each `name(argument: Kind, ...)` a function `name` that makes the message, whose id is the same name; and
/// `DECLARED`, the list of them all. A kind is a variant of [`MessageValue`].
#[macro_export]
macro_rules! declare_messages {
    ($($(#[$doc:meta])* $name:ident($($argument:ident: $kind:ident),* $(,)?);)+) => {
        $(
            #[doc = concat!("The message `", stringify!($name), "` of the catalogue.")]
            $(#[$doc])*
            // A sentence may hold many figures.
            #[allow(clippy::too_many_arguments)]
            #[must_use]
            pub fn $name($($argument: $crate::message_argument!(@type $kind)),*) -> $crate::message::Message {
                $crate::message::Message::declared(
                    stringify!($name),
                    vec![$((stringify!($argument), $crate::message_argument!(@value $kind $argument))),*],
                )
            }
        )+
        /// Every message declared here.
        pub const DECLARED: &[$crate::message::DeclaredMessage] = &[$(
            $crate::message::DeclaredMessage {
                id: stringify!($name),
                arguments: &[$(stringify!($argument)),*],
            }
        ),+];
    };
}

/// The Rust type of an argument, and the [`MessageValue`] made from it.
#[doc(hidden)]
#[macro_export]
macro_rules! message_argument {
    (@type Text) => { impl Into<String> };
    (@type Count) => { i64 };
    (@type IsoDate) => { chrono::NaiveDate };
    (@type NumericDate) => { chrono::NaiveDate };
    (@type Day) => { (chrono::NaiveDate, chrono::NaiveDate) };
    (@type WeekdayDay) => { (chrono::NaiveDate, chrono::NaiveDate) };
    (@type SpokenDay) => { (chrono::NaiveDate, chrono::NaiveDate) };
    (@type Weekday) => { chrono::Weekday };
    (@type List) => { Vec<String> };
    (@type And) => { Vec<String> };
    (@type AndMessages) => { Vec<$crate::message::Message> };
    (@type Choice) => { &'static str };
    (@type Column) => { (&'static str, &'static str) };
    (@type Message) => { $crate::message::Message };
    // Figures, chances and all measures.
    (@type $measure:ident) => { f64 };
    (@value Text $value:ident) => { $crate::message::MessageValue::Text($value.into()) };
    (@value Message $value:ident) => { $crate::message::MessageValue::Message(Box::new($value)) };
    (@value $kind:ident $value:ident) => { $crate::message::MessageValue::$kind($value) };
}
