"""What the physics says about a cook: forecasts and numbers for the plan. Stands between rules and thermal model."""
