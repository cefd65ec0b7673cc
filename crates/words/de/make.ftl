### Die Arbeitsplanung in Worten. Ein Schlüssel des Plans ist hier eine Nachricht mit Bindestrichen statt Punkten: `step.side` ist `step-side`.
### Längen, Anteile und Einstellungen kommen als fertiger Text in den Einheiten der Leserin.

## Schritte: Titel und wie

step-prove = Stiche und Gummi an Stoffresten erproben
    .how = Jede Probe der Liste nähen, mit Gummi an der Kante, wo es dort steht. So weit ziehen, wie die Liste sagt: Nichts darf reißen, und die Probe muss zurückspringen. Aufschreiben, was gehalten hat.
step-prove_iron = Das Bügeleisen an einem Rest probieren
    .how = Bügeltuch auf die linke Seite legen, das Eisen aufsetzen und abheben, nie schieben. Auf Glanz, Kleben und verlorene Dehnung achten, bevor eine Naht gebügelt wird.
step-wash = Stoff, Futter und Gummi waschen
    .how = Waschen oder einweichen wie später das fertige Stück, liegend trocknen und einen Tag ruhen lassen. Was ungewaschen zugeschnitten wird, läuft später am fertigen Stück ein.
step-check_paper = Das Papier prüfen
    .how = Das Maßquadrat in beiden Richtungen messen, die Seiten zusammenkleben und Naht an Naht legen: gleich lang, Knips auf Knips.
step-lay_out = Auflegen
    .how = Die größte Dehnung rundum, bei Oberstoff und Futter; Muster richtig herum. Den Stoff ohne Zug liegen lassen; Gewichte statt Nadeln.
step-cut = { $piece } zuschneiden: { $count ->
        [one] einmal
       *[other] { $count }-mal
    }
    .how = Auf der Linie schneiden. Knipse höchstens halb so tief wie die Nahtzugabe. Linke Seite, Buchstabe und alle Gummimarken zeichnen.
step-dart = Abnäher
    .how = Jeden Abnäher Linie auf Linie falten, von der Seite zur Spitze nähen, auslaufen lassen und verknoten. Nach unten legen.
step-princess = Wiener Nähte, links und rechts
    .how = Zuerst die Knipse an Taille und Brust stecken, dann vom Bein zur Brust und weiter zum Armausschnitt nähen.
step-panel = Teilungsnähte
    .how = Rechts auf rechts, Knips auf Knips, vom Bein nach oben. Wo zwei Stoffe zusammentreffen, liegt der weniger dehnbare unten.
step-diagonal = Schräge Naht im Vorderteil
    .how = Rechts auf rechts, Knips auf Knips. Die Naht liegt im schrägen Fadenlauf: an keiner Lage ziehen.
step-across = Quernähte: Passen, Bänder, Taille oder Unterbrust
    .how = Rechts auf rechts, zuerst Mitten und Knipse, flach und bevor die Seiten geschlossen sind.
step-centre_front = Vordere Mitte
    .how = Rechts auf rechts, von der Oberkante zum Schritt oder vom Ende des Reißverschlusses an. Die Rundung zweimal nähen.
step-centre_back = Hintere Mitte
    .how = Rechts auf rechts, von der Oberkante zum Schritt oder vom Ende des Reißverschlusses an. Die Rundung zweimal nähen.
step-crotch = Schrittnaht
    .how = Rechts auf rechts, Vorderteil an Rückenteil, Beinkante an Beinkante. Schmal nähen: Sie liegt unter dem Körper.
step-crotch_lining = Zwickelfutter
    .how = Innen über die Schrittnaht legen, die gepunktete Linie auf der Naht. Die Seiten an die Beinkanten heften.
step-inseam = Innere Beinnähte
    .how = Vorderteil an Rückenteil, die Schrittnähte treffen aufeinander; beide Beine in einem Zug, von Saum zu Saum.
