# The booklet's own furniture: titles, heads of tables, labels, what drawings show.

about = How to cut, sew, try on and care for { $suit }
page = page
contents = Contents
running = { $suit }, version { $version }
running-class = { $style }, class edition
count-pages = { $count ->
    [one] { $count } page
   *[other] { $count } pages
}

cover-for = Made for { $wearer }
cover-for-whom = Made for
cover-style = { $style }, { $fit } fit
cover-version = Version { $version }. The same number stands on the pattern: they belong together.
cover-class = Class edition: the lines are for your own numbers.
cover-figure = Line drawing of the { $style }, front and back.
view-front = front
view-back = back

sign-good = Good
sign-watch = Look
sign-stop = Stop
sign-mind = Take care
sign-heed = Heed this

wearer-title = The wearer
wearer-lead = The suit was drafted from these dimensions. If one is wrong, the suit is.
cloth-title = The cloths
cloth-lead = The greatest stretch goes round the body, in the shell and in the lining.
ladder-title = How it will sit
ladder-lead = What each level of the body asks of the cloth, and what the cloth has left.
pieces-title = The pieces
pieces-lead = Tick each one when it is cut and marked.
cutting-title = Laying and cutting
cutting-lead = Cut in a single layer, at rest, and never pull the cloth to fit.
scraps-title = Prove it on a scrap first
scraps-lead = Ten minutes on a scrap save an evening of unpicking.
elastic-title = The elastic map
elastic-lead = Where the elastic lies flat, and where it takes up the ease.
order-title = Order of work
order-lead = One thing after the other; tick as you go.
shopping-title = What to buy
shopping-lead = What the suit takes, with a little to spare.
try-on-title = Try-on sheet
try-on-lead = First basted, where a change is cheap; then finished, dry and wet.
care-title = Care, wear life and repair
care-lead = A suit dies of chlorine, heat and neglect, in that order.
cautions-title = Cautions
cautions-lead = Those that apply to this suit. Each stands again where it is needed.
glossary-title = Words
glossary-lead = One word for each thing, the same as on the pattern.
sources-title = Where the rules come from
sources-lead = And how far each can be trusted.

column-dimension = Dimension
column-length = Length
column-how = How known
column-second = Second reading
column-level = Level
column-body = Body
column-cut = Cut
column-worn = Worn
column-left = Left
column-judged = Judged
column-opening = Opening
column-rest = At rest
column-passes = Must pass
column-needs = Needs
column-cloth = Cloth
column-around = Around
column-lengthwise = Lengthwise
column-lies = How it lies
column-elastic = Elastic
column-width = Width
column-buy = Buy
column-drawing = Drawing
column-piece = Piece
column-to-cut = To cut
column-done = Done
column-scrap = Scrap
column-stitch = Stitch
column-settings = Settings
column-reaches = Reaches
column-verdict = Verdict
column-heat = Heat
column-press-cloth = Press cloth
column-mark = Mark
column-arc = Arc it begins
column-on-edge = On the edge
column-on-elastic = On the elastic
column-ratio = Ratio
column-look-at = Look at
column-basted = Basted
column-finished = Finished
column-measure = Measure, flat and at rest
column-should-be = Should be
column-tolerance = Within
column-is = Is
column-date = Date
column-hours = Hours in water
column-grown = Side seam now
column-seen = What you saw

table-dimensions = Dimensions of the wearer
table-ladder = The stretch ladder level by level
table-way-in = Each opening and the girth it must pass
table-cloths = The cloths, their stretch and how they lie
table-buy = Elastic to buy
table-pieces = Every piece and what to cut of it
table-scraps = Scraps to sew, with lines for what came of them
table-iron = Iron tests, with lines for what came of them
table-marks = Marks on edge and elastic, measured from the first mark
table-try-on = What to look at when the suit is tried on, with lines to write on
table-measures = Measures of the finished suit, with lines for yours
table-diary = Diary of the suit, to fill in

taken = taken
estimated = estimated
estimated-note = What is marked estimated was not taken: it follows from the other dimensions by a published survey. Take it, and the next version is surer.
makers-notes = Your notes
write-name-date = Name, date, and who held the tape

ladder-how = Each rung is a level of the body. The mark shows how much of its own stretch a layer uses there: left of the first rail it keeps enough for movement, right of the second it has none left.
ladder-figure = The stretch ladder, from the top: { $rungs }.
ladder-worn = { $worn } worn
ladder-reserve = 45 %
ladder-most = 85 %
ladder-caption = Filled mark above the rung: shell. Open mark below it: lining.
way-in-heading = The way in
way-in-how = A suit is smaller than its wearer: every opening must stretch over the widest part it passes.

