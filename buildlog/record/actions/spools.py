"""Receives, weighs, opens, dries, empties spools, and draws from them outside a print."""

from buildlog.errors import BadWish, Refused
from buildlog.proposals.forms_shop import Spool as SpoolForm
from buildlog.proposals.spools import (
    DrawFilament,
    DrySpool,
    EmptySpool,
    OpenSpool,
    ReceiveSpool,
    SealSpool,
    WeighSpool,
)
from buildlog.record.actions.feeds import feed_of_spool
from buildlog.record.actions.jobs import job_of, label
from buildlog.record.actions.receiving import (
    add_spool,
    close_when_all_came,
    due_line,
    next_codes,
    open_order,
)
from buildlog.record.actions.set_up import places_of, unload
from buildlog.record.actions.spool_state import (
    is_open,
    note,
    open_if_sealed,
    refuse_not_there,
    refuse_unusable,
)
from buildlog.record.tables.stock import Material, Spool, SpoolEntry
from buildlog.record.writer import Work
from buildlog.terms import SpoolEntryKind
from buildlog.wording import grams, hours

USUAL_SCALE_PM = "kitchen_scale_pm_mg"
HEAVIEST_SHARE = 1.1  # our choice: beyond this a reading is a slip of the finger, not an overfilled reel


def receive_spool(wish: ReceiveSpool, work: Work) -> str:
    material = work.by_code(Material, wish.material)
    packs = wish.packs or len(wish.codes) or 1
    if wish.codes and (len(wish.codes) != packs or len(set(wish.codes)) != packs):
        raise BadWish((("codes", f"{len(set(wish.codes))} codes for {packs} packs: give each its own, or none"),))
    order = open_order(work, wish.order) if wish.order else None
    line = due_line(work, order, material, packs, "packs") if order else None
    codes = list(wish.codes) or next_codes(work, material, packs)
    for code in codes:
        form = SpoolForm(
            code=code,
            material=material.code,
            content=wish.content,
            tare=wish.tare,
            price=wish.price,
            box=wish.box,
        )
        add_spool(work, form, line)
    said = f"Received {', '.join(codes)}."
    if order and close_when_all_came(work, order):
        said += f" Order {order.code} is complete."
    return said


def weigh_spool(wish: WeighSpool, work: Work) -> str:
    spool = _spool(work, wish.spool)
    lightest = spool.tare_mg - spool.tare_pm_mg
    heaviest = HEAVIEST_SHARE * (spool.content_mg + spool.content_pm_mg + spool.tare_mg + spool.tare_pm_mg)
    if wish.gross < lightest:
        reel = "is taken to weigh" if spool.tare_assumed else "weighs"
        raise BadWish(
            (
                (
                    "gross",
                    f"{grams(wish.gross)} is less than the empty reel, which {reel} at least {grams(lightest)}: "
                    "weigh it with the reel, or say that it is empty and what the reel weighs",
                ),
            )
        )
    if wish.gross > heaviest:
        raise BadWish(
            (
                (
                    "gross",
                    f"{grams(wish.gross)} is more than a full {spool.code} with its reel can weigh "
                    f"({grams(round(heaviest))}): read the scale again, or change the spool's content",
                ),
            )
        )
    assert spool.id is not None
    first = not work.all(SpoolEntry, spool_id=spool.id, kind=SpoolEntryKind.WEIGHED)
    work.add(
        SpoolEntry(
            spool_id=spool.id,
            at=work.at,
            kind=SpoolEntryKind.WEIGHED,
            gross_mg=wish.gross,
            cause=wish.cause,
        )
    )
    odd = f" It {wish.surprise}." if wish.surprise and not wish.cause else ""
    said = f"{spool.code} weighs {grams(wish.gross)} with its reel.{odd}"
    return f"{said} {_of_the_reel(spool)}" if first and spool.tare_assumed else said


def _of_the_reel(spool: Spool) -> str:
    """What is not known yet of a spool that is weighed for the first time, and how it becomes known."""
    return (
        f"The reel is assumed to weigh {grams(spool.tare_mg)} ± {grams(spool.tare_pm_mg)}: weigh an empty one like "
        f"it and enter that as the tare of {spool.code}."
    )


def open_spool(wish: OpenSpool, work: Work) -> str:
    spool = _spool(work, wish.spool)
    if not open_if_sealed(work, spool, work.at):
        raise Refused(f"{spool.code} is open already: nothing was changed. Seal it, or leave it so.")
    return f"Opened {spool.code}."


def seal_spool(wish: SealSpool, work: Work) -> str:
    spool = _spool(work, wish.spool)
    if not is_open(work, spool, work.at):
        raise Refused(f"{spool.code} is sealed already: nothing was changed. Open it, or leave it so.")
    loaded = places_of(work, spool, work.at)
    if loaded:
        printer, head = loaded[0]
        raise Refused(f"{spool.code} is loaded on head {head} of {printer.code}: unload it first.")
    note(work, spool, SpoolEntryKind.SEALED, work.at)
    return f"Sealed {spool.code}."


def dry_spool(wish: DrySpool, work: Work) -> str:
    spool = _spool(work, wish.spool)
    minutes = wish.time or work.get(Material, spool.material_id).dry_minutes
    if minutes is None:
        raise BadWish((("time", "say for how long: the material has no drying time"),))
    note(work, spool, SpoolEntryKind.DRIED, work.at, f"{minutes} min")
    return f"Dried {spool.code} for {hours(minutes)}."


def empty_spool(wish: EmptySpool, work: Work) -> str:
    """An emptied spool leaves the head where it is loaded; its weighed reel is a tare that is known."""
    spool = _spool(work, wish.spool)
    refuse_unusable(work, spool, work.at)
    feed = feed_of_spool(work, spool, work.at)
    if feed is not None:
        raise Refused(
            f"{spool.code} feeds {label(job_of(work, feed.job_id))} at that time: swap it there, or end that print."
        )
    for printer, head in places_of(work, spool, work.at):
        unload(work, printer, head, spool, work.at)
    note(work, spool, SpoolEntryKind.EMPTIED, work.at)
    if wish.reel is None:
        return f"{spool.code} is empty."
    work.change(spool, tare_mg=wish.reel, tare_pm_mg=work.reference.usual[USUAL_SCALE_PM].whole, tare_assumed=False)
    return f"{spool.code} is empty, its reel weighs {grams(wish.reel)}."


def draw_filament(wish: DrawFilament, work: Work) -> str:
    spool = _spool(work, wish.spool)
    refuse_unusable(work, spool, work.at)
    open_if_sealed(work, spool, work.at)
    assert spool.id is not None
    work.add(SpoolEntry(spool_id=spool.id, at=work.at, kind=SpoolEntryKind.DRAWN, net_mg=wish.grams, cause=wish.why))
    return f"Drew {grams(wish.grams)} from {spool.code}."


def _spool(work: Work, code: str) -> Spool:
    spool = work.by_code(Spool, code)
    refuse_not_there(work, spool, work.at)
    return spool
