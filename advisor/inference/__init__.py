"""Facts and rules to conclusions. `engine` alone knows durable_rules; `reasoner` is the door."""
