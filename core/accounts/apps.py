from django.apps import AppConfig


class AccountsConfig(AppConfig):
    name = "core.accounts"
    label = "accounts"

    def ready(self):
        from core.accounts import sign_in_lines, signals  # noqa: F401  (receivers)
        from core.accounts.erasures import register_erasures

        register_erasures()