step-side = Seitennähte, links und rechts
    .how = Rechts auf rechts, Knips auf Knips, von unten nach oben. An keiner Lage ziehen.
step-shoulder = Schulternähte, links und rechts
    .how = Rechts auf rechts, Halskante an Halskante.
step-sleeve = Ärmel, flach eingesetzt
    .how = Armkugel an Armausschnitt, einfacher Knips nach vorn, doppelter nach hinten, bevor die Seiten geschlossen sind. Seite und Ärmel sind danach eine Naht.
step-collar = Kragen
    .how = Die Blende zum Ring schließen, falten, Blende und Ausschnitt vierteln und die Blende beim Nähen auf den Ausschnitt dehnen.
step-band_ring = Band zum Ring schließen
    .how = Rechts auf rechts, Ende auf Ende. Die Naht kommt in die hintere Mitte.
step-band = Band annähen
    .how = Band und Kante vierteln. Rechts auf rechts, das Band auf die Kante dehnen, nie die Kante auf das Band.
step-elastic_in_band = Gummi in das Band
    .how = Den Gummiring in den Bruch legen, Viertel auf Viertel, und entlang einer Kante in der Nahtzugabe mitfassen.
step-attach = Träger und Bindebänder annähen
    .how = Enden auf ihre Marken, rechts auf rechts, und noch einmal zurück darüber.
step-strap = Träger, Bindebänder und Untertritte
    .how = Der Länge nach falten, rechts auf rechts, die lange Kante nähen und wenden; die Naht liegt in der Mitte der Unterseite.
step-skirt_side = Seitennähte des Rocks
    .how = Rechts auf rechts, vom Saum nach oben.
step-skirt_hem = Rocksaum
    .how = Einmal umschlagen und von rechts nähen. Bevor der Rock angesetzt ist.
step-skirt = Rock ansetzen
    .how = Auf der gepunkteten Linie, Seiten auf Seitennähte, Mitten auf Mitten, die rechte Seite des Rocks nach außen.
step-lining_edge = Triangel und ihr Futter
    .how = Rechts auf rechts an beiden langen Kanten, die Unterkante bleibt offen. Noch nicht wenden: Zuerst kommt das Gummi auf die Nahtzugabe.
step-other = Naht
    .how = Rechts auf rechts, Knips auf Knips.
step-lining_dart = Abnäher im Futter
    .how = Wie im Oberstoff, aber zur anderen Seite gelegt, damit sie nicht aufeinanderliegen.
step-lining_princess = Wiener Nähte im Futter
    .how = Wie im Oberstoff.
step-lining_panel = Teilungsnähte im Futter
    .how = Wie im Oberstoff.
step-lining_centre_front = Vordere Mitte im Futter
    .how = Wie im Oberstoff.
step-lining_centre_back = Hintere Mitte im Futter
    .how = Wie im Oberstoff.
step-lining_crotch = Schrittnaht im Futter
    .how = Wie im Oberstoff; die Nahtzugaben liegen aufeinander zu, damit nichts scheuert.
step-lining_inseam = Innere Beinnähte im Futter
    .how = Wie im Oberstoff.
step-lining_side = Seitennähte im Futter
    .how = Wie im Oberstoff.
step-lining_shoulder = Schulternähte im Futter
    .how = Wie im Oberstoff.
step-lining_other = Naht im Futter
    .how = Wie im Oberstoff.
step-cup_pocket = Cup-Taschen auf das Futter
    .how = Jede Öffnung säumen. Die Taschen um die Brustpunkte auf die linke Seite des Futters nähen; die Öffnung bleibt frei.
step-cups = Cups an das Futter
    .how = Mittig auf die Brustpunkte, Schaumstoff oben, nur am Rand entlang.
step-prosthesis_pocket = Tasche für eine Brustprothese
    .how = Die Öffnung säumen. Die Tasche auf ihrer Marke auf die linke Seite des Futters nähen; die Öffnung bleibt frei.
