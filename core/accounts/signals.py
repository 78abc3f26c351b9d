"""What follows from events of signing in, confirming an address and second factors."""
from allauth.account.adapter import get_adapter
from allauth.account.models import EmailAddress
from allauth.account.signals import password_reset
from allauth.account.signals import user_logged_in as signed_in_by_form
from allauth.mfa.models import Authenticator
from allauth.mfa.signals import authenticator_added, authenticator_removed, authenticator_used
from django.contrib.auth.signals import user_logged_in
from django.core.management import call_command
from django.db.models.signals import post_delete, post_migrate, post_save
from django.dispatch import receiver
from django.utils import timezone

from core.accounts import devices, second_factor, sessions
from core.accounts.models import User


@receiver([post_save, post_delete], sender=EmailAddress)
def keep_verified(sender, instance, **kwargs):
    """One column of the account says whether its address is confirmed: no query per page."""
    is_confirmed = EmailAddress.objects.filter(
        user_id=instance.user_id, verified=True).exists()
    people = User.objects.filter(pk=instance.user_id, email_verified_at__isnull=is_confirmed)
    people.update(email_verified_at=timezone.now() if is_confirmed else None)


@receiver(user_logged_in)
def start_session(sender, request, **kwargs):
    sessions.start(request.session)


@receiver(signed_in_by_form)
def tell_of_new_browser(sender, request, user, response, **kwargs):
    known = devices.browser_known_to(request, user.username)
    if not known and getattr(request, "signed_in_before", False):
        get_adapter(request).send_notification_mail("account/email/new_browser", user)
    devices.remember(request, response, user)


@receiver(authenticator_added)
def count_set_up(sender, request, authenticator, **kwargs):
    if authenticator.type in second_factor.FACTORS and request.user.is_authenticated:
        second_factor.note_passed(request, authenticator)
        sessions.renew_key(request)


@receiver(authenticator_used)
def renew_when_trusted(sender, request, reauthenticated=False, **kwargs):
    if reauthenticated:
        sessions.renew_key(request)


@receiver(authenticator_removed)
def end_what_rested_on_it(sender, request, user, authenticator, **kwargs):
    """Other sessions may have been opened with it; this one forgets it with the last."""
    if authenticator.type == Authenticator.Type.RECOVERY_CODES:
        return
    sessions.end_sessions(user, but=request.session.session_key)
    if not second_factor.has_one(user):
        second_factor.forget(request)


@receiver(password_reset)
def end_all_sessions(sender, user, **kwargs):
    sessions.end_sessions(user)


@receiver(post_migrate)
def make_cache_table(sender, using, verbosity=0, **kwargs):
    """Rate limits are counted in a table that all processes share."""
    if sender.label == "accounts":
        call_command("createcachetable", database=using, verbosity=0)
