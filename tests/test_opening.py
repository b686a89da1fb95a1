"""`pricebook open` really starts JupyterLab, on this machine only, and ends it."""

import os
import re
import signal
import socket
import subprocess
import sys
import time
from contextlib import contextmanager
from urllib.error import HTTPError
from urllib.request import urlopen

import lab
import pytest

from pricebook.__main__ import main
from pricebook.commands.open import run_until_told

PRICEBOOK = [sys.executable, "-m", "pricebook"]


@pytest.fixture(scope="module")
def bench(tmp_path_factory):
    """Return a maker's own working copy, in a folder with a blank in its name."""
    folder = tmp_path_factory.mktemp("maker") / "my bench"
    subprocess.run([*PRICEBOOK, "new", folder], check=True, capture_output=True)
    return folder


@contextmanager
def opened(bench, home):
    """Run `pricebook open` as a terminal does; yield its process and address."""
    home.mkdir(exist_ok=True)
    log = home / "said.txt"
    with log.open("w", encoding="utf-8") as said:
        process = subprocess.Popen(
            [*PRICEBOOK, "open", bench, "--no-browser"],
            stdout=said,
            stderr=subprocess.STDOUT,
            env=os.environ | {"HOME": str(home)},
            start_new_session=True,
        )
        try:
            yield process, _address(log, process)
        finally:
            process.send_signal(signal.SIGTERM)
            process.wait(30)


def _address(log, process):
    for _ in range(300):
        found = re.search(r"http://\S+token=\S+", log.read_text(encoding="utf-8"))
        if found:
            return _answering(found.group(0))
        assert process.poll() is None, log.read_text(encoding="utf-8")
        time.sleep(0.1)
    raise AssertionError("JupyterLab named no address")


def _answering(address):
    for _ in range(100):
        try:
            with urlopen(address, timeout=2):
                return address
        except OSError:
            time.sleep(0.1)
    raise AssertionError("JupyterLab does not answer")


def port_of(address):
    return int(re.search(r":(\d+)/", address).group(1))


def is_answering(port):
    with socket.socket() as probe:
        return probe.connect_ex(("127.0.0.1", port)) == 0


def test_it_opens_the_first_notebook_on_this_machine_behind_a_token(bench, tmp_path):
    with opened(bench, tmp_path / "home") as (_, address):
        assert address.startswith("http://127.0.0.1:")
        place, token = address.split("?token=")
        assert place.endswith("/doc/tree/notebooks/1_what_will_this_piece_cost.ipynb")
        assert len(token) >= 32
        without = f"http://127.0.0.1:{port_of(address)}/api/contents"
        with pytest.raises(HTTPError, match="403"):
            urlopen(without, timeout=5)


def test_a_second_one_takes_another_port(bench, tmp_path):
    with (
        opened(bench, tmp_path / "one") as (_, first),
        opened(bench, tmp_path / "two") as (_, second),
    ):
        assert port_of(first) != port_of(second)


@pytest.mark.parametrize("name", ["SIGINT", "SIGTERM", "SIGHUP"])
def test_it_ends_cleanly_and_leaves_nothing_running(name, bench, tmp_path):
    home = tmp_path / "home"
    with opened(bench, home) as (process, address):
        os.killpg(process.pid, getattr(signal, name))
        assert process.wait(30) == 0
        assert not is_answering(port_of(address))
    assert "JupyterLab has ended." in (home / "said.txt").read_text(encoding="utf-8")
    assert list(home.rglob("jpserver-*")) == []


def test_a_server_that_fails_by_itself_is_said():
    command = [sys.executable, "-c", "raise SystemExit(3)"]
    assert run_until_told(command, dict(os.environ)) == 3


def test_the_command_fails_when_the_server_does(bench, monkeypatch, capsys):
    monkeypatch.setattr("pricebook.commands.open.run_until_told", lambda *_: 3)
    assert main(["open", str(bench), "--no-browser"]) == 1
    assert "JupyterLab ended by itself with code 3" in capsys.readouterr().err


@pytest.mark.browser
def test_the_maker_meets_the_notebook_and_no_news(bench, tmp_path):
    why = lab.missing()
    if why and os.environ.get("PRICEBOOK_EVERY_TEST"):
        pytest.fail(why)
    if why:
        pytest.skip(why)
    from playwright.sync_api import sync_playwright

    asked = []
    with opened(bench, tmp_path / "home") as (_, address), sync_playwright() as play:
        browser = play.chromium.launch(
            executable_path=lab.browser_path(), headless=True, args=lab.CHROMIUM
        )
        page = browser.new_page()
        page.on("request", lambda request: asked.append(request.url))
        page.goto(address)
        page.locator(".jp-Notebook h1").first.wait_for(timeout=60_000)
        page.wait_for_timeout(3_000)
        assert (
            page.locator(".jp-Notebook h1").first.inner_text().startswith("What will")
        )
        assert page.locator(".Toastify__toast").count() == 0
        assert page.locator(".jp-Dialog").count() == 0
        browser.close()
    home = f"127.0.0.1:{port_of(address)}"
    assert asked
    assert [url for url in asked if url.split("/")[2] != home and "//" in url] == []
