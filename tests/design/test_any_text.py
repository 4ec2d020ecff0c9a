"""No text can stop the facts of a design from being read, or a finding from being told."""

from hypothesis import given, settings
from hypothesis import strategies as st

from hookwright.checking import check
from hookwright.source import Source

PIECES = st.sampled_from(
    "Gauge: |Size: |Finished chest: |Sizes: S (M, L)|To fit |Materials: |Stripes: |16 sts |0 sts |"
    "12 rows |= |4 in |10 cm |0 cm |(4 in) |27 (29, 32) |x |by |wide |long |around |square |"
    "per inch |in hdc |after blocking |2 rows A, |2 rows B. |Work this 9 times |: 36 rows |"
    "1-2 Oat\n|3-4 Slate\n|Rows and colours\n|one wave of 0 sts |each motif |½ |, |and |; |. |\n|"
    "Ch 21.\n|Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n|"
    "Rows 2-9: Ch 1, sc in each st across, turn. (20 sc)\n|(9 rows in all)\n|"
    "Rnd 1: 6 sc in magic ring (6)\n".split("|")
)


@settings(max_examples=100)
@given(st.lists(PIECES, max_size=25))
def test_any_text_has_facts_or_none(pieces: list[str]) -> None:
    text = "".join(pieces)
    checked = check(Source(text, "pattern.md"))
    design = checked.design
    spans = [*(g.span for g in design.gauges), *(f.span for f in design.finished)]
    for span in spans:
        assert 0 <= span.start < span.end <= len(text)
    for finding in checked.findings:
        assert 0 <= finding.span.start <= finding.span.end <= len(text)
