package tui

import (
	"errors"
	"fmt"
	"slices"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screens/ask"
	"example.com/oddments/tui/screens/choose"
)

// keepAfter is how long after a change the recovery copy is written.
const keepAfter = time.Second

// The messages with which work on files comes back.
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
		dropped string // stem of the recovery copy that is not needed any more
		err     error
	}
	listedMsg struct {
		list []store.Listed
		kept []store.Recovery
	}
	failedMsg struct{ err error }
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
	if a.doc.keeping || a.doc.upToDate() {
		return a, nil
	}
	a.doc.keeping = true
	return a, a.keep(false)
}

// upToDate reports whether the recovery copy holds the work, or is away where nothing
// would be lost.
func (d document) upToDate() bool {
	return d.kept == d.history.Revision() && (d.unsaved() || d.copy == "")
}

// unsaved reports whether work would be lost if the program ended now.
func (d document) unsaved() bool { return d.history.Dirty() || len(d.history.State().Tray) > 0 }

// keep writes the recovery copy.
func (a App) keep(leaving bool) tea.Cmd {
	files, doc := a.files, a.doc
	return func() tea.Msg {
		m := keptMsg{serial: doc.serial, revision: doc.history.Revision(), leaving: leaving}
		m.copy, m.err = doc.keepIn(files)
		return m
	}
}

// keepIn writes the document's recovery copy, or takes it away where nothing would
// be lost, and gives what the copy goes by.
func (d document) keepIn(files *store.Home) (string, error) {
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
	if m.serial == a.doc.serial {
		a.doc.keeping = false
	}
	switch {
	case m.err != nil && m.leaving:
		a = a.fail(m.err)
		a.notice.Text = a.keys.KeyOf("quit") + " again leaves all the same. Not kept: " + a.notice.Text
		a.leaving = true
	case m.err != nil:
		a.doc.after = nil
		return a.fail(m.err).part(nil, m.err)
	case m.leaving:
		return a, tea.Quit
	case m.serial == a.doc.serial:
		a.doc.kept, a.doc.copy = m.revision, m.copy
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

// leave keeps what is on the bench and goes on with what is to take its place. Where it
// cannot be kept it stays there; asked again, it goes all the same.
func (a App) leave(then func(App) (App, tea.Cmd)) (App, tea.Cmd) {
	if a.doc.upToDate() || a.doc.givenUp == a.doc.history.Revision()+1 {
		return then(a)
	}
	if a.doc.keeping { // one copy at a time: the first finds out what it goes by
		a.doc.after = then
		return a, nil
	}
	keep := a.keep(false)
	a.doc.keeping = true
	return a, func() tea.Msg { return leftMsg{keep().(keptMsg), then} }
}

func (a App) left(m leftMsg) (App, tea.Cmd) {
	a, cmd := a.kept(m.kept)
	switch {
	case m.kept.serial != a.doc.serial:
		return a, cmd
	case m.kept.err != nil:
		a.notice.Text = "once more leaves it all the same. Not kept: " + a.notice.Text
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
	case a.doc.saving || a.racks.saving || a.doc.keeping:
		a.parting = true
		return a, nil
	case a.racks.unsaved():
		a.parting = true
		return a.saveRack()
	case a.doc.upToDate():
		return a, tea.Quit
	default:
		return a, a.keep(true)
	}
}

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
	case a.doc.saving || a.racks.saving || a.doc.keeping || a.overlay != nil:
		return a, cmd
	default:
		a.parting = false
		return a.quit()
	}
}

// fail says what went wrong with a file, and the next step.
func (a App) fail(err error) App {
	var file *store.Error
	if !errors.As(err, &file) {
		return a.refuse(err.Error())
	}
	text := file.Err.Error()
	if file.Hint != "" {
		text += ": " + file.Hint
	}
	return a.refuse(text + " (" + file.File + ")")
}

// save saves the pattern where it came from; one that was never saved is asked its
// name first.
func (a App) save() (App, tea.Cmd) {
	if a.doc.stem == "" && a.state().Pattern.Name == "" {
		return a.saveAs()
	}
	return a.saveOver(a.doc.base)
}

