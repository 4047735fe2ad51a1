"""derivation"""
