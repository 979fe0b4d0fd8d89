"""A second form, for the tests alone: a column of bags, filled row by row, and a new table."""

from django.db import migrations, models


def fill(apps, schema_editor):
    for bag in apps.get_model("storage", "Bag").objects.all():
        bag.shop = f"shop of {bag.name}"
        bag.save()


class Migration(migrations.Migration):
    dependencies = (("storage", "0001_first"),)
    operations = (
        migrations.AddField("bag", "shop", models.TextField(default="")),
        migrations.RunPython(fill),
        migrations.CreateModel("Shop", [("id", models.BigAutoField(primary_key=True))]),
    )
