# Ein Kurs: Taschenlisten, eine Einkaufsliste, ein Zeitplan.

class-page = Seite
class-for = Für { $wearer }, zu { $suit }
class-version = Fassung { $version }

## Die Taschenliste

class-bag = Taschenliste
class-bag-lead = Abhaken, was in der Tasche ist. Längen sind Zuschnittlängen: davon wird nichts mehr abgezogen.
class-in-bag = Papier
class-paper-pattern = Der Schnitt, { $file }
class-paper-pattern-note = { $pages ->
        [one] Eine Seite. Mit 100 % drucken und zuerst das Quadrat messen.
       *[other] { $pages } Seiten. Seite 1 mit 100 % drucken, das Quadrat messen, dann den Rest drucken.
    }
class-paper-booklet = Das Heft, { $file }
class-paper-list = Diese Liste
class-cloth = Stoff
class-cloth-lengths = Von jedem Stoff eine Länge vom Ballen; daraus werden die Teile gelegt und geschnitten.
class-cloth-pieces = Zugeschnittene Teile, jedes auf der linken Seite mit Buchstabe und Name.
class-cloth-basis = Nach der Fläche der Teile mit gut einem Drittel Verschnitt: ein Schnittbild gibt es dafür nicht.
class-cloth-basis-lay = So lang wie das Schnittbild, dazu 20 cm für Proben.
class-cloth-width = { $width } breit
class-pieces-count = { $count ->
        [one] eins
       *[other] { $count }
    }
class-pieces-pair = { $count }, links und rechts
class-elastic = Gummi, zugeschnitten
class-elastic-lead = Gewaschen, mit den Buchstaben der Kante gezeichnet und mit einem Zettel gebündelt.
class-elastic-edge = { $edge }: { $kind }, { $width }
class-thread = Garn und Nadeln
class-thread-row = { $thread }, { $place }
class-thread-packages = { $packages ->
        [one] auf einer Rolle
       *[other] auf { $packages } Rollen oder Konen
    }
class-small = Kleinteile
class-scraps = Proben, die zuerst genäht werden
class-scraps-lead = Vom selben Stoff und Gummi, 15 mal 5 cm, liegen in der Tasche. Vom Anzug wird nichts genäht, bevor sie gehalten haben.
class-bring = Mitzubringen
class-bring-worn = Glatte eng anliegende Wäsche oder ein Badeanzug zum Darüberprobieren
class-bring-scissors = Stoffschere oder Rollschneider, dazu eine Papierschere
class-bring-tape = Maßband und Lineal in derselben Einheit
class-bring-pins = Bleistift, auswaschbarer Stift und eigene Stecknadeln oder Klammern, gezählt
class-bring-notes = Das Heft mit dem, was beim letzten Mal eingetragen wurde
class-turns = Zeit im Raum
class-turns-lead = Für den Anfang: wer schneller ist, macht weiter, wer langsamer ist, nimmt die nächste freie Maschine.
class-cautions = Vorsicht
class-child = Für ein Kind
class-child-carer = Name der Begleitperson, die mitkommt
class-child-photos = Von einem Kind werden keine Fotos gemacht oder aufbewahrt. Messen und Anprobe nur mit Begleitperson, über dünner Kleidung; aufschreiben, was zu sehen ist.

## Die Einkaufsliste

class-shopping = Einkaufsliste
class-shopping-lead = Für { $people ->
        [one] eine Person
       *[other] { $people } Personen
    } zusammen, einmal aufgerundet. Daneben steht, wer welchen Anteil hat.
class-shopping-lacks = Nicht dabei: { $names }. Für sie lässt sich der Entwurf noch nicht zeichnen.
class-shares = Anteile
class-share-of = { $name } { $amount }
class-cost = Zusammen { $cost }.
class-no-cost = Ohne Summe: für eine Zeile fehlt der Preis.
class_note-lengths_by_area = { $people ->
        [one] Eine Länge
       *[other] { $people } Längen
    }, je Person abgeschnitten, nach der Fläche der Teile mit gut einem Drittel Verschnitt und je 20 cm für Proben. Alle Teile zusammen brauchten ganz ohne Verschnitt { $least }.
class_note-lengths_by_lay = { $people ->
        [one] Eine Länge
       *[other] { $people } Längen
    }, je Person abgeschnitten, so lang wie das Schnittbild ihres Anzugs und je 20 cm für Proben. Alle zusammen gehen auf keine kürzere Länge als { $least }.
class_note-together_by_area = Alle Anzüge von { $people ->
        [one] einer Person
       *[other] { $people } Personen
    } zusammen gelegt: nach der Fläche aller Teile, mit gut einem Drittel Verschnitt und 20 cm für Proben. Nie weniger als { $least }.
