"""Alice's photo: a drawn board, 400 by 300 pixels, taken in as any file is."""
import pytest

from teardowns.services.receive_photo import receive_photo
from tests.photographs import photograph


@pytest.fixture
def photo(alice, unit, tmp_path):
    received = receive_photo(contributor=alice, unit_pk=unit.pk, name="board.png",
                             path=photograph(tmp_path, "board.png"), stage="solder_side")
    return received.photo
