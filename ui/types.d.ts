// Made from the views in src-tauri/crates/present by a test there; do not edit.

export type AppView = { 
/**
 * Today, as the device's calendar has it.
 */
today: string, 
/**
 * Where the journal lies, or nothing yet.
 */
folder: FolderView | null, 
/**
 * While there is none: the folder that was to be opened and is not.
 */
unopened: Unopened | null, 
/**
 * The warp being looked at.
 */
loom: LoomView | null, 
/**
 * Every warp, the ones on the loom first, then the latest begun.
 */
warps: Array<WarpLine>, 
/**
 * Plans that were not begun, the latest last.
 */
plans: Array<PlanKept>, 
/**
 * The sitting that is going on, kept through a crash.
 */
running: RunningView | null, 
/**
 * What "undo" would take back, as a sentence; nothing when there is nothing to take back.
 */
undo: string | null, 
/**
 * How figures are written.
 */
format: FormatView, 
/**
 * What this device is called, or would be before the weaver names it.
 */
device: string, };

export type Unopened = { 
/**
 * Its path as text.
 */
path: string, 
/**
 * Why not.
 */
sentence: string, 
/**
 * Whether the weaver stopped its reading, which is no error.
 */
stopped: boolean, };

export type FormatView = { 
/**
 * `metric` or `imperial`.
 */
units: string, 
/**
 * `metric` or `imperial`, of weights.
 */
weights: string, 
/**
 * Unit a bare length is read in, as it is written behind a figure: `cm` or `in`.
 */
length_unit: string, 
/**
 * Unit a bare weight is read in: `g` or `oz`.
 */
mass_unit: string, 
/**
 * How pick density is named: `picks per 10 cm` or `picks per inch`.
 */
density_unit: string, };

export type FolderView = { 
/**
 * The folder's path as text.
 */
path: string, 
/**
 * This device's name.
 */
device: string, 
/**
 * Whether these are the invented data of the example.
 */
example: boolean, 
/**
 * Minutes without a pause after which a stretch is suggested; nothing when it never is.
 */
stretch_minutes: number | null, 
/**
 * One quiet line: "all here; the phone last wrote on Tuesday".
 */
line: string, 
/**
 * Whether the line asks for attention.
 */
attention: boolean, 
/**
 * Entries that wait on this device because the folder cannot take them now.
 */
waiting: number, 
/**
 * Whether the folder holds a log and all markers of devices have gone from it: it can be marked again.
 */
unmarked: boolean, 
/**
 * The devices that wrote here.
 */
devices: Array<DeviceLine>, 
/**
 * What is wrong with files in the folder.
 */
problems: Array<ProblemLine>, };

export type DeviceLine = { 
/**
 * Name given to it.
 */
name: string, 
/**
 * Whether it is this one.
 */
this_one: boolean, 
/**
 * "last wrote on Tuesday 24 November".
 */
last_wrote: string, };

export type ProblemLine = { 
/**
 * The file, relative to the folder.
 */
file: string, 
/**
 * What is wrong, in a sentence.
 */
what: string, 
/**
 * What to do about it.
 */
advice: string, };

export type WarpLine = { 
/**
 * Record id.
 */
id: string, 
/**
 * Its name.
 */
name: string, 
/**
 * Where it is.
 */
state: WarpState, 
/**
 * One line: "62 of 180 cm woven; likely Saturday 12 December".
 */
line: string, 
/**
 * Woven share of what is wanted.
 */
share: number, 
/**
 * Number of fields of it or of its sittings into which two devices wrote different values.
 */
conflicts: number, };

export type PickSequenceForm = { 
/**
 * Rows of the opening border, one to a line.
 */
opening: string, 
/**
 * Rows of the repeat.
 */
repeat: string, 
/**
 * Rows that balance the last repeat.
 */
balance: string, 
/**
 * Rows of the closing border.
 */
closing: string, 
/**
 * Slot ends down at each edge of the pick-up.
 */
stick_edge_ends: string, 
/**
 * Slot ends up in each group.
 */
stick_up_ends: string, 
/**
 * Slot ends down between groups.
 */
stick_down_ends: string, 
/**
 * Shaft of each end over one repeat of the threading.
 */
threading: string, 
/**
 * What each numbered shed lifts, one shed to a line.
 */
shed_lifts: string, 
/**
 * Picks per 10 cm or per inch, as the units go.
 */
picks: string, 
/**
 * Ends per 10 cm or per inch; empty: ten to the inch.
 */
sett: string, };

export type PickSequenceView = { 
/**
 * What is wrong with a field, each beside its own.
 */
errors: Array<ErrorView>, 
/**
 * "4 picks of opening border, 4 to a repeat, 3 of balance, 4 of closing border."
 */
counts: string, 
/**
 * The cloth; nothing when it cannot be drawn.
 */
cloth: ClothView | null, 
/**
 * Two picks in one shed, and floats that are long: each a sentence.
 */
warnings: Array<string>, 
/**
 * What else is worth knowing: the longest float, the side of the shuttle.
 */
notes: Array<string>, 
/**
 * The opening border mirrored, to close with; empty when there is none.
 */
mirrored: string, 
/**
 * Sequences to start from.
 */
examples: Array<PickSequenceExample>, };

export type ClothView = { 
/**
 * Ends across.
 */
ends: number, 
/**
 * Picks in order of weaving, the first at the bottom.
 */
rows: Array<ClothRow>, 
/**
 * How high a pick is drawn against the width of an end.
 */
pick_per_end: number, 
/**
 * The whole of it in a sentence, for a screen reader.
 */
text: string, };

