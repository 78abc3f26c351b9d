from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('teardowns', '0004_add_safety_observations'),
    ]

    operations = [
        migrations.AddField(
            model_name='assessment',
            name='flags',
            field=models.PositiveSmallIntegerField(default=0),
        ),
    ]
