package phototest

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/jpeg"
	"image/png"
)

// JPEG returns an image as JPEG of good quality.
func JPEG(img image.Image) []byte {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 96}); err != nil {
		panic(err) // of a buffer and an image in memory
	}
	return b.Bytes()
}

// PNG returns an image as PNG.
func PNG(img image.Image) []byte {
	var b bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&b, img); err != nil {
		panic(err) // likewise
	}
	return b.Bytes()
}

// WithSegment puts a segment behind the start of a JPEG.
func WithSegment(file []byte, marker byte, body []byte) []byte {
	head := binary.BigEndian.AppendUint16([]byte{0xff, marker}, uint16(len(body)+2))
	return bytes.Join([][]byte{file[:2], head, body, file[2:]}, nil)
}

// WithICC puts a profile into a JPEG, in parts of at most size bytes, the last one first.
func WithICC(file, profile []byte, size int) []byte {
	parts := (len(profile) + size - 1) / size
	for i := range parts {
		body := append([]byte("ICC_PROFILE\x00"), byte(i+1), byte(parts))
		file = WithSegment(file, 0xe2, append(body, profile[i*size:min(len(profile), (i+1)*size)]...))
	}
	return file
}

// WithChunk puts a chunk behind the header of a PNG.
func WithChunk(file []byte, kind string, body []byte) []byte {
	const headerEnd = 8 + 25
	chunk := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
	chunk = append(append(chunk, kind...), body...)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
	return bytes.Join([][]byte{file[:headerEnd], chunk, file[headerEnd:]}, nil)
}

// EXIF returns the structure with an orientation and, where it is given, a time as
// 2026:11:14 10:00:00.
func EXIF(order binary.AppendByteOrder, orientation int, taken string) []byte {
	mark := "MM"
	if order.AppendUint16(nil, 1)[0] == 1 {
		mark = "II"
	}
	const first, second, text = 8, 38, 56
	b := order.AppendUint32(order.AppendUint16([]byte(mark), 42), first)
	entry := func(tag, kind uint16, count, value uint32) {
		b = order.AppendUint32(order.AppendUint16(order.AppendUint16(b, tag), kind), count)
		if kind == 3 {
			b = append(order.AppendUint16(b, uint16(value)), 0, 0)
		} else {
			b = order.AppendUint32(b, value)
		}
	}
	b = order.AppendUint16(b, 2)
	entry(0x0112, 3, 1, uint32(orientation))
	entry(0x8769, 4, 1, second)
	b = append(order.AppendUint32(b, 0), order.AppendUint16(nil, 1)...)
	entry(0x9003, 2, uint32(len(taken)+1), text)
	return append(append(order.AppendUint32(b, 0), taken...), 0)
}

// WithEXIF puts EXIF into a JPEG.
func WithEXIF(file, exif []byte) []byte {
	return WithSegment(file, 0xe1, append([]byte("Exif\x00\x00"), exif...))
}

// Held returns an upright image as a camera stores it that was held so: an EXIF orientation
// says on which side of the upright image row 0 and column 0 lie.
func Held(img image.Image, orientation int) *image.NRGBA64 {
	b := img.Bounds()
	sides := []string{"top left", "top right", "bottom right", "bottom left", "left top", "right top", "right bottom", "left bottom"}
	var row0, column0 string
	for i, c := range sides[orientation-1] {
		if c == ' ' {
			row0, column0 = sides[orientation-1][:i], sides[orientation-1][i+1:]
		}
	}
	wide, high := b.Dx(), b.Dy()
	if row0 == "left" || row0 == "right" {
		wide, high = high, wide
	}
	out := image.NewNRGBA64(image.Rect(0, 0, wide, high))
	for row := range high {
		for column := range wide {
			var x, y int
			for side, n := range map[string]int{row0: row, column0: column} {
				switch side {
				case "left":
					x = n
				case "right":
					x = b.Dx() - 1 - n
				case "top":
					y = n
				case "bottom":
					y = b.Dy() - 1 - n
				}
			}
			out.Set(column, row, img.At(b.Min.X+x, b.Min.Y+y))
		}
	}
	return out
}

// P3Colorants are those of Display P3 under the white of profiles.
var P3Colorants = [3][3]float64{{0.515121, 0.241196, -0.001053}, {0.291977, 0.692245, 0.041885}, {0.157104, 0.066574, 0.784073}}

// SRGBCurve is the curve of sRGB as a formula of kind 3.
func SRGBCurve() []byte { return Formula(3, 2.4, 1/1.055, 0.055/1.055, 1/12.92, 0.04045) }

// Formula returns a curve as a formula.
func Formula(kind uint16, numbers ...float64) []byte {
	b := binary.BigEndian.AppendUint16([]byte("para\x00\x00\x00\x00"), kind)
	b = append(b, 0, 0)
	for _, n := range numbers {
		b = appendFixed(b, n)
	}
	return b
}

// Table returns a curve as a table.
func Table(values ...uint16) []byte {
	b := binary.BigEndian.AppendUint32([]byte("curv\x00\x00\x00\x00"), uint32(len(values)))
	for _, v := range values {
		b = binary.BigEndian.AppendUint16(b, v)
	}
	return b
}

func appendFixed(b []byte, n float64) []byte {
	return binary.BigEndian.AppendUint32(b, uint32(int32(n*(1<<16)+0.5)))
}

// Profile returns a profile of colorants and one curve for all three channels.
func Profile(name string, colorants [3][3]float64, curve []byte) []byte {
	const headerEnd, tagSize = 128, 12
	names := []string{"rXYZ", "gXYZ", "bXYZ", "rTRC", "gTRC", "bTRC", "desc"}
	var tags [][]byte
	for _, c := range colorants {
		tags = append(tags, appendFixed(appendFixed(appendFixed([]byte("XYZ \x00\x00\x00\x00"), c[0]), c[1]), c[2]))
	}
	desc := binary.BigEndian.AppendUint32([]byte("desc\x00\x00\x00\x00"), uint32(len(name)+1))
	tags = append(tags, curve, curve, curve, append(append(desc, name...), 0))
	b := make([]byte, headerEnd)
	copy(b[12:], "mntrRGB XYZ ")
	copy(b[36:], "acsp")
	b = binary.BigEndian.AppendUint32(b, uint32(len(tags)))
	at := headerEnd + 4 + tagSize*len(tags)
	for i, t := range tags {
		b = binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(append(b, names[i]...), uint32(at)), uint32(len(t)))
		at += len(t)
	}
	for _, t := range tags {
		b = append(b, t...)
	}
	binary.BigEndian.PutUint32(b, uint32(len(b)))
	return b
}
