//! Devices that write without sight of each other, and what must hold of any way to view what they wrote.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use chrono::{DateTime, TimeDelta, Utc};
use fellmark_journal::{
    At, DeviceId, Entry, EntryDraft, EntrySet, Field, GONE, Key, Kind, Place, Presence, Record, RecordId,
};
use proptest::prelude::*;
use serde_json::{Map, Value, json};

const DEVICES: usize = 4;
const RECORDS: usize = 2;
const FIELDS: [&str; 3] = ["minutes", "picks", "note"];

/// One thing that happens.
#[derive(Debug, Clone)]
pub enum MergeStep {
    /// A device edits some fields of a record, by a clock wrong by so many days.
    Edit { device: usize, record: usize, fields: u8, clock_days: i32 },
    /// A device removes a record, or restores it.
    Gone { device: usize, record: usize, gone: bool, clock_days: i32 },
    /// Some of the lines one device has reach another; each bit of the mask stands for every 32nd.
    Arrive { from: usize, to: usize, mask: u32 },
}

fn clock() -> impl Strategy<Value = i32> {
    prop_oneof![4 => -1..=1i32, 1 => Just(-20_000), 1 => Just(26_000), 1 => -4_000..4_000i32]
}

pub fn plan() -> impl Strategy<Value = Vec<MergeStep>> {
    let mask = prop_oneof![3 => Just(u32::MAX), 2 => any::<u32>()];
    let step = prop_oneof![
        4 => (0..DEVICES, 0..RECORDS, 1u8..8, clock())
            .prop_map(|(device, record, fields, clock_days)| MergeStep::Edit { device, record, fields, clock_days }),
        1 => (0..DEVICES, 0..RECORDS, prop::bool::weighted(0.75), clock())
            .prop_map(|(device, record, gone, clock_days)| MergeStep::Gone { device, record, gone, clock_days }),
        4 => (0..DEVICES, 0..DEVICES, mask).prop_map(|(from, to, mask)| MergeStep::Arrive { from, to, mask }),
    ];
    proptest::collection::vec(step, 1..28)
}

/// How `over` is filled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Writer {
    /// With the heads on the screen.
    Right,
    /// With all that any device has written, seen or not.
    OverTooWide,
}

/// What was written, and what each writer had on the screen.
pub struct MergeCase {
    entries: BTreeMap<Key, Arc<Entry>>,
    /// The writes that stood on the writer's screen: entry and field.
    shown: BTreeMap<Key, BTreeSet<(Key, String)>>,
    /// What each device has at the end.
    devices: Vec<EntrySet>,
}

fn record_id(record: usize) -> RecordId {
    format!("record-{record}").parse().unwrap()
}

fn device_id(device: usize) -> DeviceId {
    format!("device-{device}").parse().unwrap()
}

/// The writes of a record that stand, by entry and field, as its view shows them.
fn standing(state: &EntrySet, id: &RecordId) -> BTreeSet<(Key, String)> {
    let Some(record) = state.record(id) else { return BTreeSet::new() };
    let mut writes = BTreeSet::new();
    for key in &record.heads {
        for field in state.entry(*key).unwrap().set().keys() {
            writes.insert((*key, field.clone()));
        }
    }
    writes
}

