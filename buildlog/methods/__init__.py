"""Published methods on plain numbers, one a file, with the source in the docstring.

Nothing of ours is imported but other methods. Tables come in as arguments. What is refused is refused with a
`ValueError`, which the caller turns into an error a person can meet. Moments that are only compared are
fixed-width UTC text (`2026-11-25T13:03:00Z`, sorts as time); where a calendar is needed they are `datetime`
with a zone.
"""
