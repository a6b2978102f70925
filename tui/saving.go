package tui

import (
	"cmp"
	"errors"
	"sync"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/ask"
	"example.com/oddments/tui/overlay/choose"
)

// keepAfter is how long after a change the recovery copy is written.
const keepAfter = time.Second

// benchFiles is where the pattern on the bench is saved and kept: the home.
type benchFiles interface {
	FreeStem(name string) (string, error)
	SavePattern(stem string, p pattern.Pattern, base store.Version) (store.Version, error)
	Keep(store.Recovery) (string, error)
	DropRecovery(stem string) error
}

// The messages with which saving and keeping come back.
type (
	keepMsg struct{} // it is time for the recovery copy
	keptMsg struct {
		serial   int    // of the document that was kept
		copy     string // what its recovery copy goes by now; empty: it has none
		revision int
		err      error
		leaving  bool
	}
	// leftMsg says that the bench was kept, so that something else can take its place.
	leftMsg struct {
		kept keptMsg
		then func(App) (App, tea.Cmd)
	}
	savedMsg struct {
		serial  int // of the document that was saved
		stem    string
		file    string
		pattern pattern.Pattern // as it was written
		version store.Version
		err     error
	}
)

func (a App) keepLater() tea.Cmd { return a.later(keepAfter, keepMsg{}) }

// recoveryStem is the stem that the document's work goes by where it is kept or planned.
func (d document) recoveryStem() string {
	if d.stem == "" {
		return store.Untitled
	}
	return d.stem
}

// keepNow has the recovery copy written where it is not up to date, or taken away
// where there is nothing to keep.
func (a App) keepNow() (App, tea.Cmd) {
	if a.doc.keeping != nil || a.doc.upToDate() {
		return a, nil
	}
	return a.keep(false)
}

// upToDate reports whether the recovery copy holds the work, or is away where nothing
// would be lost.
func (d document) upToDate() bool {
	return d.kept == d.history.Revision() && (d.unsaved() || d.copy == "")
}

// unsaved reports whether work would be lost if the program ended now.
func (d document) unsaved() bool { return d.history.Dirty() || len(d.history.State().Tray) > 0 }

// keep writes the recovery copy. Whoever asks for its outcome first has it written, and
// it is written once: at the end the program does not wait for a command that the screen
// library has dropped.
func (a App) keep(leaving bool) (App, tea.Cmd) {
	files, doc := a.bench, a.doc
	keeping := sync.OnceValue(func() keptMsg {
		m := keptMsg{serial: doc.serial, revision: doc.history.Revision(), leaving: leaving}
		m.copy, m.err = doc.keepIn(files)
		return m
	})
	a.doc.keeping = keeping
	return a, func() tea.Msg { return keeping() }
}

// keepIn writes the document's recovery copy, or takes it away where nothing would
// be lost, and gives what the copy goes by.
func (d document) keepIn(files benchFiles) (string, error) {
	switch s := d.history.State(); {
	case d.unsaved():
		return files.Keep(store.Recovery{Copy: d.copy, Stem: d.recoveryStem(), Pattern: s.Pattern, Tray: s.Tray, Base: d.base})
	case d.copy == "":
		return "", nil
	default:
		return "", files.DropRecovery(d.copy)
	}
}

func (a App) kept(m keptMsg) (App, tea.Cmd) {
	ours := m.serial == a.doc.serial
	if ours {
		a.doc = a.doc.took(m)
	}
	switch {
	case m.err != nil && m.leaving:
		a = a.notKept(m.err)
		a.notice.Text = a.keys.KeyOf("quit") + " again leaves all the same. " + a.notice.Text
		a.leaving, a.parting = true, false
	case m.err != nil:
		a.doc.after = nil
		return a.notKept(m.err).part(nil, m.err)
	case m.leaving:
		return a, tea.Quit
	case ours:
		if then := a.doc.after; then != nil {
			a.doc.after = nil
			return a.leave(then)
		}
		if !a.doc.upToDate() { // the bench went on meanwhile
			return a.part(a.keepLater(), nil)
		}
	}
	return a.part(nil, nil)
}

