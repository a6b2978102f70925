package ceiling

import (
	"fmt"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/species"
)

func rackOf(t testing.TB, n int) Job {
	t.Helper()
	folder := filepath.Join("..", "..", "..", "testdata", "piles", fmt.Sprintf("%02d", n))
	known, sh := species.Builtin(), shop.Default()
	r, err := store.OpenRack(filepath.Join(folder, "rack.toml"), known)
	if err != nil {
		t.Fatal(err)
	}
	wants, err := store.OpenOrders(filepath.Join(folder, "orders.toml"), store.Against{Known: known, Shop: &sh, Rack: &r})
	if err != nil {
		t.Fatal(err)
	}
	pieces := r
	pieces.Strips = nil
	widths := suggest.UsualWidths(pattern.Pattern{}, pieces, sh.Standing, sh.Units)
	slices.Sort(widths)
	return Job{Wants: wants, Rack: r, Physics: movement.New(known, sh), Widths: widths}
}

func TestTry(t *testing.T) {
	for n := 1; n <= 10; n++ {
		start, steps := time.Now(), 0
		c := New(rackOf(t, n))
		made := time.Since(start)
		var at []string
		for i := 1; i <= 600 && !c.Ended(); i++ {
			c.Step(t.Context())
			steps++
			if i == 1 || i == 3 || i == 10 || i == 30 || i == 60 || i == 100 || i == 150 || i == 200 || i == 250 || i == 400 {
				at = append(at, fmt.Sprintf("%d: %.0f (%.1f s)", i, c.Worth(), time.Since(start).Seconds()))
			}
		}
		t.Logf("%d: %.1f, %d steps, %.2f to begin, %.1f s, %d pools %d kinds %d rows; %v", n, c.Worth(), steps, made.Seconds(), time.Since(start).Seconds(), len(c.pools), len(c.kinds), c.rows, at)
	}
}
