// Made from the Rust types of the studio; see view/typescript.rs. Do not edit.

/**
 * A number as it is shown: in her unit first, in the other beside it, and as it is read out.
 */
export type Quantity = { 
/**
 * `73.0`, or `28¾` where she works in inches.
 */
main: string, 
/**
 * `cm`, `in`, `mm`, `%`, `kPa`; empty for a plain number.
 */
unit: string, 
/**
 * The same in the other unit, with it: `28¾ in`; empty where there is none.
 */
second: string, 
/**
 * As a screen reader says it: `73 centimetres, 28 and three quarter inches`.
 */
spoken: string, 
/**
 * Key of the answer to "why?"; none when it is what she wrote herself.
 */
why: string | null, };

/**
 * How a section, a line or a note stands. In order: the worst first.
 */
export type State = "stop" | "doubtful" | "missing" | "estimate" | "how" | "good";

/**
 * A pencil note in the margin: what was found and what to do next.
 */
export type Note = { 
/**
 * Icon and word.
 */
state: State, 
/**
 * Where, in her words: `waist`; empty for the section as a whole.
 */
place: string, 
/**
 * What was found, one or two short sentences.
 */
says: string, 
/**
 * What to do next; empty when there is nothing.
 */
next: string, 
/**
 * Field the note is about, as the pages name it: `dimensions.waist_girth`; the note's link goes there.
 */
field: string | null, 
/**
 * Key of the answer to "why?".
 */
why: string | null, 
/**
 * A change that would mend it.
 */
try_this: Proposal | null, };

/**
 * A change to be looked at before it is kept.
 */
export type Proposal = { 
/**
 * What it does, verb first: `Try a looser fit`.
 */
words: string, 
/**
 * The changes, all or none.
 */
changes: Array<Set>, };

/**
 * One value of one document, set or taken out.
 */
export type Set = { 
/**
 * Id of the document.
 */
document: string, 
/**
 * Dotted path in it: `design.strap_width`.
 */
path: string, 
/**
 * The value; `null` takes it out.
 */
value: unknown, };

/**
 * What heads a section: its state, one sentence, its margin notes.
 */
export type Head = { 
/**
 * The worst of its notes, or good.
 */
state: State, 
/**
 * One sentence; all that is seen of a closed section.
 */
summary: string, 
/**
 * Margin notes, the worst first.
 */
notes: Array<Note>, };

/**
 * A choice among a few words.
 */
export type Choice = { 
/**
 * Where the value goes: document and path.
 */
document: string, 
/**
 * Dotted path.
 */
path: string, 
/**
 * Name of the choice.
 */
label: string, 
/**
 * What it does on the body, one line.
 */
says: string, 
/**
 * Value in force.
 */
value: string, 
/**
 * What may be chosen.
 */
options: Array<ChoiceOption>, };

/**
 * One word of a choice.
 */
export type ChoiceOption = { 
/**
 * Value written.
 */
value: string, 
/**
 * Word shown.
 */
label: string, };

/**
 * A length or number she may type over.
 */
export type Field = { 
/**
 * Id of the document.
 */
document: string, 
/**
 * Dotted path.
 */
path: string, 
/**
 * Name of the line.
 */
label: string, 
/**
 * What it means, one line.
 */
says: string, 
/**
 * The value in force, usual or hers; none when it is missing.
 */
quantity: Quantity | null, 
/**
 * As she typed it; none when the usual value is in force.
 */
typed: string | null, 
/**
 * Unit a bare number is read in: `cm`, `in`, `mm`, `%`, `kg`, `g/m2`.
 */
unit: string, 
/**
 * What is allowed, in words: `1.2 cm to 9.0 cm`; empty where any will do.
 */
allowed: string, 
/**
 * How it stands.
 */
state: State, };

/**
 * Something to choose by its name: a wearer, a cloth.
 */
export type Named = { 
/**
 * Its id.
 */
id: string, 
/**
 * Its name.
 */
name: string, };

/**
 * A point of a drawing, mm, y down.
 */
export type Spot = { 
/**
 * To the right.
 */
x: number, 
/**
 * Down.
 */
y: number, };

/**
 * The box of a drawing, mm, y down.
 */
export type Frame = { 
/**
 * Left.
 */
x: number, 
/**
 * Top.
 */
y: number, 
/**
 * Width.
 */
width: number, 
/**
 * Height.
 */
height: number, };

/**
 * One suit as a work order, read from top to bottom.
 */
export type OrderView = { 
/**
 * What stands at its head.
 */
suit: SuitHead, 
/**
 * The documents it is made of, each with the revision shown: what an edit is based on.
 */
documents: Array<Stamp>, 
/**
 * What "Back one" would undo: `strap width 4.2 cm to 3.8 cm`.
 */
back: string | null, 
/**
 * What "Forward" would do again.
 */
forward: string | null, 
/**
 * Section 1.
 */
wearer: WearerView, 
/**
 * Section 2.
 */
cloth: ClothView, 
/**
 * Section 3.
 */
shape: ShapeView, 
/**
 * Section 4.
 */
wear: WearView, 
/**
 * Section 5.
 */
lay: LayView, 
/**
 * Section 6.
 */
sew: SewView, 
/**
 * Section 7.
 */
paper: PaperView, 
/**
 * Section 8.
 */
try_on: TryOnView, };

/**
 * What stands at the head of a work order.
 */
export type SuitHead = { 
/**
 * Id of the suit.
 */
id: string, 
/**
 * Number of the order: 14.
 */
number: number, 
/**
 * Its name.
 */
name: string, 
/**
 * Version in work: 2.
 */
version: number, 
/**
 * Version id as printed on paper; none before the suit can be drafted.
 */
version_id: string | null, 
/**
 * Whom it is for; empty when nobody is chosen.
 */
wearer: string, 
/**
 * To wear from, as she wrote it (a date); empty when not said.
 */
to_wear_from: string, 
/**
 * Her unit: `cm`, `mm` or `in`.
 */
units: string, 
/**
 * Notes she keeps on the order.
 */
notes: string, 
/**
 * The cautions that apply, for the foot of the order.
 */
cautions: Array<CautionView>, };

/**
 * One caution.
 */
export type CautionView = { 
/**
 * What it is about.
 */
topic: string, 
/**
 * What to know and do.
 */
says: string, };

/**
 * A document and its revision.
 */
export type Stamp = { 
/**
 * Id.
 */
id: string, 
/**
 * `suit`, `wearer`, `cloth`, `elastic`, `workroom`.
 */
kind: string, 
/**
 * Revision shown.
 */
revision: number, };

/**
 * The wearer of a suit.
 */
export type WearerView = { 
/**
 * State, summary, notes.
 */
head: Head, 
/**
 * Id of the wearer; none when nobody is chosen yet.
 */
id: string | null, 
/**
 * Whom she may choose.
 */
choose: Array<Named>, 
/**
 * Her name.
 */
name: string, 
/**
 * Age in years as typed; empty when not said.
 */
age: string, 
/**
 * Body mass in kg as typed.
 */
mass: string, 
/**
 * Woman, man or child; where the waist was taken; how the front; which to trust.
 */
choices: Array<Choice>, 
/**
 * The protocol.
 */
protocol: ProtocolView, 
/**
 * All dimensions this body may have, in the order they are taken.
 */
dimensions: Array<DimensionView>, 
/**
 * What may be taken on the right as well, for a body that is not alike left and right.
 */
sided: Array<SidedView>, 
/**
 * Key of the dimension to take now: doubtful first, then missing; none when all is taken.
 */
now: string | null, 
/**
 * Key that changes when the form does; the pages fetch it anew then. None while it cannot be computed.
 */
form_key: string | null, };

/**
 * How the body is measured: what is worn, who is there, consent.
 */
export type ProtocolView = { 
/**
 * How a body of this form is measured at all.
 */
before: string, 
/**
 * What was worn, as typed.
 */
worn: string, 
/**
 * Who was present.
 */
present: string, 
/**
 * Whether the wearer, or a child's carer, agreed to being measured and to the record.
 */
consent: boolean, 
/**
 * Taken on, `2026-11-14`.
 */
taken_on: string, 
/**
 * Taken by.
 */
taken_by: string, 
/**
 * Name of a child's carer.
 */
carer: string, 
/**
 * Measure again on; suggested for a child.
 */
again_on: string, 
/**
 * Whether the wearer is under 18: carer instead of photos.
 */
is_minor: boolean, 
/**
 * What of the protocol is still open.
 */
missing: Array<Note>, };

/**
 * One dimension.
 */
export type DimensionView = { 
/**
 * Key: `waist_girth`.
 */
key: string, 
/**
 * Name: `waist girth`.
 */
name: string, 
/**
 * What it is.
 */
definition: string, 
/**
 * How the tape is laid.
 */
how: string, 
/**
 * How to take it alone, or that somebody must help.
 */
alone: string, 
/**
 * `needed`, `asked`, `estimated`, `checks others`, `not used`.
 */
need: string, 
/**
 * The value in use, taken or estimated.
 */
value: Quantity | null, 
/**
 * The readings as typed, first, second, third.
 */
readings: Array<string>, 
/**
 * The readings in her units.
 */
read: Array<Quantity>, 
/**
 * Whether a second reading is wanted.
 */
wants_second: boolean, 
/**
 * How it stands: good, estimate, doubtful, stop, missing.
 */
state: State, 
/**
 * What is wrong with it.
 */
notes: Array<Note>, };

/**
 * A dimension of which left and right may differ.
 */
export type SidedView = { 
/**
 * Name: `thigh girth`.
 */
name: string, 
/**
 * Her left, or both sides while the right is not written.
 */
left: Quantity | null, 
/**
 * Her right.
 */
right: Field, };

/**
 * The computed body beside the numbers: section rings in space, and where each tape goes.
 */
export type FormView = { 
/**
 * Rings from thigh to neck. Points x, y, z in mm: x her left, y up, z forward.
 */
rings: Array<RingView>, 
/**
 * Lowest and highest y.
 */
low: number, 
/**
 * Highest.
 */
high: number, 
/**
 * Largest distance from the middle, for the scale.
 */
reach: number, 
/**
 * Per dimension with a place on the form: where its tape goes.
 */
tapes: Array<TapeView>, 
/**
 * How well the form agrees: one line a dimension, worst first.
 */
residuals: Array<ResidualView>, 
/**
 * One sentence on what the form is and is not.
 */
says: string, };

/**
 * One section ring.
 */
export type RingView = { 
/**
 * Level it lies at: `waist`; none between levels.
 */
level: string | null, 
/**
 * Height.
 */
y: number, 
/**
 * x, z, x, z, ...: a closed line from centre back.
 */
points: Array<number>, };

/**
 * Where a tape goes.
 */
export type TapeView = { 
/**
 * Key of the dimension.
 */
key: string, 
/**
 * Whether it closes.
 */
closed: boolean, 
/**
 * x, y, z, ...
 */
points: Array<number>, };

/**
 * How far the form is from a dimension.
 */
export type ResidualView = { 
/**
 * Name of the dimension.
 */
name: string, 
/**
 * What is left, signed: `+0.2`.
 */
left: Quantity, };

/**
 * The cloths of a suit.
 */
export type ClothView = { 
/**
 * State, summary, notes.
 */
head: Head, 
/**
 * Shell, lining, mesh and second outer cloth; those the design has no use for are left out unless one is chosen.
 */
layers: Array<LayerView>, 
/**
 * The verdict in sentences: which way to lay it, whether it holds.
 */
verdict: Array<string>, 
/**
 * Shell and lining tested as one, around and lengthwise; none when there is no lining.
 */
together: TogetherView | null, 
/**
 * The elastic of the edges.
 */
elastic: ElasticView, };

/**
 * One layer and the cloth chosen for it.
 */
