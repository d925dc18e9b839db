"""Sound as numbers: mono, ``RATE`` samples a second, full scale from -1 to 1."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, TypeAlias

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

Samples: TypeAlias = "NDArray[np.float32]"
"""Sound that is kept or mixed."""

Exact: TypeAlias = "NDArray[np.float64]"
"""Sound while it is computed."""

RATE: Final = 44_100
"""Samples a second."""
