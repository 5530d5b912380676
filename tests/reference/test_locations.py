from pathlib import Path

import pytest

from buildlog.locations import backups_folder, folder_risk, ledger_path, settings_path


@pytest.fixture
def mounts(tmp_path: Path) -> Path:
    """A table as /proc/mounts writes it (proc(5): space as \\040)."""
    table = tmp_path / "mounts"
    table.write_text(
        "/dev/vda1 / ext4 rw,relatime 0 0\n"
        "server:/export /far nfs4 rw 0 0\n"
        "/dev/sdb1 /far/stick vfat rw 0 0\n"
        "//box/share /two\\040words cifs rw 0 0\n"
        "someone@host:/ /by/shell fuse.sshfs rw 0 0\n"
        "/dev/sdc1 /disk fuseblk rw 0 0\n"
        "/dev/vda2 /covered ext4 rw 0 0\n"
        "share /covered 9p rw 0 0\n"
    )
    return table


@pytest.mark.parametrize(
    ("folder", "kind"),
    [
        ("/far/builds", "nfs4"),
        ("/two words/beetle", "cifs"),
        ("/by/shell/x", "fuse.sshfs"),
        ("/covered", "9p"),
    ],
)
def test_a_folder_on_a_remote_file_system_is_named_with_its_type(folder: str, kind: str, mounts: Path) -> None:
    risk = folder_risk(Path(folder), mounts)
    assert risk is not None
    assert folder in risk
    assert kind in risk


@pytest.mark.parametrize("folder", ["/home/me", "/far/stick/builds", "/disk/builds", "/farther"])
def test_a_folder_on_a_local_file_system_is_no_risk(folder: str, mounts: Path) -> None:
    assert folder_risk(Path(folder), mounts) is None


@pytest.mark.parametrize("name", ["sync", "Synced", "MyCloud", "my-cloud", "sync 2"])
def test_a_folder_named_as_synced_is_named(name: str, mounts: Path) -> None:
    risk = folder_risk(Path("/home/me") / name / "beetle", mounts)
    assert risk is not None
    assert f"«{name}»" in risk


@pytest.mark.parametrize("name", ["async", "cloudberry", "synchrotron"])
def test_a_name_that_only_holds_the_letters_is_no_hint(name: str, mounts: Path) -> None:
    assert folder_risk(Path("/home/me") / name, mounts) is None


def test_a_link_into_a_synced_folder_is_seen_through(tmp_path: Path, mounts: Path) -> None:
    (tmp_path / "cloud").mkdir()
    (tmp_path / "plain").symlink_to(tmp_path / "cloud")
    assert folder_risk(tmp_path / "plain", mounts) is not None


def test_without_a_table_of_mounts_only_names_are_looked_at(tmp_path: Path) -> None:
    missing = tmp_path / "none"
    assert folder_risk(Path("/far"), missing) is None
    assert folder_risk(Path("/far/sync"), missing) is not None


def test_the_variables_win_over_the_usual_places(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BUILDLOG_LEDGER", "/a/beetle.db")
    monkeypatch.setenv("BUILDLOG_BACKUPS", "/b")
    monkeypatch.setenv("BUILDLOG_SETTINGS", "/c/settings.toml")
    assert ledger_path() == Path("/a/beetle.db")
    assert backups_folder(Path("/x/cart.db")) == Path("/b")
    assert settings_path() == Path("/c/settings.toml")


def test_an_empty_variable_is_as_good_as_none(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BUILDLOG_LEDGER", "")
    assert ledger_path().name == "ledger.db"


def test_backups_lie_beside_the_ledger_unless_told_otherwise(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("BUILDLOG_BACKUPS", raising=False)
    assert backups_folder(Path("/builds/beetle.db")) == Path("/builds/backups")
