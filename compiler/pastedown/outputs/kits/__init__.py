"""What a maker of kits needs: what to buy, what goes into each, what it costs and weighs."""
