"""The secret key of a site whose operator set none."""
from core.secret import _store_once, local_secret_key


def test_it_is_made_once_and_kept(tmp_path):
    key = local_secret_key(tmp_path / "data")
    assert len(key) == 64 and local_secret_key(tmp_path / "data") == key


def test_only_its_owner_may_read_it(tmp_path):
    local_secret_key(tmp_path)
    assert (tmp_path / "secret-key").stat().st_mode & 0o777 == 0o600


def test_the_first_of_two_starters_wins(tmp_path):
    _store_once(tmp_path / "secret-key", "first")
    _store_once(tmp_path / "secret-key", "second")
    assert local_secret_key(tmp_path) == "first"
    assert [p.name for p in tmp_path.iterdir()] == ["secret-key"]
