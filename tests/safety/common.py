"""What the safety checks share: a shop of small designs, trees of files, and calls of the program."""
import hashlib
import os
import pathlib
import shutil
import subprocess

DRAWING = """<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="30mm" viewBox="0 0 40 30">
<g id="paint"><rect width="40" height="12" fill="#f2c14e"/><rect y="12" width="40" height="18" fill="#3a6ea5"/></g>
<g id="cuts" fill="none" stroke="#000"><rect width="40" height="30"/><path d="M20 0C26 10 14 20 20 30"/></g></svg>
"""
RECORD = """title = "{title}"
status = "published"
added = 2026-03-14
subjects = ["river"]
[board]
wood = "birch-plywood"
thickness = "4 mm"
[drawing.layers]
cut = "cuts"
colour = "paint"
[[paint]]
number = 1
name = "Sand"
colour = "#f2c14e"
[[paint]]
number = 2
name = "Sea"
colour = "#3a6ea5"
[[offer]]
form = "painted"
price = "84.00"
[[offer]]
form = "blank"
price = "24.00"
"""
SHOP = """name = "{name}"
currency = "EUR"
order = "mailto:bench@example.org"
paper = ["a4"]
"""


def shop(root, designs=2, name="Small bench"):
    """A shop whose published bytes all hang on `name`."""
    root = pathlib.Path(root)
    write(root / "shop.toml", SHOP.format(name=name))
    for number in range(designs):
        folder = root / "designs" / f"boat-{number}"
        write(folder / "record.toml", RECORD.format(title=f"{name}, boat {number}"))
        write(folder / "drawing.svg", DRAWING)
    return root


def write(path, content):
    path = pathlib.Path(path)
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content if isinstance(content, bytes) else content.encode())


def clear(path):
    shutil.rmtree(path, ignore_errors=True)
    return pathlib.Path(path)


def tree(folder):
    """Every file below a folder by its hash; None where there is no folder."""
    folder = pathlib.Path(folder)
    if not folder.is_dir():
        return None
    files = [p for p in folder.rglob("*") if not p.is_dir()]
    return {str(p.relative_to(folder)): hashlib.blake2b(p.read_bytes()).hexdigest() for p in files}


def publish(binary, root, *more, **how):
    return subprocess.run(
        [binary, "publish", str(root), *map(str, more)], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace", **how
    )


def room(root, name="published"):
    """The hidden folder that stands beside the published one while a run lasts."""
    return pathlib.Path(root) / f".{name}.kerfleaf"


def is_root():
    return hasattr(os, "geteuid") and os.geteuid() == 0
