from django.apps import AppConfig


class AccountsConfig(AppConfig):
    name = "core.accounts"
    label = "accounts"