class_note-together_by_lay = Alle Anzüge von { $people ->
        [one] einer Person
       *[other] { $people } Personen
    } zusammen gelegt: so lang wie dieses Schnittbild, das im Ordner liegt, und 20 cm für Proben. Kürzer als { $least } geht es nicht.
class_note-together_would = Auf einer Länge zusammen gelegt und von einer Hand zugeschnitten brauchte es { $length }.
class_note-elastic = Zuschnitt aller Kanten zusammen { $net }, dazu ein Zehntel und 20 cm für die Probe.
class_note-thread = Für alle zusammen. { $packages ->
        [one] Eine Rolle
       *[other] Mindestens { $packages } Rollen oder Konen
    }, wenn alle Maschinen zugleich eingefädelt sind.
class_note-needles = Eine neue für jeden Anzug, dazu { $machines ->
        [one] eine zum Ersatz
       *[other] { $machines } zum Ersatz
    }: eine je Maschine.
class_note-twin = { $machines ->
        [one] Sie bleibt in ihrer Maschine
       *[other] Sie bleiben in ihren { $machines } Maschinen
    }, den ganzen Kurs über.

## Der Zeitplan

class-timetable = Zeitplan
class-timetable-lead = { $people ->
        [one] Eine Person teilt sich
       *[other] { $people } Personen teilen sich
    } { $machines }. { $sessions ->
        [one] Ein Termin
       *[other] { $sessions } Termine
    } von { $hours }: { $minutes } Arbeit im Kurs.
class-timetable-middle = Minuten sind Spannen aus der Praxis zu Hause, ohne veröffentlichte Quelle. Dieser Zeitplan rechnet mit der Mitte jeder Spanne.
class-timetable-slow = Minuten sind Spannen aus der Praxis zu Hause, ohne veröffentlichte Quelle. Dieser Zeitplan rechnet mit dem langsamen Ende jeder Spanne.
class-timetable-bound = Keine Reihenfolge in diesem Raum braucht weniger als { $bound }: diese liegt { $over } darüber. Eine Person nach der anderen brauchte { $alone }.
class-timetable-best = Keine Reihenfolge in diesem Raum braucht weniger als { $bound }, und diese auch nicht mehr. Eine Person nach der anderen brauchte { $alone }.
class-timetable-order = Jeder Plan behält seine Reihenfolge, und eine Maschine näht für eine Person zur Zeit. Ein Schritt, der im Termin nicht fertig würde, wartet auf den nächsten.
class-timetable-cut = Umfädeln und Nadelwechsel zwischen zwei Personen sind nicht gerechnet, auch nicht die Zeit der Kursleitung.
class-before = Vor dem Kurs: { $what }.
class-before-wash = Stoff, Futter und Gummi waschen und einen Tag liegen lassen
class-before-prove = die Proben nähen und prüfen
class-before-cut = legen und zuschneiden
class-letters = Buchstaben der Personen
class-numbers = Nummern der Schritte
class-letter = { $letter } { $name }
class-session = Termin { $number }
class-by-machine = Nach Maschine
class-by-person = Nach Person
class-machine-straight = Geradstichmaschine
class-machine-zigzag = Zickzackmaschine
class-machine-overlocker = Overlock, vier Fäden
class-machine-coverstitch = Covermaschine
class-machine-of = { $count } × { $machine }
class-clock = { $from } bis { $to }
class-hand-row = { $step }, von Hand
class-hand = Von Hand
class-unit = { $machine } { $number }
class-operations = Was auf welcher Maschine genäht wird
class-operations-lead = Minuten für eine Person, von der schnellen bis zur langsamen Hand; dann wie viele es tun und alle zusammen, wie hier gerechnet.
class-nobody = Für niemanden ließ sich der Anzug zeichnen, also gibt es nichts zu planen.

class-col-what = Was
class-col-length = Länge
class-col-count = Wie viele
class-col-letter = Buchstabe
class-col-piece = Teil
class-col-needed = Gebraucht
class-col-stock = Vorrat
class-col-buy = Kaufen
class-col-pack = Packungen
class-col-cost = Kosten
class-col-time = Zeit
class-col-who = Wer
class-col-step = Schritt
class-col-where = Wo
class-col-each = Minuten je Person
class-col-people = Personen
class-col-all = Zusammen

## Der Ordner

class-index = Was in diesem Ordner liegt
class-index-lead = Ein Ordner für jede Person, und die Blätter für den Raum.
class-index-people = Personen
class-index-room = Für den Raum
class-index-none = Nicht gezeichnet
class-index-csv = Die Einkaufsliste für eine Tabelle
class-index-lay = Wie alle Anzüge auf einer Länge { $cloth } liegen
class-index-report = Der Kurs als Daten
class-index-why = Warum
