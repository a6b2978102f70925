package tui

import (
	"cmp"
	"errors"
	"sync"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/document"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/ask"
	"example.com/oddments/tui/overlay/choose"
	"example.com/oddments/tui/screen"
)

// keepAfter is how long after a change the recovery copy is written.
const keepAfter = time.Second

// The messages with which keeping comes back, besides the document's own.
type (
	keepMsg struct{ again bool } // it is time for the recovery copy, again where it failed before
	// benchKeptMsg says that the bench was kept, so that something else can take its place.
	benchKeptMsg struct {
		kept document.KeptMsg
		then func(App) (App, tea.Cmd)
	}
)

func (a App) keepLater() tea.Cmd { return a.later(keepAfter, keepMsg{}) }

// keepNow has the recovery copy written where it is not up to date, or taken away
// where there is nothing to keep.
func (a App) keepNow(again bool) (App, tea.Cmd) {
	a.doc.waits = a.doc.waits && !again
	if a.doc.Keeping != nil || a.doc.UpToDate() {
		return a, nil
	}
	return a.keep(document.KeptMsg{Again: again})
}

// keep writes the recovery copy. Whoever asks for its outcome first has it written, and
// it is written once: at the end the program does not wait for a command that the screen
// library has dropped. m says why it is written.
func (a App) keep(m document.KeptMsg) (App, tea.Cmd) {
	files, doc := a.bench, a.doc
	keeping := sync.OnceValue(func() document.KeptMsg {
		m.Serial, m.Revision = doc.Serial, doc.History.Revision()
		m.Copy, m.Err = doc.KeepIn(files)
		return m
	})
	a.doc.Keeping = keeping
	return a, func() tea.Msg { return keeping() }
}

func (a App) kept(m document.KeptMsg) (App, tea.Cmd) {
	var again tea.Cmd
	ours := m.Serial == a.doc.Serial
	if ours {
		a.doc.Document = a.doc.Took(m)
		a, again = a.took(m.Err)
	}
	switch {
	case m.Err != nil && m.Again && a.doc.notKept != "" && !a.quitPending && a.doc.after == nil: // it was said before
	case m.Err != nil && m.Quitting:
		a = a.notKept(m.Err)
		a.notice.Text = a.keys.KeyOf("quit") + " again leaves anyway. " + a.notice.Text
		a.doc.notKept = a.notice.Text
		a.quitFailed, a.quitPending = true, false
	case m.Err != nil:
		a.doc.after = nil
		return a.notKept(m.Err).resumeQuit(again, m.Err)
	case m.Quitting:
		return a, tea.Quit
	case ours:
		if then := a.doc.after; then != nil {
			a.doc.after = nil
			return a.replaceBench(then)
		}
		if !a.doc.UpToDate() { // the bench went on meanwhile
			return a.resumeQuit(a.keepLater(), nil)
		}
	}
	return a.resumeQuit(again, nil)
}

// took has keeping tried again in a while where it failed, for what was in the way, like
// another oddments in the home, may end; and takes back what was said once it did not.
func (a App) took(err error) (App, tea.Cmd) {
	switch {
	case err == nil && a.doc.notKept != "":
		if a.notice.Text == a.doc.notKept {
			a = a.say("kept now")
		}
		a.doc.notKept = ""
	case err != nil && !a.doc.waits: // one wait at a time
		a.doc.waits = true
		return a, a.later(keepAfter, keepMsg{again: true})
	}
	return a, nil
}

// notKept says why the recovery copy is not as it should be.
func (a App) notKept(err error) App {
	what := "Not kept: "
	if !a.doc.Unsaved() {
		what = "The recovery copy of saved work stays: "
	}
	a = a.fail(err)
	a.notice.Text = what + a.notice.Text
	a.doc.notKept = a.notice.Text
	return a
}

// replaceBench keeps what is on the bench and goes on with what is to take its place. Where it
// cannot be kept it stays there; asked again, it goes all the same. A save under way is
// waited for: what is saved needs no copy.
func (a App) replaceBench(then func(App) (App, tea.Cmd)) (App, tea.Cmd) {
	switch {
	case a.doc.givenUp == a.doc.History.Revision()+1:
		return then(a)
	case a.doc.Saving != nil || a.doc.Keeping != nil: // one copy at a time: the first finds out what it goes by
		a.doc.after = then
		return a, nil
	case a.doc.UpToDate():
		return then(a)
	}
	a, keep := a.keep(document.KeptMsg{})
	return a, func() tea.Msg { return benchKeptMsg{keep().(document.KeptMsg), then} }
}

func (a App) benchKept(m benchKeptMsg) (App, tea.Cmd) {
	a, cmd := a.kept(m.kept)
	switch {
	case m.kept.Serial != a.doc.Serial:
		return a, cmd
	case m.kept.Err != nil:
		a.notice.Text = "press again to leave anyway. " + a.notice.Text
		a.doc.givenUp = a.doc.History.Revision() + 1
		return a, cmd
	default:
		return a.replaceBench(m.then)
	}
}

// quit leaves; what is being saved is waited for, what is not saved is kept first.
func (a App) quit() (App, tea.Cmd) {
	switch {
	case a.quitFailed:
		return a, tea.Quit
	case a.busy():
		a.quitPending = true
		return a, nil
	case a.rack.Unsaved():
		a.quitPending = true
		return a.saveRack()
	case a.shop.Unsaved():
		var cmd tea.Cmd
		a.quitPending = true
		a.shop, cmd = a.shop.Save(a.files)
		return a, cmd
	case a.keepers().Unsaved():
		a.quitPending = true
		return a.tellAll(screen.SaveNow{})
	case a.rack.Own() && a.replaced.Of(a.doc.Document) != nil && a.batch.Unsaved() > 0:
		a.quitFailed = true
		return a.refuse("the set is not saved: " + a.keys.KeyOf("pile-keep") + " on the pile saves it, " + a.keys.KeyOf(keymap.Quit) + " again leaves anyway"), nil
	case a.doc.UpToDate():
		return a, tea.Quit
	default:
		return a.keep(document.KeptMsg{Quitting: true})
	}
}

