# Labels of the printed sheets, in German. Sentences of the work itself stand in content/painting.toml.

### Cover
sheet-guide = Malanleitung
sheet-pieces = Teile
sheet-size = Größe
sheet-colours = Farben
sheet-cells = Felder
sheet-board = Tafel
sheet-mark = Zeichnungszeichen
sheet-board-cut = geschnitten, auf dem Unterlegblatt
sheet-board-scored = geritzt, in einem Stück
sheet-primed = grundiert
sheet-unprimed = rohes Holz
sheet-in-the-kit = In der Schachtel
sheet-kit-board = die Tafel: { $board }, { $ground }
sheet-kit-guide = diese Anleitung
sheet-you-need = Außerdem nötig
sheet-cover-alt = Bild des fertigen Entwurfs: { $title }
sheet-pieces-later = { $count }, sobald sie geschnitten ist

### The order of work
sheet-work = Der Gang der Arbeit
sheet-work-lead-scored = Für eine Tafel, die geritzt und in einem Stück kommt.
sheet-work-lead-cut = Für eine Tafel, die geschnitten und zusammengesetzt kommt.
sheet-cautions = Vorsicht
sheet-mishaps = Wenn etwas schiefgeht

### Palette
sheet-palette = Palette
sheet-palette-lead = Die Nummer steht in den Feldern der Zeichnung. Das gestrichelte Kästchen ist für die eigene Farbe, getrocknet.
sheet-number = Nr.
sheet-swatch = Farbe
sheet-paint = Name
sheet-area = Felder, Fläche
sheet-own = Eigene
sheet-cell-count = { $count ->
    [0] kein eigenes Feld
    [one] 1 Feld
   *[other] { $count } Felder
 }
sheet-mix = Mischung: { $text }
sheet-wash = Lasur: { $text }
sheet-mix-suggested = Eine Mischung, zuerst auf einem Rest zu versuchen: { $text }
sheet-mix-part = { $count ->
    [one] 1 Teil
   *[other] { $count } Teile
 } { $name }
sheet-mix-water = { $count ->
    [1] und ebenso viel Wasser
   *[other] und { $count }-mal so viel Wasser
 }
sheet-amount-acrylic = Acrylfarbe: { $least } bis { $most } ml
sheet-amount-drop = Acrylfarbe: unter 1 ml
sheet-amount-primer = Grundierung, alle Schichten: { $least } bis { $most } ml, je nach Dicke
sheet-amount-sealer = Lack, alle Schichten: { $least } bis { $most } ml
sheet-printed-colours = Gedruckte Farben sehen anders aus als gemalte: die Proben entscheiden.
sheet-turns = In Runden, von hell nach dunkel
sheet-turns-rule = Hell vor dunkel: Eine Farbe wartet auf jede deutlich hellere, die sie berührt, und keine zwei nassen Felder haben eine Linie gemeinsam. Innerhalb einer Runde ist jede Reihenfolge recht. Jede Runde trocknen lassen, bevor die nächste beginnt.
sheet-turn = Runde { $number }
sheet-no-paint-cell = Ein Feld mit „?“ hat noch keine Farbe: eine wählen oder die Werkstatt fragen.

