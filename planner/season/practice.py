"""How a planting is grown, as far as its dates depend on it: rules of practice in one place.

Each rule here is common practice without a published source unless it says otherwise.
"""

from __future__ import annotations

from planner.crops import Crop
from planner.garden import Planting
from planner.garden.planting_figures import PlantingFigures

#: Young plants are hardened off for 7 to 10 days. [days]
HARDENING = 8
#: Seedlings are pricked out so long after they have come up ... [days]
PRICKING = 10
#: ... where they are raised at least so long; those raised for less are sown into their own cells. [weeks]
PRICKED_FROM = 5
#: A drill is thinned so long after it has come up. [days]
THINNING = 14
#: Whatever the cold held back, a crop has this share of its days still before it when it comes up (practice).
AFTER_EMERGENCE = 0.7
#: Days to emergence where the catalogue has no table, or no temperatures are known: of seed, and of tubers. [days]
EMERGENCE, TUBERS_EMERGE = 10, 28
#: Fleece or hoops over a tender crop come off so long after setting out. [days]
SHELTER = 14
#: Mulching film lies so long before a warm-loving crop is set out, to warm the soil. [days]
FILM_AHEAD = 7
#: Share of the time from emergence to harvest after which a fruiting crop flowers (estimate).
FLOWERING = 0.5
#: Fruit picked young is picked so soon after its flower (practice). [days]
PICKED_YOUNG, YOUNG = ("courgette", "cucumber"), 10
#: What stands for years flowers so long before its first fruit is picked (estimate). [days]
SETTING = 28
#: Potatoes are earthed up so long after they have come up (when 15 to 20 cm high). [days]
EARTHING = 14
EARTHED = ("potato", "jerusalem_artichoke")
#: Autumn cloves are mulched so long after planting. [days]
MULCHING = 21
#: Plants that stand for years are mulched so long before the last spring frost. [days]
SPRING_MULCH = 28
#: A start so far outside its window is pointed out. [days]
OUTSIDE = 7
#: Set in late summer these bear the next year already, after so many days (practice). [days]
SUMMER_SET, BEAR_AFTER_WINTER = ("strawberry",), 290
#: Crops lifted and dried before they are stored, and for how many days (7 to 21).
CURED: dict[str, int] = {
    "garlic": 21,
    "onion": 14,
    "potato": 10,
    "pumpkin": 10,
    "shallot": 14,
    "sweet_potato": 7,
    "winter_squash": 10,
}
#: Short days: added to a crop that ripens in autumn, and again to one frost would kill
#: (Virginia Cooperative Extension 426-334). [days]
FALL_FACTOR = 14
#: Harvest reckoned with in a count-back, at most. [days]
COUNTED_HARVEST = 21
#: A crop that takes so long stands through a winter by its nature. [days]
LONG_CROP = 200
#: A crop that stands light frost still ripens so long after the first one. [days]
LIGHT_FROST = 28
#: Warmth under glass in summer with its doors open, under fleece, cloche or low tunnel, and on film (practice;
#: unh_rowcover). [deg C]
GLASS_WARMS, COVER_WARMS, FILM_WARMS = 3.0, 2.0, 1.0
#: A crop that finds this share of its heat may still ripen: figures and monthly means are not nearer (practice).
HEAT_ENOUGH = 0.9
#: Frost comes so much later under glass (practice). [days]
UNDER_GLASS = 28
#: Fleece, cloche or low tunnel lets plants out so much sooner (practice; unh_rowcover). [days]
UNDER_COVER = 14
#: Hardy in the ground by their class, yet frost cuts their shoots (uiuc_hardiness says so of the potato).
TENDER_SHOOTS = ("potato",)
#: Cloves ripen by the length of the day, so long before the longest or so long after the last frost, whichever is
#: later (practice). [days]
BEFORE_LONGEST, AFTER_FROST = 25, 70
#: Planted in spring they are ripe so much after those of autumn, and not in fewer days than this (practice). [days]
SPRING_CLOVES_LATER, SPRING_CLOVES = 14, 90
#: Bulbs that swell in long days: from sets planted in autumn they wait for those of the next year.
LONG_DAY_BULBS = ("onion", "shallot")
#: A spring frost due so soon after a start is the end of the winter behind it. [days]
WINTER_OVER = 28
#: A day so long after the first frost lies beyond the winter. [days]
BEYOND_WINTER = 120
#: Cold this little below what a plant bears does it no harm (practice). [deg C]
BEARS = 3.0
#: Autumn-sown green manure is dug in so long before the last spring frost. [days]
DIGGING_IN = 28

#: Onions from sets planted in autumn keep 2 to 3 months only (Mason K, Simply Vegetables, April 2022). [days]
AUTUMN_SETS_KEEP = 75

LIFTED = ("cloves", "sets", "tubers")


def tender(crop: Crop | None) -> bool:
    """Whether frost kills the crop."""
    return (
        crop is not None and crop.hardiness is not None and crop.hardiness.value in ("tender", "warm-loving")
    )


def very_hardy(crop: Crop | None) -> bool:
    """Whether hard frost does the crop no harm."""
    return crop is not None and crop.hardiness is not None and crop.hardiness.value == "very hardy"


def frost_cuts_shoots(crop: str, start: str) -> bool:
    """Whether frost cuts its shoots though its class is hardy."""
    return start == "tubers" and crop in TENDER_SHOOTS


def stays_for_years(crop: Crop | None, planting: Planting | None = None) -> bool:
    """Whether a crop is left in its ground for years.

    Botany alone does not say so (tomato and garlic are perennials): it must also be planted as
    crowns or be found standing, or stand hard frost and not be lifted for its root or bulb.
    """
    if crop is None or crop.life_cycle != "perennial":
        return False
    ways = crop.starts.value if crop.starts else ()
    if "standing" in ways or "crowns" in ways:
        return True
    lifted = crop.growth_form in ("root", "bulb") and crop.usual_start != "bought"
    return very_hardy(crop) and crop.usual_start not in LIFTED and not lifted


def start_of(planting: Planting, crop: Crop | None) -> str:
    """How a planting starts: as it says, else the crop's usual way."""
    return planting.start or (crop.usual_start if crop else "sown")


def is_thinned(planting: Planting, figures: PlantingFigures) -> bool:
    """Whether a sown planting is thinned: a drill, or several seeds to a station."""
    if planting.purpose == "green manure" or planting.arrangement.kind == "scatter":
        return False
    apart, stand = figures.number("sowing_spacing"), figures.number("in_row_spacing")
    drilled = planting.arrangement.kind != "places" and (
        planting.sowing == "drill" or (planting.sowing is None and apart is not None)
    )
    if drilled:
        return apart is not None and stand is not None and apart < stand - 1e-9
    germination = figures.number("germination")
    return germination is not None and germination < 0.95
