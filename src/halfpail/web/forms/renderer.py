"""Forms drawn with our own templates."""

from django.forms.renderers import TemplatesSetting


class Renderer(TemplatesSetting):
    """Each field as label, hint, error and input with its unit."""

    field_template_name = "halfpail/forms/field.html"
