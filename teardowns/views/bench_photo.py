"""One photo on the bench: describe it, mark it, scale it, measure on it, cover what is private."""
import logging

from django.contrib import messages
from django.shortcuts import redirect, render
from django.urls import reverse

from core.whole_number import whole_number
from teardowns import access
from teardowns.forms.cautions import DEFERRAL
from teardowns.forms.photo_forms import (
    CoverForm,
    DescribeForm,
    MarkForm,
    ScaleCornersForm,
    ScaleLineForm,
    TakeDownForm,
    TemperatureForm,
)
from teardowns.forms.photo_measuring_forms import ClicksForm, MeasureForm
from teardowns.imaging.points import printed_points
from teardowns.imaging.refusals import Refused
from teardowns.imaging.slots import SlotError
from teardowns.models import (
    Annotation,
    How,
    InsulationObservation,
    Measurement,
    Method,
    Path,
    Stage,
    State,
    Status,
)
from teardowns.presenting.evidence_called import evidence_called
from teardowns.presenting.evidence_names import quantity_label
from teardowns.presenting.photo_readings import print_pixels, slot_told
from teardowns.presenting.photo_sheet import drawn, gallery_neighbours, photo_sheet
from teardowns.reading.quantity import print_quantity
from teardowns.services.annotate_photo import MarkRefused, StaleMark, put_mark, remove_mark
from teardowns.services.cite_part import SaveRefused
from teardowns.services.click_photo import click_photo, clicks_of
from teardowns.services.cover_photo import cover_photo
from teardowns.services.describe_photo import StalePhoto, describe_photo, take_down_photo
from teardowns.services.measure_photo import measure_photo
from teardowns.services.photo_files import NOT_STORED
from teardowns.services.read_temperature import Spot, SpotRefused, read_temperature
from teardowns.services.save_section import StaleRows
from teardowns.services.scale_photo import scale_photo
from teardowns.views.bench_remarks import remarks_by_ref

logger = logging.getLogger(__name__)
ORDER = ("mark", "scale-corners", "scale-line", "clicks", "measure", "temperature", "cover")
CHANGED = "This photo or mark was changed elsewhere at the same moment. Look at it again: what " \
          "you typed is kept below."


def bench_photo(request, pk, key):
    photo = access.photo_to_change(request.user, pk, key)
    named = evidence_called(photo.unit)
    act = request.POST.get("act", "") if request.method == "POST" else ""
    if act == "remove":
        return _removed(request, photo)
    form = _form(act, request.POST, photo, named) if act in ACTS else None
    if form is not None and form.is_valid():
        try:
            said = ACTS[act](request.user, photo, form)
        except (StaleMark, StalePhoto, StaleRows):
            form.add_error(None, CHANGED)
        except SlotError as error:
            form.add_error("slot", str(error))
        except SpotRefused as error:
            form.add_error("reading", str(error))
        except ValueError as error:
            form.add_error("points", str(error))
        except (MarkRefused, SaveRefused, Refused) as error:
            form.add_error(None, getattr(error, "message", str(error)))
        except OSError:
            logger.exception("photo %s: %s could not be stored", photo.pk, act)
            form.add_error(None, NOT_STORED)
        else:
            messages.success(request, said)
            # With a fragment of its own: else the browser goes back to the form, and what was said
            # stands out of sight.
            return redirect("bench_photos", pk) if act == "take-down" else \
                redirect(f"{reverse('bench_photo', args=[pk, key])}#main")
    return _page(request, photo, named, act, form)


def _page(request, photo, named, act, bound):
    forms = {name: bound if name == act and bound is not None else
             _form(name, None, photo, named, _initial(name, request, photo)) for name in ACTS}
    marks = photo.annotations.select_related("author").order_by("pk")
    sheet = photo_sheet(photo, marks, _scales(photo),
                        list(photo.readings.select_related("author", "clicks")), named,
                        temperatures=list(photo.temperatures.select_related("author")))
    return render(request, "teardowns/bench_photo.html", {
        **sheet, "unit": photo.unit, "deferral": DEFERRAL, "failed": bound,
        "asked_back": _asked_back(photo),
        "drawing_forms": [forms[name] for name in ORDER
                          if name != "temperature" or photo.stage == Stage.THERMAL
                          or name == act],
        "describe": forms["describe"],
        "take_down": forms["take-down"],
        **gallery_neighbours(list(photo.unit.photos.shown()), photo),
    })


def _asked_back(photo):
    """What the photo was sent back for; a first draft has not been anywhere yet."""
    if photo.unit.status == Status.DRAFT:
        return ()
    return remarks_by_ref(photo.unit).get(f"photo/{photo.key}", ())


def _form(name, typed, photo, named, initial=None):
    more = {}
    if name == "mark":
        more["named"] = list(named.items())
    if name == "measure":
        more |= {"scales": _scales(photo),
                 "rows": InsulationObservation.objects.filter(unit=photo.unit)}
    return FORMS[name](typed, photo=photo, initial=initial, **more)


def _scales(photo):
    """Newest last; asked for once a request."""
    if not hasattr(photo, "listed_scales"):
        photo.listed_scales = list(photo.scales.select_related("author").order_by("pk"))
    return photo.listed_scales


def _initial(name, request, photo):
    if name == "describe":
        return {"stage": photo.stage, "caption": photo.caption, "alt": photo.alt,
                "version": photo.version}
    if name == "mark" and (wanted := _key(request.GET.get("mark", ""))):
        return _of_mark(photo.annotations.filter(key=wanted).first())
    if name == "measure" and _scales(photo):
        return {"scale": _scales(photo)[-1].pk}
    return None


