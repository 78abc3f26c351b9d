from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("accounts", "0002_add_standing_tokens_and_notices")]

    operations = [
        migrations.AddField("user", "language", models.CharField(blank=True, max_length=8, default=""),
                            preserve_default=False),
    ]
