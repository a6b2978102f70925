package photo

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"image"
	"io"
)

// pngStart are the first bytes of every PNG (W3C PNG, 5.2).
const pngStart = "\x89PNG\r\n\x1a\n"

// Colour types of a PNG (W3C PNG, 11.2.1).
const (
	pngGrey      = 0
	pngRGB       = 2
	pngGreyAlpha = 4
	pngRGBA      = 6
)

// A pngWalk gathers what the chunks of a PNG say.
type pngWalk struct {
	header
	cicp, icc []byte
}

// pngHeader walks over the chunks of a PNG up to the picture; what stands behind it, as
// eXIf may, is looked for too.
func pngHeader(data []byte) (header, error) {
	const lengthAndType, crc = 8, 4
	var w pngWalk
	for at := len(pngStart); at+lengthAndType <= len(data); {
		body, size := data[at+lengthAndType:], binary.BigEndian.Uint32(data[at:])
		if uint64(size) > uint64(len(body)) {
			break // the decoder says where it is cut off
		}
		n := int(size)
		if err := w.take(string(data[at+4:at+lengthAndType]), body[:n]); err != nil {
			return header{}, err
		}
		at += lengthAndType + n + crc
	}
	if w.width == 0 {
		return header{}, cutOff()
	}
	var err error
	switch {
	case w.cicp != nil:
		w.profile, err = codePoints(w.cicp)
	case w.icc != nil:
		w.profile, err = inflated(w.icc)
	default:
		w.profile = sRGB()
	}
	return w.header, err
}

func (w *pngWalk) take(kind string, body []byte) error {
	switch kind {
	case "IHDR":
		return w.takeFrame(body)
	case "eXIf":
		w.exif = body
	case "cICP":
		w.cicp = body
	case "iCCP":
		w.icc = body
	}
	return nil
}

func (w *pngWalk) takeFrame(body []byte) error {
	const size = 13
	if len(body) < size {
		return cutOff()
	}
	wide, high := int64(binary.BigEndian.Uint32(body)), int64(binary.BigEndian.Uint32(body[4:]))
	channels := int64(3)
	switch body[9] {
	case pngRGB:
	case pngRGBA:
		channels++
	case pngGrey, pngGreyAlpha:
		return readable(&image.Gray{})
	default:
		return readable(&image.Paletted{})
	}
	if wide == 0 || high == 0 {
		return cutOff()
	}
	if wide > MostPixels || high > MostPixels {
		return tooLarge(wide, high)
	}
	w.width, w.height = int(wide), int(high)
	// Deflate makes at most 1032 bytes of one (RFC 1951: 258 bytes in two bits).
	const most = 1032
	w.least = wide * high * channels * int64(body[8]) / 8 / most
	return nil
}

// codePoints reads cICP (ITU-T H.273): primaries and transfer, of which sRGB and Display P3
// are known.
func codePoints(body []byte) (profile, error) {
	switch {
	case len(body) >= 2 && body[0] == 1 && body[1] == 13:
		return sRGB(), nil
	case len(body) >= 2 && body[0] == 12 && body[1] == 13:
		return displayP3(), nil
	default:
		return profile{}, refuse(saveAsSRGB, "colours coded for a bright screen (cICP %v)", body[:min(len(body), 4)])
	}
}

// inflated reads the profile in iCCP: a name, a zero, the method, and the packed profile.
func inflated(body []byte) (profile, error) {
	_, rest, ok := bytes.Cut(body, []byte{0})
	if !ok || len(rest) < 2 {
		return profile{}, badProfile("it is cut off")
	}
	packed, err := zlib.NewReader(bytes.NewReader(rest[1:]))
	if err != nil {
		return profile{}, badProfile("it cannot be unpacked")
	}
	whole, err := io.ReadAll(io.LimitReader(packed, mostProfile+1))
	switch {
	case err != nil:
		return profile{}, badProfile("it cannot be unpacked")
	case len(whole) > mostProfile:
		return profile{}, profileTooLarge()
	}
	return parseICC(whole)
}