impl MergeCase {
    pub fn play(plan: &[MergeStep], writer: Writer) -> Self {
        let mut case =
            Self { entries: BTreeMap::new(), shown: BTreeMap::new(), devices: vec![EntrySet::new(); DEVICES] };
        for (i, step) in plan.iter().enumerate() {
            match step {
                MergeStep::Edit { device, record, fields, clock_days } => {
                    let set = FIELDS
                        .iter()
                        .enumerate()
                        .filter(|(bit, _)| fields & (1 << bit) != 0)
                        // Every value is its own, so that one that is lost is missed.
                        .map(|(_, name)| ((*name).to_owned(), json!(i)))
                        .collect();
                    case.write(writer, *device, *record, set, *clock_days, i);
                }
                MergeStep::Gone { device, record, gone, clock_days } => {
                    if case.devices[*device].record(&record_id(*record)).is_some() {
                        let set = Map::from_iter([(GONE.to_owned(), Value::Bool(*gone))]);
                        case.write(writer, *device, *record, set, *clock_days, i);
                    }
                }
                MergeStep::Arrive { from, to, mask } => {
                    let mut lines: Vec<Arc<Entry>> = case.devices[*from].entries().cloned().collect();
                    lines.sort_by_key(|entry| entry.key());
                    for (i, line) in lines.into_iter().enumerate() {
                        if mask & (1 << (i % 32)) != 0 {
                            case.devices[*to].insert(line);
                        }
                    }
                }
            }
        }
        case
    }

    fn write(&mut self, writer: Writer, device: usize, record: usize, set: Map<String, Value>, days: i32, i: usize) {
        let id = record_id(record);
        let state = &self.devices[device];
        let over = match writer {
            Writer::Right => state.record(&id).map(|record| record.heads.clone()).unwrap_or_default(),
            Writer::OverTooWide => self.entries.values().filter(|e| *e.of() == id).map(|e| e.key()).collect(),
        };
        let now: DateTime<Utc> = "2026-05-31T18:00:00Z".parse().unwrap();
        let time = now + TimeDelta::days(days.into()) + TimeDelta::seconds(i as i64);
        let at: At = serde_json::from_value(json!(format!("{}.0000", time.format("%Y-%m-%dT%H:%M:%S%.3fZ")))).unwrap();
        let draft = EntryDraft { place: Place::Shelf, of: id.clone(), kind: Kind::SITTING, over, set };
        let entry = Arc::new(Entry::from_draft(draft, &device_id(device), at).unwrap());
        self.shown.insert(entry.key(), standing(state, &id));
        self.entries.insert(entry.key(), Arc::clone(&entry));
        self.devices[device].insert(entry);
    }

    /// All entries, in the order of their keys: an order that means nothing.
    pub fn all(&self) -> Vec<Arc<Entry>> {
        self.entries.values().cloned().collect()
    }
}

/// What a view shows of one record: for each field the values that are visible, and whether it is there.
#[derive(Debug, Clone, PartialEq)]
pub struct Seen {
    pub values: BTreeMap<String, BTreeSet<String>>,
    pub used: BTreeMap<String, Value>,
    pub presence: Presence,
}

/// A way to view a set of entries, given in some order.
pub type View = fn(&[Arc<Entry>]) -> BTreeMap<RecordId, Seen>;

/// The journal's own view.
pub fn by_state(entries: &[Arc<Entry>]) -> BTreeMap<RecordId, Seen> {
    let mut state = EntrySet::new();
    for entry in entries {
        state.insert(Arc::clone(entry));
    }
    let seen = |record: &Record| {
        let values = |field: &Field| match field {
            Field::Single(value) => BTreeSet::from([value.to_string()]),
            Field::Conflict(values) => values.iter().map(|one| one.value.to_string()).collect(),
        };
        Seen {
            values: record.fields.iter().map(|(name, field)| (name.to_owned(), values(field))).collect(),
            used: record.fields.iter().map(|(name, field)| (name.to_owned(), field.used().clone())).collect(),
            presence: record.presence,
        }
    };
    state.records().map(|record| (record.id.clone(), seen(record))).collect()
}

/// A rule of merging: the right one, and wrong ones that look right.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rule {
    Right,
    /// Of several values that stand the latest is kept.
    LastWriteWins,
    /// A removal that stands removes, whoever edited meanwhile.
    RemovalWins,
    /// A record with any value that stands beside a removal is there.
    EditWins,
    /// An entry hides all that it names, also fields it does not write.
    OverAllFields,
    /// An entry hides all older writes of its fields.
    OverByTime,
    /// Of several values that stand the one that arrived first is used.
    FirstCome,
}

