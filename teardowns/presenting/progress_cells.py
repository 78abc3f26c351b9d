"""A row of cells, one for each thing asked for, those done first."""
from __future__ import annotations

GAP = 1.2                        # % between two cells


def progress_cells(done: int, total: int) -> list[dict[str, str]]:
    """Where each cell stands in a drawing as wide as its place, in %; none where none is asked."""
    if not total:
        return []
    width = 100 / total
    return [{"x": f"{i * width + GAP / 2:.2f}%", "width": f"{width - GAP:.2f}%",
             "cls": "done" if i < done else "todo"} for i in range(total)]
