package colour

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"time"

	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/photo"
	"example.com/oddments/pattern/photo/reading"
)

// decodeFor is how long a photo may take.
const decodeFor = time.Minute

// A decoded is what decoding a photo came to.
type decoded struct {
	photo *photo.Photo
	err   error
}

// decode returns the work that decodes a file, and tells what percent of it is.
func decode(file string) func(context.Context, <-chan time.Time, func(int)) decoded {
	return func(ctx context.Context, tick <-chan time.Time, report func(int)) decoded {
		in, err := os.Open(file)
		if err != nil {
			return decoded{err: err}
		}
		defer in.Close()
		p, err := photo.Decode(ctx, in, func(done, all int) {
			select {
			case <-tick:
				report(int(100 * int64(done) / int64(max(1, all))))
			default:
			}
		})
		return decoded{p, err}
	}
}

// why says why a photo cannot be read.
func why(file string, err error) string {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "there is no file " + file
	case errors.Is(err, context.Canceled):
		return "stopped: no photo is read"
	case errors.Is(err, context.DeadlineExceeded):
		return fmt.Sprintf("the photo took more than %v: share it smaller", decodeFor)
	default:
		return err.Error()
	}
}

// A question is what is to be known of a photo: its light by the papers that are set, the
// frame, the pieces that are set, and how the part in view looks.
type question struct {
	photo *photo.Photo
	setup reading.Setup
	boxes boxes
	frame reading.Box
	name  string // of what the frame is for: a piece, else a paper
	view  view
	w, h  int // points in view
}

// An answer is what was found out.
type answer struct {
	of     question
	number int             // of the question
	reader *reading.Reader // nil: no paper is set, or none that can be read
	err    error           // why
	trial  *reading.Reader // with the frame as one more paper
	live   reading.Piece   // the frame as a piece
	wrong  error           // why there is none of the last two
	pieces map[string]reading.Piece
	errs   map[string]error // of pieces that cannot be read
	points []colour.RGB     // row by row
}

// answered finds out what a question asks; what the answer before says already is taken from
// there.
func (q question) answered(number int, before answer) answer {
	a := answer{of: q, number: number, pieces: map[string]reading.Piece{}, errs: map[string]error{}}
	same := before.of.photo == q.photo && sameSetup(before.of.setup, q.setup)
	if a.reader, a.err = before.reader, before.err; !same {
		a.reader, a.err = nil, nil
		if len(q.setup.White) > 0 {
			a.reader, a.err = reading.NewReader(q.photo, q.setup)
		}
	}
	if q.name == "" {
		setup := q.setup
		setup.White = append(setup.White[:len(setup.White):len(setup.White)], q.frame)
		a.trial, a.wrong = reading.NewReader(q.photo, setup)
	} else if a.reader != nil {
		a.live, a.wrong = a.reader.Piece(q.name, q.frame)
	}
	for _, s := range q.boxes.pieces {
		if p, ok := before.pieces[s.id]; ok && same && p.Box == s.box {
			a.pieces[s.id] = p
		} else if a.reader != nil {
			if p, err := a.reader.Piece(s.id, s.box); err != nil {
				a.errs[s.id] = err
			} else {
				a.pieces[s.id] = p
			}
		}
	}
	if a.points = before.points; !same || before.of.view != q.view || before.of.w != q.w || before.of.h != q.h {
		a.points = q.points(a.reader)
	}
	return a
}

func sameSetup(a, b reading.Setup) bool {
	if len(a.White) != len(b.White) || a.Light != b.Light {
		return false
	}
	for i := range a.White {
		if a.White[i] != b.White[i] {
			return false
		}
	}
	return true
}

// points returns the photo's part in view, a pixel a point.
func (q question) points(r *reading.Reader) []colour.RGB {
	out := make([]colour.RGB, q.w*q.h)
	for py := range q.h {
		for px := range q.w {
			if x, y := q.view.pixel(px, py); x >= 0 && y >= 0 && x < q.photo.Width && y < q.photo.Height {
				out[py*q.w+px] = reading.Shown(q.photo, r, x, y)
			}
		}
	}
	return out
}
