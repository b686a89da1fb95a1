"""Imports point one way: the order of the modules is the order of the work."""

import ast
from pathlib import Path

PACKAGE = Path(__file__).parent.parent / "pricebook"
LAYERS = [
    ["errors"],
    ["money", "lengths"],
    ["piece", "rates"],
    ["forms", "takeoff"],
    ["veneer", "banding", "finish", "consumables", "labour"],
    ["cautions", "cost"],
    ["bidding", "price"],
    ["proceeds", "receipts"],
    ["forecast", "event", "records"],
]
EDGES = {
    "commands",
    "files",
    "frames",
    "workbook",
    "returned",
    "charts",
    "panel",
    "__main__",
}
OWNER = {
    "pandas": {"frames"},
    "matplotlib": {"charts"},
    "ipywidgets": {"panel"},
    "xlsxwriter": {"workbook"},
    "openpyxl": {"returned"},
    "scipy": {"veneer", "bidding", "forecast"},
    "numpy": {"veneer", "bidding", "forecast"},
}


def layer(name: str) -> int:
    for number, names in enumerate(LAYERS):
        if name in names:
            return number
    return len(LAYERS) if name in EDGES else -1


def stands_below(name: str, module: str) -> bool:
    """Tell whether a module stands in a lower layer, or later in the same one."""
    if layer(name) != layer(module):
        return layer(name) > layer(module)
    if layer(name) == len(LAYERS):
        return False  # edges may use one another
    names = LAYERS[layer(name)]
    bench = "veneer" in names  # the bench's own crafts never import one another
    return bench or names.index(name) > names.index(module)


def imported(source: str) -> set[str]:
    """Name every module that a source text imports, wherever the import stands."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            base = ("pricebook." if node.level else "") + (node.module or "")
            base = base.rstrip(".")
            if base == "pricebook":
                found |= {f"pricebook.{alias.name}" for alias in node.names}
            else:
                found.add(base)
    return found


def faults(module: str, source: str) -> list[str]:
    """List the imports of a module that the order of the layers forbids."""
    found = []
    for name in sorted(imported(source)):
        parts = name.split(".")
        if parts[0] in OWNER and module not in OWNER[parts[0]]:
            found.append(f"{module} imports {name}")
        if parts[0] != "pricebook" or len(parts) == 1 or parts[1] == module:
            continue
        if stands_below(parts[1], module):
            found.append(f"{module} imports {parts[1]}, which stands below it")
    return found


def module_files() -> list[tuple[str, Path]]:
    files = [p for p in PACKAGE.rglob("*.py") if not p.parts[-2].startswith("_")]
    return [(p.relative_to(PACKAGE).with_suffix("").parts[0], p) for p in files]


def test_every_module_has_a_layer():
    names = {name for name, _ in module_files()} - {"__init__"}
    assert {name for name in names if layer(name) < 0} == set()


def test_a_module_imports_only_from_its_layer_and_those_above():
    found = [
        fault
        for name, path in module_files()
        if name != "__init__"
        for fault in faults(name, path.read_text(encoding="utf-8"))
    ]
    assert found == []


def in_a_circle(imports: dict[str, set[str]]) -> set[str]:
    """Name the modules that import themselves, straight or by way of others."""
    left = dict(imports)
    while gone := {name for name, into in left.items() if not into & left.keys()}:
        left = {name: into for name, into in left.items() if name not in gone}
    return set(left)


def test_no_module_imports_itself_by_way_of_others():
    paths = {
        ".".join(path.relative_to(PACKAGE.parent).with_suffix("").parts): path
        for path in PACKAGE.rglob("*.py")
        if path.name != "__init__.py"
    }
    found = {
        name: imported(path.read_text(encoding="utf-8")) & paths.keys()
        for name, path in paths.items()
    }
    assert in_a_circle({"a": {"b"}, "b": {"c"}, "c": {"a"}, "d": set()}) == {*"abc"}
    assert in_a_circle(found) == set()


def test_planted_faults_are_caught():
    inside = "def f():\n    from pricebook.cost import CostSheet\n"
    assert faults("takeoff", inside) == ["takeoff imports cost, which stands below it"]
    assert faults("money", "from pricebook import files") != []
    assert faults("finish", "from pricebook import labour") != []
    assert faults("labour", "from pricebook import finish") != []
    assert faults("piece", "from pricebook import rates") != []
    assert faults("rates", "from pricebook import piece") == []
    assert faults("money", "import pricebook.cost") != []
    assert faults("money", "from . import cost") != []
    assert faults("money", "from .cost import CostSheet") != []
    assert faults("cost", "import pandas as pd") == ["cost imports pandas"]
    assert faults("cost", "from matplotlib.figure import Figure") != []
    assert faults("cost", "from pricebook.money import share_out") == []