step-pouch_pocket = Tasche für den Stomabeutel
    .how = Die Öffnung säumen. Die Tasche hinter der Stomaöffnung auf die linke Seite des Futters nähen; oben bleibt sie offen.
step-boning = Stäbchentunnel
    .how = Die Enden säumen, beide Längskanten über die Seitennähte des Futters nähen, das Stäbchen zuletzt einschieben.
step-mesh = Powernet auf das Futter
    .how = Das Netz zwischen Futter und Oberstoff, die Dehnung rundum, Kante auf Kante. Heften; von hier an sind sie ein Teil.
step-together = Oberstoff und Futter zusammen
    .how = Das Futter in den Oberstoff stecken, links auf links, Naht auf Naht. An allen offenen Kanten heften.
step-together_waist = Innenhose in den Oberstoff
    .how = Links auf links, Naht auf Naht. Nur in der Taille heften: Ihre Beine sind eigene.
step-part_lining = Futter auf das Vorderteil
    .how = Auf die linke Seite, Kante auf Kante. Rundum heften; von hier an sind sie ein Teil.
step-nursing = Stillöffnung
    .how = Auf der Marke im Futter ausschneiden und die Kante einfassen.
step-stoma = Öffnung für ein Stoma
    .how = Den Ring auf seiner Marke verstärken, ausschneiden, umschlagen und absteppen, dann die Tasche dahinter.
step-gather = Vorderteil kräuseln
    .how = Zwei Reihen lange Stiche zwischen den Marken; auf die Länge im Schnitt zusammenziehen und mit transparentem Gummi sichern.
step-zip = Reißverschluss
    .how = Beide Kanten mit einem undehnbaren Streifen verstärken. Heften, dann von unten nach oben nähen, beide Seiten in derselben Richtung.
step-slit = Schlitz für den Verschluss
    .how = Den Schlitz mit einem Beleg belegen, umnähen, aufschneiden, wenden und absteppen.
step-clasp = Steckverschluss
    .how = Jedes Ende durch seine Hälfte falten und festnähen.
step-eyelets = Ösen
    .how = Unter jede ein festes Stück Stoff, dann einschlagen, bevor der Tunnel gefaltet wird.
step-cord = Kordel
    .how = Einziehen und in der hinteren Mitte festnähen.
step-hook_facing = Beleg für die Haken
    .how = Auf die linke Seite jeder Rückenkante einen festen Streifen legen. Die Kante darüber umschlagen und absteppen.
step-hooks = Haken am Rücken
    .how = Haken und Ösen um die belegten Kanten falten und festnähen.
step-neck_hook = Haken im Nacken
    .how = Die freien Enden auf ihrer Marke durch Haken und Öse falten und festnähen.
step-cross_straps = Träger kreuzen
    .how = Vorn an die Vorderkante heften, gekreuzt zur anderen Seite des Rückens. Anprobieren, strecken, kürzen und jedes Ende zweimal nähen.
step-rings = Ringe und Schieber
    .how = Die Trägerenden durch ihre Ringe falten und festnähen.
step-thread_tie = Bindeband durch den Tunnel
    .how = Das Band einziehen, auf beiden Seiten gleich lang, und die Enden verknoten.
step-try_on_basted = Anprobe, geheftet
    .how = Heften, was noch nicht genäht ist. Sitzen, strecken und bücken; wenn möglich auch nass. Hier ist Ändern leicht, nach dem Gummi nicht mehr.
step-ring = Gummi zu Ringen schließen: { $count ->
        [one] einer
       *[other] { $count }
    }
    .how = Die Enden überlappen, zwei Reihen Zickzack. Die Marken auf das Band übertragen.
step-elastic_leg = Gummi an den Beinausschnitten
    .how = Linke Seite oben, Gummi darauf, Kante auf Kante, Marke auf Marke.
step-elastic_waist = Gummi in der Taille
    .how = Linke Seite oben, Gummi darauf, Kante auf Kante, Marke auf Marke; der Zusammenschluss in der hinteren Mitte.
