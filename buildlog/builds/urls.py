"""The addresses of builds, under `workshops/<workshop>/builds/<number>/`."""

from django.urls import path

from buildlog.builds.views import changes, check, holes, joints, order, parts, schedules

app_name = "builds"
urlpatterns = [
    path("", check.check, name="check"),
    path("parts/", parts.parts, name="parts"),
    path("joints/", joints.joints, name="joints"),
    path("joints/<str:mark>/", joints.joint, name="joint"),
    path("holes/", holes.holes, name="holes"),
    path("cut/", schedules.cut, name="cut"),
    path("order/", order.order, name="order"),
    path("fasteners/", schedules.fasteners, name="fasteners"),
    path("buying/", schedules.buying, name="buying"),
    path("paper/", schedules.paper, name="paper"),
    path("undo/", changes.take_back, name="undo"),
    path("redo/", changes.do_again, name="redo"),
]
