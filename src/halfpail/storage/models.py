"""The rows of the store; what they mean is said by the values that `mapping` makes of them.

Columns bear the names of the entry's fields. Exact numbers are text, "n/d"; `typed` holds the
words they were read from, and `more` what an entry has beside the columns here.
"""

from django.db import models
from django.db.models import Q


class Row(models.Model):
    """What every row that a person keeps has: a version, a bin, and the token it was sent with."""

    version = models.PositiveIntegerField(default=1)
    removed_at = models.DateTimeField(null=True)
    token = models.CharField(max_length=80, null=True, unique=True)

    class Meta:
        """No table of its own."""

        abstract = True


class Garden(Row):
    """A garden: its name, and its scoop, pail and preferences as the entry tells them."""

    name = models.TextField()
    is_sample = models.BooleanField(default=False)
    about = models.JSONField(default=dict)
    answers = models.JSONField(default=dict)

    def __str__(self) -> str:
        """The name of the garden."""
        return self.name


class InGarden(Row):
    """A row of one garden that bears a name; `name_key` is the name without case and spaces."""

    garden = models.ForeignKey(Garden, on_delete=models.PROTECT, related_name="+")
    name = models.TextField()
    name_key = models.TextField()

    class Meta:
        """No two in one garden share a name, unless they lie in the bin."""

        abstract = True
        constraints = (
            models.UniqueConstraint(
                fields=("garden", "name_key"),
                condition=Q(removed_at=None),
                name="one_%(class)s_of_a_name",
            ),
        )

    def __str__(self) -> str:
        """The name."""
        return self.name


class Bag(InGarden):
    """A bag as typed."""

    label = models.TextField()
    bag_kg = models.TextField(null=True)
    price = models.TextField(null=True)
    list_price = models.TextField(null=True)
    offered = models.PositiveIntegerField(null=True)
    shed_kg = models.TextField(default="0")
    scoop_weighs_kg = models.TextField(null=True)
    straight_ok = models.BooleanField(default=False)
    avoid = models.BooleanField(default=False)
    typed = models.JSONField(default=dict)
    more = models.JSONField(default=dict)


class Bed(InGarden):
    """A bed as typed."""

    area_m2 = models.TextField()
    crop = models.TextField(default="")
    history = models.TextField()
    compost_m_per_year = models.TextField(default="0")
    compost_years = models.PositiveIntegerField(default=0)
    straight_ok = models.BooleanField(default=True)
    typed = models.JSONField(default=dict)
    more = models.JSONField(default=dict)


class Mix(InGarden):
    """A mix that was kept; its scoops are rows of their own, so that a bag may be renamed."""

    purpose = models.TextField(default="")
    note = models.TextField(default="")


class MixScoops(models.Model):
    """Whole scoops of one bag in one mix."""

    mix = models.ForeignKey(Mix, on_delete=models.CASCADE, related_name="parts")
    bag = models.ForeignKey(Bag, on_delete=models.PROTECT, related_name="+")
    scoops = models.PositiveIntegerField()

    class Meta:
        """Each bag stands once in a mix."""

        constraints = (
            models.UniqueConstraint(fields=("mix", "bag"), name="one_line_of_a_bag_in_a_mix"),
        )

    def __str__(self) -> str:
        """Scoops and row numbers."""
        return f"{self.scoops} of bag {self.bag_id} in mix {self.mix_id}"


class Season(InGarden):
    """A plan as it was made, and the garden it was made for."""

    made_on = models.DateField()
    chosen = models.BooleanField(default=False)
    note = models.TextField(default="")
    plan_as_made = models.JSONField()
    garden_as_planned = models.JSONField()


class DiaryLine(Row):
    """One event; a line in the bin was undone. Bags, beds and mixes keep their present names."""

    garden = models.ForeignKey(Garden, on_delete=models.PROTECT, related_name="+")
    kind = models.TextField()
    on = models.DateField(db_index=True)
    event = models.JSONField()
    bed = models.ForeignKey(Bed, null=True, on_delete=models.PROTECT, related_name="+")
    bag = models.ForeignKey(Bag, null=True, on_delete=models.PROTECT, related_name="+")
    mix = models.ForeignKey(Mix, null=True, on_delete=models.PROTECT, related_name="+")

    def __str__(self) -> str:
        """Date and kind."""
        return f"{self.on} {self.kind}"


class StockMove(models.Model):
    """What a diary line really added to a bag in the shed, or took from it."""

    line = models.ForeignKey(DiaryLine, on_delete=models.CASCADE, related_name="moves")
    bag = models.ForeignKey(Bag, on_delete=models.PROTECT, related_name="+")
    mass_kg = models.TextField()

    def __str__(self) -> str:
        """The move and its bag."""
        return f"{self.mass_kg} kg of bag {self.bag_id}"


class Draft(models.Model):
    """What was typed into a form and not saved yet."""

    form = models.CharField(max_length=200, unique=True)
    fields = models.JSONField()
    kept_at = models.DateTimeField(auto_now=True)

    def __str__(self) -> str:
        """The key of the form."""
        return self.form


class Job(models.Model):
    """A long piece of work."""

    kind = models.TextField()
    state = models.TextField(db_index=True)
    question = models.TextField()
    progress = models.TextField(default="")
    result = models.TextField(default="")
    pid = models.BigIntegerField(null=True)
    heartbeat = models.DateTimeField(null=True)
    attempt = models.PositiveIntegerField(default=0)
    stop_asked = models.BooleanField(default=False)
    token = models.CharField(max_length=80, null=True, unique=True)

    def __str__(self) -> str:
        """Kind and state."""
        return f"{self.kind} {self.state}"


class SeenNotice(models.Model):
    """A notice that was shown and put away."""

    notice = models.CharField(max_length=200, unique=True)

    def __str__(self) -> str:
        """The key of the notice."""
        return self.notice
