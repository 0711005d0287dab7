"""The addresses of people and workshops."""

from django.urls import path

from buildlog.workshops import views

app_name = "people"
urlpatterns = [
    path("sign-in/", views.sign_in, name="sign-in"),
    path("sign-out/", views.sign_out, name="sign-out"),
    path("units/", views.units, name="units"),
    path("account/", views.account, name="account"),
    path("first-owner/", views.first_owner, name="first-owner"),
    path("invitations/<str:secret>/", views.invitation, name="invitation"),
    path("new-workshop/", views.new_workshop, name="new-workshop"),
    path("workshops/<slug:workshop>/", views.workshop, name="workshop"),
    path("workshops/<slug:workshop>/invite/", views.invite, name="invite"),
    path("workshops/<slug:workshop>/members/", views.change_member, name="change-member"),
    path("workshops/<slug:workshop>/rename/", views.rename, name="rename"),
    path("workshops/<slug:workshop>/leave/", views.leave, name="leave"),
]
