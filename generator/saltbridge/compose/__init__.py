"""compose"""
