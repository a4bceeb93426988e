"""A Chromium without a window, driven through its debugging pipe: messages are JSON, each ended by a zero byte."""
import base64
import fcntl
import json
import os
import select
import shutil
import signal
import tempfile
import time

NAMES = ("chromium", "chromium-browser")
PATIENCE_S = 60


class Browser:
    def __init__(self):
        program = next((p for p in map(shutil.which, NAMES) if p), None)
        if not program:
            raise FileNotFoundError("no chromium")
        self.folder = tempfile.mkdtemp()
        self.events, self.number, self.rest, self.session = [], 0, b"", None
        theirs_in, self.to = os.pipe()
        self.back, theirs_out = os.pipe()
        # out of the way of the numbers 3 and 4, which the browser reads and writes
        high = [fcntl.fcntl(fd, fcntl.F_DUPFD_CLOEXEC, 10) for fd in (theirs_in, theirs_out)]
        words = [program, "--headless", "--no-sandbox", "--remote-debugging-pipe", "--disable-gpu", "--no-first-run",
                 "--hide-scrollbars", "--disable-extensions", "--disable-background-networking",
                 "--user-data-dir=" + self.folder, "about:blank"]
        null = os.devnull
        self.pid = os.posix_spawn(program, words, dict(os.environ, HOME=self.folder), setsid=True, file_actions=[
            (os.POSIX_SPAWN_OPEN, 0, null, os.O_RDONLY, 0), (os.POSIX_SPAWN_OPEN, 1, null, os.O_WRONLY, 0),
            (os.POSIX_SPAWN_OPEN, 2, null, os.O_WRONLY, 0),
            (os.POSIX_SPAWN_DUP2, high[0], 3), (os.POSIX_SPAWN_DUP2, high[1], 4)])
        for fd in (theirs_in, theirs_out, *high):
            os.close(fd)
        page = next(t for t in self.ask("Target.getTargets")["targetInfos"] if t["type"] == "page")
        self.session = self.ask("Target.attachToTarget", targetId=page["targetId"], flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Log", "Network"):
            self.ask(domain + ".enable")

    def close(self):
        try:
            self.session = None
            self.ask("Browser.close")
        except (OSError, RuntimeError):
            pass
        try:
            os.killpg(self.pid, signal.SIGKILL)
        except ProcessLookupError:
            pass
        os.waitpid(self.pid, 0)
        os.close(self.to)
        os.close(self.back)
        shutil.rmtree(self.folder, ignore_errors=True)

    def _next(self, until):
        while b"\0" not in self.rest:
            if not select.select([self.back], [], [], max(0.0, until - time.monotonic()))[0]:
                raise RuntimeError("the browser does not answer")
            more = os.read(self.back, 1 << 20)
            if not more:
                raise RuntimeError("the browser has ended")
            self.rest += more
        message, self.rest = self.rest.split(b"\0", 1)
        return json.loads(message)

    def ask(self, method, **params):
        self.number += 1
        message = {"id": self.number, "method": method, "params": params}
        if self.session:
            message["sessionId"] = self.session
        data = json.dumps(message).encode() + b"\0"
        while data:
            data = data[os.write(self.to, data):]
        until = time.monotonic() + PATIENCE_S
        while True:
            answer = self._next(until)
            if answer.get("id") != self.number:
                self.events.append(answer)
            elif "error" in answer:
                raise RuntimeError("%s: %s" % (method, answer["error"]["message"]))
            else:
                return answer.get("result", {})

    def open(self, path):
        """Opens a file from disk and waits until it has loaded."""
        self.events.clear()
        self.ask("Page.navigate", url="file://" + os.path.abspath(path))
        until = time.monotonic() + PATIENCE_S
        while not any(e.get("method") == "Page.loadEventFired" for e in self.events):
            self.events.append(self._next(until))

    def look(self, width, height, phone=False, dark=False, media="screen"):
        """How the page is looked at from now on."""
        self.ask("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=phone)
        self.ask("Emulation.setEmulatedMedia", media=media, features=[
            {"name": "prefers-color-scheme", "value": "dark" if dark else "light"}])

    def js(self, expression):
        answer = self.ask("Runtime.evaluate", expression=expression, returnByValue=True, awaitPromise=True)
        if "exceptionDetails" in answer:
            raise RuntimeError(json.dumps(answer["exceptionDetails"])[:600])
        return answer["result"].get("value")

    def picture(self, path, whole=False):
        shot = self.ask("Page.captureScreenshot", format="png", captureBeyondViewport=whole)
        with open(path, "wb") as f:
            f.write(base64.b64decode(shot["data"]))

    def pdf(self, path, width_in, height_in):
        sheet = self.ask("Page.printToPDF", paperWidth=width_in, paperHeight=height_in, printBackground=False,
                         preferCSSPageSize=False, marginTop=0.47, marginBottom=0.47, marginLeft=0.47, marginRight=0.47)
        with open(path, "wb") as f:
            f.write(base64.b64decode(sheet["data"]))
