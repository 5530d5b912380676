"""Minutes of a person for work that nobody has given a figure for: our choice, to weigh one against the other."""

START_PRINT = 5
PUT_IN_PLACE = 5
TAKE_OUT = 5
DRY_SPOOL = 5
TYPE_FIGURES = 5
LOOK_FOR_PIECE = 10
SPOT_CHECK = 5
DECIDE = 15
PREPARE_FILE = 20
REPAIR = 30
MAKE_BY_HAND = 30
DESIGN = 120
FILM_SHOT = 15
LOOK_AT_FOOTAGE = 10
