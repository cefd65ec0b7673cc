### The making plan in words. A key of the plan is a message here with its dots as hyphens: `step.side` is `step-side`.
### Lengths, shares and settings arrive as finished text in the reader's units.

## Steps: title, and how

step-prove = Prove stitches and elastic on scraps
    .how = Sew each scrap of the list, elastic on its edge where the list says so. Pull it as far as the list says: nothing may pop, and it must go back. Write down what held.
step-prove_iron = Try the iron on a scrap
    .how = Press cloth over the wrong side, set the iron down and lift it, never slide. Look for shine, sticking and a lost stretch before any seam is pressed.
step-wash = Wash cloth, lining and elastic
    .how = Wash or soak as the suit will be washed, dry flat and let lie for a day. What is cut unwashed shrinks with the suit.
step-check_paper = Check the paper
    .how = Measure the scale square both ways, join the pages, and lay seam on seam: they must be as long as each other, notch on notch.
step-lay_out = Lay out
    .how = Greatest stretch around the body, for shell and lining alike; prints the right way up. Let the cloth lie without pull; weights, no pins.
step-cut = Cut { $piece }: { $count ->
        [one] one
       *[other] { $count }
    }
    .how = Cut on the line. Notches half the allowance deep at most. Mark the wrong side, the letter, and every mark of the elastic.
step-dart = Darts
    .how = Fold each dart leg on leg, sew from the side to the point, run off at the point and knot. Fold it down.
step-princess = Princess seams, left and right
    .how = Pin the notches of waist and bust first, then sew from the leg to the bust and on to the armhole.
step-panel = Panel seams
    .how = Right sides together, notch on notch, from the leg up. Where two cloths meet, the one that stretches less lies below.
step-diagonal = Diagonal seam of the front
    .how = Right sides together, notch on notch. The seam lies on the bias: pull neither layer.
step-across = Seams across: blocks, bands, waist or underbust
    .how = Right sides together, centres and notches first, flat and before the sides are closed.
step-centre_front = Centre front
    .how = Right sides together, from the top to the crotch, or from where the zip ends. Sew the curve twice.
step-centre_back = Centre back
    .how = Right sides together, from the top to the crotch, or from where the zip ends. Sew the curve twice.
step-crotch = Crotch seam
    .how = Right sides together, front to back, leg edge to leg edge. Narrow: it lies under the body.
step-crotch_lining = Crotch lining
    .how = Over the crotch seam inside, its dotted line on the seam. Baste its sides to the leg edges.
step-inseam = Inside legs
    .how = Front to back, crotch seams meeting; both legs in one run, hem to hem.
step-side = Side seams, left and right
    .how = Right sides together, notch on notch, from below up. Pull neither layer.
step-shoulder = Shoulder seams, left and right
    .how = Right sides together, edge of neck to edge of neck.
step-sleeve = Sleeves, set in flat
    .how = Cap to armhole, single notch to the front, double to the back, before the sides are closed. Side and sleeve are then one seam.
step-collar = Collar
    .how = Close the band, fold it, quarter it and the neckline, and stretch the band to the neckline as you sew.
step-band_ring = Band to a ring
    .how = Right sides together, ends on ends. The seam comes to the centre back.
step-band = Band to the suit
    .how = Quarter band and edge. Right sides together, stretch the band to the edge, never the edge to the band.
step-elastic_in_band = Elastic in the band
    .how = Lay the ring of elastic into the fold, quarter on quarter, and catch it in the allowance along one edge.
step-attach = Straps and ties to the suit
    .how = Ends on their marks, right sides together, and back over it once more.
step-strap = Straps, ties and shields
    .how = Fold lengthwise, right sides together, sew the long edge and turn; the seam lies in the middle of the under side.
step-skirt_side = Skirt sides
    .how = Right sides together, from the hem up.
step-skirt_hem = Hem of the skirt
    .how = Turn once and sew from the right side. Do it before the skirt hangs on the suit.
step-skirt = Skirt to the suit
    .how = On the dotted line, sides on side seams, centres on centres, right side of the skirt outward.
