"""Pieces of stock have marks, which are unique with those of parts, joints and calculations."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("builds", "0002_calculations")]

    operations = [
        migrations.RemoveConstraint(model_name="record", name="mark_once_in_build"),
        migrations.AddConstraint(
            model_name="record",
            constraint=models.UniqueConstraint(
                condition=models.Q(("kind__in", ("component", "joint", "calculation", "stock"))),
                fields=("build", "key"),
                name="mark_once_in_build",
            ),
        ),
    ]
