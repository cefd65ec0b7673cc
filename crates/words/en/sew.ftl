### What the Sew section and the bench say round the words of the plan (`make.ftl`). Quantities arrive as finished text.

## The section

sew-nothing = Nothing to sew yet
sew-now = Step { $number } of { $count }. { $step }.
sew-all-done = All { $count } steps are done.
sew-time = { $time } in all: common practice, for somebody who has sewn knits before.
sew-worn-solved = The stitches are chosen for how far the suit is stretched on her form, as it was solved in Wear.
sew-worn-drafted = The stitches are chosen for the stretches the draft means. Put the suit on her form in Wear, and they are chosen for how it is worn.
sew-step-time = { $time }, practice
sew-zigzag-assumed = No machine is written down in the workroom: this is planned for a household zigzag machine.
sew-zigzag-next = Write down the machines you have.
sew-cannot = With these machines it cannot be sewn safely: { $jobs }.
sew-cannot-machine = With { $machine } it could be: { $jobs }.
sew-no-machine = No machine here sews { $steps }.
sew-no-machine-next = Add the machine you sew it with, or sew it by hand.
sew-add = With { $machine }: { $jobs }.
sew-add-job = { $job } by { $stitch }
sew-add-saves = About { $time } quicker, practice.
sew-add-safe = It would make safe: { $jobs }.

## Steps

sew-side-wrong = Wrong side up under the needle.
sew-side-right = Right side up under the needle.
sew-class = Class { $number }: { $name }
sew-runs = { $count ->
        [one] one run
       *[other] { $count } runs
    }
sew-drawing-sewn = { $pieces }; sewn here: { $edges }.
sew-drawing-handled = { $pieces }; in hand: { $edges }.
sew-drawing-plain = { $pieces }.
sew-edges-more = { $edges } and others
sew-bare-scraps = No drawing: it is done on scraps, before a piece is cut.
sew-bare-cloth = No drawing: the whole cloth is in hand.
sew-bare-paper = No drawing: the page map of the section Paper shows it.
sew-bare-lay = No drawing: the section Lay shows where each piece lies.
sew-bare-elastic = No drawing: only the elastic is in hand; the elastic map has its marks.
sew-bare-suit = No drawing: the whole suit is in hand.
sew-cut-from = { $count } of { $cloth }
sew-cut-pair = { $count } of { $cloth }, a left and a right
sew-mark-letters = Mark { $letters } for the elastic.
sew-mark-points = Mark: { $points }.
sew-washed = Wash { $cloths }: the pattern was drawn for washed cloth.
sew-shrinks = Cut { $cloths } unwashed: the pattern allows for the shrinkage you wrote down.
sew-shrinkage-unknown = Of { $cloths } no shrinkage is written down. Wash a measured scrap first; if it shrinks, wash the cloth and say so.

## Settings

sew-set-needle = Needle
sew-set-thread = Thread
sew-set-allowance = Allowance
sew-set-tension = Tension
sew-set-seam = To sew
sew-set-cut = Elastic, cut
sew-set-cut-each = Elastic, cut each
sew-set-overlap = Lap
sew-set-marks = Marks
sew-set-count = To cut
sew-rows = { $count ->
        [one] one row
       *[other] { $count } rows
    }
sew-width-length = { $width } wide, { $length } long
sew-length-only = { $length } long
sew-spacing = twin, { $spacing } apart
sew-not-in-stock = not in stock
sew-threads = { $above }; below { $below }

## Stitches

sew-in-steps = { $count ->
        [one] step { $steps }
       *[other] steps { $steps }
    }
sew-need-parts = worn { $worn }, movement { $movement }, way in { $way_in }
sew-runner-up = Next best: { $why }

## Elastic

sew-elastic-worn = Worn stretched
sew-elastic-pull = Pull
sew-elastic-pressure = Pressure
sew-pressure-limits = look at it above { $watch }, stop above { $stop }
sew-pressure-relative = Relative: the force of this elastic was not measured. Good to hold one edge against another, no figure of its own.
sew-ring-passes = Passes where it must: opens to { $opens }, { $passes } must pass.
sew-ring-stuck = Does not pass: opens to { $opens }, but { $passes } must pass.
