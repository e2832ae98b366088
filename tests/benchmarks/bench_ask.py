"""How long `drafthand ask` takes as a whole process, against importing the libraries alone. A command, never a test.

    python tests/benchmarks/bench_ask.py [PAIRS]

Both are run in pairs, one right after the other, so that a busy machine slows both; the median of the ratios counts.
"""

import subprocess
import sys
import time
from statistics import median

ASK = [sys.executable, "-m", "advisor", "ask", "--json", "I'm 100 degrees over, what now?"]
IMPORTS = [sys.executable, "-c", "import pydantic, prompt_toolkit, durable.lang, yaml"]
MOST = 2.5


def seconds(command: list[str]) -> float:
    start = time.perf_counter()
    subprocess.run(command, stdout=subprocess.DEVNULL, check=True)
    return time.perf_counter() - start


def main(pairs: int) -> None:
    seconds(ASK), seconds(IMPORTS)  # the first run of each fills the caches of the disk
    measured = [(seconds(ASK), seconds(IMPORTS)) for _ in range(pairs)]
    ratio = median(ask / imports for ask, imports in measured)
    print(f"ask     median {median(ask for ask, _ in measured) * 1000:.0f} ms")
    print(f"imports median {median(imports for _, imports in measured) * 1000:.0f} ms")
    print(f"ratio   median {ratio:.2f} over {pairs} pairs, at most {MOST}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 15)
