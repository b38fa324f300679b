#!/usr/bin/env python3
"""Drawings of public test suites, broken and odd ones among them: each is measured or refused with a message, in bounded time and
memory, without a panic, and nothing is opened but the shop.

    python3 tests/safety/suites.py BINARY SCRATCH FOLDER

FOLDER is where suites are kept between runs; what is missing is downloaded and told. None of it is part of the project:

    picosvg 0.23.0 (Python source package, Apache-2.0), its test drawings
    svglib 2.3.2 (Python source package, LGPL-3.0), its test drawings
    roxmltree (the crate that the program reads XML with, MIT or Apache-2.0): sound and broken XML, the tests of its namespaces and entities among them
"""
import json
import os
import pathlib
import re
import resource
import shutil
import subprocess
import sys
import tarfile

from common import SHOP, clear, write

PACKAGES = (("picosvg", "0.23.0"), ("svglib", "2.3.2"))
SECONDS, BYTES = 30, 2 << 30
# The start of any process, the number of cores, and the program itself.
SYSTEM = ("/etc/ld.so", "/lib", "/usr/lib", "/proc/self", "/sys/fs/cgroup", "/sys/devices/system/cpu", "/proc/cpuinfo", "/proc/sys/vm", "/dev/null")


def packages(folder):
    """Drawings of the Python packages."""
    for name, version in PACKAGES:
        archive = folder / f"{name}-{version}.tar.gz"
        if not archive.exists():
            print(f"downloading {name} {version} into {folder}", flush=True)
            call = [sys.executable, "-m", "pip", "download", "-q", "--disable-pip-version-check", "--no-deps", "--no-binary", name, "-d", folder, f"{name}=={version}"]
            subprocess.run(call, check=True)
        with tarfile.open(archive) as tar:
            for member in sorted(tar.getmembers(), key=lambda member: member.name):
                if member.isfile() and member.name.endswith((".svg", ".xml")):
                    yield f"{name} {member.name}", tar.extractfile(member).read()


def crate(name):
    """XML files of a crate that cargo has unpacked for the build."""
    told = json.loads(subprocess.run(["cargo", "metadata", "--format-version", "1", "--locked", "--offline"], check=True, stdout=subprocess.PIPE).stdout)
    for package in told["packages"]:
        if package["name"] == name:
            root = pathlib.Path(package["manifest_path"]).parent
            for file in sorted(root.rglob("*")):
                if file.suffix in (".xml", ".svg"):
                    yield f"{name} {package['version']} {file.relative_to(root)}", file.read_bytes()


def grouped(data):
    """All that a drawing holds as one layer named `all`, where its text is as plain as that."""
    text = data.decode("utf-8", errors="surrogateescape")
    text = re.sub(r"(<svg\b(?:[^>\"']|\"[^\"]*\"|'[^']*')*)(?<!/)>", r'\1><g id="all">', text, count=1)
    return re.sub(r"</svg>(?!.*</svg>)", "</g></svg>", text, flags=re.S).encode("utf-8", errors="surrogateescape")


def bounds():
    resource.setrlimit(resource.RLIMIT_AS, (BYTES, BYTES))
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))


def opened(binary, log, root):
    """Files that a traced run opened and had no business with."""
    wrong = []
    for line in log.read_text(errors="replace").splitlines():
        if re.search(r"\b(socket|connect|bind|sendto)\(", line) or line.count("execve(") and binary not in line:
            wrong.append(line)
        found = re.search(r'\b(?:openat|open|creat)\((?:[^"]*?(<[^>]*>)?, )?"([^"]*)"', line)
        if not found or "ENOENT" in line:
            continue
        at, path = found.groups()
        path = os.path.normpath(path if path.startswith("/") else os.path.join((at or "<.>")[1:-1], path))
        if not path.startswith(SYSTEM + (os.path.dirname(binary), str(root))):
            wrong.append(line)
    return wrong


def main():
    binary, scratch, folder = os.path.abspath(sys.argv[1]), clear(sys.argv[2]).resolve(), pathlib.Path(sys.argv[3])
    folder.mkdir(parents=True, exist_ok=True)
    root, log, faults = scratch / "shop", scratch / "log", []
    write(root / "shop.toml", SHOP.format(name="Bench"))
    files = [*packages(folder), *crate("roxmltree")]
    for number, (name, data) in enumerate(files):
        record = f'title = "x"\nstatus = "draft"\n[board]\nwood = "birch-plywood"\nthickness = "4 mm"\n[drawing]\nwidth = "90 mm"\n[drawing.layers]\ncut = "all"\n'
        write(root / "designs" / f"d{number}" / "record.toml", record)
        write(root / "designs" / f"d{number}" / "drawing.svg", grouped(data))
    tracer = ["strace", "-f", "-qq", "-y", "-o", str(log), "-e", "trace=%network,openat,open,creat,execve"] if shutil.which("strace") else []
    call = [*tracer, binary, "measure", str(root), "--json"]
    done = subprocess.run(call, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, errors="replace", preexec_fn=bounds)
    if done.returncode not in (0, 1) or "panicked" in done.stderr:
        faults.append(f"measure ends with {done.returncode}: {done.stderr[-300:]}")
    else:
        told = {design["slug"]: design for design in json.loads(done.stdout)["designs"]}
        measured = sum("error" not in design for design in told.values())
        print(f"{len(files)} files: {measured} measured, {len(told) - measured} refused with a message")
        faults += [f"{name}: nothing is said of it" for number, (name, _) in enumerate(files) if f"d{number}" not in told]
        faults += [f"{files[int(slug[1:])][0]}: no message" for slug, design in told.items() if not design.get("error", "x").strip()]
        if len(files) < 300 or measured < 100:
            faults.append("fewer than there should be: a suite is missing")
    faults += opened(binary, log, root) if tracer else ["strace is missing"]
    print("\n".join(faults) if faults else "no panic, no hang, no file or address opened")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
