"""The rooms of the page: what its head offers, in order, each under its own address.

A new room is a line here and its routes in a module of its own; it finds the description that the
other rooms are looking at in the browser (``current()`` of ``static/session.js``) and asks for
what it needs by posting the values, as the section does.
"""

from dataclasses import dataclass

from starlette.routing import BaseRoute


@dataclass(frozen=True)
class Room:
    """One room: its address, its name, what one finds there, and what it answers to."""

    path: str
    title: str
    about: str
    routes: tuple[BaseRoute, ...] = ()


SECTION = Room("/section", "Section", "See the half-section, change it, judge it")
COMPARE = Room("/compare", "Compare", "Two variants side by side")
DECIDE = Room("/decide", "Decide", "A bushing from duty and site; why each dimension; compromises")
EXPLAIN = Room("/explain", "Explain", "A guided tour for a class or a customer, with questions")
OPEN = Room("/open", "Open", "Choose a description")

ROOMS: tuple[Room, ...] = (SECTION, DECIDE, COMPARE, EXPLAIN, OPEN)
