### What the catalogue says, in German.

## Everywhere

skip = Zum Inhalt
small-pieces = Kleine Teile: von kleinen Kindern fernhalten.
about = etwa
title-shop = { $title } · { $shop }
title-page = { $title }, Seite { $number }
nav-label = Der Laden
nav-pages = Seiten
nav-all = Alle Puzzles
nav-difficulty = Wie schwer ist schwer
nav-care = Pflege
nav-feed = Neue Puzzles als Feed
maker-eu-person = Verantwortliche Person in der EU: { $person }

## Counts

count-pieces = { $count ->
    [one] { $count } Teil
   *[other] { $count } Teile
}
count-edge = { $count ->
    [one] davon { $count } am Rand
   *[other] davon { $count } am Rand
}
count-novelty = { $count ->
    [one] { $count } Figurenteil: nicht spicken
   *[other] { $count } Figurenteile: nicht spicken
}
count-designs = { $count ->
    [0] Noch keine Puzzles
    [one] { $count } Puzzle
   *[other] { $count } Puzzles
}

## Forms, prices, stock

form-painted = Von Hand bemalt
form-plain = Holz natur, geölt
form-blank = Roh, zum Selbermalen
form-painted-short = Bemalt
form-plain-short = Natur
form-blank-short = Roh
list-painted = Bemalte Puzzles
list-plain = Puzzles in Holz natur
list-blank = Rohlinge zum Malen
blank-scored = Eine Tafel, in die das Bild geritzt ist.
blank-cut = Gesägt; die Teile liegen zusammengesetzt auf ihrer Unterlage.
blank-primed = Grundiert.
blank-bare = Nicht grundiert.
price-from = ab { $price }
stock-ready = { $count ->
    [one] Eins liegt bereit
   *[other] { $count } liegen bereit
}
stock-sold-out = Ausverkauft
stock-made-to-order = Auf Bestellung
offers-title = Zu kaufen
contains = Dabei:
packed = Verpackt etwa { $mass }, { $size }
order = Bestellen
postage = Versand
postage-none = bitte fragen

## Lists

browse-forms = Nach Ausführung
browse-subjects = Nach Thema
pager-label = Mehr von dieser Liste
pager-before = Neuere
pager-after = Ältere
pager-number = Seite { $number } von { $last }

## Search and compare

finder-title = Den Katalog durchsuchen
finder-search = Suchen
finder-sort = Reihenfolge
finder-narrow = Eingrenzen
finder-form = Ausführung
finder-ready = Liegt bereit
finder-side = Längste Seite, { $unit }
finder-price = Preis, { $currency }
finder-subject = Thema
finder-any = Alle
finder-from = von
finder-to = bis
finder-found = { $n } von { $total }
finder-none = Nichts passt. Weniger Wörter oder weitere Grenzen helfen vielleicht.
finder-more = Mehr zeigen
finder-clear = Alles löschen
sort-new = Neueste zuerst
sort-title = Nach Titel
sort-few = Wenige Teile zuerst
sort-many = Viele Teile zuerst
sort-gentle = Leichteste zuerst
sort-fiendish = Schwerste zuerst
sort-price = Niedrigster Preis zuerst
compare = Vergleichen
compare-pick = { $title } vergleichen
compare-chosen = { $n } von 3 gewählt
compare-show = Nebeneinander
compare-title = Nebeneinander
compare-words = In einem Maßstab.
compare-drop = { $title } wegnehmen
close = Schließen

## The specimen card

label-pieces = Teile
label-edge-pieces = Randteile
label-size = Größe
label-novelty = Überraschungen
label-difficulty = Schwierigkeit
label-thickness = Dicke
label-weight = Gewicht
label-wood = Holz
label-price = Preis
label-edition = Auflage
product-category = Holzpuzzle
difficulty-score = { $score } von 100

## Pictures

view-photo = Fotografie
view-painted = Bemalt
view-uncut = Vor dem Schneiden
view-plain = Natur
view-blank = Roh
view-close-up = Aus der Nähe
view-loosened = Gelockert
view-tray = Nach Größe ausgelegt
alt-photo = { $title }, fotografiert
alt-painted = { $title }: das ganze Puzzle, bemalt in { $paints ->
    [one] einer Farbe
   *[other] { $paints } Farben
}; { $count ->
    [one] ein Teil
   *[other] { $count } Teile
}, { $wood }, { $size }
alt-uncut = { $title }: die ganze Tafel vor dem Schneiden, { $wood }, { $size }
alt-plain = { $title }: das ganze Puzzle in geöltem Holz, { $wood }; { $count ->
    [one] ein Teil
   *[other] { $count } Teile
}, { $size }
alt-blank = { $title }: die unbemalte Tafel mit den Linien zum Ausmalen, { $wood }, { $size }
alt-close-up = { $title }: eine Ecke aus der Nähe
alt-loosened = { $title }: { $count ->
    [one] das eine Teil
   *[other] die { $count } Teile
} auseinandergerückt auf einem Tisch
alt-tray = { $title }: { $count ->
    [one] das eine Teil
   *[other] die { $count } Teile
} in Reihen nach Größe, die größten zuerst
viewer-title = Bilder von { $title }
viewer-before = Voriges Bild
viewer-after = Nächstes Bild
viewer-nearer = Näher oder weiter weg
cover = Die Teile einzeln zeigen
cover-why = { $count ->
    [one] Das verrät eine Überraschung.
   *[other] Das verrät { $count } Überraschungen.
}
scale-alt = Das Puzzle, { $sheet } und eine Bankkarte in einem Maßstab
scale-words = In einem Maßstab: das Puzzle, { $sheet }, eine Bankkarte.
paper-a4 = ein Blatt A4
paper-letter = ein Blatt US Letter