export type LayerView = { 
/**
 * `shell`, `lining`, `mesh`, `contrast`.
 */
layer: string, 
/**
 * Word shown: `Shell`.
 */
label: string, 
/**
 * Path of the suit its id is written to.
 */
path: string, 
/**
 * Cloths that may be chosen.
 */
choose: Array<Named>, 
/**
 * The cloth; none when none is chosen.
 */
swatch: SwatchView | null, 
/**
 * Whether the design needs it.
 */
is_needed: boolean, 
/**
 * What becomes of the pieces of a layer that is not chosen; empty where nothing does.
 */
does_without: string, };

/**
 * One cloth in the hand.
 */
export type SwatchView = { 
/**
 * Its id.
 */
id: string, 
/**
 * Its revision.
 */
revision: number, 
/**
 * Its name.
 */
name: string, 
/**
 * `shell`, `lining` or `mesh`.
 */
role: string, 
/**
 * How it is drawn.
 */
look: LookView, 
/**
 * One line: `Shell. 190 g/m², 150 cm wide, 2.4 m left.`
 */
about: string, 
/**
 * The pull across.
 */
across: PullView, 
/**
 * The pull along.
 */
along: PullView, 
/**
 * Which way it lies on the body, in a sentence; empty before both pulls are known.
 */
lies: string, 
/**
 * Words: direction of print, washed, how it must lie.
 */
choices: Array<Choice>, 
/**
 * Numbers: width, weight, shrinkage, price, stock.
 */
fields: Array<Field>, 
/**
 * The wet-transparency test.
 */
wet: WetView, 
/**
 * Notes on this cloth.
 */
notes: Array<Note>, };

/**
 * How a swatch is drawn.
 */
export type LookView = { 
/**
 * Ground colour, `#566874`.
 */
colour: string, 
/**
 * `plain`, `ribs`, `leaf`, `dots`, `mesh`.
 */
weave: string, 
/**
 * Id of her own photo, if there is one.
 */
photo: string | null, };

/**
 * A pull in one direction.
 */
export type PullView = { 
/**
 * `across` or `along`.
 */
direction: string, 
/**
 * Rest, pulled and back to: lengths she may type.
 */
fields: Array<Field>, 
/**
 * Stretch: 85 %.
 */
stretch: Quantity | null, 
/**
 * Recovery: 96 %.
 */
recovery: Quantity | null, 
/**
 * Pulled over rest, for the drawing: 1.85.
 */
drawn: number | null, 
/**
 * Back to over rest, for the drawing.
 */
drawn_back: number | null, 
/**
 * `10 pulled to 18.5, back to 10.3`.
 */
says: string, 
/**
 * How it stands.
 */
state: State, };

/**
 * Wet transparency at worn stretch.
 */
export type WetView = { 
/**
 * How it is tested, with the worn stretch to hold it at.
 */
how: string, 
/**
 * `opaque`, `shows`, `sheer`, or empty when not tested.
 */
verdict: string, 
/**
 * The choice among them.
 */
choice: Choice, };

/**
 * Shell and lining as one.
 */
export type TogetherView = { 
/**
 * Around.
 */
around: PullView, 
/**
 * Lengthwise.
 */
lengthwise: PullView, 
/**
 * `tested` or `estimated`, in a sentence.
 */
says: string, };

/**
 * The elastic of a suit's edges.
 */
export type ElasticView = { 
/**
 * Id of the elastic from stock; none when only a kind is chosen.
 */
id: string | null, 
/**
 * Elastics in stock.
 */
choose: Array<Named>, 
/**
 * Kind and latex.
 */
choices: Array<Choice>, 
/**
 * Width, force at double length, working extension.
 */
fields: Array<Field>, 
/**
 * One line about it.
 */
about: string, 
/**
 * Notes.
 */
notes: Array<Note>, };

/**
 * The design and what is drafted of it.
 */
export type ShapeView = { 
/**
 * State, summary, notes.
 */
head: Head, 
/**
 * Words: style first, then fit, neckline, back, leg, seat, lining, skirt.
 */
choices: Array<Choice>, 
/**
 * Numbers, those with a handle among them.
 */
fields: Array<Field>, 
/**
 * Pieces, shell first; empty while nothing can be drafted.
 */
pieces: Array<PieceView>, 
/**
 * What it may have besides: support, a closure, blocks, corrections; only what this suit can have.
 */
besides: Array<BesidesView>, 
/**
 * Handles on the front and back pieces.
 */
handles: Array<HandleView>, 
/**
 * Seams with their walk.
 */
seams: Array<SeamView>, 
/**
 * Measurements of the finished suit, flat.
 */
finished: Array<FinishedView>, };

/**
 * A group of what a suit may have besides.
 */
export type BesidesView = { 
/**
 * Key: `closure`.
 */
key: string, 
/**
 * Name: `Closure`.
 */
name: string, 
/**
 * What it is for, in a sentence or two.
 */
says: string, 
/**
 * What is set: `zip, 18.0 cm`; empty while all is as usual.
 */
in_use: string, 
/**
 * Words.
 */
choices: Array<Choice>, 
/**
 * Numbers.
 */
fields: Array<Field>, 
/**
 * Corrections and room: a few words, each with its amount.
 */
amounts: Array<AmountView>, 
/**
 * What it does to this suit, what this wearer needs and why.
 */
notes: Array<Note>, };

/**
 * A correction in words, with its amount once there is one.
 */
export type AmountView = { 
/**
 * Key: `sway_back`.
 */
key: string, 
/**
 * Which way it goes: -1, 0 or 1; for the drawing.
 */
way: number, 
/**
 * The words; each stands for a length, the empty one for none.
 */
choice: Choice, 
/**
 * The length itself; none while nothing is corrected.
 */
field: Field | null, };

/**
 * One style on this wearer.
 */
export type StyleCard = { 
/**
 * Value of `design.style`.
 */
key: string, 
/**
 * Name.
 */
name: string, 
/**
 * What it is, in a sentence.
 */
says: string, 
/**
 * Whether it is the suit's.
 */
is_chosen: boolean, 
/**
 * Her own draft as it hangs; none where it cannot be drawn.
 */
silhouette: Silhouette | null, 
/**
 * Why it cannot be had; empty where it can.
 */
refused: string, };

/**
 * Styles of one kind.
 */
export type StyleFamily = { 
/**
 * `One-pieces`.
 */
name: string, 
/**
 * Its styles.
 */
styles: Array<StyleCard>, };

/**
 * The styles, in families.
 */
export type StylesView = { 
/**
 * What is missing before anything can be drawn; empty when it can.
 */
waits: string, 
/**
 * Families in the order in which makers choose.
 */
families: Array<StyleFamily>, };

/**
 * One piece as it is drawn: mm, y down, its waist at y = 0.
 */
export type PieceView = { 
/**
 * Key: `front`.
 */
key: string, 
/**
 * Name: `Front`.
 */
name: string, 
/**
 * Letter on the page map.
 */
letter: string, 
/**
 * `1 shell, 1 lining`.
 */
cut: string, 
/**
 * Layer it is first cut from.
 */
layer: string, 
/**
 * Box around the cut line.
 */
frame: Frame, 
/**
 * Cut line as SVG path.
 */
cut_line: string, 
/**
 * Seam line as SVG path.
 */
seam_line: string, 
/**
 * Fold line, if it is drawn.
 */
fold_line: string | null, 
/**
 * Level lines, placement lines: path and word.
 */
marks: Array<MarkView>, 
/**
 * Notches as one path.
 */
notches: string, 
/**
 * Grain arrow, foot first.
 */
grain: [Spot, Spot], 
/**
 * Greater stretch, both ends.
 */
stretch: [Spot, Spot], 
/**
 * Where the name stands.
 */
label: Spot, 
/**
 * Its edges by name, on both halves: a step at the bench draws those in hand hot.
 */
edges: Array<NamedEdge>, };

/**
 * A line or cross inside a piece.
 */
export type MarkView = { 
/**
 * `level`, `placement` or `cross`.
 */
kind: string, 
/**
 * SVG path.
 */
path: string, 
/**
 * Word beside it; may be empty.
 */
words: string, 
/**
 * Where the word stands.
 */
at: Spot, };

/**
 * An edge of a piece.
 */
export type NamedEdge = { 
/**
 * Name, as a step names it.
 */
name: string, 
/**
 * SVG path.
 */
path: string, };

/**
 * A handle on a piece.
 */
export type HandleView = { 
/**
 * Key: `strap_width`.
 */
key: string, 
/**
 * Name read out: `Strap width`.
 */
name: string, 
/**
 * Piece it sits on.
 */
piece: string, 
/**
 * Where, mm on the piece, y down.
 */
at: Spot, 
/**
 * Which way it moves: a unit vector in the drawing.
 */
along: Spot, 
/**
 * The edge that moves with it, as SVG path: drawn hot.
 */
edge: string, 
/**
 * Its value.
 */
value: Quantity, 
/**
 * Value in the page's own steps, for the slider's range: least, value, most; mm.
 */
range: [number, number, number], };

/**
 * A drag of a handle, or a step by the arrow keys: where its point should be.
 */
export type Drag = { 
/**
 * Key of the handle.
 */
handle: string, 
/**
 * How far it is moved from where it was in the document's own state, along its way, mm; positive as `along` points.
 */
by_mm: number, };

/**
 * What a preview draws: the changes it would make, and what they would give.
 */
export type Preview = { 
/**
 * The changes to send when it is kept.
 */
changes: Array<Set>, 
/**
 * What they do: `strap width 4.2 cm to 3.8 cm`.
 */
words: string, 
/**
 * The shape with them.
 */
shape: ShapeView, 
/**
 * The wear with them; left out while a handle is dragged.
 */
wear: WearView | null, };

/**
 * One seam.
 */
export type SeamView = { 
/**
 * Name.
 */
name: string, 
/**
 * First side.
 */
first: Quantity, 
/**
 * Second side.
 */
second: Quantity, 
/**
 * Eased in; empty when none.
 */
ease: string, };

/**
 * One measurement of the finished suit.
 */
export type FinishedView = { 
/**
 * What to measure.
 */
name: string, 
/**
 * How long it should be.
 */
value: Quantity, };

/**
 * How the suit will sit.
 */
export type WearView = { 
/**
 * State, summary, notes.
 */
head: Head, 
/**
 * One leading sentence: `Every knot between the two rails: the suit holds, and keeps stretch for reaching.`
 */
lead: string, 
/**
 * Rungs, top to bottom; empty while nothing can be judged.
 */
rungs: Array<RungView>, 
/**
 * Where the rails stand, as shares of a layer's stretch, and their words.
 */
rails: Array<RailView>, 
/**
 * Share of stretch at the right end of the scale.
 */
scale: number, 
/**
 * The openings.
 */
way_in: Array<WayInView>, 
/**
 * The squeeze in one sentence, with what it rests on.
 */
squeeze: string, 
/**
 * The caution beside it.
 */
caution: string, };

/**
 * One level.
 */
export type RungView = { 
/**
 * Key of the level: `waist`; the form's ring of the same key is beside it.
 */
level: string, 
/**
 * Name.
 */
name: string, 
/**
 * Whether the girth is estimated.
 */
is_estimate: boolean, 
/**
 * Girth of the body.
 */
body: Quantity, 
/**
 * Width the suit is cut to.
 */
cut: Quantity, 
/**
 * Worn stretch in per cent.
 */
worn: Quantity, 
/**
 * Share of each layer's stretch in use.
 */
layers: Array<UseView>, 
/**
 * Pressure in kPa.
 */
pressure: Quantity | null, 
/**
 * Weight of its ring between 0 and 1 by pressure; 0 when unknown.
 */
weight: number, 
/**
 * How it stands.
 */
state: State, };

/**
 * A layer's share at a level.
 */
export type UseView = { 
/**
 * `shell` or `lining`.
 */
layer: string, 
/**
 * Share of its stretch in use.
 */
share: number, 
/**
 * The same, to be read: `33 % of its stretch`.
 */
says: string, };

/**
 * A rail of the ladder.
 */
export type RailView = { 
/**
 * Share where it stands.
 */
share: number, 
/**
 * `3 % holds`.
 */
words: string, 
/**
 * Key of the answer to "why?".
 */
why: string, };

