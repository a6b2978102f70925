package cli

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/typed"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/photo"
	"example.com/oddments/pattern/photo/reading"
	"example.com/oddments/pattern/rack"
)

// A boxOf is the box of something that has a name.
type boxOf struct {
	name string
	box  reading.Box
}

type colourFlags struct {
	setup          reading.Setup
	surface        reading.Surface
	day            *pattern.Date // nil: the photo's own
	pieces, timber []boxOf
	save           bool
}

func (a *app) colourCommand() *cobra.Command {
	var f colourFlags
	cmd := a.command("colour", task{json: "oddments/colour 1",
		takes: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return failure.Usage("write it like oddments colour PHOTO.jpg --white X,Y,W,H --piece ID=X,Y,W,H", "colour takes one PHOTO")
			}
			return f.check(a, cmd, args)
		},
		errand: func(ctx context.Context, w workshop, args []string) error { return w.colour(ctx, args[0], f) }})
	set := cmd.Flags()
	several := func(all *[]boxOf, name, kind, says string) {
		typed.Flag(set, all, name, kind, "", func(text string) ([]boxOf, error) { b, err := parseBoxOf(text); return append(*all, b), err }, says)
	}
	typed.Flag(set, &f.setup.White, "white", "X,Y,W,H", "", func(text string) ([]reading.Box, error) {
		b, err := reading.ParseBox(text)
		return append(f.setup.White, b), err
	}, "a strip of plain white paper; once for each")
	typed.Flag(set, &f.setup.Grey, "grey", "X,Y,W,H[@18]", "", reading.ParseGrey, "a grey card, behind @ the percent it reflects")
	typed.Flag(set, &f.setup.Target, "target", "X,Y,W,H", "", typed.Optional(reading.ParseBox), "the target of 24 patches, by their outer edges")
	typed.Flag(set, &f.setup.Edition, "edition", "YEAR", f.setup.Edition.String(), reading.ParseEdition, "of the target's values: 2014 or 2005")
	several(&f.pieces, "piece", "ID=X,Y,W,H", "a piece or ready strip of the rack; once for each")
	several(&f.timber, "timber", "KEY=X,Y,W,H", "a piece by which a timber's colour is corrected; several count as one")
	typed.Flag(set, &f.setup.Light, "light", "LIGHT", f.setup.Light.String(), reading.ParseLight, "daylight or lamp")
	typed.Flag(set, &f.setup.Paper, "paper", "L,a,b", "", typed.Optional(colour.ParseLab), "colour of the paper in CIELAB, where it is not office paper")
	typed.Flag(set, &f.surface, "surface", "SURFACE", f.surface.String(), reading.ParseSurface, "of the timber: oiled, wetted or raw")
	typed.Flag(set, &f.day, "date", "DATE", "", typed.Optional(pattern.ParseDate), "day of the photo, where the photo does not say it")
	set.BoolVar(&f.save, "save", false, "write the colours to rack.toml and species.toml")
	return cmd
}

// parseBoxOf reads NAME=X,Y,W,H; a name may hold a =.
func parseBoxOf(text string) (boxOf, error) {
	at := strings.LastIndex(text, "=")
	if at <= 0 {
		return boxOf{}, fmt.Errorf("%q: must be a name, = and a box, like W3=120,80,400,90", text)
	}
	b, err := reading.ParseBox(text[at+1:])
	return boxOf{text[:at], b}, err
}

// check refuses what does not go together.
func (f colourFlags) check(a *app, cmd *cobra.Command, args []string) error {
	seen := map[string]bool{}
	for _, p := range f.pieces {
		if seen[p.name] {
			return failure.Usage("give each piece one box", "--piece %s stands twice", p.name)
		}
		seen[p.name] = true
	}
	switch {
	case len(f.setup.White) == 0 && f.setup.Target == nil:
		return failure.Usage("lay white paper beside the timber and give its box: --white X,Y,W,H", "colour needs --white or --target")
	case len(f.pieces) > 0 && len(f.timber) > 0:
		return failure.Usage("read the pieces first, then the timber", "--piece and --timber do not go together")
	case f.save && len(f.pieces)+len(f.timber) == 0:
		return failure.Usage("name what was photographed: --piece ID=X,Y,W,H or --timber KEY=X,Y,W,H", "there is nothing to save")
	case f.save && len(f.pieces) > 0:
		return a.ownRack(cmd, args)
	}
	return nil
}

// A colouring is a photo that is read for its colours.
type colouring struct {
	photo  *photo.Photo
	reader *reading.Reader
	record reading.Record
	read   []result.Coloured
}

func (w workshop) colour(ctx context.Context, file string, f colourFlags) error {
	named, err := w.toColour(f)
	if err != nil {
		return err
	}
	c, err := w.readColours(ctx, file, f, named)
	if err != nil {
		return err
	}
	if f.save {
		if err := w.saveColours(f, c); err != nil {
			return err
		}
	}
	w.sayColours(file, f, c)
	w.Result(func() result.Object { return result.Colour(file, c.record.Date, c.photo, c.reader, c.read) })
	return nil
}

// toColour finds the entries and timbers that are named.
func (w workshop) toColour(f colourFlags) ([]result.Coloured, error) {
	var named []result.Coloured
	var lying rack.Rack
	var err error
	if len(f.pieces) > 0 {
		if lying, err = w.ReadRack(); err != nil {
			return nil, err
		}
	}
	for _, p := range f.pieces {
		e, ok := lying.Get(p.name)
		if !ok {
			return nil, noSuchID(p.name)
		}
		named = append(named, result.Coloured{ID: p.name, Species: e.Species, Piece: reading.Piece{Name: p.name, Box: p.box}})
	}
	for _, p := range f.timber {
		timber, ok := w.Table.Find(p.name)
		if !ok {
			return nil, failure.New(failure.CodeNotFound, nearest(w.Table, p.name), "there is no timber %q", p.name)
		}
		named = append(named, result.Coloured{Species: timber.Key, Piece: reading.Piece{Name: timber.Key, Box: p.box}})
	}
	return named, nil
}

