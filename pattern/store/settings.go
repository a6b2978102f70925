package store

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/spoken"
	"example.com/oddments/pattern/store/tomlread"
)

// A ShopFile is a shop file as its maker wrote it. Set changes one key of it and leaves
// the rest as it stands, comments too. The zero value is no file: all is built in.
type ShopFile struct{ text string }

// Shop returns the workshop that f says.
func (f ShopFile) Shop() shop.Shop {
	s, err := f.shop()
	if err != nil {
		panic("store: a shop file that was read cannot be read: " + err.Error())
	}
	return s
}

func (f ShopFile) shop() (shop.Shop, error) {
	if f == (ShopFile{}) {
		return shop.Default(), nil
	}
	return ReadShop(strings.NewReader(f.text), shopFile)
}

// ReadShopFile reads a shop as ReadShop does, with its text.
func ReadShopFile(r io.Reader, name string) (ShopFile, error) {
	text, err := io.ReadAll(r)
	if err != nil {
		return ShopFile{}, err
	}
	if _, err := ReadShop(bytes.NewReader(text), name); err != nil {
		return ShopFile{}, err
	}
	return ShopFile{string(text)}, nil
}

// WriteShopFile writes f as it stands.
func WriteShopFile(out io.Writer, f ShopFile) error {
	_, err := io.WriteString(out, f.begun().text)
	return err
}

// begun returns f, or a file that says nothing yet where there is none.
func (f ShopFile) begun() ShopFile {
	if f == (ShopFile{}) {
		f.text = newWriter("shop", shopVersion).buf.String()
	}
	return f
}

// Alike reports whether f and o are the same text, for a history.
func (f ShopFile) Alike(o ShopFile) bool { return f == o }

// SavedAs is Alike, for a history; what is no file is saved as one that says nothing.
func (f ShopFile) SavedAs(o ShopFile) bool { return f.begun() == o.begun() }

// Step keeps both texts, for a history.
func (f ShopFile) Step(next ShopFile) (undo, redo func(ShopFile) ShopFile) {
	return func(ShopFile) ShopFile { return f }, func(ShopFile) ShopFile { return next }
}

// A Setting is one key of a shop, as its maker is told of it.
type Setting struct {
	Key   string // from the outside in: season.dry.humidity
	About string // what it is for
	Group Group
	Yours bool // the file says it; else it is built in
	now   key
	usual key
}

// A Group is a table of the shop's keys.
type Group struct{ Name, About string }

// Settings lists every key in the order of the file.
func (f ShopFile) Settings() []Setting {
	now, usual := f.Shop(), shop.Default()
	given := f.given()
	var all []Setting
	add := func(path string, about string, now, usual []key) {
		for i, k := range now {
			one := Setting{Key: strings.TrimPrefix(path+"."+k.name, "."), About: k.about, Group: Group{path, about}, now: k, usual: usual[i]}
			one.Yours = given[one.Key]
			all = append(all, one)
		}
	}
	add("", "", []key{unitsKey(&now)}, []key{unitsKey(&usual)})
	var walk func(before string, now, usual []section)
	walk = func(before string, now, usual []section) {
		for i, s := range now {
			add(before+s.name, s.about, s.keys, usual[i].keys)
			walk(before+s.name+".", s.within, usual[i].within)
		}
	}
	walk("", shopSections(&now), shopSections(&usual))
	return all
}

// Sample returns the lines of the groups named so as a file may have them, what a key is for
// above it; the group outside of all tables has no name.
func (f ShopFile) Sample(groups ...string) []string {
	var out []string
	last := ""
	for _, s := range f.Settings() {
		if !slices.Contains(groups, s.Group.Name) {
			continue
		}
		if s.Group.Name != last {
			last = s.Group.Name
			out = append(out, "", "["+last+"]")
		}
		out = append(out, "# "+s.now.comment(), s.now.name+" = "+s.now.text())
	}
	return out
}

