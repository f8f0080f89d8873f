"""What a project file may say: one class for each mapping, one field for each key."""
