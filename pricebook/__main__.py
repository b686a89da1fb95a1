"""The command line; what a command needs is loaded when it runs."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from importlib import import_module

from pricebook.errors import PricebookError

COMMANDS = {
    "price": "cost sheet, layout picture and price advice; pieces share sheets",
    "compare": "the same piece in every species and sheet size of the price book",
    "choose": "which pieces to do with these hours and this money",
    "forecast": "what the evening may raise",
    "book": "the fundraiser's workbook, ready to fill in",
    "settle": "read the workbook back, check it, settle, write the board's workbook",
    "new": "a maker's own working copy",
    "open": "JupyterLab on the notebooks",
}


def parser() -> argparse.ArgumentParser:
    """Return the reader of the command line."""
    top = argparse.ArgumentParser(
        prog="pricebook",
        description="What a refinished piece costs, what to ask for it, who gets what.",
    )
    commands = top.add_subparsers(dest="command", metavar="COMMAND", required=True)
    for name, words in COMMANDS.items():
        one = commands.add_parser(name, help=words, description=words)
        _arguments(name, one)
        if name not in ("new", "open"):
            one.add_argument("--json", action="store_true", help="one JSON object")
            one.add_argument(
                "--out", metavar="FOLDER", default="output", help="where files go"
            )
    return top


def _arguments(name: str, one: argparse.ArgumentParser) -> None:
    if name == "price":
        _price_arguments(one)
    if name == "compare":
        one.add_argument("piece", metavar="PIECE", help="a piece file")
    if name in ("price", "compare", "book", "forecast", "choose", "settle"):
        one.add_argument("--shop", metavar="FOLDER", help="the price book's folder")
        one.add_argument("--on", metavar="DATE", help="the day of the prices")
    if name in ("price", "compare"):
        one.add_argument("--stages", type=int, choices=(2, 3), help="cuts in a row")
    if name in ("choose", "forecast", "book", "settle"):
        one.add_argument("event", metavar="EVENT", help="an event file")
    if name == "settle":
        one.add_argument("returned", metavar="RETURNED", help="the filled-in workbook")
        one.add_argument(
            "--keep", action="store_true", help="add what was learnt to the price book"
        )
        one.add_argument(
            "--used", metavar="FILE", help="what the pieces really took (TOML)"
        )
        one.add_argument(
            "--year",
            metavar="FILE",
            nargs="+",
            action="extend",
            default=[],
            help="totals that earlier settlements of the year wrote",
        )
    if name in ("new", "open"):
        _folder_arguments(name, one)


def _price_arguments(one: argparse.ArgumentParser) -> None:
    one.add_argument("piece", nargs="+", metavar="PIECE", help="a piece file")
    one.add_argument(
        "--take",
        action="store_true",
        help="draw what is used from the stock on hand and add the offcuts",
    )
    one.add_argument(
        "--if", metavar="KEY=PRICE", dest="changes", action="append", default=[],
        help="show what another price would move, such as walnut-4x8=140.00",
    )  # fmt: skip
    one.add_argument(
        "--drivers", action="store_true", help="rank what moves the cost most"
    )
    one.add_argument("--auction", metavar="DATE", help="when it must be ready")


def _folder_arguments(name: str, one: argparse.ArgumentParser) -> None:
    if name == "new":
        one.add_argument("folder", metavar="FOLDER")
        return
    one.add_argument("folder", metavar="FOLDER", nargs="?", default=".")
    one.add_argument("--no-browser", action="store_true", help="only start it")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command.

    Parameters
    ----------
    arguments : sequence of str or None
        The command line; None: that of the process.

    Returns
    -------
    int
        0 done, 1 refused input; wrong usage leaves with 2.
    """
    given = parser().parse_args(arguments)
    try:
        command = import_module(f"pricebook.commands.{given.command}")
        command.run(given)
    except PricebookError as error:
        for fault in error.faults:
            print(fault, file=sys.stderr)
        return 1
    except BrokenPipeError:
        sys.stderr.close()
    return 0


if __name__ == "__main__":
    sys.exit(main())
