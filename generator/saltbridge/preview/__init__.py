"""An author's site: a bank served on this machine only, each template made again when it is saved."""
