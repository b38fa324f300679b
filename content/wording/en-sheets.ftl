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
sheet-printed-colours = Printed colours differ from painted ones: go by your trials.
sheet-turns = In turns, light to dark
sheet-turns-rule = Light before dark: a colour waits for every lighter colour that it touches, and no two wet cells share a line. Within a turn any order will do. Let each turn dry before the next.
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
