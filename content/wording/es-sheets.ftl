# Labels of the printed sheets, in Spanish. Sentences of the work itself stand in content/painting.toml.

### Cover
sheet-guide = Guía de pintura
sheet-pieces = Piezas
sheet-size = Tamaño
sheet-colours = Colores
sheet-cells = Campos
sheet-board = Tablero
sheet-mark = Marca del dibujo
sheet-board-cut = cortado, sobre su hoja de apoyo
sheet-board-scored = grabado, de una sola pieza
sheet-primed = imprimado
sheet-unprimed = madera sin imprimar
sheet-in-the-kit = En la caja
sheet-kit-board = el tablero: { $board }, { $ground }
sheet-kit-guide = esta guía
sheet-you-need = Hace falta además
sheet-cover-alt = Imagen del motivo terminado: { $title }
sheet-pieces-later = { $count }, una vez cortado

### The order of work
sheet-work = El orden del trabajo
sheet-work-lead-scored = Para un tablero que llega grabado y de una sola pieza.
sheet-work-lead-cut = Para un tablero que llega cortado, con las piezas juntas.
sheet-cautions = Precauciones
sheet-mishaps = Cuando algo sale mal

### Palette
sheet-palette = Paleta
sheet-palette-lead = El número es el de los campos del dibujo. El recuadro de trazos es para su propio color, ya seco.
sheet-number = N.º
sheet-swatch = Color
sheet-paint = Nombre
sheet-area = Campos, superficie
sheet-own = El suyo
sheet-cell-count = { $count ->
    [0] ningún campo propio
    [one] 1 campo
   *[other] { $count } campos
 }
sheet-mix = Mezcla: { $text }
sheet-wash = Aguada: { $text }
sheet-mix-suggested = Una mezcla para probar antes en un recorte: { $text }
sheet-mix-part = { $count ->
    [one] 1 parte
   *[other] { $count } partes
 } de { $name }
sheet-mix-water = { $count ->
    [1] y otro tanto de agua
   *[other] y { $count } veces esa cantidad de agua
 }
sheet-amount-acrylic = Acrílico: de { $least } a { $most } ml
sheet-amount-drop = Acrílico: menos de 1 ml
sheet-amount-primer = Imprimación, todas las capas: de { $least } a { $most } ml, según el grueso
sheet-amount-sealer = Barniz, todas las capas: de { $least } a { $most } ml
sheet-printed-colours = Los colores impresos no son los pintados: guíese por sus pruebas.
sheet-turns = Por pasadas, de claro a oscuro
sheet-turns-rule = Lo claro antes que lo oscuro: un color espera a todos los claramente más claros que toca, y dos campos mojados nunca comparten una línea. Dentro de una pasada vale cualquier orden. Deje secar cada pasada antes de la siguiente.
sheet-turn = Pasada { $number }
sheet-no-paint-cell = Un campo marcado «?» no tiene color todavía: elija uno o pregunte al taller.

### Drawing
sheet-drawing = El dibujo a tamaño real
sheet-drawing-free = El tablero a tamaño real
sheet-true-size = Tamaño real: imprima al 100 %, sin «ajustar a la página».
sheet-rule = 100 mm: mídalos antes de empezar.
sheet-rule-us = 100 mm (3,94 in): mídalos antes de empezar.
sheet-tile = Hoja { $name }
sheet-tile-of = fila { $row } de { $rows }, columna { $column } de { $columns }
sheet-tile-row = fila { $row } de { $rows }
sheet-tile-column = columna { $column } de { $columns }
sheet-joins = se une a { $name }
sheet-map = Cómo se unen las hojas
sheet-map-lead = El dibujo es mayor que este papel: viene en { $count } hojas, con nombre por fila y columna.
sheet-map-1 = Imprima al 100 % y mida la regla en una hoja.
sheet-map-2 = Corte cada hoja por su línea de trazos, donde se une a la siguiente por la derecha o por abajo.
sheet-map-3 = Empiece por { $first }. Una cada fila de izquierda a derecha y luego las filas de arriba abajo, cruz sobre cruz y círculo sobre círculo.
sheet-map-scale = Reducido al { $percent } %.
sheet-map-alt = El dibujo entero, reducido, con los nombres de las { $count } hojas.
sheet-overview-only = El tablero es demasiado grande para imprimirlo a tamaño real en este papel: harían falta { $count } hojas. Aquí está entero, reducido al { $percent } %.
sheet-overview-alt = El dibujo entero, reducido.
sheet-drawing-alt = { $cells ->
    [0] Dibujo de líneas del tablero, a tamaño real.
    [one] Dibujo de líneas del tablero, a tamaño real, con un campo numerado.
   *[other] Dibujo de líneas del tablero, a tamaño real, con { $cells } campos numerados.
 }
