"""What every room of the book stands on: words and signs as printed, paper, findings, files, JSON.

It may import nothing else of the book floor. No room knows less of manuscripts and builds than this one.
"""
