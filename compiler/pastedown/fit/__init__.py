"""Does it go together? One small file a check, each reading the worked-out model and nothing else."""
