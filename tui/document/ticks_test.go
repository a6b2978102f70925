package document_test

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/document"
)

// A shelf keeps ticks in memory, and may fail.
type shelf struct {
	kept  map[string]store.Ticks
	fails error
}

func (s *shelf) KeepTicks(stem string, t store.Ticks) error {
	if s.fails == nil {
		s.kept[stem] = t
	}
	return s.fails
}

func (s *shelf) Ticks(stem string) (store.Ticks, error) { return s.kept[stem], s.fails }

// One is written at a time and the last one stays, also where the program ends meanwhile;
// ticks of another pattern or plan are not shown.
func TestTicking(t *testing.T) {
	files := &shelf{kept: map[string]store.Ticks{"tray": {Plan: "old", Done: []int{4}}}}
	var ticks document.Ticking
	want := func(stem, plan string, want ...int) {
		t.Helper()
		if got, err := ticks.Done(files, stem, plan); err != nil || !slices.Equal(got, want) {
			t.Errorf("%s %s: %v, %v, want %v", stem, plan, got, err, want)
		}
	}
	want("tray", "old", 4)
	want("tray", "new")
	ticks, write := ticks.Tick(files, "tray", store.Ticks{Plan: "new", Done: []int{1}})
	ticks, second := ticks.Tick(files, "tray", store.Ticks{Plan: "new", Done: []int{1, 2}})
	if second != nil {
		t.Error("two are written at a time")
	}
	want("tray", "new", 1, 2)
	want("stool", "new")
	if err := ticks.Last(files); err != nil || fmt.Sprint(files.kept["tray"].Done) != "[1 2]" {
		t.Errorf("kept at the end: %v, %v", files.kept, err)
	}
	ticks, rest := ticks.Took(files, write())
	if rest == nil {
		t.Fatal("the last is not written")
	}
	files.fails = errors.New("full")
	ticks, more := ticks.Took(files, rest())
	if more != nil || ticks.Last(files) != nil {
		t.Error("what failed is tried for ever")
	}
}