// given returns which keys the file says.
func (f ShopFile) given() map[string]bool {
	given := map[string]bool{}
	d, err := tomlread.Parse(shopFile, strings.NewReader(f.text))
	if err != nil {
		return given
	}
	var none shop.Shop
	given["units"] = d.Root().May("units").Given()
	var walk func(before string, t *tomlread.Table, all []section)
	walk = func(before string, t *tomlread.Table, all []section) {
		for _, s := range all {
			own := t.May(s.name).Table()
			for _, k := range s.keys {
				given[before+s.name+"."+k.name] = own.May(k.name).Given()
			}
			walk(before+s.name+".", own, s.within)
		}
	}
	walk("", d.Root(), shopSections(&none))
	return given
}

// ErrNoSetting says that a shop has no key of that name.
var ErrNoSetting = errors.New("no such setting")

// Setting returns the one of that key. It is ErrNoSetting where there is none, and names
// the nearest.
func (f ShopFile) Setting(name string) (Setting, error) {
	all := f.Settings()
	var names []string
	for _, s := range all {
		if s.Key == name {
			return s, nil
		}
		names = append(names, s.Key)
	}
	err := fmt.Errorf("%s: %w", tomlread.Quote(name), ErrNoSetting)
	near := tomlread.Nearest(name, names)
	for _, n := range names {
		if _, last, _ := strings.Cut(n, "."); near == "" && name != "" && strings.Contains(last, name) {
			near = n
		}
	}
	if near != "" {
		err = fmt.Errorf("%w: did you mean %s?", err, near)
	}
	return Setting{}, err
}

// Find returns the setting of that key, or those of the group that is called so; of no name
// it returns all.
func (f ShopFile) Find(name string) (found []Setting, err error) {
	for _, s := range f.Settings() {
		if name == "" || s.Key == name || strings.HasPrefix(s.Key, name+".") {
			found = append(found, s)
		}
	}
	if len(found) == 0 {
		_, err = f.Setting(name)
	}
	return found, err
}

// Set returns f with the key of s as it was typed, lengths without a unit in u. The error
// says what would be right.
func (f ShopFile) Set(s Setting, typed string, u length.Unit) (ShopFile, error) {
	value, _, err := s.read(typed, u)
	if err != nil {
		return f, err
	}
	next := ShopFile{string(tomlread.Put([]byte(f.begun().text), strings.Split(s.Key, "."), value, s.now.comment()))}
	if _, err := next.shop(); err != nil {
		return f, fmt.Errorf("the file could not be read with it: %w", err)
	}
	if now, err := next.Setting(s.Key); err != nil || !now.Yours {
		return f, fmt.Errorf("%s could not be put into the file: write %s = %s there by hand", s.Key, s.now.name, value)
	}
	return next, nil
}

// Unset returns f without the key of s, which is built in again; comments stay.
func (f ShopFile) Unset(s Setting) (ShopFile, error) {
	next := ShopFile{string(tomlread.Drop([]byte(f.text), strings.Split(s.Key, "."), s.now.comment()))}
	now, err := next.Setting(s.Key)
	if err == nil && now.Yours {
		err = errors.New("it stands there in a way that only a hand can take out")
	}
	if err != nil {
		return f, fmt.Errorf("%s could not be taken out of the file: %w", s.Key, err)
	}
	return next, nil
}

// Check returns how what was typed is read, or what is wrong with it.
func (s Setting) Check(typed string, u length.Unit) (understood string, err error) {
	_, understood, err = s.read(typed, u)
	return understood, err
}

// read returns what was typed as the file has it, once the key takes it, and as it is
// shown.
func (s Setting) read(typed string, u length.Unit) (value, understood string, err error) {
	fresh, err := ShopFile{}.Setting(s.Key) // what is read must not change what is shown
	if err != nil {
		return "", "", err
	}
	k := fresh.now
	value, err = k.told.asFile(typed, u)
	if err != nil {
		return "", "", err
	}
	d, err := tomlread.Parse(shopFile, strings.NewReader(k.name+" = "+value))
	if err != nil {
		return "", "", err
	}
	k.read(d.Root().May(k.name))
	var wrong Errors
	if err := d.Finish(); errors.As(err, &wrong) {
		return "", "", errors.New(wrong[0].Message)
	}
	return value, k.shown(u), nil
}

