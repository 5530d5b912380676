"""Adding, changing and retiring any noun through its form."""

from buildlog.proposals.nouns import Add
from buildlog.record.tables.builds import Build
from buildlog.record.writer import Work


def add(wish: Add, work: Work) -> str:
    f = wish.form
    work.add(Build(code=f.code, name=f.name, rank=f.rank, state=f.state, created_at=work.at))
    return f"Added build {f.code}."
