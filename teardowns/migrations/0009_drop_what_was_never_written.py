"""The first shapes of public versions, replies and board families: nothing ever wrote a row."""
from django.db import migrations


class Migration(migrations.Migration):
    dependencies = [("teardowns", "0008_add_recordings")]
    operations = [migrations.DeleteModel(name) for name in (
        "Publication", "Reply", "BoardFamilyMember", "HistoricalBoardFamilyMember",
        "HistoricalBoardFamily", "BoardFamily")]
