package store

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"example.com/oddments/pattern/store/tomlread"
	"example.com/oddments/pattern/tell"
)

const (
	tomlEnding  = ".toml"
	longestStem = 60
	noName      = "pattern" // the stem of a name without a letter or digit
)

// folded gives Latin letters that are not of the English alphabet in letters that
// are. What is not here is left out of a stem.
var folded = strings.NewReplacer(
	"ä", "a", "à", "a", "á", "a", "â", "a", "ã", "a", "å", "a", "ā", "a", "ă", "a", "ą", "a",
	"æ", "ae", "œ", "oe", "ß", "ss", "þ", "th", "ð", "d", "đ", "d", "ď", "d",
	"ç", "c", "ć", "c", "č", "c",
	"é", "e", "è", "e", "ê", "e", "ë", "e", "ē", "e", "ė", "e", "ę", "e", "ě", "e",
	"ğ", "g", "í", "i", "ì", "i", "î", "i", "ï", "i", "ī", "i", "ı", "i", "ł", "l", "ľ", "l",
	"ñ", "n", "ń", "n", "ň", "n",
	"ö", "o", "ò", "o", "ó", "o", "ô", "o", "õ", "o", "ø", "o", "ō", "o", "ő", "o",
	"ř", "r", "ś", "s", "š", "s", "ş", "s", "ș", "s", "ť", "t", "ţ", "t", "ț", "t",
	"ü", "u", "ù", "u", "ú", "u", "û", "u", "ū", "u", "ů", "u", "ű", "u",
	"ý", "y", "ÿ", "y", "ź", "z", "ż", "z", "ž", "z",
	"'", "", "’", "",
)

// Stem returns the stem that a pattern of that name is saved under: lower-case
// letters, digits and hyphens. "Rookery square" becomes rookery-square.
func Stem(name string) string {
	var b strings.Builder
	gap := false
	for _, r := range folded.Replace(strings.ToLower(name)) {
		if !stemRune(r) {
			gap = b.Len() > 0
			continue
		}
		if b.Len() >= longestStem-1 {
			break
		}
		if gap {
			b.WriteByte('-')
			gap = false
		}
		b.WriteRune(r)
	}
	stem := b.String()
	switch {
	case stem == "":
		return noName
	case reserved(stem):
		return noName + "-" + stem
	default:
		return stem
	}
}

func stemRune(r rune) bool { return r >= 'a' && r <= 'z' || r >= '0' && r <= '9' }

// CheckStem refuses what is no stem. A stem never leads out of the folder.
func CheckStem(stem string) error {
	ok := stem != "" && len(stem) <= longestStem && stem[0] != '-' && !reserved(stem)
	for _, r := range stem {
		ok = ok && (stemRune(r) || r == '-')
	}
	if ok {
		return nil
	}
	return fmt.Errorf("%w: %s: must be lower-case letters, digits and hyphens, at most %d", ErrStem, tomlread.Quote(stem), longestStem)
}

// reserved reports whether Windows keeps a name for a device, with any ending.
func reserved(stem string) bool {
	switch stem {
	case "con", "prn", "aux", "nul":
		return true
	}
	return len(stem) == 4 && (strings.HasPrefix(stem, "com") || strings.HasPrefix(stem, "lpt")) &&
		stem[3] >= '0' && stem[3] <= '9'
}

// freeStem returns the stem of name, with -2 or the next number behind it where it is
// taken.
func freeStem(name string, taken func(string) bool) string { return numbered(Stem(name), taken) }

// numbered returns stem, with -2 or the next number behind it where it is taken.
func numbered(stem string, taken func(string) bool) string {
	if !taken(stem) {
		return stem
	}
	for n := 2; ; n++ {
		tail := fmt.Sprintf("-%d", n)
		head := strings.TrimRight(stem[:min(len(stem), longestStem-len(tail))], "-")
		if next := head + tail; !taken(next) {
			return next
		}
	}
}

// nearestStem returns a hint to a stem that is not there.
func nearestStem(stem string, all []string) string {
	const most = 8 // names that a hint has room for
	if near := tomlread.Nearest(stem, all); near != "" {
		return "did you mean " + near + "?"
	}
	begun := slices.DeleteFunc(slices.Clone(all), func(s string) bool { return !strings.HasPrefix(s, stem) })
	if len(begun) > 0 && len(begun) <= most {
		return "did you mean " + tell.List(begun, "or") + "?"
	}
	if len(all) == 0 {
		return "no pattern is saved in this home yet; oddments without a name opens the demo, which can be saved there"
	}
	named, rest := all[:min(most, len(all))], ""
	if n := len(all) - len(named); n > 0 {
		rest = fmt.Sprintf(" and %d more", n)
	}
	return "saved patterns: " + strings.Join(named, ", ") + rest + "; a file has a slash in it, or .toml at its end"
}

// nearestFile returns a hint to a file that is not there; none where err is another.
func nearestFile(path string, err error) string {
	if !errors.Is(err, fs.ErrNotExist) {
		return ""
	}
	folder, name := filepath.Split(path)
	entries, err := os.ReadDir(cmp.Or(folder, "."))
	if err != nil {
		return "check the path: there is no folder " + folder
	}
	ending := filepath.Ext(name)
	var alike []string
	for _, e := range entries {
		if stem, ok := strings.CutSuffix(e.Name(), ending); ok && !e.IsDir() {
			alike = append(alike, stem)
		}
	}
	if near := tomlread.Nearest(strings.TrimSuffix(name, ending), alike); near != "" {
		return "did you mean " + folder + near + ending + "?"
	}
	return "check the path, or name the file with its whole path"
}