elastic-heading = Elastic
elastic-buy-note = With a tenth to spare and 20 cm for the test, in quarter metres. Wash or soak it before you measure.
elastic-how = Above is the edge, below it the elastic, a stroke for every centimetre of edge. Where the strokes stand upright, sew flat; where they lean, the elastic is shorter and takes up the ease. Mark both, pin mark on mark, and spread the ease between two marks only.
elastic-figure = { $edge }, drawn flat with its elastic: { $arcs }.
edge-times = { $count ->
    [one] { $edge }
    [2] { $edge }, twice
   *[other] { $edge }, { $count } times
}
elastic-class-caption = Not to scale: every arc is drawn alike. Write your own lengths on the lines.
ratio-flat = flat
fact-cut = Cut
fact-cut-each = Cut, each
fact-overlap = Lap to join

piece-figure = { $piece }: outline with seam line, grain arrow and letter.
piece-letter = letter { $letter }
cut-one = { $count } of { $cloth } ({ $layer })
cut-pair = { $count } of { $cloth } ({ $layer }), left and right
cut-done = { $piece } is cut
cloth-not-chosen = a cloth you have still to choose
pieces-note = Thumbnails are not to scale with each other. The arrow is the grain; the pattern itself says everything else.

write-cloth-used = Cloth used, and what was left
write-wet = What you saw through it
write-try-on-date = Date, and how long it was worn
write-change-next = What to change in the next version
write-worked = What worked on your machine

measures-heading = The finished suit, measured
measures-how = Lay it flat without pulling and measure. What is further off than the last column allows tells which seam to look at.
life-heading = How long it lives
repair-heading = Repair
iron-heading = The iron
wet-heading = Wet and stretched

order-worn-solved = The stitches are chosen for how far the suit is stretched as worn, from the solve on her form.
order-time = In all { $time } at the machine and the table. Times are common practice, for somebody who has sewn knits before.
step-done = { $step } is done
column-number = No.
column-step = Step
column-time = Time
table-order = Every step in order, with a box to tick
side-wrong-up = wrong side up
side-right-up = right side up
lead-time = { $phase }. { $time }
lead-time-side = { $phase }. { $time }; { $side } under the needle
step-figure = { $step }: { $pieces }, what is sewn drawn heavy; shaded where the wrong side lies up.
wrong-side = wrong side
elastic-word = elastic
section-joined = Seam cut through: two layers, right sides together, the needle through both from the wrong side.
section-elastic-on = Edge cut through: elastic on the wrong side, edge to edge, the needle through elastic and cloth.
section-turned = Edge cut through: turned once over its elastic, the needle from the right side through all layers.
section-hem = Hem cut through: turned once, two rows side by side from the right side.
section-layered = Two layers cut through, wrong sides together, caught as one.
section-lapped = Two layers cut through, one lapped over the other and sewn through.
stitch-reach = gives { $gives }, needs { $needs }
stitch-unstretched = nothing is stretched here
stitch-runner-up = Next best: { $why }
stitch-not-safe = Do not wear it sewn like this.
fact-needle = Needle NM
stitch-thread = Tension { $tension }; { $thread }.
fact-allowance = Allowance
workroom-straight-stitch-machine = straight-stitch machine
workroom-zigzag-machine = zigzag machine
workroom-four-thread-overlocker = four-thread overlocker
workroom-coverstitch-machine = coverstitch machine
column-pull-to = Pull 10 cm to
column-what = What
column-needed = Needed
table-shopping = What to buy, with a box to tick
shopping-note = Thread is counted with a generous share for tests and threading. A new needle belongs to every suit: a blunt one skips stitches.
bought = { $what } is bought

reading-title = How to read it
reading-lead = One drawing for each step, made of this suit's own pieces.
reading-tape = On paper, printed at 100 %, the tape in the margin is true and measures what lies on the page. Where it is not, measure nothing on that paper.
reading-steps = Every step says which side lies up, what the stitch must stretch to, and what to do in the order a, b, c.
reading-note = The dotted lines are yours: write down what worked, and the next suit begins there.
table-legend = The lines of the drawings
column-means = Means
legend-figure = Sample: { $sign }
legend-cut = cut here
legend-seam = seam line
legend-fold = fold, or the middle of a piece
legend-grain = grain: along the selvedge
legend-sewn = sewn in this step
legend-elastic = elastic on an edge
legend-wrong-side = shaded: the wrong side lies up
legend-needle = here the needle begins