export type ClothRow = { 
/**
 * For each end `1` where it lies over the weft, `0` where the weft lies over it.
 */
up: string, 
/**
 * `opening`, `repeat`, `balance` or `closing`.
 */
section: string, 
/**
 * What is done: "heddle up".
 */
words: string, 
/**
 * Floats on the face that are long, as first and last end from 0.
 */
long: Array<[number, number]>, };

export type PickSequenceExample = { 
/**
 * Its name.
 */
name: string, 
/**
 * Rows of the opening border, one to a line.
 */
opening: string, 
/**
 * Rows of the repeat.
 */
repeat: string, 
/**
 * Rows of the balance.
 */
balance: string, 
/**
 * Rows of the closing border.
 */
closing: string, };

export type Answer = { 
/**
 * The sentence that is read first.
 */
headline: string, 
/**
 * Sentences below it.
 */
more: Array<string>, 
/**
 * The calculation, line by line, with the weaver's own numbers.
 */
why: Array<string>, 
/**
 * How it stands.
 */
standing: Standing, };

export type GlanceView = { 
/**
 * A figure, or a day.
 */
figure: string, 
/**
 * One short sentence.
 */
line: string, };

export type Standing = "well" | "close" | "short" | "open";

export type WarpState = "on_the_loom" | "resting" | "off_the_loom" | "removed";

export type LoomView = { 
/**
 * Record id.
 */
id: string, 
/**
 * Its name.
 */
name: string, 
/**
 * Where it is.
 */
state: WarpState, 
/**
 * Where am I: picks, cloth, place in the repeat.
 */
progress: Answer, 
/**
 * Will the warp reach.
 */
warp_reach: Answer, 
/**
 * Will the weft last; an answer that says what is missing when no weft is known.
 */
weft_reach: Answer, 
/**
 * When will it be done.
 */
finish_date: Answer, 
/**
 * How far it is, at a glance.
 */
progress_glance: GlanceView, 
/**
 * When it will be done, at a glance.
 */
finish_date_glance: GlanceView, 
/**
 * The same as plain figures, for programs.
 */
figures: Figures, 
/**
 * The place in the pick sequence, when one is written down.
 */
place: PlaceView | null, 
/**
 * "74 cm to go": cloth still to weave of the piece at the fell.
 */
to_go: string | null, 
/**
 * The warp to scale.
 */
picture: WarpPicture, 
/**
 * Day by day: what was woven, and the fan to the end; nothing when there is no date.
 */
days: DaysPicture | null, 
/**
 * Every sitting, the latest first; removed ones are left out.
 */
sittings: Array<SittingLine>, 
/**
 * The weft yarns' ledgers.
 */
yarns: Array<YarnView>, 
/**
 * What was noted between and within sittings, the latest first.
 */
moments: Array<MomentLine>, 
/**
 * The photos over time, the earliest first.
 */
strip: Array<StripPhoto>, 
/**
 * Picks that one press counts.
 */
picks_per_tap: number, 
/**
 * What the first presses of a sitting would show.
 */
press_previews: Array<PressView>, 
/**
 * Sittings that were removed, to restore.
 */
removed: Array<SittingLine>, 
/**
 * Fields into which two devices wrote different values.
 */
conflicts: Array<ConflictView>, 
/**
 * The form as it would be shown to change the warp.
 */
form: WarpForm, 
/**
 * What a change of the warp answers: hand it back unchanged.
 */
seen: Array<string>, 
/**
 * Cautions that matter for this warp as it stands, each shown until it was read for this warp.
 */
cautions: Array<CautionView>, 
/**
 * What came of it.
 */
off: OffView, };

export type Figures = { 
/**
 * Net picks woven, the running sitting included.
 */
picks: number, 
/**
 * Cloth woven.
 */
woven_mm: number, 
/**
 * Half-width of what is uncertain about it (80 %).
 */
woven_give_or_take_mm: number, 
/**
 * Cloth to be woven in all, gaps and fringes not counted.
 */
wanted_mm: number, 
/**
 * Cloth still to weave.
 */
to_weave_mm: number, 
/**
 * Picks still to weave.
 */
to_weave_picks: number, 
/**
 * Picks per 10 cm that the calculation uses.
 */
picks_per_10cm: number, 
/**
 * Usable warp left.
 */
warp_left_mm: number | null, 
/**
 * Longest cloth that can still be woven: low, likely, high (80 %).
 */
cloth_possible_mm: [number, number, number] | null, 
/**
 * Chance that the warp reaches.
 */
warp_chance: number | null, 
/**
 * Weft left, in metres of yarn: low, likely, high (80 %).
 */
weft_left_m: [number, number, number] | null, 
/**
 * Weft still needed in metres.
 */
weft_needed_m: number | null, 
/**
 * Chance that the weft lasts.
 */
weft_chance: number | null, 
/**
 * Day off the loom, likely.
 */
off_loom_likely: string | null, 
/**
 * Day off the loom: earliest and latest of four times in five.
 */
off_loom_span: [string, string] | null, 
/**
 * Day finished, likely.
 */
finished_likely: string | null, 
/**
 * Day finished: earliest and latest of four times in five.
 */
finished_span: [string, string] | null, 
/**
 * The gift day.
 */
gift_on: string | null, 
/**
 * Chance that it is finished by the gift day.
 */
gift_chance: number | null, 
/**
 * Hours at the loom: low, likely, high (nine in ten); only before the first sitting of a weaver without finished warps.
 */
hours: [number, number, number] | null, 
/**
 * Before that sitting, what makes the gift day four times in five: days a week and minutes on each.
 */
gift_ways: Array<[number, number]>, 
/**
 * Minutes at the loom in all.
 */
minutes: number, };