// asFile returns what was typed as the file has it.
func (t told) asFile(text string, u length.Unit) (string, error) {
	text = strings.TrimSpace(text)
	switch {
	case t.typed == nil:
		return quoted(text), nil
	case t.unit != length.InMM.String(): // lengths may be typed in another
		text = strings.TrimSuffix(text, t.unit)
	}
	return t.typed(text, u)
}

// Source says where the value comes from: yours, built in.
func (s Setting) Source() string {
	if s.Yours {
		return "yours"
	}
	return "built in"
}

// Unit returns the unit of the value; empty: it has none.
func (s Setting) Unit() string { return s.now.told.unit }

// Range returns what the value may be.
func (s Setting) Range(u length.Unit) string { return s.now.told.most(u) }

// Value returns the value as JSON has it, lengths in millimetres; Usual the built-in one.
func (s Setting) Value() any { return s.now.told.value() }

// Usual returns the built-in value as Value does.
func (s Setting) Usual() any { return s.usual.told.value() }

// Shown returns the value for the eye, with its unit.
func (s Setting) Shown(u length.Unit) string { return s.now.shown(u) }

// ShownUsual returns the built-in value as Shown does.
func (s Setting) ShownUsual(u length.Unit) string { return s.usual.shown(u) }

// Typed returns the value as it is typed.
func (s Setting) Typed(u length.Unit) string { return s.now.field(u) }

func (k key) shown(u length.Unit) string {
	if k.told.shown != nil {
		return k.told.shown(u)
	}
	text := k.field(u)
	switch {
	case text == "":
		return "none"
	case k.told.unit == "":
		return text
	}
	return text + " " + k.told.unit
}

func (k key) field(u length.Unit) string {
	if k.told.field != nil {
		return k.told.field(u)
	}
	return unquoted(k.text())
}

// lengthsTold is how a list of lengths is told of, with that between them.
func lengthsTold(between string, all func() []length.Length) told {
	join := func(one func(length.Length) string) string {
		var texts []string
		for _, l := range all() {
			texts = append(texts, one(l))
		}
		return strings.Join(texts, between)
	}
	return told{
		unit: length.InMM.String(),
		shown: func(u length.Unit) string {
			if len(all()) == 0 {
				return "none"
			}
			return join(func(l length.Length) string { return l.Format(u) }) + " " + u.String()
		},
		field: func(u length.Unit) string { return strings.Join(length.TypedTogether(u, all()...), between) },
		value: func() any {
			mm := []float64{}
			for _, l := range all() {
				mm = append(mm, l.MM())
			}
			return mm
		},
		typed: func(text string, u length.Unit) (string, error) {
			if strings.TrimSpace(text) == "" || text == "none" {
				return "[]", nil
			}
			return typedLengths(strings.Split(text, strings.TrimSpace(between)), u)
		},
	}
}

// typedLengths returns lengths that were typed together as a list of the file.
func typedLengths(texts []string, u length.Unit) (string, error) {
	meant, err := length.Together(texts, u)
	if err != nil {
		return "", err
	}
	for i, text := range meant {
		l, err := length.ParseIn(strings.ReplaceAll(text, "-", " "), u)
		if err != nil {
			return "", err
		}
		meant[i] = lengthText(l)
	}
	return "[" + strings.Join(meant, ", ") + "]", nil
}

func typedLength(text string, u length.Unit) (string, error) {
	l, err := length.ParseIn(text, u)
	return lengthText(l), err
}

func typedNumber(text string, _ length.Unit) (string, error) {
	x, err := spoken.Decimal(strings.TrimSpace(text))
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return "", fmt.Errorf("%s: must be a number", tomlread.Quote(text))
	}
	return decimal(x), nil
}

func typedPair(text string, u length.Unit) (string, error) {
	words := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" ;[]", r) })
	for i, word := range words {
		number, err := typedNumber(strings.TrimSuffix(word, ","), u)
		if err != nil {
			return "", err
		}
		words[i] = number
	}
	return "[" + strings.Join(words, ", ") + "]", nil
}
