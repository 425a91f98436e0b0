"""How a planting is grown, as far as its dates depend on it: rules of practice in one place.

Each rule here is common practice without a published source unless it says otherwise.
"""

from __future__ import annotations

import datetime as dt

from planner.crops import Crop
from planner.garden import Planting
from planner.garden.planting_figures import PlantingFigures
from planner.ground.bed_spacing import spacings

# -- indoors --------------------------------------------------------------------------------------

#: Hardening off before setting out; 7 to 10 days are usual. [days]
HARDENING = 8
#: From emergence to pricking out. [days]
PRICKING = 10
#: Seedlings raised for fewer weeks are sown into their own cells and not pricked out. [weeks]
PRICKED_FROM = 5

# -- coming up ------------------------------------------------------------------------------------

#: Emergence of seed where the catalogue has no table, or no temperatures are known. [days]
EMERGENCE = 10
#: Emergence of tubers where the catalogue has no table, or no temperatures are known. [days]
TUBERS_EMERGE = 28
#: Least share of days to maturity counted from emergence, however late the cold lets it come up.
AFTER_EMERGENCE = 0.7

# -- what a beginning brings ------------------------------------------------------------------------

#: Age of plants bought in, as a share of the weeks for which its crop is usually raised: plugs are sold young, pots with
#: flowers late.
AGE_BOUGHT = {"plugs": 0.5, "large plants": 1.5}
#: Sprouted tubers come up 10 to 14 days sooner than others (sunnyslope_chitting). [days]
SPROUTED_SOONER = 12
#: A crop that is planted in spring counts that year among those it waits, up to so long after its season. [days]
SPRING_COUNTS = 90
#: Bushes and crowns bought large bear a year sooner than usual ones, cuttings a year later. [years]
YEARS_BOUGHT = {"large plants": -1, "cuttings": 1}
#: Least time from planting to the first harvest of what stays for years and is bought large. [days]
LARGE_BEAR_AFTER = 150

# -- on the plot ----------------------------------------------------------------------------------

#: From emergence to thinning. [days]
THINNING = 14
#: Chance that a station comes up, at least: where one seed has less, several are sown and thinned to one.
STATION_SURE = 0.95
#: What is planted farther ahead of the last spring frost lies through a winter. [days]
WINTER_AHEAD = 100
#: What is picked over some time is picked again after so many days (practice). [days]
PICKED_AGAIN = 7

# -- covers ---------------------------------------------------------------------------------------

#: Covers that warm what grows under them.
WARMING = ("fleece", "cloche", "low tunnel")
#: Fleece or hoops stay over a tender crop after setting out. [days]
SHELTER = 14
#: Mulching film is laid before a warm-loving crop is set out, to warm the soil. [days]
FILM_AHEAD = 7
#: Most days before its first harvest that a planting may be cleared: the day of the harvest is not that exact. [days]
CLEARED_SOONER = 3
#: The same for what stood for half a year or more, as over a winter: its spring decides. [days]
CLEARED_SOONER_IN_SPRING = 14
#: Half a year. [days]
_HALF_A_YEAR = 180
#: What stays for years is covered before its first harvest. [days]
COVER_BEFORE_HARVEST = 14
#: First autumn frost under glass, after that of the open ground. [days]
UNDER_GLASS = 28

# -- flowering ------------------------------------------------------------------------------------

#: Share of the time from emergence or setting out to harvest after which a fruiting crop flowers (estimate).
FLOWERING = 0.5
#: Crops whose fruit is picked young.
PICKED_YOUNG = ("courgette", "cucumber", "gherkin")
#: From flower to harvest of fruit picked young. [days]
YOUNG = 10
#: From flower to first harvest of what stays for years (estimate). [days]
SETTING = 28

# -- the start ------------------------------------------------------------------------------------

#: A start this far outside its window is pointed out. [days]
OUTSIDE = 7
#: Ways to start from a part that is lifted at harvest.
LIFTED = ("cloves", "sets", "tubers")

# -- the harvest ----------------------------------------------------------------------------------

