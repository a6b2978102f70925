package photo

import (
	"encoding/binary"
	"time"

	"example.com/oddments/pattern"
)

// Tags and types of EXIF (CIPA DC-008): how the camera was held, and when the photo was taken.
const (
	tagOrientation = 0x0112
	tagExif        = 0x8769 // where the further tags stand
	tagTaken       = 0x9003
	typeShort      = 3

	firstSideways = 5 // orientations from here on exchange width and height
	lastTurn      = 8
)

// A tiff is the structure that EXIF is written in: lists of entries of 12 bytes, each of them
// tag, type, count and value.
type tiff struct {
	data  []byte
	order binary.ByteOrder
}

// readEXIF returns the orientation, 1 where none can be read, and the day, zero where none
// can be.
func readEXIF(data []byte) (int, pattern.Date) {
	const start = 8
	orientation, taken := 1, pattern.Date{}
	if len(data) < start {
		return orientation, taken
	}
	t := tiff{data: data, order: binary.BigEndian}
	if data[0] == 'I' {
		t.order = binary.LittleEndian
	}
	first := t.order.Uint32(data[4:])
	if e, ok := t.entry(first, tagOrientation); ok && t.order.Uint16(e[2:]) == typeShort {
		if n := int(t.order.Uint16(e[8:])); n >= 1 && n <= lastTurn {
			orientation = n
		}
	}
	if e, ok := t.entry(first, tagExif); ok {
		if e, ok = t.entry(t.order.Uint32(e[8:]), tagTaken); ok {
			taken = t.day(t.order.Uint32(e[8:]))
		}
	}
	return orientation, taken
}

// entry returns the entry of a tag in the list that begins at.
func (t tiff) entry(at uint32, tag uint16) ([]byte, bool) {
	const size = 12
	if uint64(at)+2 > uint64(len(t.data)) {
		return nil, false
	}
	rest := t.data[at+2:]
	for range t.order.Uint16(t.data[at:]) {
		if len(rest) < size {
			break
		}
		if t.order.Uint16(rest) == tag {
			return rest[:size], true
		}
		rest = rest[size:]
	}
	return nil, false
}

// day reads a day written as 2026:11:14, at the start of a time.
func (t tiff) day(at uint32) pattern.Date {
	const layout = "2006:01:02"
	if uint64(at)+uint64(len(layout)) > uint64(len(t.data)) {
		return pattern.Date{}
	}
	when, err := time.Parse(layout, string(t.data[at:at+uint32(len(layout))]))
	if err != nil {
		return pattern.Date{}
	}
	return pattern.DateOf(when)
}