// keepers returns the screens that save their own changes.
func (a App) keepers() (all screen.Keepers) {
	for _, s := range a.screens {
		if k, ok := s.Screen.(screen.Keeper); ok {
			all = append(all, k)
		}
	}
	return all
}

// busy reports whether something is being saved or kept.
func (a App) busy() bool {
	return a.doc.Saving != nil || a.rack.Saving || a.shop.Saving() || a.doc.Keeping != nil || a.keepers().Saving()
}

// resumeQuit goes on with leaving, if that was asked for while something was being saved. Where
// the save failed the maker is told, and may leave all the same.
func (a App) resumeQuit(cmd tea.Cmd, err error) (App, tea.Cmd) {
	switch {
	case !a.quitPending:
		return a, cmd
	case err != nil:
		a.notice.Text = a.keys.KeyOf("quit") + " again leaves anyway. Not saved: " + a.notice.Text
		a.quitPending, a.quitFailed = false, true
		return a, cmd
	case a.busy() || a.overlay != nil:
		return a, cmd
	default:
		a.quitPending = false
		return a.quit()
	}
}

// save saves the pattern where it came from; one that was never saved is asked its
// name first. While a save is under way the next waits for its version.
func (a App) save() (App, tea.Cmd) {
	switch {
	case a.doc.Saving != nil:
		a.doc.again = true
		return a, nil
	case a.doc.Stem == "" && a.state().Pattern.Name == "":
		return a.saveAs()
	default:
		return a.saveOver(a.doc.Base)
	}
}

// saveOver saves the document over a version of its file.
func (a App) saveOver(base store.Version) (App, tea.Cmd) {
	files, doc, p := a.bench, a.doc, a.state().Pattern
	return a.saveBy(func() document.SavedMsg {
		m := document.SavedMsg{Serial: doc.Serial, Stem: doc.Stem, File: doc.File, Pattern: p}
		m.Version, m.Err = doc.SaveIn(files, &m.Stem, p, base)
		if errors.Is(m.Err, store.ErrChanged) && doc.Perhaps != "" { // by the save before, which failed late
			m.Version, m.Err = doc.SaveIn(files, &m.Stem, p, doc.Perhaps)
		}
		return m
	})
}

// saveBy has save made once, by whoever asks for its outcome first.
func (a App) saveBy(save func() document.SavedMsg) (App, tea.Cmd) {
	saving := sync.OnceValue(save)
	a.doc.Saving = saving
	return a, func() tea.Msg { return saving() }
}

// saveAs asks for a name and saves under it, as a pattern of its own.
func (a App) saveAs() (App, tea.Cmd) {
	return a.show(ask.New("save as", a.state().Pattern.Name, ask.Name), func(a App, value any) (App, tea.Cmd) {
		if a.doc.Saving != nil {
			return a.refuse("the pattern is being saved: wait, then press " + a.keys.KeyOf(keymap.SaveAs) + " again"), nil
		}
		next, err := edit.SetName(a.state(), value.(string))
		if err != nil {
			return a.refuse(a.words(err)), nil
		}
		a, later := a.do(next)
		files, p, serial := a.bench, a.state().Pattern, a.doc.Serial
		a, save := a.saveBy(func() document.SavedMsg {
			m := document.SavedMsg{Serial: serial, Pattern: p}
			m.Version, m.Err = document.Document{}.SaveIn(files, &m.Stem, p, store.Absent)
			return m
		})
		return a, tea.Batch(later, save)
	}), nil
}

// saved takes note of a save, or asks what to do when another program changed the
// file. What was saved may have left the bench meanwhile.
func (a App) saved(m document.SavedMsg) (App, tea.Cmd) {
	if m.Serial != a.doc.Serial {
		if m.Err != nil {
			return a.fail(m.Err), nil
		}
		return a.say("saved as " + m.Stem), nil
	}
	a.doc.Document = a.doc.TookSave(m)
	then, again := a.doc.after, a.doc.again
	a.doc.after, a.doc.again = nil, false
	switch {
	case errors.Is(m.Err, store.ErrChanged):
		a.quitPending = false
		return a.askOver(), nil
	case m.Err != nil:
		return a.fail(m.Err).resumeQuit(nil, m.Err)
	}
	a = a.say("saved as " + cmp.Or(m.File, m.Stem))
	switch {
	case again && a.doc.History.Dirty():
		a.doc.after = then
		return a.saveOver(a.doc.Base)
	case then != nil:
		return a.replaceBench(then)
	}
	a, drop := a.keepNow(false) // the recovery copy is not needed any more
	return a.resumeQuit(drop, nil)
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
	const what = "this pattern's file was changed elsewhere"
	of := a.doc.Serial // another pattern on the bench must not be saved over its file
	list := choose.New(what, "", []choose.Item{
		{Name: "save under another name", Detail: "both are kept", Value: underAnother},
		{Name: "overwrite it", Detail: "the old one stays as .bak", Value: overTheirs},
	}).Answers()
	return a.askWhenFree(what, func(a App) bool { return a.doc.Serial == of }, list, func(a App, value any) (App, tea.Cmd) {
		if a.doc.Serial != of {
			return a.say("that pattern is no longer on the bench; its unsaved work is kept, and " + a.keys.KeyOf(keymap.Open) + " finds it"), nil
		}
		if value == overTheirs {
			return a.saveOver(store.Overwrite)
		}
		return a.saveAs()
	})
}
