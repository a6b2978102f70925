package photo_test

import (
	"bytes"
	"compress/zlib"
	"context"
	"encoding/binary"
	"errors"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/photo"
	"example.com/oddments/pattern/photo/phototest"
)

func decode(t *testing.T, file []byte) *photo.Photo {
	t.Helper()
	p, err := photo.Decode(t.Context(), bytes.NewReader(file), nil)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// refused returns how a file is refused.
func refused(t *testing.T, file []byte) *photo.Refusal {
	t.Helper()
	_, err := photo.Decode(t.Context(), bytes.NewReader(file), nil)
	var r *photo.Refusal
	if !errors.As(err, &r) {
		t.Fatalf("%v, want a refusal", err)
	}
	return r
}

// plain returns an image of one colour.
func plain(wide, high int, c color.Color) *image.NRGBA64 {
	img := image.NewNRGBA64(image.Rect(0, 0, wide, high))
	for y := range high {
		for x := range wide {
			img.Set(x, y, c)
		}
	}
	return img
}

// Each corner has a grey of its own, so that any wrong turn shows.
func TestOrientations(t *testing.T) {
	const wide, high = 48, 32
	upright := plain(wide, high, color.Gray{60})
	corners := map[image.Point]uint8{{0, 0}: 90, {wide - 16, 0}: 130, {0, high - 16}: 170, {wide - 16, high - 16}: 210}
	for at, grey := range corners {
		for y := range 16 {
			for x := range 16 {
				upright.Set(at.X+x, at.Y+y, color.NRGBA{grey, grey, grey, 255})
			}
		}
	}
	for o := 1; o <= 8; o++ {
		for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
			exif := phototest.EXIF(order, o, "2026:11:14 10:00:00")
			held := phototest.Held(upright, o)
			for name, file := range map[string][]byte{
				"jpeg": phototest.WithEXIF(phototest.JPEG(held), exif),
				"png":  phototest.WithChunk(phototest.PNG(held), "eXIf", exif),
			} {
				p := decode(t, file)
				if p.Orientation != o || p.Width != wide || p.Height != high || p.Taken != (pattern.Date{Year: 2026, Month: 11, Day: 14}) {
					t.Errorf("%s %d: %d, %d x %d, taken %v", name, o, p.Orientation, p.Width, p.Height, p.Taken)
				}
				for at, grey := range corners {
					if got := p.At(at.X+8, at.Y+8).Coded; math.Abs(got[0]-float64(grey)) > 2 || math.Abs(got[2]-float64(grey)) > 2 {
						t.Errorf("%s %d: %.0f at %v, want %d", name, o, got, at, grey)
					}
				}
			}
		}
	}
}

// EXIF that is cut off or nonsense means upright, and never a panic.
func TestBadEXIF(t *testing.T) {
	file := phototest.JPEG(plain(16, 8, color.White))
	whole := phototest.EXIF(binary.LittleEndian, 6, "2026:13:99")
	for n := range whole {
		if p := decode(t, phototest.WithEXIF(file, whole[:n])); p.Taken != (pattern.Date{}) || p.Orientation != 1 && p.Orientation != 6 {
			t.Errorf("%d bytes: %d, %v", n, p.Orientation, p.Taken)
		}
	}
	for _, o := range []int{0, 9, 60000} {
		if p := decode(t, phototest.WithEXIF(file, phototest.EXIF(binary.BigEndian, o, ""))); p.Orientation != 1 || p.Width != 16 {
			t.Errorf("orientation %d is read as %d", o, p.Orientation)
		}
	}
	wild := bytes.Clone(whole)
	binary.LittleEndian.PutUint32(wild[4:], math.MaxUint32)
	if p := decode(t, phototest.WithEXIF(file, wild)); p.Orientation != 1 {
		t.Errorf("an entry beyond the end is read as %d", p.Orientation)
	}
}

