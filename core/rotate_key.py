"""Sign and lock anew, with the key in force, what former keys signed and locked.

Sessions and links that were sent keep working while SECRET_KEY_FALLBACKS names the former key;
jobs in the queue do not, for the queue knows one key only, and so do they after this.
"""
from allauth.mfa.adapter import get_adapter
from allauth.mfa.models import Authenticator
from django.conf import settings
from django.db import transaction
from django_q import core_signing
from django_q.conf import Conf
from django_q.models import OrmQ
from django_q.signing import BadSignature, PickleSerializer, SignedPackage


def sign_jobs_anew() -> tuple[int, int]:
    """How many jobs were signed anew, and how many no key fits: those are left as they are."""
    signed = lost = 0
    for pk, payload in OrmQ.objects.values_list("pk", "payload").iterator():
        job, is_old = _opened(payload)
        if job is None:
            lost += 1
        elif is_old:
            signed += OrmQ.objects.filter(pk=pk).update(payload=SignedPackage.dumps(job))
    return signed, lost


def _opened(payload):
    for key in (Conf.SECRET_KEY, *settings.SECRET_KEY_FALLBACKS):
        try:
            job = core_signing.loads(payload, key=str(key), salt=Conf.PREFIX,
                                     serializer=PickleSerializer)
        except BadSignature:
            continue
        return job, key != Conf.SECRET_KEY
    return None, False


@transaction.atomic
def lock_second_factors_anew() -> int:
    """How many secrets of apps, and recovery codes, are locked with the key in force now."""
    box, locked = get_adapter(), 0
    for factor in Authenticator.objects.select_for_update().order_by("pk"):
        fields = [name for name in ("secret", "seed") if name in factor.data]
        for name in fields:
            factor.data[name] = box.encrypt(box.decrypt(factor.data[name]))
        if fields:
            factor.save(update_fields=["data"])
            locked += 1
    return locked
