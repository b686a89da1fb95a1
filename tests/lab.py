"""JupyterLab in Chromium, as a maker has it on the screen."""

import json
import os
import secrets
import shutil
import socket
import subprocess
import sys
import time
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import urlsplit
from urllib.request import urlopen

QUIET = {"fetchNews": "false", "checkForUpdates": False, "doNotDisturbMode": True}
SETTING = "@jupyterlab/apputils-extension/notification.jupyterlab-settings"
CHROMIUM = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
RUN_ALL = """async () => {
  await jupyterapp.restored;
  const notebook = jupyterapp.shell.currentWidget;
  await notebook.context.ready;
  await notebook.sessionContext.ready;
  await notebook.sessionContext.session.kernel.info;
  await jupyterapp.commands.execute("notebook:run-all-cells");
}"""
DO = """async (code) => {
  const kernel = jupyterapp.shell.currentWidget.sessionContext.session.kernel;
  const reply = await kernel.requestExecute({code, store_history: false}).done;
  return reply.content.status === "ok" ? "" : JSON.stringify(reply.content);
}"""
FAULTS = """() => [...jupyterapp.shell.currentWidget.content.model.cells]
  .flatMap((cell) => cell.type === "code" ? cell.outputs.toJSON() : [])
  .filter((output) => output.output_type === "error" || output.name === "stderr")
  .map((output) => JSON.stringify(output))"""
CUT = """() => [...document.querySelectorAll(
  ".pricebook .widget-html-content, .pricebook .asks, .pricebook .answers, " +
  ".pricebook .foot, .jp-OutputArea-output")]
  .filter((part) => part.clientWidth && part.scrollWidth > part.clientWidth + 1)
  .map((part) => part.textContent.slice(0, 60))"""
CELLS = "() => jupyterapp.shell.currentWidget.content.widgets.length"
STILL = """async () => {
  const shown = () => document.querySelector(".pricebook img")?.src;
  for (let seen = shown(), since = Date.now(); Date.now() - since < 400; ) {
    await new Promise((done) => setTimeout(done, 40));
    if (shown() !== seen) { seen = shown(); since = Date.now(); }
  }
}"""
SHOW_CELL = """(index) =>
  jupyterapp.shell.currentWidget.content.scrollToItem(index, "start")"""
ACTIVE = """() => {
  const at = document.activeElement;
  const label = at.labels && at.labels.length ? at.labels[0].textContent : "";
  return (label || at.getAttribute("aria-label") || at.innerText || "").trim();
}"""
ASK = """async (expression) => {
  const kernel = jupyterapp.shell.currentWidget.sessionContext.session.kernel;
  const request = {code: "", user_expressions: {found: expression}, silent: true};
  const reply = await kernel.requestExecute(request).done;
  const found = reply.content.user_expressions.found;
  return found.status === "ok" ? found.data["text/plain"] : JSON.stringify(found);
}"""


def missing():
    """Say what to install for a browser test, or return nothing."""
    if not browser_path():
        return "no Chromium: apt-get install chromium"
    try:
        import playwright.sync_api  # noqa: F401
    except ImportError:
        return "no playwright: pip install playwright"
    return ""


def browser_path():
    names = ("chromium", "chromium-browser", "google-chrome")
    return next((found for name in names if (found := shutil.which(name))), None)


