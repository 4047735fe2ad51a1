"""check"""
