"""What is not asked about at the bench."""

from typing import Any

from buildlog.status.catch_up import catch_up
from buildlog.terms import Moment, Side

LEFT_AT = Moment("2026-11-18T21:00:00Z")


def places(shop: Any) -> list[str]:
    return [due.where for due in catch_up(shop.status(), LEFT_AT)]


def test_a_fit_of_a_side_that_is_held_on_purpose_is_not_asked_about(shop: Any) -> None:
    leg, shin = shop.assembly("LEG", shop.assembly("ROOT", shop.build()), paired=True), shop.part("SHIN")
    usage = shop.use(shin, leg)
    test = shop.fit_test(leg, usage)
    for side in (Side.LEFT, Side.RIGHT):
        shop.fit(shop.lot(shin), shop.position(leg, side), usage, from_at=Moment("2026-11-21T09:00:00Z"))
    assert places(shop) == ["LEG L", "LEG R"]
    shop.change("assemblies", leg, lead_side=Side.LEFT, lead_test_id=test.id)
    assert places(shop) == ["LEG L"]