### Drawing
sheet-drawing = Die Zeichnung in wahrer Größe
sheet-drawing-free = Die Tafel in wahrer Größe
sheet-true-size = Wahre Größe: mit 100 % drucken, nicht „an Seite anpassen“.
sheet-rule = 100 mm: vor dem Anfangen nachmessen.
sheet-rule-us = 100 mm (3,94 in): vor dem Anfangen nachmessen.
sheet-tile = Blatt { $name }
sheet-tile-of = Reihe { $row } von { $rows }, Spalte { $column } von { $columns }
sheet-tile-row = Reihe { $row } von { $rows }
sheet-tile-column = Spalte { $column } von { $columns }
sheet-joins = stößt an { $name }
sheet-map = Wie die Blätter zusammengehören
sheet-map-lead = Die Zeichnung ist größer als dieses Papier: Sie kommt auf { $count } Blättern, nach Reihe und Spalte benannt.
sheet-map-1 = Mit 100 % drucken und auf einem Blatt den Maßstab nachmessen.
sheet-map-2 = Jedes Blatt an der gestrichelten Linie schneiden, wo rechts oder unten das nächste anschließt.
sheet-map-3 = Mit { $first } anfangen. Jede Reihe von links nach rechts zusammenfügen, dann die Reihen von oben nach unten, Kreuz auf Kreuz und Ring auf Ring.
sheet-map-scale = Verkleinert auf { $percent } %.
sheet-map-alt = Die ganze Zeichnung, verkleinert, mit den Namen der { $count } Blätter.
sheet-overview-only = Die Tafel ist zu groß für dieses Papier in wahrer Größe: { $count } Blätter wären nötig. Hier das Ganze, verkleinert auf { $percent } %.
sheet-overview-alt = Die ganze Zeichnung, verkleinert.
sheet-drawing-alt = { $cells ->
    [0] Strichzeichnung der Tafel in wahrer Größe.
    [one] Strichzeichnung der Tafel in wahrer Größe, mit einem nummerierten Feld.
   *[other] Strichzeichnung der Tafel in wahrer Größe, mit { $cells } nummerierten Feldern.
 }
sheet-tile-alt = Teil { $name } der Strichzeichnung in wahrer Größe.
sheet-leader = Eine Nummer an einer Linie gehört zu dem Feld am Punkt.

### Trial and sketch
sheet-trial = Probeblatt
sheet-trial-lead = Für Lasuren. Druckerpapier wellt sich: am besten auf Aquarellpapier drucken oder die Proben auf einen Rest grundiertes Holz legen.
sheet-thin = dünn
sheet-middle = mittel
sheet-full = satt
sheet-sketch = Skizzenblatt
sheet-sketch-lead = Die Tafel, verkleinert. Hier ausprobieren, wo Hell und Dunkel liegen sollen, bevor das Holz nass wird.
sheet-sketch-alt = Umriss der Tafel, verkleinert, für eine Skizze.

### Foot
sheet-page = { $page } / { $pages }

### Every private sheet
sheet-private = Privat: für die Werkbank, nicht für Käufer.
sheet-private-personal = Privat: das Stück eines Käufers. Nie veröffentlichen.

### Count
sheet-count = Zählblatt
sheet-count-edge = Am Rand
sheet-count-inside = Innen
sheet-count-true = Wahre Größe.
sheet-count-part = Teil { $name }
sheet-count-alt = Plan der Teile mit { $count } Nummern.
sheet-count-map = Plan der Teile
sheet-count-map-lead = Jedes Teil hat seine Nummer; die gestrichelten Linien trennen die Reihen, deren Nummern links stehen.
sheet-count-map-personal = Das Stück eines Käufers: Linien und Zahlen sind neu dafür gemacht.
sheet-count-leader = Eine Nummer außerhalb ihres Teils gehört zu dem Teil am Punkt.
sheet-count-rows = Reihe für Reihe
sheet-count-rows-lead = Jedes Teil abhaken, wie es liegt, von links nach rechts. Ein Teil gehört zu der Reihe, in der seine Nummer steht.
sheet-count-row = Reihe { $number }
sheet-count-column-row = Reihe
sheet-count-column-pieces = Teile
sheet-count-column-count = In der Reihe
sheet-count-column-running = Bis hier
sheet-count-column-piece = Teil
sheet-count-column-area = Fläche
sheet-count-column-width = Breite
sheet-count-total = { $count ->
    [one] 1 Teil im Ganzen
   *[other] { $count } Teile im Ganzen
 }
