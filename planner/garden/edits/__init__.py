"""Edits: pure functions from a garden to a garden.

An edit that is not possible raises an :class:`EditError` of one line and changes nothing.
"""

from planner.garden.edits.bed_ranges import BedRange, add_bed_range
from planner.garden.edits.beds import (
    add_bed,
    align_beds,
    change_bed,
    move_things,
    resize_bed,
    turn_things,
)
from planner.garden.edits.beginning import Beginning, begin_garden
from planner.garden.edits.benches import put_bench, remove_bench
from planner.garden.edits.common import EditError, checked, fresh_id, fresh_name
from planner.garden.edits.conflicts import settle
from planner.garden.edits.frost_days import set_frost_days
from planner.garden.edits.household import (
    change_household,
    keep_in,
    put_store_place,
    remove_store_place,
    set_eaten,
)
from planner.garden.edits.learning import choose_learned, use_learned
from planner.garden.edits.materials import put_dressing, put_shed_item, remove_material
from planner.garden.edits.offers import arrived, put_offer, put_planting_stock, remove_offer
from planner.garden.edits.ordering import (
    array_things,
    lock_things,
    match_size,
    mirror_things,
    space_things,
)
from planner.garden.edits.outcomes import plant_again, sow_anew
from planner.garden.edits.own_plants import (
    own_key,
    own_plants_of,
    put_crop,
    put_source,
    remove_own,
    take_own,
)
from planner.garden.edits.parts import (
    change_climate,
    change_site,
    change_weather,
    put_lot,
    put_variety,
    remove_part,
)
from planner.garden.edits.plantings import (
    add_planting,
    change_planting,
    draw_support,
    move_places,
    move_planting,
    plant,
    remove_places,
    split_planting,
)
from planner.garden.edits.records import add_records, change_record, remove_records
from planner.garden.edits.shifts import shift_planting
from planner.garden.edits.structures import add_structure, change_structure
from planner.garden.edits.things import duplicate, paste, remove
from planner.garden.edits.ticks import tick, untick
from planner.garden.edits.trials import lay_trial, put_trial, remove_trials
from planner.garden.edits.underlay import change_underlay, remove_underlay, scale_underlay
from planner.garden.edits.waivers import unwaive, waive
from planner.garden.edits.walk import moved_in_order, walk_in_order
from planner.garden.edits.wishes import add_wishes, put_wish, remove_wishes
from planner.garden.edits.year_notes import put_year_note

__all__ = [
    "BedRange",
    "Beginning",
    "EditError",
    "add_bed",
    "add_bed_range",
    "add_planting",
    "add_records",
    "add_structure",
    "add_wishes",
    "align_beds",
    "array_things",
    "arrived",
    "begin_garden",
    "change_bed",
    "change_climate",
    "change_household",
    "change_planting",
    "change_record",
    "change_site",
    "change_structure",
    "change_underlay",
    "change_weather",
    "checked",
    "choose_learned",
    "draw_support",
    "duplicate",
    "fresh_id",
    "fresh_name",
    "keep_in",
    "lay_trial",
    "lock_things",
    "match_size",
    "mirror_things",
    "move_places",
    "move_planting",
    "move_things",
    "moved_in_order",
    "own_key",
    "own_plants_of",
    "paste",
    "plant",
    "plant_again",
    "put_bench",
    "put_crop",
    "put_dressing",
    "put_lot",
    "put_offer",
    "put_planting_stock",
    "put_shed_item",
    "put_source",
    "put_store_place",
    "put_trial",
    "put_variety",
    "put_wish",
    "put_year_note",
    "remove",
    "remove_bench",
    "remove_material",
    "remove_offer",
    "remove_own",
    "remove_part",
    "remove_places",
    "remove_records",
    "remove_store_place",
    "remove_trials",
    "remove_underlay",
    "remove_wishes",
    "resize_bed",
    "scale_underlay",
    "set_eaten",
    "set_frost_days",
    "settle",
    "shift_planting",
    "sow_anew",
    "space_things",
    "split_planting",
    "take_own",
    "tick",
    "turn_things",
    "untick",
    "unwaive",
    "use_learned",
    "waive",
    "walk_in_order",
]
