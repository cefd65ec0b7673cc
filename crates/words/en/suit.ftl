# Names of the suit's own parts: layers, levels, edges, pieces, measures.


# Layers
layer-shell = shell
layer-lining = lining
layer-mesh = mesh
layer-contrast = second shell

# Fits
fit-relaxed = relaxed
fit-regular = regular
fit-firm = firm
fit-race = race

# How a cloth lies
lies-upright = upright: its width goes round the body
lies-turned = turned: its length goes round the body
load-hand = pulled by hand until it resists
load-weighed = pulled with { $pull }
cloth-load = Stretch of the shell as it was tested: { $load }.
cloth-together = Shell and lining sewn together stretch { $around } around and { $lengthwise } lengthwise: less than either alone.

# Levels of the body
level-neck-base = Neck base
level-shoulder = Shoulder
level-upper-chest = Upper chest
level-bust = Bust
level-chest = Chest
level-under-bust = Under-bust
level-waist = Waist
level-navel = Navel
level-high-hip = High hip
level-hip = Hip
level-crotch = Crotch
level-thigh = Thigh

# Openings on the way in
opening-waist = Waist
opening-neckline-and-back-opening = Neckline and back
opening-leg = Leg
opening-band = Band
opening-hem = Hem
opening-neck = Neck
opening-wrist = Wrist

# Open edges
edge-leg = Leg
edge-waist = Waist
edge-neckline = Neckline
edge-armhole = Armhole
edge-underbust = Under the bust
edge-top = Top edge
edge-hem = Hem
edge-wrist = Wrist

# Arcs of an edge
arc-crotch = crotch
arc-front = front
arc-side = side
arc-back = back
arc-strap = strap
arc-underarm = underarm

# Kinds of elastic
elastic-cotton-covered-braided-rubber-swim = Braided rubber, cotton-covered
elastic-flat-rubber-thin-strip = Flat rubber
elastic-braided-polyester-over-rubber-or-elastane = Braided polyester
elastic-knitted = Knitted elastic
elastic-woven = Woven elastic
elastic-clear-polyurethane = Clear polyurethane
elastic-fold-over-knitted = Fold-over elastic
elastic-plush-or-picot-lingerie = Plush or picot elastic
elastic-swim-strap-elastic-tubular-or-plush = Strap elastic
elastic-silicone-backed-gripper = Silicone gripper

# Styles
style-one-piece = One-piece
style-halter-one-piece = Halter one-piece
style-two-piece = Two-piece
style-crop-top = Crop top
style-bandeau = Bandeau
style-triangle-top = Triangle top
style-halter-top = Halter top
style-sports-top = Sports top
style-tankini = Tankini
style-brief = Brief
style-side-tie = Side-tie bottom
style-fold-over = Fold-over bottom
style-trunks = Trunks
style-jammer = Jammer
style-square-leg = Square-leg trunks
style-boys-trunks = Boys' trunks
style-childs-jammer = Child's jammer
style-swim-shorts = Swim shorts
style-swim-dress = Swim dress
style-rash-top = Rash top
style-sun-suit = Sun suit

# Dimensions of the body
dimension-stature = Stature
dimension-bust-girth = Bust girth
dimension-upper-chest-girth = Upper chest girth
dimension-underbust-girth = Under-bust girth
dimension-waist-girth = Waist girth
dimension-high-hip-girth = High hip girth
dimension-hip-girth = Hip girth
dimension-thigh-girth = Thigh girth
dimension-neck-base-girth = Neck base girth
dimension-shoulder-girth = Shoulder girth, over both arms
dimension-armscye-girth = Armscye girth
dimension-upper-arm-girth = Upper arm girth
dimension-wrist-girth = Wrist girth
dimension-trunk-circumference = Trunk circumference
dimension-crotch-length = Crotch length, waist to waist
dimension-crotch-length-front = Crotch length, front part
dimension-back-waist-length = Back waist length
dimension-front-waist-length = Front waist length
dimension-side-neck-to-bust-point = Side neck to bust point
dimension-bust-point-distance = Bust point distance
dimension-shoulder-length = Shoulder length
dimension-side-length = Side length, underarm to waist
dimension-waist-to-hip = Waist to hip
dimension-rise-height = Rise, waist to crotch
dimension-across-back = Across back
dimension-across-front = Across front
dimension-arm-length = Arm length
dimension-crotch-height = Inside leg length
dimension-waist-height = Waist height
dimension-bust-girth-man = Chest girth
dimension-bust-girth-child = Chest girth

