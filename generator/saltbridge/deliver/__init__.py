"""deliver"""
