"""Everything that the site holds of one person, as one document."""
from django.apps import apps
from django.core import serializers
from django.db.models import ForeignKey, OneToOneField
from django.utils import timezone

from core.accounts.models import User

SECRETS = {"password", "digest", "data", "session_key"}       # of no use but to an impostor
SECRETS_OF = {"accounts.user", "accounts.apitoken", "mfa.authenticator",
              "usersessions.usersession"}


def export_account(*, person):
    """The account and, model by model, every row that names the person, in plain values."""
    return {
        "format": "underplate-account-1",
        "made_at": timezone.now().isoformat(),
        "account": _rows(User, User.objects.filter(pk=person.pk), person)[0],
        "records": dict(_records(person)),
    }


def _records(person):
    for model in sorted(apps.get_models(), key=lambda model: model._meta.label_lower):
        for field in _links(model):
            rows = _rows(model, model._base_manager.filter(**{field.name: person.pk}), person)
            if rows:
                yield f"{model._meta.label_lower} by {field.name}", rows


def _links(model):
    return [field for field in model._meta.get_fields()
            if isinstance(field, ForeignKey | OneToOneField) and field.related_model is User]


def _rows(model, found, person):
    others = {field.name for field in _links(model)}
    label = model._meta.label_lower
    hidden = SECRETS if label in SECRETS_OF else set()
    return [
        {"id": row["pk"], **{
            name: value for name, value in row["fields"].items()
            if name not in hidden and not (name in others and value != person.pk)}}
        for row in serializers.serialize("python", found.order_by("pk"))]


