"""Draws the demo shop: `python3 demo-drawings/draw.py [slug ...]` writes demo-shop/designs/<slug>/drawing.svg. A module
with a HOME has its drawing there instead: the one that a new shop begins with.

With `--into FOLDER` the drawings go into FOLDER/<slug>/ instead, to be compared.

Every module here that has a `draw()` is a design; its name with hyphens is the slug. The same bytes each time.
"""

import argparse
import concurrent.futures
import importlib
import pathlib
import sys

HERE = pathlib.Path(__file__).resolve().parent
PARTS = {"draw", "kit", "curves", "knobs", "grids", "network", "sheet", "check"}


def main(args):
    ask = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    ask.add_argument("slugs", nargs="*")
    ask.add_argument("--into", type=pathlib.Path)
    call = ask.parse_args(args)
    names = sorted(p.stem for p in HERE.glob("*.py") if p.stem not in PARTS)
    wanted = [(name, call.into) for name in names if not call.slugs or slug_of(name) in call.slugs]
    # Side by side: each drawing stands alone, and some take long.
    with concurrent.futures.ProcessPoolExecutor() as pool:
        for slug in pool.map(draw, *zip(*wanted)):
            if slug:
                print(slug)


def slug_of(name):
    return name.replace("_", "-")


def draw(name, into):
    """Writes the drawing of one module and gives its slug; None where the module draws nothing."""
    sys.path.insert(0, str(HERE))
    module = importlib.import_module(name)
    if not hasattr(module, "draw"):
        return None
    home = HERE.parent / getattr(module, "HOME", "demo-shop/designs")
    folder = (into or home) / slug_of(name)
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "drawing.svg").write_text(module.draw(), encoding="utf-8", newline="\n")
    return slug_of(name)


if __name__ == "__main__":
    main(sys.argv[1:])
