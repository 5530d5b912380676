"""The figures of shared/ against the table they were taken from.

No row of it has a published source: the figures are common practice of the trade, or arithmetic that is
done again here. Densities and mould shrinkage: secondary tables named in shared/materials.toml.
"""

import ast
from math import pi
from pathlib import Path

import pytest

from buildlog.facts.reference_data import Basis
from buildlog.reference import reference

ROOT = Path(__file__).parents[2]

# key → value, low, high: common practice
PRACTICE = {
    "paint_growth_per_face_um": (150, 100, 200),
    "hole_undersize_um": (200, 100, 300),
    "paint_warns_below_clearance_um": (300, 300, 300),
    "shell_segment_deviation_um": (500, 500, 500),
    "shell_whole_deviation_um": (2000, 1000, 2000),
    "ring_growth_per_joint_um": (150, 100, 200),
    "screw_pilot_share": (0.82, 0.80, 0.85),
    "screw_wall_over_diameter_factor": (1, 1, 1),
    "hinge_thickness_um": (1400, 800, 2000),
    "hinge_interlock_um": (5000, 3000, 5000),
    "hinge_bends_before_other_side_count": (100, 100, 100),
    "hinge_bends_before_event_count": (1000, 1000, 1000),
    "gauge_of_tolerance_share": (0.1, 0.1, 0.1),
    "callipers_honest_um": (50, 50, 50),
    "weighed_lately_days": (14, 14, 14),
    "spool_fill_over_label_share": (0, 0, 0.03),
    "purge_spool_change_mg": (6_000, 3_000, 10_000),
    "purge_dark_to_light_mg": (20_000, 10_000, 20_000),
    "purge_load_mg": (3_500, 2_000, 5_000),
    "purge_two_heads_mm3": (80, 50, 100),
    "purge_two_heads_seconds": (10, 5, 15),
    "purge_one_nozzle_mm3": (300, 150, 600),
    "purge_one_nozzle_seconds": (90, 60, 120),
    "first_two_material_prints_count": (5, 5, 5),
    "first_hour_of_failures_share": (0.5, 0.5, 0.5),
    "first_hour_of_lost_hours_share": (0.05, 0, 0.05),
    "early_parts_replaced_share": (0.4, 0.30, 0.50),
    "brim_from_side_mm": (100, 100, 100),
    "brim_mm": (8, 5, 10),
    "keep_out_mm": (5, 5, 5),
    "enclosure_air_celsius": (50, 45, 60),
    "lifting_without_enclosure_from_mm": (200, 200, 200),
    "look_again_minutes": (30, 30, 30),
    "look_third_minutes": (60, 60, 60),
    "nozzle_brass_hours": (200, 200, 500),
    "nozzle_filled_hours": (50, 50, 100),
    "bond_colder_by_ten_factor": (2, 2, 2),
    "bond_reference_celsius": (20, 20, 20),
    "overlap_over_wall_factor": (5, 5, 5),
    "seam_offset_least_share": (0.25, 0.25, 0.25),
    "seam_offset_best_share": (0.5, 0.5, 0.5),
    "joints_per_sitting_count": (4, 4, 4),
    "primer_coats_count": (3, 2, 3),
    "primer_between_coats_minutes": (30, 15, 30),
    "primer_sand_after_minutes": (1440, 1440, 1440),
    "primer_cover_of_400_ml_m2": (1.0, 1.0, 1.5),
    "film_and_edit_minutes": (690, 480, 900),
    "design_over_bench_factor": (1, 1, 1),
    "lead_working_days": (5, 3, 5),
    "lead_odd_colour_days": (28, 14, 28),
    "door_clear_width_mm": (750, 750, 750),
    "door_clear_height_mm": (1950, 1950, 1950),
    "one_person_load_mg": (15_000_000, 15_000_000, 15_000_000),
    "one_person_length_mm": (1200, 1200, 1200),
    "carried_for_an_hour_share": (0.20, 0.20, 0.20),
    "carried_briefly_share": (0.30, 0.30, 0.30),
    "break_after_minutes": (15, 15, 20),
    "out_within_seconds": (30, 30, 30),
    "start_check_weighed_factor": (1.05, 1.05, 1.05),
    "start_check_weighed_extra_mg": (20_000, 20_000, 20_000),
    "start_check_unweighed_factor": (1.15, 1.15, 1.15),
    "start_check_unweighed_extra_mg": (50_000, 50_000, 50_000),
    "tail_mg": (20_000, 10_000, 30_000),
    "tare_plastic_mg": (215_000, 150_000, 280_000),
    "tare_cardboard_mg": (170_000, 120_000, 220_000),
    "kitchen_scale_pm_mg": (2_000, 2_000, 2_000),
    "weigh_in_alarm_mg": (15_000, 15_000, 15_000),
    "weigh_in_alarm_of_drawn_share": (0.03, 0.03, 0.03),
    "waste_stable_share": (0.10, 0.10, 0.10),
    "waste_first_off_share": (0.20, 0.15, 0.25),
    "failures_per_hour": (0.005, 0.003, 0.01),
    "failed_start_loss_minutes": (30, 30, 30),
    "real_over_estimated_hours": (1.08, 1.05, 1.15),
    "redesign_factor": (1.5, 1.4, 2.0),
    "changeover_styrene_soak_minutes": (30, 15, 30),
    "changeover_styrene_cool_minutes": (60, 30, 60),
    "changeover_styrene_clear_minutes": (10, 10, 10),
    "changeover_other_minutes": (20, 15, 20),
    "clean_bench_minutes": (15, 10, 20),
    "shown_and_painted_bench_minutes": (120, 60, 180),
    "reorder_need_weeks": (2, 2, 2),
    "reorder_factor": (1.2, 1.2, 1.2),
    "reorder_sealed_spools_count": (1, 1, 1),
    "one_lot_extra_share": (0.20, 0.20, 0.20),
    "design_freeze_before_event_days": (21, 21, 21),
    "last_order_before_event_days": (21, 21, 21),
    "rehearsal_before_event_days": (10, 7, 10),
    "last_print_before_event_days": (4, 4, 4),
    "last_load_bearing_bond_before_event_days": (3, 3, 3),
    "packed_before_event_days": (1, 1, 1),
    "keep_free_share": (0.25, 0.25, 0.25),
    "spares_of_each_count": (1, 1, 1),
    "spares_of_flexible_share": (0.10, 0.10, 0.10),
    "spares_of_bought_hinges_count": (2, 2, 2),
}


