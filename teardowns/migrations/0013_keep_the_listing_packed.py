"""The index of the whole listing, kept for processes that begin; newest and gravest units are found."""
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("teardowns", "0012_add_finding_comparing_and_sharing")]

    operations = [
        migrations.CreateModel("ListingPack", [
            ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False,
                                       verbose_name="ID")),
            ("form", models.CharField(max_length=64)),
            ("number", models.BigIntegerField()),
            ("stamp", models.CharField(max_length=8)),
            ("packed", models.BinaryField()),
        ]),
        migrations.RemoveIndex("listedunit", "listing_newest"),
        migrations.AddIndex("listedunit", models.Index(
            fields=["-published_at", "-unit"], name="listing_newest",
            condition=models.Q(is_listed=True))),
        migrations.AddIndex("listedunit", models.Index(
            fields=["risk", "-published_at", "-unit"], name="listing_gravest",
            condition=models.Q(is_listed=True))),
    ]