step-elastic_neckline = Gummi am Ausschnitt
    .how = Linke Seite oben, Gummi darauf, Kante auf Kante, Marke auf Marke; über die Schultern glatt.
step-elastic_armhole = Gummi an den Armausschnitten
    .how = Linke Seite oben, Gummi darauf, Kante auf Kante, Marke auf Marke.
step-elastic_underbust = Gummi unter der Brust
    .how = Linke Seite oben, Gummi darauf, unter den Cups glatt, die Weite hinten einhalten.
step-elastic_top = Gummi an der Oberkante
    .how = Linke Seite oben, Gummi darauf, Viertel auf Viertel.
step-elastic_hem = Gummi am Saum
    .how = Linke Seite oben, Gummi darauf, Viertel auf Viertel.
step-elastic_wrist = Gummi an den Ärmeln
    .how = Linke Seite oben, Gummi darauf, Viertel auf Viertel.
step-elastic_lining = Gummi an der freien Futterkante
    .how = Bevor das Futter an den Oberstoff kommt: linke Seite oben, Gummi darauf, Marke auf Marke.
step-turn_leg = Beinausschnitte umschlagen und absteppen
    .how = Einmal nach innen. Von rechts nähen; die Kante so weit dehnen, wie sie getragen wird, nicht weiter.
step-turn_waist = Taille umschlagen und absteppen
    .how = Einmal nach innen. Von rechts nähen; die Kante so weit dehnen, wie sie getragen wird, nicht weiter.
step-turn_casing = Tunnel falten und absteppen
    .how = Über das Gummi nach innen. Von rechts nähen und dehnen, wie es getragen wird; die Ösen bleiben frei.
step-turn_neckline = Ausschnitt umschlagen und absteppen
    .how = Einmal nach innen. Von rechts nähen; die Kante so weit dehnen, wie sie getragen wird, nicht weiter.
step-turn_armhole = Armausschnitte umschlagen und absteppen
    .how = Einmal nach innen. Von rechts nähen; die Kante so weit dehnen, wie sie getragen wird, nicht weiter.
step-turn_underbust = Unterkante umschlagen und absteppen
    .how = Einmal nach innen. Von rechts nähen; die Kante so weit dehnen, wie sie getragen wird, nicht weiter.
step-turn_top = Oberkante umschlagen und absteppen
    .how = Einmal nach innen. Von rechts nähen; die Kante so weit dehnen, wie sie getragen wird, nicht weiter.
step-turn_hem = Saum umschlagen und absteppen
    .how = Einmal nach innen. Von rechts nähen; die Kante so weit dehnen, wie sie getragen wird, nicht weiter.
step-turn_wrist = Ärmelkanten umschlagen und absteppen
    .how = Einmal nach innen. Von rechts nähen; die Kante so weit dehnen, wie sie getragen wird, nicht weiter.
step-hem = Säume
    .how = Einmal umschlagen, von rechts nähen; lieber den Stich verlängern als am Stoff ziehen.
step-hem_slit = Seitenschlitze
    .how = Beide Kanten nach innen umschlagen. An einer Seite hinauf, quer über das Schlitzende und an der anderen hinunter steppen. Am Nahtanfang verriegeln.
step-hem_sleeve = Ärmelsäume
    .how = Einmal umschlagen, von rechts nähen; ein kleiner Ring: an der Naht beginnen.
step-hem_lining = Freie Futterkante
    .how = Versäubern oder Kettenwirkware so lassen, wie sie geschnitten ist.
step-channel = Tunnel für das Bindeband
    .how = Oberstoff und Futter zusammen einmal umschlagen, an beiden Enden offen.
step-rinse = Fäden vernähen und ausspülen
    .how = Jedes Ende vernähen, die Heftfäden ziehen. In kühlem Wasser spülen und liegend im Schatten trocknen.
