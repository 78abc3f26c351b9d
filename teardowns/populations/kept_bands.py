"""Bands worked out lately: a fit to 100 000 units takes longer than all else of a page."""
from __future__ import annotations

from hashlib import blake2b

import numpy as np

from .band import Band, prediction_band

MOST = 256               # bands of one process, some 200 bytes each
_kept: dict[bytes, Band | str] = {}


def kept_band(x: np.ndarray, y: np.ndarray) -> Band | str:
    """`prediction_band`, remembered by the numbers that it is made of."""
    digest = blake2b(x.tobytes() + y.tobytes(), digest_size=16).digest()
    found = _kept.get(digest)
    if found is None:
        found = prediction_band(x, y)
        while len(_kept) >= MOST:
            _kept.pop(next(iter(_kept)), None)
        _kept[digest] = found
    return found
