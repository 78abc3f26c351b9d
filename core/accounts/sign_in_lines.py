"""A line of the log for each sign-in, with what it was done by, and for each that failed.

A person is a number there, as in the lines about requests. Nothing that was typed is written: a
password is often typed where the name belongs.
"""
import logging

from allauth.mfa.signals import authentication_failed, authenticator_used
from django.contrib.auth.signals import user_logged_in, user_logged_out, user_login_failed
from django.dispatch import receiver

log = logging.getLogger("core.sign_in")


@receiver(user_logged_in)
def note_sign_in(sender, user, **kwargs):
    log.info("Somebody signed in.", extra={"user": user.pk})


@receiver(user_logged_out)
def note_sign_out(sender, user, **kwargs):
    if user is not None:
        log.info("Somebody signed out.", extra={"user": user.pk})


@receiver(user_login_failed)
def note_wrong_password(sender, **kwargs):
    log.warning("A name and a password did not fit.")


@receiver(authenticator_used)
def note_factor(sender, user, authenticator, **kwargs):
    log.info("A second factor was shown: %s.", authenticator.type, extra={"user": user.pk})


@receiver(authentication_failed)
def note_wrong_code(sender, user, authenticator, **kwargs):
    log.warning("A second factor was wrong: %s.", authenticator.type, extra={"user": user.pk})
