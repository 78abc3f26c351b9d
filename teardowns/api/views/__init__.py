"""The operations, in the order in which the documentation lists them."""
from . import (  # noqa: F401, I001
    method,  # first: it says where to begin
    units,
    lists,
    files,
    library,
    talk,
    bench,
    bench_rows,
    bench_files,
    proposals,
)
