#!/usr/bin/env python3
"""Publish on disks that are too small, read-only or somebody else's: the old folder stays, with a clear message.

    python3 tests/safety/disk.py BINARY SCRATCH [SIZES]

Needs root for mounting: a tmpfs of a chosen size holds a whole shop with an old publication, and the new one is made there. Sizes go from
no room at all to plenty; every other disk runs out of inodes instead of bytes.
"""
import collections
import os
import pathlib
import shutil
import subprocess
import sys

from common import clear, is_root, publish, room, shop, tree


def mount(folder, options):
    folder.mkdir(parents=True, exist_ok=True)
    subprocess.run(["mount", "-t", "tmpfs", "-o", options, "kerfleaf-test", folder], check=True)


def unmount(folder):
    subprocess.run(["umount", folder], check=True)


def used(disk):
    """Bytes and inodes in use on a mounted disk."""
    about = os.statvfs(disk)
    return (about.f_blocks - about.f_bfree) * about.f_frsize, about.f_files - about.f_ffree


def remount(disk, options):
    subprocess.run(["mount", "-o", f"remount,{options}", disk], check=True)


def small_disks(binary, scratch, sizes):
    model = scratch / "model"
    shop(model, name="Old bench")
    assert publish(binary, model).returncode == 0
    old = tree(model / "published")
    shop(model, name="New bench")
    apart = scratch / "apart"
    assert publish(binary, model, "--from-scratch", "--into", apart).returncode == 0
    new = tree(apart)
    disk = scratch / "disk"
    mount(disk, "size=1g")
    subprocess.run(["cp", "-a", "--", apart, disk / "apart"], check=True)
    more_bytes, more_inodes = used(disk)
    unmount(disk)
    for left in (model / ".kerfleaf").glob("last-*"):
        left.unlink()
    seen, faults = collections.Counter(), []
    for at in range(sizes):
        share = 2.2 * at / (sizes - 1)
        mount(disk, "size=1g")
        try:
            subprocess.run(["cp", "-a", "--", model, disk / "shop"], check=True)
            size, inodes = used(disk)
            options = f"nr_inodes={inodes + int(share * more_inodes)}" if at % 2 else f"size={size + int(share * more_bytes)}"
            remount(disk, options)
            done = publish(binary, disk / "shop")
            found = tree(disk / "shop/published")
            clear_message = "No space left on device" in done.stdout
            if done.returncode == 0 and found == new:
                seen["published"] += 1
            elif done.returncode == 1 and found == old and clear_message:
                seen["refused, the old folder as it was"] += 1
            else:
                faults.append(f"{options}: status {done.returncode}, folder {'old' if found == old else 'new' if found == new else 'broken'}: {done.stdout}")
            remount(disk, "size=1g,nr_inodes=100000")
            done = publish(binary, disk / "shop")
            if done.returncode or tree(disk / "shop/published") != new or room(disk / "shop").exists():
                faults.append(f"{options}: with room again: {done.stdout}")
        finally:
            unmount(disk)
    print(f"  {dict(seen)}")
    if len(seen) < 2:
        faults.append("the sizes are not those that matter")
    return faults


def read_only(binary, scratch):
    disk, faults = scratch / "still", []
    mount(disk, "size=64m")
    try:
        shop(disk / "shop", name="Old bench")
        assert publish(binary, disk / "shop").returncode == 0
        old = tree(disk / "shop")
        shop(disk / "shop", name="New bench")
        whole = tree(disk / "shop")
        remount(disk, "ro")
        done = publish(binary, disk / "shop")
        if done.returncode != 1 or tree(disk / "shop") != whole or "Read-only file system" not in done.stdout:
            faults.append(f"read-only: {done.returncode}: {done.stdout}")
        elsewhere = scratch / "elsewhere"
        done = publish(binary, disk / "shop", "--into", elsewhere)
        if done.returncode or "nothing can be kept in" not in done.stdout or not (elsewhere / "index.html").exists():
            faults.append(f"read-only shop, other target: {done.returncode}: {done.stdout}")
        assert old
    finally:
        unmount(disk)
    return faults


def somebody_elses(binary, scratch):
    """As a user who may read but not write."""
    base = pathlib.Path("/var/tmp") / f"kerfleaf-test-{os.getpid()}"
    root, faults = base / "shop", []
    try:
        shop(root, name="Old bench")
        # A place that any user reaches, for the program as well.
        program = base / "kerfleaf"
        shutil.copy(binary, program)
        base.chmod(0o755)
        assert publish(program, root).returncode == 0
        whole = tree(root)
        done = publish(program, root, "--from-scratch", user=65534, group=65534, extra_groups=[])
        if done.returncode != 1 or tree(root) != whole or "Permission denied" not in done.stdout:
            faults.append(f"no permission: {done.returncode}: {done.stdout}")
    finally:
        clear(base)
    return faults


def main():
    binary, scratch = os.path.abspath(sys.argv[1]), clear(sys.argv[2])
    sizes = int((sys.argv[3:] or [16])[0])
    if not is_root():
        print("SKIPPED: small and read-only disks need root to be mounted")
        return 0
    scratch.mkdir(parents=True)
    faults = small_disks(binary, scratch, sizes) + read_only(binary, scratch) + somebody_elses(binary, scratch)
    print("\n".join(faults) if faults else f"{sizes} small disks, a read-only one and a forbidden one: 0 broken folders, a clear message each time")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
