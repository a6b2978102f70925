#!/usr/bin/env bash
# Makes the profile that the compiler goes by, cmd/oddments/oddments.pgo, from the
# benchmarks of what a maker waits for: frames and keys, checks, plans, layouts.
set -euo pipefail
cd "$(dirname "$0")/.."
work=$(mktemp -d)
trap 'rm -r "$work"' EXIT
profiles=()
for package in tui tui/panel pattern/check pattern/cutting/solve pattern/worksteps pattern/waysout pattern/suggest/search pattern/suggest/remake; do
  profiles+=("$work/$(basename "$package").pprof")
  go test "./$package" -run '^$' -bench . -benchtime "${BENCHTIME:-1s}" -cpuprofile "${profiles[-1]}" -o "$work/test" >/dev/null
done
go tool pprof -proto "${profiles[@]}" >cmd/oddments/oddments.pgo
ls -l cmd/oddments/oddments.pgo