/**
 * One opening.
 */
export type WayInView = { 
/**
 * Which opening.
 */
opening: string, 
/**
 * What it must pass and what it opens to: `steps in over the hips, 99.0 cm: opens to 112 cm`.
 */
says: string, 
/**
 * Way-in share, per cent.
 */
share: Quantity, 
/**
 * How it stands.
 */
state: State, };

/**
 * The computed fit of a suit, as far as it is known.
 */
export type WornView = { 
/**
 * Why it cannot be put on a form now; none when it can be tried.
 */
cannot: string | null, 
/**
 * What is at work for this suit.
 */
work: WornWork | null, 
/**
 * What came of putting it on last.
 */
fit: FitView | null, 
/**
 * What a change would do, looked at and not taken yet.
 */
proposed: ProposedView | null, 
/**
 * What is taken when she does not say by how much, in a sentence: of reaching, of breathing in.
 */
guesses: [string, string], };

/**
 * A job at work.
 */
export type WornWork = { 
/**
 * Its id.
 */
job: string, 
/**
 * `put_on`, `try`, `better`.
 */
kind: string, };

/**
 * How a suit is to be put on its form.
 */
export type PutOnRequest = { 
/**
 * How she stands: `standing`, `reach`, `breathe`.
 */
scene: string, 
/**
 * By how much the trunk is longer or the ribs are wider, as typed: `4.5 cm`; empty for a guess.
 */
by: string, 
/**
 * Whether the cloth has been worn before.
 */
settled: boolean, 
/**
 * Whether skin and cloth grip each other.
 */
friction: boolean, 
/**
 * How fine it is worked out: `coarse`, `usual`, `fine`.
 */
mesh: string, };

/**
 * A finding whose changes are to be tried.
 */
export type TryRequest = { 
/**
 * Key of the finding in the result at hand.
 */
finding: string, };

/**
 * What came of putting a suit on its form.
 */
export type FitView = { 
/**
 * The same for the same suit put on in the same way.
 */
id: string, 
/**
 * How it was put on.
 */
asked: PutOnRequest, 
/**
 * Whether it is of the draft in force; of an older one otherwise.
 */
is_current: boolean, 
/**
 * Whether its seams were judged by the machines, threads and samples of the workroom as they are.
 */
is_of_workroom: boolean, 
/**
 * Version of the draft it was made of, as on paper.
 */
version: string, 
/**
 * What came of it, in a sentence.
 */
lead: string, 
/**
 * How it was put on, and what of that is a guess, in sentences.
 */
rests_on: Array<string>, 
/**
 * Why there is no answer; then nothing is drawn, and all below but `how` and `form` is empty.
 */
why_not: string | null, 
/**
 * How the answer was reached, in a sentence.
 */
how: string, 
/**
 * Lowest and highest point of the form, and how far it reaches sideways or forward, mm.
 */
span: [number, number, number], 
/**
 * Levels, top to bottom.
 */
levels: Array<WornLevelView>, 
/**
 * Rails of the ladder, as shares of its width.
 */
rails: Array<RailView>, 
/**
 * Where nothing is stretched, as a share of the ladder's width.
 */
zero: number, 
/**
 * Weights of the rings, from no squeeze to the heaviest: share and words.
 */
weights: Array<[number, string]>, 
/**
 * Open edges.
 */
edges: Array<WornEdgeView>, 
/**
 * The straps in a sentence; empty where there are none.
 */
straps: string, 
/**
 * What was found, the worst first.
 */
found: Array<WornFound>, 
/**
 * Why pressures are to be compared and not believed; empty when all force was weighed.
 */
relative: string, 
/**
 * The caution beside the squeeze.
 */
caution: string, 
/**
 * How far the form is off her dimensions, the worst first; those that agree are left out.
 */
form: Array<ResidualView>, 
/**
 * What the rest of them is.
 */
form_says: string, 
/**
 * What was left out of it.
 */
left_out: Array<string>, 
/**
 * What it does not know of.
 */
not_judged: Array<string>, 
/**
 * Drawings: name in the address, what it shows, and from where.
 */
drawings: Array<WornDrawing>, };

/**
 * A level of a worn suit.
 */
export type WornLevelView = { 
/**
 * Key: `waist`.
 */
level: string, 
/**
 * Name.
 */
name: string, 
/**
 * Height, mm.
 */
height: number, 
/**
 * Whether the suit closes round the body there.
 */
closes: boolean, 
/**
 * Girth of the body.
 */
body: Quantity | null, 
/**
 * Width it is cut to.
 */
cut: Quantity | null, 
/**
 * Worn stretch around.
 */
around: Quantity, 
/**
 * Where that is on the ladder.
 */
at: number, 
/**
 * Between which nine tenths of the level lie.
 */
spread: [number, number], 
/**
 * The same in words: `9 to 18 %`.
 */
spread_says: string, 
/**
 * What the quick judgement said, and where that is.
 */
quick: [Quantity, number] | null, 
/**
 * Worn stretch lengthwise.
 */
lengthwise: Quantity, 
/**
 * Lengthwise of front and back, in words; empty where only one of them is there.
 */
front_back: string, 
/**
 * Mean pressure.
 */
squeeze: Quantity, 
/**
 * Worst of what was found at the level.
 */
state: State, };

/**
 * An open edge of a worn suit, on one piece.
 */
export type WornEdgeView = { 
/**
 * `Leg, back`.
 */
name: string, 
/**
 * How far it is stretched.
 */
stretch: Quantity, 
/**
 * Pull of its elastic.
 */
elastic: Quantity, 
/**
 * How far it stands off.
 */
off: Quantity, };

/**
 * Something found of a worn suit.
 */
export type WornFound = { 
/**
 * Its key among the findings of this result.
 */
key: string, 
/**
 * Good, doubtful, stop.
 */
state: State, 
/**
 * Where.
 */
place: string, 
/**
 * What, with its number.
 */
says: string, 
/**
 * The limit and where it comes from; empty without one.
 */
limit: string, 
/**
 * What to do; empty when good.
 */
next: string, 
/**
 * Where on the form: her left, up, forward, mm; none where it is no one place.
 */
at: [number, number, number] | null, 
/**
 * Draft parameters that act on it, to be tried together; empty where none is known.
 */
changes: Array<ChangedView>, };

/**
 * A drawing of a worn suit.
 */
export type WornDrawing = { 
/**
 * Its name in the address.
 */
key: string, 
/**
 * What it shows: `Squeeze`.
 */
shows: string, 
/**
 * From where: `From the front`.
 */
from: string, };

/**
 * A change of the draft with what it would do.
 */
export type ProposedView = { 
/**
 * `try` for one finding, `better` for a better draft as a whole.
 */
kind: string, 
/**
 * Key of the finding it was tried for.
 */
finding: string | null, 
/**
 * Whether it is of the draft in force; an older one's is not to be taken.
 */
is_current: boolean, 
/**
 * What came of it, in a sentence.
 */
lead: string, 
/**
 * Why there is nothing to take.
 */
why_not: string | null, 
/**
 * What would be set.
 */
changes: Array<ChangedView>, 
/**
 * The edit that takes it.
 */
sets: Array<Set>, 
/**
 * What the history calls it.
 */
words: string, 
/**
 * Numbers before and after.
 */
numbers: Array<ComparedView>, 
/**
 * Levels before and after, top to bottom.
 */
levels: Array<ComparedLevelView>, 
/**
 * Rails of the ladder, as shares of its width.
 */
rails: Array<RailView>, 
/**
 * What else is to be known of it, in sentences.
 */
notes: Array<string>, };

/**
 * A draft parameter and what it would be set to.
 */
export type ChangedView = { 
/**
 * `Sway back`.
 */
name: string, 
/**
 * As it is: `0 mm`; a word where it follows from a choice.
 */
from: string, 
/**
 * As it would be.
 */
to: string, };

/**
 * A number before and after.
 */
export type ComparedView = { 
/**
 * What: `Presses most`.
 */
name: string, 
/**
 * Before.
 */
before: Quantity, 
/**
 * After.
 */
after: Quantity, };

/**
 * A level before and after.
 */
export type ComparedLevelView = { 
/**
 * Key.
 */
level: string, 
/**
 * Name.
 */
name: string, 
/**
 * What the draft means around, and where that is.
 */
meant: [Quantity, number] | null, 
/**
 * Worn around, before and after.
 */
around: [Quantity, Quantity], 
/**
 * Where those are.
 */
at: [number, number], 
/**
 * Worn lengthwise, before and after.
 */
lengthwise: [Quantity, Quantity], };

/**
 * The lays of a suit.
 */
export type LayView = { 
/**
 * State, summary, notes.
 */
head: Head, 
/**
 * One leading sentence: which way the pieces point.
 */
lead: string, 
/**
 * The cloths.
 */
cloths: Array<LaidCloth>, 
/**
 * Rules that are chosen: which way tops point, the fold.
 */
choices: Array<Choice>, 
/**
 * Rules that are lengths: the gap, the margins.
 */
fields: Array<Field>, 
/**
 * The other suits, which may be laid with this one.
 */
with: Array<LaidWith>, };

/**
 * One cloth and its lay.
 */
export type LaidCloth = { 
/**
 * `shell`.
 */
layer: string, 
/**
 * Name of the cloth.
 */
name: string, 
/**
 * Id of its document; none when nothing is chosen.
 */
document: string | null, 
/**
 * Ground colour and weave, for the drawing.
 */
look: LookView, 
/**
 * Usable width; none when unknown.
 */
width: Quantity | null, 
/**
 * Which way it lies, in a sentence.
 */
lies: string, 
/**
 * Pieces to cut.
 */
pieces: Array<CutView>, 
/**
 * No length shorter than this can hold them: the greater of the longest piece and area over width.
 */
at_least: Quantity | null, 
/**
 * Stock, if she wrote it.
 */
stock: Quantity | null, 
/**
 * The lay in force; none when there is none.
 */
lay: LayInForce | null, 
/**
 * Why there is none.
 */
not_laid: string | null, 
/**
 * Flaws marked on this cloth.
 */
flaws: Array<FlawView>, 
/**
 * Pieces of this cloth at hand.
 */
at_hand: Array<AtHandView>, 
/**
 * The piece at hand it is laid on: `150 x 60 cm`; none when it is bought by the length.
 */
on: string | null, };

/**
 * One line of the cut list.
 */
export type CutView = { 
/**
 * Letter.
 */
letter: string, 
/**
 * Name.
 */
piece: string, 
/**
 * `2, a left and a right`.
 */
count: string, 
/**
 * Outline as it lies on the cloth, SVG path, along the selvedge to the right.
 */
outline: string, 
/**
 * Box around it.
 */
frame: Frame, 
/**
 * Length along the selvedge and width across.
 */
size: [Quantity, Quantity], };

/**
 * The lay in force of a cloth.
 */
export type LayInForce = { 
/**
 * `kept`, `old` (kept before something changed, and still good), `spoilt` (no longer good: a quick lay stands in), `quick`.
 */
standing: string, 
/**
 * The same as a sentence.
 */
says: string, 
/**
 * As it is drawn.
 */
drawing: LayDrawing, 
/**
 * From cut end to cut end.
 */
length: Quantity, 
/**
 * Share of the usable cloth that is pieces.
 */
usage: Quantity, 
/**
 * No lay of these pieces by these rules can be shorter.
 */
bound: Quantity, 
/**
 * What to ask for in the shop.
 */
buy: Quantity, 
/**
 * What that is made of, in a sentence.
 */
buy_says: string, 
/**
 * What it costs; empty without a price.
 */
price: string, 
/**
 * Whether it fits the piece it is laid on.
 */
fits: boolean, 
/**
 * How many pieces a hand placed.
 */
by_hand: number, 
/**
 * What is left, as entries of the cloth's pieces at hand.
 */
rest: Array<KeepView>, };

/**
 * A lay to be drawn.
 */
