### What the catalogue says, in Spanish.

## Everywhere

skip = Ir al contenido
small-pieces = Piezas pequeñas: mantener fuera del alcance de los niños pequeños.
about = unos
title-shop = { $title } · { $shop }
title-page = { $title }, página { $number }
nav-label = La tienda
nav-pages = Páginas
nav-all = Todos los puzles
nav-difficulty = Cuánto cuesta cada uno
nav-care = Cuidados
nav-feed = Novedades por suscripción
maker-eu-person = Persona responsable en la UE: { $person }

## Counts

count-pieces = { $count ->
    [one] { $count } pieza
   *[other] { $count } piezas
}
count-edge = { $count ->
    [one] { $count } en el borde
   *[other] { $count } en el borde
}
count-novelty = { $count ->
    [one] { $count } pieza con figura: sin mirar
   *[other] { $count } piezas con figura: sin mirar
}
count-designs = { $count ->
    [0] Todavía no hay puzles
    [one] { $count } puzle
   *[other] { $count } puzles
}

## Forms, prices, stock

form-painted = Pintado a mano
form-plain = Madera vista, aceitada
form-blank = En blanco, para pintar en casa
form-painted-short = Pintado
form-plain-short = Madera vista
form-blank-short = En blanco
list-painted = Puzles pintados
list-plain = Puzles de madera vista
list-blank = Tableros para pintar
blank-scored = Un solo tablero con el dibujo grabado.
blank-cut = Cortado, con las piezas juntas sobre su hoja.
blank-primed = Imprimado.
blank-bare = Sin imprimar.
price-from = desde { $price }
stock-ready = { $count ->
    [one] Uno listo para enviar
   *[other] { $count } listos para enviar
}
stock-sold-out = Agotado
stock-made-to-order = Por encargo
offers-title = A la venta
contains = Incluye:
packed = Embalado, unos { $mass }, { $size }
order = Pedir
postage = Envío
postage-none = consúltenos

## Lists

browse-forms = Por acabado
browse-subjects = Por tema
pager-label = Más de esta lista
pager-before = Más nuevos
pager-after = Más antiguos
pager-number = Página { $number } de { $last }

## Search and compare

finder-title = Buscar en el catálogo
finder-search = Buscar
finder-sort = Orden
finder-narrow = Acotar
finder-form = Acabado
finder-ready = Listo para enviar
finder-side = Lado mayor, { $unit }
finder-price = Precio, { $currency }
finder-subject = Tema
finder-any = Todos
finder-from = de
finder-to = a
finder-found = { $n } de { $total }
finder-none = Nada encaja. Quizá con menos palabras o límites más amplios.
finder-more = Ver más
finder-clear = Borrar todo
sort-new = Primero lo más nuevo
sort-title = Por título
sort-few = Menos piezas primero
sort-many = Más piezas primero
sort-gentle = Primero los más suaves
sort-fiendish = Primero los más difíciles
sort-price = Primero los más baratos
compare = Comparar
compare-pick = Comparar { $title }
compare-chosen = { $n } de 3 elegidos
compare-show = Lado a lado
compare-title = Lado a lado
compare-words = A la misma escala.
compare-drop = Quitar { $title }
close = Cerrar

## The specimen card

label-pieces = Piezas
label-edge-pieces = Piezas de borde
label-size = Tamaño
label-novelty = Sorpresas
label-difficulty = Dificultad
label-thickness = Grosor
label-weight = Peso
label-wood = Madera
label-price = Precio
label-edition = Edición
product-category = Puzle de madera
difficulty-score = { $score } de 100

## Pictures

view-photo = Fotografía
view-painted = Pintado
view-uncut = Antes de cortar
view-plain = Madera vista
view-blank = En blanco
view-close-up = De cerca
view-loosened = Suelto
view-tray = Ordenado por tamaño
alt-photo = { $title }, en fotografía
alt-painted = { $title }: el puzle entero, pintado en { $paints ->
    [one] un color
   *[other] { $paints } colores
}; { $count ->
    [one] una pieza
   *[other] { $count } piezas
}, { $wood }, { $size }
alt-uncut = { $title }: el tablero entero antes de cortarlo, { $wood }, { $size }
alt-plain = { $title }: el puzle entero en madera aceitada, { $wood }; { $count ->
    [one] una pieza
   *[other] { $count } piezas
}, { $size }
alt-blank = { $title }: el tablero sin pintar con las líneas que guían la pintura, { $wood }, { $size }
alt-close-up = { $title }: una esquina vista de cerca
alt-loosened = { $title }: { $count ->
    [one] su única pieza
   *[other] sus { $count } piezas
} por separado sobre una mesa
alt-tray = { $title }: { $count ->
    [one] su única pieza
   *[other] sus { $count } piezas
} en filas por tamaño, las mayores primero
viewer-title = Imágenes de { $title }
viewer-before = Imagen anterior
viewer-after = Imagen siguiente
viewer-nearer = Más cerca o más lejos
cover = Ver las piezas por separado
cover-why = { $count ->
    [one] Esto desvela una sorpresa.
   *[other] Esto desvela { $count } sorpresas.
}
scale-alt = El puzle, { $sheet } y una tarjeta bancaria a la misma escala
scale-words = A la misma escala: el puzle, { $sheet }, una tarjeta bancaria.
paper-a4 = una hoja A4
paper-letter = una hoja US Letter

