"""Which rows tell what is on the printers: few, however long the record is."""

_LAST_LOADED = """SELECT spool_id FROM set_up loaded WHERE kind = 'loaded' AND NOT EXISTS (
    SELECT 1 FROM set_up later WHERE later.printer_id = loaded.printer_id AND later.head = loaded.head
    AND later.kind IN ('loaded', 'unloaded') AND (later.at, later.id) > (loaded.at, loaded.id) AND later.at <= :now
    ) AND at <= :now"""
"""Those that another printer took since are among them."""

_DRAWN_FROM = f"spool_id IN ({_LAST_LOADED})"
_RUNNING = "SELECT id FROM job WHERE state = 'running'"
_FEEDING = f"SELECT job_id FROM feed WHERE to_at IS NULL AND {_DRAWN_FROM}"

OF_PRINTERS = {
    "settings": "",
    "printers": "",
    "set_ups": "",
    "materials": "",
    "spools": f"WHERE id IN ({_LAST_LOADED})",
    "spool_entries": f"WHERE {_DRAWN_FROM}",
    "feeds": f"WHERE {_DRAWN_FROM}",
    "jobs": f"WHERE id IN ({_RUNNING}) OR id IN ({_FEEDING})",
    "job_lines": f"WHERE job_id IN ({_RUNNING})",
    "parts": f"WHERE id IN (SELECT part_id FROM job_line WHERE job_id IN ({_RUNNING}))",
}
"""By field of the Snapshot; ``:now`` is the moment."""
