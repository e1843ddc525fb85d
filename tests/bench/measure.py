"""The figures of tests/bench/run: whole processes, medians of ten. Arguments: the program, the root, the parse bench."""
import pathlib
import statistics
import subprocess
import sys
import tempfile
import time

import plans

program, root, bench_parse = sys.argv[1], pathlib.Path(sys.argv[2]), sys.argv[3]
fan = root / "plans/cooling/fan.plan"


def seconds(*command, times=10, **how):
    """The median time of a command that must end well."""
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        subprocess.run(command, check=True, stdout=subprocess.DEVNULL, **how)
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)


def parsing(scratch):
    print("Parsing 10 MB")
    text = scratch / "ten-megabytes.plan"
    text.write_text(plans.of_bytes(fan.read_text(), 10_000_000))
    subprocess.run([bench_parse, text], check=True)


def against_groff(scratch):
    print("Printing the fan plan, the whole process")
    ours = seconds(program, "print", fan, "-o", scratch)
    text = subprocess.run(["pdftotext", "-layout", scratch / "fan.pdf", "-"], check=True, capture_output=True, text=True).stdout
    page = scratch / "fan.roff"
    page.write_text(".nf\n" + "\n".join("\\&" + line for line in text.replace("\\", "\\e").replace("\f", "\n.bp\n").split("\n")))
    theirs = seconds("groff", "-Tpdf", "-K", "utf8", page, stderr=subprocess.DEVNULL)
    print(f"  loomsheet    {ours * 1e3:7.1f} ms")
    print(f"  groff -Tpdf  {theirs * 1e3:7.1f} ms   ({theirs / ours:.1f} times as long, the same words)")


def many_plans(scratch):
    print("Many plans in one run")
    for count in (250, 500, 1000):
        folder = scratch / f"plans-{count}"
        folder.mkdir()
        for i in range(count):
            (folder / f"fan-{i}.plan").write_text(fan.read_text())
        taken = seconds(program, "print", folder, "-o", scratch / f"sheets-{count}", times=3)
        print(f"  {count:5} plans {taken:9.2f} s   ({taken / count * 1e3:.2f} ms a plan)")


def many_parts(scratch):
    print("Plans of many parts: proof, and print")
    for count in (10, 100, 1000, 10_000):
        plan = scratch / f"parts-{count}.plan"
        plan.write_text(plans.of_parts(count // 2))  # a lamp and its fuse are two parts
        proof = seconds(program, "proof", plan, times=3)
        printed = seconds(program, "print", plan, "-o", scratch, times=3)
        print(f"  {count:5} parts {proof * 1e3:9.1f} ms {printed * 1e3:9.1f} ms   ({printed / count * 1e6:.0f} us a part)")


with tempfile.TemporaryDirectory() as folder:
    for figures in (parsing, against_groff, many_plans, many_parts):
        figures(pathlib.Path(folder))