# Parts of the names of pieces
part-front = Front
part-back = Back
part-front-lining = Front lining
part-back-lining = Back lining
part-front-mesh = Front mesh
part-back-mesh = Back mesh
part-centre-front = Centre front
part-centre-front-lining = Centre front lining
part-centre-front-mesh = Centre front mesh
part-side-front = Side front
part-side-front-lining = Side front lining
part-side-front-mesh = Side front mesh
part-brief-front = Brief front
part-brief-back = Brief back
part-brief-front-lining = Brief front lining
part-brief-back-lining = Brief back lining
part-triangle = Triangle
part-triangle-lining = Triangle lining
part-crotch-lining = Crotch lining
part-gusset = Gusset
part-pouch-lining = Pouch lining
part-band = Band
part-yoke = yoke
part-lower-part = lower part
part-upper-part = upper part
part-middle = middle
part-side-panel = side panel
part-left = left
part-right = right
part-tie-under-the-bust = Tie under the bust
part-boning-channel = Boning channel
part-collar-band = Collar band
part-cord = Cord
part-cup-pocket = Cup pocket
part-neck-piece = Neck piece
part-neck-strap = Neck strap
part-neck-tie = Neck tie
part-pouch-pocket = Pouch pocket
part-the-wearers-left = the wearer's left
part-the-wearers-right = the wearer's right
part-the-wearers-right-turn-the-paper-over = the wearer's right (turn the paper over)
part-prosthesis-pocket = Prosthesis pocket
part-skirt = Skirt
part-front-and-back = front and back
part-sleeve = Sleeve
part-strap = Strap
part-shoulder-tie = Shoulder tie
part-tie = Tie
part-waistband = Waistband
part-zip-shield = Zip shield