step-inspect = Durchsehen und nachmessen
    .how = Flach auslegen und messen. Jede Naht von Hand so weit ziehen, wie sie getragen wird: Kein Stich darf reißen oder fehlen. Den Schritt ansehen und an den Trägern ziehen.
step-try_on_finished = Anprobe, trocken und dann nass
    .how = Zuerst trocken: sitzen, strecken, bücken. Dann nass bei Tageslicht: Was scheint durch, wo sitzen die Kanten?

## Teile der Arbeit

phase-prove = Erproben
phase-cut = Zuschneiden
phase-join = Oberstoff zusammennähen
phase-lining = Futter
phase-fit = Anprobe
phase-elastic = Gummi
phase-finish = Fertigstellen

## Hinweise zu einem Schritt

note-ease = Die { $ease }, um die eine Seite länger ist, zwischen den Knipsen einhalten.
note-stay_shoulder = Die Naht mit glatt aufgelegtem transparentem Gummi sichern, damit die Träger nicht länger werden.
note-stay_skirt = Transparentes Gummi eins zu eins glatt auflegen und mitnähen: Es sichert die Ansatznaht.
note-stay_zip = Ein Reißverschluss dehnt sich nicht: Die Kanten verstärken, sonst wellen sie sich.
note-ring_over_scrap = Erst schließen, dann annähen. Dünnes Band über einem Rest Futter zusammennähen.
note-cups_to_lining = Immer an das Futter, nie an den Oberstoff.
note-soft_side_in = Die weiche Seite zur Haut.
note-neaten_ends = Beide Enden versäubern und frei lassen.
note-lining_inside = Das Futter endet 2 bis 3 mm innerhalb der Kante; es darf nicht hervorstehen.
note-match_marks = Die Weite immer nur zwischen zwei Marken verteilen, nie über eine hinweg.
note-leg_ease = Vorn glatt; die ganze Weite in der Rundung unter dem Gesäß einhalten.
note-eyelet_patch = Unter jede Öse ein festes Stück Stoff, das sich nicht dehnt.
note-cord_tacked = In der hinteren Mitte festgenäht, lässt sie sich nicht herausziehen.
note-straps_by_trial = Ihre Länge zeigt sich am Körper, nicht auf dem Papier.

## Bügeln

press-finger = Mit dem Finger ausstreichen, nicht bügeln.
press-iron = Höchstens { $celsius } °C, ohne Dampf, mit Bügeltuch, von links, erst nach der Probe.
press-iron_tried = Bügeln mit { $celsius } °C wie in „{ $sample }“.
press-never = Nicht bügeln: Gummi, Schaumstoff und Netz schmelzen oder altern.

## Stiche

stitch-straight = Geradstich
stitch-twin_needle = Zwillingsnadel
stitch-zigzag = Zickzackstich
stitch-three_step = Genähter Zickzack, drei Stiche
stitch-triple_straight = Dreifach-Geradstich
stitch-slanted = Schräger Stretchstich
stitch-household_overlock = Overlockstich der Haushaltsmaschine
stitch-chain = Kettenstich, zwei Fäden
stitch-cover_two = Coverstich, zwei Nadeln
stitch-cover_three = Coverstich, drei Nadeln
stitch-cover_top = Coverstich, zwei Nadeln, oben und unten gedeckt
stitch-overedge_three = Overlock, drei Fäden
stitch-overlock_four = Overlock, vier Fäden

## Arbeiten

job-join = Verbindungsnähte
job-crotch = Schrittnaht
job-layer_baste = Futter an Oberstoff heften
job-baste = Heften zur Anprobe
job-neaten = Freie Kante versäubern
job-gather = Kräuseln
job-elastic_ring = Gummi schließen
job-anchor = Gummi aufnähen
job-edge_topstitch = Umgeschlagene Kanten absteppen
job-topstitch = Absteppen
job-hem = Säume
job-casing = Tunnel
job-cups = Cups, Taschen und Tunnel
job-tube = Träger und Bindebänder
job-bar_tack = Riegel
job-skirt_join = Rock ansetzen
job-zip = Reißverschluss

