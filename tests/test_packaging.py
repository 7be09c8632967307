"""The wheel holds all that flatpack needs, and the README's commands are the ones that CI runs."""

from __future__ import annotations

import os
import runpy
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
README = (ROOT / "README.md").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)]
    subprocess.run(command, cwd=ROOT, check=True, capture_output=True)
    [made] = folder.glob("*.whl")
    return made


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel unpacked where nothing of the checkout is in reach."""
    folder = tmp_path_factory.mktemp("installed")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder)
    return folder


def in_repository(folder: str, ending: str = "") -> set[str]:
    """Files of a folder that git keeps, relative to it."""
    command = ["git", "ls-files", folder]
    listed = subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True).stdout
    names = [name for name in listed.splitlines() if (ROOT / name).exists()]
    return {n.removeprefix(f"{folder}/") for n in names if n.endswith(ending)}


def test_wheel_holds_code_profiles_and_templates(wheel: Path) -> None:
    names = zipfile.ZipFile(wheel).namelist()
    within = {name.removeprefix("flatpack/") for name in names if name.startswith("flatpack/")}
    profiles = {f"_profiles/{name}" for name in in_repository("profiles", ".toml")}
    assert profiles
    assert within >= profiles | in_repository("flatpack")
    outside = {name.partition("/")[0] for name in names} - {"flatpack"}
    assert [name for name in outside if not name.endswith(".dist-info")] == []


def run(installed: Path, folder: Path, *command: str) -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "PYTHONPATH": str(installed), "PYTHONDONTWRITEBYTECODE": "1"}
    return subprocess.run(
        [sys.executable, *command],
        cwd=folder,
        env=environment,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )


def test_installed_package_is_used_and_finds_its_profiles(installed: Path, tmp_path: Path) -> None:
    where = run(installed, tmp_path, "-c", "import flatpack; print(flatpack.__file__)")
    assert where.stdout.strip() == str(installed / "flatpack" / "__init__.py")
    listed = run(installed, tmp_path, "-m", "flatpack", "list", "boards")
    assert (listed.returncode, listed.stderr) == (0, "")
    for board in in_repository("profiles/boards", ".toml"):
        assert f"  {board.removesuffix('.toml')} " in listed.stdout


def test_script_is_the_module(installed: Path) -> None:
    assert PROJECT["scripts"] == {"flatpack": "flatpack.__main__:program"}
    points = next(installed.glob("*.dist-info/entry_points.txt")).read_text(encoding="utf-8")
    assert "flatpack = flatpack.__main__:program" in points


def test_licence_is_in_the_wheel(installed: Path) -> None:
    [found] = installed.glob("*.dist-info/licenses/LICENSE")
    assert found.read_bytes() == (ROOT / "LICENSE").read_bytes()


def test_readme_has_two_commands_and_ci_runs_them() -> None:
    command_under = runpy.run_path(str(ROOT / ".ci" / "readme_command.py"))["command_under"]
    ci = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    assert README.count("```sh\n") == 2
    for heading in ("Set up and draw", "Run the tests"):
        assert f"command_under '{heading}'" in ci
        assert command_under(README, heading).startswith("python3 -m venv .venv && ")
    assert " draw profiles/pieces/" in command_under(README, "Set up and draw")
    assert " -m pytest" in command_under(README, "Run the tests")
    with pytest.raises(LookupError):
        command_under(README, "Licence")


def test_example_of_the_readme_is_there() -> None:
    command = README.partition(" draw profiles/pieces/")[2]
    assert (ROOT / "profiles" / "pieces" / command.split()[0]).is_file()
