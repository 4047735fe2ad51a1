"""draw"""
