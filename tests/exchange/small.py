"""Small documents for tests: only the rows that a test speaks of."""
from teardowns.exchange.document import FORM, read_document


def small(**lists):
    """A full document with these lists; rows get a key of their own where they have none."""
    keyed = {
        name: rows if name in ("unit", "parts") else [
            {"key": f"r{index}"} | row for index, row in enumerate(rows)]
        for name, rows in lists.items()
    }
    return read_document({"form": FORM, "unit": {"title": "Lamplit L5"}} | keyed)
