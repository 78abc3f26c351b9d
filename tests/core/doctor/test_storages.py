from core.doctor import storages
from tests.core.doctor.found import bad


def test_storages_that_give_back_are_fine_and_nothing_is_left(tmp_path):
    assert bad("storages") == ""
    assert not [path for path in tmp_path.rglob("*") if path.is_file()]


def test_one_that_cannot_be_written_to_is_a_fault(settings, tmp_path):
    (tmp_path / "pictures").write_text("a file where a folder should be")
    assert bad("storages").startswith("The storage “pictures” fails: ")


def test_one_that_gives_back_something_else_is_a_fault(monkeypatch):
    monkeypatch.setattr(storages.secrets, "token_bytes", lambda size: b"x" * size)
    kept = storages.storages["originals"]
    monkeypatch.setattr(type(kept), "_save", lambda self, name, content: _other(self, name))
    assert "gives back something else" in bad("storages")


def _other(store, name):
    from pathlib import Path

    place = Path(store.path(name))
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_bytes(b"y")
    return name
