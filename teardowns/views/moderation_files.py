"""The files of one record for a moderator: what was taken out, where else they are, originals."""
from django.core.files.storage import storages
from django.http import FileResponse, Http404
from django.shortcuts import render
from django.utils.cache import patch_cache_control

from teardowns import access
from teardowns.presenting.moderation_file_rows import file_rows
from teardowns.services.moderated_files import (
    files_of,
    pictures_alike,
    same_elsewhere,
    see_original,
)
from teardowns.services.photo_files import original_name
from teardowns.services.state_reasons import NoReason

LONGEST = 500


def moderation_files(request, pk):
    unit = access.unit_to_moderate(request.user, pk)
    kind, _, key = request.POST.get("file", "").partition("/")
    asked, error = request.POST.get("reason", "")[:LONGEST], ""
    if request.method == "POST":
        try:
            return _sent(see_original(moderator=request.user, unit_pk=pk, kind=kind, key=key,
                                      reason=asked))
        except NoReason as refusal:
            error = str(refusal)
    files = files_of(pk)
    return render(request, "teardowns/moderation_files.html", {
        "unit": unit,
        "files": file_rows(files, same_elsewhere(pk, files), pictures_alike(pk, files)),
        "failed": f"{kind}/{key}" if error else "", "error": error})


def _sent(file):
    """Saved, never shown in the page: nobody has looked into the file."""
    try:
        content = storages["originals"].open(original_name(file.sha256))
    except FileNotFoundError as error:
        raise Http404("The file is missing.") from error
    answer = FileResponse(content, as_attachment=True, content_type="application/octet-stream",
                          filename=f"{file.key}.bin")
    patch_cache_control(answer, private=True, no_store=True)
    return answer
