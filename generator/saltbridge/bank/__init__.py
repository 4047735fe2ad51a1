"""bank"""