export type LayDrawing = { 
/**
 * The cloth as far as it is drawn.
 */
frame: Frame, 
/**
 * `single`, or with the fold at the left: `half`, `partial`.
 */
fold: string, 
/**
 * From the selvedge to the fold; a flaw drawn on the upper layer lies so much further from the selvedge. Of a partial fold it is also
 * how far the cloth lies double, to the right of the fold.
 */
fold_at: number, 
/**
 * Outline of an odd piece of cloth, SVG path; empty for one with two selvedges and square ends.
 */
remnant: string, 
/**
 * Whether the greater stretch runs from selvedge to selvedge.
 */
stretch_is_across: boolean, 
/**
 * Where the lay ends, down from the cut end, the end allowance included.
 */
end: number, 
/**
 * What may be used of the cloth.
 */
usable: Frame, 
/**
 * Marks along the left edge, every 10 cm or 4 in, with the words of every fifth.
 */
marks: Array<LayMark>, 
/**
 * Pieces, in the order of cutting.
 */
pieces: Array<LaidPiece>, 
/**
 * Flaws that are kept clear.
 */
flaws: Array<Frame>, 
/**
 * What is left whole.
 */
rest: Array<RestBox>, };

/**
 * A mark of the ruler beside the cloth.
 */
export type LayMark = { 
/**
 * Down from the cut end.
 */
at: number, 
/**
 * `50 cm`; empty for a short mark.
 */
words: string, };

/**
 * A piece on the cloth.
 */
export type LaidPiece = { 
/**
 * Key of the piece.
 */
piece: string, 
/**
 * Which of its copies.
 */
copy: number, 
/**
 * Letter on the page map.
 */
letter: string, 
/**
 * Name on paper.
 */
name: string, 
/**
 * `face down`, `on the fold`, `both layers`, `both layers, one to spare`, after the suit it is of where there are several; empty for a
 * plain one.
 */
note: string, 
/**
 * Place in the order of cutting, from 1.
 */
order: number, 
/**
 * Outline, SVG path.
 */
outline: string, 
/**
 * Box around it.
 */
frame: Frame, 
/**
 * Where its name stands.
 */
label: Spot, 
/**
 * Grain arrow, foot and head: the two chalk marks.
 */
grain: [Spot, Spot], 
/**
 * Greater-stretch arrow.
 */
stretch: [Spot, Spot], 
/**
 * Foot of the grain arrow from the cut end and from the selvedge, then its head.
 */
chalk: [Quantity, Quantity, Quantity, Quantity], 
/**
 * A hand placed it; packing goes around it.
 */
by_hand: boolean, 
/**
 * Whether it may lie another way too.
 */
can_turn: boolean, };

/**
 * A rectangle that is left whole.
 */
export type RestBox = { 
/**
 * Its place.
 */
frame: Frame, 
/**
 * `58 x 56 cm`.
 */
words: string, };

/**
 * A lay on its way, as a running job shows it.
 */
export type LayNow = { 
/**
 * Layer.
 */
layer: string, 
/**
 * As it is drawn.
 */
drawing: LayDrawing, 
/**
 * From cut end to cut end.
 */
length: Quantity, 
/**
 * Share of the usable cloth that is pieces.
 */
usage: Quantity, 
/**
 * No lay can be shorter.
 */
bound: Quantity, };

/**
 * A flaw marked on a cloth.
 */
export type FlawView = { 
/**
 * `30 cm from the cut end, 12 cm from the selvedge: 4 x 5 cm`.
 */
words: string, };

/**
 * A piece of cloth at hand.
 */
export type AtHandView = { 
/**
 * `150 x 60 cm`.
 */
words: string, 
/**
 * Where it is from; empty when not said.
 */
from: string, 
/**
 * What to write to the suit to lay on it, as JSON.
 */
value: unknown, 
/**
 * Whether it is laid on now.
 */
is_chosen: boolean, };

/**
 * A rest that may be kept.
 */
export type KeepView = { 
/**
 * `58 x 56 cm`.
 */
words: string, 
/**
 * The entry to add to the cloth's pieces at hand.
 */
value: unknown, };

/**
 * Which of the maker's cloths can make it.
 */
export type FitsView = { 
/**
 * One sentence.
 */
says: string, 
/**
 * Every piece of every cloth of the right use, the suit's own cloth first.
 */
rows: Array<CanMakeView>, };

/**
 * One piece of one cloth.
 */
export type CanMakeView = { 
/**
 * Name of the cloth.
 */
cloth: string, 
/**
 * `150 x 60 cm`; empty where nothing is written of it.
 */
piece: string, 
/**
 * Where it is from; empty when not said.
 */
from: string, 
/**
 * Whether it will do.
 */
state: State, 
/**
 * The same in a word: `enough`, `not enough`, `not compared`.
 */
word: string, 
/**
 * What came of it.
 */
says: string, 
/**
 * Which single change would make it do; empty when none is needed or known.
 */
change: string, 
/**
 * What is to be known besides: that the suit is drafted anew for it, and what stops in it. Empty for nothing.
 */
besides: string, 
/**
 * What to write to lay on it; empty where it cannot be laid on.
 */
choose: Array<Set>, 
/**
 * Whether it is laid on now.
 */
is_chosen: boolean, };

/**
 * Another suit that may be laid with this one.
 */
export type LaidWith = { 
/**
 * Its name.
 */
name: string, 
/**
 * Whether it is laid with it.
 */
is_in: boolean, 
/**
 * Which of its cloths join, or why none does; empty while it is not chosen.
 */
says: string, 
/**
 * What to write to change that.
 */
set: Set, };

/**
 * The workroom, worked out.
 */
export type RoomView = { 
/**
 * What the suits are planned for: `Planned for your zigzag machine and four-thread overlocker.`
 */
says: string, 
/**
 * Whether no machine is written down, so that a zigzag machine is taken.
 */
is_assumed: boolean, 
/**
 * Machines to add as they are sold.
 */
machines: Array<MachineStart>, 
/**
 * What was measured, by sample and elastic.
 */
tests: Array<TestView>, 
/**
 * What cannot be read, and where.
 */
faults: Array<RoomFaultView>, };

/**
 * A machine to begin with.
 */
export type MachineStart = { 
/**
 * Its usual name.
 */
name: string, 
/**
 * As it goes into the workroom's list.
 */
body: unknown, };

/**
 * A sample or an elastic that was pulled.
 */
export type TestView = { 
/**
 * Id of its document.
 */
id: string, 
/**
 * How far it goes; none while a length is missing or wrong.
 */
extension: Quantity | null, 
/**
 * It may go further: nothing popped.
 */
is_at_least: boolean, 
/**
 * Why that far.
 */
extension_why: Why | null, 
/**
 * How much longer it stayed; none if that was not measured.
 */
growth: Quantity | null, 
/**
 * Why that much.
 */
growth_why: Why | null, };

/**
 * Something that cannot be read.
 */
export type RoomFaultView = { 
/**
 * Id of the document.
 */
document: string, 
/**
 * Path in it; the list for what stands in one.
 */
path: string, 
/**
 * Which of the list, from 0; none for a field.
 */
index: number | null, 
/**
 * Whether it is only missing.
 */
is_missing: boolean, 
/**
 * What is wrong.
 */
says: string, 
/**
 * What to do.
 */
next: string, };

/**
 * A scrap of a plan as a sample to begin with.
 */
export type ScrapStart = { 
/**
 * What to do.
 */
says: string, 
/**
 * The page to write it down on: `/samples`, or that of the elastic or the cloth.
 */
href: string, 
/**
 * The sample's first body; null where it is written down on another page.
 */
body: unknown, };

/**
 * The shopping list and the quote of a suit.
 */
export type ShoppingView = { 
/**
 * Id of the suit.
 */
id: string, 
/**
 * Its name.
 */
suit: string, 
/**
 * Whom it is for.
 */
wearer: string, 
/**
 * Its version id; empty before it is drafted.
 */
version: string, 
/**
 * State, summary, notes.
 */
head: Head, 
/**
 * What to buy.
 */
list: ShoppingSheet, };

/**
 * The list itself, in words.
 */
export type ShoppingSheet = { 
/**
 * `No machine written down: planned for a zigzag machine.`; empty where the machines are hers.
 */
assumed: string, 
/**
 * What to buy, line by line.
 */
lines: Array<BuyLineView>, 
/**
 * Thread by place: which spools and loopers it fills.
 */
threads: Array<string>, 
/**
 * What all of it costs; none while a line to buy has no price.
 */
total: string | null, 
/**
 * Lines to buy that have no price.
 */
unpriced: Array<string>, 
/**
 * The quote, once an hour has its price.
 */
quote: QuoteView | null, };

/**
 * One line of the list.
 */
export type BuyLineView = { 
/**
 * What it is: `Thread: spun polyester, Tex 27`.
 */
what: string, 
/**
 * What it rests on, a sentence each.
 */
notes: Array<string>, 
/**
 * What the suit takes.
 */
needed: Quantity, 
/**
 * What of it is in stock; none when nothing is.
 */
in_stock: Quantity | null, 
/**
 * To buy, as it is sold; none when nothing is.
 */
to_buy: Quantity | null, 
/**
 * Whole packs, where it is sold so.
 */
packs: number | null, 
/**
 * What that costs; none without a price, or where nothing is to buy.
 */
cost: string | null, };

/**
 * The quote.
 */
export type QuoteView = { 
/**
 * Cloth, notions, hours, labour, margin.
 */
rows: Array<QuoteRow>, 
/**
 * All together, from and to.
 */
total: string, 
/**
 * What is not in it: lines without a price, a sentence; empty when it is complete.
 */
missing: string, };

/**
 * One line of the quote.
 */
export type QuoteRow = { 
/**
 * Name.
 */
name: string, 
/**
 * Amount.
 */
value: string, };

/**
 * What there is to sew.
 */
export type SewView = { 
/**
 * State, summary, notes.
 */
head: Head, 
/**
 * The order of work.
 */
steps: Array<StepView>, 
/**
 * Index of the step at hand; none when all is done.
 */
now: number | null, 
/**
 * How long all of it takes: `5¼–11 h in all: common practice, …`.
 */
time: string, 
/**
 * Which stretches the stitches are chosen for: those of the suit solved on its form, or those the draft means. One sentence.
 */
rests_on: string, 
/**
 * Whether they are the solved ones.
 */
is_worn_solved: boolean, 
/**
 * Scraps to sew and try first.
 */
scraps: Array<ScrapView>, 
/**
 * The stitches, one for each job and setting.
 */
stitches: Array<StitchView>, 
/**
 * What cannot be sewn safely with these machines, and what could be done; empty when all can.
 */
cannot: Array<string>, 
/**
 * The elastic of each edge, drawn flat.
 */
edges: Array<EdgeView>, 
/**
 * Elastic to buy.
 */
to_buy: Array<BuyView>, };

/**
 * One edge and its elastic.
 */
export type EdgeView = { 
/**
 * Key: `leg`; `waist-2` for the second of a name.
 */
key: string, 
/**
 * Title: `Leg, twice`.
 */
name: string, 
/**
 * Arcs in sewing order.
 */
arcs: Array<ArcView>, 
/**
 * What to cut, overlap included.
 */
cut: Quantity, 
/**
 * The overlap.
 */
overlap: Quantity, 
/**
 * `Cut 53.1 cm, twice: 51.9 and 1.2 to overlap. Braided rubber, 8 mm.`
 */
says: string, 
/**
 * How its ends are joined, or that they are not.
 */
join: string, 
/**
 * What to mind of this elastic: latex, narrowing, chlorine, how far it works.
 */
about: Array<string>, 
/**
 * Worn stretch, pull, pressure.
 */
worn: Array<SettingView>, 
/**
 * That the figures are relative, where the force was not measured; empty otherwise.
 */
relative: string, 
/**
 * Whether the ring passes what it must; none for an edge that is no ring or passes nothing.
 */
ring: RingPassView | null, 
/**
 * What was judged of it.
 */
notes: Array<Note>, 
/**
 * How it stands.
 */
state: State, };

