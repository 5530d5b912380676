"""Adding, changing and retiring things through their forms."""

from buildlog.ledger import Ledger


def test_a_build_is_added_through_its_form(ledger: Ledger, add) -> None:
    add("build", code="lb", name="Lantern Beetle")
    (build,) = ledger.snapshot().builds
    assert (build.code, build.created_at) == ("LB", "2026-11-25T12:00:00Z")
