"""What a public name may look like: told apart at a glance, and never taken for somebody else."""
import re

from django.core.exceptions import ValidationError

SHAPE = re.compile(r"[A-Za-z0-9](?:[A-Za-z0-9._-]{0,28}[A-Za-z0-9])")
RESERVED = {
    "admin", "administrator", "moderator", "reviewer", "contributor", "editor", "staff", "support",
    "system", "underplate", "root", "anonymous", "nobody", "somebody", "everybody", "me",
}


def validate_public_name(name):
    """Letters from other scripts that look alike would let one person pass for another."""
    if not SHAPE.fullmatch(name):
        raise ValidationError(
            "A user name has 2 to 30 letters from a to z, digits, dots, hyphens and underscores, "
            "and begins and ends with a letter or a digit.")
    if name.lower() in RESERVED or name.lower().startswith("former-"):
        raise ValidationError("This name would be taken for an office of the site. Choose another.")


VALIDATORS = [validate_public_name]
