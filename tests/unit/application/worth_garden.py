"""A small garden, made up, in which one bag is bought, one is a poor bargain and one is avoided."""

from halfpail.application.open_garden import open_garden
from halfpail.domain.garden import Garden
from halfpail.garden_file.reader import read_text

TEXT = """
[tools]
scoop = "2 cups"
pail = "5 gal"

[preferences]
most_scoops = 3
most_bags = 2

[[bags]]
name = "Green blend"
label = "6-1-4"
weight = "5 lb"
price = "4.00"
list_price = "9.00"
offered = 2
scoop_weighs = "12 oz"

[[bags]]
name = "Blue blend"
label = "6-1-4"
weight = "10 lb"
price = "11.00"
offered = 1
scoop_weighs = "12 oz"

[[bags]]
name = "Potash"
label = "0-0-20"
weight = "4 lb"
offered = 1
scoop_weighs = "18 oz"

[[bags]]
name = "Sold out"
label = "5-0-5"
weight = "10 lb"
price = "1.00"
offered = 0

[[bags]]
name = "Disliked"
label = "5-0-5"
weight = "10 lb"
price = "1.00"
avoid = true

[[beds]]
name = "North"
crop = "tomato"
size = "40 sq ft"

[[beds]]
name = "South"
crop = "lettuce"
size = "30 sq ft"
"""


def worth_garden() -> Garden:
    """The garden, opened."""
    return open_garden(read_text(TEXT)).garden