export type PlaceView = { 
/**
 * The last pick beaten, in words; nothing before the first.
 */
last: string | null, 
/**
 * The next pick in large words: "heddle down, stick forward and on edge".
 */
next: string, 
/**
 * The pick after that; nothing at the end.
 */
then: string | null, 
/**
 * "pick 3 of 4 in the repeat; repeat 18".
 */
place: string, 
/**
 * What is left of the section: "2 picks left".
 */
left: string, 
/**
 * "piece 2 of 4"; nothing on a warp of one piece.
 */
piece: string | null, 
/**
 * That the next pick would lie in the same shed as the last one.
 */
warning: string | null, 
/**
 * That there is room for little more: where to go on, as a button.
 */
due: PlaceDue | null, 
/**
 * Whether the next pick was begun and is not beaten.
 */
begun: boolean, 
/**
 * Which row of the section comes next, from 1.
 */
row: number, 
/**
 * Rows in the section.
 */
rows: number, 
/**
 * Heddle position of the next pick: `up`, `down`, `rest`; nothing for other looms.
 */
heddle: string | null, 
/**
 * Stick position of the next pick: `back`, `forward`, `edge`; nothing without a stick.
 */
stick: string | null, };

export type PlaceDue = { 
/**
 * Why: "There is cloth left for this repeat and the borders."
 */
sentence: string, 
/**
 * What the button says: "Begin the balance".
 */
words: string, 
/**
 * Where it leads.
 */
to: PlaceForm, };

export type PlaceForm = { 
/**
 * Which piece, from 1.
 */
piece: string, 
/**
 * `opening`, `repeat`, `balance` or `closing`.
 */
section: string, 
/**
 * Which repeat, from 1; in balance and closing border how many were woven.
 */
repeat: string, 
/**
 * Which row of the section, from 1.
 */
row: string, };

export type Places = { 
/**
 * Where the weaver is now.
 */
now: PlaceForm, 
/**
 * Pieces on the warp.
 */
pieces: number, 
/**
 * The sections that have rows.
 */
sections: Array<PlaceSection>, };

export type PlaceSection = { 
/**
 * `opening`, `repeat`, `balance` or `closing`.
 */
section: string, 
/**
 * "Opening border".
 */
name: string, 
/**
 * Its rows in words.
 */
rows: Array<string>, };

export type RunningView = { 
/**
 * The warp it is on.
 */
warp: string, 
/**
 * The record id the sitting will have.
 */
sitting: string, 
/**
 * How many taps it is made of: of two views of one sitting the one with more is the newer.
 */
taps: number, 
/**
 * Net picks of this sitting.
 */
picks: number, 
/**
 * Net picks of the warp, this sitting included.
 */
picks_in_all: number, 
/**
 * Minutes at work, long pauses left out.
 */
minutes: number, 
/**
 * "since 19:42".
 */
since: string, 
/**
 * Whether the timer stands still: paused by hand, or because nothing happened for long.
 */
paused: boolean, 
/**
 * Whether it is paused by hand.
 */
held: boolean, 
/**
 * "74 cm to go": cloth still to weave of the piece at the fell.
 */
to_go: string | null, 
/**
 * The place in the pick sequence.
 */
place: PlaceView | null, 
/**
 * Picks that one press counts.
 */
picks_per_tap: number, 
/**
 * Whether a pick is begun and not beaten.
 */
begun: boolean, 
/**
 * StatedAvailability once when a stretch is due.
 */
stretch: string | null, 
/**
 * StatedAvailability once when half of the yarn on the shuttle is gone.
 */
half: string | null, 
/**
 * What the next presses would show, and the last ones taken back, so that none waits for an answer to be shown.
 */
press_previews: Array<PressView>, };

export type PressView = { 
/**
 * Net picks of the sitting by then.
 */
picks: number, 
/**
 * Net picks of the warp by then, the sitting included.
 */
picks_in_all: number, 
/**
 * "74 cm to go": cloth still to weave of the piece at the fell by then.
 */
to_go: string | null, 
/**
 * The place in the pick sequence by then.
 */
place: PlaceView | null, };

export type ConflictView = { 
/**
 * The record.
 */
record: string, 
/**
 * The field as the format names it.
 */
field: string, 
/**
 * "Tuesday 3 November: picks".
 */
what: string, 
/**
 * The answers to pick from.
 */
answers: Array<ConflictingValue>, };

export type ConflictingValue = { 
/**
 * Names the answer when settling.
 */
key: string, 
/**
 * The value as the weaver would write it.
 */
value: string, 
/**
 * Which device wrote it.
 */
device: string, 
/**
 * Whether figures use this one for now.
 */
in_use: boolean, };

export type CautionView = { 
/**
 * What it is about, in every language.
 */
id: string, 
/**
 * What to do.
 */
sentence: string, 
/**
 * Where it comes from.
 */
source: string, };

export type ReadingForm = { 
/**
 * The day, `YYYY-MM-DD`; empty is today.
 */
on: string, 
/**
 * Measured length.
 */
measured: string, 
/**
 * Where the tape started: `start` or `mark`; empty is start.
 */
measured_from: string, 
/**
 * `tight` or `relaxed`; empty is tight.
 */
measured_tension: string, 
/**
 * Whether the mark was moved to the fell.
 */
mark_set: boolean, 
/**
 * A warp mark is at the fell: how far from the first pick, along the warp, it was tied.
 */
warp_mark: string, 
/**
 * Whether all of it is rough.
 */
rough: boolean, 
/**
 * What is left of yarns.
 */
yarns_left: Array<YarnLeftForm>, 
/**
 * Record id of a yarn taken up now; empty is none.
 */
take_up: string, };

export type YarnLeftForm = { 
/**
 * Record id of the yarn.
 */
yarn: string, 
/**
 * Its weight or its length: "42 g", "about 120 m".
 */
left: string, 
/**
 * Whether it was weighed on its shuttle, whose own weight is then taken off.
 */
on_shuttle: boolean, };

