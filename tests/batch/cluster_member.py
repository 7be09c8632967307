"""A scheduler with two workers on this machine, each a process, for as long as its input is open.

Prints the scheduler's address and the workers' process numbers.
"""

import sys

from distributed import LocalCluster

if __name__ == "__main__":
    with LocalCluster(
        n_workers=int(sys.argv[1]), threads_per_worker=1, dashboard_address=None, protocol="tcp"
    ) as cluster:
        numbers = [str(worker.pid) for worker in cluster.workers.values()]
        print(cluster.scheduler_address, *numbers, flush=True)
        sys.stdin.read()
