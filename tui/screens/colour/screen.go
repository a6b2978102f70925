// Package colour is the screen on which the colours of the maker's own timber are read out of
// a photo: its picture, frames for the papers and then for the chosen pieces, and beside them
// what is read, as it is set.
//
// Everything that takes longer than a key runs beside the screen: decoding, which can be
// stopped, and reading, one question at a time; an answer to an older question still shows
// what it has. Nothing is written before the colours are kept, which is one step of the rack.
package colour

import (
	"fmt"
	"path/filepath"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/photo"
	"example.com/oddments/pattern/photo/reading"
	"example.com/oddments/species"
	"example.com/oddments/tui/job"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screen"
)

// A Screen is a photo that is read. The zero value has none.
type Screen struct {
	file    string
	photo   *photo.Photo // nil: none is read
	wrong   string       // why none is
	loading job.Job[int, decoded]
	loads   bool
	percent int

	ids          []string // the chosen pieces, in the order of the rack
	at           int      // of ids, what the frame is for once the papers are set
	now          boxes
	past, future []boxes

	frame   reading.Box
	side    side
	view    view
	light   reading.Light
	surface reading.Surface

	got    answer
	number int  // of the last question
	asks   bool // an answer is awaited
	stale  bool // more is to be known than was asked
}

// Title returns the screen's name.
func (Screen) Title() keymap.Place { return Place }

// CanUndo reports whether a box can be taken back.
func (s Screen) CanUndo() bool { return len(s.past) > 0 }

// Update moves frames and reads what they hold.
func (s Screen) Update(ctx screen.Context, msg tea.Msg) (screen.Screen, []screen.Request) {
	if next, asked, ok := table().Take(s, ctx, msg); ok {
		return next, asked
	}
	switch msg := msg.(type) {
	case screen.ReadPhoto:
		return s.begin(msg)
	case job.Progress[int]:
		if s.loading.Sent(msg) {
			s.percent = msg.At
			return s, []screen.Request{screen.Run{Cmd: s.loading.Next()}}
		}
	case job.Done[decoded]:
		if s.loading.Ended(msg) {
			return s.decoded(msg.Result, ctx)
		}
	case answer:
		return s.answered(msg, ctx)
	case screen.Undone:
		return s.undone(msg.Redo, ctx)
	case screen.Enter, screen.Chosen, screen.Recomputed:
		return s.look(ctx)
	case screen.Press:
		return s.press(msg, ctx)
	case screen.Wheel:
		return s.zoom(map[bool]float64{true: nearerBy, false: 1 / nearerBy}[msg.Up], ctx)
	}
	return s, nil
}

// begin decodes a photo for pieces of the rack.
func (s Screen) begin(of screen.ReadPhoto) (screen.Screen, []screen.Request) {
	s.loading.Stop()
	next := Screen{file: of.File, ids: of.IDs, number: s.number + 1, loads: true}
	var cmd tea.Cmd
	next.loading, cmd = job.Start(decodeFor, decode(of.File))
	return next, []screen.Request{screen.Run{Cmd: cmd}}
}

// decoded takes the photo.
func (s Screen) decoded(d decoded, ctx screen.Context) (screen.Screen, []screen.Request) {
	s.loads = false
	if d.err != nil {
		s.wrong = why(s.file, d.err)
		return s, []screen.Request{screen.Refuse(s.wrong)}
	}
	s.photo, s.wrong = d.photo, ""
	const part = 8 // of the photo's sides, the first frame
	wide, high := s.photo.Width, s.photo.Height
	s.frame = reading.Box{X: wide / part, Y: high / part, W: min(wide, max(leastFrame, wide/part)), H: min(high, max(leastFrame, high/part))}
	s.frame = moved(s.frame, whole, 0, 0, wide, high)
	return s.look(ctx)
}

// stop ends decoding, or goes back to the rack.
func (s Screen) stop(screen.Context) (screen.Screen, []screen.Request) {
	if s.loads {
		s.loading.Stop()
		return s, nil
	}
	return s, []screen.Request{screen.Go{To: "rack"}}
}

// setup returns what lies beside the timber.
func (s Screen) setup() reading.Setup {
	return reading.Setup{White: s.now.papers, Light: s.light}
}

// piece returns the entry of the rack that the frame is for; none while papers are set.
func (s Screen) piece() (id string, ok bool) {
	if !s.now.onward || s.at >= len(s.ids) {
		return "", false
	}
	return s.ids[s.at], true
}