step-lining_edge = Triangles and their linings
    .how = Right sides together along both long edges, the base open. Do not turn them yet: the elastic goes on the allowance first.
step-other = Seam
    .how = Right sides together, notch on notch.
step-lining_dart = Darts of the lining
    .how = As in the shell, folded the other way, so that they do not lie on each other.
step-lining_princess = Princess seams of the lining
    .how = As in the shell.
step-lining_panel = Panel seams of the lining
    .how = As in the shell.
step-lining_centre_front = Centre front of the lining
    .how = As in the shell.
step-lining_centre_back = Centre back of the lining
    .how = As in the shell.
step-lining_crotch = Crotch seam of the lining
    .how = As in the shell; its allowance faces the shell's, so that nothing rubs.
step-lining_inseam = Inside legs of the lining
    .how = As in the shell.
step-lining_side = Side seams of the lining
    .how = As in the shell.
step-lining_shoulder = Shoulder seams of the lining
    .how = As in the shell.
step-lining_other = Seam of the lining
    .how = As in the shell.
step-cup_pocket = Cup pockets on the lining
    .how = Hem each opening. Sew the pockets to the wrong side of the lining round the bust points; leave the opening free.
step-cups = Cups to the lining
    .how = Centred on the bust points, foam up, along the edge only.
step-prosthesis_pocket = Pocket for a prosthesis
    .how = Hem the opening. Sew the pocket to the wrong side of the lining on its mark; leave the opening free.
step-pouch_pocket = Pocket for a stoma pouch
    .how = Hem the opening. Sew the pocket to the wrong side of the lining behind the opening of the stoma; leave the top free.
step-boning = Boning channels
    .how = Hem the ends, sew both long edges over the side seams of the lining, slide the boning in last.
step-mesh = Mesh on the lining
    .how = Mesh between lining and shell, stretch around the body, edges together. Baste; from here they are one piece.
step-together = Shell and lining together
    .how = Lining into shell, wrong sides together, seams on seams. Baste at every open edge.
step-together_waist = Liner into the shell
    .how = Wrong sides together, seams on seams. Baste at the waist only: its legs are its own.
step-part_lining = Lining on the front
    .how = On the wrong side, edges together. Baste all round; from here they are one piece.
step-nursing = Nursing opening
    .how = Cut out on its mark in the lining and bind the edge.
step-stoma = Opening for a stoma
    .how = Stay the ring on its mark, cut out, turn and topstitch, then the pocket behind it.
step-gather = Gather the front
    .how = Two rows of long stitches between the marks; draw in to the length on the pattern and stay it with clear elastic.
step-zip = Zip
    .how = Stay both edges with a strip that does not stretch. Baste, then sew from the foot up, both sides in the same direction.
step-slit = Slit for the clasp
    .how = Face the slit, sew round it, cut, turn and topstitch.
step-clasp = Clasp
    .how = Fold each end through its half and tack it.
step-eyelets = Eyelets
    .how = Firm patch under each, then set them, before the casing is folded.
step-cord = Cord
    .how = Thread it and tack it at the centre back.
step-hook_facing = Facing for the hooks
    .how = Lay a firm strip on the wrong side of each back edge. Turn the edge over it and topstitch.
step-hooks = Hooks at the back
    .how = Fold the hooks and eyes over the faced edges and tack them.
step-neck_hook = Hook behind the neck
    .how = Fold the free ends through hook and eye on their mark and tack them.
step-cross_straps = Cross the straps
    .how = Baste front to front edge, crossed to the other side of the back. Try on, reach, trim, and sew each end twice.
step-rings = Rings and sliders
    .how = Fold the strap ends through their rings and tack them.
step-thread_tie = Tie through the channel
    .how = Pull the tie through, even on both sides, and knot its ends.
step-try_on_basted = Try it on, basted
    .how = Baste what is not sewn. Sit, reach and bend; wet it if you can. Here a correction is cheap; after the elastic it is not.
step-ring = Join the elastic to rings: { $count ->
        [one] one
       *[other] { $count }
    }
    .how = Lap the ends, two rows of zigzag. Copy the marks onto the elastic.
