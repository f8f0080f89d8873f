"""Sizes and checks a diesel-fired water heating system in a boat and renders its installation dossier."""
