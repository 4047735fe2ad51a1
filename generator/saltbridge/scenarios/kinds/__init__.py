"""What a kind of scenario offers an author: every name that a template may print, find, choose, order or balance."""
