"""Lines of keys are found in spite of long strings, lists and inline tables."""

from halfpail.garden_file.lines import lines_of

TEXT = '''\
title = "a # is no remark"
label = """
fake = 1
[[bags]]
"""
list = [
  "x = 1", # a remark with "
  "]",
]
[[bags]]
name = 'first'
need.N = { aim = 1 }

[[bags]]
"name" = "second"
[bags.need]
N.aim = 2
[preferences]
mixes = 1
'''


def test_every_key_is_found_on_its_line():
    assert lines_of(TEXT) == {
        "title": 1,
        "label": 2,
        "list": 6,
        "bags[1]": 10,
        "bags[1].name": 11,
        "bags[1].need.N": 12,
        "bags[2]": 14,
        "bags[2].name": 15,
        "bags[2].need": 16,
        "bags[2].need.N.aim": 17,
        "preferences": 18,
        "preferences.mixes": 19,
    }
