# Titel, Tabellenköpfe, Beschriftungen und was die Zeichnungen zeigen.

about = { $suit }: zuschneiden, nähen, anprobieren, pflegen
page = Seite
contents = Inhalt
running = { $suit }, Fassung { $version }
running-class = { $style }, Kursausgabe
count-pages = { $count ->
    [one] { $count } Seite
   *[other] { $count } Seiten
}

cover-for = Angefertigt für { $wearer }
cover-for-whom = Angefertigt für
cover-style = { $style }, Passform { $fit }
cover-version = Fassung { $version }. Dieselbe Nummer steht auf dem Schnittmuster: beide gehören zusammen.
cover-class = Kursausgabe: Die Linien sind für die eigenen Zahlen.
cover-figure = Strichzeichnung von vorn und hinten: { $style }.
view-front = vorn
view-back = hinten

sign-good = Gut
sign-watch = Prüfen
sign-stop = Halt
sign-mind = Achtung
sign-heed = Wichtig

wearer-title = Die Maße
wearer-lead = Nach diesen Körpermaßen ist der Schnitt gezeichnet. Stimmt eines nicht, stimmt der Schnitt nicht.
cloth-title = Die Stoffe
cloth-lead = Die größte Dehnung liegt immer um den Körper, beim Oberstoff wie beim Futter.
ladder-title = Wie das Modell sitzen wird
ladder-lead = Was jede Höhe des Körpers dem Stoff abverlangt und was ihm noch bleibt.
pieces-title = Die Schnittteile
pieces-lead = Abhaken, was zugeschnitten und gezeichnet ist.
cutting-title = Auflegen und Zuschneiden
cutting-lead = Einlagig zuschneiden, den Stoff ruhen lassen und nie in Form ziehen.
scraps-title = Erst am Stoffrest erproben
scraps-lead = Zehn Minuten am Rest ersparen einen Abend mit dem Nahttrenner.
elastic-title = Der Gummiplan
elastic-lead = Wo das Gummiband glatt liegt und wo es die Weite einhält.
order-title = Arbeitsfolge
order-lead = Eins nach dem anderen; Erledigtes abhaken.
shopping-title = Einkaufsliste
shopping-lead = Was das Modell braucht, mit etwas Zugabe.
try-on-title = Anprobe
try-on-lead = Zuerst geheftet, da ist Ändern leicht; dann fertig, trocken und nass.
care-title = Pflege, Lebensdauer und Ausbessern
care-lead = Bademode stirbt an Chlor, an Hitze und an Vernachlässigung, in dieser Reihenfolge.
cautions-title = Warnhinweise
cautions-lead = Alle, die für dieses Modell gelten. Jeder steht noch einmal dort, wo er gebraucht wird.
glossary-title = Wörter
glossary-lead = Für jede Sache ein Wort, dasselbe wie auf dem Schnittmuster.
sources-title = Woher die Regeln stammen
sources-lead = Und wie weit man sich auf sie verlassen kann.

column-dimension = Maß
column-length = Länge
column-how = Woher
column-second = Zweite Messung
column-level = Höhe
column-body = Körper
column-cut = Schnitt
column-worn = Getragen
column-left = Übrig
column-judged = Urteil
column-opening = Öffnung
column-rest = In Ruhe
column-passes = Muss über
column-needs = Braucht
column-cloth = Stoff
column-around = Rundum
column-lengthwise = Längs
column-lies = Wie er liegt
column-elastic = Gummiband
column-width = Breite
column-buy = Kaufen
column-drawing = Zeichnung
column-piece = Schnittteil
column-to-cut = Zuschneiden
column-done = Fertig
column-scrap = Probe
column-stitch = Stich
column-settings = Einstellung
column-reaches = Dehnt bis
column-verdict = Urteil
column-heat = Temperatur
column-press-cloth = Bügeltuch
column-mark = Marke
column-arc = Beginn von
column-on-edge = An der Kante
column-on-elastic = Am Gummi
column-ratio = Verhältnis
column-look-at = Worauf achten
column-basted = Geheftet
column-finished = Fertig
column-measure = Maß, flach und ungedehnt
column-should-be = Soll
column-tolerance = Toleranz
column-is = Ist
column-date = Datum
column-hours = Stunden im Wasser
column-grown = Seitennaht jetzt
column-seen = Was aufgefallen ist

