package store

import (
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// Ticks are the steps of a plan that are done. They are kept beside the recovery copy of
// their pattern, and stay when that is saved.
type Ticks struct {
	Plan string // what the plan is known by
	Done []int  // numbers of its steps, from 1, ascending
}

// ticksHead starts a file of ticks; what the plan is known by follows.
const (
	ticksHead   = "oddments/steps 1 "
	ticksEnding = ".steps"
)

func (h *Home) ticksPath(stem string) string {
	return filepath.Join(h.dir, recoveryFolder, stem+ticksEnding)
}

// KeepTicks keeps what is done of a plan of the pattern that goes by stem, in the place of
// what was kept of another plan; where nothing is done it takes that away.
func (h *Home) KeepTicks(stem string, t Ticks) error {
	if err := CheckStem(stem); err != nil {
		return &Error{File: stem, Doing: "keep the steps of", Err: err}
	}
	var data []byte
	if len(t.Done) > 0 {
		data = []byte(ticksHead + t.Plan + "\n" + strings.Trim(fmt.Sprint(t.Done), "[]") + "\n")
	}
	return h.keepNote(h.ticksPath(stem), data)
}

// keepNote keeps data in a file beside the recovery copies; without data it takes that away.
func (h *Home) keepNote(path string, data []byte) error {
	h.mu.Lock()
	defer h.mu.Unlock()
	if data == nil {
		return h.remove(path)
	}
	if err := h.hold(); err != nil {
		return err
	}
	held := h.disk.holding()
	defer held.leave()
	if err := held.enter(h.path(recoveryFolder)); err != nil {
		return err
	}
	return held.putNew(path, data)
}

// Ticks reads what is done of a plan of the pattern that goes by stem. What cannot be read
// as that, as of a newer oddments, counts as nothing.
func (h *Home) Ticks(stem string) (Ticks, error) {
	if err := CheckStem(stem); err != nil {
		return Ticks{}, &Error{File: stem, Doing: "read the steps of", Err: err}
	}
	data, version, err := readHomeFile(h.ticksPath(stem))
	if err != nil || version == Absent {
		return Ticks{}, err
	}
	head, rest, _ := strings.Cut(string(data), "\n")
	plan, ok := strings.CutPrefix(head, ticksHead)
	if !ok {
		return Ticks{}, nil
	}
	t := Ticks{Plan: plan}
	for _, word := range strings.Fields(rest) {
		if n, err := strconv.Atoi(word); err == nil && n > 0 {
			t.Done = append(t.Done, n)
		}
	}
	slices.Sort(t.Done)
	return t, nil
}