sheet-tile-alt = Parte { $name } del dibujo de líneas, a tamaño real.
sheet-leader = Un número sobre una línea pertenece al campo del punto.

### Trial and sketch
sheet-trial = Hoja de prueba
sheet-trial-lead = Para las aguadas. El papel de impresora se ondula: si puede, imprima esta hoja en papel de acuarela, o haga las pruebas en un recorte de madera imprimada.
sheet-thin = tenue
sheet-middle = media
sheet-full = plena
sheet-sketch = Hoja de bocetos
sheet-sketch-lead = El tablero, reducido. Pruebe dónde van lo claro y lo oscuro antes de mojar la madera.
sheet-sketch-alt = Contorno del tablero, reducido, para un boceto.

### Foot
sheet-page = { $page } / { $pages }

### Every private sheet
sheet-private = Privado: para el taller, no para compradores.
sheet-private-personal = Privado: la versión de un solo comprador. No publicar nunca.

### Count
sheet-count = Hoja de recuento
sheet-count-edge = En el borde
sheet-count-inside = En el interior
sheet-count-true = A tamaño real.
sheet-count-part = Parte { $name }
sheet-count-alt = Plano de las piezas con { $count } números.
sheet-count-map = Plano de las piezas
sheet-count-map-lead = Cada pieza tiene su número; las líneas de trazos separan las filas, cuyos números están a la izquierda.
sheet-count-map-personal = La versión de un solo comprador: líneas y cifras se han hecho de nuevo para ella.
sheet-count-leader = Un número fuera de su pieza pertenece a la pieza del punto.
sheet-count-rows = Fila por fila
sheet-count-rows-lead = Marque cada pieza según está puesta, de izquierda a derecha. Una pieza pertenece a la fila en la que está su número.
sheet-count-row = Fila { $number }
sheet-count-column-row = Fila
sheet-count-column-pieces = Piezas
sheet-count-column-count = En la fila
sheet-count-column-running = Hasta aquí
sheet-count-column-piece = Pieza
sheet-count-column-area = Superficie
sheet-count-column-width = Ancho
sheet-count-total = { $count ->
    [one] 1 pieza en total
   *[other] { $count } piezas en total
 }
sheet-count-by = Contado por
sheet-count-on = el
sheet-count-board = Tablero n.º
sheet-count-look = Dónde mirar primero
sheet-count-look-lead = Lo que falta suele estar en la mesa del láser, en la lámina o metido en la ranura de una vecina.
sheet-count-small = Las más pequeñas
sheet-count-small-lead = Son las primeras que caen por el panal, y se van con el aire.
sheet-count-narrow = Las más estrechas
sheet-count-narrow-lead = Quedan de canto en una ranura de la mesa. El ancho es el del mayor círculo dentro de la pieza.
sheet-count-necks = Cuellos débiles, que pueden haberse roto al levantar: { $pieces }.
sheet-weigh = Pesar en vez de contar
sheet-weigh-why = El peso calculado de todas las piezas, { $board }, no puede mostrar que falta una: los tableros de una misma madera varían en torno al { $percent } %, aquí { $off }, tanto como { $pieces } piezas. Pesar algunas piezas de este mismo tablero sí puede.
sheet-weigh-1 = Pese juntas estas piezas, vistas y marcadas una por una:
sheet-weigh-2 = Multiplique por { $factor }: eso deberían pesar todas las piezas.
sheet-weigh-3 = Pese todas las piezas juntas, estas incluidas. Si falta más de lo que dice la segunda columna, se ha perdido algo.
sheet-weigh-step = La balanza mide de
sheet-weigh-beyond = Falta algo desde
sheet-weigh-shows = Muestra una pieza perdida desde
sheet-weigh-blind = Demasiado ligeras para verse
sheet-weigh-lighter = { $count } de { $all } piezas
sheet-weigh-uneven = La pieza mediana pesa { $middle }, la más ligera { $lightest }. Todo esto vale para un tablero uniforme: por cada uno por ciento que las piezas pesadas sean más ligeras o pesadas que el resto para su tamaño, { $mass } escapan a la balanza, o { $pieces } piezas; por eso están repartidas por el tablero. Péselo todo de una vez: la madera bebe del aire.