step-elastic_leg = Elastic of the legs
    .how = Wrong side up, elastic on top, edge to edge, mark on mark.
step-elastic_waist = Elastic of the waist
    .how = Wrong side up, elastic on top, edge to edge, mark on mark; the join at the centre back.
step-elastic_neckline = Elastic of the neckline
    .how = Wrong side up, elastic on top, edge to edge, mark on mark; flat over the shoulders.
step-elastic_armhole = Elastic of the armholes
    .how = Wrong side up, elastic on top, edge to edge, mark on mark.
step-elastic_underbust = Elastic under the bust
    .how = Wrong side up, elastic on top, flat under the cups, its ease in the back.
step-elastic_top = Elastic of the upper edge
    .how = Wrong side up, elastic on top, quarter on quarter.
step-elastic_hem = Elastic of the hem
    .how = Wrong side up, elastic on top, quarter on quarter.
step-elastic_wrist = Elastic of the sleeves
    .how = Wrong side up, elastic on top, quarter on quarter.
step-elastic_lining = Elastic of the lining's free edge
    .how = Before the lining meets the shell: wrong side up, elastic on top, mark on mark.
step-turn_leg = Turn and topstitch the legs
    .how = Once to the inside. From the right side; pull the edge as it is worn, no further.
step-turn_waist = Turn and topstitch the waist
    .how = Once to the inside. From the right side; pull the edge as it is worn, no further.
step-turn_casing = Fold the casing and topstitch it
    .how = Over the elastic to the inside. From the right side; stretch as it is worn; leave the eyelets free.
step-turn_neckline = Turn and topstitch the neckline
    .how = Once to the inside. From the right side; pull the edge as it is worn, no further.
step-turn_armhole = Turn and topstitch the armholes
    .how = Once to the inside. From the right side; pull the edge as it is worn, no further.
step-turn_underbust = Turn and topstitch the lower edge
    .how = Once to the inside. From the right side; pull the edge as it is worn, no further.
step-turn_top = Turn and topstitch the upper edge
    .how = Once to the inside. From the right side; pull the edge as it is worn, no further.
step-turn_hem = Turn and topstitch the hem
    .how = Once to the inside. From the right side; pull the edge as it is worn, no further.
step-turn_wrist = Turn and topstitch the sleeves
    .how = Once to the inside. From the right side; pull the edge as it is worn, no further.
step-hem = Hems
    .how = Turn once, from the right side; lengthen the stitch before you stretch the cloth.
step-hem_slit = Slits at the sides
    .how = Turn both edges in. Topstitch up one side, across above the slit and down the other. Bar tack where the seam begins.
step-hem_sleeve = Hems of the sleeves
    .how = Turn once, from the right side; a small ring: start at the seam.
step-hem_lining = Free edge of the lining
    .how = Neaten it, or leave warp knit as it was cut.
step-channel = Channel for the tie
    .how = Shell and lining as one, turned once, open at both ends.
step-rinse = Fasten threads and rinse
    .how = Fasten every end, take the basting out. Rinse in cool water and dry flat, out of the sun.
step-inspect = Look it over and measure
    .how = Lay it flat and measure. Pull every seam by hand as far as it is worn: no stitch may pop or be skipped. Look at the crotch and pull the straps.
step-try_on_finished = Try it on, dry and then wet
    .how = Dry first: sit, reach, bend. Then wet, in daylight: look whether it shows, and where the edges sit.

## Parts of the work

phase-prove = Prove
phase-cut = Cut
phase-join = Join the shell
phase-lining = Lining
phase-fit = Try on
phase-elastic = Elastic
phase-finish = Finish

## Notes of a step