export type YarnForm = { 
/**
 * Its name.
 */
name: string, 
/**
 * Weight at the start.
 */
mass: string, 
/**
 * Length at the start.
 */
length: string, 
/**
 * What the empty shuttle or bobbin weighs that it is on.
 */
tare: string, };

export type YarnView = { 
/**
 * Record id.
 */
id: string, 
/**
 * Its name.
 */
name: string, 
/**
 * "96 g at first, 42 g left; 62 cm woven with it".
 */
line: string, 
/**
 * How far it goes on: "good for some 70 cm more"; empty when it is not known.
 */
reach: string, 
/**
 * That about half of it is gone.
 */
half: string | null, 
/**
 * Share of it that is left, 0 to 1.
 */
share_left: number | null, 
/**
 * Whether it is the one being woven.
 */
in_use: boolean, 
/**
 * What its empty shuttle weighs: "28 g"; empty when it is not known.
 */
tare: string, 
/**
 * The form as it would be shown to change it.
 */
form: YarnForm, 
/**
 * What a change answers: hand it back unchanged.
 */
seen: Array<string>, };

export type MomentLine = { 
/**
 * Record id.
 */
record: string, 
/**
 * "Tuesday 3 November".
 */
day: string, 
/**
 * "41 cm from the start; the mark moved to the fell".
 */
line: string, };

export type StripPhoto = { 
/**
 * Record id of the photo.
 */
id: string, 
/**
 * Record id of its sitting.
 */
sitting: string, 
/**
 * "3 Nov".
 */
day: string, 
/**
 * "62 cm", the cloth by the end of that sitting.
 */
cloth: string, 
/**
 * Address of the small picture.
 */
small: string, 
/**
 * Address of the stored picture.
 */
large: string, 
/**
 * What a screen reader says.
 */
text: string, 
/**
 * Whether the picture's file has not arrived yet.
 */
missing: boolean, };

export type WarpPicture = { 
/**
 * The whole warp; when it falls short, what would be needed.
 */
whole_mm: number, 
/**
 * Where the fell lies.
 */
fell_mm: number, 
/**
 * What is reported of it: "the fell, after 41 cm of cloth".
 */
fell_label: string, 
/**
 * Stretches in order, without gaps.
 */
bands: Array<Band>, 
/**
 * Marks and pins.
 */
marks: Array<PictureMark>, 
/**
 * The whole picture in a sentence, for a screen reader.
 */
text: string, };

export type Band = { 
/**
 * What it is.
 */
kind: BandKind, 
/**
 * Where it begins.
 */
from_mm: number, 
/**
 * Where it ends.
 */
to_mm: number, 
/**
 * What is written at it: "14 cm woven, Tuesday 3 November".
 */
label: string, 
/**
 * The sitting that wove it.
 */
sitting: string | null, 
/**
 * Address of its photo's small picture.
 */
photo: string | null, };

export type BandKind = "front_waste" | "woven" | "to_weave" | "fringe" | "spare" | "back_waste" | "missing";

export type PictureMark = { 
/**
 * Where it is.
 */
at_mm: number, 
/**
 * What it is.
 */
label: string, };

export type DaysPicture = { 
/**
 * First day drawn.
 */
from: string, 
/**
 * Days drawn.
 */
days: number, 
/**
 * Which day of the picture today is, from 0.
 */
today: number, 
/**
 * Woven so far at the end of days on which something changed.
 */
woven: Array<DayPoint>, 
/**
 * The fan from today on, day by day.
 */
fan: Array<FanPoint>, 
/**
 * The gift day, as a day of the picture.
 */
gift: number | null, 
/**
 * Days worth naming below the picture, as day of the picture and words.
 */
ticks: Array<DayTick>, 
/**
 * The whole picture in a sentence.
 */
text: string, };

export type DayPoint = { 
/**
 * Day of the picture, from 0.
 */
day: number, 
/**
 * Share of the whole.
 */
share: number, };

export type FanPoint = { 
/**
 * Day of the picture, from 0.
 */
day: number, 
/**
 * Share of the whole woven by then: less one time in ten.
 */
low: number, 
/**
 * As often less as more.
 */
likely: number, 
/**
 * More one time in ten.
 */
high: number, };

export type DayTick = { 
/**
 * Day of the picture.
 */
day: number, 
/**
 * What is written.
 */
label: string, };

export type SittingLine = { 
/**
 * Record id.
 */
id: string, 
/**
 * "Tuesday 3 November".
 */
day: string, 
/**
 * "42 min, 118 picks, 41 cm measured".
 */
line: string, 
/**
 * The weaver's note.
 */
note: string | null, 
/**
 * Which device wrote it first.
 */
device: string, 
/**
 * Its photos.
 */
photos: Array<PhotoView>, 
/**
 * Removed on one device and edited on another: it stays.
 */
contested: boolean, 
/**
 * The form as it would be shown to correct it.
 */
form: SittingForm, 
/**
 * What a correction answers: hand it back unchanged.
 */
seen: Array<string>, };

export type PhotoView = { 
/**
 * Record id.
 */
id: string, 
/**
 * Address of the small picture.
 */
small: string, 
/**
 * Address of the stored picture.
 */
large: string, 
/**
 * What a screen reader says.
 */
text: string, 
/**
 * Whether the picture's file has not arrived yet.
 */
missing: boolean, };

export type FinishForm = { 
/**
 * Minutes and picks as counted.
 */
form: SittingForm, 
/**
 * "The timer ran for 9 hours; 55 minutes are more likely." Nothing when all is plain.
 */
question: string | null, 
/**
 * Minutes since the first pick by the clock, where the weaver may have woven on without counting.
 */
by_the_clock: string | null, };

