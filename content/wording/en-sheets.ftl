# Labels of the printed sheets. Sentences of the work itself stand in content/painting.toml.

### Cover
sheet-guide = Painting guide
sheet-pieces = Pieces
sheet-size = Size
sheet-colours = Colours
sheet-cells = Cells
sheet-board = Board
sheet-mark = Drawing mark
sheet-board-cut = cut, on its backing sheet
sheet-board-scored = scored, in one piece
sheet-primed = primed
sheet-unprimed = bare wood
sheet-in-the-kit = In the kit
sheet-kit-board = the board: { $board }, { $ground }
sheet-kit-guide = this guide
sheet-you-need = You will also need
sheet-cover-alt = Picture of the finished design: { $title }
sheet-pieces-later = { $count } once it is cut

### The order of work
sheet-work = The order of work
sheet-work-lead-scored = For a board that comes scored and in one piece.
sheet-work-lead-cut = For a board that comes cut and lies assembled.
sheet-cautions = Take care
sheet-mishaps = When something goes wrong

### Palette
sheet-palette = Palette
sheet-palette-lead = The number is the one in the cells of the drawing. The dashed box is for your own colour, dried.
sheet-number = No.
sheet-swatch = Colour
sheet-paint = Paint
sheet-area = Cells, area
sheet-own = Your own
sheet-cell-count = { $count ->
    [0] no cell of its own
    [one] 1 cell
   *[other] { $count } cells
 }
sheet-mix = Mix: { $text }
sheet-wash = Wash: { $text }
sheet-mix-suggested = A mix to try on scrap first: { $text }
sheet-mix-part = { $count ->
    [one] 1 part
   *[other] { $count } parts
 } { $name }
sheet-mix-water = { $count ->
    [1] and as much water
   *[other] and { $count } times as much water
 }
sheet-amount-acrylic = Acrylics: { $least } to { $most } ml
sheet-amount-drop = Acrylics: under 1 ml
sheet-amount-primer = Primer, all coats: { $least } to { $most } ml, by how thick it goes on
sheet-amount-sealer = Sealer, all coats: { $least } to { $most } ml
sheet-printed-colours = Printed colours differ from painted ones: go by your trials.
sheet-turns = In turns, light to dark
sheet-turns-rule = Light before dark: a colour waits for every clearly lighter colour that it touches, and no two wet cells share a line. Within a turn any order will do. Let each turn dry before the next.
sheet-turn = Turn { $number }
sheet-no-paint-cell = A cell marked “?” has no colour yet: choose one, or ask the workshop.

### Drawing
sheet-drawing = The drawing, true to size
sheet-drawing-free = The board, true to size
sheet-true-size = True to size: print at 100 %, not “fit to page”.
sheet-rule = 100 mm: measure it before you begin.
sheet-rule-us = 100 mm (3.94 in): measure it before you begin.
sheet-tile = Sheet { $name }
sheet-tile-of = row { $row } of { $rows }, column { $column } of { $columns }
sheet-tile-row = row { $row } of { $rows }
sheet-tile-column = column { $column } of { $columns }
sheet-joins = joins { $name }
sheet-map = How the sheets join
sheet-map-lead = The drawing is larger than this paper: it comes on { $count } sheets, named by row and column.
sheet-map-1 = Print at 100 %, and measure the rule on one sheet.
sheet-map-2 = Cut each sheet along its dashed line where it meets the next one on the right or below.
sheet-map-3 = Begin with { $first }. Join each row from left to right, then the rows from top to bottom, cross on cross and ring on ring.
sheet-map-scale = Reduced to { $percent } %.
sheet-map-alt = The whole drawing, reduced, with the names of the { $count } sheets.
sheet-overview-only = The board is too large to print true to size on this paper: { $count } sheets would be needed. This is the whole, reduced to { $percent } %.
sheet-overview-alt = The whole drawing, reduced.
sheet-drawing-alt = { $cells ->
    [0] Line drawing of the board, true to size.
    [one] Line drawing of the board, true to size, with one numbered cell.
   *[other] Line drawing of the board, true to size, with { $cells } numbered cells.
 }
sheet-tile-alt = Part { $name } of the line drawing, true to size.
sheet-leader = A number on a line belongs to the cell at the dot.

### Trial and sketch
sheet-trial = Trial page
sheet-trial-lead = For washes. Printer paper buckles: if you can, print this page on watercolour paper, or lay the trials on a scrap of primed wood.
sheet-thin = thin
sheet-middle = middle
sheet-full = full
sheet-sketch = Sketch page
sheet-sketch-lead = The board, reduced. Try where light and dark should lie before you wet the wood.
sheet-sketch-alt = Outline of the board, reduced, for a sketch.

### Foot
sheet-page = { $page } / { $pages }

### Every private sheet
sheet-private = Private: for the bench, not for buyers.
sheet-private-personal = Private: one buyer’s version. Never publish it.

