"""The recipe for continuous integration: every step of it is run, as it stands in the handbook, on a small repository.

What is uploaded is held against SARIF 2.1.0 by ``pydantic_sarif``, which is generated from the standard's own schema (OASIS).
"""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any, Final

import pytest
import yaml
from pydantic_sarif.model import StaticAnalysisResultsFormatSarifVersion210JsonSchema as SarifLog

ROOT: Final = Path(__file__).parents[1]
PAGE: Final = (ROOT / "tabforge" / "handbook" / "ci.md").read_text(encoding="utf-8")
WORKFLOW, HOOKS_USED = (yaml.safe_load(block) for block in re.findall(r"```yaml\n(.*?)```", PAGE, re.DOTALL))
STEPS: Final[list[dict[str, Any]]] = WORKFLOW["jobs"]["studies"]["steps"]
HOOKS: Final[list[dict[str, Any]]] = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))

STUDY: Final = """\
title  Slip rope
scale  C3 major

run "Steps"
  layout  position 2
  path    up
  rhythm  q
"""
WRONG: Final = STUDY.replace("scale  C3 major", "scale  C3 majr")
MANIFEST: Final = 'book = 1\ntitle = "Slip"\n\n[[chapters]]\ntitle = "One"\n\n[[chapters.studies]]\nfile = "rope.riff"\n'


def shell(command: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """A command as a workflow runs it: in bash that stops at the first failure, with the tabforge of this Python."""
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    run = ["bash", "--noprofile", "--norc", "-eo", "pipefail", "-c", command]
    return subprocess.run(run, cwd=folder, env={**os.environ, "PATH": path}, capture_output=True, text=True, timeout=120, check=False)


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    """Studies, a book and exports as a teacher keeps them."""
    for folder in ("studies", "book"):
        (tmp_path / folder).mkdir()
        (tmp_path / folder / "rope.riff").write_text(STUDY, encoding="utf-8")
    (tmp_path / "book" / "book.toml").write_text(MANIFEST, encoding="utf-8")
    assert shell("tabforge tidy studies book && tabforge build studies --into exports", tmp_path).returncode == 0
    return tmp_path


def runs() -> list[str]:
    """The commands of the workflow but for the one that installs."""
    return [step["run"] for step in STEPS if "run" in step and step["name"] != "Install"]


def test_every_step_of_the_workflow_runs_and_leaves_what_is_uploaded(repository: Path) -> None:
    for command in runs():
        done = shell(command, repository)
        assert done.returncode == 0, (command, done.stdout, done.stderr)
    SarifLog.model_validate(json.loads((repository / "studies.sarif").read_text(encoding="utf-8")))
    kept = next(step["with"]["path"] for step in STEPS if "upload-artifact" in step.get("uses", "")).split()
    for pattern in kept:
        assert list(repository.glob(pattern)), f"nothing is kept by {pattern}"
    cached = next(step["with"]["path"] for step in STEPS if "cache" in step.get("uses", ""))
    assert (repository / cached).is_dir()


def test_a_wrong_study_ends_the_check_and_is_told_beside_its_line(repository: Path) -> None:
    (repository / "studies" / "rope.riff").write_text(WRONG, encoding="utf-8")
    assert shell(runs()[0], repository).returncode == 1
    log = json.loads((repository / "studies.sarif").read_text(encoding="utf-8"))
    SarifLog.model_validate(log)
    (result,) = log["runs"][0]["results"]
    place = result["locations"][0]["physicalLocation"]
    assert (place["artifactLocation"]["uri"], place["region"]["startLine"]) == ("studies/rope.riff", 2)


@pytest.mark.parametrize(
    ("old", "new", "step"),
    [("scale    C3 major", "scale  C3 major", "tidy"), ("C3 major", "D3 major", "build")],
)
def test_what_would_change_ends_with_its_own_code(repository: Path, old: str, new: str, step: str) -> None:
    study = repository / "studies" / "rope.riff"
    text = study.read_text(encoding="utf-8")
    assert old in text
    study.write_text(text.replace(old, new), encoding="utf-8")
    command = next(each for each in runs() if each.startswith(f"tabforge {step}"))
    assert shell(command, repository).returncode == 3


def test_the_second_build_of_the_book_makes_nothing(repository: Path) -> None:
    command = next(each for each in runs() if each.startswith("tabforge book"))
    assert shell(command, repository).returncode == 0
    assert shell(f"{command} --check", repository).returncode == 0
    (repository / "book" / "rope.riff").write_text(STUDY.replace("C3", "D3"), encoding="utf-8")
    assert shell(f"{command} --check", repository).returncode == 3


def test_the_extra_that_is_installed_exists() -> None:
    import tomllib

    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    install = next(step["run"] for step in STEPS if step.get("name") == "Install")
    (extra,) = re.findall(r"tabforge\[(\w+)\]", install)
    assert extra in project["optional-dependencies"]


def test_the_hooks_are_a_manifest_as_pre_commit_reads_it() -> None:
    from pre_commit.clientlib import load_manifest

    assert [hook["id"] for hook in load_manifest(str(ROOT / ".pre-commit-hooks.yaml"))] == [hook["id"] for hook in HOOKS]


def test_the_hooks_of_the_handbook_are_offered() -> None:
    used = {hook["id"] for repo in HOOKS_USED["repos"] for hook in repo["hooks"]}
    assert used == {hook["id"] for hook in HOOKS}


@pytest.mark.parametrize("hook", HOOKS, ids=lambda hook: hook["id"])
def test_a_hook_takes_the_files_of_a_commit(hook: dict[str, Any], repository: Path) -> None:
    assert hook["language"] == "python"
    files = [path for path in ("studies/rope.riff", "book/rope.riff", "book/book.toml", "a.riffle") if re.search(hook["files"], path)]
    assert files == ["studies/rope.riff", "book/rope.riff"]
    assert shell(f"{hook['entry']} {' '.join(files)}", repository).returncode == 0
    (repository / "studies" / "rope.riff").write_text(WRONG, encoding="utf-8")
    done = shell(f"{hook['entry']} {' '.join(files)}", repository)
    changed = (repository / "studies" / "rope.riff").read_text(encoding="utf-8") != WRONG
    assert done.returncode == 1 or changed, "the commit is held up"
