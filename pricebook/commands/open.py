"""`pricebook open [FOLDER]`: JupyterLab on the first notebook, on this machine only."""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
from pathlib import Path

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
    try:
        subprocess.run(command, env=quiet_environment(folder), check=False)
    except KeyboardInterrupt:
        print("JupyterLab has ended.", file=sys.stderr)


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
        f"--LabApp.default_url=/lab/tree/{notebook.as_posix()}",
        "--LabApp.extension_manager=readonly",
        "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
        "--LabApp.news_url=None",
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
