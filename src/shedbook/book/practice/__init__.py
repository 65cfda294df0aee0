"""The student's page: a folder that a browser opens from the disk, with scores, band and explanation as data.

Lives here: what the page must know of a phrase, and putting the folder together; its scripts and its single
notes are files beside the modules. It may import the tracks and the rooms below them.
"""