@pytest.mark.parametrize("key", PRACTICE)
def test_a_usual_number_is_as_the_trade_has_it_and_says_so(key: str) -> None:
    usual = reference().usual[key]
    assert (usual.value, usual.low, usual.high) == PRACTICE[key]
    assert usual.basis is Basis.COMMON_PRACTICE


def test_no_number_called_common_practice_goes_unchecked() -> None:
    practice = {key for key, usual in reference().usual.items() if usual.basis is Basis.COMMON_PRACTICE}
    assert practice == set(PRACTICE)


def test_every_usual_number_says_what_it_is_about_and_what_for() -> None:
    for usual in reference().usual.values():
        assert usual.subject
        assert usual.use
        assert usual.basis in Basis


def test_every_usual_number_ends_with_its_unit() -> None:
    units = {"um", "mm", "mm3", "m2", "mg", "share", "factor", "count", "minutes", "seconds", "hours", "hour"}
    units |= {"days", "weeks", "celsius"}
    for key in reference().usual:
        assert key.rsplit("_", 1)[1] in units, key


def test_counts_minutes_and_weights_are_whole() -> None:
    for key, usual in reference().usual.items():
        if key.endswith(("_mg", "_minutes", "_count", "_days", "_um")):
            assert usual.whole == usual.value, key


def test_the_arithmetic_rows_come_out_of_their_own_inputs() -> None:
    usual = reference().usual
    arithmetic = {key for key, row in usual.items() if row.basis is Basis.ARITHMETIC}
    area_mm2 = pi * 1.75**2 / 4
    again = {
        "ring_of_eight_growth_round_um": (8 * 150, 0.5),
        "ring_of_eight_growth_diameter_um": (8 * 150 / pi, 5),  # given to 0.01 mm
        "metre_of_abs_mg": (area_mm2 * 1000 * 1.05, 50),  # given to 0.1 g
        "metre_of_tpu_mg": (area_mm2 * 1000 * 1.21, 50),
        "purge_750_changes_two_heads_mg": (750 * 80 * 1.1, 500),  # given to 1 g
        "purge_750_changes_one_nozzle_mg": (750 * 300 * 1.1, 500),
    }
    assert arithmetic == set(again)
    for key, (expected, half_of_last_digit) in again.items():
        assert usual[key].value == pytest.approx(expected, abs=half_of_last_digit), key


def test_the_weights_of_the_priors_are_marked_as_our_choice() -> None:
    usual = reference().usual
    weights = ("prior_weight_starts_count", "prior_weight_hours", "prior_weight_ratio_prints_count")
    assert [usual[key].value for key in weights] == [10, 100, 10]
    assert {usual[key].basis for key in weights} == {Basis.OUR_CHOICE}


def test_clearances_are_told_per_face() -> None:
    # common practice: press 0-0.05, locating 0.1-0.2, sliding 0.2-0.3, loose 0.3-0.5 mm per face
    spans = {key: (row.per_face_um.low, row.per_face_um.high) for key, row in reference().clearances.items()}
    assert spans == {
        "press": (0, 50),
        "locating": (100, 200),
        "sliding": (200, 300),
        "loose": (300, 500),
    }


def test_a_print_class_has_the_usual_share_of_failures() -> None:
    # common practice: tuned small 3-5 %, large ABS/ASA 10-15 %, new two-material part 20-30 %
    shares = {key: row.failed_share for key, row in reference().print_classes.items()}
    assert {key: (share.low, share.high) for key, share in shares.items()} == {
        "tuned_small": (0.03, 0.05),
        "large_styrene": (0.10, 0.15),
        "first_two_material": (0.20, 0.30),
    }


