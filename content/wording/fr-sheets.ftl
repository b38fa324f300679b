# Labels of the printed sheets, in French. Sentences of the work itself stand in content/painting.toml.
# Before : ; ? ! % and inside « » stands a no-break space (U+00A0), so that no line of print begins with a sign.

### Cover
sheet-guide = Guide de peinture
sheet-pieces = Pièces
sheet-size = Taille
sheet-colours = Couleurs
sheet-cells = Champs
sheet-board = Planche
sheet-mark = Marque du dessin
sheet-board-cut = découpée, sur sa feuille de soutien
sheet-board-scored = gravée, d’un seul tenant
sheet-primed = avec apprêt
sheet-unprimed = bois sans apprêt
sheet-in-the-kit = Dans la boîte
sheet-kit-board = la planche : { $board }, { $ground }
sheet-kit-guide = ce guide
sheet-you-need = Il faut encore
sheet-cover-alt = Image du motif terminé : { $title }
sheet-pieces-later = { $count }, une fois découpée

### The order of work
sheet-work = L’ordre du travail
sheet-work-lead-scored = Pour une planche livrée gravée et d’un seul tenant.
sheet-work-lead-cut = Pour une planche livrée découpée, les pièces assemblées.
sheet-cautions = Précautions
sheet-mishaps = Quand quelque chose tourne mal

### Palette
sheet-palette = Palette
sheet-palette-lead = Le numéro est celui des champs du dessin. La case en pointillé est pour votre propre couleur, une fois sèche.
sheet-number = N°
sheet-swatch = Couleur
sheet-paint = Nom
sheet-area = Champs, surface
sheet-own = La vôtre
sheet-cell-count = { $count ->
    [0] pas de champ à elle
    [one] { $count } champ
   *[other] { $count } champs
 }
sheet-mix = Mélange : { $text }
sheet-wash = Lavis : { $text }
sheet-mix-suggested = Un mélange à essayer d’abord sur une chute : { $text }
sheet-mix-part = { $count ->
    [one] { $count } part
   *[other] { $count } parts
 } : { $name }
sheet-mix-water = { $count ->
    [1] et autant d’eau
   *[other] et { $count } fois autant d’eau
 }
sheet-amount-acrylic = Acrylique : { $least } à { $most } ml
sheet-amount-drop = Acrylique : moins de 1 ml
sheet-amount-primer = Apprêt, toutes couches : { $least } à { $most } ml, selon l’épaisseur
sheet-amount-sealer = Vernis, toutes couches : { $least } à { $most } ml
sheet-printed-colours = Les couleurs imprimées diffèrent des couleurs peintes : fiez-vous à vos essais.
sheet-turns = Par passes, du clair au foncé
sheet-turns-rule = Le clair avant le foncé : une couleur attend toutes celles, nettement plus claires, qu’elle touche, et deux champs mouillés n’ont jamais de ligne commune. Dans une même passe, l’ordre est libre. Laissez sécher chaque passe avant la suivante.
sheet-turn = Passe { $number }
sheet-no-paint-cell = Un champ marqué « ? » n’a pas encore de couleur : choisissez-en une, ou demandez à l’atelier.

### Drawing
sheet-drawing = Le dessin en vraie grandeur
sheet-drawing-free = La planche en vraie grandeur
sheet-true-size = Vraie grandeur : imprimez à 100 %, sans « ajuster à la page ».
sheet-rule = 100 mm : mesurez-les avant de commencer.
sheet-rule-us = 100 mm (3,94 in) : mesurez-les avant de commencer.
sheet-tile = Feuille { $name }
sheet-tile-of = rangée { $row } sur { $rows }, colonne { $column } sur { $columns }
sheet-tile-row = rangée { $row } sur { $rows }
sheet-tile-column = colonne { $column } sur { $columns }
sheet-joins = rejoint { $name }
sheet-map = Comment les feuilles se joignent
sheet-map-lead = Le dessin est plus grand que ce papier : il vient sur { $count } feuilles, nommées par rangée et colonne.
sheet-map-1 = Imprimez à 100 %, et mesurez la règle sur une feuille.
sheet-map-2 = Coupez chaque feuille le long de sa ligne tiretée, là où elle rejoint la suivante à droite ou en bas.
sheet-map-3 = Commencez par { $first }. Assemblez chaque rangée de gauche à droite, puis les rangées de haut en bas, croix sur croix et cercle sur cercle.
sheet-map-scale = Réduit à { $percent } %.
sheet-map-alt = Le dessin entier, réduit, avec les noms des { $count } feuilles.
sheet-overview-only = La planche est trop grande pour s’imprimer en vraie grandeur sur ce papier : il faudrait { $count } feuilles. Voici l’ensemble, réduit à { $percent } %.
sheet-overview-alt = Le dessin entier, réduit.
sheet-drawing-alt = { $cells ->
    [0] Dessin au trait de la planche, en vraie grandeur.
    [one] Dessin au trait de la planche, en vraie grandeur, avec un champ numéroté.
   *[other] Dessin au trait de la planche, en vraie grandeur, avec { $cells } champs numérotés.
 }
