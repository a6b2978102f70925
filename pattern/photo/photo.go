// Package photo reads photos of timber for their colours: JPEG and PNG, told by their
// first bytes, turned upright as the camera says, with the colours that their profile means.
//
// A Photo is what was decoded; it is never written to and may be read by several at once.
// Coded channels are on a scale of 0 to 255, not rounded; linear light is on one of 0 to 1;
// XYZ is of daylight (CIE D65, 2 degrees) with Y of a perfect white 1. What cannot be read is
// a Refusal that names the way out. Memory and time are bounded by the file's size and by
// MostPixels, whatever a file claims to hold.
package photo

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"io"

	"example.com/oddments/pattern"
)

// The largest photos that are read.
const (
	MostPixels = 100_000_000
	MostBytes  = 400_000_000
)

// A Refusal says why a photo cannot be read, and what helps.
type Refusal struct {
	What, Remedy string
}

// Error returns both in one line.
func (r *Refusal) Error() string { return r.What + ": " + r.Remedy }

func refuse(remedy, what string, args ...any) error {
	return &Refusal{What: fmt.Sprintf(what, args...), Remedy: remedy}
}

// A Photo is a photo as it was decoded, seen upright.
type Photo struct {
	Width, Height int          // upright
	Orientation   int          // EXIF: 1 to 8
	Profile       string       // name of its colour profile, sRGB where it has none
	Taken         pattern.Date // EXIF; zero: not said

	img    image.Image // as it lies in the file
	colour profile
}

// A header is what a file says of its picture before the picture comes.
type header struct {
	width, height int
	exif          []byte // TIFF structure; nil: none
	profile       profile
	least         int64 // bytes that so many pixels take at the very least
}

// Decode reads a photo. It ends soon after ctx does, with its error; report is told how many
// bytes of how many are decoded, and may be nil.
func Decode(ctx context.Context, r io.Reader, report func(done, all int)) (*Photo, error) {
	data, err := io.ReadAll(io.LimitReader(&watched{ctx: ctx, from: r}, MostBytes+1))
	if err != nil {
		return nil, err
	}
	if len(data) > MostBytes {
		return nil, refuse("share the photo smaller", "a file of more than %d MB", MostBytes/1_000_000)
	}
	h, decode, err := readHeader(data)
	switch {
	case err != nil:
		return nil, err
	case int64(h.width)*int64(h.height) > MostPixels:
		return nil, tooLarge(int64(h.width), int64(h.height))
	case int64(len(data)) < h.least:
		return nil, cutOff()
	}
	img, err := decode(&watched{ctx: ctx, from: bytes.NewReader(data), report: report, all: len(data)})
	switch {
	case err != nil && ctx.Err() != nil:
		return nil, ctx.Err()
	case errors.Is(err, io.ErrUnexpectedEOF), errors.Is(err, io.EOF), err == png.FormatError("not enough pixel data"):
		return nil, cutOff()
	case err != nil:
		return nil, refuse("take or share the photo again", "a damaged photo (%v)", err)
	}
	if err := readable(img); err != nil {
		return nil, err
	}
	p := &Photo{img: img, Orientation: 1, Profile: h.profile.name, colour: h.profile}
	p.Orientation, p.Taken = readEXIF(h.exif)
	p.Width, p.Height = img.Bounds().Dx(), img.Bounds().Dy()
	if p.Orientation >= firstSideways {
		p.Width, p.Height = p.Height, p.Width
	}
	return p, nil
}

func tooLarge(wide, high int64) error {
	return refuse("share the photo smaller", "%d x %d pixels, more than %d million", wide, high, MostPixels/1_000_000)
}

func cutOff() error { return refuse("copy or share it again", "the photo is cut off") }

// readHeader reads what stands before the picture, and returns what decodes the picture.
func readHeader(data []byte) (header, func(io.Reader) (image.Image, error), error) {
	switch {
	case bytes.HasPrefix(data, []byte("\xff\xd8\xff")):
		h, err := jpegHeader(data)
		return h, jpeg.Decode, err
	case bytes.HasPrefix(data, []byte(pngStart)):
		h, err := pngHeader(data)
		return h, png.Decode, err
	default:
		return header{}, nil, otherKind(data)
	}
}

// readable refuses pictures without colour and pictures for the printing press.
func readable(img image.Image) error {
	switch img.(type) {
	case *image.YCbCr, *image.RGBA, *image.NRGBA, *image.RGBA64, *image.NRGBA64:
		return nil
	case *image.Gray, *image.Gray16:
		return refuse("take it in colour", "a grey photo")
	case *image.CMYK:
		return refuse("save it as sRGB", "a CMYK picture, for the printing press")
	default:
		return refuse("save it as JPEG", "a picture with a table of colours")
	}
}

// A watched reader ends when its context does, and reports how far it is.
type watched struct {
	ctx       context.Context
	from      io.Reader
	report    func(done, all int)
	done, all int
}

func (w *watched) Read(into []byte) (int, error) {
	if err := w.ctx.Err(); err != nil {
		return 0, err
	}
	n, err := w.from.Read(into)
	w.done += n
	if w.report != nil {
		w.report(w.done, w.all)
	}
	return n, err
}
