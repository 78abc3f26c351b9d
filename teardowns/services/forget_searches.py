"""What somebody looked for goes with the account.

Apart from `save_search`, for it is known from the start of every process, and that one brings the
search, the index and the arithmetic of both along.
"""
from core.accounts.models import User


def forget_searches(sender: type, person: User, **kwargs: object) -> None:
    """Theirs alone: all of them."""
    person.saved_searches.all().delete()
