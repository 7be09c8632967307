"""Which package may import which, who may use which library, and how long a module may be."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

import flatpack

ROOT = Path(flatpack.__file__).parent
MODULES = sorted(p for p in ROOT.rglob("*.py") if "_profiles" not in p.parts)

OPEN = {"errors", "finding", "frozen", "wording"}
ALL = {path.stem if path.parent == ROOT else path.relative_to(ROOT).parts[0] for path in MODULES}
#: Package -> what it may import, beside itself and what is open to all.
MAY_IMPORT: dict[str, set[str]] = {
    "errors": set(),
    "finding": set(),
    "frozen": set(),
    "wording": set(),
    "geometry": set(),
    "parameters": set(),
    "profiles": {"parameters"},
    "model": {"geometry", "profiles", "drawings.shapes"},
    "features": {"geometry", "model", "drawings.shapes", "drawings.stroke_font"},
    "mechanism": {"geometry", "model"},
    "joinery": {"features", "model", "geometry", "profiles"},
    "strength": {"geometry", "model", "profiles", "mechanism"},
    "cutting": {"geometry", "model", "profiles"},
    "checks": {"geometry", "model", "profiles", "mechanism", "strength"},
    "planning": {
        "geometry",
        "model",
        "profiles",
        "cutting",
        "checks.mates",
        "checks.shop",
        "drawings.marks",
        "drawings.faces",
        "drawings.operations",
        "drawings.book.finishing",
    },
    "drawings": {"geometry", "model", "cutting", "planning", "profiles", "mechanism", "strength"},
    "writers": {"geometry", "drawings"},
    "pieces": {"features", "model", "geometry", "profiles", "joinery", "mechanism", "parameters"},
    # These read and write files and run the flow.
    "job": ALL,
    "gallery": ALL,
    "batch": ALL,
    "command_line": ALL,
    "__main__": ALL,
    "mending": {"parameters"},
    "poses": {"mechanism", "model"},
    "output_folder": {"manifest"},
    "manifest": set(),
    "content_code": set(),
    "profile_files": set(),
    "__init__": set(),
}
#: Library -> where alone it may be used.
LIBRARIES = {
    "shapely": {"geometry/polygon.py"},
    "ezdxf": {"writers/make_dxf_templates.py"},
    "svgwrite": {"writers/make_svg_shell.py"},
    "pydyf": {"writers/pdf.py"},
    "fontTools": {"writers/make_pdf_fonts.py"},
}
#: What may never be imported when a module is loaded: it takes longer than all the rest.
HEAVY = {"ezdxf", "svgwrite", "pydantic", "scipy", "jsonschema", "highspy", "spyrrow", "fontTools",
         "pydyf", "shutil"}  # fmt: skip
DEVELOPERS = {"make_dxf_templates.py", "make_pdf_fonts.py", "make_svg_shell.py"}


def imports(tree: ast.AST) -> set[str]:
    """Dotted names of all modules that the code imports, wherever it does."""
    nodes = list(ast.walk(tree))
    found = {alias.name for n in nodes if isinstance(n, ast.Import) for alias in n.names}
    for node in nodes:
        if isinstance(node, ast.ImportFrom):
            assert node.level == 0, "imports name the whole path"
            whole = str(node.module)
            found |= {f"{whole}.{a.name}" for a in node.names} if whole == "flatpack" else {whole}
    return found


@pytest.mark.parametrize("path", MODULES, ids=[str(p.relative_to(ROOT)) for p in MODULES])
def test_imports_follow_the_one_direction(path: Path) -> None:
    relative = path.relative_to(ROOT)
    package = relative.parts[0] if len(relative.parts) > 1 else path.stem
    allowed = MAY_IMPORT[package] | OPEN | {package}
    for name in imports(ast.parse(path.read_text(encoding="utf-8"))):
        first, _, rest = name.partition(".")
        if first == "flatpack" and rest != "__version__":
            assert any(f"{rest}.".startswith(f"{a}.") for a in allowed), f"{relative}: {name}"
        if first in LIBRARIES:
            assert relative.as_posix() in LIBRARIES[first], f"{relative}: {name}"


@pytest.mark.parametrize("path", MODULES, ids=[str(p.relative_to(ROOT)) for p in MODULES])
def test_modules_load_nothing_heavy_and_stay_small(path: Path) -> None:
    source = path.read_text(encoding="utf-8")
    tree = ast.parse(source)
    loaded = {name.partition(".")[0] for node in tree.body for name in imports(node)
              if isinstance(node, ast.Import | ast.ImportFrom)}  # fmt: skip
    assert path.name in DEVELOPERS or not loaded & HEAVY
    assert len(source.splitlines()) <= 300


def functions() -> list[tuple[str, int]]:
    """Every function with the lines of its body, docstring not counted."""
    found = []
    for path in MODULES:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.FunctionDef) and node.end_lineno is not None:
                body = node.body[ast.get_docstring(node) is not None :]
                lines = node.end_lineno - body[0].lineno + 1 if body else 0
                found.append((f"{path.relative_to(ROOT)}:{node.lineno} {node.name}", lines))
    return found


def test_functions_stay_small() -> None:
    # A family's `build` reads like a cutting list and may be longer.
    most = {name: 80 if name.endswith(" build") else 50 for name, _ in functions()}
    assert [name for name, lines in functions() if lines > most[name]] == []
    sizes = sorted(lines for _, lines in functions())
    assert sizes[len(sizes) // 2] <= 7
    assert sizes[len(sizes) * 9 // 10] <= 25


def test_modules_are_small_on_the_whole() -> None:
    sizes = sorted(len(path.read_text(encoding="utf-8").splitlines()) for path in MODULES)
    assert sizes[len(sizes) // 2] <= 150


def test_the_rules_name_every_package_that_there_is() -> None:
    assert set(MAY_IMPORT) >= ALL


def test_the_rules_can_fail() -> None:
    tree = ast.parse("def late():\n    from flatpack.writers import dxf\n    import shapely.ops")
    assert imports(tree) == {"flatpack.writers", "shapely.ops"}
    assert imports(ast.parse("from flatpack import checks")) == {"flatpack.checks"}
