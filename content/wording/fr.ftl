### What the catalogue says, in French.

## Everywhere

skip = Aller au contenu
small-pieces = Petites pièces : à tenir hors de portée des jeunes enfants.
about = environ
title-shop = { $title } · { $shop }
title-page = { $title }, page { $number }
nav-label = La boutique
nav-pages = Pages
nav-all = Tous les puzzles
nav-difficulty = Dur, mais à quel point
nav-care = Entretien
nav-feed = Fil des nouveautés
maker-eu-person = Personne responsable dans l’UE : { $person }

## Counts

count-pieces = { $count ->
    [one] { $count } pièce
   *[other] { $count } pièces
}
count-edge = { $count ->
    [one] dont { $count } au bord
   *[other] dont { $count } au bord
}
count-novelty = { $count ->
    [one] { $count } pièce figurative : défense de regarder
   *[other] { $count } pièces figuratives : défense de regarder
}
count-designs = { $count ->
    [0] Pas encore de puzzles
    [one] { $count } puzzle
   *[other] { $count } puzzles
}

## Forms, prices, stock

form-painted = Peint à la main
form-plain = Bois nu, huilé
form-blank = Brut, à peindre soi-même
form-painted-short = Peint
form-plain-short = Bois nu
form-blank-short = Brut
list-painted = Puzzles peints
list-plain = Puzzles en bois nu
list-blank = Planches à peindre
blank-scored = Une seule planche où le dessin est gravé.
blank-cut = Découpé, les pièces assemblées sur leur feuille.
blank-primed = Avec apprêt.
blank-bare = Sans apprêt.
price-from = à partir de { $price }
stock-ready = { $count ->
    [one] Un exemplaire prêt à partir
   *[other] { $count } exemplaires prêts à partir
}
stock-sold-out = Épuisé
stock-made-to-order = Sur commande
offers-title = À vendre
contains = Fourni :
packed = Emballé, environ { $mass }, { $size }
order = Commander
postage = Envoi
postage-none = nous consulter

## Lists

browse-forms = Par finition
browse-subjects = Par sujet
pager-label = Suite de cette liste
pager-before = Plus récents
pager-after = Plus anciens
pager-number = Page { $number } sur { $last }

## Search and compare

finder-title = Chercher dans le catalogue
finder-search = Chercher
finder-sort = Ordre
finder-narrow = Affiner
finder-form = Finition
finder-ready = Prêt à partir
finder-side = Plus grand côté, { $unit }
finder-price = Prix, { $currency }
finder-subject = Sujet
finder-any = Tous
finder-from = de
finder-to = à
finder-found = { $n } sur { $total }
finder-none = Rien ne convient. Moins de mots ou des limites plus larges, peut-être.
finder-more = Voir la suite
finder-clear = Tout effacer
sort-new = Les plus récents d’abord
sort-title = Par titre
sort-few = Le moins de pièces d’abord
sort-many = Le plus de pièces d’abord
sort-gentle = Les plus doux d’abord
sort-fiendish = Les plus durs d’abord
sort-price = Les moins chers d’abord
compare = Comparer
compare-pick = Comparer { $title }
compare-chosen = { $n } sur 3 choisis
compare-show = Côte à côte
compare-title = Côte à côte
compare-words = À la même échelle.
compare-drop = Retirer { $title }
close = Fermer

## The specimen card

label-pieces = Pièces
label-edge-pieces = Pièces de bord
label-size = Taille
label-novelty = Surprises
label-difficulty = Difficulté
label-thickness = Épaisseur
label-weight = Poids
label-wood = Bois
label-price = Prix
label-edition = Tirage
product-category = Puzzle en bois
difficulty-score = { $score } sur 100

## Pictures

view-photo = Photographie
view-painted = Peint
view-uncut = Avant la découpe
view-plain = Bois nu
view-blank = Brut
view-close-up = De près
view-loosened = Desserré
view-tray = Rangé par taille
alt-photo = { $title }, en photographie
alt-painted = { $title } : le puzzle entier, peint en { $paints ->
    [one] une couleur
   *[other] { $paints } couleurs
} ; { $count ->
    [one] une pièce
   *[other] { $count } pièces
}, { $wood }, { $size }
alt-uncut = { $title } : la planche entière avant la découpe, { $wood }, { $size }
alt-plain = { $title } : le puzzle entier en bois huilé, { $wood } ; { $count ->
    [one] une pièce
   *[other] { $count } pièces
}, { $size }
alt-blank = { $title } : la planche non peinte avec les lignes à suivre, { $wood }, { $size }
alt-close-up = { $title } : un coin vu de près
alt-loosened = { $title } : { $count ->
    [one] sa seule pièce
   *[other] ses { $count } pièces
} à l’écart sur une table
alt-tray = { $title } : { $count ->
    [one] sa seule pièce
   *[other] ses { $count } pièces
} en rangs par taille, les plus grandes d’abord
viewer-title = Images de { $title }
viewer-before = Image précédente
viewer-after = Image suivante
viewer-nearer = Plus près ou plus loin
cover = Montrer les pièces séparées
cover-why = { $count ->
    [one] Cela dévoile une surprise.
   *[other] Cela dévoile { $count } surprises.
}
scale-alt = Le puzzle, { $sheet } et une carte bancaire à la même échelle
scale-words = À la même échelle : le puzzle, { $sheet }, une carte bancaire.
paper-a4 = une feuille A4
paper-letter = une feuille US Letter

