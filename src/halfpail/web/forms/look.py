"""The choice of units, money and face."""

from django import forms

from halfpail.quantities.units import System
from halfpail.web.look import CURRENCIES, Theme


class LookForm(forms.Form):
    """Each is optional: what is not chosen stays as it is."""

    units = forms.ChoiceField(choices=[(one.value, one.value) for one in System], required=False)
    theme = forms.ChoiceField(choices=[(one.value, one.value) for one in Theme], required=False)
    currency = forms.ChoiceField(choices=[(one, one) for one in CURRENCIES], required=False)