## Nahtklassen

seam_class-superimposed = aufeinanderliegende Naht
seam_class-lapped = überlappte Naht
seam_class-bound = eingefasste Naht
seam_class-flat = Flachnaht
seam_class-ornamental = Steppen auf einer Lage
seam_class-edge_finishing = Kantenverarbeitung
seam_class-attaching = Ansetzen an eine Kante
seam_class-single_ply = in sich gefaltete Lage

## Worauf ein Stich beruht und warum

evidence-sample = an einer Probe gemessen
evidence-forecast = aus den Einstellungen vorhergesagt
evidence-practice = übliche Praxis
why-unstretched = Hier wird nichts gedehnt.
why-covers_cloth = Erreicht { $reaches } von { $asked }, die verlangt sind: so weit wie der Stoff selbst.
why-covers_need = Erreicht { $reaches } von { $asked }, die verlangt sind.
why-short = Erreicht nur { $reaches } von { $asked }, die verlangt sind. So genäht nicht tragen.
why-straight_cracks = Ein Geradstich reißt zuerst, wenn eine Naht in Maschenware der Länge nach gedehnt wird.
why-elastic_thread = Mit dem vorhandenen elastischen Faden.
why-by_sample = Gemessen an der Probe „{ $sample }“.
why-by_forecast = Aus den Einstellungen vorhergesagt: an einem Rest erproben.
why-by_practice = Übliche Praxis für diesen Stich: an einem Rest erproben.
why_not-rejected = { $stitch }: Eine Probe damit war nicht gut.
why_not-straight = { $stitch }: reißt in einer gedehnten Naht.
why_not-short = { $stitch }: erreicht { $reaches } von { $asked }, die verlangt sind.
why_not-bulky = { $stitch }: erreicht { $reaches }, liegt aber dicker.
why_not-shorter = { $stitch }: erreicht { $reaches }, weniger als dieser.
why_not-second = { $stitch }: erreicht { $reaches } und ginge ebenso gut.
could-elastic_thread = Mit elastischem Faden oben und unten würde { $stitch } { $reaches } von { $asked } erreichen: erst erproben.
could-elastic_thread_short = Auch mit elastischem Faden würde { $stitch } nur { $reaches } von { $asked } erreichen.
could-machine = Mit { $machine }: { $stitch }, { $reaches }.

## Maschinen

machine-zigzag = einer Zickzackmaschine
machine-overlocker = einer Overlockmaschine
machine-coverstitch = einer Covermaschine

## Einstellungen

tension-normal = normal
tension-slightly_loose = etwas lockerer
tension-loose = locker
tension-loose_loopers = Greifer lockerer, für Bauschgarn
tension-loose_looper = Greifer locker
tension-loose_bobbin = Unterfaden locker
also-knife_off = Messer abschalten oder nur Flusen schneiden lassen: nie das Gummi anschneiden.
also-knife_trims = Das Messer schneidet mit: auf die Nahtzugabe achten.
also-zip_foot = Reißverschlussfuß.
also-zip_foot_missing = Ein Reißverschlussfuß fehlt: die Nadel zur Seite stellen.
also-even_feed_foot = Obertransport- oder Rollenfuß.
also-differential_one = Differentialtransport über eins, wenn die Kante sich wellt.
also-foot_pressure_low = Geringer Fußdruck.
also-foot_pressure_least = Kleinster Fußdruck: Schaumstoff.

## Nadeln und Fäden

needle-light_ball = feine Kugelspitze
needle-ball = Kugelspitze
needle-stretch = Stretch
thread-spun_polyester = Polyester-Spinnfaser
thread-textured_polyester = Bauschgarn aus Polyester
thread-textured_polyamide = Bauschgarn aus Polyamid
thread-polyamide_filament = Polyamid-Endlosfaden
thread-elastic = elastischer Faden
thread-cotton = Baumwolle
thread_place-needle = Nadel
thread_place-bobbin = Spule
thread_place-looper = Greifer

