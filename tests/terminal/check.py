"""What is only so on a terminal: `check.py kerfleaf-program` asks `add` its question, and looks for colour, by a pseudo-terminal."""

import os
import pathlib
import pty
import select
import subprocess
import sys
import tempfile
import time

SVG = """<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="60mm" viewBox="0 0 80 60">
<g id="rim" fill="none" stroke="#000"><rect x="2" y="2" width="76" height="56"/></g>
<g id="mid" fill="none" stroke="#000"><path d="M2 30H78"/><path d="M40 2V58"/></g></svg>"""


def on_a_terminal(args, answer=b"", **more):
    child, end = pty.fork()
    if child == 0:
        os.environ.pop("NO_COLOR", None)
        os.environ.update({"TERM": "xterm", **more})
        os.execv(args[0], args)
    out, answered, start = b"", not answer, time.monotonic()
    while time.monotonic() - start < 120:
        if select.select([end], [], [], 0.5)[0]:
            try:
                part = os.read(end, 4096)
            except OSError:
                break
            if not part:
                break
            out += part
        if b"? [" in out and not answered:
            os.write(end, answer)
            answered = True
    return out.decode(), os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


def main(program):
    with tempfile.TemporaryDirectory() as folder:
        shop, drawing = f"{folder}/shop", pathlib.Path(folder) / "cross.svg"
        subprocess.run([program, "--quiet", "begin", shop], check=True)
        drawing.write_text(SVG, encoding="utf-8")
        # Whether a cross is cut or scored, geometry cannot say: that alone is asked.
        out, status = on_a_terminal([program, "add", shop, str(drawing)], b"score\n")
        assert status == 0 and out.count("? [") == 1 and "What is group `mid`?" in out, out
        record = pathlib.Path(shop) / "designs/cross/record.toml"
        text = record.read_text(encoding="utf-8")
        assert 'score   = "mid"\n' in text and 'cut     = "rim"' in text, text
        out, status = on_a_terminal([program, "--quiet", "add", shop, str(drawing), "--slug", "cross-2"])
        assert (out, status) == ("", 0), out
        record.write_text(text + "\ntitel = 3\n", encoding="utf-8")
        for more, colour in (({}, True), ({"NO_COLOR": "1"}, False), ({"TERM": "dumb"}, False)):
            out, status = on_a_terminal([program, "measure", shop], **more)
            assert ("\x1b" in out) == colour and status == 1 and "titel" in out, (more, out)
    print("asks once, and has its colours on a terminal alone")


main(sys.argv[1])