note-ease = Ease the { $ease } one side is longer, between the notches.
note-stay_shoulder = Stay the seam with a strip of clear elastic laid on flat, so that the straps do not grow.
note-stay_skirt = Lay clear elastic on flat, one to one, and sew through it: it stays the join.
note-stay_zip = A zip does not stretch: stay its edges, or they wave.
note-ring_over_scrap = Join first, sew on after. Where the elastic is thin, sew the join over a scrap of lining.
note-cups_to_lining = To the lining, never to the shell.
note-soft_side_in = Soft side to the skin.
note-neaten_ends = Neaten both ends and leave them free.
note-lining_inside = The lining ends 2 to 3 mm inside the edge; it must not stand out.
note-match_marks = Spread the ease between two marks only, never over one.
note-leg_ease = Flat along the front; all the ease in the curve under the seat.
note-eyelet_patch = A firm patch that does not stretch under each eyelet.
note-cord_tacked = Tacked at the centre back it cannot be pulled out.
note-straps_by_trial = Their length is found on the body, not on the paper.

## Pressing

press-finger = Finger press; do not iron.
press-iron = Iron at most { $celsius } °C, no steam, press cloth, from the wrong side, after the test.
press-iron_tried = Iron at { $celsius } °C as in “{ $sample }”.
press-never = No iron: elastic, foam and net melt or age.

## Stitches

stitch-straight = straight stitch
stitch-twin_needle = twin needle
stitch-zigzag = zigzag
stitch-three_step = three-step zigzag
stitch-triple_straight = triple straight stitch
stitch-slanted = slanted stretch stitch
stitch-household_overlock = overlock stitch of a household machine
stitch-chain = chainstitch, two threads
stitch-cover_two = cover stitch, two needles
stitch-cover_three = cover stitch, three needles
stitch-cover_top = cover stitch, two needles, covered above and below
stitch-overedge_three = overedge, three threads
stitch-overlock_four = overlock, four threads

## Jobs

job-join = joining seams
job-crotch = crotch seam
job-layer_baste = lining to shell, basted
job-baste = basting for the try-on
job-neaten = neatening a free edge
job-gather = gathering
job-elastic_ring = joining elastic
job-anchor = anchoring elastic
job-edge_topstitch = topstitching turned edges
job-topstitch = topstitching
job-hem = hems
job-casing = casings
job-cups = cups, pockets and channels
job-tube = straps and ties
job-bar_tack = bar tacks
job-skirt_join = skirt to suit
job-zip = zip

## Classes of seam

seam_class-superimposed = superimposed seam
seam_class-lapped = lapped seam
seam_class-bound = bound seam
seam_class-flat = flat seam
seam_class-ornamental = stitching on a ply
seam_class-edge_finishing = edge finishing
seam_class-attaching = attaching to an edge
seam_class-single_ply = one ply folded on itself

## What a stitch rests on, and why

evidence-sample = measured on a sample
evidence-forecast = forecast from its settings
evidence-practice = common practice
why-unstretched = Nothing is stretched here.
why-covers_cloth = Reaches { $reaches } of { $asked } asked: as far as the cloth itself.
why-covers_need = Reaches { $reaches } of { $asked } asked.
why-short = Reaches only { $reaches } of { $asked } asked. Do not wear it sewn like this.
why-straight_cracks = A straight stitch cracks first when a knit seam is pulled along its length.
why-elastic_thread = With the elastic thread in stock.
why-by_sample = Measured on the sample “{ $sample }”.
why-by_forecast = A forecast from the settings: prove it on a scrap.
why-by_practice = Common practice for this stitch: prove it on a scrap.
why_not-rejected = { $stitch }: a sample of it was no good.
why_not-straight = { $stitch }: cracks in a seam that is stretched.
why_not-short = { $stitch }: reaches { $reaches } of { $asked } asked.
why_not-bulky = { $stitch }: reaches { $reaches }, but lies thicker.
why_not-shorter = { $stitch }: reaches { $reaches }, less than this one.
why_not-second = { $stitch }: reaches { $reaches }, and would do as well.
could-elastic_thread = With an elastic thread in needle and bobbin, { $stitch } would reach { $reaches } of { $asked }: prove it first.
could-elastic_thread_short = Even with an elastic thread, { $stitch } would reach only { $reaches } of { $asked }.
could-machine = With { $machine }: { $stitch }, { $reaches }.

## Machines

machine-zigzag = a zigzag machine
machine-overlocker = an overlocker
machine-coverstitch = a coverstitch machine