sheet-count-by = Gezählt von
sheet-count-on = am
sheet-count-board = Tafel Nr.
sheet-count-look = Wo zuerst suchen
sheet-count-look-lead = Was fehlt, liegt meist auf dem Bett, in der Folie oder steckt im Schlitz eines Nachbarn.
sheet-count-small = Die kleinsten
sheet-count-small-lead = Sie fallen zuerst durch die Waben und gehen mit der Luft davon.
sheet-count-narrow = Die schmalsten
sheet-count-narrow-lead = Sie stehen hochkant in einem Spalt des Betts. Die Breite ist die des größten Kreises im Teil.
sheet-count-necks = Schwache Hälse, die beim Abheben gebrochen sein können: { $pieces }.
sheet-weigh = Wiegen statt zählen
sheet-weigh-why = Das errechnete Gewicht aller Teile, { $board }, kann nicht zeigen, dass eins fehlt: Tafeln aus einem Holz weichen um etwa { $percent } % voneinander ab, hier { $off }, so viel wie { $pieces } Teile. Einige Teile gerade dieser Tafel zu wiegen kann es.
sheet-weigh-1 = Diese Teile zusammen wiegen, jedes gesehen und abgehakt:
sheet-weigh-2 = Mit { $factor } malnehmen: So viel sollten alle Teile wiegen.
sheet-weigh-3 = Alle Teile zusammen wiegen, diese mit darunter. Ist es um mehr zu wenig, als die zweite Spalte sagt, fehlt etwas.
sheet-weigh-step = Die Waage zeigt
sheet-weigh-beyond = Etwas fehlt ab
sheet-weigh-shows = Zeigt ein verlorenes Teil ab
sheet-weigh-blind = Zu leicht, um sich zu zeigen
sheet-weigh-lighter = { $count } von { $all } Teilen
sheet-weigh-uneven = Das mittlere Teil wiegt { $middle }, das leichteste { $lightest }. All das gilt für eine gleichmäßige Tafel: Für jedes Prozent, um das die gewogenen Teile für ihre Größe leichter oder schwerer sind als die übrigen, bleiben { $mass } ungesehen, das sind { $pieces } Teile; darum liegen sie über die Tafel verteilt. Alles in einem Zug wiegen: Holz trinkt aus der Luft.

### Bench
sheet-bench = Werkblatt
sheet-bench-weight = Gewicht, etwa
sheet-bench-problems = Probleme
sheet-bench-problems-count = { $count ->
    [0] keine gefunden
    [one] 1, siehe inspect
   *[other] { $count }, siehe inspect
 }
