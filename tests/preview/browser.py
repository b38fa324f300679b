"""A headless Chromium, spoken to by the Chrome DevTools Protocol. Needs the PyPI package websocket-client."""

import json
import os
import pathlib
import signal
import subprocess
import tempfile
import time
import urllib.request

import websocket


class Browser:
    """One window of a browser of its own."""

    def __init__(self, *more):
        self.folder = tempfile.TemporaryDirectory(ignore_cleanup_errors=True)
        args = [os.environ.get("CHROMIUM", "chromium"), "--headless=new", "--no-sandbox", "--disable-gpu", "--no-first-run", "--remote-debugging-port=0", "--remote-allow-origins=*",
                f"--user-data-dir={self.folder.name}", *more, "about:blank"]
        self.process = subprocess.Popen(args, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True)
        port_file = pathlib.Path(self.folder.name) / "DevToolsActivePort"
        for _ in range(600):
            if port_file.exists() and port_file.read_text().strip():
                break
            time.sleep(0.1)
        port = port_file.read_text().split()[0]
        targets = json.load(urllib.request.urlopen(f"http://127.0.0.1:{port}/json"))
        page = next(t for t in targets if t["type"] == "page")
        self.socket = websocket.create_connection(page["webSocketDebuggerUrl"], timeout=60)
        self.number = 0
        self.problems = []
        for domain in ("Page", "Runtime", "Log", "Accessibility"):
            self.ask(f"{domain}.enable")

    def ask(self, method, **params):
        self.number += 1
        self.socket.send(json.dumps({"id": self.number, "method": method, "params": params}))
        while True:
            message = json.loads(self.socket.recv())
            if message.get("method") == "Runtime.exceptionThrown":
                self.problems.append(str(message["params"]["exceptionDetails"])[:400])
            if message.get("method") == "Log.entryAdded" and message["params"]["entry"]["level"] == "error":
                self.problems.append(message["params"]["entry"]["text"] + " " + message["params"]["entry"].get("url", ""))
            if message.get("id") == self.number:
                assert "error" not in message, message
                return message["result"]

    def go(self, address):
        self.ask("Page.navigate", url=address)
        self.until("document.readyState === 'complete'")

    def run(self, script):
        result = self.ask("Runtime.evaluate", expression=script, awaitPromise=True, returnByValue=True)
        assert "exceptionDetails" not in result, result["exceptionDetails"]
        return result["result"].get("value")

    def until(self, script, most=60.0):
        """Seconds until the script is true."""
        start = time.monotonic()
        while time.monotonic() - start < most:
            if self.run(script):
                return time.monotonic() - start
            time.sleep(0.005)
        raise AssertionError(f"never true: {script}\n{self.run('document.body && document.body.innerText.slice(0, 1500)')}")

    def key(self, key, code=None, text=None):
        more = {"text": text} if text else {}
        for kind in ("keyDown", "keyUp"):
            self.ask("Input.dispatchKeyEvent", type=kind, key=key, code=code or key, windowsVirtualKeyCode={"Tab": 9, "Enter": 13, " ": 32, "ArrowRight": 39}.get(key, 0), **more)

    def names(self, role):
        """Names of all that a screen reader meets in a role."""
        nodes = self.ask("Accessibility.getFullAXTree")["nodes"]
        return [n.get("name", {}).get("value", "") for n in nodes if n.get("role", {}).get("value") == role and not n.get("ignored")]

    def close(self):
        self.socket.close()
        self.process.terminate()
        self.process.wait()
        # Its helpers outlive it for a moment, and write into its folder.
        try:
            os.killpg(self.process.pid, signal.SIGKILL)
        except ProcessLookupError:
            pass
        self.folder.cleanup()