/// The page's rules read slowly, one by one, or one of the wrong ones.
pub fn view_by(rule: Rule, entries: &[Arc<Entry>]) -> BTreeMap<RecordId, Seen> {
    let ids: BTreeSet<RecordId> = entries.iter().map(|entry| entry.of().clone()).collect();
    ids.into_iter()
        .map(|id| {
            let of: Vec<&Entry> = entries.iter().map(Arc::as_ref).filter(|entry| *entry.of() == id).collect();
            let seen = seen_by(rule, &of);
            (id, seen)
        })
        .collect()
}

fn replaces(rule: Rule, new: &Entry, old: &Entry, field: &str) -> bool {
    let names = new.over().contains(&old.key());
    let writes = new.set().contains_key(field);
    match rule {
        Rule::OverAllFields => names,
        Rule::OverByTime => writes && (new.at(), new.key()) > (old.at(), old.key()) && !new.over().is_empty(),
        _ => names && writes,
    }
}

fn seen_by(rule: Rule, of: &[&Entry]) -> Seen {
    let names: BTreeSet<&String> = of.iter().flat_map(|entry| entry.set().keys()).collect();
    let mut heads: BTreeMap<&str, Vec<&Entry>> = BTreeMap::new();
    for name in names {
        let writes = of.iter().filter(|entry| entry.set().contains_key(name));
        let stand = writes.filter(|old| !of.iter().any(|new| replaces(rule, new, old, name)));
        heads.insert(name, stand.copied().collect());
    }
    let mut values = BTreeMap::new();
    let mut used = BTreeMap::new();
    for (name, stand) in heads.iter().filter(|(name, stand)| **name != GONE && !stand.is_empty()) {
        let latest = stand.iter().max_by_key(|entry| (entry.at(), entry.key())).unwrap();
        let kept: Vec<&Entry> = match rule {
            Rule::LastWriteWins => vec![latest],
            _ => stand.clone(),
        };
        let value = |entry: &Entry| entry.set()[*name].to_string();
        values.insert((*name).to_owned(), kept.iter().map(|entry| value(entry)).collect());
        let chosen = if rule == Rule::FirstCome { stand[0] } else { latest };
        used.insert((*name).to_owned(), chosen.set()[*name].clone());
    }
    let removers: Vec<&&Entry> = heads.get(GONE).into_iter().flatten().filter(|e| e.set()[GONE] == true).collect();
    let mut others = heads.values().flatten().filter(|entry| !removers.iter().any(|r| r.key() == entry.key()));
    let all_seen = match rule {
        Rule::RemovalWins => true,
        Rule::EditWins => others.next().is_none(),
        _ => others.all(|entry| removers.iter().any(|remover| remover.over().contains(&entry.key()))),
    };
    let presence = match (removers.is_empty(), all_seen) {
        (true, _) => Presence::Here,
        (false, true) => Presence::Gone,
        (false, false) => Presence::RemovedHereEditedThere,
    };
    Seen { values, used, presence }
}

/// Checks what must hold, against what really happened (not against what `over` says happened).
pub fn check(case: &MergeCase, view: View) -> Result<(), String> {
    let all = case.all();
    check_set(case, &all, view)?;
    for device in &case.devices {
        // What one device has is some subset of the lines.
        let mut has: Vec<Arc<Entry>> = device.entries().cloned().collect();
        has.sort_by_key(|entry| entry.key());
        check_set(case, &has, view)?;
        check_settling(&has, view)?;
    }
    check_settling(&all, view)
}