def test_a_bond_waits_for_the_cautious_end_of_its_span() -> None:
    # common practice: solvent weld 24 h and 48-72 h; superglue 2 min and 24 h;
    # 5-minute epoxy 30 min and 24 h; slow epoxy 4-8 h and 24-72 h
    clocks = {
        key: (bond.handle_after_minutes.whole, bond.load_after_minutes.whole)
        for key, bond in reference().bonds.items()
    }
    assert clocks == {
        "solvent_weld": (24 * 60, 72 * 60),
        "superglue": (2, 24 * 60),
        "quick_epoxy": (30, 24 * 60),
        "slow_epoxy": (8 * 60, 72 * 60),
    }
    for bond in reference().bonds.values():
        assert bond.let_go_after_minutes.value <= bond.handle_after_minutes.value
        assert bond.handle_after_minutes.value <= bond.load_after_minutes.value


def test_every_polymer_says_how_to_dry_it_and_how_long_it_may_lie_open() -> None:
    # common practice: °C, hours; open half a day to four weeks
    dried = {
        key: (
            polymer.dry_celsius.low,
            polymer.dry_celsius.high,
            polymer.dry_minutes.low,
            polymer.dry_minutes.high,
        )
        for key, polymer in reference().polymers.items()
    }
    assert dried == {
        "PLA": (45, 50, 240, 360),
        "PETG": (60, 65, 240, 360),
        "ABS": (70, 80, 120, 240),
        "ASA": (70, 80, 120, 240),
        "TPU": (50, 60, 240, 480),
        "PA": (70, 90, 480, 720),
    }
    day = 24 * 60
    open_minutes = {key: polymer.open_minutes.value for key, polymer in reference().polymers.items()}
    assert open_minutes == {
        "PLA": 14 * day,
        "PETG": 7 * day,
        "ABS": 14 * day,
        "ASA": 14 * day,
        "TPU": day,
        "PA": day / 2,
    }


def test_densities_are_those_of_the_material_tables() -> None:
    # secondary tables named in shared/materials.toml; ASA and TPU 1.21 from memory
    densities = {key: polymer.density_mg_cm3.value for key, polymer in reference().polymers.items()}
    assert densities == {"PLA": 1240, "PETG": 1270, "ABS": 1050, "ASA": 1070, "TPU": 1210, "PA": 1140}


def test_styrene_bearing_polymers_are_smelly_and_so_is_nylon() -> None:
    polymers = reference().polymers
    assert {key for key, polymer in polymers.items() if polymer.styrene_bearing} == {"ABS", "ASA"}
    assert {key for key, polymer in polymers.items() if polymer.smelly} == {"ABS", "ASA", "PA"}


def test_a_printed_shrink_that_has_to_be_measured_is_none() -> None:
    unknown = {key for key, polymer in reference().polymers.items() if polymer.printed_shrink_percent is None}
    assert unknown == {"TPU", "PA"}


def test_every_caution_is_short_has_a_source_and_promises_nothing() -> None:
    cautions = reference().cautions
    assert {
        "unattended_print",
        "styrene",
        "solvent_bonding",
        "sanding_dust",
        "drying",
        "lifting",
        "on_person",
    } <= set(cautions)
    for caution in cautions.values():
        assert caution.source, caution.key
        assert 1 <= caution.text.count(". ") + 1 <= 2, caution.key
        assert "safe" not in caution.text.lower().split(), caution.key
    assert "local rules" in reference().deferral


def test_the_caution_on_acetone_gives_its_flash_point() -> None:
    # NAP Laboratory Chemical Safety Summary: flash point -18 °C, vapour heavier than air
    assert "-18 °C" in reference().cautions["solvent_bonding"].text


def test_the_tolerance_tables_are_there() -> None:
    # ISO 2768-1 by secondary copies: class m, over 30 up to 120 mm, ±0.3
    assert set(reference().tolerance_tables) == {"iso273", "iso286", "iso2768-1"}
    assert reference().default_tolerance_class == "c"


def test_a_slip_in_a_key_is_told_with_what_is_near() -> None:
    with pytest.raises(KeyError, match="real_over_estimated_hours"):
        reference().usual["real_over_estimated_hour"]


TABLES = ("usual", "clearances", "print_classes", "bonds", "polymers", "cautions", "tolerance_tables")


def test_every_key_written_in_the_program_is_in_the_data() -> None:
    asked = [
        (file.relative_to(ROOT), node.lineno, table, key)
        for file in sorted((ROOT / "buildlog").rglob("*.py"))
        for node in ast.walk(ast.parse(file.read_text("utf-8")))
        if isinstance(node, ast.Subscript)
        for table in [getattr(node.value, "attr", getattr(node.value, "id", None))]
        if table in TABLES
        for key in [getattr(node.slice, "value", None)]
        if isinstance(key, str)
    ]
    unknown = [found for found in asked if found[3] not in getattr(reference(), found[2])]
    assert unknown == []


def test_all_of_it_is_read_once() -> None:
    assert reference() is reference()
