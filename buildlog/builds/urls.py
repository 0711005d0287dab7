"""The addresses of builds."""

from django.urls import path

from buildlog.builds import views

app_name = "builds"
urlpatterns = [
    path("<str:number>/", views.side, name="check"),
    path("<str:number>/joints/<str:mark>/", views.joint, name="joint"),
    path("<str:number>/<str:side>/", views.side, name="side"),
]