export type WarpForm = { 
/**
 * Name of the warp.
 */
name: string, 
/**
 * Day it was begun, `YYYY-MM-DD`; empty is today.
 */
begun_on: string, 
/**
 * Length of warp wound.
 */
wound: string, 
/**
 * Loom waste, front and back together.
 */
waste: string, 
/**
 * Length wanted of each piece; several where they are not alike: "180, 15, 15 cm".
 */
wanted: string, 
/**
 * What length that is: `finished`, `off_loom` or `under_tension`; empty is finished.
 */
wanted_state: string, 
/**
 * Loss of length from the loom to finished, in per cent.
 */
shrinkage_percent: string, 
/**
 * What the yarn is made of: `cotton`, `linen`, `cottolin`, `wool`, `silk`, `viscose` or `acrylic`; may be empty.
 */
fibre: string, 
/**
 * How it is finished: `washed` or `fulled`; empty is `washed`.
 */
finish: string, 
/**
 * How many pieces; empty is one, or as many as lengths are wanted.
 */
pieces: string, 
/**
 * Fringe left unwoven at each end of each piece; empty is none.
 */
fringe: string, 
/**
 * Whether the fringes at the two ends of the warp come out of the loom waste.
 */
fringe_from_waste: boolean, 
/**
 * Warp between two pieces besides their fringes; empty is none.
 */
gap: string, 
/**
 * Picks per 10 cm or per inch, as the units go.
 */
picks: string, 
/**
 * Ends in the reed per 10 cm or per inch, as the units go.
 */
sett: string, 
/**
 * Warp that 100 units of cloth under tension use: "110".
 */
warp_per_100: string, 
/**
 * Width in the reed.
 */
reed_width: string, 
/**
 * What is added to the reed width for one pick, in per cent.
 */
weft_allowance_percent: string, 
/**
 * Name of the weft yarn.
 */
weft_name: string, 
/**
 * Weight of weft at the start.
 */
weft_mass: string, 
/**
 * Length of weft at the start.
 */
weft_length: string, 
/**
 * How it is woven: `plain`, `pick_up` or empty.
 */
weave: string, 
/**
 * Picks that one press counts: `1`, or `2` for there and back; empty is one.
 */
picks_per_tap: string, 
/**
 * Slot ends down at each edge of the pick-up.
 */
stick_edge_ends: string, 
/**
 * Slot ends up in each group of the pick-up; empty: the stick is not described.
 */
stick_up_ends: string, 
/**
 * Slot ends down between groups of the pick-up.
 */
stick_down_ends: string, 
/**
 * Rows of the opening border, one to a line.
 */
opening: string, 
/**
 * Rows of the repeat, one to a line.
 */
repeat: string, 
/**
 * Rows that balance the last repeat.
 */
balance: string, 
/**
 * Rows of the closing border.
 */
closing: string, 
/**
 * Shaft of each end over one repeat of the threading: "1 2 3 4" or "1-4".
 */
threading: string, 
/**
 * What each numbered shed lifts, one shed to a line: "1: 1 2".
 */
shed_lifts: string, 
/**
 * Day of the gift, `YYYY-MM-DD`.
 */
gift_on: string, 
/**
 * About how many days a week the weaver works.
 */
days_a_week: string, 
/**
 * About how many minutes the weaver weaves on such a day.
 */
minutes_a_day: string, 
/**
 * The days of the week the weaver works on: "Sat, Sun" or "weekends".
 */
weaving_days: string, 
/**
 * First day the weaver is away; empty is today.
 */
away_from: string, 
/**
 * Last day the weaver is away.
 */
away_until: string, 
/**
 * First day of a stretch on every day of which the weaver intends to weave; empty is today.
 */
every_day_from: string, 
/**
 * Last day of it.
 */
every_day_until: string, 
/**
 * Whether it is for a young child.
 */
for_child: boolean, 
/**
 * A note.
 */
note: string, };

export type SittingForm = { 
/**
 * The day, `YYYY-MM-DD`; empty is today.
 */
on: string, 
/**
 * Time it began, `HH:MM`.
 */
started: string, 
/**
 * Minutes at the loom.
 */
minutes: string, 
/**
 * Picks woven; negative when more was unwoven.
 */
picks: string, 
/**
 * Measured length.
 */
measured: string, 
/**
 * Where the tape started: `start` or `mark`; empty is the last mark where one is set, else the start.
 */
measured_from: string, 
/**
 * `tight` or `relaxed`; empty is tight.
 */
measured_tension: string, 
/**
 * Whether a mark was set at the fell.
 */
mark_set: boolean, 
/**
 * Weft left on the scale.
 */
weft_left: string, 
/**
 * Whether it was weighed on its shuttle, whose own weight is then taken off.
 */
weft_on_shuttle: boolean, 
/**
 * Whether a pick is begun and not beaten.
 */
pick_begun: boolean, 
/**
 * A note.
 */
note: string, 
/**
 * Whether the figures are rough.
 */
rough: boolean, };

export type Understood = { 
/**
 * "184.2 cm", or empty when nothing was typed.
 */
shown: string, 
/**
 * The day that was meant, as year-month-day; nothing where no day is asked for or none can be read.
 */
day: string | null, 
/**
 * What is wrong with it, as a sentence.
 */
trouble: string | null, };

export type ErrorView = { 
/**
 * Member of the form, or nothing.
 */
field: string | null, 
/**
 * What happened and what to do.
 */
sentence: string, };

