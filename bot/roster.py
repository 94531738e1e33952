"""The people of a programme file, their numbers as they are kept: E.164, of the programme's region where no country is written."""

from typing import Annotated, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, field_validator

from bot.channels.numbers import e164, is_region
from bot.people import MOST, called
from bot.tongue import LANGUAGES

# who answers in a supervisor's place, and who in the end; "all" stands for every site of the file
ROLE = r"^((mason|farmer) [A-Z]{2}[0-9]{2}|(supervisor|deputy|head) ([A-Z]{2}[0-9]{2}|all))$"
Said = Annotated[str, Field(min_length=1, max_length=80)]


class Strict(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


def _a_country(code):
    if not is_region(code):
        raise ValueError(f"no country {code}: two letters of ISO 3166")
    return code


Region = Annotated[str, AfterValidator(_a_country)]


class PersonRow(Strict):
    """Somebody: his number, his language and units, and his roles as "mason TB07"."""

    short: Annotated[str, Field(pattern=r"^[a-z][a-z0-9]{1,19}$")]
    name: Said
    number: str
    language: Literal[LANGUAGES] = "en"
    units: Literal["metric", "feet"] = "metric"
    roles: list[Annotated[str, Field(pattern=ROLE)]]

    @field_validator("number")
    @classmethod
    def _can_be_rung(cls, number):
        if e164(number, None) != number:
            raise ValueError(f"{number} is no number of a phone: write it with + and the country, or set region in [programme]")
        return number


def crowded(people):
    """What is wrong with numbers that several have: they are told apart by name, and the question who writes has room for few."""
    for number in sorted({row.number for row in people}):
        names = [called(row.name) for row in people if row.number == number]
        if len(names) > MOST:
            yield f"{number}: {len(names)} people on one number, at most {MOST}"
        elif len(set(names)) < len(names):
            yield f"{number}: two people of one name on one number"


def overlooked(people):
    """What is wrong with numbers of supervisors: whoever holds the phone could decide for one."""
    for row in people:
        others = [each.name for each in people if each.number == row.number and each is not row]
        if others and any(role.startswith("supervisor ") for role in row.roles):
            yield f"{row.number}: a supervisor decides from a number of his own, but {', '.join(others)} has that of {row.name} too"


def stored(page, people, codes, now, back=()):
    """Write the people of a file to the book; return (row, his ways now) of each whose number was taken off since and stays so.

    It is given back to whom `back` names by short name, and so are roles that were taken off. A role ends that a file gave and
    none gives any more; one given by message stays.
    """
    numbers, off, given = [row.number for row in people], [], set()
    for row in people:
        own = row.model_dump(exclude={"roles"})
        person_id, stays = page.save_filed(**own, now=now, alone=numbers.count(row.number) == 1, back=row.short in back)
        if stays:
            off.append((row, [number for _, number in page.ways(page.person(id=person_id))]))
        for said in row.roles:
            name, where = said.split()
            for code in codes if where == "all" else (where,):
                given.add((person_id, code, name))
                page.file_role(person_id, code, name, row.short in back)
    page.end_filed(given)
    return off


def whole_numbers(told):
    """A programme file as it was read, with every number of a person that can be one in E.164; what cannot stays for its own check."""
    head, people = (told.get(name) for name in ("programme", "person")) if isinstance(told, dict) else (None, None)
    region = head.get("region") if isinstance(head, dict) else None
    if not isinstance(people, list) or not (region is None or (isinstance(region, str) and is_region(region))):
        return told
    return told | {"person": [_whole(row, region) for row in people]}


def _whole(row, region):
    number = row.get("number") if isinstance(row, dict) else None
    return row | {"number": e164(number, region) or number} if isinstance(number, str) else row
