"""The addresses of people and workshops."""

from django.urls import path

from buildlog.workshops import views

app_name = "people"
urlpatterns = [
    path("sign-in/", views.sign_in, name="sign-in"),
]
