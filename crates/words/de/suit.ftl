# Namen der Teile: Lagen, Höhen, Kanten, Schnittteile, Maße.


# Layers
layer-shell = Oberstoff
layer-lining = Futter
layer-mesh = Powernet
layer-contrast = zweiter Oberstoff

# Fits
fit-relaxed = locker
fit-regular = normal
fit-firm = fest
fit-race = Wettkampf

# How a cloth lies
lies-upright = aufrecht: die Stoffbreite liegt rundum
lies-turned = gedreht: die Stofflänge liegt rundum
load-hand = von Hand gezogen, bis er sperrt
load-weighed = mit { $pull } gezogen
cloth-load = Dehnung des Oberstoffs, wie geprüft: { $load }.
cloth-together = Oberstoff und Futter zusammen dehnen sich { $around } rundum und { $lengthwise } längs: weniger als jeder für sich.

# Levels of the body
level-neck-base = Halsansatz
level-shoulder = Schulter
level-upper-chest = Oberbrust
level-bust = Brust
level-chest = Brustkorb
level-under-bust = Unterbrust
level-waist = Taille
level-navel = Nabel
level-high-hip = Hohe Hüfte
level-hip = Hüfte
level-crotch = Schritt
level-thigh = Oberschenkel

# Openings on the way in
opening-waist = Taille
opening-neckline-and-back-opening = Ausschnitt und Rücken
opening-leg = Bein
opening-band = Unterbrustband
opening-hem = Saum
opening-neck = Hals
opening-wrist = Handgelenk

# Open edges
edge-leg = Beinausschnitt
edge-waist = Taille
edge-neckline = Ausschnitt
edge-armhole = Armausschnitt
edge-underbust = Unterbrustkante
edge-top = Oberkante
edge-hem = Saum
edge-wrist = Ärmelende

# Arcs of an edge
arc-crotch = Schritt
arc-front = vorn
arc-side = Seite
arc-back = hinten
arc-strap = Träger
arc-underarm = Achsel

# Kinds of elastic
elastic-cotton-covered-braided-rubber-swim = Baumwollumflochtenes Gummiband
elastic-flat-rubber-thin-strip = Flachgummi
elastic-braided-polyester-over-rubber-or-elastane = Flechtgummi aus Polyester
elastic-knitted = Gestricktes Gummiband
elastic-woven = Gewebtes Gummiband
elastic-clear-polyurethane = Transparentes Polyurethanband
elastic-fold-over-knitted = Falzgummi
elastic-plush-or-picot-lingerie = Wäschegummi mit Plüsch oder Pikotkante
elastic-swim-strap-elastic-tubular-or-plush = Trägergummi
elastic-silicone-backed-gripper = Silikonband

# Styles
style-one-piece = Badeanzug
style-halter-one-piece = Neckholder-Badeanzug
style-two-piece = Bikini
style-crop-top = Crop-Top
style-bandeau = Bandeau
style-triangle-top = Triangel-Top
style-halter-top = Neckholder-Top
style-sports-top = Sport-Top
style-tankini = Tankini
style-brief = Badehöschen
style-side-tie = Höschen zum Binden
style-fold-over = Höschen mit Umschlagbund
style-trunks = Badehose
style-jammer = Jammer
style-square-leg = Badehose mit geradem Bein
style-boys-trunks = Jungenbadehose
style-childs-jammer = Kinder-Jammer
style-swim-shorts = Badeshorts
style-swim-dress = Badekleid
style-rash-top = Badeshirt
style-sun-suit = UV-Overall

# Dimensions of the body
dimension-stature = Körpergröße
dimension-bust-girth = Brustumfang
dimension-upper-chest-girth = Oberbrustumfang
dimension-underbust-girth = Unterbrustumfang
dimension-waist-girth = Taillenumfang
dimension-high-hip-girth = Hochhüftumfang
dimension-hip-girth = Hüftumfang
dimension-thigh-girth = Oberschenkelumfang
dimension-neck-base-girth = Halsansatzumfang
dimension-shoulder-girth = Schulterumfang über beide Arme
dimension-armscye-girth = Armlochumfang
dimension-upper-arm-girth = Oberarmumfang
dimension-wrist-girth = Handgelenkumfang
dimension-trunk-circumference = Rumpfumfang, senkrecht
dimension-crotch-length = Schrittlänge, von Taille zu Taille
dimension-crotch-length-front = Schrittlänge, vorderer Teil
dimension-back-waist-length = Rückenlänge
dimension-front-waist-length = Vordere Taillenlänge
dimension-side-neck-to-bust-point = Brusttiefe, vom Halspunkt
dimension-bust-point-distance = Brustpunktabstand
dimension-shoulder-length = Schulterbreite
dimension-side-length = Seitenlänge, von der Achsel zur Taille
dimension-waist-to-hip = Hüfttiefe
dimension-rise-height = Sitzhöhe, von der Taille zum Schritt
dimension-across-back = Rückenbreite
dimension-across-front = Vorderbreite
dimension-arm-length = Armlänge
dimension-crotch-height = Schritthöhe
dimension-waist-height = Taillenhöhe
dimension-bust-girth-man = Brustumfang
dimension-bust-girth-child = Brustumfang

