"""Plans made for measuring: as large as asked for, and clean."""


def of_parts(count):
    """A plan with so many lamps, each with its fuse, wires and ground; one check."""
    lamps = range(1, count + 1)
    lines = [
        'plan BENCH-01 "A lamp is dark"',
        '  vehicle "Tarn 1.6 hatch, training car"',
        '  complaint "The first lamp is dark": E1 dark',
        "  with key on",
        "  system 12 V",
        'battery G1 "Battery", 12.6 V, 70 Ah, inner 5 mohm, at "engine bay"',
        'fuse F0 "Main fuse", 200 A, type E, at "box on the battery"',
        "wire W0 G1.+ -> F0.1 35 mm2 RD 0.3 m unfused",
        'ground XE0 "Main ground", at "left wing"',
        "wire W00 G1.- -> XE0 35 mm2 BK 0.3 m unfused",
        'splice J0 "Bar in the box", joins F0.2,',
        "  " + ",\n  ".join(f"F{i}.1" for i in lamps),
    ]
    for i in lamps:
        lines += [
            f'fuse F{i} "Lamp {i}", 5 A, type C, at "box, slot {i}"',
            f'lamp E{i} "Lamp {i}", 1/2 10 W at 12 V, at "place {i}"',
            f'ground XE{i} "Ground {i}", at "beside lamp {i}"',
            f"wire W{i}1 F{i}.2 -> E{i}.1 1 mm2 YE 0.8 m",
            f"wire W{i}2 E{i}.2 -> XE{i} 1 mm2 BN 0.4 m",
        ]
    lines += [
        'check lit "The first lamp"',
        "  with key on",
        '  look "E1 is lit": E1 lit',
        "  pass -> not-present",
        "  fail -> suspects",
        'verdict not-present "The complaint is not there now"',
        "  blames nothing",
        '  repair "Look for a loose contact"',
    ]
    return "\n".join(lines) + "\n"


def of_bytes(plan, size):
    """The circuit and checks of a plan over and over, under one head, to that size."""
    head, rest = plan.split("# --- circuit", 1)
    rest = "# --- circuit" + rest
    return head + rest * (size // len(rest.encode()) + 1)
