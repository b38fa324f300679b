#!/usr/bin/env python3
"""How long publishing again takes, and how it grows with the shop.

    python3 tests/bench/again.py BINARY SCRATCH [COUNT…]

For each count of designs (100 and 1,000): from scratch on one core and on all (the smallest count alone), nothing changed, a comment
in one record, one price changed, one design added; peak memory of each. Beside it ninja's no-op over as many inputs and outputs as that
publication has. Others may be at work on the machine, so calls to be compared take turns, and of each the best run counts; processor
time is told too. A shop that is there already is used.

Of what one added design costs, a part belongs to pages that tell of all designs, to links, and to the printed catalogue: it is what
another title for one design costs beyond measuring it. So the design that is added is told less the one that is given another title.
"""
import os
import pathlib
import re
import shutil
import subprocess
import sys
import time

RUNS, CHANGES = 15, 7
HERE = pathlib.Path(__file__).resolve().parent


def timed(call, env=None):
    """Wall seconds, processor seconds and peak megabytes of a call."""
    before = time.monotonic()
    child = subprocess.Popen(call, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, env=env)
    told = child.stderr.read().decode(errors="replace")
    _, status, usage = os.wait4(child.pid, 0)
    wall = time.monotonic() - before
    child.returncode = os.waitstatus_to_exitcode(status)
    assert child.returncode == 0, told[-2000:]
    return wall, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024, told


def row(what, count, times):
    wall, cpu, memory, _ = times
    print(f"| {what} | {count} | {wall:.3f} s | {cpu:.3f} s | {memory:.0f} MB |", flush=True)
    return times


def best(runs):
    return tuple(min(run[at] for run in runs) for at in range(2)) + (max(run[2] for run in runs), runs[-1][3])


def ninja(scratch, inputs, outputs):
    """A tree of as many files, built once, and the call that then does nothing. One step makes as many outputs as a design has."""
    program = shutil.which("ninja")
    if not program:
        print("ninja is missing (Debian: ninja-build)")
        return None
    tree = scratch / "ninja"
    shutil.rmtree(tree, ignore_errors=True)
    (tree / "in").mkdir(parents=True)
    steps = max(1, inputs // 4)
    lines = ["rule made", "  command = touch $out"]
    for step in range(steps):
        ins = [f"in/{step}-{n}" for n in range(inputs * step // steps, inputs * (step + 1) // steps)]
        outs = [f"out/{step}/{n}" for n in range(outputs * step // steps, outputs * (step + 1) // steps)]
        (tree / "out" / str(step)).mkdir(parents=True)
        for name in ins:
            (tree / name).touch()
        if outs:
            lines.append(f"build {' '.join(outs)}: made {' '.join(ins)}")
    (tree / "build.ninja").write_text("\n".join(lines) + "\n")
    subprocess.run([program, "-C", tree], check=True, stdout=subprocess.DEVNULL)
    return [program, "-C", str(tree)]


def bench(binary, scratch, count, first):
    shop = scratch / f"shop-{count}"
    demo = HERE.parent.parent / "demo-shop"
    many = lambda number, start: subprocess.run([sys.executable, HERE / "many.py", demo, shop, str(number), str(start)], check=True)
    publish = [str(binary), "--quiet", "publish", str(shop)]
    if not (shop / "published").exists():
        many(count, 0)
        if first:
            row("from scratch, one thread", count, timed(publish + ["--from-scratch"], dict(os.environ, RAYON_NUM_THREADS="1")))
        row("from scratch", count, timed(publish + ["--from-scratch"]))
    timed(publish)
    time.sleep(0.2)
    timed(publish)
    outputs = sum(1 for p in (shop / "published").rglob("*") if p.is_file())
    inputs = sum(1 for p in (shop / "designs").rglob("*") if p.is_file()) + 5
    other = ninja(scratch, inputs, outputs)
    turns = [(timed(publish), timed(other) if other else None) for _ in range(RUNS)]
    quick = row("nothing changed", count, best([turn[0] for turn in turns]))
    if other:
        other = row(f"ninja's no-op over {inputs} inputs and {outputs} outputs", count, best([turn[1] for turn in turns]))
        print(f"  {quick[0] / other[0]:.2f} times ninja's ({quick[1] / other[1]:.2f} of processor time)")
    record = next((shop / "designs").glob("*-0001")) / "record.toml"
    text = record.read_text()
    # The design that is added is the same one at every count.
    added = shop / "designs" / "kite-over-the-flats-9001"
    found = {"a comment": [], "one price changed": [], "one title changed": [], "one design added": []}
    # Nothing of an earlier call of this bench may serve again.
    once = int(time.time()) % 10_000 * 10
    for turn in range(once, once + CHANGES):
        for what, change in (
            ("a comment", lambda: record.write_text(f"# {turn}\n{text}")),
            ("one price changed", lambda: record.write_text(re.sub(r'price = "', f'price = "{turn}', text, count=1))),
            ("one title changed", lambda: record.write_text(re.sub(r'title\s*=\s*"', f'title = "{turn} ', text, count=1))),
            ("one design added", lambda: many(1, 9001)),
        ):
            change()
            if what == "one design added":
                # As large as a puzzle is, so that it costs what one does, and each time of another size, so that nothing of it is kept.
                path = added / "record.toml"
                path.write_text(re.sub(r'width = "[^"]*"', f'width = "{200 + turn / 1_000_000:.6f} mm"', path.read_text(), count=1))
            found[what].append(timed(publish))
            record.write_text(text)
            shutil.rmtree(added, ignore_errors=True)
            timed(publish)
    return {what: row(what, count, best(runs)) for what, runs in found.items()}


def main():
    binary, scratch = os.path.abspath(sys.argv[1]), pathlib.Path(sys.argv[2]).absolute()
    counts = [int(c) for c in sys.argv[3:]] or [100, 1000]
    scratch.mkdir(parents=True, exist_ok=True)
    print("| what | designs | time | processor time | peak memory |\n|---|---|---|---|---|")
    ones = [bench(binary, scratch, count, at == 0 and len(counts) > 1) for at, count in enumerate(counts)]
    if len(ones) > 1:
        alone = [[one["one design added"][at] - one["one title changed"][at] for at in range(2)] for one in ones]
        print(f"  one design added, less pages of all, links and the printed catalogue: {alone[-1][0] / alone[0][0]:.2f} times as long "
              f"({alone[-1][1] / alone[0][1]:.2f} of processor time) at {counts[-1]} as at {counts[0]}")


if __name__ == "__main__":
    main()