#: Short days: added to a crop that ripens in autumn, and again to one frost would kill
#: (Virginia Cooperative Extension 426-334). [days]
FALL_FACTOR = 14
#: Harvest allowed for when counting back from the frost, at most. [days]
COUNTED_HARVEST = 21
#: A crop with so many days to maturity lives through a winter by its nature. [days]
LONG_CROP = 200
#: Share of its heat with which what bears frost is picked, if small, once cold and dark have stopped it (practice).
GROWN_AT_REST = 0.75
#: Share of its heat with which a crop may still ripen: figures and monthly means are no more exact.
HEAT_ENOUGH = 0.9
#: Least time for tubers that swell in short days, from the day they begin to the frost (estimate). [days]
SHORT_DAYS_FOR_TUBERS = 21
#: What takes so many days from spring bears the year after, as foxgloves do: it is not started in autumn instead. [days]
BEARS_NEXT_YEAR = 300
#: Crops that stay for years and whose shoots are cut as they come up in spring.
CUT_AS_THEY_SPROUT = frozenset({"asparagus", "rhubarb", "sea_kale"})
#: Crops that bear the year after they are set in late summer.
SUMMER_SET = ("strawberry",)
#: Least time from setting in late summer to that harvest. [days]
BEAR_AFTER_WINTER = 290
#: Crops lifted and dried before they are stored, and for how long; 7 to 21 days are usual. [days]
CURED: dict[str, int] = {
    "elephant_garlic": 21,
    "garlic": 21,
    "japanese_onion": 14,
    "onion": 14,
    "potato": 10,
    "pumpkin": 10,
    "shallot": 14,
    "sweet_potato": 7,
    "winter_squash": 10,
}
#: Products that are planted again, of what comes again from them.
_PLANTED_AGAIN = ("bulbs", "tubers")
#: Onions from sets planted in autumn keep 2 to 3 months only (Mason K, Simply Vegetables, April 2022). [days]
AUTUMN_SETS_KEEP = 75

# -- cloves and bulbs, which ripen by the length of the day ---------------------------------------

#: Cloves of autumn are ripe this long before the longest day, or ... [days]
BEFORE_LONGEST = 25
#: ... this long after the last spring frost, whichever is later. [days]
AFTER_FROST = 70
#: Cloves planted in spring are ripe this long after those of autumn. [days]
SPRING_CLOVES_LATER = 14
#: Least time to maturity of cloves planted in spring. [days]
SPRING_CLOVES = 90

# -- frost and winter -----------------------------------------------------------------------------

#: A crop that bears light frost still ripens this long after the first one. [days]
LIGHT_FROST = 28
#: A very hardy crop still ripens this long after the first frost. [days]
HARD_FROST = 42
#: Started at most this long before the first frost, a crop that would ripen after it is caught small. [days]
CAUGHT_SMALL = 56
#: The same of a crop to which the gardener gave a last day beyond the winter. [days]
CAUGHT_IF_KEPT = 84
#: Growth resumes this long after the last spring frost (negative: before) where no window is known. [weeks]
RESUMES = -4
#: A spring frost due this soon after a start is the end of the winter behind it. [days]
WINTER_OVER = 28
#: A day this long after the first autumn frost lies beyond the winter. [days]
BEYOND_WINTER = 120
#: Cold this little below what a plant bears does it no harm. [deg C]
BEARS = 3.0
#: Green manure sown less than this before the first autumn frost, or after it, lives through the winter. [days]
SOWN_LATE = 70
#: Green manure of autumn is dug in this long before the last spring frost. [days]
DIGGING_IN = 28


def tender(crop: Crop | None) -> bool:
    """Whether frost kills the crop."""
    return (
        crop is not None and crop.hardiness is not None and crop.hardiness.value in ("tender", "warm-loving")
    )


def very_hardy(crop: Crop | None) -> bool:
    """Whether hard frost does the crop no harm."""
    return crop is not None and crop.hardiness is not None and crop.hardiness.value == "very hardy"


def lifted_as_seed(crop: Crop | None, start: str) -> bool:
    """Whether what is kept of it for planting is lifted when its crop is, and no seed has to ripen.

    So it is with bulbs and tubers of perennials; onions are biennial: their bulbs flower.

    Parameters
    ----------
    crop : Crop, optional
    start : str
        How the planting starts.
    """
    product = crop.product.value if crop is not None and crop.product is not None else None
    again = product in _PLANTED_AGAIN and crop is not None and crop.life_cycle == "perennial"
    return start in LIFTED and again