table-dimensions = Körpermaße
table-ladder = Die Dehnung auf jeder Höhe des Körpers
table-way-in = Jede Öffnung und der Umfang, über den sie muss
table-cloths = Die Stoffe, ihre Dehnung und wie sie liegen
table-buy = Gummiband, das gekauft wird
table-pieces = Alle Schnittteile und was davon zugeschnitten wird
table-scraps = Nähproben, mit Linien für das Ergebnis
table-iron = Bügelproben, mit Linien für das Ergebnis
table-marks = Marken an Kante und Gummiband, von der ersten Marke an gemessen
table-try-on = Worauf bei der Anprobe zu achten ist, mit Linien zum Ausfüllen
table-measures = Maße des fertigen Modells, mit Linien für die eigenen
table-diary = Tagebuch des Modells, zum Ausfüllen

taken = gemessen
estimated = geschätzt
estimated-note = Geschätzte Maße sind nicht gemessen, sondern nach einer veröffentlichten Reihenmessung aus den übrigen errechnet. Nachgemessen wird die nächste Fassung sicherer.
makers-notes = Eigene Notizen
write-name-date = Name, Datum und wer gemessen hat

ladder-how = Jede Sprosse ist eine Höhe am Körper. Das Zeichen zeigt, wie viel seiner eigenen Dehnung ein Stoff dort verbraucht: Links der ersten Schiene bleibt genug für die Bewegung, rechts der zweiten bleibt nichts mehr.
ladder-figure = Die Dehnung von oben nach unten: { $rungs }.
ladder-worn = { $worn } getragen
ladder-reserve = 45 %
ladder-most = 85 %
ladder-caption = Gefülltes Zeichen über der Sprosse: Oberstoff. Offenes darunter: Futter.
way-in-heading = Hineinkommen
way-in-how = Bademode ist kleiner als der Körper: Jede Öffnung muss sich über die breiteste Stelle dehnen, an der sie vorbeimuss.

elastic-heading = Gummiband
elastic-buy-note = Mit einem Zehntel Zugabe und 20 cm für die Dehnprobe, auf Viertelmeter gerundet. Vor dem Abmessen waschen oder einweichen.
elastic-how = Oben liegt die Kante, darunter das Gummiband, ein Strich je Zentimeter Kante. Wo die Striche gerade stehen, wird glatt aufgenäht; wo sie sich neigen, ist das Band kürzer und hält die Weite ein. Beide zeichnen, Marke auf Marke stecken und die Weite immer nur zwischen zwei Marken verteilen.
elastic-figure = { $edge }, flach gezeichnet mit dem Gummiband: { $arcs }.
edge-times = { $count ->
    [one] { $edge }
    [2] { $edge }, zweimal
   *[other] { $edge }, { $count }-mal
}
elastic-class-caption = Nicht maßstäblich: Alle Abschnitte sind gleich lang gezeichnet. Die eigenen Längen auf die Linien schreiben.
ratio-flat = glatt
fact-cut = Zuschnittlänge
fact-cut-each = Zuschnittlänge, je
fact-overlap = Überlappung

piece-figure = { $piece }: Umriss mit Nahtlinie, Fadenlauf und Buchstabe.
piece-letter = Buchstabe { $letter }
cut-one = { $count } × { $cloth } ({ $layer })
cut-pair = { $count } × { $cloth } ({ $layer }), gegengleich
cut-done = { $piece } ist zugeschnitten
cloth-not-chosen = ein noch zu wählender Stoff
pieces-note = Die kleinen Zeichnungen sind untereinander nicht maßstäblich. Der Pfeil ist der Fadenlauf; alles Weitere steht auf dem Schnittmuster.

write-cloth-used = Verwendeter Stoff und was übrig blieb
write-wet = Was durchscheint
write-try-on-date = Datum und wie lange getragen
write-change-next = Was in der nächsten Fassung anders wird
write-worked = Was sich an der eigenen Maschine bewährt hat

