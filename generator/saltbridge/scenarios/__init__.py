"""What a question is about: each family with its models, draws and situations side by side."""
