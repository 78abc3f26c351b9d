"""A site to be asked by a checker that knows only the description of the API.

One public unit with all that can be read of it, a draft, and a token, which is printed. Into an
empty database: `python -m tests.api.small_site`.
"""
import os
import tempfile
from pathlib import Path

import django

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "core.settings")
django.setup()

from core.accounts.services.api_tokens import issue_token  # noqa: E402
from teardowns.models import Unit  # noqa: E402
from tests.core.policy_world import world_in  # noqa: E402
from tests.handing_in import with_plate  # noqa: E402


def main():
    world = world_in("published", Path(tempfile.mkdtemp()))
    owner = world.people["owner"]
    with_plate(Unit.objects.create(contributor=owner, title="Hallborn HB-20"), owner)
    _, secret = issue_token(owner=owner, name="checker", scopes=("read", "contribute"), days=1)
    print(secret)


if __name__ == "__main__":
    main()