fn check_set(case: &MergeCase, entries: &[Arc<Entry>], view: View) -> Result<(), String> {
    let seen = view(entries);
    // Order and number of copies make no difference.
    let mut other: Vec<Arc<Entry>> = entries.iter().rev().cloned().collect();
    if view(&other) != seen {
        return Err("order makes a difference".to_owned());
    }
    other.extend(entries.iter().cloned());
    other.sort_by(|a, b| a.at().cmp(b.at()).then(a.by().cmp(b.by())));
    if by_state(&other) != by_state(entries) || view(&other) != view(entries) {
        return Err("order or copies make a difference".to_owned());
    }
    for entry in entries {
        let record = &seen[entry.of()];
        for (field, value) in entry.set().iter().filter(|(field, _)| *field != GONE) {
            let visible = record.values.get(field).is_some_and(|values| values.contains(&value.to_string()));
            let replaced = entries.iter().any(|new| {
                new.of() == entry.of()
                    && new.set().contains_key(field)
                    && case.shown[&new.key()].contains(&(entry.key(), field.clone()))
            });
            match (visible, replaced) {
                (false, false) => return Err(format!("{field} = {value} is hidden unseen")),
                (true, true) => return Err(format!("{field} = {value} was replaced and still stands")),
                _ => {}
            }
        }
    }
    for (id, record) in &seen {
        check_presence(case, entries, id, record)?;
    }
    Ok(())
}

/// A write stands, in truth: no one who had it on the screen wrote the same field.
fn stands(case: &MergeCase, entries: &[Arc<Entry>], entry: &Entry, field: &str) -> bool {
    let write = (entry.key(), field.to_owned());
    !entries.iter().any(|new| new.set().contains_key(field) && case.shown[&new.key()].contains(&write))
}

fn check_presence(case: &MergeCase, entries: &[Arc<Entry>], id: &RecordId, record: &Seen) -> Result<(), String> {
    let of: Vec<&Entry> = entries.iter().map(Arc::as_ref).filter(|entry| entry.of() == id).collect();
    let is_remover = |entry: &&Entry| entry.set().get(GONE) == Some(&json!(true)) && stands(case, entries, entry, GONE);
    let removers: Vec<&Entry> = of.iter().copied().filter(is_remover).collect();
    let standing: Vec<&Entry> = of
        .iter()
        .copied()
        .filter(|entry| entry.set().keys().any(|field| stands(case, entries, entry, field)))
        .filter(|entry| !removers.iter().any(|remover| remover.key() == entry.key()))
        .collect();
    let unseen = standing.iter().any(|entry| {
        !removers.iter().any(|remover| case.shown[&remover.key()].iter().any(|(key, _)| *key == entry.key()))
    });
    match (removers.is_empty(), record.presence) {
        (false, Presence::Gone) if unseen => Err(format!("{id} was removed unseen")),
        (false, presence) if !unseen && presence != Presence::Gone => Err(format!("{id} was not removed")),
        (true, presence) if presence != Presence::Here => Err(format!("{id} was removed by no one")),
        _ => Ok(()),
    }
}

/// An entry over all that stands settles every field it sets and the question whether the record is there.
fn check_settling(entries: &[Arc<Entry>], view: View) -> Result<(), String> {
    let mut state = EntrySet::new();
    for entry in entries {
        state.insert(Arc::clone(entry));
    }
    for record in state.records() {
        let mut set: Map<String, Value> =
            record.fields.keys().map(|field| (field.to_owned(), json!("settled"))).collect();
        set.insert(GONE.to_owned(), json!(false));
        let at: At = serde_json::from_value(json!("1990-01-01T00:00:00.000Z.0000")).unwrap();
        let by: DeviceId = "settler".parse().unwrap();
        let mut with: Vec<Arc<Entry>> = entries.to_vec();
        with.push(Arc::new(Entry::from_draft(EntryDraft::on(record, set), &by, at).unwrap()));
        let after = &view(&with)[&record.id];
        if after.presence != Presence::Here || after.values.values().any(|values| values.len() != 1) {
            return Err(format!("{} was not settled", record.id));
        }
    }
    Ok(())
}
