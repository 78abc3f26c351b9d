"""An index as bytes and back: quicker by far than to make it of its rows again."""
from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from hashlib import sha256
from io import BytesIO
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from teardowns.browsing.facets import Facet
from teardowns.browsing.index import Index
from teardowns.browsing.orders import Order
from teardowns.browsing.values import Few, Many, Values

Arrays = Mapping[str, NDArray[Any]]
HERE = Path(__file__).parent


def form_of(facets: Iterable[Facet], columns: Mapping[str, str], *sources: Path) -> str:
    """Names the way in which indexes are made: one that was made in another is not to be read.

    sources : of what facets and rows are read by, beside those of this room
    """
    told = [[facet.code, facet.column, facet.has_many, *facet.values] for facet in facets]
    mark = sha256(json.dumps([told, dict(columns), np.__version__]).encode())
    for path in (*sorted(HERE.glob("*.py")), *sources):
        mark.update(path.read_bytes())
    return mark.hexdigest()


def pack_index(index: Index) -> bytes:
    arrays: dict[str, NDArray[Any]] = {"pks": index.pks, "listed": index.listed}
    for code, values in index.values.items():
        arrays |= {f"{code}.{name}": each for name, each in _parts(values).items()}
    for name, order in index.orders.items():
        arrays[f"order.{name}.keys"] = order.keys.real
        arrays[f"order.{name}.slots"] = order.slots.astype(np.int32)
    packed = BytesIO()
    np.savez(packed, allow_pickle=False, **arrays)
    return packed.getvalue()


def unpack_index(packed: bytes | memoryview, facets: Iterable[Facet],
                 columns: Mapping[str, str]) -> Index:
    """The same index. facets, columns : those that it was made with"""
    with np.load(BytesIO(packed), allow_pickle=False) as arrays:
        pks = arrays["pks"]
        return Index(pks, {pk: slot for slot, pk in enumerate(pks.tolist())}, arrays["listed"],
                     {facet.code: _values(facet, arrays) for facet in facets},
                     {name: _order(name, arrays, pks) for name in columns}, columns)


def _parts(values):
    names = {"names": _as_bytes(values.names)}
    if isinstance(values, Few):
        return names | {"sets": values.sets}
    return names | {"slots": values.slots.astype(np.int32), "codes": values.codes.astype(np.int32),
            "starts": values.starts.astype(np.int32), "alphabet": values.alphabet}


def _values(facet: Facet, arrays: Arrays) -> Values:
    names = _as_names(arrays[f"{facet.code}.names"])
    if not facet.has_many:
        return Few(facet, names, arrays[f"{facet.code}.sets"])
    slots, codes, starts, alphabet = (
        arrays[f"{facet.code}.{name}"].astype(np.int64)
        for name in ("slots", "codes", "starts", "alphabet"))
    return Many(facet, names, slots, codes, starts, alphabet)


def _order(name: str, arrays: Arrays, pks: NDArray[np.int64]) -> Order:
    slots = arrays[f"order.{name}.slots"].astype(np.int64)
    keys = np.empty(len(slots), np.complex128)
    keys.real, keys.imag = arrays[f"order.{name}.keys"], -pks[slots]
    return Order(keys, slots)


def _as_bytes(names):
    return np.frombuffer(json.dumps(names).encode(), np.uint8)


def _as_names(packed):
    return tuple(json.loads(packed.tobytes()))
