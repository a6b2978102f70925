package sets

import (
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
)

// What stays on the rack says why: the only timber that there is, one that looks like all others,
// one that nobody asks for, one too thin, and one of which no more is asked for.
func TestWhyItStays(t *testing.T) {
	r := boards(t, 4)
	maple, walnut := r.Rack.Pieces[0], r.Rack.Pieces[1]
	soft, thin := maple, walnut
	soft.ID, soft.Species, thin.ID, thin.Thickness = "S", "soft_maple", "T", 12*mm
	for _, one := range []struct {
		what   string
		pieces []rack.Piece
		no     []string
		most   int
		id     string
		want   Reason
		says   string
	}{
		{"alone on the rack", []rack.Piece{maple}, nil, 0, "M", Only, "the only timber on the rack"},
		{"too alike", []rack.Piece{maple, soft}, nil, 0, "S", Alone, "looks too alike"},
		{"not asked for", []rack.Piece{maple, walnut}, []string{"hard_maple"}, 0, "M", Unwanted, "may have this timber"},
		{"too thin", []rack.Piece{maple, walnut, thin}, nil, 0, "T", Thin, "any further board: strips need 2"},
		{"enough", []rack.Piece{maple, walnut, thin}, nil, 2, "T", Enough, "no more boards"},
	} {
		r.Rack.Pieces = one.pieces
		r.Wants[0].Without, r.Wants[0].Most = one.no, one.most
		set, err := Find(t.Context(), r, Options{Rounds: 5})
		if err != nil {
			t.Fatal(err)
		}
		_, left, err := After(r, set)
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for _, l := range left {
			if l.Entry.ID == one.id {
				found = true
				if got := l.Words(func(key string) string { return key }, length.InMM); l.Reason != one.want || !strings.Contains(got, one.says) {
					t.Errorf("%s: %v, %s", one.what, l.Reason, got)
				}
			}
		}
		if !found {
			t.Errorf("%s: %s does not stay: %v", one.what, one.id, left)
		}
	}
}

// Without a contrast the only timber goes with itself.
func TestOnlyTimberGoesWithItself(t *testing.T) {
	r := boards(t, 2) // half a board
	r.Rack.Pieces, r.Wants[0].LeastContrast = r.Rack.Pieces[:1], 0
	_, left, err := After(r, Set{Made: []int{0}})
	if err != nil || len(left) != 1 || left[0].Reason != Little || !slices.Equal(left[0].Goes, []string{"hard_maple"}) {
		t.Errorf("%+v, %v", left, err)
	}
}
