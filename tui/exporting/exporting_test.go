package exporting_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/export"
	"example.com/oddments/tui/exporting"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen/screentest"
)

// The field lets through what one of the forms ends in, and nothing else.
func TestField(t *testing.T) {
	ctx := screentest.Demo(t)
	f := exporting.Field(export.Picture, "trivet")
	s := screentest.Drawn(80, 8, func(c *paint.Canvas, r paint.Rect) { f.Draw(c, r, ctx) })
	if !strings.Contains(s, "save the picture as (.svg or .png)") || !strings.Contains(s, "> trivet.svg") {
		t.Errorf("it asks\n%s", s)
	}
	if _, out := f.Key(tea.KeyMsg{Type: tea.KeyEnter}, ctx); !out.Closed || out.Value != "trivet.svg" {
		t.Errorf("enter takes %+v", out)
	}
	o, _ := f.Key(tea.KeyMsg{Type: tea.KeyBackspace}, ctx)
	if _, out := o.Key(tea.KeyMsg{Type: tea.KeyEnter}, ctx); out.Closed {
		t.Error("trivet.sv is let through")
	}
}

// What lay there before is kept, and that is said; what cannot be written says why.
func TestWrite(t *testing.T) {
	ctx := screentest.Demo(t)
	job := export.Job{Stem: "trivet", Physics: ctx.Physics}
	file := filepath.Join(t.TempDir(), "trivet.svg")
	write := func(to string) exporting.WrittenMsg {
		return exporting.Write(export.Picture, to, ctx.State.Pattern, 1, job)().(exporting.WrittenMsg)
	}
	if m := write(file); m.Err != nil || m.Replaced || m.String() != "picture written: "+file {
		t.Errorf("%v: %v", m, m.Err)
	}
	if text, err := os.ReadFile(file); err != nil || !strings.Contains(string(text), "<svg ") {
		t.Errorf("written is %.40s, %v", text, err)
	}
	if err := os.WriteFile(file, []byte("something else"), 0o644); err != nil {
		t.Fatal(err)
	}
	if m := write(file); m.Err != nil || !m.Replaced || !strings.HasSuffix(m.String(), "as .bak") {
		t.Errorf("again: %v: %v", m, m.Err)
	}
	if m := write(filepath.Join(filepath.Dir(file), "no", "such", "folder.svg")); m.Err == nil {
		t.Error("a folder that is not there is no error")
	}
}
