"""What may have to change with a part."""

from typing import Any

from buildlog.status.touching import touching
from buildlog.terms import Joined


def test_the_same_fit_a_bonded_assembly_and_variants_touch_a_part(shop: Any) -> None:
    root = shop.assembly("ROOT", shop.build())
    toe, small, shin, cap, _ = (shop.part(code) for code in ("TOE", "TOE-S", "SHIN", "CAP", "WHEEL"))
    shop.change("parts", small, variant_of_id=toe.id)
    glued = shop.assembly("FOOT", root, joined=Joined.BONDED)
    shop.use(cap, glued)
    shop.fit_test(root, shop.use(toe, glued), shop.use(shin, root))
    told = {shop.snapshot().part[part_id].code: why for part_id, why in touching(shop.snapshot(), toe.id)}
    assert told == {"CAP": "bonded in FOOT", "SHIN": "fit T0", "TOE-S": "variant of TOE"}
    assert [why for _, why in touching(shop.snapshot(), small.id)] == ["TOE-S is its variant"]
