"""The drawing as SVG: layers as groups, true to size, with the small disorders of a real drawing.

In: paths in mm. Out: SVG text. `Sheet` writes in any unit; `scores` finds the visible colour borders.
Never here: files, the clock; the same calls always give the same bytes.
"""

import math
from curves import Path, Region, _text, ellipse, parts_where

LABELS = "urn:kerfleaf:demo-drawing"


class Layer:
    """One group. `label` goes into an attribute of the drawing's own namespace."""

    def __init__(self, name, label=None, attributes="", shown=True):
        self.name, self.label, self.attributes, self.shown = name, label, attributes, shown
        self.body = []

    def add(self, paths, fill=None, extra=""):
        """Paths as drawn. `fill` for colours; `extra` is any further attribute text."""
        for p in paths if isinstance(paths, (list, tuple)) else [paths]:
            self.body.append(("path", p, fill, extra))
        return self

    def group(self, paths, dx=0.0, dy=0.0, degrees=0.0, scale=1.0, extra="", fill=None):
        """The same paths, but written in a group of their own with a transform that brings them back."""
        undo = lambda z: (z - complex(dx, dy)) * complex(math.cos(-math.radians(degrees)), math.sin(-math.radians(degrees))) / scale
        ps = [p.map(undo) for p in (paths if isinstance(paths, (list, tuple)) else [paths])]
        turn = f" rotate({_text(degrees)})" if degrees else ""
        size = f" scale({scale:g})" if scale != 1 else ""
        self.body.append(("group", ps, f"translate({dx:g} {dy:g}){turn}{size}", extra, fill))
        return self

    def dot(self, x, y, r, fill):
        """A mark: a small filled circle."""
        self.body.append(("dot", x, y, r, fill))
        return self

    def raw(self, text):
        """An element as it stands, in mm."""
        self.body.append(("raw", text))
        return self


class Sheet:
    """A drawing of width x height mm. `unit` names the unit of width and height in the file ("mm", "in", "px"),
    `per_mm` is how many units of the view box make a millimetre."""

    def __init__(self, width, height, unit="mm", per_mm=1.0, style="", title=None):
        self.width, self.height, self.unit, self.k, self.style, self.title = width, height, unit, per_mm, style, title
        self.layers = []

    def layer(self, name, label=None, attributes="", shown=True):
        self.layers.append(Layer(name, label, attributes, shown))
        return self.layers[-1]

    def svg(self):
        k, f = self.k, {"mm": 1.0, "cm": 0.1, "in": 1 / 25.4, "px": 96 / 25.4}[self.unit]
        out = ['<?xml version="1.0" encoding="UTF-8"?>',
               f'<svg xmlns="http://www.w3.org/2000/svg" xmlns:d="{LABELS}" width="{self.width * f:.6g}{self.unit}" '
               f'height="{self.height * f:.6g}{self.unit}" viewBox="0 0 {self.width * k:.6g} {self.height * k:.6g}">']
        if self.title:
            out.append(f"<title>{self.title}</title>")
        if self.style:
            out.append(f"<style>{self.style}</style>")
        for layer in self.layers:
            label = f' d:label="{layer.label}"' if layer.label else ""
            name = f' id="{layer.name}"' if layer.name else ""
            hide = "" if layer.shown else ' style="display:none"'
            more = f" {layer.attributes}" if layer.attributes else ""
            out.append(f"<g{name}{label}{more}{hide}>")
            for item in layer.body:
                out.extend(self._write(item, k))
            out.append("</g>")
        return "\n".join(out + ["</svg>", ""])

    def _path(self, p, fill, extra, k):
        paint = f' fill="{fill}"' if fill else ""
        return f'<path{paint}{" " + extra if extra else ""} d="{(p.scale(k) if k != 1 else p).d()}"/>'

    def _write(self, item, k):
        kind = item[0]
        if kind == "path":
            yield self._path(*item[1:], k)
        elif kind == "group":
            _, ps, transform, extra, fill = item
            outer = transform if k == 1 else f"scale({k:.9g}) {transform}"
            yield f'<g transform="{outer}"{" " + extra if extra else ""}>'
            for p in ps:
                yield self._path(p, fill, "", 1)
            yield "</g>"
        elif kind == "dot":
            _, x, y, r, fill = item
            yield f'<circle cx="{_text(x * k)}" cy="{_text(y * k)}" r="{_text(r * k)}" fill="{fill}"/>'
        else:
            yield item[1] if k == 1 else f'<g transform="scale({k:.9g})">{item[1]}</g>'


def scores(shapes, keep):
    """Score lines along the borders of a painted picture. shapes: (path, colour), later over earlier; keep(z):
    whether z is on the board. Only what is seen, and only where the two sides differ in colour."""
    regions = [(Region(p), c) for p, c in shapes]

    def meets(a, b):
        return a[0] <= b[2] + 1 and b[0] <= a[2] + 1 and a[1] <= b[3] + 1 and b[1] <= a[3] + 1

    out = []
    for i, (path, _) in enumerate(shapes):
        here = [j for j in range(len(regions) - 1, -1, -1) if meets(regions[i][0].box, regions[j][0].box)]

        def seen(z, after=-1):
            for j in here:
                if j > after and z in regions[j][0]:
                    return regions[j][1]
            return None

        def border(z):
            return keep(z) and seen(z, i) is None
        for u0, u1 in parts_where(path, border):
            part = path.sub(u0, u1)
            pu = part.flat(0.7)[1]
            def differs(u):
                z, t = part.point(u), part.tangent(u)
                return seen(z + t * 0.06j) != seen(z - t * 0.06j)
            runs, begin = [], None
            for a, b in zip(pu, pu[1:]):
                if differs((a + b) / 2):
                    begin = a if begin is None else begin
                elif begin is not None:
                    runs.append((begin, a))
                    begin = None
            if begin is not None:
                runs.append((begin, pu[-1]))
            for a, b in runs:
                s = part.sub(a, b)
                if s.length() > 0.4:
                    out.append(s)
    return out


def shortened(path, gap):
    """The path with its end drawn back by gap mm: an end that the join must close."""
    n = path.length()
    return path.sub(0.0, path.at_length(n - gap))


def untidy(strokes, rng, share=0.12, least=0.03, most=0.07):
    """Some strokes stop a hair short, as strokes drawn by hand do; all within a join of 0.1 mm."""
    out = []
    for s in strokes:
        out.append(shortened(s, rng.uniform(least, most)) if rng.random() < share and s.length() > 6 else s)
    return out


def piece_of(stroke, begin=0.3, end=0.6):
    """A stretch of a stroke again, to be drawn twice by mistake."""
    n = stroke.length()
    return stroke.sub(stroke.at_length(n * begin), stroke.at_length(n * end))


def dot_path(x, y, r):
    return ellipse(x, y, r)