/**
 * One arc.
 */
export type ArcView = { 
/**
 * Name: `back`.
 */
name: string, 
/**
 * Letter of the mark at its start; `f′` where the edge meets mark f a second time, on the other side.
 */
letter: string, 
/**
 * Along the edge.
 */
edge: Quantity, 
/**
 * Of elastic.
 */
elastic: Quantity, 
/**
 * `flat` or `x 0.80`.
 */
ratio: Quantity, 
/**
 * Where its mark stands on the edge, from the first.
 */
edge_mark: Quantity, 
/**
 * Where its mark stands on the elastic, from the first, the overlap not counted.
 */
elastic_mark: Quantity, 
/**
 * Edge length in mm, for the drawing.
 */
edge_mm: number, 
/**
 * Elastic length in mm, for the drawing.
 */
elastic_mm: number, };

/**
 * Elastic to buy.
 */
export type BuyView = { 
/**
 * Kind and width.
 */
what: string, 
/**
 * What is needed: what the suit takes, with trimming and a test.
 */
needed: Quantity, 
/**
 * What is in stock, if written.
 */
in_hand: Quantity | null, 
/**
 * What of the needed is not in hand.
 */
to_buy: Quantity, };

/**
 * A ring of elastic against the girth that passes it.
 */
export type RingPassView = { 
/**
 * One sentence.
 */
says: string, 
/**
 * Good, doubtful or stop.
 */
state: State, };

/**
 * Something to do, with its tick.
 */
export type StepView = { 
/**
 * Stable id, the path under `sewn` of the suit.
 */
id: string, 
/**
 * Part of the work: `Join the shell`.
 */
phase: string, 
/**
 * Machine it is done on, by the maker's name for it; empty by hand.
 */
machine: string, 
/**
 * Whether a needle sews in it.
 */
is_sewn: boolean, 
/**
 * What to do.
 */
title: string, 
/**
 * How: one or two sentences.
 */
says: string, 
/**
 * What else to mind, pressing last.
 */
notes: Array<string>, 
/**
 * `6–13 min, practice`.
 */
minutes: string, 
/**
 * Which side lies up under the needle; empty where no needle sews.
 */
side: string, 
/**
 * Class of seam: `Class 1: superimposed seam`; empty where nothing is sewn.
 */
seam_class: string, 
/**
 * Settings and measures, the most needed first: the bench shows four.
 */
settings: Array<SettingView>, 
/**
 * Place of its stitch in the stitches.
 */
stitch: number | null, 
/**
 * Pieces in hand, in the order they are drawn.
 */
hands: Array<HandView>, 
/**
 * The drawing in a sentence; or why there is none.
 */
drawing: string, 
/**
 * Keys of the edges whose rulers belong to it.
 */
edges: Array<string>, 
/**
 * It cannot be sewn safely with these machines: that, and what could be done. Empty otherwise.
 */
stop: Array<string>, 
/**
 * Cautions, where they belong.
 */
cautions: Array<string>, 
/**
 * Done.
 */
done: boolean, };

/**
 * A piece of a step's drawing.
 */
export type HandView = { 
/**
 * Key of the piece.
 */
piece: string, 
/**
 * Its name.
 */
name: string, 
/**
 * Names of its edges that are sewn in this step.
 */
sewn: Array<string>, 
/**
 * Names of its edges that are handled: basted, turned, but sewn elsewhere.
 */
handled: Array<string>, 
/**
 * Whether its wrong side lies up.
 */
is_wrong_side_up: boolean, };

/**
 * A setting or measure of a step.
 */
export type SettingView = { 
/**
 * Name.
 */
name: string, 
/**
 * Value.
 */
value: Quantity, 
/**
 * More of it, small: point of the needle, rows; empty where there is none.
 */
note: string, };

/**
 * The stitch of a job.
 */
export type StitchView = { 
/**
 * Job: `Joining seams`.
 */
job: string, 
/**
 * Steps it is sewn in: `steps 12, 14`.
 */
steps: string, 
/**
 * Class of seam.
 */
seam_class: string, 
/**
 * Stitch: `three-step zigzag`.
 */
stitch: string, 
/**
 * `ISO 4915-304`, where the number is trusted; else empty.
 */
number: string, 
/**
 * Machine.
 */
machine: string, 
/**
 * `5.0 × 1.3`, mm.
 */
setting: Quantity, 
/**
 * Rows side by side: `two rows`; empty for one.
 */
rows: string, 
/**
 * Needle: `75, ball point`.
 */
needle: string, 
/**
 * Thread: `spun polyester; below textured polyester`.
 */
thread: string, 
/**
 * Tension, and what else to set: foot, feed, knife.
 */
also: Array<string>, 
/**
 * What is asked along it; none where nothing is stretched.
 */
asked: Quantity | null, 
/**
 * `worn 12 %, movement 20 %, way in 40 %`; empty where nothing is stretched.
 */
need: string, 
/**
 * How far it reaches; none where nothing is stretched.
 */
reaches: Quantity | null, 
/**
 * What that rests on: `forecast from its settings`.
 */
evidence: string, 
/**
 * Good when a sample shows it or nothing is stretched, estimate by forecast, stop when it is not safe.
 */
state: State, 
/**
 * Why this one.
 */
why: Array<string>, 
/**
 * What was considered next, and why not; empty when nothing was.
 */
runner_up: string, 
/**
 * When it is not safe: what could be sewn instead, with what.
 */
could: Array<string>, };

/**
 * A scrap to sew and try.
 */
export type ScrapView = { 
/**
 * Its place among the scraps of the plan: the sample book begins with it by that.
 */
place: number, 
/**
 * What to do.
 */
says: string, 
/**
 * Marks on it, relaxed.
 */
marks: Quantity, 
/**
 * How far to pull them; none where nothing is pulled.
 */
pull_to: Quantity | null, 
/**
 * Whether the sample book has it.
 */
done: boolean, };

/**
 * The paper of a suit.
 */
export type PaperView = { 
/**
 * State, summary, notes.
 */
head: Head, 
/**
 * Paper, whole pieces or halves.
 */
choices: Array<Choice>, 
/**
 * The printed square as measured, across and down; what the printer leaves white.
 */
fields: Array<Field>, 
/**
 * The page map of the chosen paper.
 */
map: PageMap | null, 
/**
 * What can be taken away.
 */
files: Array<FileView>, };

/**
 * Outlines over tiles.
 */
export type PageMap = { 
/**
 * Whole sheet, mm.
 */
frame: Frame, 
/**
 * Every tile of the grid, printed or blank.
 */
tiles: Array<TileView>, 
/**
 * Outlines with letters.
 */
outlines: Array<OutlineView>, 
/**
 * Pages printed, blank ones left out.
 */
pages: number, 
/**
 * Blank tiles left out.
 */
blank: number, };

/**
 * One tile.
 */
export type TileView = { 
/**
 * `A1`.
 */
code: string, 
/**
 * Row letter.
 */
row: string, 
/**
 * Column number.
 */
column: string, 
/**
 * Its place.
 */
frame: Frame, 
/**
 * Whether it is printed.
 */
is_printed: boolean, };

/**
 * One outline on the map.
 */
export type OutlineView = { 
/**
 * Letter.
 */
letter: string, 
/**
 * SVG path.
 */
path: string, 
/**
 * Where the letter stands.
 */
at: Spot, };

/**
 * A file to take away.
 */
export type FileView = { 
/**
 * Name it is saved under.
 */
name: string, 
/**
 * What it is, verb first or plain: `Pattern, A4`.
 */
label: string, 
/**
 * One line.
 */
says: string, 
/**
 * Where it is fetched.
 */
href: string, 
/**
 * Whether it is the one to begin with.
 */
is_first: boolean, };

/**
 * The try-ons of a suit.
 */
export type TryOnView = { 
/**
 * State, summary, notes.
 */
head: Head, 
/**
 * Version in work.
 */
version: number, 
/**
 * Versions kept, the newest first.
 */
versions: Array<VersionView>, 
/**
 * Try-ons, the newest first.
 */
try_ons: Array<TryOnEntry>, 
/**
 * Corrections that can be made of a note, by draft parameter.
 */
corrections: Array<CorrectionView>, 
/**
 * What she may say, in the trade's words, with what to change for each.
 */
complaints: Array<ComplaintView>, 
/**
 * Whether photos may be kept: not for a wearer under 18.
 */
photos_allowed: boolean, 
/**
 * Name of a minor's carer; empty for an adult.
 */
carer: string, 
/**
 * What to try: sit, reach, bend, then wet.
 */
how: string, 
/**
 * Pieces of kept versions and the one in work, over one another.
 */
overlay: Array<OverlayView>, 
/**
 * What measures otherwise on the finished suit than on the version kept last.
 */
differences: Array<DifferenceView>, };

/**
 * A version that was cut.
 */
export type VersionView = { 
/**
 * Number.
 */
number: number, 
/**
 * Kept on.
 */
kept_on: string, 
/**
 * Id printed on its paper.
 */
version_id: string, 
/**
 * What changed since the one before, in sentences.
 */
changed: Array<string>, };

/**
 * One try-on.
 */
export type TryOnEntry = { 
/**
 * Id, the path under `try_ons` of the suit.
 */
id: string, 
/**
 * Which version was worn.
 */
version: number, 
/**
 * Date.
 */
on: string, 
/**
 * What she said, one line each.
 */
said: Array<string>, 
/**
 * What we did, in sentences.
 */
did: Array<string>, 
/**
 * Photos: ids.
 */
photos: Array<string>, };

/**
 * One thing she may say.
 */
export type ComplaintView = { 
/**
 * In her words: `Rides up at the back`.
 */
says: string, 
/**
 * What to do about it, the likeliest first.
 */
remedies: Array<RemedyView>, };

/**
 * A measure of the finished suit that is another than before.
 */
export type DifferenceView = { 
/**
 * What is measured: `side seam, leg to underarm`.
 */
name: string, 
/**
 * On the version kept last.
 */
was: Quantity, 
/**
 * On the one in work.
 */
now: Quantity, 
/**
 * The difference in words: `8 mm longer`.
 */
by: string, };

/**
 * A draft parameter that a try-on may correct.
 */
export type CorrectionView = { 
/**
 * Key: `strap_width`.
 */
key: string, 
/**
 * `Strap`.
 */
label: string, 
/**
 * Value now.
 */
now: Quantity, 
/**
 * Ready proposals: `narrower by 4 mm`, `wider by 4 mm`.
 */
proposals: Array<Proposal>, };

/**
 * One thing to do.
 */
export type RemedyView = { 
/**
 * What: `Straps 8 mm wider`.
 */
says: string, 
/**
 * Why, in a sentence.
 */
because: string, 
/**
 * The edit; empty for what is done by hand on the suit that is there.
 */
changes: Array<Set>, };

/**
 * Outlines of one piece, version over version.
 */
export type OverlayView = { 
/**
 * `Front`, `Back`.
 */
piece: string, 
/**
 * Box around all.
 */
frame: Frame, 
/**
 * One path a version, the oldest first: version and path.
 */
lines: Array<OverlayLine>, };

/**
 * One version's outline.
 */
export type OverlayLine = { 
/**
 * Number of the version.
 */
version: number, 
/**
 * Whether it is the one in work.
 */
is_now: boolean, 
/**
 * SVG path of the seam line.
 */
path: string, };

/**
 * What the first page shows.
 */
export type HomeView = { 
/**
 * Two sentences on how the work stands.
 */
lead: string, 
/**
 * Whether the example workroom is in.
 */
has_example: boolean, 
/**
 * Suits, the newest first.
 */
suits: Array<SuitCard>, 
/**
 * Wearers.
 */
wearers: Array<ShelfLine>, 
/**
 * Cloths.
 */
cloths: Array<ClothCard>, 
/**
 * Elastics.
 */
elastics: Array<ShelfLine>, 
/**
 * Sample book, drawer, workroom, classes.
 */
shelf: Array<ShelfLine>, };

