"""The example package, built and installed beside flatpack in a clean environment, gives a family.

The environment sees no checkout; the libraries that flatpack needs are lent by the one that runs
the tests.
"""

from __future__ import annotations

import os
import subprocess
import sys
import sysconfig
import venv
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PACKAGE = Path(__file__).parent / "pea-trellis"
CLEAN = {k: v for k, v in os.environ.items() if not k.startswith(("PYTHON", "PIP_"))}


def ran(*command: str, folder: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        command, cwd=folder, env=CLEAN, capture_output=True, text=True, timeout=120, check=False
    )


@pytest.fixture(scope="module")
def flatpack(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The command in an environment that holds just flatpack and the example package."""
    folder = tmp_path_factory.mktemp("clean")
    for source in (ROOT, PACKAGE):
        build = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)]
        subprocess.run(build, cwd=source, check=True, capture_output=True)
    place = folder / "env"
    venv.create(place, with_pip=False)
    scripts = place / ("Scripts" if os.name == "nt" else "bin")
    wheels = [str(wheel) for wheel in sorted(folder.glob("*.whl"))]
    pip = [sys.executable, "-m", "pip", "--python", str(place), "install", "--no-deps",
           "--no-index", "--disable-pip-version-check", *wheels]  # fmt: skip
    subprocess.run(pip, check=True, capture_output=True, env=CLEAN)
    [packages] = [p for p in place.rglob("site-packages") if p.is_dir()]
    lent = sysconfig.get_paths()["purelib"]
    (packages / "lent.pth").write_text(f"{lent}\n", encoding="utf-8")
    where = ran(str(scripts / "python"), "-c", "import flatpack; print(flatpack.__file__)",
                folder=folder)  # fmt: skip
    assert where.stdout.strip().startswith(str(packages))
    return scripts / "flatpack"


def test_its_family_is_listed_with_where_it_comes_from(flatpack: Path, tmp_path: Path) -> None:
    done = ran(str(flatpack), "list", "families", folder=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    [row] = [
        line.split() for line in done.stdout.splitlines() if line.strip().startswith("trellis")
    ]
    assert row == ["trellis", "Trellis", "for", "peas", "pea-trellis", "0.3.1"]
    assert "flatpack" in done.stdout.partition("bench")[2].partition("\n")[0]


def test_new_check_and_draw(flatpack: Path, tmp_path: Path) -> None:
    assert ran(str(flatpack), "new", "trellis", "pea.toml", folder=tmp_path).returncode == 0
    checked = ran(str(flatpack), "check", "pea.toml", folder=tmp_path)
    assert (checked.returncode, checked.stderr) == (0, "")
    assert "0 faults" in checked.stdout
    drawn = ran(str(flatpack), "draw", "pea.toml", "--out", "drawn", folder=tmp_path)
    assert (drawn.returncode, drawn.stderr) == (0, "")
    names = {path.name for path in (tmp_path / "drawn" / "parts").glob("*.dxf")}
    assert names == {"A-L-rail-left.dxf", "A-R-rail-right.dxf", "B-rung.dxf"}
    assert ran(str(flatpack), "schema", "trellis", folder=tmp_path).returncode == 0


def test_its_own_conflict_is_told(flatpack: Path, tmp_path: Path) -> None:
    text = 'family = "trellis"\nheight = 500\nrungs = 9\n'
    (tmp_path / "pea.toml").write_text(text, encoding="utf-8")
    done = ran(str(flatpack), "check", "pea.toml", folder=tmp_path)
    assert done.returncode == 2
    assert "pea.toml:3: rungs: more rungs than fit; found 9; allowed: at most 7" in done.stderr