## Gummi

elastic_join-ring = Zuerst schließen: { $overlap } überlappen an Marke { $mark }, zwei Reihen Zickzack.
elastic_join-open = Nicht geschlossen: Es läuft von einem Ende der Kante zum anderen.
elastic-latex = Naturkautschuk: die Trägerin oder den Träger nach Latex fragen.
elastic-latex_ask = Kann Naturkautschuk enthalten: das Etikett lesen und nach Latex fragen.
elastic-latex_free = Latexfrei.
elastic-keeps_width = Behält beim Dehnen seine Breite.
elastic-narrows_slightly = Wird beim Dehnen etwas schmaler.
elastic-narrows = Wird beim Dehnen schmaler.
elastic-chlorine_good = Hält in Chlorwasser.
elastic-chlorine_fair = Altert in Chlorwasser: ausspülen und im Auge behalten.
elastic-chlorine_poor = Nicht für häufiges Chlorwasser.
elastic-works_to = Arbeitet bis { $extension } Dehnung.

## Proben

scrap-iron = { $cloth }: bügeln, kleinste Hitze zuerst, Bügeltuch, kein Dampf.
scrap-seam = { $cloth }, zwei Lagen: { $stitch }, { $width } breit, { $length } lang, für { $job }. { $asked } dehnen.
scrap-edge = { $cloth } mit Gummi: { $stitch }, { $width } breit, { $length } lang, für { $job }. { $asked } dehnen.
scrap-elastic = { $kind }, { $width }: waschen, so weit dehnen, wie es getragen wird, loslassen und wieder messen.
scrap-wet = { $cloth }: nass machen und bei Tageslicht so gedehnt, wie er getragen wird, über eine bedruckte Seite halten. Was sich lesen lässt, wird gefüttert.

## Einkauf

buy-cloth = { $cloth }, { $width } breit
buy-elastic = Gummi: { $kind }, { $width }
buy-thread = Faden: { $thread }, Tex { $tex }
buy-needle = Nadeln: { $point } { $size }
buy-needle_twin = Zwillingsnadel: { $point } { $size }, { $spacing }
buy-cups = Cups { $letter }: { $width_low } bis { $width_high } breit, { $height_low } bis { $height_high } hoch, ein Paar
buy-cups_unknown = Cups, ein Paar: Größe nach Brust- minus Unterbrustumfang
buy-ring = Ringe
buy-slider = Schieber
buy-hook = Haken
buy-clasp = Steckverschluss
buy-zip = Reißverschluss
buy-eyelet = Ösen
buy-cord = Kordel
buy-boning = Stäbchen
buy-pins = Stecknadeln mit Kugelspitze oder Klammern
buy_note-by_lay = Nach dem Schnittbild.
buy_note-by_area = Noch kein Schnittbild: nach der Fläche, mit gut einem Drittel Verschnitt. Nie weniger als { $least }.
buy_note-width_assumed = Die Breite ist nicht eingetragen: { $width } angenommen.
buy_note-thread = { $packages ->
        [one] Auf einer Rolle.
       *[other] Auf { $packages } Rollen oder Konen verteilt.
    }
buy_note-pins = Nur innerhalb der Nahtzugaben stecken; zählen.
buy_note-coated = Kunststoffummantelt oder rostfrei, { $width } innen.
buy_note-zip = { $length } lang, Kunststoff.
buy_note-eyelet_patch = Mit festem Stoff darunter, der sich nicht dehnt.
buy_note-cord_child = Für ein Kind: in der Mitte festgenäht, keine Knoten oder Stopper, höchstens 75 mm an jedem Ende heraus.
buy_note-cups_smaller = Zwischen zwei Größen die kleinere nehmen und probieren.
