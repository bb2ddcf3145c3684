"""Where each behaviour of whole systems is held against a reference written apart, and what else was once not run.

A row names the tests; `test_behaviours_are_where_the_table_says` wants each of them to be there.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Row:
    """what: the behaviour. reference: what it is held against. tests: 'file::test', below tests/."""

    what: str
    reference: str
    tests: tuple[str, ...]


ELEMENTS, PARTS = "machine/test_behaviours.py", "machine/test_behaviours_of_parts.py"
AIR, CURRENT = "machine/test_air_and_suction_of_parts.py", "machine/test_current_and_petrol_of_parts.py"
RARE = "machine/test_rare_ways.py"

BEHAVIOURS = (
    Row("A jack stalls on its accumulator; a reversal brings the pump in", "scipy's integrator, plain laws",
        (f"{ELEMENTS}::test_a_jack_stalls_until_a_reversal_brings_the_pump_in",
         f"{PARTS}::test_a_jack_stalls_until_a_reversal_brings_the_pump_in")),
    Row("Stiff hinges: each reversal gains a little; with its usual load it goes all the way",
        "scipy's integrator, plain laws",
        (f"{ELEMENTS}::test_repeated_reversals_gain_a_little_each",
         f"{PARTS}::test_repeated_reversals_gain_a_little_each",
         f"{PARTS}::test_with_its_usual_load_it_goes_all_the_way_once_selected")),
    Row("A burst flap pipe with and without a pressure-maintaining valve", "scipy's integrator and root finder",
        (f"{AIR}::test_a_burst_flap_pipe_with_and_without_a_maintaining_valve",)),
    Row("Undercarriage lamp: switch, dimmer, filament, spare bulb, lock", "root finder and a circuit simulator",
        (f"{CURRENT}::test_the_undercarriage_lamp_through_switch_dimmer_and_spare_bulb",)),
    Row("One vacuum pump, two loads, the cock, half speed", "root finder",
        (f"{AIR}::test_one_pump_two_loads_and_the_cock_between",)),
    Row("An empty tank, its lamp, the selector, the cross-feed", "volume over flow",
        (f"{ELEMENTS}::test_a_tank_runs_dry_and_the_lamp_comes_a_second_later",
         f"{CURRENT}::test_the_lamp_comes_a_second_after_the_pressure_and_goes_on_cross_feed")),
    Row("Boost short of the gate", "a table worked by another program, and a fixed point written apart",
        ("parts/test_powerplant_charge.py::test_boost_short_of_the_gate",
         "parts/test_powerplant_charge.py::test_against_a_reference_written_apart")),
    Row("A spring brings the ram back when current or air is lost", "scipy's integrator, plain laws",
        (f"{ELEMENTS}::test_a_spring_brings_the_ram_back_when_the_bottle_leaks",
         f"{AIR}::test_a_spring_brings_the_ram_back_when_current_or_air_is_lost")),
    Row("A failing generator opens its cut-out; the battery runs down; ground/flight switch", "closed form, integrator",
        (f"{ELEMENTS}::test_a_failed_generator_opens_its_cut_out_and_the_battery_carries_on",
         f"{CURRENT}::test_a_dead_dynamo_leaves_the_battery_to_run_down_as_its_capacity_says")),
    Row("A hand pump raises one leg and two", "root finder and integrator",
        (f"{ELEMENTS}::test_a_hand_pump_raises_the_legs_in_its_time",
         f"{PARTS}::test_a_hand_pump_raises_the_legs_in_its_time")),
    Row("A thermostat and its radiator shutter, at once and through valve and ram", "two exponentials",
        ("machine/test_thermostat_of_parts.py::test_the_cycle_is_that_of_two_exponentials",
         "machine/test_thermostat_of_parts.py::test_with_valve_and_ram_between_it_goes_on_a_little_either_way")),
)  # fmt: skip

ONCE_NOT_RUN = (
    Row("Sequence valves and a shuttle valve in a network", "order of events, Boyle's law",
        ("parts/test_hydraulics_together.py::test_doors_go_before_the_leg_and_all_is_locked_in_the_end",
         "parts/test_hydraulics_together.py::test_with_the_pipe_gone_the_bottle_lowers_the_leg_and_the_lock_keeps_it")),
    Row("Brakes shared by lever and rudder bar, as a network", "lever times full pressure",
        ("parts/test_air.py::test_the_brakes_follow_the_lever",)),
    Row("Heating of a fuse", "its own heat, in closed form",
        ("parts/test_electrics.py::test_a_fuse_melts_the_sooner_the_more_it_carries",)),
    Row("Governor and starter", "the trade's limits",
        ("parts/test_powerplant.py::test_the_governor",
         "parts/test_powerplant.py::test_starting_needs_volts_ignition_and_petrol")),
    Row("Negative load factor", "delay by the clock",
        ("parts/test_fuel_supply.py::test_a_float_carburettor_is_upset_by_too_little_load_after_its_delay",
         "parts/test_fuel_supply.py::test_a_pressure_injection_carburettor_minds_pressure_and_no_load")),
    Row("Jumping over a long rest", "the same run without the rest",
        (f"{RARE}::test_a_day_of_rest_costs_next_to_nothing_and_the_next_change_comes_in_time",
         "machine/test_kernel.py::test_rest_is_found_and_a_run_until_rest_stops_there")),
    Row("A mode that flips too often", "named outcome",
        ("machine/test_kernel.py::test_a_buzzer_without_dwell_is_a_named_outcome_and_with_it_buzzes",
         "machine/test_kernel.py::test_a_ring_of_latches_is_a_named_outcome")),
    Row("A pivot that is nothing, inside a run", "numpy's dense solve",
        (f"{RARE}::test_a_run_that_needs_the_pivoted_solve_has_its_answer",
         f"{RARE}::test_an_ordinary_run_does_not_need_it")),
    Row("Lanes of one machine with different modes in each", "each lane alone, bit by bit",
        (f"{RARE}::test_lanes_of_one_machine_go_their_own_ways",)),
    Row("Many coupled media in one network", "order of events, conservation",
        (f"{RARE}::test_one_engine_and_one_bus_carry_four_media",
         f"{RARE}::test_the_turnstone_is_one_network_of_many_media")),
)  # fmt: skip

NOT_SUPPORTED = ("Oil shut in between closed cocks does not expand with heat.",)