## The guide and the paints

guide-title = Guía de pintura
guide-words = Para imprimir en casa a tamaño real: cada campo con el número de su color.
guide-a4 = A4
guide-letter = US Letter
guide-pages = { $count ->
    [one] { $count } página
   *[other] { $count } páginas
}
paints-title = { $count ->
    [one] Una aguada
   *[other] { $count } aguadas
}
paints-cells = { $count ->
    [one] Un campo por pintar.
   *[other] { $count } campos por pintar.
}
near-title = Parecidos a este

## Warnings

# 16 CFR 1500.19(b)(1) asks for these words in English.
warning-us-1 = WARNING:
warning-us-2 = CHOKING HAZARD - Small parts
warning-us-3 = Not for children under 3 yrs.
# Directiva 2009/48/CE, anexo V, parte B, punto 1; order of the parts from memory.
warning-eu = Advertencia. No conviene para niños menores de 36 meses. Partes pequeñas. Peligro de asfixia.
warning-duty = Los ensayos y el marcado corresponden al fabricante según la ley local.
warning-symbol = Señal de alerta

## Difficulty

difficulty-gentle = suave
difficulty-steady = sereno
difficulty-testing = exigente
difficulty-fiendish = endiablado
difficulty-title = Cuánto cuesta cada uno
difficulty-1 = La escala es de esta tienda. Va de 0 a 100 y se calcula con el dibujo de cada puzle, sin adivinar nada, para que dos puzles de este taller se puedan comparar. De los puzles de otros sitios no dice nada.
difficulty-2 = Cuentan cuatro cosas:
difficulty-size = El tamaño. Cada vez que se dobla el número de piezas se suman { $points } puntos.
difficulty-edges = Los bordes. Una pieza con un lado recto se encuentra enseguida. Cuantas más haya, más se resta: { $points } puntos si todas están en el borde.
difficulty-novelty = Las figuras. Una pieza con forma de cosa dice dónde va. Restan hasta { $points } puntos, todos cuando hay una por cada cuatro piezas.
difficulty-alike = Las gemelas. Las piezas de contorno exactamente igual encajan donde no deben. Suman hasta { $points } puntos, todos cuando cada pieza tiene su gemela.
difficulty-3 = La imagen no se cuenta, aunque ayuda: la madera vista es más difícil que el mismo tablero pintado.
difficulty-gentle-words = Menos de 40. Una hora y una tetera.
difficulty-steady-words = De 40 a 60. Una tarde entera.
difficulty-testing-words = De 60 a 80. Déjelo en la mesa; volverá.
difficulty-fiendish-words = 80 o más. Queda avisado.
difficulty-ours = Los nuestros, del más suave en adelante

## Care

care-title = Cuidados
care-dry = Manténgalo seco. El agua hincha la madera y levanta la acuarela: ni paño mojado, ni sótano húmedo, ni radiador caliente, que seca un tablero hasta doblarlo.
care-flat = Guárdelo plano, en su caja, en una habitación donde viva gente.
care-dust = Quítele el polvo con una brocha suave y seca o un paño seco.
care-light = La acuarela pierde color al sol fuerte. Cuelgue el puzle donde no le dé.
care-lift = Levante las piezas en línea recta, desde abajo. Una pieza que no sale quiere un empujón suave por detrás, no que tiren de su saliente.
care-count = Cuente las piezas antes de guardarlas. El número está en la etiqueta y en este sitio.
cautions-more = Más precauciones

## Cautions

cautions-title = Precauciones
cautions-class = Casi todas las piezas de casi todos los puzles son lo bastante pequeñas para atragantarse. En la UE y el Reino Unido los puzles de más de 500 piezas no se clasifican como juguetes; los menores pueden serlo.

## Nothing here

missing-title = Falta esta pieza
missing-words = En esta dirección no hay nada. Quizá esté debajo del sofá.
missing-home = Volver a todos los puzles