## The guide and the paints

guide-title = Guide de peinture
guide-words = À imprimer chez soi, en vraie grandeur : chaque champ avec le numéro de sa couleur.
guide-a4 = A4
guide-letter = US Letter
guide-pages = { $count ->
    [one] { $count } page
   *[other] { $count } pages
}
paints-title = { $count ->
    [one] Un lavis
   *[other] { $count } lavis
}
paints-cells = { $count ->
    [one] Un champ à peindre.
   *[other] { $count } champs à peindre.
}
near-title = Dans le même esprit

## Warnings

# 16 CFR 1500.19(b)(1) asks for these words in English.
warning-us-1 = WARNING:
warning-us-2 = CHOKING HAZARD - Small parts
warning-us-3 = Not for children under 3 yrs.
# Directive 2009/48/CE, annexe V, partie B, point 1; order of the parts from memory.
warning-eu = Attention. Ne convient pas aux enfants de moins de 36 mois. Petits éléments. Danger de suffocation.
warning-duty = Essais et marquage incombent au fabricant selon le droit local.
warning-symbol = Signal d’alerte

## Difficulty

difficulty-gentle = doux
difficulty-steady = posé
difficulty-testing = corsé
difficulty-fiendish = diabolique
difficulty-title = Dur, mais à quel point
difficulty-1 = L’échelle est propre à cette boutique. Elle va de 0 à 100 et se calcule sur le dessin de chaque puzzle, sans rien deviner, pour que deux puzzles de cet atelier puissent se comparer. Elle ne dit rien des puzzles d’ailleurs.
difficulty-2 = Quatre choses y entrent :
difficulty-size = La taille. Chaque doublement du nombre de pièces ajoute { $points } points.
difficulty-edges = Les bords. Une pièce au bord droit se trouve vite. Plus il y en a, plus on retranche : { $points } points si toutes les pièces sont au bord.
difficulty-novelty = Les figures. Une pièce en forme de chose dit où elle va. Elles retranchent jusqu’à { $points } points, en entier à raison d’une pour quatre pièces.
difficulty-alike = Les jumelles. Des pièces au contour exactement pareil entrent au mauvais endroit. Elles ajoutent jusqu’à { $points } points, en entier si chaque pièce a sa jumelle.
difficulty-3 = L’image n’est pas comptée, bien qu’elle aide : le bois nu est plus dur que la même planche peinte.
difficulty-gentle-words = Moins de 40. Une heure et une théière.
difficulty-steady-words = De 40 à 60. Toute une soirée.
difficulty-testing-words = De 60 à 80. Laissez-le sur la table ; vous y reviendrez.
difficulty-fiendish-words = 80 et plus. On vous aura prévenu.
difficulty-ours = Les nôtres, du plus doux au plus dur

## Care

care-title = Entretien
care-dry = Gardez-le au sec. L’eau gonfle le bois et soulève l’aquarelle : pas de chiffon mouillé, pas de cave humide, pas de radiateur chaud non plus, qui sèche une planche jusqu’à la courber.
care-flat = Rangez-le à plat, dans sa boîte, dans une pièce habitée.
care-dust = Époussetez-le avec un pinceau doux et sec ou un chiffon sec.
care-light = L’aquarelle pâlit au grand soleil. Accrochez un puzzle là où il n’arrive pas.
care-lift = Soulevez les pièces tout droit, par-dessous. Une pièce qui tient bon veut une poussée légère par l’arrière, et non qu’on tire sur son bouton.
care-count = Comptez les pièces avant de les remettre dans la boîte. Le nombre est sur l’étiquette et sur ce site.
cautions-more = Toutes les précautions

## Cautions

cautions-title = Précautions
cautions-class = Presque toutes les pièces de presque tous les puzzles sont assez petites pour étouffer. Dans l’UE et au Royaume-Uni, les puzzles de plus de 500 pièces ne sont pas classés comme jouets ; les plus petits peuvent l’être.

## Nothing here

missing-title = Cette pièce manque
missing-words = Il n’y a rien à cette adresse. Peut-être sous le canapé.
missing-home = Retour à tous les puzzles
