package photo

import (
	"encoding/binary"
	"image"
)

// Markers of a JPEG file (ITU-T T.81, table B.1).
const (
	markerFirst  = 0xc0 // beneath it none has a length but what is skipped
	markerSOF2   = 0xc2
	markerDHT    = 0xc4
	markerJPG    = 0xc8
	markerDAC    = 0xcc
	markerSOFEnd = 0xcf
	markerRST0   = 0xd0
	markerRST7   = 0xd7
	markerEOI    = 0xd9
	markerSOS    = 0xda
	markerAPP1   = 0xe1
	markerAPP2   = 0xe2
)

// mostScans is how many passes a progressive photo may be written in. A pass may take no
// bytes to speak of and yet a walk over all blocks; usual photos have about ten.
const mostScans = 200

// A jpegWalk gathers what the segments of a JPEG file say.
type jpegWalk struct {
	header
	icc      map[byte][]byte // by number
	iccCount byte
	scans    int
}

// jpegHeader walks over the segments of a JPEG file.
func jpegHeader(data []byte) (header, error) {
	w := jpegWalk{icc: map[byte][]byte{}}
	for at := 2; ; {
		marker, body, next := segment(data, at)
		if marker == markerEOI {
			break
		}
		if err := w.take(marker, body); err != nil {
			return header{}, err
		}
		at = next
	}
	if w.width == 0 {
		return header{}, cutOff()
	}
	var err error
	w.profile, err = w.joined()
	return w.header, err
}

// segment returns the first segment from at on, with what is in it and where the next may
// begin. What lies between segments, the coded picture, is skipped; at the end comes EOI.
func segment(data []byte, at int) (marker byte, body []byte, next int) {
	const lengthSize = 2
	for ; at+1 < len(data); at++ {
		marker = data[at+1]
		if data[at] != 0xff || marker < markerFirst || marker == 0xff || marker >= markerRST0 && marker <= markerRST7 {
			continue
		}
		from := at + 2
		if marker == markerEOI || from+lengthSize > len(data) {
			break
		}
		end := from + int(binary.BigEndian.Uint16(data[from:]))
		if end < from+lengthSize || end > len(data) {
			break
		}
		return marker, data[from+lengthSize : end], end
	}
	return markerEOI, nil, len(data)
}

// take reads one segment.
func (w *jpegWalk) take(marker byte, body []byte) error {
	switch marker {
	case markerAPP1:
		const exifStart = "Exif\x00\x00"
		if w.exif == nil && len(body) > len(exifStart) && string(body[:len(exifStart)]) == exifStart {
			w.exif = body[len(exifStart):]
		}
	case markerAPP2:
		const iccStart = "ICC_PROFILE\x00"
		if n := len(iccStart); len(body) > n+2 && string(body[:n]) == iccStart {
			w.icc[body[n]], w.iccCount = body[n+2:], body[n+1]
		}
	case markerSOS:
		if w.scans++; w.scans > mostScans {
			return refuse("take or share the photo again", "a photo written in more than %d passes", mostScans)
		}
	case markerDHT, markerJPG, markerDAC:
	default:
		if marker <= markerSOFEnd && w.width == 0 {
			return w.takeFrame(marker, body)
		}
	}
	return nil
}

// takeFrame reads the frame: precision, height, width, and how many channels.
func (w *jpegWalk) takeFrame(marker byte, body []byte) error {
	const size, colours, inks = 6, 3, 4
	switch {
	case len(body) < size:
		return cutOff()
	case marker > markerSOF2:
		return refuse(toJPEG, "a JPEG of a rare kind (SOF %d)", marker-markerFirst)
	case body[0] != 8:
		return refuse("save it with 8 bits", "a JPEG of %d bits a channel", body[0])
	}
	w.height, w.width = int(binary.BigEndian.Uint16(body[1:])), int(binary.BigEndian.Uint16(body[3:]))
	switch body[5] {
	case colours:
	case 1:
		return readable(&image.Gray{})
	case inks:
		return readable(&image.CMYK{})
	default:
		return refuse(toJPEG, "a JPEG of %d channels", body[5])
	}
	if w.width == 0 || w.height == 0 {
		return cutOff()
	}
	// A block of 8 by 8 takes one bit at least, and every component has 8 bits in a byte.
	const block = 8
	w.least = int64(w.width/block) * int64(w.height/block) / 8
	return nil
}

// joined puts the parts of the profile together.
func (w *jpegWalk) joined() (profile, error) {
	if len(w.icc) == 0 {
		return sRGB(), nil
	}
	var whole []byte
	for i := range w.iccCount {
		part, ok := w.icc[i+1]
		if !ok {
			return profile{}, refuse(saveAsSRGB, "part %d of %d of its colour profile is missing", i+1, w.iccCount)
		}
		if whole = append(whole, part...); len(whole) > mostProfile {
			return profile{}, profileTooLarge()
		}
	}
	return parseICC(whole)
}