// saveOver saves the document over a version of its file.
func (a App) saveOver(base store.Version) (App, tea.Cmd) {
	a.doc.saving = true
	files, doc := a.files, a.doc
	return a, func() tea.Msg {
		m := savedMsg{serial: doc.serial, stem: doc.stem, file: doc.file, pattern: doc.history.State().Pattern, dropped: doc.copy}
		switch {
		case doc.file != "":
			m.version, m.err = store.SavePatternFile(doc.file, m.pattern, base)
		case doc.stem == "":
			if m.stem, m.err = files.FreeStem(m.pattern.Name); m.err == nil {
				m.version, m.err = files.SavePattern(m.stem, m.pattern, store.Absent)
			}
		default:
			m.version, m.err = files.SavePattern(doc.stem, m.pattern, base)
		}
		return m.dropRecovery(files, len(doc.history.State().Tray) > 0)
	}
}

// dropRecovery takes the recovery copy away once everything in it is saved; strips
// laid aside are in no pattern.
func (m savedMsg) dropRecovery(files *store.Home, tray bool) savedMsg {
	if m.err == nil && !tray && m.dropped != "" {
		m.err = files.DropRecovery(m.dropped)
	}
	return m
}

// saveAs asks for a name and saves under it, as a pattern of its own.
func (a App) saveAs() (App, tea.Cmd) {
	field := ask.New("save under the name", a.state().Pattern.Name, func(s string) (any, string, error) {
		name, _, err := readName(s)
		return name, "", err
	})
	return a.show(field, func(a App, value any) (App, tea.Cmd) {
		next, err := edit.SetName(a.state(), value.(string))
		if err != nil {
			return a.refuse(a.words(err)), nil
		}
		a, cmd := a.do(next)
		a.doc.saving = true
		files, doc, p, dropped := a.files, a.doc, a.state().Pattern, a.doc.copy
		tray := len(a.state().Tray) > 0
		return a, tea.Batch(cmd, func() tea.Msg {
			m := savedMsg{serial: doc.serial, pattern: p, dropped: dropped}
			if m.stem, m.err = files.FreeStem(p.Name); m.err == nil {
				m.version, m.err = files.SavePattern(m.stem, p, store.Absent)
			}
			return m.dropRecovery(files, tray)
		})
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
	a.doc.saving = false
	a, cmd := a.tookSave(m)
	return a.part(cmd, m.err)
}

func (a App) tookSave(m savedMsg) (App, tea.Cmd) {
	if errors.Is(m.err, store.ErrChanged) {
		a.parting = false
		return a.askOver(), nil
	}
	if m.version == "" {
		return a.fail(m.err), nil
	}
	a.doc.stem, a.doc.file, a.doc.base = m.stem, m.file, m.version
	a.doc.history = a.doc.history.MarkSaved(m.pattern)
	if m.err != nil {
		return a.fail(m.err), nil
	}
	where := m.stem
	if m.file != "" {
		where = m.file
	}
	return a.say("saved as " + where), a.keepLater()
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

// listPatterns reads what can be opened.
func (a App) listPatterns() (App, tea.Cmd) {
	files, known := a.files, store.Known(a.reckoner.Table())
	return a, func() tea.Msg {
		list, err := files.Patterns(known)
		if err != nil {
			return failedMsg{err}
		}
		kept, err := files.Recoveries(known)
		if err != nil {
			return failedMsg{err}
		}
		return listedMsg{list, kept}
	}
}

// listed offers what can be opened: kept work, saved patterns, the demo's.
func (a App) listed(m listedMsg) (App, tea.Cmd) {
	// What lies on the bench is not offered once more.
	items := keptItems(slices.DeleteFunc(m.kept, func(r store.Recovery) bool { return r.Copy == a.doc.copy }))
	for _, l := range m.list {
		item := choose.Item{Name: l.Stem, Detail: a.size(l.Pattern), Value: l.Saved}
		if l.Pattern.Name != "" && l.Err == nil {
			item.Name, item.Also = l.Pattern.Name, l.Stem
		}
		if l.Err != nil {
			item = choose.Item{Name: l.File, Detail: firstError(l.Err)}
		}
		items = append(items, item)
	}
	for _, s := range a.demo {
		items = append(items, choose.Item{Name: s.Pattern.Name, Detail: "demo   " + a.size(s.Pattern), Value: s})
	}
	return a.show(choose.New("open", "nothing is saved under that name", items), chooseOpen), nil
}

// chooseOpen opens what was chosen. What is on the bench is kept first, so that
// nothing is lost and nothing needs to be asked.
func chooseOpen(a App, value any) (App, tea.Cmd) {
	switch v := value.(type) {
	case store.Saved:
		return a.leave(func(a App) (App, tea.Cmd) {
			a = a.open(v)
			return a.say("opened " + a.context().Title).inView(), nil
		})
	case store.Recovery:
		return a.leave(func(a App) (App, tea.Cmd) { return a.recover(v), nil })
	case giveUp:
		return a, func() tea.Msg {
			for _, r := range v.kept {
				if err := a.files.GiveUp(r.Copy); err != nil {
					return failedMsg{err}
				}
			}
			return nil
		}
	default:
		return a, nil
	}
}

func (a App) newPattern() (App, tea.Cmd) {
	return a.leave(func(a App) (App, tea.Cmd) {
		panel := a.state().Pattern.Panel
		a = a.open(store.Saved{Pattern: pattern.Pattern{Panel: pattern.Panel{Length: panel.Length, Thickness: panel.Thickness}}})
		return a.say("a new pattern; the panel's length and thickness are those of the last"), nil
	})
}

// size says how large a pattern is, for lists.
func (a App) size(p pattern.Pattern) string {
	u := a.unit
	return fmt.Sprintf("%s   %s x %s x %s", screen.Count(len(p.Strips), "strip"), p.Panel.Length.Format(u), p.Width().Format(u), p.Panel.Thickness.With(u))
}

func firstError(err error) string {
	var list store.Errors
	if errors.As(err, &list) && len(list) > 0 {
		return fmt.Sprintf("cannot be read: line %d: %s", list[0].Line, list[0].Message)
	}
	return "cannot be read: " + err.Error()
}

// keptItems lists work that was not saved when oddments ended.
func keptItems(kept []store.Recovery) []choose.Item {
	var items []choose.Item
	for _, r := range kept {
		name := r.Pattern.Name
		if name == "" {
			name = r.Copy
		}
		item := choose.Item{Name: "not saved: " + name, Detail: "kept " + r.At.Format("2 Jan 15:04"), Value: r}
		if r.Err != nil {
			item.Detail, item.Value = firstError(r.Err), nil
		}
		items = append(items, item)
	}
	return items
}

// later says that kept work is left for later, giveUp that it is not wanted any more.
type (
	later  struct{}
	giveUp struct{ kept []store.Recovery }
)

// offer shows the work that was not saved last time.
func (a App) offer(kept []store.Recovery) App {
	if len(kept) == 0 {
		return a
	}
	items := append(keptItems(kept),
		choose.Item{Name: "leave it for later", Detail: a.keys.KeyOf("open") + " finds it", Value: later{}},
		choose.Item{Name: "give it up", Detail: "it stays as .bak in the folder recovery", Value: giveUp{kept}})
	return a.show(choose.New("work from last time was kept: bring it back?", "", items).Answers(), chooseOpen)
}

// recover puts kept work on the bench. It stands on the version of the pattern that
// it was made from and counts as unsaved.
func (a App) recover(r store.Recovery) App {
	stem := r.Stem
	if stem == store.Untitled {
		stem = ""
	}
	a = a.open(store.Saved{Stem: stem, Version: r.Base})
	a.doc.history = edit.NewHistory(edit.State{Pattern: r.Pattern, Tray: r.Tray}).MarkSaved(pattern.Pattern{})
	a.doc.kept, a.doc.copy = a.doc.history.Revision(), r.Copy
	return a.checked().inView().say("brought back what was not saved")
}