measures-heading = Das fertige Modell, nachgemessen
measures-how = Flach auslegen, nicht ziehen und messen. Was weiter abweicht, als die Toleranz erlaubt, zeigt, welche Naht noch einmal anzusehen ist.
life-heading = Wie lange das Stück hält
repair-heading = Ausbessern
iron-heading = Bügeln
wet-heading = Nass und gedehnt

order-worn-solved = Die Stiche sind dafür gewählt, wie weit das Modell getragen gedehnt wird, aus der Berechnung auf ihrer Körperform.
order-time = Insgesamt { $time } an Maschine und Tisch. Das sind übliche Zeiten für alle, die schon Maschenware genäht haben.
step-done = { $step } ist erledigt
column-number = Nr.
column-step = Schritt
column-time = Zeit
table-order = Alle Schritte der Reihe nach, mit Kästchen zum Abhaken
side-wrong-up = linke Seite oben
side-right-up = rechte Seite oben
lead-time = { $phase }. { $time }
lead-time-side = { $phase }. { $time }; beim Nähen { $side }
step-figure = { $step }: { $pieces }; die Naht kräftig gezeichnet, schattiert, wo die linke Seite oben liegt.
wrong-side = linke Seite
elastic-word = Gummi
section-joined = Naht im Schnitt: zwei Lagen rechts auf rechts, die Nadel sticht von links durch beide.
section-elastic-on = Kante im Schnitt: Gummi auf der linken Seite, Kante auf Kante, die Nadel sticht durch Gummi und Stoff.
section-turned = Kante im Schnitt: einmal über das Gummi umgeschlagen, die Nadel sticht von rechts durch alle Lagen.
section-hem = Saum im Schnitt: einmal umgeschlagen, zwei Reihen nebeneinander von rechts.
section-layered = Zwei Lagen im Schnitt, links auf links, als eine gefasst.
section-lapped = Zwei Lagen im Schnitt, überlappt und durchgenäht.
stitch-reach = gibt { $gives } nach, braucht { $needs }
stitch-unstretched = hier wird nichts gedehnt
stitch-runner-up = Zweite Wahl: { $why }
stitch-not-safe = So genäht nicht tragen.
fact-needle = Nadel NM
stitch-thread = Fadenspannung { $tension }; { $thread }.
fact-allowance = Nahtzugabe
workroom-straight-stitch-machine = Geradstichmaschine
workroom-zigzag-machine = Zickzackmaschine
workroom-four-thread-overlocker = Vierfaden-Overlock
workroom-coverstitch-machine = Covermaschine
column-pull-to = 10 cm dehnen auf
column-what = Was
column-needed = Bedarf
table-shopping = Was zu kaufen ist, mit Kästchen zum Abhaken
shopping-note = Der Faden ist mit reichlich Zugabe für Proben und Einfädeln gerechnet. Eine neue Nadel gehört dazu: eine stumpfe lässt Stiche aus.
bought = { $what } ist gekauft

reading-title = So liest sich das Heft
reading-lead = Zu jedem Schritt eine Zeichnung aus den Schnittteilen dieses Modells.
reading-tape = Auf Papier, mit 100 % gedruckt, stimmt das Maßband am Rand, und man kann an ihm messen, was auf der Seite liegt. Stimmt es nicht, auf diesem Papier nichts abmessen.
reading-steps = Jeder Schritt sagt, welche Seite oben liegt, wie weit der Stich sich dehnen muss und was der Reihe nach zu tun ist: a, b, c.
reading-note = Die gepunkteten Linien sind für Eigenes: Was sich bewährt hat, gehört dorthin; das nächste Modell fängt dann dort an.
table-legend = Die Linien der Zeichnungen
column-means = Bedeutung
legend-figure = Muster: { $sign }
legend-cut = hier schneiden
legend-seam = Nahtlinie
legend-fold = Stoffbruch oder Mitte eines Teils
legend-grain = Fadenlauf: parallel zur Webkante
legend-sewn = wird in diesem Schritt genäht
legend-elastic = Gummiband an einer Kante
legend-wrong-side = schattiert: Die linke Seite liegt oben
legend-needle = hier setzt die Nadel an
