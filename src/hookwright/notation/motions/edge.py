"""How many places of the working edge does a definition use, and what stands on them?"""

from __future__ import annotations

from hookwright.notation.motions.places import Place, Where


class WorkingEdge:
    """The edge worked into, with the place in use."""

    def __init__(self) -> None:
        self.passes = 0
        self.heads = 0
        self.worked_here = False  # repeats in one place: "3 more times in same st"
        self._fresh = True  # a place that no word names is a new one
        self._unnamed = 0  # places used that no word named
        self._over = 0  # places said beforehand: "over next 3 sts"
        self._tops_here = 0

    @property
    def used(self) -> int:
        """Places used up in all."""
        return max(self.passes, self._over)

    def take(self, place: Place | None, *, own_chains: bool) -> int:
        """Use a place; how often the hook goes in there.

        Args:
            place: The place, or None if no word names one.
            own_chains: Whether the definition has made chains, so that "2nd ch from hook"
                and "same ch" are its own and not the edge.
        """
        place = place or Place()
        places = self._new_places(place, own_chains=own_chains)
        if places or place.where is Where.USED:
            self._fresh, self._tops_here = False, 0
        if places:
            self.passes += places
            self._unnamed = places if place.where is Where.HERE else 0
        if place.is_next:
            return max(places, 1)
        return place.count if place.where is Where.USED else place.legs

    def _new_places(self, place: Place, *, own_chains: bool) -> int:
        """How many places of the edge are used for the first time."""
        if place.is_next:
            return 0 if self.worked_here else place.count
        if place.chain and own_chains:
            return 0
        if place.from_hook:
            return place.legs
        if place.where is Where.NTH and place.count > self.passes:
            return place.count - self.passes
        first = place.where in {Where.HERE, Where.NTH}
        return int(
            self._fresh and (first or (place.where is Where.LAST and self.passes > 0))
        )

    def take_named(self, place: Place, *, own_chains: bool) -> None:
        """Take the place of an insertion that is named only when the loop is drawn up."""
        self.passes -= self._unnamed
        self._fresh |= self._unnamed > 0
        self.take(place, own_chains=own_chains)

    def begin_here(self, place: Place | None) -> None:
        """A group begins in a place: if that is the next one, its first step uses it."""
        self._fresh |= place is not None and place.is_next

    def go(self, place: Place, *, own_chains: bool) -> None:
        """A place said before the work; several are a frame: "over next 3 sts"."""
        if place.is_next and place.count > 1:
            self._over = self.passes + place.count
        else:
            self.take(place, own_chains=own_chains)

    def all_in(self, place: Place, *, own_chains: bool) -> None:
        """A place said after the work: it is new only if the work has used none."""
        if place.is_next and place.count > 1:
            self._over = place.count
        elif self._fresh:
            self.take(place, own_chains=own_chains)

    def skip(self, count: int) -> None:
        """Pass over places."""
        self.passes += count
        self._fresh, self._tops_here = True, 0

    def stand(self, tops: int) -> None:
        """Tops now stand in the place in use."""
        self.heads += tops
        self._tops_here += tops

    def gather(self) -> None:
        """The tops in the place in use become one."""
        self.heads -= max(self._tops_here - 1, 0)
        self._tops_here = min(self._tops_here, 1)
