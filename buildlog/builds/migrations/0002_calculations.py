"""Kept calculations: a kind of record with a longer name, whose marks are unique with those of the others."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("builds", "0001_builds_and_changes")]

    operations = [
        migrations.RemoveConstraint(model_name="record", name="mark_once_in_build"),
        migrations.AlterField(model_name="altered", name="kind", field=models.CharField(max_length=20)),
        migrations.AlterField(model_name="record", name="kind", field=models.CharField(max_length=20)),
        migrations.AddConstraint(
            model_name="record",
            constraint=models.UniqueConstraint(
                condition=models.Q(("kind__in", ("component", "joint", "calculation"))),
                fields=("build", "key"),
                name="mark_once_in_build",
            ),
        ),
    ]
