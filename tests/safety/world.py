#!/usr/bin/env python3
"""What a publication takes from the world around it, and what the world may do to it.

    python3 tests/safety/world.py BINARY SCRATCH SHOP [SLUG…]

Two runs at once; the same bytes in another folder, as another user, in another language and time zone, on one thread, and from files that
were written in the opposite order; and by strace: which files are opened, and that no socket ever is.
"""
import os
import pathlib
import re
import shutil
import signal
import subprocess
import sys
import time

from common import clear, is_root, publish, room, shop, tree


def two_at_once(binary, scratch):
    """The second is told who holds the lock; a run that was killed holds nothing."""
    root, faults = shop(clear(scratch / "two")), []
    first = subprocess.Popen([binary, "--quiet", "publish", str(root)], stderr=subprocess.DEVNULL)
    while not (room(root) / "fresh").exists():
        time.sleep(0.001)
    first.send_signal(signal.SIGSTOP)
    second = publish(binary, root)
    if second.returncode != 1 or "another run is publishing" not in second.stdout or f"process {first.pid}" not in second.stdout:
        faults.append(f"two at once: {second.returncode}: {second.stdout}")
    first.send_signal(signal.SIGKILL)
    first.wait()
    third = publish(binary, root)
    if third.returncode or not (root / "published/index.html").exists() or room(root).exists():
        faults.append(f"after the first was killed: {third.returncode}: {third.stdout}")
    return faults


def copied(source, target, backwards):
    """Copies a shop, or the chosen designs of it, file by file, in the order of names or against it."""
    slugs = sys.argv[4:]
    for path in sorted((p for p in source.rglob("*") if p.is_file()), reverse=backwards):
        parts = path.relative_to(source).parts
        left_out = parts[0] in ("published", ".kerfleaf", "sheets") or parts[0] == "designs" and slugs and parts[1] not in slugs
        if not left_out:
            to = target / path.relative_to(source)
            to.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(path, to)
    return target


def same_everywhere(binary, scratch, source):
    plain = copied(source, clear(scratch / "plain"), False)
    here = dict(os.environ, LC_ALL="C.UTF-8", TZ="UTC")
    done = publish(binary, plain, "--into", scratch / "first", env=here)
    assert done.returncode == 0, done.stdout
    base = pathlib.Path("/var/tmp") / f"kerfleaf-test-{os.getpid()}" if is_root() else scratch / "other place"
    faults = []
    try:
        other = copied(source, base / "Größe & co" / "shop", True)
        program = shutil.copy(binary, base / "kerfleaf")
        who = {}
        if is_root():
            base.chmod(0o755)
            for path in [base, *base.rglob("*")]:
                os.chown(path, 65534, 65534)
            who = {"user": 65534, "group": 65534, "extra_groups": []}
        else:
            print("SKIPPED: another user, which needs root")
        there = {"PATH": "/usr/bin", "LC_ALL": "tr_TR.UTF-8", "LANG": "ar_EG", "TZ": "Pacific/Chatham", "HOME": "/nowhere", "USER": "somebody", "RAYON_NUM_THREADS": "1", "NO_COLOR": "1"}
        done = publish(program, other, env=there, cwd="/", umask=0o077, **who)
        if done.returncode:
            faults.append(f"elsewhere: {done.stdout}")
        first, second = tree(scratch / "first"), tree(other / "published")
        if first != second:
            faults.append(f"not the same bytes: {sorted(k for k in {**first, **(second or {})} if first.get(k) != (second or {}).get(k))}")
        print(f"  {len(first)} files are the same bytes in another folder, language and time zone, for another user, on one thread")
    finally:
        clear(base)
    return faults


def opened(binary, scratch, source):
    """By strace: what is read lies in the shop or belongs to the system's own start; what is written lies where it should."""
    if not shutil.which("strace"):
        return ["strace is missing"]
    root, log = copied(source, clear(scratch / "watched"), False), scratch / "log"
    outside = scratch / "outside"
    outside.mkdir(exist_ok=True)
    (outside / "secret.svg").write_text("<svg/>")
    slug = sorted((root / "designs").iterdir())[0]
    drawing = slug / "drawing.svg"
    text = drawing.read_text()
    # Everything by which a drawing can name a file or an address.
    names = f'file://{outside}/secret.svg', "../../../outside/secret.svg", "http://127.0.0.1:9/x.svg"
    links = "".join(f'<image href="{n}" width="1" height="1"/><use href="{n}#a"/><style>@import url("{n}"); rect {{ fill: url({n}#a) }}</style>' for n in names)
    head = f'<?xml-stylesheet href="{names[0]}"?><!DOCTYPE svg SYSTEM "{names[0]}" [<!ENTITY outside SYSTEM "{names[0]}">]>'
    drawing.write_text(head + re.sub(r"<\?xml[^>]*\?>", "", text).replace("</svg>", f"<defs>{links}</defs></svg>"))
    (root / "designs" / "draft").mkdir()
    (root / "designs" / "draft" / "record.toml").write_text('title = "x"\nstatus = "draft"\n[drawing]\nfile = "link.svg"\n')
    (root / "designs" / "draft" / "link.svg").symlink_to(outside / "secret.svg")
    call = ["strace", "-f", "-qq", "-y", "-o", str(log), "-e", "trace=%network,openat,open,creat,execve,rename,renameat,renameat2,unlink,unlinkat", binary, "publish", str(root)]
    done = subprocess.run(call, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    faults = [] if done.returncode == 0 else [f"watched: {done.returncode}: {done.stdout}"]
    lines = log.read_text(errors="replace").splitlines()
    mine = (f"{root}/published", f"{root}/.published.kerfleaf", f"{root}/.kerfleaf")
    # The start of any process, the number of cores, and the program itself.
    system = ("/etc/ld.so", "/lib", "/usr/lib", "/proc/self", "/sys/fs/cgroup", "/sys/devices/system/cpu", "/proc/cpuinfo", "/proc/sys/vm", "/dev/null", os.path.dirname(binary))
    read = written = 0
    for line in lines:
        if re.search(r"\b(socket|connect|bind|sendto|accept4?|socketpair)\(", line):
            faults.append(f"a socket: {line}")
        if line.count("execve(") and binary not in line:
            faults.append(f"another program: {line}")
        found = re.search(r'\b(?:openat|open|creat)\((?:[^"]*?(<[^>]*>)?, )?"([^"]*)", ([A-Z_|]+)', line)
        if not found or "ENOENT" in line:
            continue
        at, path, flags = found.groups()
        if not path.startswith("/"):
            path = os.path.join((at or "<.>")[1:-1], path)
        path = os.path.normpath(path)
        if re.search("O_WRONLY|O_RDWR|O_CREAT", flags):
            written += 1
            if not path.startswith(mine):
                faults.append(f"writes {path}")
        else:
            read += 1
            if not (path + "/").startswith((f"{root}/", *system)):
                faults.append(f"reads {path}")
    if read < 20 or written < 20:
        faults.append(f"the log was not understood: {read} files read, {written} written")
    print(f"  {read} files opened to read, {written} to write, 0 sockets" if not faults else "")
    return faults


def main():
    binary, scratch, source = os.path.abspath(sys.argv[1]), clear(sys.argv[2]).absolute(), pathlib.Path(sys.argv[3])
    scratch.mkdir(parents=True)
    faults = two_at_once(binary, scratch) + same_everywhere(binary, scratch, source) + opened(binary, scratch, source)
    print("\n".join(faults) if faults else "one run at a time, the same bytes everywhere, nothing opened but the shop")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
