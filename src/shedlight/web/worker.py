"""The process that works things out for the page: one JSON line in, one JSON line out.

Jobs that take long tell how far they are: lines of their own before the answer.

It stands apart from the server so that a computation that hangs can be ended, and so that
pointing and typing never wait for one.
"""

import json
import os
import sys
import traceback
from functools import partial
from typing import Any

from shedlight.errors import DescriptionError, ImpossibleShapeError, InputError, Problem

READY = {"ready": True}
MEANWHILE = "meanwhile"  # stands around what comes before the answer
FAULT = "a fault of shedlight's own, please report it"


def main() -> None:
    """Answer requests until the other end closes."""
    # What a library prints must not get between the answers.
    answers = os.fdopen(os.dup(1), "w", encoding="utf-8")
    os.dup2(2, 1)
    from shedlight.web.jobs import FOLLOWED, JOBS  # noqa: PLC0415

    def tell(piece: dict[str, Any]) -> None:
        _say(answers, {MEANWHILE: piece})

    _say(answers, READY)
    for line in sys.stdin:
        request = json.loads(line)
        name = request["job"]
        job = partial(FOLLOWED[name], tell=tell) if name in FOLLOWED else JOBS[name]
        _say(answers, answer(job, request))


def answer(job: Any, request: dict[str, Any]) -> dict[str, Any]:
    """What a job gives, or what is wrong with the request, in parts a page can place.

    Args:
        job: What to run.
        request: What to run it on.
    """
    try:
        found: dict[str, Any] = job(request)
        return found
    except DescriptionError as error:
        return {"problems": [_problem(problem) for problem in error.problems]}
    except ImpossibleShapeError as error:
        return {"problems": [_problem(error.problem)]}
    except InputError as error:
        problem = Problem("", "values that do not go together", f"others: {error}", "Change one.")
        return {"problems": [_problem(problem)]}
    except Exception as error:  # the page says so, and goes on
        traceback.print_exc()
        return {"fault": f"{FAULT}: {type(error).__name__}: {error}"}


def _problem(problem: Problem) -> dict[str, Any]:
    said = f"Given {problem.given}; expected {problem.expected}. {problem.cure}"
    return {"field": problem.field, "said": said, "line": problem.line}


def _say(answers: Any, message: dict[str, Any]) -> None:
    answers.write(json.dumps(message, ensure_ascii=True, allow_nan=False) + "\n")
    answers.flush()


if __name__ == "__main__":
    main()
