#!/usr/bin/env python3
"""Compare `BIN measure SHOP --json` with the worked answers in SHOP/expected.json and the marks in SHOP/marks.txt.

    python3 score.py BIN SHOP [--quick] [--each] [--time-limit SECONDS] [--only SLUG]...

Standard library only (Python 3.11). Exit status 0 only if every case holds.
"""
import argparse
import json
import os
import subprocess
import sys

TIMED_OUT = "timed out"


def call(binary, args, limit):
    """(exit status or TIMED_OUT or 'cannot start: …', stdout, stderr)"""
    try:
        p = subprocess.run([binary] + args, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.PIPE, timeout=limit)
    except subprocess.TimeoutExpired as e:
        return TIMED_OUT, b"", (e.stderr or b"").decode("utf-8", "replace")
    except OSError as e:
        return f"cannot start: {e}", b"", ""
    return p.returncode, p.stdout, p.stderr.decode("utf-8", "replace")


def bad_constant(word):
    raise ValueError(f"{word} is not JSON")


def read_json(raw):
    """(designs by slug, problem)"""
    try:
        doc = json.loads(raw.decode("utf-8"), parse_constant=bad_constant)
        designs = doc["designs"]
        by = {}
        for d in designs:
            if d["slug"] in by:
                return None, f"design {d['slug']} is printed twice"
            by[d["slug"]] = d
    except (ValueError, KeyError, TypeError) as e:
        return None, f"invalid JSON on standard output: {type(e).__name__}: {e}"
    if not isinstance(doc.get("kerfleaf"), str):
        return None, "the field `kerfleaf` (version) is missing"
    return by, None


def number(v):
    return isinstance(v, (int, float)) and not isinstance(v, bool)


def allowed(field, want):
    """Tolerance of a figure: figures fall into a few families by the ending of their name."""
    last = field.rsplit(".", 1)[-1]
    if field.startswith("size."):
        return 0.02
    if field.startswith("difficulty."):
        return 0.05
    if last.endswith("_mm2"):
        return abs(want) * 0.001 + 0.05
    if last.endswith("_mm"):
        return abs(want) * 0.001 + 0.1
    if last.endswith("_g"):
        return abs(want) * 0.001 + 0.05
    if last == "density_kg_m3":
        return abs(want) * 0.001 + 0.01
    if last == "edge_ratio":
        return 0.0005
    return 0.0                                     # counts, words, names


def same(field, got, want, tol):
    if number(want):
        if not number(got):
            return False
        return abs(got - want) <= tol.get(field, allowed(field, want)) + 1e-9
    return got == want


def figures(case, d):
    out = []
    tol = case.get("tol", {})

    def check(field, got, want):
        if not same(field, got, want, tol):
            out.append((field, got, want))

    for group, wants in case.get("expect", {}).items():
        have = d.get(group)
        if not isinstance(wants, dict):
            check(group, have, wants)
            continue
        if not isinstance(have, dict):
            out.append((group, have, "an object"))
            continue
        for name, want in wants.items():
            got = have.get(name)
            field = f"{group}.{name}"
            if isinstance(want, list):                # paint.colours by number, weight.offers by form
                key = "number" if name == "colours" else "form"
                rows = {r.get(key): r for r in got if isinstance(r, dict)} if isinstance(got, list) else {}
                for row in want:
                    r = rows.get(row[key])
                    if r is None:
                        if all(not v for k, v in row.items() if k in ("cells", "area_mm2")) and "cells" in row:
                            continue                   # a colour without cells may be left out
                        out.append((f"{field}[{row[key]}]", None, row))
                        continue
                    for k, v in row.items():
                        check(f"{field}[{row[key]}].{k}", r.get(k), v)
            else:
                check(field, got, want)
    return out


def findings(case, d):
    out = []
    have = d.get("findings")
    if not isinstance(have, list):
        return [("findings", have, "a list")] if case.get("must") or case.get("must_not") else []
    kinds = sorted({f.get("kind") for f in have if isinstance(f, dict)}, key=str)
    for f in have:
        if not (isinstance(f, dict) and isinstance(f.get("kind"), str) and isinstance(f.get("severity"), str)
                and all(isinstance(f.get(k), str) and f[k] for k in ("message", "mend"))):
            out.append(("findings", f, "kind, severity, message and mend in every finding"))
            return out
    order = [(f["kind"], f["at_mm"][1], f["at_mm"][0]) for f in have if isinstance(f.get("at_mm"), list) and len(f["at_mm"]) == 2
             and all(map(number, f["at_mm"]))]
    if order != sorted(order):
        wrong = next(b for a, b in zip(order, order[1:]) if b < a)
        out.append(("findings", f"{wrong[0]} at {[wrong[2], wrong[1]]} out of order", "order by kind, y, x"))
    for m in case.get("must", []):
        hits = [f for f in have if f.get("kind") == m["kind"]]
        place = m.get("at_mm")
        if place:
            near = m.get("within_mm", 0.5)
            spots = [f.get("at_mm") for f in hits]
            hits = [p for p in spots if isinstance(p, list) and len(p) == 2 and all(map(number, p))
                    and (p[0] - place[0]) ** 2 + (p[1] - place[1]) ** 2 <= near ** 2 + 1e-9]
            if not hits:
                out.append((f"findings.{m['kind']}", f"at {spots}" if spots else f"kinds {kinds}", f"one within {near} mm of {place}"))
        elif not hits:
            out.append((f"findings.{m['kind']}", f"kinds {kinds}", "present"))
    for k in case.get("must_not", []):
        hits = [f for f in have if f.get("kind") == k]
        if hits:
            out.append((f"findings.{k}", f"{len(hits)} at {[f.get('at_mm') for f in hits][:3]}", "absent"))
    return out


