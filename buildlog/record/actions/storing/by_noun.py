"""How each noun is kept; most are nothing but their own row."""

from buildlog.record.actions.storing.assemblies import AssemblyStoring
from buildlog.record.actions.storing.bench import QuestionStoring, StepStoring, WaitStoring
from buildlog.record.actions.storing.fit_tests import FitTestStoring
from buildlog.record.actions.storing.parts import PartStoring
from buildlog.record.actions.storing.plans import BuildStoring, EpisodeStoring, GoalStoring, MilestoneStoring
from buildlog.record.actions.storing.printing import PrinterStoring, PrintFileStoring
from buildlog.record.actions.storing.stock import BoughtItemStoring, MaterialStoring, SpoolStoring
from buildlog.record.actions.storing.storing import Storing
from buildlog.record.actions.storing.story import PromiseStoring, ShotStoring, ViewerQuestionStoring
from buildlog.record.actions.storing.usages import UsageStoring
from buildlog.record.writer import Work

_WITH_MORE: dict[str, type[Storing]] = {
    storing.NOUN: storing
    for storing in (
        AssemblyStoring,
        BoughtItemStoring,
        BuildStoring,
        EpisodeStoring,
        FitTestStoring,
        GoalStoring,
        MaterialStoring,
        MilestoneStoring,
        PartStoring,
        PrinterStoring,
        PrintFileStoring,
        PromiseStoring,
        QuestionStoring,
        ShotStoring,
        SpoolStoring,
        StepStoring,
        UsageStoring,
        ViewerQuestionStoring,
        WaitStoring,
    )
}


def storing_of(noun: str, work: Work) -> Storing:
    return _WITH_MORE.get(noun, Storing)(work, noun)
