# Sourced by tests/run, plans/print and the scripts beside them: what a Debian 12 machine needs, and how it gets it.

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)

build_packages=(
  g++ cmake ninja-build pkg-config
  tao-pegtl-dev libfmt-dev libcli11-dev nlohmann-json3-dev libhpdf-dev zlib1g-dev libharfbuzz-dev libqrencode-dev
  libunibreak-dev
  doctest-dev fonts-liberation fonts-dejavu-core fonts-droid-fallback
)
test_packages=(
  clang clang-format clang-tidy libclang-rt-dev
  libngspice0-dev
  qpdf poppler-utils mupdf-tools ghostscript zbar-tools tesseract-ocr
)
bench_packages=(groff texlive-latex-base poppler-utils python3 libngspice0-dev libeigen3-dev libsuitesparse-dev)

say() { printf '%s\n' "$*"; }

# install PACKAGE…: those that are missing. Without the right to install it says which, and how, and stops.
install() {
  local package missing=()
  for package in "$@"; do
    dpkg-query --show --showformat='${Status}' "$package" 2>/dev/null | grep -q '^install ok installed$' || missing+=("$package")
  done
  ((${#missing[@]})) || return 0
  say "Missing here: ${missing[*]}"
  local as_root=()
  if ((EUID != 0)); then
    if ! command -v sudo >/dev/null || ! sudo -v; then
      say "You have not the right to install them. Ask someone who has to run:"
      say "  apt-get update && apt-get install --no-install-recommends ${missing[*]}"
      exit 2
    fi
    as_root=(sudo)
  fi
  "${as_root[@]}" apt-get update -q
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends "${missing[@]}"
}

# build PRESET [TARGET…]: configured and built, with ccache where it is there.
build() {
  local preset=$1 launcher=()
  shift
  if command -v ccache >/dev/null; then launcher=(-DCMAKE_CXX_COMPILER_LAUNCHER=ccache); fi
  cmake -S "$root" --preset "$preset" "${launcher[@]}" --log-level=WARNING
  cmake --build "$root/out/build-$preset" ${1:+--target "$@"}
}
