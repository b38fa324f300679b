### What the catalogue says, in English.

## Everywhere

skip = Skip to the contents
small-pieces = Small pieces: keep away from young children.
about = about
title-shop = { $title } · { $shop }
title-page = { $title }, page { $number }
nav-label = The shop
nav-pages = Pages
nav-all = All puzzles
nav-difficulty = How hard is hard
nav-care = Care
nav-feed = Feed of new puzzles
maker-eu-person = Responsible person in the EU: { $person }

## Counts

count-pieces = { $count ->
    [one] { $count } piece
   *[other] { $count } pieces
}
count-edge = { $count ->
    [one] { $count } on the edge
   *[other] { $count } on the edge
}
count-novelty = { $count ->
    [one] { $count } novelty shape: no peeking
   *[other] { $count } novelty shapes: no peeking
}
count-designs = { $count ->
    [0] No puzzles yet
    [one] { $count } puzzle
   *[other] { $count } puzzles
}

## Forms, prices, stock

form-painted = Painted by hand
form-plain = Plain oiled wood
form-blank = Blank, to paint yourself
form-painted-short = Painted
form-plain-short = Plain
form-blank-short = Blank
list-painted = Painted puzzles
list-plain = Plain puzzles
list-blank = Blanks to paint
blank-scored = One board with the picture scored into it.
blank-cut = Cut, and lying together on its backing sheet.
blank-primed = Primed.
blank-bare = Not primed.
price-from = from { $price }
stock-ready = { $count ->
    [one] One ready to post
   *[other] { $count } ready to post
}
stock-sold-out = Sold out
stock-made-to-order = Made to order
offers-title = To buy
contains = With it:
packed = Packed about { $mass }, { $size }
order = Order
postage = Postage
postage-none = please ask

## Lists

browse-forms = By form
browse-subjects = By subject
pager-label = More of this list
pager-before = Newer
pager-after = Older
pager-number = Page { $number } of { $last }

## Search and compare

finder-title = Search the catalogue
finder-search = Search
finder-sort = Order
finder-narrow = Narrow down
finder-form = Form
finder-ready = Ready to post
finder-side = Longest side, { $unit }
finder-price = Price, { $currency }
finder-subject = Subject
finder-any = Any
finder-from = from
finder-to = to
finder-found = { $n } of { $total }
finder-none = Nothing fits. Fewer words or wider limits may help.
finder-more = Show more
finder-clear = Clear all
sort-new = Newest first
sort-title = By title
sort-few = Fewest pieces first
sort-many = Most pieces first
sort-gentle = Gentlest first
sort-fiendish = Hardest first
sort-price = Lowest price first
compare = Compare
compare-pick = Compare { $title }
compare-chosen = { $n } of 3 chosen
compare-show = Side by side
compare-title = Side by side
compare-words = Drawn to one scale.
compare-drop = Take { $title } away
close = Close

## The specimen card

label-pieces = Pieces
label-edge-pieces = Edge pieces
label-size = Size
label-novelty = Surprises
label-difficulty = Difficulty
label-thickness = Thickness
label-weight = Weight
label-wood = Wood
label-price = Price
label-edition = Edition
product-category = Wooden jigsaw puzzle
difficulty-score = { $score } of 100

## Pictures

view-photo = Photograph
view-painted = Painted
view-uncut = Before cutting
view-plain = Plain
view-blank = Blank
view-close-up = From close by
view-loosened = Loosened
view-tray = In a tray, by size
alt-photo = { $title }, photographed
alt-painted = { $title }: the whole puzzle, painted in { $paints ->
    [one] one colour
   *[other] { $paints } colours
}; { $count ->
    [one] one piece
   *[other] { $count } pieces
} of { $wood }, { $size }
alt-uncut = { $title }: the whole board before it is cut, { $wood }, { $size }
alt-plain = { $title }: the whole puzzle in plain oiled { $wood }; { $count ->
    [one] one piece
   *[other] { $count } pieces
}, { $size }
alt-blank = { $title }: the unpainted board of { $wood } with the lines to paint by, { $size }
alt-close-up = { $title }: a corner seen from close by
alt-loosened = { $title }: { $count ->
    [one] its one piece
   *[other] its { $count } pieces
} moved apart on a table
alt-tray = { $title }: { $count ->
    [one] its one piece
   *[other] its { $count } pieces
} laid out in rows by size, the largest first
viewer-title = Pictures of { $title }
viewer-before = Picture before
viewer-after = Next picture
viewer-nearer = Nearer or farther
cover = Show the pieces apart
cover-why = { $count ->
    [one] This gives one surprise away.
   *[other] This gives { $count } surprises away.
}
scale-alt = The board, { $sheet } and a bank card, drawn to one scale
scale-words = To one scale: the board, { $sheet }, a bank card.
paper-a4 = a sheet of A4
paper-letter = a sheet of US Letter

