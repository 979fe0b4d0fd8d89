"""A newcomer's way in a real browser: bags, ground, answer, then scoop by scoop."""

import re

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from tests.browser.conftest import FACES
from tests.browser.test_every_page import RULES
from tests.web.asking import BLOOD, STARTER, first, mix


def fill(page: Page, number: int, bag: dict[str, str]) -> None:
    for name, value in bag.items():
        page.locator(f"#id_{number}-{name}").fill(value)


def test_a_first_answer_from_two_bags(at):
    at.go("/")
    fill(at.page, 1, STARTER)
    fill(at.page, 2, BLOOD)
    at.page.get_by_label("Ground to feed").fill("400")
    if at.face.scripts:
        at.page.get_by_label("Ground to feed").blur()  # the answer comes as one leaves the field
    else:
        at.page.get_by_role("button", name="Work it out").click()
    answer = at.page.locator("#answer")
    expect(answer).to_contain_text("5.6-2.8-2.8 by weight, $0.87 per lb")
    expect(answer).to_contain_text("With 0.1 lb of usable N come 0.09 lb of P2O5")
    expect(at.page.locator("#id_1-weight_error")).to_have_text("25 lb = 11.3 kg")
    assert "ground=400" in at.page.url


def test_one_more_row_keeps_what_was_typed(at):
    at.go("/")
    fill(at.page, 1, STARTER)
    at.page.get_by_role("button", name="One more bag").click()
    expect(at.page.locator("#id_3-grade")).to_be_visible()
    expect(at.page.locator("#id_1-grade")).to_have_value("3-4-4")


def test_a_fault_takes_the_focus_and_leads_to_its_field(at):
    at.go("/")
    fill(at.page, 1, {**STARTER, "weight": "25 cups"})
    at.page.get_by_label("Ground to feed").fill("400")
    at.page.get_by_role("button", name="Work it out").click()
    expect(at.page).to_have_title(re.compile("^Error: "))
    expect(at.page.locator("section#told")).to_be_focused()
    at.page.get_by_role("link", name="Bag 1, Weight").click()
    expect(at.page.locator("#id_1-weight")).to_be_focused()
    expect(at.page.locator("#id_1-weight")).to_have_value("25 cups")


def test_a_working_opens(at):
    at.go(first(STARTER, BLOOD))
    at.page.locator("#mix-working summary").click()
    expect(at.page.locator("#mix-working ol")).to_be_visible()


def test_from_the_answer_to_the_scoops(at):
    at.go(first(STARTER, BLOOD))
    at.page.get_by_role("link", name="Change its scoops").click()
    expect(at.page.locator("#words")).to_contain_text("5.6-2.8-2.8 by weight")
    at.page.get_by_role("button", name="One scoop more of blood meal", exact=True).click()
    expect(at.page.get_by_label("Scoops of blood meal")).to_have_value("2")
    expect(at.page.locator("#words")).to_contain_text("7.1-2.1-2.1 by weight")
    expect(at.page.locator("#sum-foot")).to_contain_text("7.1")


def test_another_bag_comes_in_by_its_button(at):
    at.go(mix(Blood_meal=1))
    at.page.get_by_role("button", name="one scoop more of Bone meal").click()
    expect(at.page.get_by_label("Scoops of Bone meal")).to_have_value("1")


def test_a_recipe_is_found_and_chalked(at):
    at.go("/mixes/recipe")
    at.page.get_by_label("Fruiting crops").check()
    at.page.get_by_role("button", name="Find recipes").click()
    expect(at.page.locator("#answer")).to_contain_text("every recipe was tried")
    at.page.get_by_role("link", name=re.compile(r"^Chalk \d")).first.click()
    expect(at.page.locator("#words")).to_contain_text("4-3.4-2.8 by weight")


def test_a_recipe_that_takes_long_comes_by_itself(at):
    scoops = 19 + FACES.index(at.face)  # a wish that the server has not met before
    at.go(f"/mixes/recipe?purpose=fruiting&scoops={scoops}&bags=5")
    answer = at.page.locator("#answer")
    expect(answer).to_contain_text("recipes are being tried")
    if at.face.scripts:
        assert Axe().run(at.page, options=RULES).violations_count == 0
    expect(answer).to_contain_text("every recipe was tried", timeout=60_000)


def test_fast_taps_are_all_counted(scripted):
    scripted.go(mix(Blood_meal=1, Bone_meal=1))
    more = scripted.page.get_by_role("button", name="One scoop more of Blood meal", exact=True)
    for _ in range(7):
        more.click()
    expect(scripted.page.get_by_label("Scoops of Blood meal")).to_have_value("8")
    expect(scripted.page.locator("#sum-foot .total td").first).to_have_text("9")
    scripted.page.reload()
    expect(scripted.page.get_by_label("Scoops of Blood meal")).to_have_value("8")


def test_what_was_opened_stays_open_when_the_sum_changes(scripted):
    scripted.go(mix(Blood_meal=1, Bone_meal=1))
    scripted.page.locator("#mix-working summary").click()
    scripted.page.get_by_role("button", name="One scoop more of Bone meal", exact=True).click()
    expect(scripted.page.locator("#sum-foot .total td").first).to_have_text("3")
    expect(scripted.page.locator("#mix-working ol")).to_be_visible()


def test_a_fault_in_a_row_is_told_as_one_leaves_it(scripted):
    scripted.go(mix(Blood_meal=1, Bone_meal=1))
    box = scripted.page.get_by_label("Scoops of Bone meal")
    box.fill("two")
    box.blur()
    expect(scripted.page.locator(".bag-row .error")).to_contain_text("not a number alone")
    expect(scripted.page.locator("#words")).to_be_empty()
    box.fill("2")
    box.blur()
    expect(scripted.page.locator("#words")).to_contain_text("by weight")


def test_units_and_face_are_kept(at):
    at.go(first(STARTER))
    at.page.get_by_role("button", name="metric").click()
    expect(at.page.locator("#answer")).to_contain_text("per kg")
    at.page.get_by_role("button", name="dark", exact=True).click()
    expect(at.page.locator("html")).to_have_attribute("data-theme", "dark")
    at.go("/sources")
    expect(at.page.locator("html")).to_have_attribute("data-theme", "dark")


def test_the_keyboard_is_enough(scripted):
    """From the top of the page to an answer without a mouse: skip, bag, ground, Enter."""
    page = scripted.page
    scripted.go("/")
    page.keyboard.press("Tab")
    expect(page.get_by_role("link", name="Skip to the page")).to_be_focused()
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    expect(page.get_by_role("link", name="Show me an example.")).to_be_focused()
    for typed in ("", "starter", "3-4-4", "25", "12", "2"):
        page.keyboard.type(typed)
        page.keyboard.press("Tab")
    expect(page.locator("#id_2-name")).to_be_focused()
    for _ in range(6):
        page.keyboard.press("Tab")
    expect(page.get_by_label("Ground to feed")).to_be_focused()
    page.keyboard.type("400")
    page.keyboard.press("Enter")
    expect(page.locator("#answer")).to_contain_text("3-4-4 by weight")
