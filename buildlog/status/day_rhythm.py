"""When a person is up, by the day rhythm of the settings."""

from datetime import datetime, time, timedelta
from zoneinfo import ZoneInfo

from buildlog.facts.builds import Settings
from buildlog.terms import Moment, moment
from buildlog.wording import home

DAY_MINUTES = 1440


def when_up(at: Moment, settings: Settings) -> Moment:
    """The moment itself where it lies in the day, else the next start of the day. A day may end after midnight."""
    zone = ZoneInfo(settings.home_zone)
    there = home(at, zone)
    starts, ends = settings.day_starts_minutes % DAY_MINUTES, settings.day_ends_minutes % DAY_MINUTES
    minutes = there.hour * 60 + there.minute
    is_up = starts <= minutes <= ends if starts <= ends else minutes >= starts or minutes <= ends
    if is_up or starts == ends:
        return at
    day = there.date() if minutes < starts else there.date() + timedelta(days=1)
    return moment(datetime.combine(day, time(*divmod(starts, 60)), zone))