// look has it found out what is to be seen now, one question at a time.
func (s Screen) look(ctx screen.Context) (screen.Screen, []screen.Request) {
	if s.photo == nil {
		return s, nil
	}
	w, h := points(ctx)
	s.view = s.view.within(s.photo.Width, s.photo.Height, w, h)
	if s.asks {
		s.stale = true
		return s, nil
	}
	id, _ := s.piece()
	q := question{photo: s.photo, setup: s.setup(), boxes: s.now, frame: s.frame, name: id, view: s.view, w: w, h: h}
	s.number++
	s.asks, s.stale = true, false
	number, before := s.number, s.got
	return s, []screen.Request{screen.Run{Cmd: func() tea.Msg { return q.answered(number, before) }}}
}

// answered takes what was found out, and asks on where that is of before.
func (s Screen) answered(a answer, ctx screen.Context) (screen.Screen, []screen.Request) {
	if a.number != s.number { // of another photo
		return s, nil
	}
	s.got, s.asks = a, false
	if s.stale {
		return s.look(ctx)
	}
	return s, nil
}

// point returns how many pixels a point of the view is.
func (s Screen) point() int { return max(1, int(s.view.per+0.5)) }

// move moves the frame, or its side, by so many points.
func move(dx, dy int) func(Screen, screen.Context) (screen.Screen, []screen.Request) {
	return func(s Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
		if s.photo == nil {
			return s, nil
		}
		by := s.point()
		s.frame = moved(s.frame, s.side, dx*by, dy*by, s.photo.Width, s.photo.Height)
		return s.followed(ctx)
	}
}

// grow makes the frame wider and higher by points at its right and bottom.
func grow(dx, dy int) func(Screen, screen.Context) (screen.Screen, []screen.Request) {
	return func(s Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
		if s.photo == nil {
			return s, nil
		}
		by := s.point()
		s.frame = moved(moved(s.frame, right, dx*by, 0, s.photo.Width, s.photo.Height), bottom, 0, dy*by, s.photo.Width, s.photo.Height)
		return s.followed(ctx)
	}
}

// followed keeps the frame in view, and reads it.
func (s Screen) followed(ctx screen.Context) (screen.Screen, []screen.Request) {
	w, h := points(ctx)
	s.view = s.view.follow(s.frame, s.photo.Width, s.photo.Height, w, h)
	return s.look(ctx)
}

// nextSide has the arrows move another side, or the frame.
func (s Screen) nextSide(screen.Context) (screen.Screen, []screen.Request) {
	s.side = (s.side + 1) % sides
	return s, []screen.Request{screen.Say("the arrows move the " + s.side.String())}
}

const nearerBy = 1.5

// zoom shows the photo so many times as near.
func (s Screen) zoom(by float64, ctx screen.Context) (screen.Screen, []screen.Request) {
	if s.photo == nil {
		return s, nil
	}
	w, h := points(ctx)
	s.view = s.view.nearer(by, s.frame, s.photo.Width, s.photo.Height, w, h)
	return s.look(ctx)
}

// do makes a change of the boxes one step.
func (s Screen) do(next boxes) Screen {
	s.past, s.future, s.now = append(s.past[:len(s.past):len(s.past)], s.now), nil, next
	return s
}

// undone takes the last step back, or makes it again.
func (s Screen) undone(redo bool, ctx screen.Context) (screen.Screen, []screen.Request) {
	from, to, said := &s.past, &s.future, "undone: the last box"
	if redo {
		from, to, said = &s.future, &s.past, "redone: the last box"
	}
	n := len(*from)
	if n == 0 {
		return s, []screen.Request{screen.Say("no box to take back or to set again")}
	}
	now := s.now
	s.now = (*from)[n-1]
	*from, *to = (*from)[:n-1:n-1], append((*to)[:len(*to):len(*to)], now)
	next, asked := s.look(ctx)
	return next, append(asked, screen.Say(said))
}

// set sets the frame as the box of what it is for, where that can be read.
func (s Screen) set(ctx screen.Context) (screen.Screen, []screen.Request) {
	id, onPiece := s.piece()
	switch {
	case s.photo == nil:
		return s, []screen.Request{screen.Refuse("no photo is read yet")}
	case s.asks || s.stale || s.got.of.frame != s.frame:
		return s, []screen.Request{screen.Refuse("the frame is still being read: once more, please")}
	case s.now.onward && !onPiece:
		return s, []screen.Request{screen.Refuse("no piece was chosen on the rack")}
	case s.got.wrong != nil:
		return s, []screen.Request{screen.Refuse(s.got.wrong.Error())}
	case !onPiece:
		next := s.now
		next.papers = append(next.papers[:len(next.papers):len(next.papers)], s.frame)
		s = s.do(next)
		after, asked := s.look(ctx)
		return after, append(asked, screen.Say(fmt.Sprintf("paper %d is set; %s goes on to the pieces", len(next.papers), ctx.Keys.KeyOf(colourOn))))
	}
	s = s.do(s.now.with(id, s.frame))
	if i := slices.IndexFunc(s.ids, func(id string) bool { _, set := s.now.of(id); return !set }); i >= 0 {
		s.at = i
	}
	after, asked := s.look(ctx)
	return after, append(asked, screen.Say(fmt.Sprintf("%s is set; %s keeps the colours", id, ctx.Keys.KeyOf(colourKeep))))
}

