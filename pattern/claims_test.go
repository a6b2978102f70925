package pattern_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What lays a plan out words its claim, and does not work it out: it asks Plan.Claim. The
// JSON alone has the plan's own words and figures.
func TestClaimsAreAskedFor(t *testing.T) {
	looked := 0
	for _, tree := range []string{"../cmd", "../tui", "export"} {
		err := filepath.WalkDir(tree, func(name string, d fs.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
				return err
			}
			text, err := os.ReadFile(name)
			if err != nil {
				return err
			}
			looked++
			for _, word := range []string{"LowerBoundCM3", "cutting.Optimal"} {
				if strings.Contains(string(text), word) && filepath.ToSlash(name) != "../cmd/internal/result/plan.go" {
					t.Errorf("%s has %s: Plan.Claim says how far a plan is from the least", name, word)
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if looked < 100 {
		t.Errorf("only %d files were looked at", looked)
	}
}
