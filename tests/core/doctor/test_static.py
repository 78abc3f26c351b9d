from core.doctor import static
from core.package_files import PackageFilesFinder
from tests.core.doctor.found import bad


def test_files_that_are_not_collected_are_a_fault(monkeypatch):
    class Kept:
        hashed_files = {"css/base.css": "css/base.1.css"}

    monkeypatch.setattr(static, "staticfiles_storage", Kept)
    monkeypatch.setattr(static, "_names", lambda: ["css/base.css", "js/new.js"])
    assert "1 static files are not collected, js/new.js" in bad("static")
    monkeypatch.setattr(static, "_names", lambda: ["css/base.css"])
    assert bad("static") == ""


def test_files_of_packages_are_looked_for_where_they_are_collected():
    names = static._names()
    for name, store in PackageFilesFinder().list([]):
        assert f"{store.prefix}/{name}" in names and name not in names