/**
 * A suit on the line.
 */
export type SuitCard = { 
/**
 * Id.
 */
id: string, 
/**
 * Number of the order.
 */
number: number, 
/**
 * Name.
 */
name: string, 
/**
 * Wearer; empty when none is chosen.
 */
wearer: string, 
/**
 * What it is: `One-piece, racer back, lined. Slate tricot.`
 */
about: string, 
/**
 * Worst state and what is next.
 */
state: State, 
/**
 * `doubtful: waist`.
 */
says: string, 
/**
 * Its own drafted pieces as a silhouette; none while nothing can be drafted.
 */
silhouette: Silhouette | null, 
/**
 * Words a search finds it by, lower case.
 */
words: string, };

/**
 * A suit as it hangs.
 */
export type Silhouette = { 
/**
 * Box.
 */
frame: Frame, 
/**
 * Back parts first.
 */
parts: Array<SilhouettePart>, 
/**
 * Where pegs hold it: x of each, at the top.
 */
pegs: Array<number>, };

/**
 * One part of a silhouette.
 */
export type SilhouettePart = { 
/**
 * SVG path, mm, y down.
 */
path: string, 
/**
 * How it is filled.
 */
look: LookView, 
/**
 * Inside of the back, seen through the openings: drawn in the lining's look.
 */
is_inside: boolean, };

/**
 * A cloth on the shelf.
 */
export type ClothCard = { 
/**
 * Id.
 */
id: string, 
/**
 * Name.
 */
name: string, 
/**
 * `Shell. 95 % across, 70 % along. 150 cm wide, 2.4 m left.`
 */
about: string, 
/**
 * How it is drawn.
 */
look: LookView, 
/**
 * Stretch across and along as ratios, for the stretch cross; none when not tested.
 */
cross: [number, number] | null, 
/**
 * How it stands.
 */
state: State, 
/**
 * Words a search finds it by, lower case.
 */
words: string, };

/**
 * A line of the register.
 */
export type ShelfLine = { 
/**
 * Id; a shelf's own name for the shelves: `samples`, `drawer`, `workroom`, `classes`, `ranges`.
 */
id: string, 
/**
 * Name.
 */
name: string, 
/**
 * One line about it.
 */
about: string, 
/**
 * How it stands.
 */
state: State, 
/**
 * What to do, or that all is well.
 */
says: string, 
/**
 * Words a search finds it by, lower case.
 */
words: string, };

/**
 * One thing of the drawer as its page asks for it.
 */
export type DrawerView = { 
/**
 * The document with the revision shown.
 */
item: Stamp, 
/**
 * What she calls it.
 */
name: string, 
/**
 * `suit` or `pattern`.
 */
of: string, 
/**
 * Her unit.
 */
units: string, 
/**
 * What "Back one" would undo.
 */
back: string | null, 
/**
 * What "Forward" would do again.
 */
forward: string | null, 
/**
 * What it is and whom it is for.
 */
what: Head, 
/**
 * Words to choose: shapes of a suit, how a pattern was measured and how tight it is to be.
 */
choices: Array<Choice>, 
/**
 * Wearers there are.
 */
wearers: Array<Named>, 
/**
 * Whom it fits, or is to fit.
 */
wearer: string | null, 
/**
 * The measures.
 */
measuring: Head, 
/**
 * All measures, in the order they are best taken.
 */
measures: Array<DrawerMeasure>, 
/**
 * Key of the one to take now; none when all that is asked for is there.
 */
now: string | null, 
/**
 * What lies on the table.
 */
sides: Array<DrawnSide>, 
/**
 * Where the tape goes for each measure.
 */
tapes: Array<DrawerTape>, 
/**
 * The cloths.
 */
cloth: Head, 
/**
 * Cloths there are.
 */
cloths: Array<Named>, 
/**
 * Cloth of the suit as it is; none for a pattern.
 */
old: DrawerCloth | null, 
/**
 * Cloth of what is to be sewn.
 */
new: DrawerCloth, 
/**
 * Other sizes of the envelope; empty for a suit.
 */
sizes: Array<DrawerSize>, 
/**
 * The stretch the envelope asks, as typed.
 */
stretch_asked: string, 
/**
 * The size the measures were taken on, as typed.
 */
size: string, 
/**
 * What still keeps the result from being worked out, a sentence each.
 */
waits_for: Array<string>, };

/**
 * One measure of a suit or pattern.
 */
export type DrawerMeasure = { 
/**
 * Key: `across_waist`.
 */
key: string, 
/**
 * Where it is kept in the document.
 */
path: string, 
/**
 * Name in a sentence.
 */
name: string, 
/**
 * How the tape is laid.
 */
how: string, 
/**
 * Whether it is asked for; the others sharpen the answer.
 */
is_asked: boolean, 
/**
 * As she typed it; empty when it is not taken.
 */
typed: string, 
/**
 * The same read; none when it is not taken or cannot be read.
 */
quantity: Quantity | null, 
/**
 * What is wrong with it.
 */
problem: Note | null, };

/**
 * A cloth of the drawer: a swatch of the workroom, or a stretch typed by hand.
 */
export type DrawerCloth = { 
/**
 * Where it is kept in the document: `old`, `new`.
 */
path: string, 
/**
 * `swatch` or `typed`.
 */
from: string, 
/**
 * Id of the swatch.
 */
swatch: string | null, 
/**
 * Stretch around as typed.
 */
around: string, 
/**
 * Stretch lengthwise as typed.
 */
lengthwise: string, 
/**
 * What is known of it, in a sentence.
 */
says: string, 
/**
 * What is missing or wrong with it.
 */
notes: Array<Note>, };

/**
 * Another size of the envelope.
 */
export type DrawerSize = { 
/**
 * Its key in the document.
 */
key: string, 
/**
 * What the envelope calls it.
 */
name: string, 
/**
 * Its widths.
 */
measures: Array<DrawerMeasure>, };

/**
 * Where the tape goes.
 */
export type DrawerTape = { 
/**
 * Key of the measure.
 */
measure: string, 
/**
 * Key of the side it lies on.
 */
side: string, 
/**
 * SVG path of the tape.
 */
path: string, 
/**
 * Where it goes on behind.
 */
behind: string, 
/**
 * A level it is read at, dotted.
 */
level: string, };

/**
 * One thing drawn: the front of a suit, half a back.
 */
export type DrawnSide = { 
/**
 * `front`, `back`.
 */
key: string, 
/**
 * Its name.
 */
name: string, 
/**
 * The box of all of it.
 */
frame: Frame, 
/**
 * What shows behind it.
 */
behind: string | null, 
/**
 * Its outline, filled as paper.
 */
paper: string, 
/**
 * Lines on it.
 */
lines: Array<DrawnPath>, 
/**
 * Words on it.
 */
words: Array<DrawnWords>, };

/**
 * A line of a drawing.
 */
export type DrawnPath = { 
/**
 * `cut`, `seam`, `fold`, `level`, `measured`, `doubtful`, `next`, `change`, `slash`.
 */
kind: string, 
/**
 * SVG path.
 */
path: string, };

/**
 * Words of a drawing.
 */
export type DrawnWords = { 
/**
 * Where.
 */
at: Spot, 
/**
 * `start`, `middle` or `end`: what of them stands there.
 */
anchor: string, 
/**
 * The words.
 */
says: string, 
/**
 * As of the line they belong to.
 */
kind: string, };

/**
 * A copied suit, or why there is none.
 */
export type CopyView = { 
/**
 * State, summary, notes.
 */
head: Head, 
/**
 * The suit that was found; none when it could not be.
 */
copy: CopiedSuit | null, };

/**
 * A suit found from its flat measures.
 */
export type CopiedSuit = { 
/**
 * The suit that was found in ink, what was measured on it as bars, the new one in dots.
 */
sides: Array<DrawnSide>, 
/**
 * Name of the old cloth.
 */
old_cloth: string, 
/**
 * Name of the new cloth.
 */
new_cloth: string, 
/**
 * Shares of the stretch used, around and lengthwise.
 */
shares: Array<FoundLine>, 
/**
 * Worn stretch by place, in both cloths.
 */
ease: Array<EaseLine>, 
/**
 * What was found of the design.
 */
found: Array<FoundLine>, 
/**
 * How each measure is met.
 */
measures: Array<MetLine>, 
/**
 * Measures that contradict the others, the likeliest first; empty when all agree.
 */
suspects: Array<SuspectLine>, 
/**
 * Measures no other checks.
 */
unchecked: Array<string>, 
/**
 * Whether the suit can be made of it: nothing contradicts.
 */
can_make: boolean, };

/**
 * One thing that was found, and why.
 */
export type FoundLine = { 
/**
 * Name.
 */
name: string, 
/**
 * Value.
 */
value: Quantity, 
/**
 * How sure it is: `give or take 2 mm`.
 */
sure: string, 
/**
 * Why.
 */
why: Why, };

/**
 * Worn stretch at a place in both cloths.
 */
export type EaseLine = { 
/**
 * Place: `waist`, `lengthwise`.
 */
place: string, 
/**
 * In the old cloth.
 */
old: Quantity, 
/**
 * In the new one.
 */
new: Quantity, 
/**
 * Why it is not the plain proportion; empty when it is.
 */
says: string, 
/**
 * Why.
 */
why: Why, };

/**
 * How a measure is met.
 */
export type MetLine = { 
/**
 * Key of the measure.
 */
key: string, 
/**
 * Name.
 */
name: string, 
/**
 * As measured.
 */
taken: Quantity, 
/**
 * On the suit that was found.
 */
found: Quantity, 
/**
 * The difference, signed.
 */
off: Quantity, 
/**
 * Where the bar of the chart ends: -1 to 1, ±1 at four times what the reading varies by.
 */
bar: number, 
/**
 * How it stands: `good`, `doubtful`, `left_out`, `unchecked`.
 */
stands: string, 
/**
 * In words.
 */
says: string, 
/**
 * Why.
 */
why: Why, };

/**
 * A measure that may be wrong.
 */
export type SuspectLine = { 
/**
 * Key of the measure.
 */
key: string, 
/**
 * Name.
 */
name: string, 
/**
 * As measured.
 */
taken: Quantity, 
/**
 * What the others ask of it.
 */
needs: Quantity, 
/**
 * `Measure the waist again: it would need 31.0 cm.`
 */
says: string, 
/**
 * How it is taken.
 */
how: string, 
/**
 * Whether it was left out of the copy.
 */
is_left_out: boolean, };

/**
 * A change sheet, or why there is none.
 */
export type SheetView = { 
/**
 * State, summary, notes.
 */
head: Head, 
/**
 * The sheet; none when it could not be made.
 */
sheet: ChangeSheetView | null, };

/**
 * How a bought pattern is changed.
 */
export type ChangeSheetView = { 
/**
 * `adapt`, `another_size`, `redraft`.
 */
verdict: string, 
/**
 * The verdict in a sentence.
 */
says: string, 
/**
 * What to do about it; empty when there is nothing.
 */
next: string, 
/**
 * Name and size of the pattern.
 */
pattern: string, 
/**
 * Whom it is for.
 */
wearer: string, 
/**
 * Of what.
 */
cloth: string, 
/**
 * Half front and half back with the lines of change.
 */
sides: Array<DrawnSide>, 
/**
 * Changes of width.
 */
widths: Array<ChangeLine>, 
/**
 * Changes of length.
 */
lengths: Array<ChangeLine>, 
/**
 * Torso loop, front waist length, crotch length: paper against body.
 */
needs: Array<ChangeLine>, 
/**
 * What each other size would need.
 */
sizes: Array<SizeLine>, 
/**
 * What the cloth's stretch means for it.
 */
stretch: StretchLine | null, 
/**
 * What to true afterwards, in order.
 */
truing: Array<TrueLine>, };

/**
 * One change of the paper.
 */