// took gives the document with the outcome of keeping it.
func (d document) took(m keptMsg) document {
	d.keeping = nil
	if m.err == nil {
		d.kept, d.copy = m.revision, m.copy
	}
	return d
}

// notKept says why the recovery copy is not as it should be.
func (a App) notKept(err error) App {
	what := "Not kept: "
	if !a.doc.unsaved() {
		what = "The recovery copy of saved work stays: "
	}
	a = a.fail(err)
	a.notice.Text = what + a.notice.Text
	return a
}

// leave keeps what is on the bench and goes on with what is to take its place. Where it
// cannot be kept it stays there; asked again, it goes all the same. A save under way is
// waited for: what is saved needs no copy.
func (a App) leave(then func(App) (App, tea.Cmd)) (App, tea.Cmd) {
	switch {
	case a.doc.givenUp == a.doc.history.Revision()+1:
		return then(a)
	case a.doc.saving != nil || a.doc.keeping != nil: // one copy at a time: the first finds out what it goes by
		a.doc.after = then
		return a, nil
	case a.doc.upToDate():
		return then(a)
	}
	a, keep := a.keep(false)
	return a, func() tea.Msg { return leftMsg{keep().(keptMsg), then} }
}

func (a App) left(m leftMsg) (App, tea.Cmd) {
	a, cmd := a.kept(m.kept)
	switch {
	case m.kept.serial != a.doc.serial:
		return a, cmd
	case m.kept.err != nil:
		a.notice.Text = "once more leaves it all the same. " + a.notice.Text
		a.doc.givenUp = a.doc.history.Revision() + 1
		return a, cmd
	default:
		return a.leave(m.then)
	}
}

// quit leaves; what is being saved is waited for, what is not saved is kept first.
func (a App) quit() (App, tea.Cmd) {
	switch {
	case a.leaving:
		return a, tea.Quit
	case a.busy():
		a.parting = true
		return a, nil
	case a.racks.unsaved():
		a.parting = true
		return a.saveRack()
	case a.doc.upToDate():
		return a, tea.Quit
	default:
		return a.keep(true)
	}
}

// busy reports whether something is being saved or kept.
func (a App) busy() bool { return a.doc.saving != nil || a.racks.saving || a.doc.keeping != nil }

// part goes on with leaving, if that was asked for while something was being saved. Where
// the save failed the maker is told, and may leave all the same.
func (a App) part(cmd tea.Cmd, err error) (App, tea.Cmd) {
	switch {
	case !a.parting:
		return a, cmd
	case err != nil:
		a.notice.Text = a.keys.KeyOf("quit") + " again leaves all the same. Not saved: " + a.notice.Text
		a.parting, a.leaving = false, true
		return a, cmd
	case a.busy() || a.overlay != nil:
		return a, cmd
	default:
		a.parting = false
		return a.quit()
	}
}

// save saves the pattern where it came from; one that was never saved is asked its
// name first. While a save is under way the next waits for its version.
func (a App) save() (App, tea.Cmd) {
	switch {
	case a.doc.saving != nil:
		a.doc.again = true
		return a, nil
	case a.doc.stem == "" && a.state().Pattern.Name == "":
		return a.saveAs()
	default:
		return a.saveOver(a.doc.base)
	}
}

// saveOver saves the document over a version of its file.
func (a App) saveOver(base store.Version) (App, tea.Cmd) {
	files, doc, p := a.bench, a.doc, a.state().Pattern
	return a.saveBy(func() savedMsg {
		m := savedMsg{serial: doc.serial, stem: doc.stem, file: doc.file, pattern: p}
		m.version, m.err = doc.saveIn(files, &m.stem, p, base)
		if errors.Is(m.err, store.ErrChanged) && doc.perhaps != "" { // by the save before, which failed late
			m.version, m.err = doc.saveIn(files, &m.stem, p, doc.perhaps)
		}
		return m
	})
}

// saveIn saves p where the document lies; where it lies nowhere, under a free stem.
func (d document) saveIn(files benchFiles, stem *string, p pattern.Pattern, base store.Version) (v store.Version, err error) {
	switch {
	case d.file != "":
		return store.SavePatternFile(d.file, p, base)
	case d.stem != "":
		return files.SavePattern(d.stem, p, base)
	}
	if *stem, err = files.FreeStem(p.Name); err != nil {
		return store.Absent, err
	}
	return files.SavePattern(*stem, p, store.Absent)
}

