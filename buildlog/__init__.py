"""A ledger that computes, for one person building something large over months."""