export type ChangeLine = { 
/**
 * Level or line: `bust`, `L2`.
 */
name: string, 
/**
 * Where it is made, in words.
 */
place: string, 
/**
 * On the paper, if it was measured.
 */
paper: Quantity | null, 
/**
 * As it should be.
 */
wanted: Quantity | null, 
/**
 * The change, signed: of a quarter, or of the front on a line.
 */
change: Quantity, 
/**
 * On the back, where it differs in kind: the back's change on a line.
 */
back: Quantity | null, 
/**
 * Whether it is more than an adaptation.
 */
is_over: boolean, 
/**
 * Why.
 */
why: Why, };

/**
 * What another size would need.
 */
export type SizeLine = { 
/**
 * Its name.
 */
name: string, 
/**
 * `bust +2 mm, waist -1 mm`: each quarter.
 */
says: string, 
/**
 * Whether every change is small enough.
 */
is_within: boolean, };

/**
 * The envelope's stretch against the cloth's.
 */
export type StretchLine = { 
/**
 * What the envelope asks.
 */
asked: Quantity, 
/**
 * What the cloth has around.
 */
cloth: Quantity, 
/**
 * What that means, in a sentence.
 */
says: string, 
/**
 * Each level of the unchanged paper: `bust: 24 % worn, 28 % of what the cloth has`.
 */
levels: Array<string>, };

/**
 * One thing to true.
 */
export type TrueLine = { 
/**
 * Where.
 */
place: string, 
/**
 * What to do.
 */
what: string, };

/**
 * A class, worked out.
 */
export type ClassView = { 
/**
 * How it stands.
 */
state: State, 
/**
 * One sentence.
 */
summary: string, 
/**
 * What the room has: a sentence.
 */
room: string, 
/**
 * Everyone who takes part.
 */
people: Array<ClassPersonView>, 
/**
 * How the timetable came about, or why there is none: a sentence each.
 */
says: Array<string>, 
/**
 * The sessions.
 */
sessions: Array<ClassSessionView>, 
/**
 * How all kits of each cloth lie together.
 */
cloth: ClassClothView, 
/**
 * The shopping list.
 */
shopping: Array<ClassBuyView>, };

/**
 * Someone who takes part.
 */
export type ClassPersonView = { 
/**
 * Her name.
 */
name: string, 
/**
 * Her letter in the timetable; empty if she cannot sew yet.
 */
letter: string, 
/**
 * How her suit stands.
 */
state: State, 
/**
 * Why it cannot be drafted, or what must stop: a sentence each.
 */
says: Array<string>, 
/**
 * Time of her work in class: `6 h 40 min`.
 */
works: string, 
/**
 * Time she waits for a machine.
 */
waits: string, };

/**
 * One session.
 */
export type ClassSessionView = { 
/**
 * `Session 1`.
 */
name: string, 
/**
 * Marks of its hours.
 */
hours: Array<ClassHourView>, 
/**
 * A row a machine.
 */
machines: Array<ClassRowView>, 
/**
 * A row a person.
 */
people: Array<ClassRowView>, };

/**
 * A mark of an hour.
 */
export type ClassHourView = { 
/**
 * Where, as a share of the session.
 */
at: number, 
/**
 * `1:00`.
 */
says: string, };

/**
 * A row of bars.
 */
export type ClassRowView = { 
/**
 * Whose: a machine or a person.
 */
name: string, 
/**
 * Its bars.
 */
bars: Array<ClassBarView>, };

/**
 * A bar.
 */
export type ClassBarView = { 
/**
 * Where it begins, as a share of the session.
 */
at: number, 
/**
 * How wide it is, as a share of the session.
 */
wide: number, 
/**
 * Place of the person among those who sew: tells bars apart.
 */
person: number, 
/**
 * Written in it where there is room, long and short.
 */
label: string, 
/**
 * The short one.
 */
short: string, 
/**
 * All of it, for a reader that does not see it: `0:10 to 0:25, Tove: side seams`.
 */
says: string, 
/**
 * At a machine, not by hand.
 */
is_sewn: boolean, };

/**
 * One line of the shopping list.
 */
export type ClassBuyView = { 
/**
 * What.
 */
what: string, 
/**
 * What everybody together needs.
 */
needed: string, 
/**
 * What to buy.
 */
buy: string, 
/**
 * Who has which share.
 */
shares: string, 
/**
 * What it rests on.
 */
note: string, };

/**
 * The cloth of a class.
 */
export type ClassClothView = { 
/**
 * Whether it was laid since anything changed that it rests on.
 */
is_laid: boolean, 
/**
 * How it came about, in a sentence.
 */
says: string, 
/**
 * A line a cloth.
 */
lays: Array<ClassLayView>, 
/**
 * Cloths that cannot be laid: a sentence each.
 */
not_laid: Array<string>, };

/**
 * All kits on one length of a cloth.
 */
export type ClassLayView = { 
/**
 * `Slate tricot, shell, 150 cm wide`.
 */
cloth: string, 
/**
 * Suits and pieces: `3 suits, 9 pieces`.
 */
holds: string, 
/**
 * From cut end to cut end.
 */
lay: string, 
/**
 * Share of the usable cloth that is pieces.
 */
used: string, 
/**
 * No lay of these pieces can be shorter.
 */
least: string, 
/**
 * What to ask for in the shop.
 */
buy: string, };

/**
 * What a range can be made of.
 */
export type RangesView = { 
/**
 * The tables that come with the program.
 */
tables: Array<SizeTableView>, 
/**
 * The suits.
 */
suits: Array<RangeSuitView>, 
/**
 * The wearers.
 */
wearers: Array<RangeWearerView>, 
/**
 * `cm` or `in`: how bare lengths are read.
 */
unit: string, };

/**
 * A size table to choose.
 */
export type SizeTableView = { 
/**
 * `women`, `men`, `children`; `own` for the maker's.
 */
key: string, 
/**
 * Its name.
 */
name: string, 
/**
 * What it is, where it comes from, what it leaves out.
 */
provenance: string, 
/**
 * `woman`, `man`, `child`.
 */
form: string, 
/**
 * Its sizes.
 */
sizes: Array<SizeNameView>, 
/**
 * Whether every size has a stature of its own.
 */
has_stature: boolean, };

/**
 * A size of a table.
 */
export type SizeNameView = { 
/**
 * Its name.
 */
name: string, 
/**
 * Anything beside it: a letter, an age; may be empty.
 */
note: string, };

/**
 * A suit whose cloth and design may be drafted in sizes.
 */
export type RangeSuitView = { 
/**
 * Its id.
 */
id: string, 
/**
 * Number and name.
 */
name: string, 
/**
 * Form of its wearer; empty when it has none.
 */
form: string, };

/**
 * A wearer to choose a size for.
 */
export type RangeWearerView = { 
/**
 * Her id.
 */
id: string, 
/**
 * Her name.
 */
name: string, 
/**
 * `woman`, `man`, `child`.
 */
form: string, };

/**
 * A drafted range.
 */
export type RangeView = { 
/**
 * Its id, for its files and questions about it.
 */
id: string, 
/**
 * `Harbour one-piece, women, by bust girth`.
 */
title: string, 
/**
 * Cloth, fit, version.
 */
subtitle: string, 
/**
 * Where the table comes from.
 */
provenance: string, 
/**
 * Whose bodies: `woman`, `man`, `child`.
 */
form: string, 
/**
 * State, summary, and what must be looked at: refusals and stops.
 */
head: Head, 
/**
 * Sizes that were drafted, in order.
 */
sizes: Array<RangeSizeView>, 
/**
 * Body dimensions over the sizes.
 */
body: Array<RangeRowView>, 
/**
 * Finished measures over the sizes, flat and unstretched.
 */
finished: Array<RangeRowView>, 
/**
 * The pieces, all sizes laid over each other.
 */
pieces: Array<NestPieceView>, 
/**
 * Where growth fails or is uneven, a sentence each; empty when it is even.
 */
growth: Array<string>, 
/**
 * Where the draft went another way, a sentence each.
 */
branches: Array<string>, 
/**
 * Sizes that were not drafted; those with one reason together.
 */
refused: Array<RefusedSizeView>, 
/**
 * What can be taken away; empty when no size was drafted or the nest does not fit its paper.
 */
files: Array<RangeFileView>, };

/**
 * A size with its line in the nest.
 */
export type RangeSizeView = { 
/**
 * Its name.
 */
name: string, 
/**
 * Anything beside it.
 */
note: string, 
/**
 * Width of its line, mm.
 */
width: number, 
/**
 * Strokes and gaps of its line in turn, mm; empty for a line without gaps.
 */
dash: Array<number>, };

/**
 * A measure over the sizes.
 */
export type RangeRowView = { 
/**
 * Its name.
 */
name: string, 
/**
 * One for every size; none where the size has none.
 */
cells: Array<RangeCellView | null>, };

/**
 * One figure.
 */
export type RangeCellView = { 
/**
 * The length.
 */
quantity: Quantity, 
/**
 * Whether it was estimated and stands in no table.
 */
is_estimated: boolean, 
/**
 * Where it comes from.
 */
source: string, };

/**
 * A piece in all its sizes.
 */
export type NestPieceView = { 
/**
 * Its key.
 */
key: string, 
/**
 * Its name on paper.
 */
name: string, 
/**
 * Where the sizes lie over each other.
 */
stacked: string, 
/**
 * Sizes that do not have it.
 */
missing: Array<string>, 
/**
 * The box of all its sizes.
 */
frame: Frame, 
/**
 * Its cut lines.
 */
layers: Array<NestLayerView>, };

/**
 * The cut line of one size.
 */
export type NestLayerView = { 
/**
 * Which size, counted from 0 in the list of sizes.
 */
size: number, 
/**
 * Its cut line.
 */
path: string, };

/**
 * Sizes that were not drafted for one reason.
 */
export type RefusedSizeView = { 
/**
 * Their names: `84, 88`.
 */
size: string, 
/**
 * Why, and what to do.
 */
says: string, };

/**
 * A file of a range.
 */
export type RangeFileView = { 
/**
 * Its name.
 */
name: string, 
/**
 * What it is for.
 */
says: string, 
/**
 * Where it is fetched.
 */
href: string, };

/**
 * The size of a range for one wearer.
 */
export type SizeChoiceView = { 
/**
 * Her name.
 */
wearer: string, 
/**
 * The nearest size.
 */
size: string, 
/**
 * `take`, `look`, `own`: take it, take it and look at the places named, draft a suit of her own.
 */
advice: string, 
/**
 * The advice in a sentence.
 */
says: string, 
/**
 * Why, a sentence each; empty when the size simply fits.
 */
reasons: Array<string>, 
/**
 * The nearest size at each level.
 */
levels: Array<LevelChoiceView>, 
/**
 * What could not be judged.
 */
not_judged: Array<string>, };

/**
 * The nearest size at one level.
 */
export type LevelChoiceView = { 
/**
 * The level's dimension.
 */
name: string, 
/**
 * Hers.
 */
hers: Quantity, 
/**
 * The size nearest to her there.
 */
size: string, 
/**
 * How far off that one is: hers less the size's.
 */
off: Quantity, 
/**
 * How far off the size to take is there.
 */
off_taken: Quantity | null, };

/**
 * The fewest sizes that cover some people.
 */
export type CoverView = { 
/**
 * How many sizes, for how many people, and whether fewer would do.
 */
says: string, 
/**
 * The sizes with who takes each.
 */
sizes: Array<CoverSizeView>, 
/**
 * Who is left out, with the reason.
 */
left_out: Array<LeftOutView>, };

/**
 * One size of a set.
 */
export type CoverSizeView = { 
/**
 * Its name.
 */
size: string, 
/**
 * Who takes it.
 */
people: Array<string>, };

/**
 * Somebody no size covers.
 */
export type LeftOutView = { 
/**
 * Her name.
 */
name: string, 
/**
 * Why, and what to do.
 */
says: string, };

/**
 * The answer to "why?".
 */
