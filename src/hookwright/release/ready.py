"""What is ready before the first copy is made: its words, pictures, amounts of yarn."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct, field
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.release.contents import contents_of, title_of
from hookwright.release.copies import Copy, Edition, home_paper
from hookwright.release.drawn import Drawn
from hookwright.release.facts import Contents, Picture, Stamp
from hookwright.release.further import Further
from hookwright.release.one_size import of_size
from hookwright.release.page import PageMade, as_page
from hookwright.release.texts import Text, Texts
from hookwright.release.widths import own_widths
from hookwright.release.yarn_amounts import Amounts


class Order(Struct, frozen=True):
    """What is to be put out.

    Attributes:
        checked: The pattern, read and worked.
        stamp: Version, date, designer, rights.
        photos: Photographs, cleaned, with their words.
        draft: Whether every copy is marked as a draft.
        further: Pages that go out beside the copies.
    """

    checked: Checked
    stamp: Stamp
    photos: tuple[Drawn, ...] = ()
    draft: bool = False
    further: tuple[Further, ...] = ()


class Ready(Struct, frozen=True):
    """All that copies are made from.

    Attributes:
        order: What is to be put out.
        texts: The pattern in the words of each copy.
        copies: Every copy there is to be.
        drawn: Its pictures.
        amounts: What each of its sizes takes of each colour.
        bare: What stands in copies without their pictures, by the text, and whether large:
            most copies have the words of another one.
    """

    order: Order
    texts: Texts
    copies: tuple[Copy, ...]
    drawn: tuple[Drawn, ...]
    amounts: tuple[Amounts, ...]
    bare: dict[tuple[int, bool], Contents] = field(default_factory=dict)

    @property
    def title(self) -> str:
        """The name of the design."""
        return title_of(self.order.checked)

    def contents(self, copy: Copy) -> Contents:
        """What stands in a copy."""
        return self._laid_out(self.texts.of_copy(copy), copy)

    def page(self) -> str:
        """The page for a blog, with the copy to print beside it."""
        own = self.texts.terms[0]
        shown = {
            copy.terms: copy
            for copy in reversed(self.copies)
            if copy.edition is Edition.COLOUR and copy.paper is home_paper(copy.terms)
        }
        pdf = shown[own].name
        versions = [
            ((terms, form), self._laid_out(self.texts.of(terms, form), shown[terms]))
            for terms in self.texts.terms
            for form in self.texts.forms
        ]
        labels = [shade.letter or shade.name for shade in versions[0][1].shades]
        widths = own_widths(self.order.checked, labels if self.amounts else ())
        pictures = {one.picture.file: one.data for one in self.drawn}
        return as_page(PageMade(versions, pictures, widths, pdf))

    def _laid_out(self, text: Text, copy: Copy) -> Contents:
        fitting = [one for one in self.drawn if one.fits(copy)]
        cover = next((one.picture for one in fitting if one.is_cover), None)
        shown = [one.picture for one in fitting if not one.is_cover]
        bare = self._bare(text, copy)
        contents = replace(bare, cover=cover, pictures=tuple(shown))
        if copy.size is None:
            return contents
        return of_size(replace(contents, sizes=self.order.checked.sizes), copy.size)

    def _bare(self, text: Text, copy: Copy) -> Contents:
        """What stands in a copy but for its pictures."""
        large = copy.edition is Edition.LARGE
        key = id(text), large  # the texts are kept as long as this
        if key not in self.bare:
            self.bare[key] = contents_of(
                text,
                self.order.stamp,
                facts=self.texts.of(copy.terms, "short").checked if large else None,
                amounts=self.amounts,
                large=large,
                draft=self.order.draft,
            )
        return self.bare[key]


def shown_in(contents: Contents) -> Sequence[Picture]:
    """The pictures of a copy."""
    cover = (contents.cover,) if contents.cover is not None else ()
    return (*cover, *contents.pictures)
