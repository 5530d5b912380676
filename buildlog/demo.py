"""The demo: the Lantern Beetle and the Drum Cart, read in from the text files of demo_db like anybody's data."""

from importlib.resources import files
from pathlib import Path

from buildlog.errors import Refused
from buildlog.intake.plan import plan_reading
from buildlog.ledger import Ledger
from buildlog.status.forms import SnapshotRows

SUMMARY = "Laid the demo: Lantern Beetle and Drum Cart."


def demo_files() -> tuple[Path, ...]:
    """Build sheets and lists of the demo."""
    folder = Path(str(files("buildlog.demo_db")))
    return tuple(sorted(path for path in folder.iterdir() if path.suffix in (".toml", ".csv")))


def lay_demo(ledger: Ledger) -> int:
    """Lay the demo into an empty ledger, told from the ledger's present; returns how many facts were recorded.

    One unit of work and one journal group. Facts go in as they happened, so that a print file prepared late is of
    the revision of its day; what tells no moment has been there from the beginning.
    """
    snapshot = ledger.snapshot()
    if snapshot.builds:
        raise Refused(f"{ledger.path} holds builds: the demo is laid into a ledger of its own, name a new file.")
    plan = plan_reading(demo_files(), SnapshotRows(snapshot), (), ledger.reader.settings(), ledger.now())
    assert plan.wish is not None, "the demo was read into an empty ledger and is all new"
    begins = min(fact.at for fact in plan.wish.facts if fact.at is not None)
    dated = sorted(((fact.wish, fact.at or begins) for fact in plan.wish.facts), key=lambda one: one[1])
    ledger.record_all(dated, SUMMARY)
    return len(dated)
