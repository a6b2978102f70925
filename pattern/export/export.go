// Package export gives a pattern away: as a picture for the customer (SVG, PNG) and as
// a sheet for the bench (HTML), each written whole to an io.Writer.
//
// It only shows. Every figure comes from the packages that compute it, so that the
// sheet says what the commands and the screens say. The same job gives the same
// bytes: there is no clock and no chance in it, the grain is drawn from the timber's
// key and the strip's place. Coordinates on a page are millimetres of wood in
// float64; colours are sRGB and approximate, and each picture says so. Texts of the
// maker's are escaped, and what could act on a reader (control characters, marks that
// turn the direction of writing) is replaced by a stand-in.
package export

import (
	"io"
	"path/filepath"
	"slices"
	"strings"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/work"
)

// The bounds of a picture's width, in pixels, and what it is where nobody said.
const (
	MinWidth     = 1
	MaxWidth     = 8000
	DefaultWidth = 1600
)

// A Job is what is to be shown.
type Job struct {
	Stem    string   // what the pattern is called in commands
	Work    work.Job // the pattern, how often it is made, and its products where they stand
	Physics movement.Physics
	Unit    length.Unit
	Look    Look // of pictures
	// Other patterns on the same picture, which look as Look says too, or the other boards of a
	// set, which Stock and Plan are of too.
	Beside []Job
	Worth  float64 // of what comes out of one panel, by the orders; 0: not said

	// The stock plan that the sheet is to be worked by; without patterns there is none.
	Stock cutting.Job
	Plan  cutting.Plan

	mark   string         // before the ids of its drawings, where several jobs stand on one page
	boards map[string]int // of a set: the place of each pattern, from 1
}

// Name returns what the pattern is called.
func (j Job) Name() string {
	if name := j.Work.Pattern.Name; name != "" {
		return name
	}
	return j.Stem
}

// timber returns the name of a timber, or its key.
func (j Job) timber(key string) string {
	if t, ok := j.Physics.Table().Get(key); ok {
		return t.Name
	}
	return key
}

// Look says how a picture is to look. The zero value is the whole pattern, oiled, as
// wide as DefaultWidth.
type Look struct {
	Raw     bool // the colours of planed wood without oil
	Marks   bool // dashed lines on the panel show what is cut out of it
	Table   bool // all lies on a light table, instead of on white paper
	Relief  bool // the section of the panel in the dry and the humid season, with words
	Product int  // from 1: this one alone; 0: the panel and every product
	Width   int  // pixels, MinWidth to MaxWidth; 0: DefaultWidth
}

func (l Look) width() int {
	if l.Width == 0 {
		return DefaultWidth
	}
	return max(MinWidth, min(MaxWidth, l.Width))
}

// A Kind tells pictures from sheets; it reads as a word.
type Kind string

// The kinds.
const (
	Picture Kind = "picture" // for the customer
	Sheet   Kind = "sheet"   // for the bench
)

// An Export is one form in which a job is given away.
type Export struct {
	Kind   Kind
	Ending string // of its files, with the dot
	What   string // in a few words
	Write  func(io.Writer, Job) error
}

// Exports lists every form. A new one is one entry here.
func Exports() []Export {
	return []Export{
		{Picture, ".svg", "SVG drawing", writeSVG},
		{Picture, ".png", "PNG picture", writePNG},
		{Sheet, ".html", "bench sheet, to print or to read", writeSheet},
	}
}

// Endings lists the endings of a kind.
func Endings(k Kind) []string {
	var out []string
	for _, e := range Exports() {
		if e.Kind == k {
			out = append(out, e.Ending)
		}
	}
	return out
}

// For returns the form of a kind that a file of that name has, by its ending in capitals
// or not.
func For(k Kind, file string) (form Export, ok bool) {
	all, ending := Exports(), strings.ToLower(filepath.Ext(file))
	at := slices.IndexFunc(all, func(e Export) bool { return e.Kind == k && e.Ending == ending })
	if at < 0 {
		return Export{}, false
	}
	return all[at], true
}