@contextmanager
def server(folder, home):
    """Run JupyterLab on a folder with a profile of its own; yield its address."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    token = secrets.token_hex(16)
    environment = os.environ | {
        name: str(home / name.lower())
        for name in (
            "JUPYTER_CONFIG_DIR",
            "JUPYTER_DATA_DIR",
            "JUPYTER_RUNTIME_DIR",
            "JUPYTERLAB_SETTINGS_DIR",
            "JUPYTERLAB_WORKSPACES_DIR",
            "IPYTHONDIR",
        )
    }
    setting = Path(environment["JUPYTERLAB_SETTINGS_DIR"]) / SETTING
    setting.parent.mkdir(parents=True)
    setting.write_text(json.dumps(QUIET), encoding="utf-8")
    command = [
        *(sys.executable, "-m", "jupyterlab", "--no-browser", "--allow-root"),
        "--ServerApp.ip=127.0.0.1",
        f"--ServerApp.port={port}",
        "--ServerApp.port_retries=0",
        f"--IdentityProvider.token={token}",
        "--LabApp.extension_manager=readonly",
        "--expose-app-in-browser",
        f"--ServerApp.root_dir={folder}",
    ]
    log = (home / "lab.log").open("w", encoding="utf-8")
    process = subprocess.Popen(
        command, env=environment, stdout=log, stderr=subprocess.STDOUT
    )
    address = f"http://127.0.0.1:{port}"
    try:
        _wait_for(f"{address}/api?token={token}", process)
        yield address, token, process.pid
    finally:
        process.terminate()
        process.wait(30)
        log.close()


def _wait_for(url, process):
    for _ in range(200):
        try:
            with urlopen(url, timeout=2):
                return
        except OSError:
            assert process.poll() is None, "JupyterLab ended before it answered"
            time.sleep(0.1)
    raise AssertionError("JupyterLab does not answer")


class Screen:
    """One notebook on a maker's screen.

    Parameters
    ----------
    browser : playwright browser
        The browser.
    lab : tuple
        Address, token and process number of the server.
    name : str
        The notebook's file name.
    size : (int, int)
        Width and height of the window. [px]
    """

    def __init__(self, browser, lab, name, size=(1280, 800)):
        self.address, token, self.server = lab
        self.requests, self.complaints = [], []
        width, height = size
        self.page = browser.new_page(viewport={"width": width, "height": height})
        self.page.on("request", lambda request: self.requests.append(request.url))
        self.page.on("console", self._note)
        self.page.on("pageerror", lambda error: self.complaints.append(str(error)))
        self.page.goto(f"{self.address}/doc/tree/notebooks/{name}?token={token}")

    def _note(self, message):
        if message.type == "error":
            self.complaints.append(message.text)

    def run_all(self):
        """Run every cell and wait until the controls stand there."""
        self.page.wait_for_function(
            "() => window.jupyterapp?.shell.currentWidget?.sessionContext",
            timeout=60_000,
        )
        self.page.evaluate(RUN_ALL)
        panel = self.page.locator(".pricebook").first
        panel.wait_for(timeout=60_000)
        panel.locator("img").first.wait_for(timeout=30_000)
        panel.scroll_into_view_if_needed()
        return self

    def box(self, label):
        """Return the box, drop-down or tick of a label."""
        return self.page.locator(".pricebook").get_by_label(label, exact=True)

    def button(self, label):
        return self.page.locator(".pricebook").get_by_role("button", name=label)

    def type(self, label, text):
        """Type into a box and leave it, as a person does."""
        box = self.box(label)
        box.fill(text)
        box.press("Tab")

    def words(self):
        """Return all that the panel says."""
        return self.page.locator(".pricebook").inner_text()

    def wait_for_words(self, words):
        """Wait until the panel says something."""
        self.page.locator(".pricebook").get_by_text(words).first.wait_for()

    def wait_for_new_picture(self, before):
        """Wait until the panel's first picture is another one."""
        self.page.wait_for_function(
            """(before) => {
              const image = document.querySelector(".pricebook img");
              return image && image.complete && image.src !== before;
            }""",
            arg=before,
        )
        self.settled()

    def active(self):
        """Return the name of what has the keyboard."""
        return self.page.evaluate(ACTIVE)

    def tab_through(self, count):
        """Return the names of what the Tab key reaches, one after the other."""
        found = []
        for _ in range(count):
            self.page.keyboard.press("Tab")
            found.append(self.active())
        return found

    def focus_by_tab(self, start, end):
        """Go from one control to a later one by the Tab key alone."""
        self.box(start).focus()
        for _ in range(60):
            if self.active() == end:
                return
            self.page.keyboard.press("Tab")
        raise AssertionError(f"{end} is not reached from {start} by the Tab key")

    def size(self, width, height):
        """Give the window another size."""
        self.page.set_viewport_size({"width": width, "height": height})
        self.page.wait_for_timeout(300)
        self.page.locator(".pricebook").scroll_into_view_if_needed()

    def is_inside_the_window(self):
        """Tell whether the panel needs no scrolling of the window."""
        box = self.page.locator(".pricebook").bounding_box()
        window = self.page.viewport_size
        wide, tall = window["width"], window["height"]
        return box["x"] + box["width"] <= wide and box["height"] <= tall

    def do(self, code):
        """Run code in the notebook's kernel."""
        failed = self.page.evaluate(DO, code)
        assert not failed, failed

    def formulas(self):
        """List what the notebook took for a formula, such as the text from $ to $."""
        found = []
        for index in range(self.page.evaluate(CELLS)):
            self.page.evaluate(SHOW_CELL, index)
            self.page.wait_for_timeout(60)
            found += self.page.locator("mjx-container").all_inner_texts()
        return found

    def cut_off(self):
        """List the parts of the page that are wider than their place."""
        return self.page.evaluate(CUT)

    def settled(self):
        """Wait until the kernel has answered all, and the panel stands still."""
        self.ask("None")
        self.page.locator(".pricebook .busy").wait_for(state="detached")
        self.page.evaluate(STILL)

    def faults(self):
        """List errors and complaints among the outputs of all cells."""
        return self.page.evaluate(FAULTS)

    def picture(self):
        """Return the address of the panel's first picture; a new one is a new one."""
        return self.page.locator(".pricebook img").first.get_attribute("src")

    def time_to_new_picture(self, act):
        """Return how long a new picture takes after an act on a panel at rest. [ms]."""
        self.settled()
        before = self.picture()
        self.page.evaluate(
            """(before) => {
              window.changedAt = null;
              const look = () => {
                const image = document.querySelector(".pricebook img");
                if (image && image.src !== before && image.complete) {
                  window.changedAt = performance.now();
                } else { requestAnimationFrame(look); }
              };
              window.addEventListener("keydown", () => {
                window.pressedAt = performance.now();
              }, {capture: true, once: true});
              look();
            }""",
            before,
        )
        act()
        self.page.wait_for_function("() => window.changedAt", timeout=20_000)
        return self.page.evaluate("() => window.changedAt - window.pressedAt")

    def ask(self, expression):
        """Return what the notebook's kernel says of an expression."""
        return self.page.evaluate(ASK, expression)

    def shot(self, path):
        path.parent.mkdir(parents=True, exist_ok=True)
        self.page.screenshot(path=path)

    def strangers(self):
        """List the requests that left the machine."""
        home = urlsplit(self.address).netloc
        return [
            url
            for url in self.requests
            if urlsplit(url).scheme in ("http", "https", "ws", "wss")
            and urlsplit(url).netloc != home
        ]

    def close(self):
        self.page.close()


