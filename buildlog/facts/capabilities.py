"""What printers can and parts need, in words with commas between them."""


def words_of(text: str) -> frozenset[str]:
    return frozenset(word.strip().lower() for word in text.split(",") if word.strip())
