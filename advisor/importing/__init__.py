"""Files of any thermometer logger to readings, and a kept cook to a file. It asks nobody and prints nothing."""
