"""Fields and digests of passwords."""
import re

import pytest

from core import settings as shipped


@pytest.mark.django_db
@pytest.mark.parametrize("path", ["/sign-in/", "/sign-up/"])
def test_each_hides_what_is_typed_and_lets_managers_fill_it(client, path):
    fields = re.findall(r"<input[^>]*name=\"[^\"]*password[^\"]*\"[^>]*>",
                        client.get(path).content.decode())
    assert fields
    for field in fields:
        assert 'type="password"' in field and 'autocomplete="off"' not in field
        assert "onpaste" not in field and "readonly" not in field


def test_passwords_are_digested_by_argon2id_alone():
    """Parameters are Django's, which are renewed with it and at the next sign-in."""
    from django.contrib.auth.hashers import Argon2PasswordHasher

    assert shipped.PASSWORD_HASHERS == ["django.contrib.auth.hashers.Argon2PasswordHasher"]
    assert Argon2PasswordHasher().encode("a b c d e f g", "salt of 16 chars").startswith(
        "argon2$argon2id$")