def judge(case, status, designs, problem, err):
    """List of (field, got, wanted); empty when the case holds."""
    if problem:
        return [("run", problem, "a sound run")]
    slug, kind = case["slug"], case.get("kind", "figures")
    d = designs.get(slug)
    if kind == "figures":
        if d is None:
            return [("design", "not in the output", "measured")]
        return figures(case, d) + findings(case, d)
    out = []
    low = err.lower()
    measured = isinstance(d, dict) and isinstance(d.get("pieces"), dict) and number(d["pieces"].get("count"))
    if kind == "unmeasurable":
        if measured:
            out.append(("pieces", d["pieces"].get("count"), "no figures: the record cannot be measured"))
    elif kind == "empty-layer":
        told = d is not None and any(f.get("kind") == "nothing-in-layer" for f in d.get("findings") or [])
        if not told and not (slug in low and "nothing-in-layer" in low):
            out.append(("findings.nothing-in-layer", "no such finding, none on standard error", "present"))
        if measured and d["pieces"]["count"] != 0:
            out.append(("pieces.count", d["pieces"]["count"], 0))
    elif kind == "survives":
        pass                                           # no crash, valid JSON: seen above
    if kind != "survives" and status != 1:
        out.append(("exit status", status, 1))
    for word in case.get("stderr", []):
        if word.lower() not in low:
            out.append(("standard error", (err.strip().splitlines() or ["(empty)"])[-1][:100], f"names {word}"))
    return out


def show(v):
    plain = isinstance(v, str) and not v.replace(".", "").replace("-", "").isdigit()      # a number as text keeps its quotes
    s = v if plain else json.dumps(v, ensure_ascii=False)
    return s if len(s) <= 160 else s[:157] + "…"


def main():
    ap = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    ap.add_argument("binary")
    ap.add_argument("shop")
    ap.add_argument("--quick", action="store_true", help="the one run over the whole shop only; no runs for exit status")
    ap.add_argument("--each", action="store_true", help="run every design by itself, to find one that takes the whole run down")
    ap.add_argument("--time-limit", type=float, default=120.0, metavar="SECONDS", help="per run (default 120)")
    ap.add_argument("--only", action="append", default=[], metavar="SLUG", help="check these designs alone")
    a = ap.parse_args()
    with open(os.path.join(a.shop, "expected.json"), encoding="utf-8") as f:
        book = json.load(f)
    with open(os.path.join(a.shop, "marks.txt"), encoding="utf-8") as f:
        sold = dict(line.split() for line in f)
    cases = [c for c in book["cases"] if not a.only or c["slug"] in a.only]
    held = total = 0

    def record(name, misses):
        nonlocal held, total
        total += 1
        held += not misses
        for field, got, want in misses:
            print(f"{name}: {field}: got {show(got)}, expected {show(want)}")

    def run(args):
        status, raw, err = call(a.binary, args, a.time_limit)
        if status == TIMED_OUT:
            return status, None, f"timed out after {a.time_limit:g} s", err
        if status not in (0, 1, 2):
            what = f"signal {-status}" if isinstance(status, int) and status < 0 else f"exit status {status}"
            if isinstance(status, str):
                what = status
            return status, None, f"crashed ({what}): {(err.strip().splitlines() or [''])[-1][:120]}", err
        if status == 2:
            return status, None, f"exit status 2: {(err.strip().splitlines() or [''])[-1][:120]}", err
        designs, problem = read_json(raw)
        return status, designs, problem, err

    def judged(case, status, designs, problem, err):
        # Boxes that were sold carry their marks: those of the first version are kept for good.
        mark, now = sold.get(case["slug"]), ((designs or {}).get(case["slug"]) or {}).get("mark")
        changed = [("mark", now, mark)] if now != mark and not problem else []
        return judge(case, status, designs, problem, err) + changed

    if a.each:
        for c in cases:
            status, designs, problem, err = run(["measure", a.shop, c["slug"], "--json"])
            record(c["slug"], judged(c, status, designs, problem, err))
    else:
        status, designs, problem, err = run(["measure", a.shop] + (a.only or []) + ["--json"])
        broken = any(c.get("kind", "figures") in ("unmeasurable", "empty-layer") for c in cases)
        misses = []
        if problem:
            misses.append(("run", problem, "a sound run"))
        else:
            if broken and status != 1:
                misses.append(("exit status", status, "1: some records cannot be measured"))
            if not a.only:
                extra = sorted(set(designs) - {c["slug"] for c in cases})
                if extra:
                    misses.append(("designs", extra, "none that the shop does not have"))
                order = list(designs)
                if order != sorted(order):
                    print(f"(note) designs are not printed in slug order: {order[:4]} …")
        record("(whole run)", misses)
        for c in cases:
            record(c["slug"], judged(c, status, designs, problem, err))
    if not a.quick and not a.only:
        for r in book.get("runs", []):
            args = [x.replace("{shop}", a.shop) for x in r["args"]]
            status, raw, err = call(a.binary, args, a.time_limit)
            misses = []
            wanted = r["exit"] if isinstance(r["exit"], list) else [r["exit"]]
            if status not in wanted:
                misses.append(("exit status", status, r["exit"]))
            if "printed" in r and not misses:
                designs, problem = read_json(raw)
                if problem:
                    misses.append(("run", problem, "valid JSON"))
                elif sorted(designs) != sorted(r["printed"]):
                    misses.append(("designs", sorted(designs), sorted(r["printed"])))
            if status == 2 and wanted == [2] and not err.strip():
                misses.append(("standard error", "(empty)", "what was wrong with the call"))
            record(f"(run) {r['name']}", misses)
    print(f"{held} of {total} cases hold")
    return 0 if held == total else 1


if __name__ == "__main__":
    sys.exit(main())
