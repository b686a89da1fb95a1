"""An independent spreadsheet engine for the tests: LibreOffice, and poppler.

LibreOffice trusts the values stored beside formulas, so every run here forces it to
recalculate on load. Without the tools the tests skip and say what to install; when
PRICEBOOK_EVERY_TEST is set, a missing tool is a failure.
"""

import os
import re
import shutil
import subprocess
from pathlib import Path

import pytest

TOOLS = {
    "soffice": "libreoffice-calc",
    "pdftotext": "poppler-utils",
    "pdftoppm": "poppler-utils",
}
SECONDS = 180
_RECALCULATE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry"
 xmlns:xs="http://www.w3.org/2001/XMLSchema"
 xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load">
<prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
<item oor:path="/org.openoffice.Office.Calc/Formula/Load">
<prop oor:name="ODFRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
"""


def need(*tools):
    """Skip the test, or fail it where every test must run, without the tools."""
    missing = sorted({TOOLS[tool] for tool in tools if shutil.which(tool) is None})
    if not missing:
        return
    sentence = f"install {' and '.join(missing)} to run this test."
    if os.environ.get("PRICEBOOK_EVERY_TEST"):
        pytest.fail(sentence)
    pytest.skip(sentence)


def convert(path, kind, folder):
    """Let LibreOffice open a file, recalculate it, and save it as another kind.

    Parameters
    ----------
    path : Path
        The file; it is left alone.
    kind : str
        "xlsx", "ods", "pdf" or "csv".
    folder : Path
        Where the result goes, and the profile of this run.

    Returns
    -------
    Path
        The new file, with the old one's name and the new ending.
    """
    return convert_all([path], kind, folder)[0]


def convert_all(paths, kind, folder):
    """Convert several files in one run; see `convert`."""
    need("soffice")
    profile = folder / "profile"
    settings = profile / "user" / "registrymodifications.xcu"
    if not settings.exists():
        settings.parent.mkdir(parents=True)
        settings.write_text(_RECALCULATE, encoding="utf-8")
    out = folder / kind
    command = ["soffice", f"-env:UserInstallation={profile.as_uri()}", "--headless"]
    command += ["--convert-to", kind, "--outdir", str(out), *map(str, paths)]
    done = subprocess.run(
        command, capture_output=True, text=True, timeout=SECONDS, check=False
    )
    made = [out / f"{Path(path).stem}.{kind}" for path in paths]
    for path in made:
        assert path.exists(), f"LibreOffice made no {path.name}: {done.stderr}"
    return made


def recalculated(path, folder):
    """Return a copy of a workbook with every formula worked out afresh."""
    return convert(path, "xlsx", folder)


def pdf(path, folder):
    """Return a workbook as it prints."""
    return convert(path, "pdf", folder)


def words(pdf_path):
    """Return the text of a PDF, its pages divided by form feeds."""
    need("pdftotext")
    command = ["pdftotext", "-layout", str(pdf_path), "-"]
    return subprocess.run(
        command, capture_output=True, text=True, timeout=SECONDS, check=True
    ).stdout


def pages(pdf_path):
    """Return the text of a PDF, page by page."""
    return words(pdf_path).removesuffix("\f").split("\f")


def pictures(pdf_path, folder, dots=70):
    """Return the pages of a PDF as PNG files, in order."""
    need("pdftoppm")
    folder.mkdir(parents=True, exist_ok=True)
    command = ["pdftoppm", "-r", str(dots), "-png", str(pdf_path), str(folder / "page")]
    subprocess.run(command, capture_output=True, timeout=SECONDS, check=True)
    number = re.compile(r"page-(\d+)\.png")
    return sorted(
        folder.glob("page-*.png"),
        key=lambda page: int(number.fullmatch(page.name)[1]),
    )
