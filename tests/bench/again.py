#!/usr/bin/env python3
"""How long publishing again takes, and how it grows with the shop.

    python3 tests/bench/again.py BINARY SCRATCH [COUNT…]

For each count of designs (100 and 1,000): from scratch on one core and on all (the smallest count alone), nothing changed, one price
changed, one design added; peak memory of each. Beside it ninja's no-op over as many inputs and outputs as that publication has. The
middle of seven runs where nothing is made, one run where something is. With --keep a shop that is there already is used.
"""
import os
import pathlib
import re
import shutil
import statistics
import subprocess
import sys
import time

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


def middle(call, runs=7):
    all_runs = [timed(call) for _ in range(runs)]
    return tuple(statistics.median(run[at] for run in all_runs) for at in range(3)) + (all_runs[-1][3],)


def ninja(scratch, inputs, outputs):
    """A tree of as many files, built once, and what its no-op costs. One step makes as many outputs as a design has."""
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
    return middle([program, "-C", str(tree)])


def bench(binary, scratch, count, first):
    shop = scratch / f"shop-{count}"
    demo = HERE.parent.parent / "demo-shop"
    many = lambda number, start: subprocess.run([sys.executable, HERE / "many.py", demo, shop, str(number), str(start)], check=True)
    publish = [binary, "--quiet", "publish", str(shop)]
    if not (shop / "published").exists():
        many(count, 0)
        if first:
            row("from scratch, one thread", count, timed(publish + ["--from-scratch"], dict(os.environ, RAYON_NUM_THREADS="1")))
        row("from scratch", count, timed(publish + ["--from-scratch"]))
    timed(publish)
    time.sleep(0.2)
    timed(publish)
    quick = row("nothing changed", count, middle(publish))
    outputs = sum(1 for p in (shop / "published").rglob("*") if p.is_file())
    inputs = sum(1 for p in (shop / "designs").rglob("*") if p.is_file()) + 5
    other = ninja(scratch, inputs, outputs)
    if other:
        row(f"ninja's no-op over {inputs} inputs and {outputs} outputs", count, other)
        print(f"  {quick[0] / other[0]:.2f} times ninja's")
    record = next((shop / "designs").glob("*-0000")) / "record.toml"
    text = record.read_text()
    record.write_text(re.sub(r'price = "', 'price = "1', text, count=1))
    row("one price changed", count, timed(publish))
    record.write_text(text)
    timed(publish)
    # The design that is added is the same one at every count.
    added = shop / "designs" / "kite-over-the-flats-9000"
    shutil.rmtree(added, ignore_errors=True)
    timed(publish)
    many(1, 9000)
    one = row("one design added", count, timed(publish))
    shutil.rmtree(added)
    timed(publish)
    return one


def main():
    binary, scratch = os.path.abspath(sys.argv[1]), pathlib.Path(sys.argv[2]).absolute()
    counts = [int(c) for c in sys.argv[3:]] or [100, 1000]
    scratch.mkdir(parents=True, exist_ok=True)
    print("| what | designs | time | processor time | peak memory |\n|---|---|---|---|---|")
    ones = [bench(binary, scratch, count, at == 0) for at, count in enumerate(counts)]
    if len(ones) > 1:
        print(f"  one design added: {ones[-1][0] / ones[0][0]:.2f} times as long ({ones[-1][1] / ones[0][1]:.2f} of processor time) at {counts[-1]} as at {counts[0]}")


if __name__ == "__main__":
    main()
