"""Botanical families by the names that growers use (practice)."""

from __future__ import annotations

from planner.words import later, say

#: English names of the families of the catalogue.
ENGLISH = {
    "Actinidiaceae": later("kiwi family"),
    "Aizoaceae": later("ice plant family"),
    "Amaranthaceae": later("beet family"),
    "Amaryllidaceae": later("onion family"),
    "Apiaceae": later("carrot family"),
    "Asparagaceae": later("asparagus family"),
    "Asteraceae": later("daisy family"),
    "Boraginaceae": later("borage family"),
    "Brassicaceae": later("cabbage family"),
    "Caprifoliaceae": later("honeysuckle family"),
    "Caryophyllaceae": later("carnation family"),
    "Convolvulaceae": later("bindweed family"),
    "Cucurbitaceae": later("cucumber family"),
    "Elaeagnaceae": later("oleaster family"),
    "Ericaceae": later("heather family"),
    "Fabaceae": later("pea family"),
    "Gentianaceae": later("gentian family"),
    "Grossulariaceae": later("currant family"),
    "Iridaceae": later("iris family"),
    "Lamiaceae": later("mint family"),
    "Lauraceae": later("bay family"),
    "Liliaceae": later("lily family"),
    "Malvaceae": later("mallow family"),
    "Montiaceae": later("miner's lettuce family"),
    "Moraceae": later("mulberry family"),
    "Oxalidaceae": later("wood sorrel family"),
    "Paeoniaceae": later("peony family"),
    "Papaveraceae": later("poppy family"),
    "Plantaginaceae": later("plantain family"),
    "Plumbaginaceae": later("leadwort family"),
    "Poaceae": later("grass family"),
    "Polygonaceae": later("rhubarb family"),
    "Portulacaceae": later("purslane family"),
    "Ranunculaceae": later("buttercup family"),
    "Rosaceae": later("rose family"),
    "Solanaceae": later("potato family"),
    "Tropaeolaceae": later("nasturtium family"),
    "Verbenaceae": later("vervain family"),
    "Viburnaceae": later("elder family"),
    "Vitaceae": later("grape family"),
}
#: German names, by which a family is found and read in notes.
GERMAN = {
    "Actinidiaceae": "Strahlengriffelgewächse",
    "Aizoaceae": "Mittagsblumengewächse",
    "Amaranthaceae": "Gänsefußgewächse",
    "Amaryllidaceae": "Lauchgewächse",
    "Apiaceae": "Doldenblütler",
    "Asparagaceae": "Spargelgewächse",
    "Asteraceae": "Korbblütler",
    "Boraginaceae": "Raublattgewächse",
    "Brassicaceae": "Kreuzblütler",
    "Caprifoliaceae": "Geißblattgewächse",
    "Caryophyllaceae": "Nelkengewächse",
    "Convolvulaceae": "Windengewächse",
    "Cucurbitaceae": "Kürbisgewächse",
    "Elaeagnaceae": "Ölweidengewächse",
    "Ericaceae": "Heidekrautgewächse",
    "Fabaceae": "Hülsenfrüchtler",
    "Gentianaceae": "Enziangewächse",
    "Grossulariaceae": "Stachelbeergewächse",
    "Iridaceae": "Schwertliliengewächse",
    "Lamiaceae": "Lippenblütler",
    "Lauraceae": "Lorbeergewächse",
    "Liliaceae": "Liliengewächse",
    "Malvaceae": "Malvengewächse",
    "Montiaceae": "Quellkrautgewächse",
    "Moraceae": "Maulbeergewächse",
    "Oxalidaceae": "Sauerkleegewächse",
    "Paeoniaceae": "Pfingstrosengewächse",
    "Papaveraceae": "Mohngewächse",
    "Plantaginaceae": "Wegerichgewächse",
    "Plumbaginaceae": "Bleiwurzgewächse",
    "Poaceae": "Süßgräser",
    "Polygonaceae": "Knöterichgewächse",
    "Portulacaceae": "Portulakgewächse",
    "Ranunculaceae": "Hahnenfußgewächse",
    "Rosaceae": "Rosengewächse",
    "Solanaceae": "Nachtschattengewächse",
    "Tropaeolaceae": "Kapuzinerkressengewächse",
    "Verbenaceae": "Eisenkrautgewächse",
    "Viburnaceae": "Moschuskrautgewächse",
    "Vitaceae": "Weinrebengewächse",
}


def family_title(family: str) -> str:
    """A botanical family as it stands by itself; one that is not in the catalogue has its Latin name alone.

    Examples
    --------
    >>> family_title("Fabaceae"), family_title("Zingiberaceae")
    ('pea family (Fabaceae)', 'Zingiberaceae')
    """
    if family not in ENGLISH:
        return family
    return say("{family} ({latin})", family=say(ENGLISH[family]), latin=family)


def family_words(family: str) -> str:
    """A botanical family in a sentence.

    Examples
    --------
    >>> family_words("Fabaceae"), family_words("Zingiberaceae")
    ('the pea family (Fabaceae)', 'Zingiberaceae')
    """
    if family not in ENGLISH:
        return family
    # For translators: an English family has an article in a sentence.
    return say("the {family} ({latin})", family=say(ENGLISH[family]), latin=family)


def names_of_family(family: str) -> tuple[str, ...]:
    """All names by which a family may be asked for: Latin, that of the program's language, German."""
    known = (say(ENGLISH[family]), GERMAN[family]) if family in ENGLISH else ()
    return tuple(name for name in (family, *known) if name)