// The same colours in sRGB and in Display P3 must be the same light: cICP, a profile of a
// formula in one part and in many, and one of a table.
func TestProfiles(t *testing.T) {
	scene := phototest.Scene{Width: 32, Height: 32, Ground: labs()[0]}
	in := func(p3 bool) *image.NRGBA64 { scene.P3 = p3; return scene.Image() }
	var table []uint16
	for i := range 1024 {
		table = append(table, uint16(math.Pow(float64(i)/1023, 2.2)*65535+0.5))
	}
	p3 := phototest.Profile("Display P3", phototest.P3Colorants, phototest.SRGBCurve())
	for _, lab := range labs() {
		scene.Ground = lab
		want := lab.XYZ()
		for name, file := range map[string][]byte{
			"sRGB":         phototest.PNG(in(false)),
			"sRGB by cICP": phototest.WithChunk(phototest.PNG(in(false)), "cICP", []byte{1, 13, 0, 1}),
			"P3 by cICP":   phototest.WithChunk(phototest.PNG(in(true)), "cICP", []byte{12, 13, 0, 1}),
			"P3 by iCCP":   phototest.WithChunk(phototest.PNG(in(true)), "iCCP", packed(p3)),
			"P3 in JPEG":   phototest.WithICC(phototest.JPEG(in(true)), p3, 60000),
			"P3 in parts":  phototest.WithICC(phototest.JPEG(in(true)), p3, 100),
		} {
			p := decode(t, file)
			got, tolerance := p.XYZ(p.At(9, 9).Coded), 0.0015
			if strings.Contains(name, "JPEG") || strings.Contains(name, "parts") {
				tolerance = 0.012 // 8 bits
			}
			for i := range got {
				if math.Abs(got[i]-want[i]) > tolerance {
					t.Errorf("%s: XYZ %.4f, want %.4f", name, got, want)
					break
				}
			}
			if strings.HasPrefix(name, "P3") != (p.Profile == "Display P3") {
				t.Errorf("%s calls itself %q", name, p.Profile)
			}
		}
	}
	p := decode(t, phototest.WithICC(phototest.JPEG(in(true)), phototest.Profile("", phototest.P3Colorants, phototest.Table(table...)), 60000))
	if y := p.XYZ(photo.Triple{128, 128, 128})[1]; math.Abs(y-math.Pow(128./255, 2.2)) > 1e-4 || p.Profile != "ICC" {
		t.Errorf("a table of power 2.2: %v, %q", y, p.Profile)
	}
}

// What formulas and tables of ISO 15076-1 mean, at values worked out by hand.
func TestCurves(t *testing.T) {
	file := phototest.JPEG(plain(8, 8, color.White))
	for _, c := range []struct {
		name     string
		curve    []byte
		at, want float64
	}{
		{"straight", phototest.Table(), 51, 0.2},
		{"power of 2", phototest.Table(512), 51, 0.04},
		{"two values", phototest.Table(0, 65535), 51, 0.2},
		{"three values", phototest.Table(0, 13107, 65535), 191.25, 0.6},
		{"formula 0", phototest.Formula(0, 2), 51, 0.04},
		{"formula 1", phototest.Formula(1, 2, 2, -0.2), 51, 0.04},
		{"formula 1 beneath", phototest.Formula(1, 2, 2, -0.2), 20, 0},
		{"formula 2", phototest.Formula(2, 2, 2, -0.2, 0.1), 51, 0.14},
		{"formula 2 beneath", phototest.Formula(2, 2, 2, -0.2, 0.1), 20, 0.1},
		{"formula 3 beneath", phototest.Formula(3, 2, 1, 0, 0.5, 0.3), 51, 0.1},
		{"formula 4", phototest.Formula(4, 2, 1, 0, 0.5, 0.1, 0.05, 0.02), 51, 0.09},
		{"formula 4 beneath", phototest.Formula(4, 2, 1, 0, 0.5, 0.3, 0.05, 0.02), 51, 0.12},
	} {
		p := decode(t, phototest.WithICC(file, phototest.Profile("x", phototest.P3Colorants, c.curve), 60000))
		if y := p.XYZ(photo.Triple{c.at, c.at, c.at})[1]; math.Abs(y-c.want) > 1e-4 {
			t.Errorf("%s: %.5f, want %.5f", c.name, y, c.want)
		}
	}
}