## Settings

tension-normal = normal
tension-slightly_loose = slightly loose
tension-loose = loose
tension-loose_loopers = loopers looser, for textured thread
tension-loose_looper = looper loose
tension-loose_bobbin = bobbin loose
also-knife_off = Knife off, or shaving lint only: never cut the elastic.
also-knife_trims = The knife trims: mind the allowance.
also-zip_foot = Zip foot.
also-zip_foot_missing = A zip foot is missing: sew with the needle set to the side.
also-even_feed_foot = Walking or roller foot.
also-differential_one = Differential feed above one if the edge waves.
also-foot_pressure_low = Little foot pressure.
also-foot_pressure_least = Least foot pressure: foam.

## Needles and threads

needle-light_ball = light ball point
needle-ball = ball point
needle-stretch = stretch
thread-spun_polyester = spun polyester
thread-textured_polyester = textured polyester
thread-textured_polyamide = textured polyamide
thread-polyamide_filament = polyamide filament
thread-elastic = elastic thread
thread-cotton = cotton
thread_place-needle = needle
thread_place-bobbin = bobbin
thread_place-looper = looper

## Elastic

elastic_join-ring = Joined first: lap { $overlap } at mark { $mark }, two rows of zigzag.
elastic_join-open = Not joined: it runs from one end of the edge to the other.
elastic-latex = Natural rubber: ask the wearer about latex.
elastic-latex_ask = May hold natural rubber: read the label, and ask the wearer about latex.
elastic-latex_free = Free of latex.
elastic-keeps_width = Keeps its width when stretched.
elastic-narrows_slightly = Narrows a little when stretched.
elastic-narrows = Narrows when stretched.
elastic-chlorine_good = Holds in pool water.
elastic-chlorine_fair = Ages in pool water: rinse, and look at it.
elastic-chlorine_poor = Not for frequent pool use.
elastic-works_to = Works to { $extension } longer.

## Scraps

scrap-iron = { $cloth }: iron, coolest setting first, press cloth, no steam.
scrap-seam = { $cloth }, two plies: { $stitch } { $width } wide, { $length } long, for { $job }. Pull { $asked }.
scrap-edge = { $cloth } with elastic: { $stitch } { $width } wide, { $length } long, for { $job }. Pull { $asked }.
scrap-elastic = { $kind }, { $width }: wash it, pull it as far as it is worn, let go and measure again.
scrap-wet = { $cloth }: wet it, stretch it as it is worn over a printed page, in daylight. What can be read wants lining.

## Shopping

buy-cloth = { $cloth }, { $width } wide
buy-elastic = Elastic: { $kind }, { $width }
buy-thread = Thread: { $thread }, Tex { $tex }
buy-needle = Needles: { $point } { $size }
buy-needle_twin = Twin needle: { $point } { $size }, { $spacing }
buy-cups = Cups { $letter }: { $width_low } to { $width_high } wide, { $height_low } to { $height_high } high, a pair
buy-cups_unknown = Cups, a pair: size by bust less underbust
buy-ring = Rings
buy-slider = Sliders
buy-hook = Hooks
buy-clasp = Clasp
buy-zip = Zip
buy-eyelet = Eyelets
buy-cord = Cord
buy-boning = Boning
buy-pins = Ball-point pins or clips
buy_note-by_lay = From the lay.
buy_note-by_area = No lay yet: from the area, with a good third for waste. Never less than { $least }.
buy_note-width_assumed = The width was not entered: { $width } is assumed.
buy_note-thread = { $packages ->
        [one] On one spool.
       *[other] Divided over { $packages } spools or cones.
    }
buy_note-pins = Pins inside the allowances only; count them.
buy_note-coated = Plastic-coated or stainless, { $width } inside.
buy_note-zip = { $length } long, plastic.
buy_note-eyelet_patch = With firm patches that do not stretch.
buy_note-cord_child = For a child: fixed at the middle, no knots or toggles, at most 75 mm out at each end.
buy_note-cups_smaller = Between two sizes take the smaller and try it.
