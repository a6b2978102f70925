package photo

import "bytes"

// toJPEG is the way out of every kind that is not read.
const toJPEG = "share or save the photo as JPEG"

// kinds lists what else a file may be, by its first bytes.
func kinds() []struct{ start, what string } {
	return []struct{ start, what string }{
		{"II*\x00", "TIFF or a raw photo"}, {"MM\x00*", "TIFF or a raw photo"},
		{"II+\x00", "TIFF"}, {"MM\x00+", "TIFF"},
		{"IIRO", "a raw photo"}, {"IIRS", "a raw photo"}, {"IIU\x00", "a raw photo"}, {"FUJIFILM", "a raw photo"},
		{"GIF8", "GIF"}, {"BM", "BMP"}, {"%PDF", "PDF"},
		{"\xff\x0a", "JPEG XL"}, {"\x00\x00\x00\x0cJXL ", "JPEG XL"}, {"\x00\x00\x00\x0cjP  ", "JPEG 2000"},
	}
}

// otherKind refuses what is neither JPEG nor PNG by what it is.
func otherKind(data []byte) error {
	const brandAt, brandEnd = 8, 12
	if len(data) >= brandEnd && string(data[4:brandAt]) == "ftyp" {
		return container(string(data[brandAt:brandEnd]))
	}
	if len(data) >= brandEnd && string(data[:4]) == "RIFF" && string(data[brandAt:brandEnd]) == "WEBP" {
		return refuse(toJPEG, "a WebP picture")
	}
	for _, k := range kinds() {
		if bytes.HasPrefix(data, []byte(k.start)) {
			return refuse(toJPEG, "%s", k.what)
		}
	}
	if len(data) == 0 {
		return refuse("copy or share the photo again", "an empty file")
	}
	return refuse("give a photo as JPEG or PNG", "no photo, as its first bytes say")
}

// container refuses the formats that share one container, by their brand (ISO/IEC 14496-12).
func container(brand string) error {
	switch brand {
	case "heic", "heix", "hevc", "heim", "heis", "hevm", "mif1", "msf1":
		return refuse(`set the phone's camera to JPEG ("most compatible"), or share the photo as JPEG`, "a HEIC photo")
	case "avif", "avis":
		return refuse(toJPEG, "an AVIF picture")
	case "crx ":
		return refuse(toJPEG, "a raw photo")
	default:
		return refuse("take a photo, as JPEG", "a film")
	}
}
