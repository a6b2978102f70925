#!/usr/bin/env bash
# Measures the program as it is shipped beside other terminal programs in one run: time
# to the first letter, from a key to its whole frame, memory, work at rest, size.
#
#   testdata/measure-speed.sh KEYLATENCY
#
# KEYLATENCY is a program that presses keys in a pseudo-terminal and times the answers;
# see its options below. micro, vifm and tig are Debian packages; what is missing is
# left out. The bench holds a pattern of 60 strips, the rack that of the demo.
set -euo pipefail
cd "$(dirname "$0")/.."
keylatency=${1:?path of the program that times keys}

work=$(mktemp -d)
trap 'rm -r "$work"' EXIT
go build -tags netgo,osusergo -pgo=cmd/oddments/oddments.pgo -trimpath -ldflags='-s -w' -o "$work/oddments" ./cmd/oddments
echo "size: $(stat -c %s "$work/oddments") bytes"

home=$work/home
mkdir -p "$home/patterns"
cp pattern/store/demo/rack.toml pattern/store/demo/shop.toml "$home"
{
  printf 'format = "oddments/pattern 1"\nname = "Sixty"\n[panel]\nlength = "450 mm"\nthickness = "22 mm"\n'
  timbers=(hornbeam european_elm pear european_ash ovangkol yellowheart)
  rings=(flat rift quarter unknown)
  for i in $(seq 0 59); do
    printf '[[strip]]\nspecies = "%s"\nwidth = "%d mm"\nrings = "%s"\n' \
      "${timbers[i % 6]}" $((14 + i * 7 % 23)) "${rings[i * 5 % 4]}"
  done
} >"$home/patterns/sixty.toml"

programs=(--prog "bench|Right Left|$work/oddments --home $home sixty")
text=README.md
command -v micro >/dev/null && programs+=(--prog "micro|Down Up|micro $text")
command -v vifm >/dev/null && programs+=(--prog "vifm|j k|vifm /usr/share/doc /usr/share/doc")
command -v tig >/dev/null && programs+=(--prog "tig@$PWD|j k|tig")

for size in 100x30 200x60; do
  "$keylatency" --size "$size" --rounds "${ROUNDS:-5}" --presses 40 "${programs[@]}"
done
