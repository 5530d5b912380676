"""A build of thirty parts can be kept from the shell: the story in a_build.txt, and what can be asked of it."""

import csv
from pathlib import Path
from typing import Any

from buildlog.wording import clock


def test_everything_typed_is_on_the_record_and_nothing_is_wrong(story: Any) -> None:
    assert story("check").code == 0
    found = story("status --json").json
    codes = {part["part"] for part in found["parts"]}
    assert len(story("export parts").out.splitlines()) == 32  # what it lists, headings, thirty parts
    assert {"B01", "A01", "R04", "F06"} <= codes
    for part in found["parts"]:
        assert part["needed"] == part["usable"] + part["under_way"] + part["to_get"], part


def test_paired_and_counted_assemblies_stand_in_every_position(story: Any) -> None:
    positions = story("status --json").json["positions"]
    assert {"ARM L", "ARM R", "FINGER L.3", "FINGER R.1", "RING 4", "LAMP"} <= set(positions)
    assert "FINGER L.4" not in positions


def test_prints_good_and_failed_give_pieces_and_take_filament(story: Any) -> None:
    parts = {(p["part"], p["side"]): p for p in story("status --json").json["parts"]}
    assert parts["A01", "L"]["usable"] == 1
    assert parts["A06", "-"]["usable"] == 2  # kept from the failed print
    assert parts["A07", "-"]["usable"] == 2  # lost with it and printed again
    assert parts["B06", "-"]["under_way"] == 1  # queued twice, one cancelled
    failed = story("week --of 1").out
    assert "came off the bed" in failed
    spools = {s["spool"]: s["net_mg"] for s in story("stock --json").json["spools"]}
    # weighed 588 g with a reel of 210 g; since then 5:00 h of 8:20 h of a print of 192 g
    assert spools["PETG-BLACK-01"] == 588_000 - 210_000 - 115_200


def test_what_was_fitted_superseded_and_revised_shows_as_blockers(story: Any) -> None:
    kinds = {(b["position"], b["kind"]) for b in story("blockers --json").json["blockers"]}
    assert ("ARM L", "take out") in kinds  # the left shoulder plate is no good any more
    assert ("FINGER L.1", "stand-in") in kinds
    assert ("LAMP", "question open") in kinds
    assert ("LAMP", "no figures yet") in kinds or ("LAMP", "not drawn yet") in kinds
    way = story("blockers", "ARM L").out
    assert "What blocks ARM L" in way


def test_alerts_tell_a_timer_by_their_exit_code_what_to_do(shell: Any, story: Any) -> None:
    assert story("alerts").code == 3
    assert story("bought level GLUE plenty").code == 0
    assert story("alerts").code == 4


def test_alerts_on_an_empty_ledger_end_with_nothing_to_do(shell: Any) -> None:
    said = shell("alerts")
    assert (said.code, said.out) == (0, "Nothing needs to be ordered or looked at.\n")


def test_an_assembly_and_its_parts_are_told_in_one_line_and_taken_back_as_one(story: Any) -> None:
    told = "add assembly-with-parts CREST crest --parent BODY --material PETG-BLACK --parts"
    assert story(told, "CR1 crest half handed 3:00 64g, CR2 crest cap x2 0:40 9g, A03 x2").code == 0
    parts = {(p["part"], p["side"]): p for p in story("status --json").json["parts"]}
    assert [parts[key]["needed"] for key in (("CR1", "L"), ("CR1", "R"), ("CR2", "-"))] == [1, 1, 4]
    assert {"CREST L", "CREST R"} <= set(story("status --json").json["positions"])
    assert story("undo").code == 0
    assert not {"CREST", "CR1"} & set(story("status").out.split())


def test_a_wish_is_taken_back_and_put_back(story: Any) -> None:
    before = story("stock --json").out
    assert story("spool weigh PETG-BLACK-03 900").code == 0
    weighed = story("stock --json").out
    assert weighed != before
    assert "PETG-BLACK-03 weighs 900 g" in story("undo").err
    assert story("stock --json").out == before
    assert story("redo").code == 0
    assert story("stock --json").out == weighed
    assert story("redo").code == 1


def test_a_backup_brings_everything_back(story: Any, tmp_path: Path) -> None:
    copy = story("backup").out.strip()
    before = story("status --json").out
    assert story("lot scrap A03 --pieces 1").code == 0
    assert story("status --json").out != before
    assert story("restore", copy).code == 0
    assert story("status --json").out == before