func TestBadProfiles(t *testing.T) {
	good := phototest.Profile("x", phototest.P3Colorants, phototest.SRGBCurve())
	change := func(at int, text string) []byte {
		out := bytes.Clone(good)
		copy(out[at:], text)
		return out
	}
	file := phototest.JPEG(plain(16, 16, color.White))
	for name, profile := range map[string][]byte{
		"CMYK": change(16, "CMYK"), "tables": change(20, "Lab "), "none": change(36, "none"), "no colorant": change(132, "xxxx"),
		"formula 5":  phototest.Profile("x", phototest.P3Colorants, phototest.Formula(5, 1, 1, 1, 1, 1, 1, 1)),
		"no slope":   phototest.Profile("x", phototest.P3Colorants, phototest.Formula(1, 1, 0, 0)),
		"one plane":  phototest.Profile("x", [3][3]float64{{1, 1, 1}, {1, 1, 1}, {0, 1, 0}}, phototest.SRGBCurve()),
		"curve gone": phototest.Profile("x", phototest.P3Colorants, phototest.Table(1, 2, 3)[:15]),
		"long table": binary.BigEndian.AppendUint32([]byte("curv\x00\x00\x00\x00"), math.MaxUint32),
	} {
		if r := refused(t, phototest.WithICC(file, profile, 60000)); r.Remedy != "save it as sRGB" {
			t.Errorf("%s: %v", name, r)
		}
	}
	for n := range good {
		_, err := photo.Decode(t.Context(), bytes.NewReader(phototest.WithChunk(phototest.PNG(plain(8, 8, color.NRGBA{9, 9, 9, 255})), "iCCP", packed(good[:n]))), nil)
		if err == nil && n < len(good)-20 {
			t.Errorf("%d bytes of %d of a profile are read", n, len(good))
		}
	}
	missing := phototest.WithICC(file, good, 100)
	copy(missing[bytes.Index(missing, []byte("ICC_PROFILE")):], "ICC_nothing")
	if r := refused(t, missing); !strings.Contains(r.What, "is missing") {
		t.Error(r)
	}
	for _, cicp := range [][]byte{{9, 16, 0, 1}, {1}, {}} {
		if r := refused(t, phototest.WithChunk(phototest.PNG(plain(8, 8, color.NRGBA{9, 9, 9, 255})), "cICP", cicp)); r.Remedy != "save it as sRGB" {
			t.Errorf("cICP %v: %v", cicp, r)
		}
	}
}

func packed(profile []byte) []byte {
	var b bytes.Buffer
	b.WriteString("name\x00\x00")
	z := zlib.NewWriter(&b)
	z.Write(profile)
	z.Close()
	return b.Bytes()
}

// What is not read is refused by what it is, with the way out.
func TestRefusals(t *testing.T) {
	grey, table := image.NewGray(image.Rect(0, 0, 8, 8)), image.NewPaletted(image.Rect(0, 0, 8, 8), color.Palette{color.Black, color.White})
	ftyp := func(brand string) []byte { return []byte("\x00\x00\x00\x18ftyp" + brand + "\x00\x00\x00\x00") }
	deep := phototest.JPEG(plain(8, 8, color.White))
	deep[bytes.Index(deep, []byte{0xff, 0xc0})+4] = 12
	four := phototest.JPEG(plain(8, 8, color.White))
	four[bytes.Index(four, []byte{0xff, 0xc0})+9] = 4
	for _, c := range []struct {
		file         []byte
		what, remedy string
	}{
		{ftyp("heic"), "HEIC", "most compatible"}, {ftyp("heix"), "HEIC", "JPEG"}, {ftyp("hevc"), "HEIC", "JPEG"}, {ftyp("heim"), "HEIC", "JPEG"},
		{ftyp("heis"), "HEIC", "JPEG"}, {ftyp("hevm"), "HEIC", "JPEG"}, {ftyp("mif1"), "HEIC", "JPEG"}, {ftyp("msf1"), "HEIC", "JPEG"},
		{ftyp("avif"), "AVIF", "JPEG"}, {ftyp("mp42"), "film", "JPEG"}, {ftyp("crx "), "raw", "JPEG"},
		{[]byte("RIFF\x00\x00\x00\x00WEBPVP8 "), "WebP", "JPEG"}, {[]byte("II*\x00abcd"), "raw", "JPEG"}, {[]byte("MM\x00*abcd"), "TIFF", "JPEG"},
		{[]byte("GIF89a"), "GIF", "JPEG"}, {[]byte("strips, 12"), "no photo", "JPEG"}, {nil, "empty", "again"},
		{phototest.JPEG(grey), "grey", "colour"}, {phototest.PNG(grey), "grey", "colour"}, {phototest.PNG(table), "table of colours", "JPEG"},
		{deep, "12 bits", "8 bits"}, {four, "CMYK", "sRGB"},
	} {
		if r := refused(t, c.file); !strings.Contains(r.What, c.what) || !strings.Contains(r.Remedy, c.remedy) {
			t.Errorf("%.20q: %v; want %s, %s", c.file, r, c.what, c.remedy)
		}
	}
	for name, file := range map[string][]byte{"jpeg": phototest.JPEG(plain(64, 64, color.White)), "png": phototest.PNG(plain(64, 64, color.NRGBA{9, 99, 9, 255}))} {
		for n := 3; n < len(file)-1; n += 1 + n/40 {
			_, err := photo.Decode(t.Context(), bytes.NewReader(file[:n]), nil)
			if err == nil && (name == "jpeg" || n < len(file)-16) { // a PNG without its last chunk is whole
				t.Errorf("%s: %d bytes of %d are read", name, n, len(file))
			}
		}
		if r := refused(t, file[:len(file)/2]); !strings.Contains(r.What, "cut off") {
			t.Errorf("half a %s: %v", name, r)
		}
	}
}