sheet-tile-alt = Partie { $name } du dessin au trait, en vraie grandeur.
sheet-leader = Un numéro posé sur une ligne appartient au champ où se trouve le point.

### Trial and sketch
sheet-trial = Page d’essai
sheet-trial-lead = Pour les lavis. Le papier d’imprimante gondole : si possible, imprimez cette page sur du papier aquarelle, ou faites vos essais sur une chute de bois apprêté.
sheet-thin = léger
sheet-middle = moyen
sheet-full = soutenu
sheet-sketch = Page d’esquisse
sheet-sketch-lead = La planche, réduite. Cherchez où placer le clair et le foncé avant de mouiller le bois.
sheet-sketch-alt = Contour de la planche, réduit, pour une esquisse.

### Foot
sheet-page = { $page } / { $pages }

### Every private sheet
sheet-private = Privé : pour l’établi, pas pour les acheteurs.
sheet-private-personal = Privé : la version d’un seul acheteur. À ne jamais publier.

### Count
sheet-count = Feuille de comptage
sheet-count-edge = Au bord
sheet-count-inside = À l’intérieur
sheet-count-true = En vraie grandeur.
sheet-count-part = Partie { $name }
sheet-count-alt = Plan des pièces avec { $count } numéros.
sheet-count-map = Plan des pièces
sheet-count-map-lead = Chaque pièce a son numéro ; les lignes tiretées séparent les rangées, dont le numéro est à gauche.
sheet-count-map-personal = La version d’un seul acheteur : lignes et chiffres ont été refaits pour elle.
sheet-count-leader = Un numéro hors de sa pièce appartient à la pièce où se trouve le point.
sheet-count-rows = Rangée par rangée
sheet-count-rows-lead = Cochez chaque pièce comme elle est posée, de gauche à droite. Une pièce appartient à la rangée où se trouve son numéro.
sheet-count-row = Rangée { $number }
sheet-count-column-row = Rangée
sheet-count-column-pieces = Pièces
sheet-count-column-count = Dans la rangée
sheet-count-column-running = Jusqu’ici
sheet-count-column-piece = Pièce
sheet-count-column-area = Surface
sheet-count-column-width = Largeur
sheet-count-total = { $count ->
    [one] { $count } pièce en tout
   *[other] { $count } pièces en tout
 }
sheet-count-by = Compté par
sheet-count-on = le
sheet-count-board = Planche n°
sheet-count-look = Où chercher d’abord
sheet-count-look-lead = Ce qui manque est le plus souvent sur la table du laser, dans le film, ou coincé dans l’encoche d’une voisine.
sheet-count-small = Les plus petites
sheet-count-small-lead = Elles passent les premières à travers le nid d’abeilles, et partent avec l’air.
sheet-count-narrow = Les plus étroites
sheet-count-narrow-lead = Elles tiennent debout dans une fente de la table. La largeur est celle du plus grand cercle dans la pièce.
sheet-count-necks = Cols fragiles, qui ont pu casser en levant : { $pieces }.
sheet-weigh = Peser au lieu de compter
sheet-weigh-why = Le poids calculé de toutes les pièces, { $board }, ne peut pas montrer qu’il en manque une : d’une planche à l’autre, un même bois varie d’environ { $percent } %, ici { $off }, autant que { $pieces } pièces. Peser quelques pièces de cette planche-ci le peut.
sheet-weigh-1 = Pesez ensemble ces pièces, chacune vue et cochée :
sheet-weigh-2 = Multipliez par { $factor } : c’est ce que toutes les pièces devraient peser.
sheet-weigh-3 = Pesez toutes les pièces ensemble, celles-ci comprises. S’il manque plus que ne dit la deuxième colonne, une pièce est perdue.
sheet-weigh-step = Pas de la balance
sheet-weigh-beyond = Perte à partir de
sheet-weigh-shows = Montre une pièce perdue à partir de
sheet-weigh-blind = Trop légères pour être vues
sheet-weigh-lighter = { $count } pièces sur { $all }
sheet-weigh-uneven = La pièce médiane pèse { $middle }, la plus légère { $lightest }. Tout ceci vaut pour une planche homogène : pour chaque pour cent dont les pièces pesées sont plus légères ou plus lourdes que le reste à taille égale, { $mass } échappent à la balance, soit { $pieces } pièces ; c’est pourquoi elles sont réparties sur la planche. Pesez tout d’un trait : le bois boit l’humidité de l’air.

