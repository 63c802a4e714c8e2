"""From the code at the foot of a page back to the pack that it belongs to."""

from generator.packs.codes import LOOK_AGAIN, TEACHERS_OTHERS, CodeError, PageCode, spec_signs
from specs.digest import digest_of
from specs.languages.saying import say
from specs.looks import Look
from specs.spec import Spec


def read_code(text: str, spec: Spec) -> PageCode:
    """The code of a page of a spec's pack. Raises CodeError when it is not one."""
    code = PageCode.parse(text)
    signs = spec_signs(digest_of(spec))
    if code.spec != signs:
        raise CodeError(
            say(
                "{code} is not of this spec: {spec} has {signs} where the code has {other_signs}",
                code=code,
                spec=spec.name,
                signs=signs,
                other_signs=code.spec,
            ),
            say("name the spec that the sheet was made from, as it stood then"),
        )
    if code.section > len(spec.sections) + TEACHERS_OTHERS:  # the key comes after the last
        what = say("{code} is of a section that this spec does not have", code=code)
        raise CodeError(what, LOOK_AGAIN)
    try:
        Look.numbered(code.look)
    except ValueError:
        what = say("{code} is of a newer Rungsheet", code=code)
        raise CodeError(what, say("bring this one up to date")) from None
    return code
