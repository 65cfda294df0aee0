"""Web addresses with the number of a phrase in them."""

from __future__ import annotations


def filled(address: str, number: int, largest: int) -> str:
    """Return an address with a phrase's number in the place of {n}.

    {nn} stands for the same with as many figures as the `largest` number of the book, at least two, so that
    what is named by it sorts as the book does.
    """
    padded = f"{number:0{max(2, len(str(largest)))}}"
    return address.replace("{nn}", padded).replace("{n}", str(number))
