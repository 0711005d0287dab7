"""The addresses of builds, under `workshops/<workshop>/builds/<number>/`."""

from django.urls import path

from buildlog.builds.views import (
    changes,
    check,
    component,
    holes,
    joint,
    joint_parts,
    joints,
    keeping,
    order,
    part_changes,
    parts,
    schedules,
)

app_name = "builds"
urlpatterns = [
    path("", check.check, name="check"),
    path("parts/", parts.parts, name="parts"),
    path("parts/<str:mark>/", component.component, name="component"),
    path("parts/<str:mark>/line/", part_changes.change_line, name="part-line"),
    path("parts/<str:mark>/state/", part_changes.set_state, name="part-state"),
    path("parts/<str:mark>/move/", part_changes.move, name="part-move"),
    path("parts/<str:mark>/copy/", part_changes.duplicate_part, name="part-copy"),
    path("parts/<str:mark>/remove/", part_changes.remove_part, name="part-remove"),
    path("parts/<str:mark>/<str:kind>s/", component.features, name="features"),
    path("parts/<str:mark>/<str:kind>s/<str:key>/", component.feature, name="feature"),
    path("joints/", joints.joints, name="joints"),
    path("joints/<str:mark>/", joint.joint, name="joint"),
    path("joints/<str:mark>/others/", joint.others, name="joint-others"),
    path("joints/<str:mark>/change/", joint_parts.change, name="joint-change"),
    path("joints/<str:mark>/places/", joint_parts.places, name="joint-places"),
    path("joints/<str:mark>/stack/", joint_parts.order, name="joint-order"),
    path("joints/<str:mark>/stack/<int:index>/", joint_parts.member, name="joint-member"),
    path("joints/<str:mark>/copy/", joints.copy, name="joint-copy"),
    path("joints/<str:mark>/remove/", joints.take_out, name="joint-remove"),
    path("mend/", check.mend, name="mend"),
    path("holes/", holes.holes, name="holes"),
    path("cut/", schedules.cut, name="cut"),
    path("order/", order.order, name="order"),
    path("fasteners/", schedules.fasteners, name="fasteners"),
    path("buying/", schedules.buying, name="buying"),
    path("paper/", schedules.paper, name="paper"),
    path("keeping/", keeping.keeping, name="keeping"),
    path("keeping/build.json", keeping.as_file, name="as-file"),
    path("keeping/build.zip", keeping.as_archive, name="as-archive"),
    path("undo/", changes.take_back, name="undo"),
    path("redo/", changes.do_again, name="redo"),
]