# Parts of the names of pieces
part-front = Vorderteil
part-back = Rückenteil
part-front-lining = Vorderteilfutter
part-back-lining = Rückenteilfutter
part-front-mesh = Vorderteil aus Powernet
part-back-mesh = Rückenteil aus Powernet
part-centre-front = Mittleres Vorderteil
part-centre-front-lining = Futter des mittleren Vorderteils
part-centre-front-mesh = Mittleres Vorderteil aus Powernet
part-side-front = Seitliches Vorderteil
part-side-front-lining = Futter des seitlichen Vorderteils
part-side-front-mesh = Seitliches Vorderteil aus Powernet
part-brief-front = Höschen-Vorderteil
part-brief-back = Höschen-Rückenteil
part-brief-front-lining = Futter des Höschen-Vorderteils
part-brief-back-lining = Futter des Höschen-Rückenteils
part-triangle = Triangel
part-triangle-lining = Triangelfutter
part-crotch-lining = Zwickelfutter
part-gusset = Zwickel
part-pouch-lining = Futter des Vorderbeutels
part-band = Band
part-yoke = Passe
part-lower-part = unterer Teil
part-upper-part = oberer Teil
part-middle = Mitte
part-side-panel = Seitenstreifen
part-left = links
part-right = rechts
part-tie-under-the-bust = Bindeband unter der Brust
part-boning-channel = Stäbchentunnel
part-collar-band = Kragenblende
part-cord = Kordel
part-cup-pocket = Cup-Tasche
part-neck-piece = Nackenteil
part-neck-strap = Nackenträger
part-neck-tie = Nackenband zum Binden
part-pouch-pocket = Tasche für den Stomabeutel
part-the-wearers-left = von der Trägerin aus links
part-the-wearers-right = von der Trägerin aus rechts
part-the-wearers-right-turn-the-paper-over = von der Trägerin aus rechts (Papier wenden)
part-prosthesis-pocket = Prothesentasche
part-skirt = Rock
part-front-and-back = Vorder- und Rückenteil
part-sleeve = Ärmel
part-strap = Träger
part-shoulder-tie = Schulterband zum Binden
part-tie = Bindeband
part-waistband = Bund
part-zip-shield = Reißverschlussuntertritt

