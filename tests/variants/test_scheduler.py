"""The same results on a Dask scheduler as on this machine."""

from pathlib import Path

import pytest

from shedlight.variants.keeping import Keeping
from shedlight.variants.running import run_plan
from variants.test_variants import plan_in


@pytest.mark.filterwarnings("ignore")  # the library's own shutdown warns of sockets it closes late
def test_a_scheduler_somewhere_gives_the_same(tmp_path: Path) -> None:
    from distributed import LocalCluster  # noqa: PLC0415

    plan = plan_in(tmp_path)
    here, there = Keeping(plan, tmp_path / "here"), Keeping(plan, tmp_path / "there")
    run_plan(here, workers=1)
    with LocalCluster(
        n_workers=1, threads_per_worker=1, processes=False, dashboard_address=None
    ) as cluster:
        assert run_plan(there, scheduler=cluster.scheduler_address) == plan.count
    columns = ("case", "trouble", "verdict", "tightest", "least_margin")
    assert list(here.rows(*columns)) == list(there.rows(*columns))
