"""What a measure on site really holds: buckets and pans, cement in them, sand that has swollen, the water in it."""

from decimal import Decimal

from calc import sources as s
from calc.checks import Limits, judge
from calc.errors import Unknown, require
from calc.geometry import frustum_volume


def bulking_from_jar(damp_height, flooded_height):
    """Return how much damp sand has swollen [share of its dry volume], from the jar test.

    Parameters
    ----------
    damp_height, flooded_height : float
        Height of the damp sand, and of the same sand stirred into water and settled; any one unit.

    Returns
    -------
    float
        Bulking; 0.25 means that 1.25 measures of damp sand are one of dry sand.

    Raises
    ------
    OutOfRange
        If the sand rose in water, or shows more than 40 %: the jar was misread.

    Notes
    -----
    b = X / Y - 1, because flooded sand lies as closely as dry sand.

    Examples
    --------
    >>> bulking_from_jar(15, 12)
    0.25
    """
    require("flooded_height", flooded_height, low=1e-9)
    require("damp_height", damp_height, low=flooded_height)
    return require("bulking", damp_height / flooded_height - 1, 0, s.BULKING_JAR_GREATEST)


def silt_share(silt_height, sand_height):
    """Return the silt of a sand [share of the sand's volume] from the bottle test.

    Parameters
    ----------
    silt_height, sand_height : float
        Height of the silt that settled on the sand, and of the sand below it; any one unit.

    Raises
    ------
    OutOfRange
        If there is more silt than sand: the two were changed, or it is no sand.

    Examples
    --------
    >>> silt_share(4, 100)
    0.04
    """
    require("sand_height", sand_height, low=1e-9)
    return require("silt_height", silt_height, 0, sand_height) / sand_height


def silt_stands(share, uncertainty=0.0):
    """Return how a silt content [share of the sand] stands: "within", "outside" (wash the sand), or "not_enough".

    Parameters
    ----------
    share : float
        Silt by volume.
    uncertainty : float
        How well it was measured [share]: a millimetre of rule over the height of the sand, or `half_place` of what was told.

    References
    ----------
    Biogas Plant Construction Manual, Kabul 2011: 3 % in the bottle test.

    Examples
    --------
    >>> silt_stands(0.02), silt_stands(0.04), silt_stands(0.035, 0.01)
    ('within', 'outside', 'not_enough')
    """
    require("silt", share, 0, 1)
    require("uncertainty", uncertainty, 0, 1)
    return judge([share], Limits(0.0, 1.0, float(s.SILT_GREATEST), uncertainty)).stands  # below there is no limit


def half_place(number):
    """Return how well a number is known that was read off and told: half of the last place it is written with, in its unit.

    Examples
    --------
    >>> half_place(3), half_place(30.0), round(half_place(1.5), 6)
    (0.5, 0.5, 0.05)
    """
    exponent = Decimal(repr(float(require("number", number)))).normalize().as_tuple().exponent
    return float(s.DIVISION) * 10.0 ** min(exponent, 0)


def wettest_moisture(bulking):
    """Return the greatest moisture [share of dry mass] at which medium sand bulks so much [share of its dry volume].

    Notes
    -----
    Sand bulks alike when it is damp and when it is nearly flooded; for the water it brings the wetter of the two counts.
    More bulking than the table has counts as its wettest peak.

    Raises
    ------
    OutOfRange
        If the bulking is negative or not a number.

    Examples
    --------
    >>> wettest_moisture(0.25), wettest_moisture(0.40), wettest_moisture(0.0)
    (0.08, 0.06, 0.2)
    """
    require("bulking", bulking, low=0)
    falling = [(moisture, float(rise)) for moisture, rise in s.BULKING_AT[::-1]]
    peak = max(falling, key=lambda row: row[1])  # of equal ones the wettest, which comes first
    wet_side = falling[: falling.index(peak) + 1]
    for (wet, low), (dry, high) in zip(wet_side, wet_side[1:], strict=False):
        if low <= bulking <= high:
            return wet + (dry - wet) * (bulking - low) / (high - low)
    return peak[0]