def _key(typed):
    """A key from an address or a form; what no database can hold names nothing."""
    return "" if "\0" in typed else typed


def _of_mark(mark: Annotation | None):
    """A stored mark, to be drawn anew."""
    if mark is None:
        return None
    stored = drawn(mark)
    return {"shape": stored.shape, "key": mark.key, "version": mark.version,
            "points": printed_points(stored.points),
            "label": stored.label, "shows": mark.shows}


def _removed(request, photo):
    try:
        remove_mark(author=request.user, photo=photo, key=_key(request.POST.get("key", "")),
                    version=whole_number(request.POST.get("version", "")) or 0)
    except StaleMark:
        messages.warning(request, "This mark was changed or removed elsewhere. Look at it again.")
    else:
        messages.success(request, "The mark is removed; its history is kept.")
    return redirect(f"{reverse('bench_photo', args=[photo.unit_id, photo.key])}#main")


def _describe(author, photo, form):
    describe_photo(author=author, photo=photo, **form.cleaned_data)
    return "The photo’s description is saved."


def _take_down(author, photo, form):
    take_down_photo(author=author, photo=photo, reason=form.cleaned_data["reason"])
    return "The photo is taken down; the original is kept, and nobody sees it."


def _mark(author, photo, form):
    said = form.cleaned_data
    put_mark(author=author, photo=photo, shape=said["shape"], points=said["points"],
             label=said["label"], shows=said["shows"], key=said["key"],
             version=said["version"] or 0)
    return "The mark is saved."


def _scale(author, photo, form):
    said = form.cleaned_data
    row = scale_photo(author=author, photo=photo, points=said["points"], lengths=said["lengths"],
                      length_u=said["u"], known=said["code"], plane=said["plane"])
    lengths = " × ".join(print_quantity(length, "m", digits=4) for length in row.lengths)
    return f"The scale is set: {lengths}. Lengths in its plane can be measured now."


def _measure(author, photo, form):
    model, key, version, values, label = _target(photo.unit, form)
    reading, saved = measure_photo(
        author=author, photo=photo, model=model, key=key, version=version, values=values,
        label=label, drawn=form.drawn(_scales(photo), clicks_of(author, photo)))
    value = print_quantity(reading.value, "m", uncertainty=2 * reading.uncertainty)
    way = f" {slot_told(reading)}" if reading.slot else ""
    later = "" if saved.assessed else " The verdict could not be worked out again; it is stored."
    return f"{label}: {value} (95 %). It is part of the evidence now.{way}{later}"


def _clicks(author, photo, form):
    row = click_photo(author=author, photo=photo, points=form.cleaned_data["points"])
    return (f"One click of yours on this photo may be off by ± {print_pixels(2 * row.uncertainty)} "
            f"(95 %), from {len(row.points)} clicks. What you measure from now on counts with it.")


def _target(unit, form):
    """The row of evidence that a reading fills: model, key, version seen, values, label."""
    what, place = form.cleaned_data["what"], form.cleaned_data["place"]
    common = {"state": State.RECORDED, "how": How.MEASURED}
    if what.startswith("size:"):
        code = what.removeprefix("size:")
        row = Measurement.objects.filter(unit=unit, quantity=code).first()
        return (Measurement, row.key if row else code.replace("_", "-"), row.version if row else 0,
                {**common, "quantity": code, "instrument": "photo with a scale"},
                quantity_label(code))
    common["method"] = Method.PHOTO_SCALE
    if what in form.rows:
        row = form.rows[what]
        return InsulationObservation, row.key, row.version, common, row.place
    _, barrier, path = what.split(":")
    taken = {row.key for row in form.rows.values()}
    number = next(n for n in range(1, len(taken) + 2) if f"photo-{n}" not in taken)
    return (InsulationObservation, f"photo-{number}", 0,
            {**common, "barrier": barrier, "path": Path(path), "place": place}, place)


def _temperature(author, photo, form):
    said = form.cleaned_data
    spot = Spot(reading=said["reading"], reading_u=said["reading_u"] / 2,
                set_emissivity=said["set_emissivity"], emissivity=said["emissivity"],
                emissivity_u=said["emissivity_u"] / 2, background=said["background"],
                legend=said["legend"])
    value, u, _ = read_temperature(author=author, photo=photo, shape=said["shape"],
                                   points=said["points"], spot=spot, quantity=said["what"])
    return (f"{quantity_label(said['what'])}: {print_quantity(value, '°C', uncertainty=2 * u)} "
            "(95 %), set right for the surface. It is part of the evidence now.")


def _cover(author, photo, form):
    cover_photo(author=author, photo=photo, reason=form.cleaned_data["reason"], box=form.box())
    return "The region is burnt out of every picture of this photo; the original is locked away."


FORMS = {"describe": DescribeForm, "take-down": TakeDownForm, "mark": MarkForm,
         "scale-line": ScaleLineForm, "scale-corners": ScaleCornersForm, "clicks": ClicksForm,
         "measure": MeasureForm, "temperature": TemperatureForm, "cover": CoverForm}
ACTS = {"describe": _describe, "take-down": _take_down, "mark": _mark, "scale-line": _scale,
        "scale-corners": _scale, "clicks": _clicks, "measure": _measure,
        "temperature": _temperature, "cover": _cover}
