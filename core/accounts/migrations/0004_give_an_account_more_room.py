from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [("accounts", "0003_remember_the_language")]

    operations = [
        migrations.AddField(
            model_name="user", name="room", field=models.PositiveSmallIntegerField(
                default=1, db_default=1)),
    ]
