#!/usr/bin/env python3
"""Kill publications at random moments, and look whether the published folder is the old or the new one, whole.

    python3 tests/safety/kill.py BINARY SCRATCH [KILLS] [SEED]

A shop is edited to and fro between two versions, each publication killed (SIGKILL) at a random moment: by the clock, or where strace
is there, on a random system call of those that change files. After each kill the published folder must be byte for byte one of the two
versions; the next run must clear what was left. The same for file systems that cannot exchange two folders, played by refusing
renameat2, where in the window between two renames there may be no folder and the next run must bring the old one back.
"""
import collections
import os
import random
import shutil
import signal
import subprocess
import sys
import time

from common import clear, publish, room, shop, tree

CALLS = "openat,write,mkdir,link,linkat,rename,renameat,renameat2,unlink,unlinkat,rmdir,fsync,syncfs,flock"


def versions(binary, root, scratch):
    """Each version's name with its tree, made apart from the cache."""
    known = {}
    for name in ("Old bench", "New bench"):
        shop(root, name=name)
        apart = clear(scratch / "apart")
        done = publish(binary, root, "--from-scratch", "--into", apart)
        assert done.returncode == 0, done.stdout
        known[name] = tree(apart)
        clear(apart)
    assert known["Old bench"] != known["New bench"]
    return known


def kill_by_clock(call, longest, chance):
    run = subprocess.Popen(call, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        run.wait(timeout=chance.uniform(0, longest))
        return "finished"
    except subprocess.TimeoutExpired:
        run.send_signal(signal.SIGKILL)
        run.wait()
        return "killed"


def kill_by_call(call, chance, refuse):
    at = int(1.5 ** chance.uniform(0, 16))
    name = chance.choice(CALLS.split(","))
    tracer = ["strace", "-f", "-qq", "-o", "/dev/null", "-e", f"trace={CALLS}"]
    if refuse:
        tracer += ["-e", "inject=renameat2:error=EINVAL"]
        name = chance.choice(["rename", "rename", "unlinkat", "openat"])
        at = chance.randint(1, 6) if name == "rename" else at
    tracer += ["-e", f"inject={name}:signal=SIGKILL:when={at}"]
    run = subprocess.run(tracer + call, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    return "killed" if run.returncode in (-9, 137) else "finished"


def main():
    binary, scratch = os.path.abspath(sys.argv[1]), clear(sys.argv[2])
    kills, chance = int((sys.argv[3:] or [40])[0]), random.Random(int((sys.argv[4:] or [1])[0]))
    scratch.mkdir(parents=True)
    root = scratch / "shop"
    known = versions(binary, root, scratch)
    names = list(known)
    shop(root, name=names[0])
    started = time.monotonic()
    done = publish(binary, root, "--from-scratch")
    longest = 1.2 * (time.monotonic() - started)
    assert done.returncode == 0, done.stdout
    strace = shutil.which("strace") is not None
    if not strace:
        print("strace is missing: kills by the clock alone")
    seen, faults, killed, at = collections.Counter(), [], 0, 0
    while killed < kills and at < 4 * kills:
        at += 1
        shop(root, name=names[at % 2])
        call = [binary, "--quiet", "publish", str(root)] + (["--from-scratch"] if chance.random() < 0.5 else [])
        kind = chance.choice(["clock", "call", "call without exchange"]) if strace else "clock"
        how = kill_by_clock(call, longest, chance) if kind == "clock" else kill_by_call(call, chance, kind != "call")
        killed += how == "killed"
        found = tree(root / "published")
        state = next((name for name in names if known[name] == found), None)
        if found is None and kind == "call without exchange" and tree(room(root) / "old") in known.values():
            state = "none, the old one aside"
        seen[f"{kind}: {how}, {'whole' if state in names else state}"] += 1
        if state is None:
            faults.append(f"run {at} ({kind}, {how}): the published folder is neither version")
            print(found and {n: len(set(known[n].items()) ^ set(found.items())) for n in names})
        if killed % 5 == 0 or state not in names:
            done = publish(binary, root)
            if done.returncode or tree(root / "published") != known[names[at % 2]] or room(root).exists():
                faults.append(f"run {at}: the next run does not mend it: {done.stdout}")
    print("\n".join(f"  {count:5} {what}" for what, count in sorted(seen.items())))
    print("\n".join(faults) if faults else f"{killed} kills, 0 broken folders")
    return 1 if faults or killed < kills else 0


if __name__ == "__main__":
    sys.exit(main())
