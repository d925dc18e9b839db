"""The success path is light: that is what it is for. How fast it is, ``tests/bench/bench_guard.py`` measures."""

from __future__ import annotations

import subprocess
import sys


def test_a_right_document_imports_no_library() -> None:
    program = (
        "import sys; from tabforge import schema; "
        "assert schema.guard({'study': 1, 'blocks': []}, None) == (); "
        "assert not {'jsonschema', 'referencing', 'difflib'} & set(sys.modules); "
        "assert not [name for name in sys.modules if name.startswith('tabforge.schema.about')]"
    )
    subprocess.run([sys.executable, "-c", program], check=True, timeout=60)
