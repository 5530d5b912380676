"""Rules over orders and the accounts of bought items."""

STOCK_RULES: tuple[tuple[str, str], ...] = (
    (
        "no more comes on an order than was ordered",
        """SELECT o.code || ', line ' || l.id FROM order_line l JOIN purchase o ON o.id = l.purchase_id
           WHERE l.quantity < (SELECT count(*) FROM spool s WHERE s.order_line_id = l.id)
             + (SELECT coalesce(sum(e.amount), 0) FROM bought_entry e WHERE e.order_line_id = l.id)""",
    ),
    (
        "what comes on an order is what was ordered",
        """SELECT o.code || ', line ' || l.id FROM order_line l JOIN purchase o ON o.id = l.purchase_id
           WHERE EXISTS (SELECT 1 FROM spool s
                         WHERE s.order_line_id = l.id AND s.material_id IS NOT l.material_id)
              OR EXISTS (SELECT 1 FROM bought_entry e
                         WHERE e.order_line_id = l.id AND e.bought_item_id IS NOT l.bought_item_id)""",
    ),
    (
        "what comes on an order is received, or a look at an item that is not counted",
        """SELECT i.code FROM bought_entry e JOIN bought_item i ON i.id = e.bought_item_id
           WHERE e.order_line_id IS NOT NULL AND e.kind NOT IN ('received', 'level')""",
    ),
    (
        "slots and steps draw bought items or give them back",
        """SELECT i.code FROM bought_entry e JOIN bought_item i ON i.id = e.bought_item_id
           WHERE (e.fitting_id IS NOT NULL OR e.step_done_id IS NOT NULL) AND e.kind NOT IN ('drawn', 'returned')""",
    ),
)