// The sample pictures of Go's own tests: progressive, RGB, and CMYK.
func TestGoPictures(t *testing.T) {
	folder := filepath.Join(os.Getenv("GOROOT"), "src", "image", "testdata")
	read := func(name string) []byte {
		data, err := os.ReadFile(filepath.Join(folder, name))
		if err != nil {
			t.Skip("no sample pictures of Go: ", err)
		}
		return data
	}
	base, progressive, rgb := decode(t, read("video-001.jpeg")), decode(t, read("video-001.progressive.jpeg")), decode(t, read("video-001.rgb.jpeg"))
	for _, at := range []image.Point{{20, 20}, {75, 50}, {120, 90}} {
		a, b, c := base.At(at.X, at.Y).Coded, progressive.At(at.X, at.Y).Coded, rgb.At(at.X, at.Y).Coded
		for i := range a {
			if math.Abs(a[i]-b[i]) > 1 || math.Abs(a[i]-c[i]) > 40 {
				t.Errorf("%v: %.0f, progressive %.0f, RGB %.0f", at, a, b, c)
			}
		}
	}
	if r := refused(t, read("video-001.cmyk.jpeg")); !strings.Contains(r.What, "CMYK") {
		t.Error(r)
	}
	if r := refused(t, read("video-005.gray.jpeg")); !strings.Contains(r.What, "grey") {
		t.Error(r)
	}
}

// ITU-T T.871, 7: to RGB without rounding, where image/color rounds down.
func TestUnrounded(t *testing.T) {
	img := image.NewYCbCr(image.Rect(0, 0, 16, 16), image.YCbCrSubsampleRatio444)
	for i := range img.Y {
		img.Y[i], img.Cb[i], img.Cr[i] = 40, 120, 136
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 100}); err != nil {
		t.Fatal(err)
	}
	want := photo.Triple{40 + 1.402*8, 40 + 0.344136*8 - 0.714136*8, 40 - 1.772*8}
	if got := decode(t, b.Bytes()).At(5, 5).Coded; math.Abs(got[0]-want[0])+math.Abs(got[1]-want[1])+math.Abs(got[2]-want[2]) > 1e-9 {
		t.Errorf("%v, want %v", got, want)
	}
}

func TestOut(t *testing.T) {
	img := plain(8, 8, color.NRGBA64{253 * 257, 100 * 257, 50 * 257, 0xffff})
	img.Set(1, 0, color.NRGBA64{254 * 257, 100, 100, 0xffff})
	img.Set(2, 0, color.NRGBA64{100 * 257, 0, 100 * 257, 0xffff})
	img.Set(3, 0, color.NRGBA64{100 * 257, 100 * 257, 100 * 257, 0xfffe})
	p := decode(t, phototest.PNG(img))
	for x, out := range []bool{false, true, true, true} {
		if px := p.At(x, 0); px.Out() != out || px.Clipped() != (x == 1) || px.Opaque != (x != 3) {
			t.Errorf("pixel %d: %+v", x, px)
		}
	}
}

// A photo can be given up while it is decoded, and says how far it is.
func TestCancelled(t *testing.T) {
	file := phototest.JPEG(plain(600, 600, color.White))
	var last, all int
	if _, err := photo.Decode(t.Context(), bytes.NewReader(file), func(done, of int) { last, all = done, of }); err != nil || last != all || all != len(file) {
		t.Errorf("%v, %d of %d of %d bytes", err, last, all, len(file))
	}
	ctx, cancel := context.WithCancel(t.Context())
	_, err := photo.Decode(ctx, bytes.NewReader(file), func(int, int) { cancel() })
	if !errors.Is(err, context.Canceled) {
		t.Errorf("%v after it was given up", err)
	}
}

