# A class: bag lists, one shopping list, one timetable.

class-page = page
class-for = For { $wearer }, of { $suit }
class-version = version { $version }

## The bag list

class-bag = Bag list
class-bag-lead = Tick it off as it goes into the bag. Lengths are cut lengths: nothing is to be taken off them.
class-in-bag = Paper
class-paper-pattern = The pattern, { $file }
class-paper-pattern-note = { $pages ->
        [one] One page. Print at 100 % and measure its square first.
       *[other] { $pages } pages. Print page 1 at 100 %, measure its square, then print the rest.
    }
class-paper-booklet = The booklet, { $file }
class-paper-list = This list
class-cloth = Cloth
class-cloth-lengths = A length of each cloth, off the roll; the pieces are laid and cut from it.
class-cloth-pieces = Cut pieces, each marked with its letter and the wearer’s name on the wrong side.
class-cloth-basis = Reckoned from the area of the pieces with a good third for waste: no lay was made for it.
class-cloth-basis-lay = As long as its lay, and 20 cm for tests.
class-cloth-width = { $width } wide
class-pieces-count = { $count ->
        [one] one
       *[other] { $count }
    }
class-pieces-pair = { $count }, left and right
class-elastic = Elastic, cut
class-elastic-lead = Washed, marked with the letters of its edge, and tied with a tag.
class-elastic-edge = { $edge }: { $kind }, { $width }
class-thread = Thread and needles
class-thread-row = { $thread } for the { $place }
class-thread-packages = { $packages ->
        [one] on one spool
       *[other] on { $packages } spools or cones
    }
class-small = Small parts
class-scraps = Scraps to sew first
class-scraps-lead = Off the same cloth and elastic, 15 cm by 5 cm, with the bag. Nothing of the suit is sewn before they held.
class-bring = To bring
class-bring-worn = Smooth close underwear or a swimsuit to try the suit on over
class-bring-scissors = Cloth scissors or a cutter, and paper scissors
class-bring-tape = A tape and a rule in the same unit
class-bring-pins = A pencil, a marker that washes out, and own pins or clips, counted
class-bring-notes = The booklet with what was written in it last time
class-turns = Time in the room
class-turns-lead = To begin with: who is quicker goes on, who is slower takes the next free machine.
class-cautions = Take care
class-child = For a child
class-child-carer = Name of the carer who comes along
class-child-photos = No photographs are taken or kept of a child. Measuring and trying on only with the carer present, over thin clothes; write down what you see.

## The shopping list

class-shopping = Shopping list
class-shopping-lead = For { $people ->
        [one] one person
       *[other] { $people } people
    } together, rounded up once. What each has a share of stands beside it.
class-shopping-lacks = Not in it: { $names }. The design cannot be drafted for them yet.
class-shares = Shares
class-share-of = { $name } { $amount }
class-cost = In all { $cost }.
class-no-cost = Without a sum: a line to buy has no price.
class_note-lengths_by_area = { $people ->
        [one] One length
       *[other] { $people } lengths
    } cut off for each person, from the areas of their pieces with a good third for waste and 20 cm for tests each. All pieces together would take { $least } with no waste at all.
class_note-lengths_by_lay = { $people ->
        [one] One length
       *[other] { $people } lengths
    } cut off for each person, each as long as the lay of its kit and 20 cm for tests. No lay of all of them is shorter than { $least }.
class_note-together_by_area = All suits of { $people ->
        [one] one person
       *[other] { $people } people
    } laid together: from the area of all pieces, with a good third for waste and 20 cm for tests. Never less than { $least }.
class_note-together_by_lay = All suits of { $people ->
        [one] one person
       *[other] { $people } people
    } laid together: as long as that lay, whose plan is in the folder, and 20 cm for tests. No lay can be shorter than { $least }.
class_note-together_would = Laid together on one length and cut by one hand it would take { $length }.
class_note-elastic = Cut lengths of all edges together { $net }, a tenth for trimming and 20 cm for the test.
class_note-thread = For all together. { $packages ->
        [one] One spool
       *[other] At least { $packages } spools or cones
    } when every machine is threaded at once.
class_note-needles = A new one for every suit, and { $machines ->
        [one] one to spare
       *[other] { $machines } to spare
    }: one a machine.
class_note-twin = { $machines ->
        [one] It stays in its machine
       *[other] They stay in their { $machines } machines
    } for the whole class.

## The timetable

class-timetable = Timetable
class-timetable-lead = { $people ->
        [one] One person shares
       *[other] { $people } people share
    } { $machines }. { $sessions ->
        [one] One session
       *[other] { $sessions } sessions
    } of { $hours }: { $minutes } of work in class.
class-timetable-middle = Minutes are ranges of practice at home, without a published source. This timetable reckons with the middle of each range.
class-timetable-slow = Minutes are ranges of practice at home, without a published source. This timetable reckons with the slow end of each range.
class-timetable-bound = No order of work in this room can take less than { $bound }: this one is { $over } above that. One person after another would take { $alone }.
class-timetable-best = No order of work in this room can take less than { $bound }, and this one does not. One person after another would take { $alone }.
class-timetable-order = Every plan keeps its order, and a machine sews for one person at a time. A step that would not end in its session waits for the next.
class-timetable-cut = Changing thread or needle between two people is not reckoned, nor is the teacher’s own time.
class-before = Before the class: { $what }.
class-before-wash = wash cloth, lining and elastic, and let them lie for a day
class-before-prove = sew and try the scraps
class-before-cut = lay out and cut
class-letters = Letters of the people
class-numbers = Numbers of the steps
class-letter = { $letter } { $name }
class-session = Session { $number }
class-by-machine = By machine
class-by-person = By person
class-machine-straight = Straight-stitch machine
class-machine-zigzag = Zigzag machine
class-machine-overlocker = Four-thread overlocker
class-machine-coverstitch = Coverstitch machine
class-machine-of = { $count } × { $machine }
class-clock = { $from } to { $to }
class-hand-row = { $step }, by hand
class-hand = By hand
class-unit = { $machine } { $number }
class-operations = What is sewn on which machine
class-operations-lead = Minutes for one person, from a quick hand to a slow one; then how many do it, and all of them together as reckoned here.
class-nobody = Nobody’s suit could be drafted, so there is nothing to time.

class-col-what = What
class-col-length = Length
class-col-count = How many
class-col-letter = Letter
class-col-piece = Piece
class-col-needed = Needed
class-col-stock = In stock
class-col-buy = Buy
class-col-pack = Packs
class-col-cost = Cost
class-col-time = Time
class-col-who = Who
class-col-step = Step
class-col-where = Where
class-col-each = Minutes each
class-col-people = People
class-col-all = Together

## The folder

class-index = What is in this folder
class-index-lead = A folder for every person, and the sheets for the room.
class-index-people = People
class-index-room = For the room
class-index-none = Not drafted
class-index-csv = The shopping list for a spreadsheet
class-index-lay = How all kits lie on one length of { $cloth }
class-index-report = The class as data
class-index-why = Why
