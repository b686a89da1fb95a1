"""`pricebook open [FOLDER]`: JupyterLab on the first notebook, on this machine only."""

from __future__ import annotations

import argparse
import json
import os
import signal
import subprocess
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from types import FrameType

from pricebook.errors import ReportError
from pricebook.files.writing import write_text

_QUIET = {"fetchNews": "false", "checkForUpdates": False, "doNotDisturbMode": True}
_SETTING = "@jupyterlab/apputils-extension/notification.jupyterlab-settings"


def run(given: argparse.Namespace) -> None:
    """Start JupyterLab and wait until it ends."""
    folder = Path(given.folder).resolve()
    first = first_notebook(folder)
    write_text(folder / ".jupyter" / "settings" / _SETTING, json.dumps(_QUIET))
    command = lab_command(folder, first, browser=not given.no_browser)
    code = run_until_told(command, quiet_environment(folder))
    if code:
        raise ReportError(
            f"JupyterLab ended by itself with code {code}; what it said stands above."
        )
    print("JupyterLab has ended.", file=sys.stderr)


def run_until_told(command: Sequence[str], environment: Mapping[str, str]) -> int:
    """Run a server until it ends, or until Ctrl-C or a closed terminal ends it.

    Parameters
    ----------
    command : sequence of str
        The server and its options.
    environment : mapping of str to str
        Its environment.

    Returns
    -------
    int
        What it ended with; 0 when it was told to end.

    Notes
    -----
    The server hears of it once, and is given the time to end its kernels; it runs
    apart, so that the terminal does not tell it a second time.
    """
    server = subprocess.Popen(
        command, env=environment, stdin=subprocess.DEVNULL, start_new_session=True
    )
    told = False

    def tell(_signal: int, _frame: FrameType | None) -> None:
        nonlocal told
        if not told:
            told = True
            server.terminate()

    names = [n for n in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, n)]
    before = {n: signal.signal(getattr(signal, n), tell) for n in names}
    try:
        code = server.wait()
    finally:
        for name, handler in before.items():
            signal.signal(getattr(signal, name), handler)
    return 0 if told else code


def first_notebook(folder: Path) -> Path:
    """Return the first numbered notebook of a working copy.

    Parameters
    ----------
    folder : Path
        A folder that `pricebook new` made, or a checkout.

    Returns
    -------
    Path
        The notebook, relative to the folder.

    Raises
    ------
    ReportError
        If the folder has no notebooks.
    """
    found = sorted((folder / "notebooks").glob("[0-9]*.ipynb"))
    if not found:
        raise ReportError(
            f"{folder} has no notebooks; make a working copy: pricebook new FOLDER."
        )
    return found[0].relative_to(folder)


def lab_command(folder: Path, notebook: Path, *, browser: bool) -> list[str]:
    """Return the command that starts JupyterLab on a notebook.

    Parameters
    ----------
    folder, notebook : Path
        The working copy, and the notebook relative to it.
    browser : bool
        Whether a browser opens by itself.

    Returns
    -------
    list of str
        The command: local address, token on, nothing asked of the network.
    """
    return [
        sys.executable,
        "-m",
        "jupyterlab",
        "--ServerApp.ip=127.0.0.1",
        f"--ServerApp.root_dir={folder}",
        f"--LabApp.default_url=/doc/tree/{notebook.as_posix()}",
        "--LabApp.extension_manager=readonly",
        "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
        "--LabApp.news_url=None",
        "--LanguageServerManager.autodetect=False",
        *([] if browser else ["--no-browser"]),
        *(["--allow-root"] if getattr(os, "geteuid", lambda: 1)() == 0 else []),
    ]


def quiet_environment(folder: Path) -> dict[str, str]:
    """Return the environment in which JupyterLab shows no news."""
    own = folder / ".jupyter"
    return os.environ | {
        "JUPYTERLAB_SETTINGS_DIR": str(own / "settings"),
        "JUPYTERLAB_WORKSPACES_DIR": str(own / "workspaces"),
    }