export type Why = { 
/**
 * `Why 15 % at the hip?`
 */
question: string, 
/**
 * One sentence.
 */
answer: string, 
/**
 * The sum: `99.0 / 85.9 - 1 = 15.3 %`; empty where there is none.
 */
sum: string, 
/**
 * What went in.
 */
inputs: Array<WhyInput>, 
/**
 * Where the rule comes from.
 */
source: string, };

/**
 * One input.
 */
export type WhyInput = { 
/**
 * Name.
 */
name: string, 
/**
 * Value with its unit.
 */
value: string, };

/**
 * One action over one or several documents.
 */
export type EditRequest = { 
/**
 * The documents it touches, each with the revision the maker was looking at.
 */
parts: Array<EditPart>, 
/**
 * The changes, all or none.
 */
changes: Array<Set>, 
/**
 * What the history calls it; made from the changes when empty.
 */
words: string, };

/**
 * A document of an edit.
 */
export type EditPart = { 
/**
 * Its id.
 */
document: string, 
/**
 * The revision the maker was looking at.
 */
base: number, };

/**
 * A suit to begin.
 */
export type NewSuitRequest = { 
/**
 * Its name; made from the wearer's when empty.
 */
name: string, 
/**
 * Its wearer.
 */
wearer: string | null, 
/**
 * A suit to begin like: its design, cloths and wearer.
 */
like: string | null, };

/**
 * Which size table.
 */
export type SizesRequest = { 
/**
 * `women`, `men`, `children`, or `own`.
 */
table: string, 
/**
 * The maker's own table as CSV, for `own`.
 */
csv: string, 
/**
 * What her table is called.
 */
name: string, 
/**
 * Whose bodies it holds: `woman`, `man`, `child`.
 */
form: string, 
/**
 * Unit of its bare numbers where its heads do not say: `cm`, `mm`, `in`; empty for none.
 */
unit: string, 
/**
 * The stature of sizes that have none, as typed: `168 cm`; empty for an estimate.
 */
stature: string, 
/**
 * Only these sizes; all when empty.
 */
only: Array<string>, };

/**
 * A range to draft.
 */
export type RangeRequest = { 
/**
 * The suit whose cloth and design it has.
 */
suit: string, 
/**
 * The table.
 */
sizes: SizesRequest, };

/**
 * A range that is being drafted.
 */
export type RangeStarted = { 
/**
 * The job that drafts it.
 */
job: string, 
/**
 * The range it will be.
 */
range: string, };

/**
 * Whom to choose a size for.
 */
export type SizeRequest = { 
/**
 * Her id.
 */
wearer: string, };

/**
 * Whom to cover with how few sizes.
 */
export type CoverRequest = { 
/**
 * Their ids.
 */
wearers: Array<string>, 
/**
 * How far a girth may be off, as typed.
 */
girth: string, 
/**
 * How far trunk and stature may be off, as typed.
 */
length: string, 
/**
 * `table` to choose among the sizes of the range, `people` to make new sizes of the people themselves.
 */
from: string, };

/**
 * What is told of a job.
 */
export type JobEvent = { 
/**
 * Id of the job.
 */
job: string, 
/**
 * How it stands.
 */
state: JobState, 
/**
 * Steps done.
 */
done: number, 
/**
 * Of how many.
 */
of: number, 
/**
 * Their share, 0 to 1.
 */
share: number, 
/**
 * What is being done, or why it failed: one sentence.
 */
says: string, 
/**
 * Where the result is fetched, when done.
 */
result: string | null, 
/**
 * The lay found so far, of a job that packs one.
 */
lay: LayNow | null, };

/**
 * How a job stands.
 */
export type JobState = "running" | "done" | "stopped" | "failed";

/**
 * What goes along when a wearer is removed.
 */
export type GoesAlong = { 
/**
 * Sentences, the most important first.
 */
says: Array<string>, };

/**
 * Settings of this workroom.
 */
export type Settings = { 
/**
 * Unit of new suits: `cm` or `in`.
 */
units: string, 
/**
 * `day`, `night` or `system`.
 */
light: string, 
/**
 * The screen, calibrated with a bank card.
 */
screen: Scale, 
/**
 * The projector, calibrated with a square.
 */
projector: Scale, 
/**
 * Whether single keys jump between sections.
 */
keys: boolean, };

/**
 * How large a screen draws.
 */
export type Scale = { 
/**
 * Pixels in a millimetre; none before it was calibrated.
 */
px_per_mm: number | null, };

/**
 * Settings to change; what is left out stays.
 */
export type SettingsChange = { 
/**
 * See [`Settings`].
 */
units: string | null, 
/**
 * See [`Settings`].
 */
light: string | null, 
/**
 * See [`Settings`].
 */
screen: Scale | null, 
/**
 * See [`Settings`].
 */
projector: Scale | null, 
/**
 * See [`Settings`].
 */
keys: boolean | null, };

/**
 * A backup.
 */
export type BackupView = { 
/**
 * Its name.
 */
name: string, 
/**
 * When, ISO 8601.
 */
at: string, 
/**
 * Why, and how large: `every day, 0.3 MB`.
 */
says: string, };

/**
 * Something in the bin.
 */
export type BinView = { 
/**
 * Its id.
 */
id: string, 
/**
 * Its kind.
 */
kind: string, 
/**
 * Its name.
 */
name: string, 
/**
 * What it is: `Suit No. 15, for Odile`.
 */
about: string, 
/**
 * Since when it lies there, ISO 8601.
 */
since: string, };

/**
 * What came of putting a backup back.
 */
export type Restored = { 
/**
 * What was done.
 */
says: string, 
/**
 * The backup made of what was there before.
 */
before: BackupView, };

/**
 * What was put into the bin.
 */
export type Binned = { 
/**
 * What was done, in a sentence.
 */
says: string, 
/**
 * Whether it can be taken out again.
 */
back: boolean, };

/**
 * A document.
 */
export type DocumentView = { 
/**
 * Its id.
 */
id: string, 
/**
 * Its kind.
 */
kind: string, 
/**
 * Its revision.
 */
revision: number, 
/**
 * Its body.
 */
body: unknown, 
/**
 * Whether it lies in the bin.
 */
in_bin: boolean, };

/**
 * A document to make.
 */
export type NewDocument = { 
/**
 * `wearer`, `cloth`, `elastic`, `sample`, `drawer`, `class`; a suit is begun under `/suits`.
 */
kind: string, 
/**
 * Its body; see `docs/api.md`.
 */
body: unknown, 
/**
 * What the history calls it.
 */
words: string, };

/**
 * What came of an edit.
 */
export type Kept = { 
/**
 * The documents as they stand now.
 */
documents: Array<Stamp>, 
/**
 * Whether somebody else's changes stand beside these: read the order again.
 */
merged: boolean, };

/**
 * What was done, in a sentence.
 */
export type Done = { 
/**
 * The sentence.
 */
says: string, };

/**
 * A job that was started.
 */
export type Started = { 
/**
 * Its id.
 */
job: string, };

/**
 * A device that is let in.
 */
export type DeviceView = { 
/**
 * What shuts it out.
 */
id: string, 
/**
 * Its name.
 */
name: string, 
/**
 * When it was last seen, ISO 8601.
 */
last_seen: string, };

/**
 * A device that asks to be let in.
 */
export type PairRequest = { 
/**
 * The code.
 */
code: string, 
/**
 * What to call the device.
 */
name: string, };

/**
 * What to show to let a tablet in.
 */
export type PairingView = { 
/**
 * The code; empty without `--lan`.
 */
code: string, 
/**
 * Seconds it still works.
 */
expires_in_s: number, 
/**
 * The address to open.
 */
address: string, 
/**
 * The address with the code as a QR code: an SVG path of unit squares.
 */
qr: string, 
/**
 * Squares on a side, the quiet zone included.
 */
size: number, 
/**
 * Devices that are let in.
 */
devices: Array<DeviceView>, };

/**
 * A value that two people changed.
 */
export type ClashView = { 
/**
 * Id of the document.
 */
document: string, 
/**
 * Dotted path.
 */
path: string, 
/**
 * The value both started from.
 */
base: unknown, 
/**
 * The value kept now.
 */
theirs: unknown, 
/**
 * The value of this request.
 */
yours: unknown, };

/**
 * One thing wrong with a request.
 */
export type Problem = { 
/**
 * What kind: as in `docs/suit-file.md`, "Faults as JSON", and `not_found`, `conflict`, `not_allowed_here`, `store`.
 */
kind: string, 
/**
 * What is wrong, one sentence.
 */
what: string, 
/**
 * Where: field, file and line; empty when it is the request as a whole.
 */
where: string, 
/**
 * Dotted path of the field, if it is one.
 */
field: string | null, 
/**
 * What may stand there.
 */
allowed: Array<string>, 
/**
 * What to do.
 */
next: string, };

/**
 * A refused request.
 */
export type Problems = { 
/**
 * At least one.
 */
problems: Array<Problem>, 
/**
 * For a conflict: every value in question.
 */
clashes: Array<ClashView>, };

/**
 * Settings, and how this studio is run.
 */
export type SettingsView = { 
/**
 * Whether other machines of the house may be paired.
 */
lan: boolean, 
/**
 * The address to open on a tablet; empty without `--lan`.
 */
address: string, 
/**
 * Version of the program.
 */
version: string, 
/**
 * Unit of new suits: `cm` or `in`.
 */
units: string, 
/**
 * `day`, `night` or `system`.
 */
light: string, 
/**
 * The screen, calibrated with a bank card.
 */
screen: Scale, 
/**
 * The projector, calibrated with a square.
 */
projector: Scale, 
/**
 * Whether single keys jump between sections.
 */
keys: boolean, };

/**
 * One line of a suit's history.
 */
export type HistoryLine = { 
/**
 * Its place in the journal.
 */
seq: number, 
/**
 * When, ISO 8601.
 */
at: string, 
/**
 * What was done.
 */
words: string, 
/**
 * `made`, `edit`, `back`, `forward`, `deleted`, `restored`.
 */
kind: string, };

/**
 * A new document.
 */
export type Made = { 
/**
 * Its id.
 */
id: string, 
/**
 * Its first revision.
 */
revision: number, };

/**
 * What to preview.
 */
export type PreviewRequest = { 
/**
 * Changes to try.
 */
changes: Array<Set>, 
/**
 * A handle on its way.
 */
drag: Drag | null, 
/**
 * Whether the wear is wanted too.
 */
wear: boolean, };

/**
 * The version in work after keeping one.
 */
export type VersionMade = { 
/**
 * The version that was kept.
 */
kept: number, 
/**
 * The one in work now.
 */
number: number, };

/**
 * A version to keep.
 */
export type VersionRequest = { 
/**
 * What the maker says about it.
 */
words: string, };

/**
 * How a lay is packed.
 */
export type PackLayRequest = { 
/**
 * Seconds to search at most; 20 when left out, 600 at most.
 */
seconds: number | null, 
/**
 * Packs pieces a hand placed as well, instead of going around them.
 */
afresh: boolean, };

/**
 * A piece moved by hand.
 */
export type PlaceRequest = { 
/**
 * Revision of the suit the maker was looking at.
 */
base: number, 
/**
 * Key of the piece.
 */
piece: string, 
/**
 * Which of its copies.
 */
copy: number, 
/**
 * To the right as drawn: across the cloth, mm.
 */
right: number, 
/**
 * Down as drawn: along the cloth, mm.
 */
down: number, 
/**
 * So many steps on among the ways it may be turned.
 */
turns: number, 
/**
 * Whether to keep it there if it lies well; else it is only tried.
 */
keep: boolean, 
/**
 * Lets all pieces go that a hand placed, instead of moving one.
 */
let_go: boolean, };

/**
 * What came of moving a piece.
 */
export type PlaceAnswer = { 
/**
 * The piece where it was put.
 */
piece: LaidPiece | null, 
/**
 * Why it may not lie there; empty when it may.
 */
faults: Array<string>, 
/**
 * How long the lay would be.
 */
length: Quantity, 
/**
 * The suit as it stands, if it was kept.
 */
kept: Stamp | null, };