## The guide and the paints

guide-title = Painting guide
guide-words = To print at home, true to size: every field with the number of its colour.
guide-a4 = A4
guide-letter = US Letter
guide-pages = { $count ->
    [one] { $count } page
   *[other] { $count } pages
}
paints-title = { $count ->
    [one] One wash
   *[other] { $count } washes
}
paints-cells = { $count ->
    [one] One field to paint.
   *[other] { $count } fields to paint.
}
near-title = Much like this one

## Warnings

# 16 CFR 1500.19(b)(1): the published wording, line by line.
warning-us-1 = WARNING:
warning-us-2 = CHOKING HAZARD - Small parts
warning-us-3 = Not for children under 3 yrs.
# Directive 2009/48/EC, Annex V: the published wording.
warning-eu = Warning. Not suitable for children under 36 months. Small parts. Choking hazard.
warning-duty = Testing and marking are the maker's duty under local law.
warning-symbol = Safety alert

## Difficulty

difficulty-gentle = gentle
difficulty-steady = steady
difficulty-testing = testing
difficulty-fiendish = fiendish
difficulty-title = How hard is hard
difficulty-1 = The scale is this shop's own. It runs from 0 to 100 and is worked out from the drawing of each puzzle, never guessed, so that two puzzles from this bench can be compared. It says nothing about puzzles from elsewhere.
difficulty-2 = Four things go into it:
difficulty-size = Size. Every doubling of the number of pieces adds { $points } points.
difficulty-edges = Edges. Pieces with a straight start are easy to find. The larger their share, the more is taken off: { $points } points if every piece lies on the edge.
difficulty-novelty = Shapes. Pieces shaped like a thing tell where they belong. They take off up to { $points } points, in full when there is one for every four pieces.
difficulty-alike = Twins. Pieces of exactly the same outline fit in the wrong places. They add up to { $points } points, in full when every piece has a twin.
difficulty-3 = The picture is not counted, though it helps: a plain board is harder than the same board painted.
difficulty-gentle-words = Under 40. An hour with a pot of tea.
difficulty-steady-words = 40 to 60. A whole evening.
difficulty-testing-words = 60 to 80. Leave it on the table; you will be back.
difficulty-fiendish-words = 80 and above. You have been told.
difficulty-ours = Ours, from the gentlest up

## Care

care-title = Care
care-dry = Keep it dry. Water swells wood and lifts watercolour: no wet cloth, no damp cellar, no warm radiator either, which dries a board until it bends.
care-flat = Store it flat, in its box, in a room that people live in.
care-dust = Dust it with a soft dry brush or a dry cloth.
care-light = Watercolours fade in strong sunlight. Hang a puzzle where the sun does not reach it.
care-lift = Lift pieces straight up from below. A piece that holds fast wants a gentle push from the back, not a pull at its knob.
care-count = Count the pieces before they go back into the box. The number is on the label and on this site.
cautions-more = More about cautions

## Cautions

cautions-title = Cautions
cautions-class = Nearly all pieces of nearly all puzzles are small enough to choke on. In the UK and the EU puzzles of more than 500 pieces are not classed as toys; smaller ones may be.
## Nothing here

missing-title = This piece is missing
missing-words = There is nothing at this address. Perhaps it is under the sofa.
missing-home = Back to all puzzles
