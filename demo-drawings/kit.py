"""The drawing kit of the demo shop, in one name: `from kit import *`.

curves.py   paths of Beziers: smooth, lines, ellipse, rounded, ribbon, below, Region
knobs.py    the knob of this workshop's own shape
grids.py    lines to start from: warped_grid, courses, rings, scatter + cell_lines
network.py  Network: split, merge slivers, place knobs, strokes
sheet.py    Sheet and layers, scores along colour borders, untidiness

A design in short:
    net = Network(outline, shapes=[heron, fish])
    net.add(warped_grid(0, 0, 300, 200, 11, 8, rng)); net.add(hill_line, plain=True)
    net.build(smallest=150); net.lock(rng)
    sheet = Sheet(300, 200); sheet.layer("cuts", attributes='fill="none" stroke="#222"').add([outline] + net.strokes())
"""

import math
import random

from curves import Path, Region, below, ellipse, lines, parts_where, polar, pt, ribbon, rounded, smooth
from grids import cell_lines, courses, rings, scatter, shares, warped_grid
from knobs import knob_on, span
from network import Network
from sheet import Sheet, piece_of, scores, shortened, untidy

LINE = 'fill="none" stroke="#222" stroke-width="0.2"'
FAINT = 'fill="none" stroke="#777" stroke-width="0.15"'
