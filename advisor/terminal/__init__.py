"""The ways in for people and programs: the only part of drafthand that reads input and prints."""
