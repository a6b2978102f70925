// Command oddments turns leftover hardwood into strip-laminated boards: it opens the
// bench on a terminal, and does each of its jobs as a command too.
package main

import (
	"context"
	"os"
	"runtime"
	"runtime/debug"

	"example.com/oddments/cmd/internal/cli"
	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/tui"
)

func main() {
	env := command.System()
	env.Bench = bench
	os.Exit(cli.Run(context.Background(), os.Args[1:], env))
}

// benchGC is by how many percent of what is in use the heap may grow before it is collected:
// half of Go's own. 60 strips that are turned and checked again at every key take 17 MB of
// private memory so, else 21; a key at rest costs nothing more.
const benchGC = 50

// bench opens the screens. It takes one thread more than there are cores: a key then waits
// for the system's scheduler, which lets what has slept go first, and not for a search to
// be taken off Go's own (95 of 100 keys within 5 ms beside a plan of 350 strips, else 13).
func bench(ctx context.Context, o command.BenchOptions) error {
	runtime.GOMAXPROCS(runtime.GOMAXPROCS(0) + 1)
	debug.SetGCPercent(benchGC)
	return tui.Run(ctx, tui.Options{Home: o.Home, Pattern: o.Pattern, Shop: o.Shop, Rack: o.Rack,
		Unit: o.Unit, Profile: o.Profile, Out: os.Stderr})
}