sheet-bench-drawing = Was wann geschnitten wird
sheet-bench-drawing-alt = Die Schnitte, verkleinert: dick, was zuerst kommt, dünn, was danach kommt, gestrichelt, was zuletzt kommt.
sheet-bench-first = dick: zuerst
sheet-bench-next = dünn: danach
sheet-bench-last = gestrichelt: zuletzt
sheet-bench-personal = Das Stück eines Käufers: Linien und Zahlen sind neu dafür gemacht.
sheet-bench-laser = Linien und Zeiten
sheet-bench-what = Was
sheet-bench-length = Länge
sheet-bench-speed = Tempo
sheet-bench-time = Zeit
sheet-bench-score = Ritzen
sheet-bench-cut = Schneiden
sheet-bench-travel-drawn = Leerwege, wie gezeichnet
sheet-bench-travel-advised = Leerwege, in der Folge unten
sheet-bench-total = Zusammen, in der Folge unten
sheet-bench-times-note = Zeiten sind Längen durch Geschwindigkeiten: Anfahren, Halten und Heben des Kopfes kommen dazu.
sheet-bench-advice = Zuerst die { $inside } Öffnungen und anderen geschlossenen Linien im Innern der Tafel schneiden, dann die { $between } Linien zwischen Teilen, jedes Mal die, die am nächsten beginnt, und den Umriss zuletzt.
sheet-bench-advice-plain = Zuerst die { $between } Linien zwischen Teilen schneiden, jedes Mal die, die am nächsten beginnt, und den Umriss zuletzt.
sheet-bench-saves = Der Kopf fährt dann { $advised } leer statt { $drawn }, { $saved } weniger.
sheet-bench-saves-time = Das sind { $time }.
sheet-bench-costs = Der Kopf fährt dann { $advised } leer statt { $drawn }, { $saved } mehr, und die Tafel bleibt bis zuletzt an ihrem Platz.
sheet-bench-costs-time = Das kostet { $time }.
sheet-bench-stock = Tafeln aus einer Platte
sheet-bench-sheet = Eine Platte von { $sheet }, ringsum { $margin } frei, eine Strahlbreite zwischen den Tafeln.
sheet-bench-no-sheet = shop.toml nennt keine Platte: `sheet` unter `[workshop]` eintragen.
sheet-bench-laid = Gelegt
sheet-bench-rows = Reihen
sheet-bench-boards = Tafeln
sheet-bench-upright = Wie gezeichnet
sheet-bench-turned = Um ein Viertel gedreht
sheet-bench-mixed = Beides gemischt
sheet-bench-yield = { $count ->
    [one] Höchstens 1 Tafel; { $percent } % der Platte werden Puzzle. Nach den Rechtecken der Tafeln gezählt: Geformte Tafeln können enger liegen.
   *[other] Höchstens { $count } Tafeln; { $percent } % der Platte werden Puzzle. Nach den Rechtecken der Tafeln gezählt: Geformte Tafeln können enger liegen.
 }
sheet-bench-none = Die Tafel geht so und so nicht auf diese Platte.
sheet-bench-floor = Preisuntergrenze
sheet-bench-floor-lead = Was ein Angebot nach den eigenen Sätzen kostet, aufgerundet. Nicht darin: Steuern, Miete, die Maschine, Porto.
sheet-bench-steps = Schritte zum Abhaken
sheet-bench-cautions = Vorsicht
sheet-floor-part = Posten
sheet-floor-amount = Wie viel
sheet-floor-cost = Kosten
sheet-floor-wood = Holz, mit Verschnitt
sheet-floor-boards = Platte ÷ { $count }
sheet-floor-pack = Verpackung
sheet-floor-extras = Beigaben
sheet-floor-laser = Laser
sheet-floor-painting = Malen
sheet-floor-handling = Handarbeit
sheet-floor-time = Zeit
sheet-floor-rate = { $minutes } min zu { $rate } die Stunde
sheet-floor-fees = Gebühren
sheet-floor-floor = Untergrenze
sheet-floor-price = Preis
sheet-floor-above = Der Preis lässt
sheet-floor-under = Der Preis deckt es nicht
sheet-floor-lacking = Nicht gerechnet, weil es fehlt: { $keys }.

### Label
sheet-label = Etikett
sheet-label-wood = Holz
sheet-label-edition = Auflage
sheet-label-packed = Verpackt, etwa
sheet-label-by-hand = Von Hand bemalt: jedes Stück ist ein wenig anders.
sheet-label-care = Trocken halten, nicht in starke Sonne; mit einem weichen trockenen Pinsel abstauben.
sheet-label-care-blank = Flach und trocken lagern, bis sie bemalt und lackiert ist.
sheet-label-difficulty = Schwierigkeit
sheet-label-ruler-alt = Schwierigkeit: { $word }, { $score } von 100.
sheet-label-code-alt = QR-Code: { $code }

### Packing slip
sheet-slip = Packzettel
sheet-slip-from = Von
sheet-slip-to = An
sheet-slip-order = Bestellung
sheet-slip-date = Datum
sheet-slip-contents = In diesem Paket
sheet-slip-puzzle = { $title }: { $count ->
    [one] Holzpuzzle aus 1 Teil
   *[other] Holzpuzzle aus { $count } Teilen
 }, gezählt
