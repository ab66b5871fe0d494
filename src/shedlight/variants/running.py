"""Running a plan: on processes of this machine, or on a Dask scheduler that someone started."""

import itertools
import multiprocessing
import os
import threading
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from typing import Any

from shedlight.variants.keeping import Keeping
from shedlight.variants.plan import Plan
from shedlight.variants.working import Row, rows_of_chunk

AHEAD = 3  # tasks that wait for each worker: enough to keep it busy, few enough to hold
Progress = Callable[[int, int], None]


def run_plan(
    keeping: Keeping,
    *,
    workers: int | None = None,
    scheduler: str | None = None,
    progress: Progress = lambda done, count: None,
) -> int:
    """Do every task that is not done yet; how many cases were computed now.

    Args:
        keeping: Where results are kept; what stands there is not done again.
        workers: Processes on this machine; all its cores if left out.
        scheduler: Address of a Dask scheduler to use instead.
        progress: Told after each task how many cases are done, of how many.

    Raises:
        DescriptionError: the folder holds the results of another plan.
        OSError: the scheduler cannot be reached, or a part cannot be written.
    """
    waiting = keeping.open()
    plan = keeping.plan
    done = plan.count - sum(len(plan.cases_of(chunk)) for chunk in waiting)
    progress(done, plan.count)
    computed = 0
    if not waiting:
        return computed
    finished = (
        _on_scheduler(plan, waiting, scheduler)
        if scheduler
        else _on_processes(plan, waiting, workers or len(os.sched_getaffinity(0)))
    )
    for chunk, rows in finished:
        keeping.keep(chunk, rows)
        computed += len(rows)
        progress(done + computed, plan.count)
    return computed


def _on_processes(
    plan: Plan, chunks: Sequence[int], workers: int
) -> Iterator[tuple[int, list[Row]]]:
    """Tasks as they are finished, a few ahead of the workers at most."""
    if workers == 1:
        yield from ((chunk, rows_of_chunk(plan, chunk)) for chunk in chunks)
        return
    context = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(
        workers, mp_context=context, initializer=_begin, initargs=(plan,)
    ) as pool:
        yield from _in_step(lambda chunk: pool.submit(_task, chunk), chunks, AHEAD * workers)


def _in_step(
    submit: Callable[[int], "Future[tuple[int, list[Row]]]"], chunks: Sequence[int], ahead: int
) -> Iterator[tuple[int, list[Row]]]:
    left = iter(chunks)
    running = {submit(chunk) for chunk in itertools.islice(left, ahead)}
    while running:
        ready, running = wait(running, return_when=FIRST_COMPLETED)
        running |= {submit(chunk) for chunk in itertools.islice(left, len(ready))}
        yield from (future.result() for future in ready)


_plan: Plan | None = None


def _begin(plan: Plan) -> None:
    """Keep the plan in a worker, so that it is sent once."""
    global _plan  # noqa: PLW0603  one plan for each worker process
    _plan = plan
    threading.Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    """A worker whose run was killed has nobody left to work for."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)


def _task(chunk: int) -> tuple[int, list[Row]]:
    assert _plan is not None
    return chunk, rows_of_chunk(_plan, chunk)


def _on_scheduler(
    plan: Plan, chunks: Sequence[int], address: str
) -> Iterator[tuple[int, list[Row]]]:
    """The same on a Dask scheduler; its workers need shedlight installed."""
    from distributed import Client, as_completed  # noqa: PLC0415  half a second to open

    with Client(address, timeout="10s") as client:
        shared = client.scatter(plan, broadcast=True)
        left = iter(chunks)
        ahead = AHEAD * max(1, sum(client.nthreads().values()))

        def submit(chunk: int) -> Any:
            return client.submit(numbered_rows, shared, chunk, pure=False)

        running = as_completed([submit(chunk) for chunk in itertools.islice(left, ahead)])
        for future in running:
            result: tuple[int, list[Row]] = future.result()
            future.release()
            for chunk in itertools.islice(left, 1):
                running.add(submit(chunk))
            yield result


def numbered_rows(plan: Plan, chunk: int) -> tuple[int, list[Row]]:
    """One task with its number, as a worker elsewhere computes it.

    Args:
        plan: The plan.
        chunk: Number of the task.
    """
    return chunk, rows_of_chunk(plan, chunk)