export type PlanForm = { 
/**
 * Where it starts: `wish` or `yarn`; empty is `wish`.
 */
way: string, 
/**
 * Name of the warp it becomes.
 */
name: string, 
/**
 * Finished length of each piece.
 */
length: string, 
/**
 * Finished width.
 */
width: string, 
/**
 * How many pieces of that length; empty is one.
 */
pieces: string, 
/**
 * Finished lengths of further pieces on the same warp: "40 cm; 2 × 15 cm".
 */
further: string, 
/**
 * What ends each piece: `none`, `fringe` or `hem`; empty is `none`.
 */
edge: string, 
/**
 * Length of the fringe, or of the cloth turned under, at each end of each piece.
 */
edge_length: string, 
/**
 * Whether the fringes at the two ends of the warp come out of the loom waste.
 */
fringe_from_waste: boolean, 
/**
 * Ends in the reed, per 10 cm or per inch as the units go; a heddle's label such as 40/10 is taken.
 */
sett: string, 
/**
 * Wraps of the warp yarn side by side, per 10 cm or per inch as the units go.
 */
wraps: string, 
/**
 * How it is woven: `plain`, `twill` or `pick_up`; empty is `plain`.
 */
weave: string, 
/**
 * Ashenhurst's constant: `usual`, `soft` or `cotton`; empty is `usual`.
 */
k: string, 
/**
 * Number of the warp yarn as its label has it.
 */
warp_count: string, 
/**
 * Number of the weft yarn; empty is that of the warp yarn.
 */
weft_count: string, 
/**
 * Name of the weft yarn.
 */
weft_name: string, 
/**
 * Picks per 10 cm or per inch, under tension.
 */
picks: string, 
/**
 * Width in the reed, in place of the finished width.
 */
reed_width: string, 
/**
 * Rows of the opening border, one to a line.
 */
opening: string, 
/**
 * Rows of the repeat, one to a line.
 */
repeat: string, 
/**
 * Rows that balance the last repeat.
 */
balance: string, 
/**
 * Rows of the closing border.
 */
closing: string, 
/**
 * What the yarn is made of: `cotton`, `linen`, `cottolin`, `wool`, `silk`, `viscose` or `acrylic`; empty is what the warp yarn's
 * size names.
 */
fibre: string, 
/**
 * How it is finished: `washed` or `fulled`; empty is `washed`.
 */
finish: string, 
/**
 * Warp that 100 of cloth uses: "110".
 */
warp_per_100: string, 
/**
 * Which cloth that is: `off_loom` or `under_tension`; empty is `off_loom`.
 */
take_up_of: string, 
/**
 * Loss of length when the tension goes, per cent.
 */
release_percent: string, 
/**
 * Loss of length in the wash, from cloth off the loom, per cent.
 */
shrinkage_percent: string, 
/**
 * How much narrower the cloth at the fell is than the warp in the reed, per cent.
 */
draw_in_percent: string, 
/**
 * How much narrower the finished cloth is than at the fell, per cent.
 */
width_shrinkage_percent: string, 
/**
 * What one pick is longer than the reed width, per cent.
 */
weft_allowance_percent: string, 
/**
 * Loom waste, front and back together.
 */
waste: string, 
/**
 * Warp for the header.
 */
header: string, 
/**
 * Warp for a sample woven first.
 */
sample: string, 
/**
 * Warp between two pieces, besides their fringes.
 */
gap: string, 
/**
 * Of a sample that was woven: warp that went into it.
 */
sample_warp: string, 
/**
 * Its width in the reed.
 */
sample_reed: string, 
/**
 * Its length off the loom.
 */
sample_length: string, 
/**
 * Its width off the loom.
 */
sample_width: string, 
/**
 * Its length after the wash.
 */
sample_length_washed: string, 
/**
 * Its width after the wash.
 */
sample_width_washed: string, 
/**
 * Whether one yarn serves for warp and weft.
 */
one_yarn: boolean, 
/**
 * Length of warp yarn there is.
 */
warp_have: string, 
/**
 * Weight of warp yarn there is.
 */
warp_mass: string, 
/**
 * How well that is known: `measured`, `label` or `rough`; empty is `label`.
 */
warp_sure: string, 
/**
 * Length of weft yarn there is.
 */
weft_have: string, 
/**
 * Weight of weft yarn there is.
 */
weft_mass: string, 
/**
 * How well that is known: `measured`, `label` or `rough`; empty is `label`.
 */
weft_sure: string, 
/**
 * Widest that the loom takes, in the reed.
 */
loom_width: string, 
/**
 * Day of the gift, `YYYY-MM-DD`.
 */
gift_on: string, 
/**
 * About how many days a week the weaver works.
 */
days_a_week: string, 
/**
 * About how many minutes the weaver weaves on such a day.
 */
minutes_a_day: string, };

export type PlanKept = { 
/**
 * Its record id; empty for what was typed on this device and is not kept as it stands.
 */
record: string, 
/**
 * Of what was typed: the kept plan it came from; empty for none.
 */
from: string, 
/**
 * Its name, or its size.
 */
name: string, 
/**
 * "25 cm × 180 cm", "from 300 m of warp yarn".
 */
line: string, 
/**
 * The plan as it was typed.
 */
form: PlanForm, };

export type PlanView = { 
/**
 * The sentence that is read first.
 */
headline: string, 
/**
 * What is still missing for it, as sentences.
 */
missing: Array<string>, 
/**
 * Fields that cannot be read; they count as empty.
 */
errors: Array<ErrorView>, 
/**
 * What measures were understood as, by field.
 */
understood: Array<PlanFill>, 
/**
 * The figures, each with its calculation.
 */
figures: Array<PlanFigure>, 
/**
 * The common rule of thumb beside the calculation, and what it leaves out.
 */
rule_of_thumb: Answer | null, 
/**
 * What the weaver should think about before winding.
 */
warnings: Array<string>, 
/**
 * Values to take over, by field.
 */
offers: Array<PlanOffer>, 
/**
 * Hours, and the day it can be done if begun today.
 */
finish_date: Answer | null, 
/**
 * The warp to scale.
 */
picture: WarpPicture | null, 
/**
 * From the yarn: width against length.
 */
curve: PlanCurve | null, 
/**
 * The plan as figures, for programs.
 */
plain: PlanFigures, 
/**
 * The warp it becomes; nothing while too little is known.
 */
begin: WarpForm | null, };