def frost_cuts_shoots(crop: Crop | None, start: str) -> bool:
    """Whether frost cuts its shoots though its class is hardy, as it does those of potatoes (uiuc_planting2017).

    Parameters
    ----------
    crop : Crop, optional
    start : str
        How the planting starts.
    """
    bears = crop.number("least_night_temperature") if crop is not None else None
    return start == "tubers" and not tender(crop) and bears is not None and bears > 0


def lifted_after_frost(crop: Crop | None) -> bool:
    """Whether frost kills its leaves and its tubers are lifted then, as those of oca and yacon."""
    if crop is None or crop.product is None or crop.harvest_ends is None or not tender(crop):
        return False
    return crop.product.value == "tubers" and crop.harvest_ends.value == "dies back"


def waits_for_short_days(crop: Crop | None) -> bool:
    """Whether its tubers swell in days shorter than 12 h only, as those of oca (nrc1989_incas)."""
    days = crop.day_length_class if crop is not None else None
    return days is not None and days.value == "short-day" and lifted_after_frost(crop)


def stays_for_years(crop: Crop | None) -> bool:
    """Whether a crop is left in its ground for years.

    Botany alone does not say so (tomato and garlic are perennials): it must also be planted as
    crowns or be found grown already, or bear hard frost and not be lifted for its root or bulb.
    """
    if crop is None or crop.life_cycle != "perennial":
        return False
    starts = crop.starts.value if crop.starts else ()
    if "standing" in starts or "crowns" in starts:
        return True
    lifted = crop.growth_form in ("root", "bulb") and crop.usual_start != "bought"
    return very_hardy(crop) and crop.usual_start not in LIFTED and not lifted


def start_of(planting: Planting, figures: PlantingFigures) -> str:
    """How a planting starts: as it says, else as its crop usually does."""
    return planting.start or (figures.crop.usual_start if figures.crop else "sown")


def weeks_grown(start: str, state: str | None, weeks: float) -> float:
    """Weeks for which a planting has grown when it takes its plot. [weeks]

    Parameters
    ----------
    start : str
        How it starts.
    state : str, optional
        In which it is bought in.
    weeks : float
        For which its crop is usually raised. [weeks]
    """
    if start == "bought":
        return AGE_BOUGHT.get(state or "", 1.0) * weeks
    return weeks if start == "raised" else 0.0


def is_unsprouted(start: str, state: str | None) -> bool:
    """Whether a planting begins with tubers that have not been sprouted."""
    return start == "tubers" and state == "unsprouted"


def from_seed(crop: Crop | None, start: str) -> bool:
    """Whether a planting grows from seed, of a crop whose days to maturity are those of its sets."""
    grown = start in ("sown", "raised", "bought")
    return grown and crop is not None and crop.number("days_from_seed") is not None


def sowing_of(planting: Planting, figures: PlantingFigures) -> str:
    """How a sown planting is sown: ``drill``, ``stations`` or ``broadcast``.

    As its arrangement or itself says, else in a drill where the crop is thinned.
    """
    if planting.arrangement.kind == "scatter":
        return "broadcast"
    if planting.arrangement.kind == "places":
        return "stations"
    if planting.sowing is not None:
        return planting.sowing
    return "drill" if figures.number("sowing_spacing") is not None else "stations"


def _final_spacing(planting: Planting, figures: PlantingFigures) -> float | None:
    """Distance from plant to plant in the row after thinning; None if unknown. [m]"""
    arrangement = planting.arrangement
    if arrangement.kind in ("rows", "staggered") and arrangement.spacing_for == "beds":
        return spacings(arrangement, figures)[0]
    return figures.number("in_row_spacing")


def is_thinned(planting: Planting, figures: PlantingFigures) -> bool:
    """Whether a sown planting is thinned: a drill, or several seeds to a station."""
    sowing = sowing_of(planting, figures)
    if planting.purpose == "green manure" or sowing == "broadcast":
        return False
    if sowing == "drill":
        sown, final = figures.number("sowing_spacing"), _final_spacing(planting, figures)
        return sown is not None and final is not None and sown < final - 1e-9
    germination = figures.number("germination")
    return germination is not None and germination < STATION_SURE


def cleared_sooner(begun: dt.date, clear: dt.date) -> int:
    """Most days before its first harvest that a planting may be cleared. [days]

    Parameters
    ----------
    begun, clear : date
        The first and last day on its plot.
    """
    return CLEARED_SOONER_IN_SPRING if (clear - begun).days >= _HALF_A_YEAR else CLEARED_SOONER
