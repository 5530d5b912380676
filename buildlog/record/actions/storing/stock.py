"""Materials, spools and bought items, with what stands in from the usual numbers."""

import dataclasses
from typing import Any

from buildlog.errors import BadWish
from buildlog.record.actions.storing.rows import live_row
from buildlog.record.actions.storing.storing import Storing
from buildlog.record.tables.stock import BoughtEntry, SpoolEntry
from buildlog.terms import BoughtAccount, BoughtEntryKind, Level, SpoolEntryKind

USUAL_TARE = "tare_plastic_mg"
USUAL_FILL = "spool_fill_over_label_share"


class MaterialStoring(Storing):
    NOUN = "material"

    def complete(self, form: Any) -> Any:
        """Density, drying and open time of the polymer stand in where they are left empty."""
        polymer = self.work.reference.polymers.get(form.polymer)
        if polymer is None:
            if form.density is None:
                known = ", ".join(self.work.reference.polymers)
                text = f"no usual density of {form.polymer} is known (only of {known}): type it from its data sheet"
                raise BadWish((("density", text),))
            return dataclasses.replace(form, smelly=bool(form.smelly))
        usual = {
            "density": polymer.density_mg_cm3.whole,
            "dry_celsius": polymer.dry_celsius.whole,
            "dry_time": polymer.dry_minutes.whole,
            "open_time": polymer.open_minutes.whole,
            "smelly": polymer.smelly,
        }
        empty = {name: value for name, value in usual.items() if getattr(form, name) is None}
        return dataclasses.replace(form, **empty)


class SpoolStoring(Storing):
    NOUN = "spool"

    def complete(self, form: Any) -> Any:
        content = form.content
        if content is None:
            content = live_row(self.work, "material", form.material).pack_mg
        return dataclasses.replace(form, content=content, received=form.received or form.opened or self.work.at)

    def columns(self, form: Any) -> dict[str, Any]:
        """A tare that was not weighed is assumed, give or take half of its usual span."""
        usual = self.work.reference.usual[USUAL_TARE]
        assumed = form.tare is None
        return super().columns(form) | {
            "tare_mg": usual.whole if assumed else form.tare,
            "tare_pm_mg": round(usual.half_span) if assumed else 0,
            "tare_assumed": assumed,
        }

    def more(self, form: Any) -> dict[str, Any]:
        """A full pack holds a little more or less than its label says."""
        pack_mg = live_row(self.work, "material", form.material).pack_mg
        share = self.work.reference.usual[USUAL_FILL].half_span if form.content == pack_mg else 0
        return {"content_pm_mg": round(form.content * share)}

    def added(self, row: Any, form: Any) -> None:
        if form.opened is not None:
            self.work.add(SpoolEntry(spool_id=row.id, at=form.opened, kind=SpoolEntryKind.OPENED))
        self._weigh(row, form)

    def changed(self, row: Any, before: Any, after: Any) -> None:
        if after.opened != before.opened and after.opened is not None:
            self.work.add(SpoolEntry(spool_id=row.id, at=after.opened, kind=SpoolEntryKind.OPENED))
        if after.weighed != before.weighed:
            self._weigh(row, after)

    def _weigh(self, row: Any, form: Any) -> None:
        if form.weighed is not None:
            kind = SpoolEntryKind.WEIGHED
            self.work.add(SpoolEntry(spool_id=row.id, at=self.work.at, kind=kind, gross_mg=form.weighed))


class BoughtItemStoring(Storing):
    NOUN = "bought item"

    def complete(self, form: Any) -> Any:
        """An amount as it is read back: without leading zeros; a level in small letters."""
        if form.stock is None:
            return form
        stock = str(int(form.stock)) if form.stock.isdecimal() else form.stock.lower()
        return dataclasses.replace(form, stock=stock)

    def added(self, row: Any, form: Any) -> None:
        if form.stock is None:
            return
        if form.account == BoughtAccount.COUNTED:
            entry = BoughtEntry(
                bought_item_id=row.id, at=self.work.at, kind=BoughtEntryKind.COUNTED, amount=int(form.stock)
            )
        else:
            entry = BoughtEntry(
                bought_item_id=row.id, at=self.work.at, kind=BoughtEntryKind.LEVEL, level=Level(form.stock)
            )
        self.work.add(entry)

    def changed(self, row: Any, before: Any, after: Any) -> None:
        """What is in stock now is a count or a look; the account goes on from it."""
        if (after.stock, after.account) != (before.stock, before.account):
            self.added(row, after)