### Bench
sheet-bench = Feuille d’atelier
sheet-bench-weight = Poids, environ
sheet-bench-problems = Problèmes
sheet-bench-problems-count = { $count ->
    [0] aucun trouvé
    [one] { $count }, voir inspect
   *[other] { $count }, voir inspect
 }
sheet-bench-drawing = Ce qui se coupe quand
sheet-bench-drawing-alt = Les coupes, réduites : en épais ce qui vient d’abord, en fin ce qui vient ensuite, en tireté ce qui vient à la fin.
sheet-bench-first = épais : d’abord
sheet-bench-next = fin : ensuite
sheet-bench-last = tireté : à la fin
sheet-bench-personal = La version d’un seul acheteur : lignes et chiffres ont été refaits pour elle.
sheet-bench-laser = Lignes et durées
sheet-bench-what = Quoi
sheet-bench-length = Longueur
sheet-bench-speed = Vitesse
sheet-bench-time = Durée
sheet-bench-score = Gravure
sheet-bench-cut = Coupe
sheet-bench-travel-drawn = Trajets à vide, dans l’ordre du dessin
sheet-bench-travel-advised = Trajets à vide, dans l’ordre ci-dessous
sheet-bench-total = En tout, dans l’ordre ci-dessous
sheet-bench-times-note = Les durées sont des longueurs divisées par des vitesses : démarrages, arrêts et levées de la tête s’y ajoutent.
sheet-bench-advice = Coupez d’abord les { $inside } ouvertures et autres lignes fermées à l’intérieur de la planche, puis les { $between } lignes entre les pièces, chaque fois celle qui commence le plus près, et le contour en dernier.
sheet-bench-advice-plain = Coupez d’abord les { $between } lignes entre les pièces, chaque fois celle qui commence le plus près, et le contour en dernier.
sheet-bench-saves = La tête parcourt alors à vide { $advised } au lieu de { $drawn }, soit { $saved } de moins.
sheet-bench-saves-time = Cela fait { $time }.
sheet-bench-costs = La tête parcourt alors à vide { $advised } au lieu de { $drawn }, soit { $saved } de plus, et la planche reste en place jusqu’à la fin.
sheet-bench-costs-time = Cela coûte { $time }.
sheet-bench-stock = Planches par panneau
sheet-bench-sheet = Un panneau de { $sheet }, { $margin } laissés libres le long de ses bords, un trait de laser entre les planches.
sheet-bench-no-sheet = shop.toml ne nomme aucun panneau : écrivez `sheet` sous `[workshop]`.
sheet-bench-laid = Posées
sheet-bench-rows = Rangées
sheet-bench-boards = Planches
sheet-bench-upright = Comme dessinées
sheet-bench-turned = Tournées d’un quart
sheet-bench-mixed = Dans les deux sens
sheet-bench-yield = { $count ->
    [one] { $count } planche au plus ; { $percent } % du panneau deviennent puzzle. Compté par les rectangles des planches : des planches de forme libre peuvent se serrer davantage.
   *[other] { $count } planches au plus ; { $percent } % du panneau deviennent puzzle. Compté par les rectangles des planches : des planches de forme libre peuvent se serrer davantage.
 }
sheet-bench-none = La planche ne tient sur ce panneau dans aucun sens.
sheet-bench-floor = Prix plancher
sheet-bench-floor-lead = Ce qu’une offre coûte à vos propres tarifs, arrondi vers le haut. Sans les impôts, le loyer, la machine ni l’envoi.
sheet-bench-steps = Étapes à cocher
sheet-bench-cautions = Précautions
sheet-floor-part = Poste
sheet-floor-amount = Combien
sheet-floor-cost = Coût
sheet-floor-wood = Bois, chutes comprises
sheet-floor-boards = panneau ÷ { $count }
sheet-floor-pack = Emballage
sheet-floor-extras = Accessoires
sheet-floor-laser = Laser
sheet-floor-painting = Peinture
sheet-floor-handling = Manutention
sheet-floor-time = Temps
sheet-floor-rate = { $minutes } min à { $rate } l’heure
sheet-floor-fees = Frais
sheet-floor-floor = Plancher
sheet-floor-price = Prix
sheet-floor-above = Le prix laisse
sheet-floor-under = Le prix ne couvre pas
sheet-floor-lacking = Non compté, faute de : { $keys }.