// saveBy has save made once, by whoever asks for its outcome first.
func (a App) saveBy(save func() savedMsg) (App, tea.Cmd) {
	saving := sync.OnceValue(save)
	a.doc.saving = saving
	return a, func() tea.Msg { return saving() }
}

// saveAs asks for a name and saves under it, as a pattern of its own.
func (a App) saveAs() (App, tea.Cmd) {
	field := ask.New("save under the name", a.state().Pattern.Name, func(s string) (any, string, error) {
		name, _, err := ask.Name(s)
		return name, "", err
	})
	return a.show(field, func(a App, value any) (App, tea.Cmd) {
		if a.doc.saving != nil {
			return a.refuse("the pattern is being saved: wait, then press " + a.keys.KeyOf(keymap.SaveAs) + " again"), nil
		}
		next, err := edit.SetName(a.state(), value.(string))
		if err != nil {
			return a.refuse(a.words(err)), nil
		}
		a, later := a.do(next)
		files, p, serial := a.bench, a.state().Pattern, a.doc.serial
		a, save := a.saveBy(func() savedMsg {
			m := savedMsg{serial: serial, pattern: p}
			m.version, m.err = document{}.saveIn(files, &m.stem, p, store.Absent)
			return m
		})
		return a, tea.Batch(later, save)
	}), nil
}

// saved takes note of a save, or asks what to do when another program changed the
// file. What was saved may have left the bench meanwhile.
func (a App) saved(m savedMsg) (App, tea.Cmd) {
	if m.serial != a.doc.serial {
		if m.err != nil {
			return a.fail(m.err), nil
		}
		return a.say("saved as " + m.stem), nil
	}
	a.doc = a.doc.tookSave(m)
	then, again := a.doc.after, a.doc.again
	a.doc.after, a.doc.again = nil, false
	switch {
	case errors.Is(m.err, store.ErrChanged):
		a.parting = false
		return a.askOver(), nil
	case m.err != nil:
		return a.fail(m.err).part(nil, m.err)
	}
	a = a.say("saved as " + cmp.Or(m.file, m.stem))
	switch {
	case again && a.doc.history.Dirty():
		a.doc.after = then
		return a.saveOver(a.doc.base)
	case then != nil:
		return a.leave(then)
	}
	a, drop := a.keepNow() // the recovery copy is not needed any more
	return a.part(drop, nil)
}

// tookSave gives the document with the outcome of a save. One that failed leaves it as
// it was: what is on the bench is in no file, and its recovery copy stays. Only what the
// file may hold all the same is noted, so that it is not taken for another's change.
func (d document) tookSave(m savedMsg) document {
	d.saving = nil
	if m.err != nil {
		if m.version != store.Whatever {
			d.perhaps = m.version
		}
		return d
	}
	d.stem, d.file, d.base, d.perhaps = m.stem, m.file, m.version, ""
	d.history = d.history.MarkSaved(m.pattern)
	return d
}

// What to do with a file that another program changed.
type overAnswer int

const (
	overTheirs overAnswer = iota
	underAnother
)

// askOver asks what to do with a file that another program changed: the one question
// that is asked, since something would be lost.
func (a App) askOver() App {
	const what = "another program changed the file of this pattern"
	of := a.doc.serial // another pattern on the bench must not be saved over its file
	list := choose.New(what, "", []choose.Item{
		{Name: "save under another name", Detail: "both are kept", Value: underAnother},
		{Name: "save over the other change", Detail: "it stays as .bak", Value: overTheirs},
	}).Answers()
	return a.askWhenFree(what, func(a App) bool { return a.doc.serial == of }, list, func(a App, value any) (App, tea.Cmd) {
		if a.doc.serial != of {
			return a.say("that pattern is not on the bench any more; what was not saved of it is kept, and " + a.keys.KeyOf(keymap.Open) + " finds it"), nil
		}
		if value == overTheirs {
			return a.saveOver(store.Whatever)
		}
		return a.saveAs()
	})
}