// Hostile files are refused before memory is taken for what they claim.
func TestHostile(t *testing.T) {
	huge := phototest.JPEG(plain(16, 16, color.White))
	frame := bytes.Index(huge, []byte{0xff, 0xc0})
	sized := func(wide, high uint16) []byte {
		out := bytes.Clone(huge)
		binary.BigEndian.PutUint16(out[frame+5:], high)
		binary.BigEndian.PutUint16(out[frame+7:], wide)
		return out
	}
	bomb := phototest.PNG(plain(16, 16, color.NRGBA{9, 9, 9, 255}))
	header := func(wide, high uint32) []byte {
		out := bytes.Clone(bomb)
		binary.BigEndian.PutUint32(out[16:], wide)
		binary.BigEndian.PutUint32(out[20:], high)
		return out
	}
	passes := bytes.Clone(huge)
	scan := huge[bytes.Index(huge, []byte{0xff, 0xda}):]
	for range 300 {
		passes = append(passes[:len(passes)-2], scan...)
	}
	long := packed(make([]byte, 100_000_000))
	for name, file := range map[string][]byte{
		"too many pixels": sized(60000, 60000), "few bytes": sized(9999, 9999), "PNG too large": header(1<<31-1, 1<<31-1),
		"PNG wraps": header(1<<31, 1<<31), "PNG few bytes": header(9999, 9999), "passes": passes,
		"profile": phototest.WithChunk(bomb, "iCCP", long),
		"length":  phototest.WithSegment(huge, 0xe2, []byte("ICC_PROFILE\x00\x01\xff"))[:60],
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		start := time.Now()
		r := refused(t, file)
		runtime.ReadMemStats(&after)
		if took, mb := time.Since(start), float64(after.TotalAlloc-before.TotalAlloc)/1e6; mb > 60 || took > 5*time.Second {
			t.Errorf("%s: %.0f MB in %v (%v)", name, mb, took, r)
		}
	}
	if r := refused(t, sized(60000, 60000)); !strings.Contains(r.What, "100 million") {
		t.Error(r)
	}
}

// Whatever bytes come, there is a photo or an error, within the bounds.
func FuzzDecode(f *testing.F) {
	img := plain(24, 16, color.NRGBA{120, 80, 40, 255})
	profile := phototest.Profile("x", phototest.P3Colorants, phototest.SRGBCurve())
	exif := phototest.EXIF(binary.LittleEndian, 6, "2026:11:14 10:00:00")
	f.Add(phototest.WithEXIF(phototest.WithICC(phototest.JPEG(img), profile, 200), exif))
	f.Add(phototest.WithChunk(phototest.WithChunk(phototest.PNG(img), "iCCP", packed(profile)), "eXIf", exif))
	f.Add([]byte("\x00\x00\x00\x18ftypheic"))
	f.Fuzz(func(t *testing.T, file []byte) {
		p, err := photo.Decode(t.Context(), bytes.NewReader(file), nil)
		if err != nil {
			var r *photo.Refusal
			if !errors.As(err, &r) || r.What == "" || r.Remedy == "" {
				t.Fatalf("%v is no refusal", err)
			}
			return
		}
		for _, at := range []image.Point{{0, 0}, {p.Width - 1, 0}, {0, p.Height - 1}, {p.Width - 1, p.Height - 1}} {
			for _, v := range p.XYZ(p.At(at.X, at.Y).Coded) {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("XYZ %v at %v", v, at)
				}
			}
		}
	})
}

// Budget: a photo of 12 megapixels in 2 s and 80 MB.
func BenchmarkDecode12MP(b *testing.B) {
	img := image.NewYCbCr(image.Rect(0, 0, 4000, 3000), image.YCbCrSubsampleRatio420)
	for i := range img.Y {
		img.Y[i] = byte(uint32(i)*2654435761>>13) | 64
	}
	for i := range img.Cb {
		img.Cb[i], img.Cr[i] = byte(120+i%16), byte(120+i%13)
	}
	file := phototest.JPEG(img)
	b.ReportMetric(float64(len(file))/1e6, "MB-file")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := photo.Decode(b.Context(), bytes.NewReader(file), nil); err != nil {
			b.Fatal(err)
		}
	}
}
