"""Pictures of a cook and of a cooker, for screen and paper. The only place that knows matplotlib."""
