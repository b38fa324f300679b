"""Draws the demo shop: `python3 demo-drawings/draw.py [slug ...]` writes demo-shop/designs/<slug>/drawing.svg.

Every module here that has a `draw()` is a design; its name with hyphens is the slug. The same bytes each time.
"""

import importlib
import pathlib
import sys

HERE = pathlib.Path(__file__).resolve().parent
PARTS = {"draw", "kit", "curves", "knobs", "grids", "network", "sheet", "check"}


def main(slugs):
    sys.path.insert(0, str(HERE))
    names = sorted(p.stem for p in HERE.glob("*.py") if p.stem not in PARTS)
    for name in names:
        slug = name.replace("_", "-")
        if slugs and slug not in slugs:
            continue
        module = importlib.import_module(name)
        if not hasattr(module, "draw"):
            continue
        folder = HERE.parent / "demo-shop" / "designs" / slug
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "drawing.svg").write_text(module.draw(), encoding="utf-8", newline="\n")
        print(slug)


if __name__ == "__main__":
    main(sys.argv[1:])
