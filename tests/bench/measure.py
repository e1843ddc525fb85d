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


SIGNS = {"\\": r"\textbackslash{}", "Ω": r"$\Omega$", "−": "-", "–": "--", "’": "'", "°": r"$^\circ$", "µ": r"$\mu$", "→": r"$\to$", "²": r"$^2$", "±": r"$\pm$", "·": r"$\cdot$"}


def in_tex(line):
    """Words that pdflatex sets without further packages."""
    return "".join(SIGNS.get(sign, "\\" + sign if sign in "&%$#_{}" else sign if sign.isascii() and sign not in "~^" else "?") for sign in line)


def against_typesetters(scratch):
    """The same words on the same pages; neither draws a line."""
    for plan, sheet in ((root / "tests/plans/pedal.plan", "pedal"), (fan, "fan")):
        ours = seconds(program, "print", plan, "-o", scratch)
        pdf = scratch / f"{sheet}.pdf"
        text = subprocess.run(["pdftotext", "-layout", pdf, "-"], check=True, capture_output=True, text=True).stdout
        pages = [page for page in text.split("\f") if page.strip()]
        print(f"Printing {plan.name}, the whole process: {len(pages)} pages, {pdf.stat().st_size / 1000:.0f} kB")
        roff, tex = scratch / f"{sheet}.roff", scratch / f"{sheet}.tex"
        roff.write_text(".nf\n" + "\n.bp\n".join("\n".join("\\&" + line for line in page.replace("\\", "\\e").split("\n")) for page in pages))
        body = "\n\\newpage\n".join("\n".join(f"\\noindent\\mbox{{}}{in_tex(line)}\\\\" for line in page.split("\n") if line.strip()) for page in pages)
        tex.write_text("\\documentclass{article}\n\\usepackage[utf8]{inputenc}\n\\usepackage[a4paper,margin=1cm]{geometry}\n\\begin{document}\n\\footnotesize\n" + body + "\n\\end{document}\n")
        groff = seconds("groff", "-Tpdf", "-K", "utf8", roff, stderr=subprocess.DEVNULL)
        latex = seconds("pdflatex", "-interaction=batchmode", f"-output-directory={scratch}", tex)
        print(f"  loomsheet    {ours * 1e3:7.1f} ms")
        print(f"  groff -Tpdf  {groff * 1e3:7.1f} ms   ({groff / ours:.1f} times as long)")
        print(f"  pdflatex     {latex * 1e3:7.1f} ms   ({latex / ours:.1f} times as long, one pass)")


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
    for figures in (parsing, against_typesetters, many_plans, many_parts):
        figures(pathlib.Path(folder))