export type PlanFigure = { 
/**
 * Names it: `warp`, `ends`, `reed_width`, `warp_yarn`, `weft_yarn`, `picks`, `repeats`, `to_weave`, `limit`, `left_over`.
 */
id: string, 
/**
 * What it is, in words.
 */
label: string, 
/**
 * The figure as the weaver would write it.
 */
value: string, 
/**
 * The calculation, line by line.
 */
why: Array<string>, };

export type PlanOffer = { 
/**
 * Member of the form it stands beside.
 */
field: string, 
/**
 * What it is and what stands behind it.
 */
line: string, 
/**
 * What the button says.
 */
button: string, 
/**
 * What it writes.
 */
fills: Array<PlanFill>, 
/**
 * How many warps stand behind it; none for a sample or for common practice.
 */
warps: number, 
/**
 * Whether the calculation uses it for now because the field is empty.
 */
in_use: boolean, };

export type PlanFill = { 
/**
 * Member of the form.
 */
field: string, 
/**
 * The text.
 */
text: string, };

export type PlanCurve = { 
/**
 * From narrow to wide.
 */
points: Array<PlanPoint>, 
/**
 * The chosen one.
 */
chosen: number, 
/**
 * Longest length drawn.
 */
longest_mm: number, 
/**
 * Round widths below the picture.
 */
width_ticks: Array<PlanTick>, 
/**
 * Round lengths beside the picture.
 */
length_ticks: Array<PlanTick>, 
/**
 * The whole picture in a sentence.
 */
text: string, };

export type PlanPoint = { 
/**
 * Finished width.
 */
width_mm: number, 
/**
 * Finished length of each piece: low, likely, high (80 %).
 */
length_mm: [number, number, number], 
/**
 * "24 cm wide: 168 cm long, four times in five between 150 and 185 cm; the warp yarn ends first".
 */
words: string, 
/**
 * The width as it is written into the form.
 */
width: string, };

export type PlanTick = { 
/**
 * Where.
 */
at_mm: number, 
/**
 * What is written.
 */
label: string, };

export type PlanFigures = { 
/**
 * Warp to wind, rounded up.
 */
warp_mm: number | null, 
/**
 * The same before rounding.
 */
warp_exact_mm: number | null, 
/**
 * What the rule of thumb has.
 */
rule_of_thumb_mm: number | null, 
/**
 * Ends.
 */
ends: number | null, 
/**
 * Width in the reed.
 */
reed_width_mm: number | null, 
/**
 * Finished width.
 */
finished_width_mm: number | null, 
/**
 * Finished length of each piece, in order.
 */
finished_mm: Array<number>, 
/**
 * Cloth to weave in all, under tension.
 */
woven_mm: number | null, 
/**
 * Warp yarn, metres.
 */
warp_yarn_m: number | null, 
/**
 * Warp yarn by weight.
 */
warp_yarn_g: number | null, 
/**
 * Weft yarn, metres.
 */
weft_yarn_m: number | null, 
/**
 * Weft yarn by weight.
 */
weft_yarn_g: number | null, 
/**
 * Picks in all.
 */
picks: number | null, 
/**
 * Hours of weaving: low, likely, high (four times in five; by common practice nine in ten).
 */
hours: [number, number, number] | null, 
/**
 * Day finished, likely.
 */
finished_likely: string | null, 
/**
 * Day finished: earliest and latest of four times in five.
 */
finished_span: [string, string] | null, 
/**
 * Chance of the gift day.
 */
gift_chance: number | null, 
/**
 * Where nothing is known of the weaver, what makes the gift day four times in five: days a week and minutes on each.
 */
gift_ways: Array<[number, number]>, };

export type EarlierPlan = { 
/**
 * Its record id.
 */
warp: string, 
/**
 * Its name.
 */
name: string, 
/**
 * The plan as it would be copied.
 */
form: PlanForm, };

export type OffView = { 
/**
 * Where finishing stands: "Finished on Tuesday 3 November." Nothing while it is on the loom.
 */
line: string, 
/**
 * Steps between the last pick and the finished piece, in order.
 */
steps: Array<StepView>, 
/**
 * Planned and actual figures.
 */
planned_and_actual: Array<PlannedAndActualRow>, 
/**
 * What is not measured yet and would teach something, as sentences.
 */
missing: Array<string>, 
/**
 * What all finished warps teach for one like this.
 */
learned: Array<LearnedLine>, 
/**
 * The form of what came off the loom, filled from what is known.
 */
form: OffForm, };

export type StepView = { 
/**
 * Record id.
 */
id: string, 
/**
 * What is done.
 */
name: string, 
/**
 * Day it was done, `YYYY-MM-DD`.
 */
done_on: string | null, 
/**
 * "Tuesday 3 November"; empty while it is not done.
 */
done: string, };

export type PlannedAndActualRow = { 
/**
 * What it is.
 */
what: string, 
/**
 * As planned; empty where nothing was.
 */
planned: string, 
/**
 * As measured; empty where it was not.
 */
actual: string, 
/**
 * The difference in words; empty where there is none.
 */
difference: string, };

export type LearnedLine = { 
/**
 * What it is: "Take-up".
 */
what: string, 
/**
 * "100 cm of cloth uses 111 cm of warp, give or take 2".
 */
sentence: string, 
/**
 * "from 3 warps, 2 of them like this one".
 */
behind: string, 
/**
 * Member of the warp's form it would fill, if any.
 */
field: string | null, 
/**
 * What it would be filled with.
 */
value: string, };

