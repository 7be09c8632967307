"""The report of whole pieces: what is judged, what isn't, and what changes in a piece change."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from flatpack.geometry import Frame, Vec
from flatpack.parameters import BoardChoice
from flatpack.parameters import replace as changed_record
from flatpack.strength import findings
from tests.strength.conftest import Made

COUNTED = re.compile(r"(\d+) of (\d+) joints not judged")


@pytest.mark.parametrize("family", ["lounger", "bench"])
def test_every_part_and_joint_is_spoken_of(family, request):
    made = request.getfixturevalue(family)
    found = made.report()
    assert {c.subject for c in found.checks if c.kind == "joint"} == set(found.joints)
    assert {c.subject for c in found.checks if c.kind == "part"} == set(found.parts)
    assert found.joints == tuple(j.key for j in made.assembly.joints)
    match = COUNTED.match(found.headline)
    assert match is not None
    assert int(match[1]) == len(found.open_joints) > 0
    assert int(match[2]) == len(made.assembly.joints)


@pytest.mark.parametrize("family", ["lounger", "bench"])
def test_what_is_not_done_says_why_and_is_no_pass(family, request):
    found = request.getfixturevalue(family).report()
    for check in found.checks:
        assert (check.use is None) == bool(check.why)
        if check.use is None:
            assert check.subject in (*found.open_joints, *found.open_parts, "piece")
        else:
            assert check.formula
            assert check.use >= 0.0


def test_same_piece_same_report(lounger, profiles):
    assert lounger.report() == Made("lounger", profiles).report()


def test_findings_open_with_what_was_not_judged_and_close_with_the_caution(lounger):
    rows = findings(lounger.report())
    assert COUNTED.match(rows[0].message)
    assert rows[0].severity == "not done"
    assert rows[-1].severity == "note"
    assert "licensed engineer" in rows[-1].message
    assert {r.severity for r in rows} == {"not done", "warning", "note"}
    over = [r.measured for r in rows if r.severity == "warning" and "another" not in r.code]
    assert over == sorted(over, reverse=True)
    assert all(r.source for r in rows)


def test_a_slat_by_hand(lounger):
    # Half a person of 110 kg, 1.5, on 120 mm in the middle of 622 mm between the rails' middles;
    # M = P/4 (L - b/2) and W = 72 x 17.9^2 / 6 (statics).
    load = 0.5 * 110 * 9.81 * 1.5
    t = lounger.assembly.parts["slat-5"].thickness
    rail = lounger.assembly.parts["rail-left"].thickness
    span = 640.0 - rail
    stress = load / 4 * (span - 60.0) / (72.0 * t**2 / 6)
    check = next(c for c in lounger.report().checks if (c.subject, c.code) == ("slat-5", "bending"))
    assert check.use == pytest.approx(stress / (0.9 * 40.2 / 1.2), rel=1e-6)


def over(found, code: str) -> set[str]:
    return {c.subject for c in found.over if c.code == code}


@pytest.mark.parametrize(
    ("family", "key", "board", "left"),
    [("lounger", "boards__slats", "ply-18", 12.0), ("bench", "boards__slats", "larch-27", 18.0)],
)
def test_thinning_a_slat_by_a_third_is_caught(family, key, board, left, profiles, request):
    assert not any("slat" in s for s in over(request.getfixturevalue(family).report(), "bending"))
    thin = Made(family, profiles, **{key: BoardChoice(board, left)})
    found = thin.report()
    assert any(s.startswith("slat-") for s in over(found, "bending"))
    codes = {f.code for f in findings(found) if f.severity == "warning" and "slat" in f.part}
    assert "strength-bending" in codes


def test_dropping_a_screw_is_caught(lounger, profiles):
    one = Made("lounger", profiles, slats__screws=1)
    assert over(lounger.report(), "one screw") == set()
    caught = over(one.report(), "one screw")
    assert {"slat-1-on-rail-left", "slat-13-on-rail-right"} <= caught
    assert any(f.code == "strength-one-screw" for f in findings(one.report()))


def test_dropping_one_of_several_screws_raises_their_share(lounger, profiles):
    fewer = Made("lounger", profiles, rack__screws=2)

    def use(found) -> float:
        return next(
            c.second.use
            for c in found.checks
            if (c.subject, c.code) == ("rack-on-rail-left", "sheared") and c.second
        )

    assert use(fewer.report()) > 1.1 * use(lounger.report())
    rows = [f for f in findings(fewer.report()) if f.code.startswith("strength-sheared-by")]
    assert any("rack-on-rail" in f.part for f in rows)


def shifted(assembly, prefix: str, by: Vec):
    """The piece with some parts and the bolts through them moved."""

    def moved(frame: Frame) -> Frame:
        return Frame(frame.origin.plus(by), frame.x, frame.y, frame.z)

    parts = {
        k: replace(p, frame=moved(p.frame)) if k.startswith(prefix) else p
        for k, p in assembly.parts.items()
    }
    fasteners = tuple(
        replace(f, start=f.start.plus(by)) if any(k.startswith(prefix) for k in f.passes) else f
        for f in assembly.fasteners
    )
    return replace(assembly, parts=parts, fasteners=fasteners)


def test_moving_a_leg_in_is_caught_as_tipping(lounger):
    before = lounger.report()
    assert "tipping" not in {c.code for c in before.over}
    found = lounger.report(shifted(lounger.assembly, "leg-head", Vec(-200.0, 0.0, 0.0)))
    tip = next(c for c in found.checks if c.code == "tipping")
    assert tip.use > 1.0
    assert "head end" in tip.case
    # By hand: 1079 N stands 60 mm from the end, the leg's outer face 218 mm from it; the piece's
    # own weight holds about that edge.
    weight, centre = _weight(lounger)
    edge = 1960.0 - 18.0 - 200.0 + 0.1
    expected = 1.1 * 1079.1 * (1900.0 - edge) / (weight * (edge - centre))
    assert tip.use == pytest.approx(expected, rel=0.02)


def _weight(made: Made) -> tuple[float, float]:
    rows = []
    for part in made.assembly.parts.values():
        x0, y0, x1, y1 = part.outline.bounds
        mid = part.frame.place((x0 + x1) / 2, (y0 + y1) / 2, part.thickness / 2)
        rows.append((abs(part.outline.area) * part.thickness * part.board.density * 9.81e-9, mid.x))
    whole = sum(w for w, _ in rows)
    return whole, sum(w * x for w, x in rows) / whole


def test_a_leg_without_bolts_is_told_as_a_mechanism_or_left_out(lounger):
    fewer = tuple(f for f in lounger.assembly.fasteners if not f.key.startswith("leg-foot"))
    found = lounger.report(replace(lounger.assembly, fasteners=fewer))
    assert "leg-foot-left" in found.open_parts
    assert "rail-left" in found.open_parts


def test_a_thickness_beyond_the_table_is_not_done(profiles):
    odd = Made("lounger", profiles, boards__slats=BoardChoice("ply-18", 20.5))
    found = odd.report()
    slats = [c for c in found.checks if c.subject == "slat-3"]
    assert slats
    assert all(c.use is None for c in slats)
    assert any("no values for 20.5 mm" in c.why for c in slats)
    assert any("no values for 20.5 mm" in f.message for f in findings(found))


def test_a_family_without_loads_is_not_judged_at_all(lounger):
    stranger = replace(lounger.assembly, family="hammock")
    found = lounger.report(stranger)
    assert found.open_joints == found.joints
    assert found.open_parts == found.parts
    assert "nothing could be judged" in found.headline
    assert "no loads are known for a hammock piece" in findings(found)[1].message


def test_a_steel_rod_is_judged_and_a_wooden_one_is_not(lounger, profiles):
    wood = next(c for c in lounger.report().checks if c.subject == "rod")
    assert wood.use is None
    assert wood.second is not None
    steel = Made("lounger", profiles, rack__rod="steel-16").report()
    rod = next(c for c in steel.checks if c.subject == "rod")
    assert rod.use is not None
    assert "rod" not in steel.open_parts


def test_loads_are_editable(lounger, profiles):
    light = changed_record(profiles.load_set("lounger"), person=55.0)

    def worst(found, key: str) -> float:
        return found.use(key)

    half, whole = lounger.report(loads=light), lounger.report()
    assert worst(half, "slat-5") == pytest.approx(worst(whole, "slat-5") / 2)
    assert worst(half, "rail-left") > worst(whole, "rail-left") / 2  # its own weight stays


def test_a_grade_helps_a_board(bench):
    graded = bench.report(grades={"larch-27": "c24"})
    plain = bench.report()
    slat = graded.use("slat-2")
    assert slat < plain.use("slat-2")
    assert any("Strength class C24" in a for a in graded.assumptions)
    assert any("lowest class" in a for a in plain.assumptions)


def test_assumptions_name_editions_and_every_assumed_load(lounger, profiles):
    found = lounger.report()
    assert "EN 1995-1-1:2004" in found.edition
    text = "\n".join(found.assumptions)
    for name, why in profiles.load_set("lounger").sources:
        assert why in text, name
    assert "110 kg" in "\n".join(c.words for c in found.cases)


def test_dry_use_is_stronger_than_wet(lounger, profiles):
    dry = changed_record(profiles.load_set("lounger"), service_class=1)
    # k_mod of a spot load is 0.9 outdoors and 1.1 indoors (EC5 table 3.1).
    wet_use, dry_use = lounger.report().use("slat-5"), lounger.report(loads=dry).use("slat-5")
    assert wet_use / dry_use == pytest.approx(1.1 / 0.9)


def test_diagrams_are_of_the_worst_case_and_close(lounger):
    drawn = {(d.part, d.plane): d for d in lounger.report().diagrams}
    slat = drawn["slat-5", "flat"]
    assert slat.moment[0] == pytest.approx(0.0, abs=1e-6)
    assert slat.moment[-1] == pytest.approx(0.0, abs=1e-6)
    assert max(slat.moment) > 0.0
    assert len(slat.places) == len(slat.moment) == len(slat.deflection)
    assert ("rail-left", "edge") in drawn


def test_sliding_is_of_pushes_from_the_ground(lounger, bench):
    # Who lies on the piece pushes its back and holds on by its slats: nothing is left over to push
    # the piece along (equilibrium of person and piece together).  Feet on the ground can push.
    (slid,) = (c for c in lounger.report().checks if c.code == "sliding")
    assert slid.case == "a person in the middle pushes along"
    weight, _ = _weight(lounger)
    # 10 % of 110 kg against 0.3 of both weights; the rod's weight, not in `_weight`, is small.
    expected = 0.1 * 1079.1 / (0.3 * (weight + 1079.1))
    assert slid.use == pytest.approx(expected, rel=0.01)
    (leaning,) = (c for c in bench.report().checks if c.code == "sliding")
    assert leaning.case.startswith("one person leaning")


def test_the_headline_tells_what_another_method_finds_too_weak(lounger):
    found = lounger.report()
    weak = [c for c in found.checks if c.use is None and c.second and c.second.use > 1.0]
    worst = max(weak, key=lambda c: c.second.use)
    assert f"{len(weak)} of those not judged are over by another method" in found.headline
    assert found.headline.endswith(f"worst {worst.subject}, {worst.second.use:.0%}")
    sound = replace(found, checks=tuple(c for c in found.checks if c not in weak))
    assert "another method" not in sound.headline
