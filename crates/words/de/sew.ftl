### Was der Abschnitt Nähen und die Werkbank um die Worte des Plans (`make.ftl`) herum sagen. Größen kommen als fertiger Text.

## Der Abschnitt

sew-nothing = Noch nichts zu nähen
sew-now = Schritt { $number } von { $count }. { $step }.
sew-all-done = Alle { $count } Schritte sind getan.
sew-time = { $time } im Ganzen: übliche Praxis, für jemanden, der schon Maschenware genäht hat.
sew-worn-solved = Die Stiche sind danach gewählt, wie weit der Anzug auf ihrer Körperform gedehnt ist, wie im Abschnitt Tragen berechnet.
sew-worn-drafted = Die Stiche sind nach den Dehnungen gewählt, die der Schnitt vorsieht. Im Abschnitt Tragen auf die Körperform gesetzt, richten sie sich danach, wie er getragen wird.
sew-step-time = { $time }, aus der Praxis
sew-zigzag-assumed = In der Werkstatt ist keine Maschine eingetragen: geplant ist für eine Zickzackmaschine, wie sie im Haushalt steht.
sew-zigzag-next = Die vorhandenen Maschinen eintragen.
sew-cannot = Mit diesen Maschinen lässt sich nicht sicher nähen: { $jobs }.
sew-cannot-machine = Mit { $machine } ginge es: { $jobs }.
sew-no-machine = Keine Maschine hier näht { $steps }.
sew-no-machine-next = Die Maschine ergänzen, mit der es genäht wird, oder von Hand nähen.
sew-add = Mit { $machine }: { $jobs }.
sew-add-job = { $job } mit { $stitch }
sew-add-saves = Etwa { $time } schneller, aus der Praxis.
sew-add-safe = Sicher würde damit: { $jobs }.

## Schritte

sew-side-wrong = Linke Seite oben unter der Nadel.
sew-side-right = Rechte Seite oben unter der Nadel.
sew-class = Klasse { $number }: { $name }
sew-runs = { $count ->
        [one] eine Strecke
       *[other] { $count } Strecken
    }
sew-drawing-sewn = { $pieces }; hier genäht: { $edges }.
sew-drawing-handled = { $pieces }; in der Hand: { $edges }.
sew-drawing-plain = { $pieces }.
sew-edges-more = { $edges } und weitere
sew-bare-scraps = Keine Zeichnung: das geschieht an Resten, ehe ein Teil zugeschnitten ist.
sew-bare-cloth = Keine Zeichnung: der ganze Stoff ist in der Hand.
sew-bare-paper = Keine Zeichnung: der Seitenplan im Abschnitt Papier zeigt es.
sew-bare-lay = Keine Zeichnung: der Abschnitt Auflage zeigt, wo jedes Teil liegt.
sew-bare-elastic = Keine Zeichnung: nur der Gummi ist in der Hand; der Gummiplan hat seine Marken.
sew-bare-suit = Keine Zeichnung: der ganze Anzug ist in der Hand.
sew-cut-from = { $count } aus { $cloth }
sew-cut-pair = { $count } aus { $cloth }, ein linkes und ein rechtes
sew-mark-letters = { $letters } für den Gummi anzeichnen.
sew-mark-points = Anzeichnen: { $points }.
sew-washed = { $cloths } waschen: der Schnitt gilt für gewaschenen Stoff.
sew-shrinks = { $cloths } ungewaschen zuschneiden: der Schnitt rechnet mit dem eingetragenen Einlaufen.
sew-shrinkage-unknown = Für { $cloths } ist kein Einlaufen eingetragen. Erst einen gemessenen Rest waschen; läuft er ein, den Stoff waschen und es eintragen.

## Einstellungen

sew-set-needle = Nadel
sew-set-thread = Faden
sew-set-allowance = Nahtzugabe
sew-set-tension = Fadenspannung
sew-set-seam = Zu nähen
sew-set-cut = Gummi, geschnitten
sew-set-cut-each = Gummi, je geschnitten
sew-set-overlap = Überlappung
sew-set-marks = Marken
sew-set-count = Zuschneiden
sew-rows = { $count ->
        [one] eine Reihe
       *[other] { $count } Reihen
    }
sew-width-length = { $width } breit, { $length } lang
sew-length-only = { $length } lang
sew-spacing = Zwilling, { $spacing } Abstand
sew-not-in-stock = nicht vorrätig
sew-threads = { $above }; unten { $below }

## Stiche

sew-in-steps = { $count ->
        [one] Schritt { $steps }
       *[other] Schritte { $steps }
    }
sew-need-parts = getragen { $worn }, Bewegung { $movement }, beim Anziehen { $way_in }
sew-runner-up = Nächstbester: { $why }

## Gummi

sew-elastic-worn = Getragen gedehnt
sew-elastic-pull = Zug
sew-elastic-pressure = Druck
sew-pressure-limits = ansehen über { $watch }, nicht nähen über { $stop }
sew-pressure-relative = Nur im Vergleich: die Kraft dieses Gummis ist nicht gemessen. Gut, um Kanten gegeneinander zu halten, kein Wert für sich.
sew-ring-passes = Geht, wo er muss: öffnet sich auf { $opens }, { $passes } müssen hindurch.
sew-ring-stuck = Geht nicht: öffnet sich auf { $opens }, aber { $passes } müssen hindurch.
