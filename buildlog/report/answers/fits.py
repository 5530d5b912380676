"""What must be tested, failed, or went stale."""

from buildlog.facts.naming import position_name
from buildlog.report.table import Column, Table
from buildlog.status.fits import Verdict
from buildlog.status.status import Status

_ORDER = (Verdict.FAILED, Verdict.STALE, Verdict.DUE, Verdict.SPOT_CHECK, Verdict.NOT_YET, Verdict.PASSED)


def fits(status: Status, everything: bool = False, build_id: int | None = None) -> Table:
    """Fits that ask for something, worst first; with ``everything`` passed and coming ones too."""
    snapshot = status.snapshot
    tests = {
        test.id: test
        for test in snapshot.fit_tests
        if build_id is None or snapshot.assembly[test.assembly_id].build_id == build_id
    }
    shown = [
        f
        for f in status.fits.all
        if f.test_id in tests and (everything or f.verdict not in (Verdict.PASSED, Verdict.NOT_YET))
    ]
    shown.sort(key=lambda f: (_ORDER.index(f.verdict), f.test_id, f.position_id))
    rows = tuple(
        (
            tests[f.test_id].code,
            tests[f.test_id].name,
            position_name(status.snapshot, f.position_id),
            f.verdict.value,
            tests[f.test_id].bench_minutes,
            f.why,
        )
        for f in shown
    )
    columns = (
        Column("test", "Test"),
        Column("name", "Name"),
        Column("position", "Where"),
        Column("verdict", "State"),
        Column("bench_minutes", "Min", right=True),
        Column("why", "Why"),
    )
    return Table("fits", "Fits", columns, rows, "No fit asks for anything.")
