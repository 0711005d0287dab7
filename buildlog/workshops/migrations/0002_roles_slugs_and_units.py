"""Roles, invitations, a slug for each workshop, the units of each person."""

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models
from django.utils.text import slugify


def give_slugs(apps, schema_editor):
    """Give each workshop the slug that its name makes, with a number where two would be alike."""
    taken = set()
    for workshop in apps.get_model("workshops", "Workshop").objects.order_by("pk"):
        base = slugify(workshop.name)[:50] or "workshop"
        slug, count = base, 1
        while slug in taken:
            count += 1
            slug = f"{base}-{count}"
        taken.add(slug)
        workshop.slug = slug
        workshop.save(update_fields=["slug"])


ROLES = [
    ("owner", "owner: everything, people and settings too"),
    ("maker", "maker: reads and changes builds"),
    ("viewer", "viewer: reads and prints"),
]


class Migration(migrations.Migration):
    dependencies = [("workshops", "0001_workshops_and_people")]

    operations = [
        migrations.AddField(
            "person",
            "units",
            models.CharField(choices=[("mm", "mm"), ("in", "in"), ("both", "both")], default="both", max_length=4),
        ),
        migrations.AddField("workshop", "habits", models.TextField(default="{}")),
        # Without an index, which PostgreSQL would find there already when the slug becomes unique.
        migrations.AddField("workshop", "slug", models.SlugField(max_length=60, null=True, db_index=False)),
        migrations.RunPython(give_slugs, migrations.RunPython.noop, elidable=True),
        migrations.AlterField("workshop", "slug", models.SlugField(max_length=60, unique=True)),
        # Whoever was in a workshop before there were roles could do everything there.
        migrations.AddField("membership", "role", models.CharField(choices=ROLES, default="owner", max_length=10)),
        migrations.AlterField("membership", "role", models.CharField(choices=ROLES, default="maker", max_length=10)),
        migrations.CreateModel(
            "Invitation",
            [
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("role", models.CharField(choices=ROLES, default="maker", max_length=10)),
                ("name", models.CharField(max_length=120)),
                ("digest", models.CharField(max_length=64, unique=True)),
                ("made_at", models.DateTimeField(auto_now_add=True)),
                ("open_until", models.DateTimeField()),
                (
                    "made_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "taken_by",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "workshop",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="invitations",
                        to="workshops.workshop",
                    ),
                ),
            ],
        ),
    ]
