"""The JSON Schemas against records by an independent validator: `check.py kerfleaf-program`. Needs the PyPI package jsonschema.

What the reader takes, the schema takes; a record with a key that does not exist, a word that is none of the choices, a value of the
wrong kind or a missing key is refused by both. What the schema cannot know (a price's currency, a file that is missing, a code used
twice) is left to the reader.
"""

import datetime
import json
import pathlib
import subprocess
import sys
import tomllib

from jsonschema import Draft202012Validator, FormatChecker

ROOT = pathlib.Path(__file__).resolve().parents[2]
# What each mistake of these shops is about can be seen without the rest of the shop.
BROKEN = {
    "tests/records/ten-at-once/designs/heron/record.toml": 8,
    "tests/records/shop-toml/shop.toml": 15,
    "tests/records/offers/designs/heron/record.toml": 1,
    "tests/records/layers/designs/no-cut/record.toml": 1,
}


def plain(value):
    """TOML as JSON: dates become text."""
    if isinstance(value, dict):
        return {key: plain(v) for key, v in value.items()}
    if isinstance(value, list):
        return [plain(v) for v in value]
    return value.isoformat() if isinstance(value, (datetime.date, datetime.time, datetime.datetime)) else value


def main(program):
    schemas = {name: json.loads(subprocess.check_output([program, "schema", name])) for name in ("record", "shop", "catalogue")}
    checks = {}
    for name, schema in schemas.items():
        Draft202012Validator.check_schema(schema)
        checks[name] = Draft202012Validator(schema, format_checker=FormatChecker())

    def mistakes(path):
        check = checks["shop" if path.name == "shop.toml" else "record"]
        return list(check.iter_errors(plain(tomllib.loads(path.read_text(encoding="utf-8")))))

    sound = sorted(ROOT.glob("demo-shop/**/*.toml")) + sorted(ROOT.glob("content/every-key/*.toml")) + sorted(ROOT.glob("tests/records/sound/**/*.toml"))
    sound += sorted(ROOT.glob("tests/findings/shop/**/*.toml")) + sorted(ROOT.glob("content/begin/**/record.toml"))
    sound = [p for p in sound if p.name in ("shop.toml", "record.toml")]
    assert len(sound) >= 40, f"only {len(sound)} files found"
    wrong = [f"{p.relative_to(ROOT)}: {'/'.join(map(str, e.path))}: {e.message}" for p in sound for e in mistakes(p)]
    assert not wrong, "refused, though the reader takes it:\n" + "\n".join(wrong)

    for name, least in BROKEN.items():
        found = mistakes(ROOT / name)
        assert len(found) >= least, f"{name}: only {len(found)} of at least {least} mistakes found: " + "; ".join(e.message for e in found)

    # One slip at a time in a sound record, as the reader's own cases have them.
    every = {n: plain(tomllib.loads((ROOT / f"content/every-key/{n}.toml").read_text(encoding="utf-8"))) for n in ("record", "shop")}
    slips = [
        ("record", ("titel",), "x"), ("record", ("status",), "on sale"), ("record", ("board", "thickness"), 6), ("record", ("board", "thickness"), "6 ells"),
        ("record", ("board", "thickness"), "6,5 mm"), ("record", ("board", "moisture"), 90), ("record", ("drawing", "layers", "cuts"), "x"), ("record", ("offer", 0, "stock"), -1),
        ("record", ("offer", 0, "price"), "12 €"), ("record", ("offer", 0, "form"), "paint"), ("record", ("paint", 0, "number"), 0), ("record", ("added",), "14.3.2026"),
        ("shop", ("units",), "imperial"), ("shop", ("paper",), "a4"), ("shop", ("pack", 0, "inner"), ["1 mm", "2 mm"]), ("shop", ("workshop", "low_stock"), "1"),
        ("shop", ("markets",), ["moon"]), ("shop", ("limits", "neck"), "2"), ("shop", ("look", "show_cuts"), "no"), ("shop", ("currency",), ""),
    ]
    for name, path, value in slips:
        record = json.loads(json.dumps(every[name]))
        assert checks[name].is_valid(record), f"every-key/{name}.toml"
        place = record
        for step in path[:-1]:
            place = place[step]
        place[path[-1]] = value
        assert not checks[name].is_valid(record), f"{name}: {path} = {value!r} was taken"
    for name in every:
        for key in schemas[name]["required"]:
            record = {k: v for k, v in every[name].items() if k != key}
            assert not checks[name].is_valid(record), f"{name} without {key} was taken"
    print(f"{len(sound)} sound files taken, {len(BROKEN)} broken ones and {len(slips)} slips refused")

    catalogue = pathlib.Path(sys.argv[2]) if len(sys.argv) > 2 else None
    if catalogue:
        found = list(checks["catalogue"].iter_errors(json.loads(catalogue.read_text(encoding="utf-8"))))
        assert not found, found[0].message
        print("catalogue.json keeps its schema")


main(sys.argv[1])