def bulking_of(sand):
    """Return the bulking to use for sand that is only called "dry", "damp" or "wet" [share of its dry volume].

    Raises
    ------
    Unknown
        For "dripping" sand too, which may bulk fully or not at all: it needs the jar test.

    Notes
    -----
    The smaller figure of each class: too much sand makes a weak mix, too little only a harsh one.

    Examples
    --------
    >>> float(bulking_of("damp"))
    0.15
    """
    if sand not in s.SAND_BULKING:
        raise Unknown(sand, s.SAND_BULKING)
    return s.SAND_BULKING[sand]


def moisture_of(sand):
    """Return the moisture to use for sand that is only called "dry", "damp", "wet" or "dripping" [kg/kg].

    Notes
    -----
    The wetter figure of each class, because it takes more from the water that is added.

    Examples
    --------
    >>> float(moisture_of("wet"))
    0.05
    """
    if sand not in s.SAND_MOISTURE:
        raise Unknown(sand, s.SAND_MOISTURE)
    return s.SAND_MOISTURE[sand]


def damp_volume(dry, bulking):
    """Return the volume of damp sand that holds a `dry` volume of sand, in the unit of `dry`.

    Examples
    --------
    70 l of dry sand that bulks 20 %:

    >>> damp_volume(70.0, 0.20)
    84.0
    """
    require("bulking", bulking, 0, s.BULKING_JAR_GREATEST)
    return dry * (1 + bulking)


def free_water_kg(dry_kg, moisture, absorption=0.0):
    """Return the water that damp sand or stone brings into a mix [kg]; below zero where it drinks water.

    Parameters
    ----------
    dry_kg : float
        Dry mass of the sand or stone [kg].
    moisture, absorption : float
        Water it holds, and water it keeps to itself [share of the dry mass].

    Examples
    --------
    >>> round(free_water_kg(1083, 0.06), 2)
    64.98
    """
    require("dry_kg", dry_kg, low=0, unit="kg")
    require("moisture", moisture, 0, s.BULKING_AT[-1][0])
    require("absorption", absorption, low=0)
    return dry_kg * (moisture - absorption)


def bag_volume_l(bag_kg, cement_bulk=s.CEMENT_BULK_KG_M3):
    """Return the volume of a bag of cement as filled in a gauge box [l].

    Examples
    --------
    >>> round(bag_volume_l(50), 2)
    34.72
    """
    require("bag_kg", bag_kg, low=1e-9, unit="kg")
    return bag_kg / cement_bulk * s.LITRES_PER_M3


def measure_l_from_rod(top_diameter_m, bottom_diameter_m, depth_m):
    """Return what a round bucket or pan holds, struck level [l], from its inside measures [m].

    Raises
    ------
    OutOfRange
        If a measure is not above zero.

    Notes
    -----
    V = pi h (D^2 + D d + d^2) / 12. A heaped pan holds 20 to 50 % more and is no measure.

    Examples
    --------
    A straight tin of 20 cm across and 32 cm deep:

    >>> round(measure_l_from_rod(0.20, 0.20, 0.32), 2)
    10.05
    """
    for name, value in {"top": top_diameter_m, "bottom": bottom_diameter_m, "depth": depth_m}.items():
        require(name, value, low=1e-9, unit="m")
    return frustum_volume(bottom_diameter_m / 2, top_diameter_m / 2, depth_m) * s.LITRES_PER_M3


def cement_per_measure_kg(bag_kg, measures, measure_l):
    """Return the cement in one struck measure [kg], from how many of them one whole bag fills.

    Parameters
    ----------
    bag_kg : float
        Mass of the bag [kg].
    measures : float
        How many struck measures the bag filled.
    measure_l : float
        What the measure holds [l].

    Raises
    ------
    OutOfRange
        If that makes cement lighter than 1.0 or heavier than 1.55 kg/l: the count or the measure is wrong.

    Examples
    --------
    A bag of 50 kg that fills four buckets of 10 l:

    >>> cement_per_measure_kg(50, 4, 10)
    12.5
    """
    require("bag_kg", bag_kg, low=1e-9, unit="kg")
    require("measures", measures, low=1e-9)
    require("measure_l", measure_l, low=1e-9, unit="l")
    lightest, heaviest = s.CEMENT_LOOSE_KG_M3
    require("cement_kg_m3", bag_kg / (measures * measure_l) * s.LITRES_PER_M3, lightest, heaviest, "kg/m3")
    return bag_kg / measures
