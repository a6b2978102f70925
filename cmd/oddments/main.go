// Command oddments turns leftover hardwood into strip-laminated boards: it opens the
// bench on a terminal, and does each of its jobs as a command too.
package main

import (
	"context"
	"os"

	"example.com/oddments/cmd/internal/cli"
	"example.com/oddments/tui"
)

func main() {
	env := cli.System()
	env.Bench = bench
	os.Exit(cli.Run(context.Background(), os.Args[1:], env))
}

// bench opens the screens.
func bench(ctx context.Context, o cli.BenchOptions) error {
	return tui.Run(ctx, tui.Options{Home: o.Home, Pattern: o.Pattern, Shop: o.Shop, Rack: o.Rack,
		Unit: o.Unit, Profile: o.Profile, Out: os.Stderr})
}
