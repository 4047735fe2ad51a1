"""answers"""
