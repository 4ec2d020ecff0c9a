"""How sizes are named: ages, words and letters, as parts of patterns."""

AGE = r"(?:months?|mths?|mos?|years?|yrs?|m|y)"
NUMBERS = r"\d+(?:\s*(?:-|–|to)\s*\d+)?"
WORD_NAME = (
    r"(?:child|teen|adult|youth|wom[ae]n|m[ae]n)(?:'?s)?[ -]"
    r"(?:small|medium|large|X*[SML]\b)|"
    r"(?:(?:x-?)?(?:small|large)|medium) (?:child|teen|adult|youth|wom[ae]n|m[ae]n)\b|"
    r"(?:x-?)?small|medium|(?:x-?)?large|newborn|nb|preemie|baby|toddler|child|teen|adult|"
    r"youth|wom[ae]n|m[ae]n|\d*X*[SML](?:-\d*X*[SML])?\b"
)
OF_WHOM = r"(?:baby|toddler|child|children|kids?|teen|adult|youth)(?:'?s)?[ ]"
NAME = rf"(?:\d[XT]\b|{OF_WHOM}{NUMBERS}(?:\s*{AGE}\b)?|{NUMBERS}(?:\s*{AGE})?|{WORD_NAME})"
BETWEEN = r"\s*(?:[,;/(\[:)\]]\s*)*(?:(?:and|or)\s+)?"
