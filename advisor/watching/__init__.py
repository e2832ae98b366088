"""A thermometer watched: detectors over (minutes, °F) that speak early and once. Pure: no clock, no files, no screen."""
