"""Passwords that would be tried here first."""
import pytest
from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError

from core.accounts.models import User

SOMEBODY = User(username="copperwinding", email="somebody@cast.example")


@pytest.mark.parametrize("password", [
    "elevenchars", "qwertyuiop[]", "copperwinding1", "somebody@cast.example", "Underplate2026",
    "chargerteardown", "abcdefghijklm", "987654321098", "zzzzzzzzzzzzzz", "121212121212"])
def test_a_weak_password_is_refused(password):
    with pytest.raises(ValidationError):
        validate_password(password, SOMEBODY)


@pytest.mark.parametrize("password", [
    "four plain words here", "correct fuse battery", "my charger hums at night", "Tr0ub4dor&3xyz",
    "\u706b\u6c34\u6728\u91d1\u571f\u65e5\u6708\u706b\u6c34\u6728\u5c71\u5ddd"])
def test_another_is_taken(password):
    validate_password(password, SOMEBODY)