# Measures of the finished suit
measure-across-at-the-hip = Quer auf Hüfthöhe
measure-across-the-bust-side-seam-to-side-seam = Quer über die Brust, von Seitennaht zu Seitennaht
measure-across-the-waist-side-seam-to-side-seam = Quer in der Taille, von Seitennaht zu Seitennaht
measure-across-2-cm-above-the-leg-at-the-side = Quer, 2 cm über dem Beinausschnitt an der Seite
measure-armhole-once-round = Armausschnitt, rundum
measure-back-seam-top-to-fork = Hintere Mittelnaht, von der Oberkante bis zum Schritt
measure-back-top-edge-side-to-side = Hintere Oberkante, von Seite zu Seite
measure-band-once-round = Band, rundum
measure-band-pulled-up = Band, hochgezogen
measure-base-of-each-triangle-dart-closed = Unterkante je Triangel, Abnäher geschlossen
measure-between-the-princess-seams-at-the-waist = Zwischen den Wiener Nähten in der Taille
measure-bone-in-each-side-seam = Stäbchen in jeder Seitennaht
measure-brief-centre-back-top-to-crotch-seam = Höschen: hintere Mitte, von der Oberkante bis zur Schrittnaht
measure-brief-centre-front-top-to-crotch-seam = Höschen: vordere Mitte, von der Oberkante bis zur Schrittnaht
measure-brief-side-seam-leg-to-top = Höschen: Seitennaht, vom Beinausschnitt bis zur Oberkante
measure-brief-top-edge-once-round = Höschen: Oberkante, rundum
measure-centre-back-band-to-crotch-seam = Hintere Mitte, vom Band bis zur Schrittnaht
measure-centre-back-neckline-to-crotch-seam = Hintere Mitte, vom Ausschnitt bis zur Schrittnaht
measure-centre-back-neckline-to-hem = Hintere Mitte, vom Ausschnitt bis zum Saum
measure-centre-back-top-to-crotch-seam = Hintere Mitte, von der Oberkante bis zur Schrittnaht
measure-centre-back-top-to-lower-edge-or-band = Hintere Mitte, von der Oberkante bis zur Unterkante oder zum Band
measure-centre-back-upper-to-lower-edge = Hintere Mitte, von der Ober- bis zur Unterkante
measure-centre-front-band-to-crotch-seam = Vordere Mitte, vom Band bis zur Schrittnaht
measure-centre-front-neckline-to-crotch-seam = Vordere Mitte, vom Ausschnitt bis zur Schrittnaht
measure-centre-front-neckline-to-hem = Vordere Mitte, vom Ausschnitt bis zum Saum
measure-centre-front-neckline-to-lower-edge-or-band = Vordere Mitte, vom Ausschnitt bis zur Unterkante oder zum Band
measure-centre-front-top-to-crotch-seam = Vordere Mitte, von der Oberkante bis zur Schrittnaht
measure-centre-front-upper-to-lower-edge-before-gathering = Vordere Mitte, von der Ober- bis zur Unterkante, vor dem Kräuseln
measure-collar-band-end-to-end = Kragenblende, von Ende zu Ende
measure-collar-band-finished-height = Kragenblende, fertige Höhe
measure-crotch-edge-to-edge-at-its-seam = Schritt, von Kante zu Kante an der Naht
measure-each-neck-strap-front-to-the-middle-of-the-neck = Je Nackenträger, vom Vorderteil bis zur Nackenmitte
measure-each-neck-tie-from-the-point = Je Nackenband, ab der Spitze
measure-each-shoulder-tie = Je Schulterband
measure-each-strap-edge-to-edge-of-the-suit = Je Träger, von Kante zu Kante
measure-front-neckline-strap-to-strap = Vorderer Ausschnitt, von Träger zu Träger
measure-front-seam-top-to-fork = Vordere Mittelnaht, von der Oberkante bis zum Schritt
measure-front-top-edge-side-to-side = Vordere Oberkante, von Seite zu Seite
measure-gusset-front-to-back = Zwickel, von vorn nach hinten
measure-hem-once-round = Saum, rundum
measure-inner-edge-of-each-triangle = Innenkante je Triangel
measure-inseam-fork-to-hem = Innere Beinnaht, vom Schritt bis zum Saum
measure-leg-hem-once-round = Beinsaum, rundum
measure-leg-opening-once-round = Beinausschnitt, rundum
measure-lower-edge-before-its-elastic-once-round = Unterkante vor dem Gummi, rundum
measure-neck-piece-from-the-front-to-the-middle-of-the-back-of-the-neck = Nackenteil, vom Vorderteil bis zur Nackenmitte
measure-neckline-and-back-once-round = Ausschnitt und Rücken, rundum
measure-neckline-once-round = Halsausschnitt, rundum
measure-neckline-strap-to-strap = Ausschnitt, von Träger zu Träger
measure-outer-edge-of-each-triangle = Außenkante je Triangel
measure-shoulder-seam = Schulternaht
measure-side-edge-before-it-is-gathered = Seitenkante vor dem Kräuseln
measure-side-seam-hem-to-top = Seitennaht, vom Saum bis zur Oberkante
measure-side-seam-hem-to-underarm = Seitennaht, vom Saum bis zur Achsel
measure-side-seam-leg-to-band = Seitennaht, vom Beinausschnitt bis zum Band
measure-side-seam-leg-to-top = Seitennaht, vom Beinausschnitt bis zur Oberkante
measure-side-seam-leg-to-underarm = Seitennaht, vom Beinausschnitt bis zur Achsel
measure-side-seam-lower-to-upper-edge = Seitennaht, von der Unter- bis zur Oberkante
measure-side-seam-underarm-to-lower-edge = Seitennaht, von der Achsel bis zur Unterkante
measure-skirt-hem-once-round = Rocksaum, rundum
measure-skirt-join-to-finished-hem = Rock, von der Ansatznaht bis zum fertigen Saum
measure-sleeve-at-the-underarm-once-round = Ärmel an der Achsel, rundum
measure-sleeve-cap-underarm-line-to-its-top = Armkugel, von der Achsellinie bis zum höchsten Punkt
measure-sleeve-end-once-round = Ärmelende, rundum
measure-sleeve-seam-underarm-to-end = Ärmelnaht, von der Achsel bis zum Ende
measure-strap-edge-to-edge-at-the-shoulder = Träger, von Kante zu Kante an der Schulter
measure-strap-edge-to-edge-where-it-leaves-the-front = Träger, von Kante zu Kante am Vorderteil
measure-tie-under-the-bust-end-to-end = Bindeband unter der Brust, von Ende zu Ende
measure-top-edge-once-round = Oberkante, rundum
measure-top-edge-once-round-before-its-elastic = Oberkante, rundum, vor dem Gummi
measure-upper-edge-once-round = Obere Kante, rundum
measure-waistband-finished-depth = Bund, fertige Breite
measure-zip-neckline-to-its-end = Reißverschluss, vom Ausschnitt bis zum Ende