### Bench
sheet-bench = Hoja de taller
sheet-bench-weight = Peso, unos
sheet-bench-problems = Problemas
sheet-bench-problems-count = { $count ->
    [0] ninguno encontrado
    [one] 1, véase inspect
   *[other] { $count }, véase inspect
 }
sheet-bench-drawing = Qué se corta cuándo
sheet-bench-drawing-alt = Los cortes, reducidos: grueso lo que va primero, fino lo que va después, de trazos lo que va al final.
sheet-bench-first = grueso: primero
sheet-bench-next = fino: después
sheet-bench-last = de trazos: al final
sheet-bench-personal = La versión de un solo comprador: líneas y cifras se han hecho de nuevo para ella.
sheet-bench-laser = Líneas y tiempos
sheet-bench-what = Qué
sheet-bench-length = Longitud
sheet-bench-speed = Velocidad
sheet-bench-time = Tiempo
sheet-bench-score = Grabado
sheet-bench-cut = Corte
sheet-bench-travel-drawn = Recorrido en vacío, en el orden del dibujo
sheet-bench-travel-advised = Recorrido en vacío, en el orden de abajo
sheet-bench-total = En total, en el orden de abajo
sheet-bench-times-note = Los tiempos son longitudes entre velocidades: arrancar, parar y levantar el cabezal se suman.
sheet-bench-advice = Corte primero las { $inside } aberturas y demás líneas cerradas dentro del tablero, luego las { $between } líneas entre piezas, cada vez la que empieza más cerca, y el contorno al final.
sheet-bench-advice-plain = Corte primero las { $between } líneas entre piezas, cada vez la que empieza más cerca, y el contorno al final.
sheet-bench-saves = El cabezal recorre entonces en vacío { $advised } en vez de { $drawn }, { $saved } menos.
sheet-bench-saves-time = Son { $time }.
sheet-bench-costs = El cabezal recorre entonces en vacío { $advised } en vez de { $drawn }, { $saved } más, y el tablero no se mueve hasta el final.
sheet-bench-costs-time = Eso cuesta { $time }.
sheet-bench-stock = Tableros por plancha
sheet-bench-sheet = Una plancha de { $sheet }, con { $margin } libres a lo largo de sus bordes y un ancho de láser entre tableros.
sheet-bench-no-sheet = shop.toml no nombra ninguna plancha: escriba `sheet` bajo `[workshop]`.
sheet-bench-laid = Puestos
sheet-bench-rows = Filas
sheet-bench-boards = Tableros
sheet-bench-upright = Como en el dibujo
sheet-bench-turned = Girados un cuarto
sheet-bench-mixed = De ambas maneras
sheet-bench-yield = { $count ->
    [one] 1 tablero como mucho; el { $percent } % de la plancha se vuelve puzle. Contado por los rectángulos de los tableros: los de forma libre pueden encajar más juntos.
   *[other] { $count } tableros como mucho; el { $percent } % de la plancha se vuelve puzle. Contado por los rectángulos de los tableros: los de forma libre pueden encajar más juntos.
 }
sheet-bench-none = El tablero no cabe en esta plancha de ninguna manera.
sheet-bench-floor = Precio mínimo
sheet-bench-floor-lead = Lo que cuesta una oferta con sus propias tarifas, redondeado hacia arriba. Sin impuestos, alquiler, máquina ni envío.
sheet-bench-steps = Pasos para marcar
sheet-bench-cautions = Precauciones
sheet-floor-part = Partida
sheet-floor-amount = Cuánto
sheet-floor-cost = Coste
sheet-floor-wood = Madera, con merma
sheet-floor-boards = plancha ÷ { $count }
sheet-floor-pack = Embalaje
sheet-floor-extras = Accesorios
sheet-floor-laser = Láser
sheet-floor-painting = Pintura
sheet-floor-handling = Manipulación
sheet-floor-time = Tiempo
sheet-floor-rate = { $minutes } min a { $rate } la hora
sheet-floor-fees = Comisiones
sheet-floor-floor = Mínimo
sheet-floor-price = Precio
sheet-floor-above = El precio deja
sheet-floor-under = El precio no lo cubre
sheet-floor-lacking = Sin contar, por falta de: { $keys }.

