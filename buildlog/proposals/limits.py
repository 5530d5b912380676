"""How much a figure may be at most, in the record's own units.

All are our choice: well beyond what a bench, a printer or a shelf sees, and short of a slip of the finger. A field
that names no other limit has that of its kind.
"""

MOST_GRAMS = 50_000_000
"""Milligrams, of a print, a pack or a spool with its reel: the largest spools that are sold hold half of it."""
DENSEST = 12_000
"""mg/cm³: filament that is filled with metal stays below lead."""
LONGEST = 60 * 24 * 60
"""Minutes, of a print, a step, a cure, a drying."""
LARGEST = 10_000_000
"""Micrometres, ten metres: of a bed, a part, what was measured."""
DEAREST = 10_000_000
"""Of the smallest coin, a hundred thousand of the large one: of one pack, one spool, one delivery."""
DEAREST_KWH = 1_000
MOST_THINGS = 1_000_000
"""Of anything that is counted, and of millimetres or millilitres of a bought item."""
MOST_LAID = 10_000
"""Pieces of one part in one print."""
MOST_PACKS = 100
"""Of one material in one order, or that come at once."""
LAST_RANK = 9_999