## The guide and the paints

guide-title = Malanleitung
guide-words = Zum Ausdrucken in wahrer Größe: jedes Feld mit der Nummer seiner Farbe.
guide-a4 = A4
guide-letter = US Letter
guide-pages = { $count ->
    [one] { $count } Seite
   *[other] { $count } Seiten
}
paints-title = { $count ->
    [one] Eine Lasur
   *[other] { $count } Lasuren
}
paints-cells = { $count ->
    [one] Ein Feld zu malen.
   *[other] { $count } Felder zu malen.
}
near-title = Diesem ähnlich

## Warnings

# 16 CFR 1500.19(b)(1) asks for these words in English.
warning-us-1 = WARNING:
warning-us-2 = CHOKING HAZARD - Small parts
warning-us-3 = Not for children under 3 yrs.
# Richtlinie 2009/48/EG, Anhang V Teil B Nummer 1: "Nicht für Kinder unter 36 Monaten geeignet", with the word that comes before it and the hazard; order of the parts from memory.
warning-eu = Achtung. Nicht für Kinder unter 36 Monaten geeignet. Kleine Teile. Erstickungsgefahr.
warning-duty = Prüfung und Kennzeichnung sind nach örtlichem Recht Pflicht des Herstellers.
warning-symbol = Warnzeichen

## Difficulty

difficulty-gentle = sanft
difficulty-steady = stetig
difficulty-testing = knifflig
difficulty-fiendish = teuflisch
difficulty-title = Wie schwer ist schwer
difficulty-1 = Die Skala ist die dieses Ladens. Sie reicht von 0 bis 100 und wird aus der Zeichnung jedes Puzzles errechnet, nie geschätzt, damit sich zwei Puzzles aus dieser Werkstatt vergleichen lassen. Über Puzzles von anderswo sagt sie nichts.
difficulty-2 = Vier Dinge gehen ein:
difficulty-size = Größe. Jede Verdopplung der Teilezahl gibt { $points } Punkte dazu.
difficulty-edges = Ränder. Teile mit gerader Kante sind leicht zu finden. Je größer ihr Anteil, desto mehr geht ab: { $points } Punkte, wenn jedes Teil am Rand liegt.
difficulty-novelty = Figuren. Teile, die wie ein Ding geformt sind, sagen, wohin sie gehören. Sie nehmen bis zu { $points } Punkte weg, alle dann, wenn auf vier Teile eine Figur kommt.
difficulty-alike = Zwillinge. Teile von genau gleichem Umriss passen auch am falschen Ort. Sie geben bis zu { $points } Punkte dazu, alle dann, wenn jedes Teil einen Zwilling hat.
difficulty-3 = Das Bild zählt nicht mit, obwohl es hilft: Holz natur ist schwerer als dieselbe Tafel bemalt.
difficulty-gentle-words = Unter 40. Eine Stunde bei einer Kanne Tee.
difficulty-steady-words = 40 bis 60. Ein ganzer Abend.
difficulty-testing-words = 60 bis 80. Liegen lassen; man kommt wieder.
difficulty-fiendish-words = 80 und mehr. Wir haben es gesagt.
difficulty-ours = Unsere, vom sanftesten an

## Care

care-title = Pflege
care-dry = Trocken halten. Wasser lässt Holz quellen und löst Aquarell an: kein nasses Tuch, kein feuchter Keller, aber auch keine warme Heizung, die eine Tafel trocknet, bis sie sich biegt.
care-flat = Flach lagern, in der Schachtel, in einem bewohnten Zimmer.
care-dust = Mit einem weichen trockenen Pinsel oder Tuch abstauben.
care-light = Aquarellfarben verblassen in starker Sonne. Ein Puzzle hängt besser dort, wo sie nicht hinkommt.
care-lift = Teile gerade nach oben heben, von unten her. Ein Teil, das festsitzt, will sanft von hinten gedrückt und nicht am Knopf gezogen werden.
care-count = Die Teile zählen, bevor sie in die Schachtel kommen. Die Zahl steht auf dem Etikett und auf dieser Seite.
cautions-more = Mehr zur Vorsicht

## Cautions

cautions-title = Vorsicht
cautions-class = Fast alle Teile fast aller Puzzles sind klein genug, um daran zu ersticken. In der EU und im Vereinigten Königreich gelten Puzzles mit mehr als 500 Teilen nicht als Spielzeug; kleinere können welches sein.

## Nothing here

missing-title = Dieses Teil fehlt
missing-words = Unter dieser Adresse liegt nichts. Vielleicht unter dem Sofa.
missing-home = Zurück zu allen Puzzles