### Label
sheet-label = Etiqueta de la caja
sheet-label-wood = Madera
sheet-label-edition = Edición
sheet-label-packed = Embalado, unos
sheet-label-by-hand = Pintado a mano: el suyo será un poco distinto.
sheet-label-care = Guárdelo seco y lejos del sol fuerte; quítele el polvo con un pincel suave y seco.
sheet-label-care-blank = Guárdelo plano y seco hasta que esté pintado y barnizado.
sheet-label-difficulty = Dificultad
sheet-label-ruler-alt = Dificultad: { $word }, { $score } de 100.
sheet-label-code-alt = Código QR: { $code }

### Packing slip
sheet-slip = Nota de envío
sheet-slip-from = De
sheet-slip-to = Para
sheet-slip-order = Pedido
sheet-slip-date = Fecha
sheet-slip-contents = En este paquete
sheet-slip-puzzle = { $title }: { $count ->
    [one] puzle de madera de 1 pieza
   *[other] puzle de madera de { $count } piezas
 }, contadas
sheet-slip-board = { $title }: un tablero de madera grabado, sin cortar
sheet-slip-customs = Para la aduana
sheet-slip-customs-lead = El peso neto está calculado y puede variar una décima parte, como la madera; la balanza del mostrador va por delante. El país de origen y el código arancelario los rellena quien envía.
sheet-slip-asked = Pregunta
sheet-slip-answer = Respuesta
sheet-slip-description = Descripción
sheet-slip-is-painted = Puzle de madera, { $count } piezas, pintado a mano
sheet-slip-is-plain = Puzle de madera, { $count } piezas, sin imagen
sheet-slip-is-blank = Puzle de madera, { $count } piezas, sin pintar, para que lo pinte quien lo compra
sheet-slip-is-scored = Tablero de madera con dibujo grabado, para que lo pinte quien lo compra
sheet-slip-quantity = Cantidad
sheet-slip-net = Peso neto
sheet-slip-gross = Peso embalado
sheet-slip-about = unos { $mass }
sheet-slip-value = Valor
sheet-slip-origin = País de origen
sheet-slip-tariff = Código arancelario
sheet-slip-signature = Firma
sheet-slip-mark = Marca del dibujo
sheet-slip-checked = Contado y embalado por
sheet-slip-lost = ¿Se ha perdido una pieza? Fotografíe el hueco con sus vecinas y diga la marca del dibujo { $mark }: se puede cortar una nueva.

### Stall
sheet-stall = Tarjetas de precio y lista de existencias
sheet-stall-list = Lista de existencias
sheet-stall-list-lead = Antes del mercado y después. Una raya indica lo que se hace por encargo.
sheet-stall-code = Referencia
sheet-stall-title = Título
sheet-stall-form = Acabado
sheet-stall-price = Precio
sheet-stall-should = Previsto
sheet-stall-before = Antes
sheet-stall-after = Después
sheet-stall-sold = Vendido
sheet-stall-by = Contado por
sheet-stall-on = el
sheet-stall-to-order = por encargo

### Printed catalogue
sheet-catalogue = Catálogo
sheet-catalogue-price-list = Catálogo y lista de precios
sheet-catalogue-newest = Se muestran los { $shown } puzzles más recientes de { $count }. La lista de precios, al final, los incluye todos.
sheet-catalogue-by-difficulty = Del más suave al más difícil
sheet-catalogue-by-subject = Por tema
sheet-catalogue-prices = Precios
sheet-catalogue-order = Para pedir: { $address }
sheet-catalogue-ready = Listo para enviar
sheet-catalogue-page = Página
sheet-catalogue-column-form = Acabado
sheet-catalogue-column-code = Referencia
sheet-catalogue-column-stock = Existencias
sheet-catalogue-scale-note = La dificultad es la escala de esta tienda, de 0 a 100, calculada con cada dibujo.

### Spare
sheet-spare-title = Pieza { $number } de { $title }
sheet-spare-what = Pieza { $number } de «{ $title }», marca del dibujo { $mark }, para un tablero de { $thickness } mm y un ancho de corte de { $kerf } mm.
sheet-spare-line = Corte por la línea dibujada: el mismo ancho de corte da otra vez la pieza perdida.
sheet-spare-snug = El corte está desplazado { $snug } mm hacia fuera, para que la pieza ajuste mejor; pruébelo antes en un recorte.
sheet-spare-unmatched = Lo que no se puede igualar: la veta y el tono del tablero, la pintura como se puso, los años pasados; córtela con la veta en el mismo sentido, de un tablero del mismo grosor, y píntela junto a sus vecinas.