### Label
sheet-label = Étiquette de boîte
sheet-label-wood = Bois
sheet-label-edition = Tirage
sheet-label-packed = Emballé, environ
sheet-label-by-hand = Peint à la main : le vôtre sera un peu différent.
sheet-label-care = À garder au sec et loin du grand soleil ; s’époussette avec un pinceau doux et sec.
sheet-label-care-blank = À ranger à plat et au sec jusqu’à ce que la planche soit peinte et vernie.
sheet-label-difficulty = Difficulté
sheet-label-ruler-alt = Difficulté : { $word }, { $score } sur 100.
sheet-label-code-alt = Code QR : { $code }

### Packing slip
sheet-slip = Bordereau d’envoi
sheet-slip-from = De
sheet-slip-to = À
sheet-slip-order = Commande
sheet-slip-date = Date
sheet-slip-contents = Dans ce colis
sheet-slip-puzzle = { $title } : { $count ->
    [one] puzzle en bois de { $count } pièce
   *[other] puzzle en bois de { $count } pièces
 }, comptées
sheet-slip-board = { $title } : une planche de bois gravée, non découpée
sheet-slip-customs = Pour la douane
sheet-slip-customs-lead = Le poids net est calculé et peut varier d’un dixième, comme le bois ; la balance du guichet passe avant lui. Le pays d’origine et le code tarifaire sont à remplir par l’expéditeur.
sheet-slip-asked = Demande
sheet-slip-answer = Réponse
sheet-slip-description = Désignation
sheet-slip-is-painted = Puzzle en bois, { $count } pièces, peint à la main
sheet-slip-is-plain = Puzzle en bois, { $count } pièces, sans image
sheet-slip-is-blank = Puzzle en bois, { $count } pièces, non peint, à peindre par l’acheteur
sheet-slip-is-scored = Planche de bois au dessin gravé, à peindre par l’acheteur
sheet-slip-quantity = Quantité
sheet-slip-net = Poids net
sheet-slip-gross = Poids emballé
sheet-slip-about = environ { $mass }
sheet-slip-value = Valeur
sheet-slip-origin = Pays d’origine
sheet-slip-tariff = Code tarifaire
sheet-slip-signature = Signature
sheet-slip-mark = Marque du dessin
sheet-slip-checked = Compté et emballé par
sheet-slip-lost = Une pièce perdue ? Photographiez le trou avec ses voisines et donnez la marque du dessin { $mark } : une nouvelle peut être découpée.

### Stall
sheet-stall = Cartes de prix et liste du stock
sheet-stall-list = Liste du stock
sheet-stall-list-lead = Avant le marché et après. Un tiret vaut pour ce qui se fait sur commande.
sheet-stall-code = Référence
sheet-stall-title = Titre
sheet-stall-form = Finition
sheet-stall-price = Prix
sheet-stall-should = Attendu
sheet-stall-before = Avant
sheet-stall-after = Après
sheet-stall-sold = Vendu
sheet-stall-by = Compté par
sheet-stall-on = le
sheet-stall-to-order = sur commande

### Printed catalogue
sheet-catalogue = Catalogue
sheet-catalogue-price-list = Catalogue et liste de prix
sheet-catalogue-newest = Les { $shown } puzzles les plus récents, sur { $count }, sont montrés ici. La liste de prix, à la fin, les donne tous.
sheet-catalogue-by-difficulty = Du plus doux au plus dur
sheet-catalogue-by-subject = Par sujet
sheet-catalogue-prices = Prix
sheet-catalogue-order = Pour commander : { $address }
sheet-catalogue-ready = Prêt à partir
sheet-catalogue-page = Page
sheet-catalogue-column-form = Finition
sheet-catalogue-column-code = Référence
sheet-catalogue-column-stock = Stock
sheet-catalogue-scale-note = La difficulté suit l’échelle de cette boutique, de 0 à 100, calculée sur chaque dessin.

### Spare
sheet-spare-title = Pièce { $number } de { $title }
sheet-spare-what = Pièce { $number } de « { $title } », marque du dessin { $mark }, pour une planche de { $thickness } mm et un trait de coupe de { $kerf } mm.
sheet-spare-line = À couper sur la ligne dessinée : le même trait de coupe redonne la pièce perdue.
sheet-spare-snug = La coupe est décalée de { $snug } mm vers l’extérieur, pour que la pièce tienne mieux ; à essayer d’abord sur une chute.
sheet-spare-unmatched = Ce qui ne se retrouve pas : le fil et le ton de la planche, la peinture comme elle fut posée, les années depuis ; coupez avec le fil dans le même sens, dans une planche de même épaisseur, et peignez la pièce à côté de ses voisines.
