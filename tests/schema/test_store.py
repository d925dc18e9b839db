"""Which schemas there are, and that they come with the program however it is installed."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from tabforge import schema

ROOT = Path(__file__).parents[2]


def test_the_schemas_are_those_of_the_folder() -> None:
    assert schema.names() == sorted(path.name.removesuffix(".schema.json") for path in (ROOT / "schemas").iterdir())
    assert "study" in schema.names()
    for name in schema.names():
        text = (ROOT / "schemas" / f"{name}.schema.json").read_text(encoding="utf-8")
        assert schema.text(name) == text
        assert schema.load(name) == json.loads(text)


@pytest.mark.parametrize("name", ["", "studies", "../pyproject", "study.schema.json"])
def test_another_name_is_refused(name: str) -> None:
    with pytest.raises(KeyError):
        schema.text(name)
    with pytest.raises(KeyError):
        schema.load(name)


@pytest.mark.long
def test_a_wheel_has_them_and_works_alone(tmp_path: Path) -> None:
    """Builds as an installer does, which may fetch the build tool; the wheel is then used away from the source tree."""
    source, site = tmp_path / "source", tmp_path / "site"
    ignored = shutil.ignore_patterns(".*", "build", "*.egg-info", "exports", "tests", "__pycache__")
    shutil.copytree(ROOT, source, ignore=ignored)
    shutil.copy(ROOT / ".licence", source)
    run = [sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--wheel-dir", str(tmp_path), str(source)]
    subprocess.run(run, check=True, timeout=300, cwd=tmp_path)
    (wheel,) = tmp_path.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(site)
    program = "import tabforge.schema as s; print(s.__file__); print(s.names()); print(s.guard({'study': 1, 'blocks': []}, None))"
    alone = {**os.environ, "PYTHONPATH": str(site)}
    done = subprocess.run([sys.executable, "-c", program], check=True, timeout=60, cwd=tmp_path, capture_output=True, text=True, env=alone)
    where, names, found = done.stdout.splitlines()
    assert Path(where).is_relative_to(site)
    assert names == str(schema.names())
    assert found == "()"
