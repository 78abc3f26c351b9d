"""Every address of the site."""
from django.contrib.auth import views as auth_views
from django.urls import include, path

account_urls = [
    path("sign-in/", auth_views.LoginView.as_view(template_name="core/sign_in.html"),
         name="sign_in"),
    path("sign-out/", auth_views.LogoutView.as_view(), name="sign_out"),
]

urlpatterns = [
    path("", include(account_urls)),
    path("", include("teardowns.urls")),
]