def nameless(page, root=".pricebook"):
    """List the controls that the accessibility tree gives no name."""
    session = page.context.new_cdp_session(page)
    nodes = session.send("Accessibility.getFullAXTree")["nodes"]
    kinds = {
        "button", "textbox", "combobox", "checkbox", "slider", "spinbutton", "image",
        "img", "listbox", "radio",
    }  # fmt: skip
    inside = _inside(session, root)
    return [
        (node["role"]["value"], node.get("backendDOMNodeId"))
        for node in nodes
        if not node.get("ignored")
        and node.get("role", {}).get("value", "").lower() in kinds
        and node.get("backendDOMNodeId") in inside
        and not node.get("name", {}).get("value", "").strip()
    ]


def named(page, root=".pricebook"):
    """List role and name of every control inside a part of the page."""
    session = page.context.new_cdp_session(page)
    nodes = session.send("Accessibility.getFullAXTree")["nodes"]
    inside = _inside(session, root)
    return [
        (node["role"]["value"], node.get("name", {}).get("value", ""))
        for node in nodes
        if not node.get("ignored") and node.get("backendDOMNodeId") in inside
    ]


def _inside(session, root):
    """Return the DOM numbers of everything inside a part of the page."""
    document = session.send("DOM.getDocument", {"depth": -1, "pierce": True})["root"]
    name = root.removeprefix(".")
    found = set()

    def walk(node, within):
        pairs = node.get("attributes", [])
        classes = dict(zip(pairs[::2], pairs[1::2], strict=True)).get("class", "")
        within = within or name in classes.split()
        if within:
            found.add(node["backendNodeId"])
        for child in node.get("children", []):
            walk(child, within)

    walk(document, False)
    return found
