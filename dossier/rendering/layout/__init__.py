"""Sets blocks on sheets.

Read ``measures`` (type and sheet), ``lines`` (text into lines), ``item`` (what is laid out), ``setting`` (how
blocks become items; ``prose``, ``tables``, ``findings``, ``figures``, ``panels``, ``forms``, ``listings``,
``contents``, ``breaks``, ``sheets`` and ``leaf`` set one kind each), ``flow`` (items onto sheets), ``pen``
and ``structure`` (sheets onto a canvas), ``running`` (heads and feet).
"""
