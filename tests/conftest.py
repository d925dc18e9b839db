"""Flags of the test run: ``--regen`` rewrites stored results, ``--long`` adds the long property tests."""

from __future__ import annotations

import os

import pytest
from hypothesis import settings

from tests.browser import browser, opened  # noqa: F401  # fixtures for every test

# What the check of a commit finds must be found again by whoever looks, so there the cases are always the same; elsewhere they are new.
settings.register_profile("same", derandomize=True, database=None)
if os.environ.get("CI"):
    settings.load_profile("same")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--regen", action="store_true", help="rewrite stored results; read them before you commit")
    parser.addoption("--long", action="store_true", help="also run the tests marked long")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if config.getoption("--long"):
        return
    skip = pytest.mark.skip(reason="runs with --long")
    for item in items:
        if item.get_closest_marker("long"):
            item.add_marker(skip)


@pytest.fixture
def regen(request: pytest.FixtureRequest) -> bool:
    """Whether stored results are to be rewritten instead of compared."""
    return bool(request.config.getoption("--regen"))