// clear takes the box of the chosen piece away, or the last paper.
func (s Screen) clear(ctx screen.Context) (screen.Screen, []screen.Request) {
	id, onPiece := s.piece()
	if _, set := s.now.of(id); onPiece && !set || !onPiece && len(s.now.papers) == 0 {
		return s, []screen.Request{screen.Say("no box is set here yet")}
	}
	s = s.do(s.now.without(id))
	next, asked := s.look(ctx)
	return next, append(asked, screen.Say("the box is taken away"))
}

// on goes from the papers to the pieces, or back.
func (s Screen) on(ctx screen.Context) (screen.Screen, []screen.Request) {
	if !s.now.onward && s.got.reader == nil {
		return s, []screen.Request{screen.Refuse("set white paper first: the colours are read by it")}
	}
	next := s.now
	next.onward = !next.onward
	s = s.do(next)
	return s.look(ctx)
}

// other chooses another piece.
func other(by int) func(Screen, screen.Context) (screen.Screen, []screen.Request) {
	return func(s Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
		if !s.now.onward {
			return s, []screen.Request{screen.Say("papers first: " + ctx.Keys.KeyOf(colourOn) + " goes on to the pieces")}
		}
		s.at = screen.Among(s.at+by, len(s.ids))
		if id, ok := s.piece(); ok {
			if box, set := s.now.of(id); set {
				s.frame = box
			}
		}
		return s.look(ctx)
	}
}

// otherLight and otherSurface say what the photo was taken by, and of.
func (s Screen) otherLight(ctx screen.Context) (screen.Screen, []screen.Request) {
	s.light = reading.Daylight + reading.Lamp - s.light
	next, asked := s.look(ctx)
	return next, append(asked, screen.Say("taken by "+s.light.String()))
}

func (s Screen) otherSurface(ctx screen.Context) (screen.Screen, []screen.Request) {
	s.surface = (s.surface + 1) % (reading.Raw + 1)
	return s, []screen.Request{screen.Say("the timber in the photo is " + s.surface.String())}
}

// record says where the colours come from.
func (s Screen) record(ctx screen.Context) reading.Record {
	day := s.photo.Taken
	if day == (pattern.Date{}) {
		day = pattern.DateOf(ctx.Now)
	}
	return s.got.reader.Record(day, s.surface)
}

// kept returns the colour of a piece that was read as the rack keeps it.
func (s Screen) kept(p reading.Piece, timber species.Species) colour.Lab {
	return reading.Record{Surface: s.surface}.Kept(p.Lab, timber)
}

// keep writes the colours that were read to the rack, as one step.
func (s Screen) keep(ctx screen.Context) []screen.Request {
	if s.asks || s.stale {
		return []screen.Request{screen.Refuse("the photo is still being read: once more, please")}
	}
	next, n := ctx.Rack, 0
	for _, id := range s.ids {
		p, ok := s.got.pieces[id]
		e, there := ctx.Rack.Get(id)
		if !ok || !there {
			continue
		}
		timber, _ := ctx.Physics.Table().Get(e.Species)
		var err error
		if next, err = next.SetColour(id, colour.OwnOf(s.kept(p, timber).RGB()), s.record(ctx).Piece()); err != nil {
			return []screen.Request{screen.Refuse(err.Error())}
		}
		n++
	}
	if n == 0 {
		return []screen.Request{screen.Refuse("no piece is read yet: set the frame on a piece first")}
	}
	said := fmt.Sprintf("the colours of %d pieces are on the rack, from %s", n, filepath.Base(s.file))
	if n == 1 {
		said = "the colour of 1 piece is on the rack, from " + filepath.Base(s.file)
	}
	return []screen.Request{screen.Say(said), screen.EditRack{Next: next}, screen.Go{To: "rack"}}
}

// press takes the frame to where the photo is pressed.
func (s Screen) press(m screen.Press, ctx screen.Context) (screen.Screen, []screen.Request) {
	at := lay(ctx.Window.Body).photo
	if s.photo == nil || !at.Contains(m.X, m.Y) {
		return s, nil
	}
	x, y := s.view.pixel(m.X-at.X, 2*(m.Y-at.Y))
	s.frame = moved(s.frame, whole, x-s.frame.X-s.frame.W/2, y-s.frame.Y-s.frame.H/2, s.photo.Width, s.photo.Height)
	return s.look(ctx)
}