sheet-slip-board = { $title }: eine geritzte Holztafel, ungeschnitten
sheet-slip-customs = Für den Zoll
sheet-slip-customs-lead = Das Reingewicht ist errechnet und kann um ein Zehntel abweichen, wie Holz es tut; die Waage am Schalter geht vor. Ursprungsland und Zolltarifnummer trägt der Absender ein.
sheet-slip-asked = Frage
sheet-slip-answer = Antwort
sheet-slip-description = Beschreibung
sheet-slip-is-painted = Holzpuzzle, { $count } Teile, von Hand bemalt
sheet-slip-is-plain = Holzpuzzle, { $count } Teile, ohne Bild
sheet-slip-is-blank = Holzpuzzle, { $count } Teile, unbemalt, zum Selbermalen
sheet-slip-is-scored = Holztafel mit geritztem Bild, zum Selbermalen
sheet-slip-quantity = Menge
sheet-slip-net = Reingewicht
sheet-slip-gross = Verpackt
sheet-slip-about = etwa { $mass }
sheet-slip-value = Wert
sheet-slip-origin = Ursprungsland
sheet-slip-tariff = Zolltarifnummer
sheet-slip-signature = Unterschrift
sheet-slip-mark = Zeichnungszeichen
sheet-slip-checked = Gezählt und gepackt von
sheet-slip-lost = Ein Teil verloren? Die Lücke mit ihren Nachbarn fotografieren und das Zeichnungszeichen { $mark } nennen: Ein neues lässt sich schneiden.

### Stall
sheet-stall = Preiskarten und Bestandsliste
sheet-stall-list = Bestandsliste
sheet-stall-list-lead = Vor dem Markt und danach. Ein Strich steht für das, was auf Bestellung gemacht wird.
sheet-stall-code = Nummer
sheet-stall-title = Titel
sheet-stall-form = Ausführung
sheet-stall-price = Preis
sheet-stall-should = Soll
sheet-stall-before = Vorher
sheet-stall-after = Nachher
sheet-stall-sold = Verkauft
sheet-stall-by = Gezählt von
sheet-stall-on = am
sheet-stall-to-order = auf Bestellung

### Printed catalogue
sheet-catalogue = Katalog
sheet-catalogue-price-list = Katalog und Preisliste
sheet-catalogue-newest = Gezeigt sind die neuesten { $shown } von { $count } Puzzles. Die Preisliste am Ende nennt alle.
sheet-catalogue-by-difficulty = Vom sanftesten an
sheet-catalogue-by-subject = Nach Thema
sheet-catalogue-prices = Preise
sheet-catalogue-order = Zu bestellen: { $address }
sheet-catalogue-ready = Liegt bereit
sheet-catalogue-page = Seite
sheet-catalogue-column-form = Ausführung
sheet-catalogue-column-code = Nummer
sheet-catalogue-column-stock = Bestand
sheet-catalogue-scale-note = Die Schwierigkeit ist die Skala dieses Ladens, von 0 bis 100, errechnet aus jeder Zeichnung.

### Spare
sheet-spare-title = Teil { $number } von { $title }
sheet-spare-what = Teil { $number } von „{ $title }“, Zeichnungszeichen { $mark }, für eine Tafel von { $thickness } mm und eine Schnittfuge von { $kerf } mm.
sheet-spare-line = Auf der gezeichneten Linie schneiden: Die gleiche Schnittfuge gibt das verlorene Teil wieder.
sheet-spare-snug = Der Schnitt ist um { $snug } mm nach außen gerückt, damit das Teil fester sitzt; zuerst in einem Rest versuchen.
sheet-spare-unmatched = Was sich nicht treffen lässt: Maserung und Ton des Bretts, die Farbe, wie sie gelegt wurde, die Jahre seither; mit der Maserung in gleicher Richtung schneiden, aus einem Brett gleicher Dicke, und neben den Nachbarn bemalen.
