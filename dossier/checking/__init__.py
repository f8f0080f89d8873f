"""Holds results against limits, one module for each group of the catalogue.

``finding`` says what an answer is, ``limits`` which limit counts, ``aboard`` what does not apply and why;
``exhaust``, ``flow`` and the others hold the checks. A row ``exhaust.length`` of the catalogue and the
function ``length`` of the module ``exhaust`` are one check; its docstring is the reason printed with it.

Every check is ``check(study, limit) -> Finding``: the study holds the project and all results.
"""