### Count
sheet-count = Count sheet
sheet-count-edge = On the edge
sheet-count-inside = Inside
sheet-count-true = True to size.
sheet-count-part = Part { $name }
sheet-count-alt = Map of the pieces with { $count } numbers.
sheet-count-map = Piece map
sheet-count-map-lead = Each piece has its number; the dashed lines part the rows, whose numbers stand at the left.
sheet-count-map-personal = One buyer’s version: lines and figures are made anew for it.
sheet-count-leader = A number outside its piece belongs to the piece at the dot.
sheet-count-rows = Row by row
sheet-count-rows-lead = Tick every piece as it lies, from left to right. A piece belongs to the row that its number stands in.
sheet-count-row = Row { $number }
sheet-count-column-row = Row
sheet-count-column-pieces = Pieces
sheet-count-column-count = In the row
sheet-count-column-running = So far
sheet-count-column-piece = Piece
sheet-count-column-area = Area
sheet-count-column-width = Width
sheet-count-total = { $count ->
    [one] 1 piece in all
   *[other] { $count } pieces in all
 }
sheet-count-by = Counted by
sheet-count-on = on
sheet-count-board = Board no.
sheet-count-look = Where to look first
sheet-count-look-lead = What is missing mostly lies on the bed, in the film, or stuck in the slot of a neighbour.
sheet-count-small = Smallest
sheet-count-small-lead = They fall through a honeycomb first, and leave with the air.
sheet-count-narrow = Narrowest
sheet-count-narrow-lead = They stand on edge in a slot of the bed. The width is that of the largest circle in the piece.
sheet-count-necks = Weak necks, which may have broken in lifting: { $pieces }.
sheet-weigh = Weighing instead
sheet-weigh-why = The computed weight of all pieces, { $board }, cannot show that one is missing: boards of one wood differ by about { $percent } %, here { $off }, as much as { $pieces } pieces. Weighing some pieces of this very board can.
sheet-weigh-1 = Weigh these pieces together, every one of them seen and ticked:
sheet-weigh-2 = Multiply by { $factor }: so much all pieces should weigh.
sheet-weigh-3 = Weigh all pieces together, these among them. If that is less by more than the second column says, something is missing.
sheet-weigh-step = Scale reads to
sheet-weigh-beyond = Missing from
sheet-weigh-shows = Shows a lost piece from
sheet-weigh-blind = Too light to show
sheet-weigh-lighter = { $count } of { $all } pieces
sheet-weigh-uneven = The middle piece weighs { $middle }, the lightest { $lightest }. All this holds for an even board: for each percent that the weighed pieces are lighter or heavier than the rest for their size, { $mass } are lost from sight, or { $pieces } pieces; that is why they are spread over the board. Weigh all at one sitting: wood drinks from the air.

### Bench
sheet-bench = Bench sheet
sheet-bench-weight = Weight, about
sheet-bench-problems = Problems
sheet-bench-problems-count = { $count ->
    [0] none found
    [one] 1, see inspect
   *[other] { $count }, see inspect
 }
sheet-bench-drawing = What is cut when
sheet-bench-drawing-alt = The cuts, reduced: thick what comes first, thin what comes next, broken what comes last.
sheet-bench-first = thick: first
sheet-bench-next = thin: next
sheet-bench-last = broken: last
sheet-bench-personal = One buyer’s version: lines and figures are made anew for it.
sheet-bench-laser = Lines and times
sheet-bench-what = What
sheet-bench-length = Length
sheet-bench-speed = Speed
sheet-bench-time = Time
sheet-bench-score = Score
sheet-bench-cut = Cut
sheet-bench-travel-drawn = Travel, in the order drawn
sheet-bench-travel-advised = Travel, in the order below
sheet-bench-total = Together, in the order below
sheet-bench-times-note = Times are lengths over speeds: starting, stopping and lifting the head come on top.
sheet-bench-advice = Cut the { $inside } openings and other closed lines inside the board first, then the { $between } lines between pieces, each time the one that begins nearest, and the outline last.
sheet-bench-advice-plain = Cut the { $between } lines between pieces first, each time the one that begins nearest, and the outline last.
sheet-bench-saves = The head then travels { $advised } instead of { $drawn }, { $saved } less.
sheet-bench-saves-time = That is { $time }.
sheet-bench-costs = The head then travels { $advised } instead of { $drawn }, { $saved } more, and the board stays put until the end.
sheet-bench-costs-time = That costs { $time }.
sheet-bench-stock = Boards from a stock sheet
sheet-bench-sheet = A sheet of { $sheet }, { $margin } kept clear along its edges, one beam between boards.
sheet-bench-no-sheet = shop.toml names no stock sheet: write `sheet` under `[workshop]`.
sheet-bench-laid = Laid
sheet-bench-rows = Rows
sheet-bench-boards = Boards
sheet-bench-upright = As drawn
sheet-bench-turned = Turned by a quarter
sheet-bench-mixed = Both ways mixed
sheet-bench-yield = { $count ->
    [one] 1 board at the most; { $percent } % of the sheet becomes puzzle. Counted by the boards’ boxes: shaped boards may nest closer.
   *[other] { $count } boards at the most; { $percent } % of the sheet becomes puzzle. Counted by the boards’ boxes: shaped boards may nest closer.
 }