def test_what_is_exported_reads_into_an_empty_ledger_and_exports_the_same(
    story: Any, empty_ledger_file: Path, tmp_path: Path
) -> None:
    sheet = tmp_path / "build.toml"
    assert story("export sheet --out", str(sheet)).code == 0
    assert "Nothing is new" in story("read", str(sheet)).err
    other = tmp_path / "other.db"
    other.write_bytes(empty_ledger_file.read_bytes())
    assert story(f"--ledger {other} read", str(sheet)).code == 0
    assert story(f"--ledger {other} export sheet").out == sheet.read_text("utf-8")


def test_prints_and_shelf_read_into_an_empty_ledger_and_are_exported_the_same(
    story: Any, empty_ledger_file: Path, tmp_path: Path
) -> None:
    files = {"sheet": "build.toml", "print-history": "printed.csv", "counts": "shelf.csv"}
    for what, name in files.items():
        assert story(f"export {what} --out", str(tmp_path / name)).code == 0
    other = tmp_path / "other.db"
    other.write_bytes(empty_ledger_file.read_bytes())
    said = story(f"--ledger {other} read", *(str(tmp_path / name) for name in files.values()))
    assert said.code == 0, said.err
    assert story(f"--ledger {other} export prints").out == (tmp_path / "printed.csv").read_text("utf-8")
    shelf = (tmp_path / "shelf.csv").read_text("utf-8")
    assert counted(story(f"--ledger {other} export counts").out) == counted(shelf)


def counted(counts: str) -> dict[str, int]:
    """How many of each part, side and grade."""
    found: dict[str, int] = {}
    for row in csv.DictReader(counts.splitlines()[1:]):
        what = f"{row['part']} {row['side']} {row['grade']}"
        found[what] = found.get(what, 0) + int(row["lie there"])
    return {what: pieces for what, pieces in found.items() if pieces}


def test_the_ledger_option_wins_over_the_variable(story: Any, empty_ledger_file: Path, tmp_path: Path) -> None:
    other = tmp_path / "other.db"
    other.write_bytes(empty_ledger_file.read_bytes())
    assert "No milestones are on the record." in story(f"--ledger {other} status").out
    assert "the parade" in story("status").out


def test_a_dry_run_says_what_would_happen_and_writes_nothing(story: Any) -> None:
    before = story("journal --json").out
    said = story("lot scrap A03 --pieces 1 --dry-run")
    assert said.err.startswith("(dry run) ")
    assert story("journal --json").out == before


def test_a_fact_told_late_is_dated_when_it_happened(story: Any) -> None:
    assert story('spool weigh PETG-BLACK-03 900 --at "yesterday 23:10"').code == 0
    newest = story("journal --newest 1 --json").json[0]
    assert newest["at"] == "2026-11-24T22:10:00Z"
    assert newest["recorded_at"] == "2026-11-25T12:00:00Z"


def test_a_start_says_when_it_should_end_as_such_prints_have_run(story: Any) -> None:
    story("print finish P1")
    started = story("print start PINS --printer P1")
    runs = next(row for row in story("status --json").json["printers"] if row["printer"] == "P1")
    estimated = "2026-11-25T15:10:00Z"
    assert runs["ends_at"] > estimated
    assert f"It should end {clock(runs['ends_at'], 'Europe/Berlin')}, as such prints have run." in started.err


def test_rows_that_left_a_file_are_all_listed_though_what_was_taken_is_cut_short(story: Any, tmp_path: Path) -> None:
    boxes = tmp_path / "boxes.csv"
    codes = [f"B{number:02d}" for number in range(50)]
    boxes.write_text("code,name\n" + "".join(f"{code},crate\n" for code in codes), "utf-8")
    first = story("read", str(boxes)).err
    assert (first.count("added box"), "… and 20 more\n" in first) == (30, True)
    boxes.write_text("code,name\nB99,crate\n", "utf-8")
    again = story("read", str(boxes)).err
    assert [f"no longer in its file, not retired: box {code}" in again for code in codes] == [True] * 50


def test_the_journal_tells_moments_by_the_clock_at_home(story: Any) -> None:
    assert story("lot count A04 7").code == 0
    assert "  Wed 25 Nov 13:00  Counted 7 of A04" in story("journal --newest 1").out
    assert story("journal --newest 1 --json").json[0]["recorded_at"] == "2026-11-25T12:00:00Z"