export type OffForm = { 
/**
 * The day it was cut off, `YYYY-MM-DD`; empty is today, or the day that stands.
 */
on: string, 
/**
 * Cut off in front of the first pick, fringe included.
 */
front: string, 
/**
 * Thrums: behind the last pick, fringe included.
 */
thrums: string, 
/**
 * Length off the loom.
 */
off_loom: string, 
/**
 * Width at the fell before it was cut off.
 */
fell_width: string, 
/**
 * Width off the loom.
 */
off_loom_width: string, 
/**
 * Weft left over.
 */
weft_over: string, 
/**
 * Length after the wash.
 */
finished: string, 
/**
 * Width after the wash.
 */
finished_width: string, 
/**
 * Weight after the wash.
 */
finished_mass: string, };

export type ImportForm = { 
/**
 * The table's text.
 */
text: string, 
/**
 * The list: `sittings`, `warps`, `wefts` or `finishing`; empty is guessed from the headings.
 */
list: string, 
/**
 * The field of each column as `ImportField::field` names it, `-` for none; empty is guessed from the headings.
 */
columns: Array<string>, 
/**
 * The warp that rows without one belong to: record id.
 */
warp: string, };

export type ImportView = { 
/**
 * The list it is.
 */
list: string, 
/**
 * What each column is taken for.
 */
columns: Array<ImportColumn>, 
/**
 * What a column can be.
 */
fields: Array<ImportField>, 
/**
 * Rows that would come in.
 */
good: number, 
/**
 * "118 sittings would be brought in, 2 rows refused."
 */
line: string, 
/**
 * The first rows as they were understood: cells in the order of the columns that are taken.
 */
shown: Array<Array<string>>, 
/**
 * Rows that are refused, and why.
 */
refused: Array<ImportRefused>, 
/**
 * Whether rows need a warp to be chosen.
 */
needs_warp: boolean, };

export type ImportColumn = { 
/**
 * Its heading.
 */
heading: string, 
/**
 * A value from it.
 */
sample: string, 
/**
 * The field it is taken for; `-` for none.
 */
field: string, };

export type ImportField = { 
/**
 * Its name.
 */
field: string, 
/**
 * In words.
 */
label: string, };

export type ImportRefused = { 
/**
 * Line of the file, the heading being line 1.
 */
line: number, 
/**
 * Why.
 */
why: string, };

export type PaceView = { 
/**
 * What each warp took, the latest begun first.
 */
rows: Array<PaceRow>, 
/**
 * What the figures count, in a sentence or two.
 */
counted: Array<string>, 
/**
 * Pictures, each with what it says.
 */
charts: Array<ChartView>, 
/**
 * The length that parts short from long, as it stands in the field.
 */
split: string, 
/**
 * What is wrong with the length that was typed.
 */
split_trouble: string | null, 
/**
 * Warps that can be looked at over their own time: record id and name.
 */
within: Array<PaceChoice>, 
/**
 * The one that is shown.
 */
within_shown: string | null, };

export type PaceChoice = { 
/**
 * Record id.
 */
id: string, 
/**
 * Its name.
 */
name: string, };

export type PaceRow = { 
/**
 * Record id.
 */
id: string, 
/**
 * Its number in the pictures.
 */
number: string, 
/**
 * Its name.
 */
name: string, 
/**
 * "finished", "off the loom", "on the loom", "resting".
 */
state: string, 
/**
 * Length woven, under tension.
 */
length: string, 
/**
 * Hours at the loom.
 */
hours: string, 
/**
 * Sittings.
 */
sittings: string, 
/**
 * Days from the first pick to finished; to today while it is not.
 */
days: string, 
/**
 * Picks an hour.
 */
picks_per_hour: string, 
/**
 * Length an hour.
 */
length_per_hour: string, 
/**
 * Hours for a metre, or for a yard.
 */
hours_per_length: string, };

export type ChartView = { 
/**
 * What it is for saving: `length`, `within`, `split`.
 */
what: string, 
/**
 * Its title.
 */
title: string, 
/**
 * What it says, in words that do not say more than the figures do.
 */
sentences: Array<string>, 
/**
 * The picture as SVG, drawn in classes that follow the page; empty where there is nothing to draw.
 */
svg: string, 
/**
 * The same as a table: names of the columns, then the rows.
 */
columns: Array<string>, 
/**
 * Rows of the table.
 */
rows: Array<Array<string>>, };

export type GuideContents = { 
/**
 * The pages in their order.
 */
pages: Array<GuideLink>, 
/**
 * Version of the program.
 */
version: string, 
/**
 * The licence, word for word.
 */
licence: string, };

export type GuideLink = { 
/**
 * Its id.
 */
page: string, 
/**
 * Its heading.
 */
title: string, };

export type GuidePage = { 
/**
 * What stands on it.
 */
content: Array<GuideNode>, 
/**
 * Tag of the language it is in.
 */
language: string, 
/**
 * Whether it is not in the language that was asked for.
 */
is_untranslated: boolean, 
/**
 * The page after it.
 */
next: GuideLink | null, };

export type GuideNode = { "type": "text", 
/**
 * The text.
 */
text: string, } | { "type": "element", 
/**
 * What it is.
 */
tag: GuideTag, 
/**
 * What is in it.
 */
children: Array<GuideNode>, } | { "type": "link", 
/**
 * The page's id.
 */
page: string, 
/**
 * What is in it.
 */
children: Array<GuideNode>, } | { "type": "picture", 
/**
 * Its name among the program's pictures.
 */
name: string, 
/**
 * What it shows, in words.
 */
text: string, };

export type GuideTag = "h1" | "h2" | "h3" | "p" | "ul" | "ol" | "li" | "strong" | "em" | "code";