# Measures of the finished suit
measure-across-at-the-hip = Across at the hip
measure-across-the-bust-side-seam-to-side-seam = Across the bust, side seam to side seam
measure-across-the-waist-side-seam-to-side-seam = Across the waist, side seam to side seam
measure-across-2-cm-above-the-leg-at-the-side = Across, 2 cm above the leg at the side
measure-armhole-once-round = Armhole, once round
measure-back-seam-top-to-fork = Back seam, top to fork
measure-back-top-edge-side-to-side = Back top edge, side to side
measure-band-once-round = Band, once round
measure-band-pulled-up = Band, pulled up
measure-base-of-each-triangle-dart-closed = Base of each triangle, dart closed
measure-between-the-princess-seams-at-the-waist = Between the princess seams at the waist
measure-bone-in-each-side-seam = Bone in each side seam
measure-brief-centre-back-top-to-crotch-seam = Brief: centre back, top to crotch seam
measure-brief-centre-front-top-to-crotch-seam = Brief: centre front, top to crotch seam
measure-brief-side-seam-leg-to-top = Brief: side seam, leg to top
measure-brief-top-edge-once-round = Brief: top edge, once round
measure-centre-back-band-to-crotch-seam = Centre back, band to crotch seam
measure-centre-back-neckline-to-crotch-seam = Centre back, neckline to crotch seam
measure-centre-back-neckline-to-hem = Centre back, neckline to hem
measure-centre-back-top-to-crotch-seam = Centre back, top to crotch seam
measure-centre-back-top-to-lower-edge-or-band = Centre back, top to lower edge or band
measure-centre-back-upper-to-lower-edge = Centre back, upper to lower edge
measure-centre-front-band-to-crotch-seam = Centre front, band to crotch seam
measure-centre-front-neckline-to-crotch-seam = Centre front, neckline to crotch seam
measure-centre-front-neckline-to-hem = Centre front, neckline to hem
measure-centre-front-neckline-to-lower-edge-or-band = Centre front, neckline to lower edge or band
measure-centre-front-top-to-crotch-seam = Centre front, top to crotch seam
measure-centre-front-upper-to-lower-edge-before-gathering = Centre front, upper to lower edge, before gathering
measure-collar-band-end-to-end = Collar band, end to end
measure-collar-band-finished-height = Collar band, finished height
measure-crotch-edge-to-edge-at-its-seam = Crotch, edge to edge at its seam
measure-each-neck-strap-front-to-the-middle-of-the-neck = Each neck strap, front to the middle of the neck
measure-each-neck-tie-from-the-point = Each neck tie, from the point
measure-each-shoulder-tie = Each shoulder tie
measure-each-strap-edge-to-edge-of-the-suit = Each strap, edge to edge of the suit
measure-front-neckline-strap-to-strap = Front neckline, strap to strap
measure-front-seam-top-to-fork = Front seam, top to fork
measure-front-top-edge-side-to-side = Front top edge, side to side
measure-gusset-front-to-back = Gusset, front to back
measure-hem-once-round = Hem, once round
measure-inner-edge-of-each-triangle = Inner edge of each triangle
measure-inseam-fork-to-hem = Inseam, fork to hem
measure-leg-hem-once-round = Leg hem, once round
measure-leg-opening-once-round = Leg opening, once round
measure-lower-edge-before-its-elastic-once-round = Lower edge before its elastic, once round
measure-neck-piece-from-the-front-to-the-middle-of-the-back-of-the-neck = Neck piece, from the front to the middle of the back of the neck
measure-neckline-and-back-once-round = Neckline and back, once round
measure-neckline-once-round = Neckline, once round
measure-neckline-strap-to-strap = Neckline, strap to strap
measure-outer-edge-of-each-triangle = Outer edge of each triangle
measure-shoulder-seam = Shoulder seam
measure-side-edge-before-it-is-gathered = Side edge before it is gathered
measure-side-seam-hem-to-top = Side seam, hem to top
measure-side-seam-hem-to-underarm = Side seam, hem to underarm
measure-side-seam-leg-to-band = Side seam, leg to band
measure-side-seam-leg-to-top = Side seam, leg to top
measure-side-seam-leg-to-underarm = Side seam, leg to underarm
measure-side-seam-lower-to-upper-edge = Side seam, lower to upper edge
measure-side-seam-underarm-to-lower-edge = Side seam, underarm to lower edge
measure-skirt-hem-once-round = Skirt hem, once round
measure-skirt-join-to-finished-hem = Skirt, join to finished hem
measure-sleeve-at-the-underarm-once-round = Sleeve at the underarm, once round
measure-sleeve-cap-underarm-line-to-its-top = Sleeve cap, underarm line to its top
measure-sleeve-end-once-round = Sleeve end, once round
measure-sleeve-seam-underarm-to-end = Sleeve seam, underarm to end
measure-strap-edge-to-edge-at-the-shoulder = Strap, edge to edge at the shoulder
measure-strap-edge-to-edge-where-it-leaves-the-front = Strap, edge to edge where it leaves the front
measure-tie-under-the-bust-end-to-end = Tie under the bust, end to end
measure-top-edge-once-round = Top edge, once round
measure-top-edge-once-round-before-its-elastic = Top edge, once round, before its elastic
measure-upper-edge-once-round = Upper edge, once round
measure-waistband-finished-depth = Waistband, finished depth
measure-zip-neckline-to-its-end = Zip, neckline to its end
