"""A programme put together column by column and row by row."""

from math import inf

from halfpail.blending.programme import Column, Product, Programme, Row

Terms = list[tuple[int, float]]


class Sheet:
    """Collects columns and rows; `done` makes the programme of them."""

    def __init__(self) -> None:
        self.columns: list[Column] = []
        self.rows: list[Row] = []
        self.products: list[Product] = []

    def column(
        self,
        name: str,
        high: float = inf,
        *,
        low: float = 0.0,
        cost: float = 0.0,
        whole: bool = False,
    ) -> int:
        """Add an unknown and answer its number."""
        self.columns.append(Column(name=name, low=low, high=high, cost=cost, whole=whole))
        return len(self.columns) - 1

    def row(self, name: str, terms: Terms, *, at_least: float = -inf, at_most: float = inf) -> int:
        """Add a row and answer its number."""
        self.rows.append(Row(name=name, terms=tuple(terms), at_least=at_least, at_most=at_most))
        return len(self.rows) - 1

    def product(self, equals: int, left: int, right: int) -> None:
        """Say that one column is the product of two others."""
        self.products.append(Product(equals=equals, left=left, right=right))

    def done(self) -> Programme:
        """The programme so far."""
        return Programme(
            columns=tuple(self.columns), rows=tuple(self.rows), products=tuple(self.products)
        )