sheet-bench-none = The board does not go on this sheet either way.
sheet-bench-floor = Price floor
sheet-bench-floor-lead = What an offer costs by your own rates, rounded up. Not in it: taxes, rent, the machine, postage.
sheet-bench-steps = Steps to tick
sheet-bench-cautions = Take care
sheet-floor-part = Part
sheet-floor-amount = How much
sheet-floor-cost = Cost
sheet-floor-wood = Wood, with waste
sheet-floor-boards = sheet ÷ { $count }
sheet-floor-pack = Pack
sheet-floor-extras = Extras
sheet-floor-laser = Laser
sheet-floor-painting = Painting
sheet-floor-handling = Handling
sheet-floor-time = Time
sheet-floor-rate = { $minutes } min at { $rate } an hour
sheet-floor-fees = Fees
sheet-floor-floor = Floor
sheet-floor-price = Price
sheet-floor-above = The price leaves
sheet-floor-under = The price does not cover it
sheet-floor-lacking = Not counted, for want of: { $keys }.

### Label
sheet-label = Box label
sheet-label-wood = Wood
sheet-label-edition = Edition
sheet-label-packed = Packed, about
sheet-label-by-hand = Painted by hand: yours will differ a little.
sheet-label-care = Keep it dry and out of strong sun; dust it with a soft dry brush.
sheet-label-care-blank = Store it flat and dry until it is painted and sealed.
sheet-label-difficulty = Difficulty
sheet-label-ruler-alt = Difficulty: { $word }, { $score } of 100.
sheet-label-code-alt = QR code: { $code }

### Packing slip
sheet-slip = Packing slip
sheet-slip-from = From
sheet-slip-to = To
sheet-slip-order = Order
sheet-slip-date = Date
sheet-slip-contents = In this parcel
sheet-slip-puzzle = { $title }: { $count ->
    [one] wooden puzzle of 1 piece
   *[other] wooden puzzle of { $count } pieces
 }, counted
sheet-slip-board = { $title }: one scored wooden board, uncut
sheet-slip-customs = For customs
sheet-slip-customs-lead = Net weight is computed and may differ by a tenth, as wood does; the scale at the counter goes before it. Country of origin and tariff number are for the sender to fill in.
sheet-slip-asked = Asked
sheet-slip-answer = Answer
sheet-slip-description = Description
sheet-slip-is-painted = Wooden jigsaw puzzle, { $count } pieces, painted by hand
sheet-slip-is-plain = Wooden jigsaw puzzle, { $count } pieces, plain
sheet-slip-is-blank = Wooden jigsaw puzzle, { $count } pieces, unpainted, to be painted by the buyer
sheet-slip-is-scored = Wooden board with a scored picture, to be painted by the buyer
sheet-slip-quantity = Quantity
sheet-slip-net = Net weight
sheet-slip-gross = Packed weight
sheet-slip-about = about { $mass }
sheet-slip-value = Value
sheet-slip-origin = Country of origin
sheet-slip-tariff = Tariff number
sheet-slip-signature = Signature
sheet-slip-mark = Drawing mark
sheet-slip-checked = Counted and packed by
sheet-slip-lost = A piece lost? Photograph the hole with its neighbours and name the drawing mark { $mark }: a new one can be cut.

### Stall
sheet-stall = Price cards and stock list
sheet-stall-list = Stock list
sheet-stall-list-lead = Before the market and after it. A dash stands for what is made to order.
sheet-stall-code = Code
sheet-stall-title = Title
sheet-stall-form = Form
sheet-stall-price = Price
sheet-stall-should = Should be
sheet-stall-before = Before
sheet-stall-after = After
sheet-stall-sold = Sold
sheet-stall-by = Counted by
sheet-stall-on = on
sheet-stall-to-order = made to order

### Printed catalogue
sheet-catalogue = Catalogue
sheet-catalogue-price-list = Catalogue and price list
sheet-catalogue-newest = The newest { $shown } of { $count } puzzles are shown. The price list at the end has them all.
sheet-catalogue-by-difficulty = From the gentlest up
sheet-catalogue-by-subject = By subject
sheet-catalogue-prices = Prices
sheet-catalogue-order = To order: { $address }
sheet-catalogue-ready = Ready to post
sheet-catalogue-page = Page
sheet-catalogue-column-form = Form
sheet-catalogue-column-code = Code
sheet-catalogue-column-stock = Stock
sheet-catalogue-scale-note = Difficulty is this shop’s own scale from 0 to 100, worked out from each drawing.

### Spare
sheet-spare-title = Piece { $number } of { $title }
sheet-spare-what = Piece { $number } of “{ $title }”, drawing mark { $mark }, for a board of { $thickness } mm and a kerf of { $kerf } mm.
sheet-spare-line = Cut on the line as drawn: the same kerf gives the lost piece again.
sheet-spare-snug = The cut is moved out by { $snug } mm, so the piece sits tighter; try it in scrap first.
sheet-spare-unmatched = What cannot be matched: grain and tone of the board, the paint as it was laid, the years since; cut it with the grain the same way, from a board of the same thickness, and paint it beside its neighbours.