// readColours reads the photo, its light and what is named.
func (w workshop) readColours(ctx context.Context, file string, f colourFlags, named []result.Coloured) (c colouring, err error) {
	in, err := os.Open(file)
	if err != nil {
		code := failure.CodeIO
		if errors.Is(err, fs.ErrNotExist) {
			code = failure.CodeNotFound
		}
		return c, failure.New(code, "name the file of a photo", "%v", err)
	}
	defer in.Close()
	if c.photo, err = photo.Decode(ctx, in, nil); err != nil {
		return c, refusedPhoto(file, err)
	}
	if c.reader, err = reading.NewReader(c.photo, f.setup); err != nil {
		return c, refusedPhoto(file, err)
	}
	day := c.photo.Taken
	switch {
	case f.day != nil:
		day = *f.day
	case day == (pattern.Date{}):
		day = w.Today()
	}
	c.record = c.reader.Record(day, f.surface)
	for _, n := range named {
		p, err := c.reader.Piece(n.Name, n.Box)
		if err != nil {
			return c, refusedPhoto(file, err)
		}
		timber, _ := w.Table.Get(n.Species)
		n.FromTimber = p.Compare(p.Lab, timber.Name, c.record.Usual(timber))
		n.Piece = p
		c.read = append(c.read, n)
	}
	return c, nil
}

// refusedPhoto tells of a photo, or a box in it, that cannot be read.
func refusedPhoto(file string, err error) error {
	problem := failure.Problem{Code: failure.CodeBadFile, File: file}
	var whole *photo.Refusal
	var box *reading.Refusal
	switch {
	case errors.As(err, &whole):
		problem.Message, problem.Hint = whole.What, whole.Remedy
	case errors.As(err, &box):
		problem.Field, problem.Message, problem.Hint = box.Box, box.What, box.Remedy
	case errors.Is(err, context.DeadlineExceeded):
		problem.Message, problem.Hint = "there was no time to read it", "give more with --time"
	default:
		return failure.New(failure.CodeIO, "", "%v", err)
	}
	return &problem
}

// saveColours writes what was read to the rack, or to the maker's own timbers.
func (w workshop) saveColours(f colourFlags, c colouring) error {
	if len(f.timber) == 0 {
		_, err := w.ChangeRack(func(r rack.Rack) (rack.Rack, error) {
			for _, n := range c.read {
				timber, _ := w.Table.Get(n.Species)
				var err error
				if r, err = r.SetColour(n.ID, colour.OwnOf(c.record.Kept(n.Lab, timber).RGB()), c.record.Piece()); err != nil {
					return r, err
				}
			}
			return r, nil
		})
		return err
	}
	own, version, err := w.Home.Timbers()
	if err != nil {
		return err
	}
	labs := map[string][]colour.Lab{}
	for _, n := range c.read {
		labs[n.Species] = append(labs[n.Species], n.Lab)
	}
	for _, key := range slices.Sorted(maps.Keys(labs)) {
		own = c.record.Correct(own, key, labs[key])
	}
	w.Writes()
	_, err = w.Home.SaveTimbers(own, version)
	return w.Done(w.Home, err)
}

// sayColours prints what was read.
func (w workshop) sayColours(file string, f colourFlags, c colouring) {
	about := w.Of("photo")
	about.Fact("file", "%s", file)
	about.Fact("size", "%d x %d pixels, orientation %d, %s", c.photo.Width, c.photo.Height, c.photo.Orientation, c.photo.Profile)
	about.Fact("date", "%v", c.record.Date)
	about.Fact("colours", "set by %v, %v: about %.1f off", c.record.Method, c.record.Light, c.record.About)
	if c.reader.Known {
		w.Fact("light", "lightest paper %.2f times as light as the darkest, %.1f %% from an even light", c.reader.Ratio, 100*c.reader.Residual)
	}
	for _, n := range c.read {
		timber, _ := w.Table.Get(n.Species)
		of := w.Of("%s", n.Name)
		of.Fact("colour", "%v, about %.1f off (CIELAB %.1f %.1f %.1f)", n.Colour, n.About, n.Lab.L, n.Lab.A, n.Lab.B)
		of.Fact("timber", "%s, %.1f from the timber's colour", timber.Name, n.FromTimber)
		of.Fact("grain", "parts of the piece differ by %.1f in the mean, two by %.1f at most; lightest fifth %v, darkest %v", n.Spread, n.Range, n.Light, n.Dark)
		if f.surface == reading.Raw && n.ID != "" {
			of.Fact("oiled", "%v, shifted as oil shifts %s", c.record.Kept(n.Lab, timber).RGB(), timber.Name)
		}
		w.sayFindings(n.Findings)
	}
	w.sayFindings(c.reader.Findings)
	switch {
	case f.save && len(f.timber) > 0:
		w.Fact("saved", "species.toml; what it was before is beside it as .bak")
	case f.save:
		w.Fact("saved", "rack.toml; what it was before is beside it as .bak")
	case len(c.read) > 0:
		w.Fact("saved", "nothing: --save writes the colours to your files")
	}
}

func (w workshop) sayFindings(all []reading.Finding) {
	for _, f := range all {
		w.Row(command.PartForm(), f.Level, f.Level.Heading(), f.Where, f.Message+": "+f.Remedy)
	}
}
